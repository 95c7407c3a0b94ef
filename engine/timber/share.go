package timber

import "math"

// Shares is what two skins that touch over their whole height take of one
// pressure.
type Shares struct {
	// Outer and Inner are the shares by stiffness; they add up to 1.
	Outer, Inner float64
	// OuterTakes and InnerTakes are what each is checked for: its share times
	// 1.2, at most all.
	OuterTakes, InnerTakes float64
}

// unevenShare covers that contact is not perfect (structure reference, section
// 5).
const unevenShare = 1.2

// ShareByEI splits a pressure between two skins that bend together, by their
// stiffnesses, kNm2/m. The outer one may creep: the inner takes at least what is
// its share once the outer has lost stiffness by that factor (1 for none).
func ShareByEI(outer, inner, creep float64) Shares {
	s := Shares{Outer: outer / (outer + inner)}
	s.Inner = 1 - s.Outer
	crept := inner / (outer/creep + inner)
	s.OuterTakes = math.Min(1, unevenShare*s.Outer)
	s.InnerTakes = math.Min(1, math.Max(unevenShare*s.Inner, crept))
	return s
}
