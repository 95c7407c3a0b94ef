package timber

import (
	"fmt"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/quantity"
)

// Sources that several checks name.
const (
	srcValues  = "NDS Supplement table 4A, No. 2, by a public finite-element library (verified)"
	srcFactors = "CF and Cr NELMA grading rules, CM by the same library (verified); CD 0.9, Ci, the wet exceptions at 1150 and 750 psi (memory)"
	srcLRFD    = "NDS appendix N: KF, φ, λ 0.6 for lasting load (memory)"
	srcStat    = "beam statics (derived)"
	srcPly     = "PS 1 panel capacities, CD 0.9, CM 0.80 (memory)"
	srcShare   = "structure reference, section 5: sharing by EI, the share times 1.2"
)

// Check makes the check of a stud in bending, in shear and where it bears on
// the rails.
func (s Stud) Check() (check.Check, StudResult, error) {
	r, err := s.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: "stud", Title: "Stud of the outside skin",
		Method: "Upright pinned on the rails, allowable stresses and load factors of wood design",
		Source: srcValues + "; " + srcFactors + "; " + srcLRFD,
		Assumptions: []string{
			"Grade No. 2, straight, in one piece from rail to rail; plywood or fill holds it against turning.",
			"It lies against both rails over its full breadth, and on each over the depth of the rail.",
			"All pressure counts as lasting load.",
		},
		Validity: "Sound wood: what rot takes in the ground is not counted. Nails, and the rail itself where the stud presses on it, are not checked here.",
		Case:     box.Allowable[1].Name, CaseLRFD: box.Strength[1].Name,
		Working: s.working(&r),
	}
	s.govern(&c, &r)
	if most := c.Worst(); most > 1 {
		c.Remedy = "Studs no further apart than {0}, deeper ones, a drained fill, or less fill."
		c.RemedyQ = []quantity.Q{quantity.Of("", s.Spacing/most, quantity.Length)}
	}
	return c, r, nil
}

// govern sets demand, capacity and ratios by what has the largest ratio.
func (s Stud) govern(c *check.Check, r *StudResult) {
	w := r.Worst()
	c.Ratio, c.RatioLRFD = w.ASD, w.LRFD
	switch w.ASD {
	case r.Bend.ASD:
		c.Demand = quantity.Of("M", r.M.ASD, quantity.Moment)
		c.Capacity = quantity.Of("S·Fb'", r.S*r.ASD.Fb, quantity.Moment)
	case r.Shear.ASD:
		c.Demand = quantity.Of("fv", 1.5*r.V.ASD/r.A, quantity.Stress)
		c.Capacity = quantity.Of("Fv'", r.ASD.Fv, quantity.Stress)
	default:
		c.Demand = quantity.Of("fc⊥", r.Bear.ASD*r.ASD.FcP, quantity.Stress)
		c.Capacity = quantity.Of("Fc⊥'", r.ASD.FcP, quantity.Stress)
	}
}

func (s Stud) working(r *StudResult) []check.Line {
	stress := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Stress) }
	num := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.None) }
	ratio := func(v float64) quantity.Q { return quantity.Of("r", v, quantity.Ratio) }
	length := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Length) }
	force := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Force) }
	where, reaction, on := "the lower rail", r.Rb.ASD, s.Bottom
	if r.BearTop {
		where, reaction, on = "the upper rail", r.Rt.ASD, s.Top
	}
	return []check.Line{{
		Text: "Allowable bending stress of " + s.Lumber.ID, Formula: "Fb' = Fb·CD·CM·CF·Cr·Ci",
		Terms:  []quantity.Q{stress("Fb", s.Lumber.Fb), num("CD", r.CD), num("CM", r.MFb), num("CF", r.CF), num("Cr", r.Cr), num("Ci", r.IF)},
		Result: stress("Fb'", r.ASD.Fb), Source: srcValues + "; " + srcFactors,
	}, {
		Text: "Moment in one stud", Formula: "V(z) = 0 → M",
		Terms:  []quantity.Q{length("s", s.Spacing), length("L", s.Height), num("share", s.Share), force("Rb", r.Rb.ASD), force("Rt", r.Rt.ASD), length("z", r.Beam.SMax)},
		Result: quantity.Of("M", r.M.ASD, quantity.Moment), Source: srcStat,
	}, {
		Text: "Bending, allowable stress", Formula: "r = M/(S·Fb')",
		Terms:  []quantity.Q{quantity.Of("S", r.S, quantity.SectionModulus), stress("Fb'", r.ASD.Fb)},
		Result: ratio(r.Bend.ASD), Source: srcStat,
	}, {
		Text: "Bending, load and resistance factors", Formula: "r = 1.6·M/(KF·φ·λ·S·Fb'/CD)",
		Terms:  []quantity.Q{num("KF", kfFb), num("φ", phiFb), num("λ", lambdaLasting)},
		Result: ratio(r.Bend.LRFD), Source: srcLRFD,
	}, {
		Text: "Shear, allowable stress", Formula: "r = 1.5·V/(A·Fv'), Fv' = Fv·CD·CM·Ci",
		Terms:  []quantity.Q{force("V", r.V.ASD), quantity.Of("A", r.A, quantity.Area), stress("Fv'", r.ASD.Fv)},
		Result: ratio(r.Shear.ASD), Source: srcFactors,
	}, {
		Text: "Bearing across the grain on " + where, Formula: "r = R/(b·l·Fc⊥'), Fc⊥' = Fc⊥·CM",
		Terms:  []quantity.Q{force("R", reaction), length("b", s.Lumber.B), length("l", on), stress("Fc⊥'", r.ASD.FcP)},
		Result: ratio(r.Bear.ASD), Source: srcFactors,
	}}
}

// SagCheck checks the bow of a stud under lasting load, creep included, against
// its height over limit.
func (s Stud) SagCheck(limit float64) (check.Check, StudResult, error) {
	if err := box.SagLimitRange(limit); err != nil {
		return check.Check{}, StudResult{}, err
	}
	r, err := s.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	creep := s.Use.Creep()
	c := box.Sag{ID: "stud-deflection", Title: "Bow of the studs", Method: "Deflection under service loads, with creep",
		Source: "deflection limit " + fmt.Sprintf("L/%.0f", limit) + " (common practice); creep NDS 3.5.2 (memory)", From: "common practice",
		W: r.Sag, Span: s.Height, Limit: limit}.Check(
		check.Line{
			Text: "Stiffness of one stud", Formula: "E' = E·CM·Ci",
			Terms: []quantity.Q{quantity.Of("E", s.Lumber.E, quantity.Stress), quantity.Of("CM", r.ME, quantity.None),
				quantity.Of("Ci", r.IE, quantity.None), quantity.Of("I", r.I, quantity.SecondMoment)},
			Result: quantity.Of("E'", r.ASD.E, quantity.Stress), Source: srcFactors,
		},
		check.Line{
			Text: "Bow once the wood has crept", Formula: "w = Kcr·we",
			Terms:  []quantity.Q{quantity.Of("Kcr", creep, quantity.None), quantity.Of("we", r.Sag/creep, quantity.Thickness)},
			Result: quantity.Of("w", r.Sag, quantity.Thickness), Source: "NDS 3.5.2 (memory)",
		})
	c.Assumptions = []string{"All pressure lasts.", "What the stud takes is what its own check says."}
	if c.Ratio > 1 {
		c.Remedy = "Deeper studs, or studs closer together."
	}
	return c, r, nil
}
