package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
)

// slenderness of a cross strut over the width of the room, about its weaker axis.
func (in Rib) slenderness(s CrossBar) float64 { return in.Width / math.Min(s.Bar.Rx, s.Bar.Ry) }

// limber is how far a strut is from being too limber: its sag over L/240, and its
// slenderness over 200.
func (in Rib) limber(s CrossBar, r *StrutRating) (sag, slender float64) {
	return r.Sag * BowLimit / in.Width, in.slenderness(s) / longStrut
}

// StrutLimber is the most limber cross strut of a solved rib with the larger of its
// two ratios; -1 without struts.
func (in Rib) StrutLimber(r *RibResult) (at int, ratio float64) {
	at = -1
	for k := range r.Struts {
		if v := math.Max(in.limber(in.Struts[k], &r.Struts[k])); at < 0 || v > ratio {
			at, ratio = k, v
		}
	}
	return at, ratio
}

// StrutSag checks that the most limber cross strut of a rib neither hangs through
// nor is too slender.
func StrutSag(in Rib) (check.Check, RibResult, error) { return in.checked(StrutSagOf) }

// StrutSagOf is StrutSag of a rib that is solved.
func StrutSagOf(in Rib, r *RibResult) (check.Check, error) {
	at, ratio := in.StrutLimber(r)
	if at < 0 {
		return check.Check{}, quantity.Range("number of cross struts", 0, 1, 100)
	}
	bar, rated := in.Struts[at], &r.Struts[at]
	st, err := in.strutStrength(bar)
	if err != nil {
		return check.Check{}, err
	}
	sag, slender := in.limber(bar, rated)
	c := check.Check{
		ID: "strut-sag", Title: "Sag and slenderness of a cross strut", Method: "Deflection under own weight and a side load, raised by the force; KL/r",
		Source: bowSource + "; KL/r up to 200 (AISC 360 E2, user note, memory); beam tables (common practice)",
		Assumptions: []string{
			"Hinged at both ends, at the middle of the posts.",
			"A load of " + quantity.Brief.Text(bump, quantity.Force) + " in its middle, for hands and stored goods (common practice).",
		},
		Validity: "Elastic; straight struts, nothing is hung on them.",
		Ratio:    ratio, RatioLRFD: nan, Case: rated.SagCombo,
		Demand: quantity.Of("w", rated.Sag, quantity.Thickness), Capacity: quantity.Of("wa", in.Width/BowLimit, quantity.Thickness),
		Working: []check.Line{{
			Text: "Sag under its own weight and the load in its middle", Formula: "w0 = (5·g·L/8 + F)·L³/(48·E·I)",
			Terms: []quantity.Q{
				quantity.Of("g", bar.Bar.Mass*gravity, quantity.LineLoad), quantity.Of("F", bump, quantity.Force), quantity.Of("L", in.Width, quantity.Length),
				quantity.Of("E", in.Steel.E, quantity.Stress), quantity.Of("I", bar.Bar.Ix, quantity.SecondMoment),
			},
			Result: quantity.Of("w0", st.sag, quantity.Thickness), Source: "beam tables (common practice)",
		}, {
			Text: "The same under the force along it, " + rated.SagCombo, Formula: "w = w0/(1 − N/PE)",
			Terms:  []quantity.Q{quantity.Of("N", rated.SagForce, quantity.Force), quantity.Of("PE", st.pex, quantity.Force)},
			Result: quantity.Of("w", rated.Sag, quantity.Thickness), Source: "AISC 360 App. 8 (memory)",
		}, {
			Text: "Slenderness about the weaker axis", Formula: "KL/r, K = 1",
			Terms:  []quantity.Q{quantity.Of("r", math.Min(bar.Bar.Rx, bar.Bar.Ry), quantity.Thickness)},
			Result: quantity.Of("KL/r", in.slenderness(bar), quantity.None), Source: "AISC 360 E2 (memory)",
		}, {
			Text: "Ratio: sag and slenderness", Formula: "the larger of w/(L/240) and (KL/r)/200",
			Terms:  []quantity.Q{quantity.Of("sag", sag, quantity.Ratio), quantity.Of("slenderness", slender, quantity.Ratio)},
			Result: quantity.Of("r", ratio, quantity.Ratio), Source: bowSource,
		}},
	}
	if slender > sag {
		c.Demand, c.Capacity = quantity.Of("KL/r", in.slenderness(bar), quantity.None), quantity.Of("", longStrut, quantity.None)
	}
	if c.Ratio > 1 {
		c.Remedy = "A cross strut with a second moment of area near {0}."
		c.RemedyQ = []quantity.Q{quantity.Of("", bar.Bar.Ix*math.Max(sag, slender*slender), quantity.SecondMoment)}
	}
	return c, nil
}
