package concrete

import (
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/quantity"
)

// Slab is a metre of slab that spans one way between two edge beams, with bars
// near its underside. Its own weight comes on top of the loads given.
type Slab struct {
	Section
	box.Across
}

// SlabResult is what comes out of a slab.
type SlabResult struct {
	Strength
	box.AcrossResult
	Own         float64 // kPa
	Bend, Shear float64 // ratios
	Lean        float64 // least area of bars over that given
}

// Worst is the largest ratio of the slab.
func (r *SlabResult) Worst() float64 { return math.Max(math.Max(r.Bend, r.Shear), r.Lean) }

// Solve does the statics of the slab in every combination.
func (s Slab) Solve() (SlabResult, error) {
	var r SlabResult
	err := quantity.Within("spacing of the bars of the slab", s.Bars.Spacing, 0.02, 1, quantity.Length)
	if err != nil {
		return r, err
	}
	if r.Strength, err = s.Strength(); err != nil {
		return r, err
	}
	r.Own = Gamma * s.Thickness
	r.Lean = s.LeastSlab() / r.As
	load := s.Across
	load.Even.D += r.Own
	if r.AcrossResult, err = load.Solve(); err != nil {
		return r, err
	}
	r.Bend, r.Shear = r.M.LRFD/(r.Phi*r.Mn), r.V.LRFD/(r.PhiV*r.Vn)
	return r, nil
}

// Check makes the check of the slab in bending and shear, and of its least
// steel.
func (s Slab) Check() (check.Check, SlabResult, error) {
	r, err := s.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: "roof-slab", Title: "Slab over the roof", Method: "One-way strip between the edge beams, load factors",
		Source: srcBars, Ratio: math.NaN(), RatioLRFD: r.Worst(), CaseLRFD: r.MCase.LRFD,
		Assumptions: []string{
			"It lies clear of the roof of the box and rests on the edge beams alone.",
			"Bars across near the underside; none of the load is shared lengthwise, wheels included.",
		},
		Validity: onlyLRFD + " Bars lengthwise, cracking and punching by a wheel are not checked.",
	}
	switch c.RatioLRFD {
	case r.Bend:
		c.Demand, c.Capacity = quantity.Of("Mu", r.M.LRFD, quantity.LineMoment), quantity.Of("φ·Mn", r.Phi*r.Mn, quantity.LineMoment)
	case r.Shear:
		c.CaseLRFD = r.VCase.LRFD
		c.Demand, c.Capacity = quantity.Of("Vu", r.V.LRFD, quantity.LineLoad), quantity.Of("φ·Vn", r.PhiV*r.Vn, quantity.LineLoad)
	default:
		c.Demand, c.Capacity = quantity.Of("As,min", s.LeastSlab(), quantity.SheetArea), quantity.Of("As", r.As, quantity.SheetArea)
	}
	c.Working = s.working(&r)
	if c.RatioLRFD > 1 {
		c.Remedy = "A thicker slab, more bars, or less cover."
	}
	return c, r, nil
}

func (s Slab) working(r *SlabResult) []check.Line {
	kPa := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Pressure) }
	ratio := func(v float64) quantity.Q { return quantity.Of("r", v, quantity.Ratio) }
	out := []check.Line{{
		Text: "Largest factored moment, " + r.MCase.LRFD, Formula: "Mu = wu·L²/8, wheels as they lie",
		Terms: []quantity.Q{kPa("D", s.Even.D), kPa("own", r.Own), kPa("L", s.Even.L), kPa("S", s.Even.S),
			quantity.Of("L", s.Span, quantity.Length)},
		Result: quantity.Of("Mu", r.M.LRFD, quantity.LineMoment), Source: srcStat,
	}}
	out = append(out, s.Section.lines(&r.Strength)...)
	return append(out,
		check.Line{Text: "Bending", Formula: "r = Mu/(φ·Mn)",
			Terms:  []quantity.Q{quantity.Of("φ", r.Phi, quantity.None), quantity.Of("Mn", r.Mn, quantity.LineMoment)},
			Result: ratio(r.Bend), Source: srcBars},
		check.Line{Text: "Shear without stirrups", Formula: "r = Vu/(φ·Vc), Vc = 2·√f'c·d in psi, 0.17·√f'c·d in MPa",
			Terms: []quantity.Q{quantity.Of("Vu", r.V.LRFD, quantity.LineLoad), quantity.Of("φ", r.PhiV, quantity.None),
				quantity.Of("Vc", r.Vn, quantity.LineLoad)},
			Result: ratio(r.Shear), Source: srcBars},
		check.Line{Text: "Least steel of a slab", Formula: "As,min = 0.0018·t",
			Terms:  []quantity.Q{quantity.Of("As", r.As, quantity.SheetArea)},
			Result: quantity.Of("As,min", s.LeastSlab(), quantity.SheetArea), Source: "ACI 318 24.4.3 (memory)"})
}

// spanOverDepth is the span over the thickness of a one-way slab, free to turn
// at both ends, up to which its bow need not be computed (ACI 318 table
// 7.3.1.1, memory).
const spanOverDepth = 20.0

// DepthCheck checks the thickness of the slab against its span: a thinner one
// would bow more than was looked at.
func (s Slab) DepthCheck() (check.Check, error) {
	if _, err := s.Solve(); err != nil {
		return check.Check{}, err
	}
	need := s.Span / spanOverDepth
	c := check.Check{
		ID: "roof-slab-depth", Title: "Bow of the slab, by its thickness", Method: "Least thickness of a one-way slab",
		Source: "ACI 318 table 7.3.1.1, L/20 (memory)", Ratio: need / s.Thickness, RatioLRFD: math.NaN(),
		Demand: quantity.Of("L/20", need, quantity.Thickness), Capacity: quantity.Of("t", s.Thickness, quantity.Thickness),
		Assumptions: []string{"Nothing brittle hangs from the slab."},
		Working: []check.Line{{Text: "Least thickness", Formula: "tmin = L/20", Terms: []quantity.Q{quantity.Of("L", s.Span, quantity.Length)},
			Result: quantity.Of("tmin", need, quantity.Thickness), Source: "ACI 318 table 7.3.1.1 (memory)"}},
	}
	if c.Ratio > 1 {
		c.Remedy = "A slab {0} thick."
		c.RemedyQ = []quantity.Q{quantity.Of("", need, quantity.Thickness)}
	}
	return c, nil
}
