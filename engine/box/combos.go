package box

import "slices"

// Effects are the effects of one kind of load each, in any one unit: dead,
// live, earth with ground water, fluid of known greatest level, and the
// largest of roof live load, snow and rain.
type Effects struct{ D, L, H, F, S float64 }

// Combo is one load combination: the factors of the five kinds.
type Combo struct {
	Name string
	Effects
}

// Of is the combined effect.
func (c *Combo) Of(e Effects) float64 {
	return c.D*e.D + c.L*e.L + c.H*e.H + c.F*e.F + c.S*e.S
}

// Strength lists the combinations for load and resistance factors, without
// wind and earthquake (building code form with H and F, verified; structure
// reference, section 7). For H that holds against the rest see StrengthHeld.
var Strength = []Combo{
	{"1.4(D + F)", Effects{D: 1.4, F: 1.4}},
	{"1.2(D + F) + 1.6(L + H) + 0.5S", Effects{D: 1.2, F: 1.2, L: 1.6, H: 1.6, S: 0.5}},
	{"1.2(D + F) + 1.6S + 1.6H + 0.5L", Effects{D: 1.2, F: 1.2, S: 1.6, H: 1.6, L: 0.5}},
	{"0.9D + 1.6H", Effects{D: 0.9, H: 1.6}},
}

// Allowable lists the combinations for allowable strength.
var Allowable = []Combo{
	{"D + F", Effects{D: 1, F: 1}},
	{"D + H + F + L", Effects{D: 1, H: 1, F: 1, L: 1}},
	{"D + H + F + S", Effects{D: 1, H: 1, F: 1, S: 1}},
	{"D + H + F + 0.75L + 0.75S", Effects{D: 1, H: 1, F: 1, L: 0.75, S: 0.75}},
	{"0.6D + H", Effects{D: 0.6, H: 1}},
}

// Where the earth on the walls holds against what else acts, as on a roof beam
// that a stiff frame ties to them, it counts 0.9 or 0.6 of what surely presses
// (structure reference, section 7, verified). With nothing that comes and goes
// these lie between combinations above, and no straight mix of two loads is
// worse than the worse of the two.
var (
	StrengthHeld = []Combo{
		{"1.2(D + F) + 1.6L + 0.9H + 0.5S", Effects{D: 1.2, F: 1.2, L: 1.6, H: 0.9, S: 0.5}},
		{"1.2(D + F) + 1.6S + 0.9H + 0.5L", Effects{D: 1.2, F: 1.2, S: 1.6, H: 0.9, L: 0.5}},
	}
	AllowableHeld = []Combo{
		{"D + 0.6H + F + L", Effects{D: 1, H: 0.6, F: 1, L: 1}},
		{"D + 0.6H + F + S", Effects{D: 1, H: 0.6, F: 1, S: 1}},
		{"D + 0.6H + F + 0.75L + 0.75S", Effects{D: 1, H: 0.6, F: 1, L: 0.75, S: 0.75}},
	}
	allStrength  = slices.Concat(Strength, StrengthHeld)
	allAllowable = slices.Concat(Allowable, AllowableHeld)
)

// All that presses on a wall is earth with ground water or live load, and both
// have the same factor: these combinations govern it, whatever the shares.
var (
	wallCase     = Allowable[1].Name
	wallCaseLRFD = Strength[1].Name
)

// Cases are the names of the combinations that gave a Pair.
type Cases struct{ ASD, LRFD string }

// orWall are the names, of what presses on a wall where none are given.
func (c Cases) orWall() (asd, lrfd string) {
	if c == (Cases{}) {
		return wallCase, wallCaseLRFD
	}
	return c.ASD, c.LRFD
}

// Largest is the largest combined effect and the name of its combination.
func Largest(combos []Combo, e Effects) (float64, string) {
	best, name := combos[0].Of(e), combos[0].Name
	for k := range combos {
		if v := combos[k].Of(e); v > best {
			best, name = v, combos[k].Name
		}
	}
	return best, name
}
