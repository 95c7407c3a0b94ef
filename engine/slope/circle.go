package slope

import (
	"errors"
	"fmt"
	"math"
)

// Why a method gives no factor.
var (
	ErrRests  = errors.New("nothing drives the mass")
	ErrArc    = errors.New("the method holds for a circle only")
	ErrSteep  = errors.New("the slip line is too steep for the method")
	ErrRounds = errors.New("the method does not settle")
)

// mAlphaLeast is the least m_alpha that Bishop's method takes: below it the
// force on the base of a slice grows out of all measure.
const mAlphaLeast = 0.2

// drives is the moment, over the radius, that drives a mass on a circle, kN: the
// weights, what an earthquake adds, the water in a crack. A straight line is a
// circle of no end.
func (m *Mass) drives() float64 {
	sum := 0.0
	for i := range m.Slices {
		s := &m.Slices[i]
		sum += s.Weight*s.sin + m.Kh*s.Soil*m.lever(s.Middle, s.cos)
	}
	if m.Thrust > 0 {
		sum += m.Thrust * m.lever(m.Level, m.Slices[len(m.Slices)-1].cos)
	}
	return sum
}

// lever is how far above a level the centre lies, over the radius.
func (m *Mass) lever(z, cos float64) float64 {
	if m.r == 0 {
		return cos
	}
	return (m.centre[1] - z) / m.r
}

// plane tells a straight slip line.
func (m *Mass) plane() bool { return m.r == 0 && len(m.Slip.points()) == 2 }

// Ordinary is the factor of safety of the ordinary method: [sum c l + (W cos a -
// u l - kh W sin a) tan phi] over what drives (Fellenius 1927, memory). It holds
// for a circle and a plane, and lies up to a tenth and more below the others.
func (m *Mass) Ordinary() (float64, error) {
	if m.r == 0 && !m.plane() {
		return 0, ErrArc
	}
	d := m.drives()
	if d <= 0 {
		return 0, ErrRests
	}
	sum := 0.0
	for i := range m.Slices {
		s := &m.Slices[i]
		sum += s.C*s.Length + (s.Weight*s.cos-s.U*s.Length-m.Kh*s.Soil*s.sin)*s.Tan
	}
	return sum / d, nil
}

// Bishop is the factor of safety of Bishop's simplified method: sum of [c b + (W
// - u b) tan phi]/m_alpha over what drives, m_alpha = cos a + sin a tan phi/F
// (Bishop 1955, memory). It holds for a circle, and where m_alpha is nowhere
// below 0.2.
func (m *Mass) Bishop() (float64, error) {
	if m.r == 0 {
		return 0, ErrArc
	}
	d := m.drives()
	if d <= 0 {
		return 0, ErrRests
	}
	f := 1.5
	for range 200 {
		sum := 0.0
		for i := range m.Slices {
			s := &m.Slices[i]
			ma := s.cos + s.sin*s.Tan/f
			if ma < mAlphaLeast && s.Tan > 0 {
				return 0, ErrSteep
			}
			b := s.X[1] - s.X[0]
			sum += (s.C*b + (s.Weight-s.U*b)*s.Tan) / ma
		}
		if sum <= 0 {
			return 0, fmt.Errorf("%w: water lifts the mass", ErrRounds)
		}
		next := sum / d
		if math.Abs(next-f) < 1e-7*f {
			return next, nil
		}
		f = next
	}
	return 0, ErrRounds
}

// Lever is how far above the middle of a slice the centre of the circle lies,
// over its radius.
func (m *Mass) Lever(s *Slice) float64 { return m.lever(s.Middle, s.cos) }
