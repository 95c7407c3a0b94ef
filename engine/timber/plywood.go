package timber

import (
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// wetPly is what wet service leaves of the bending capacity of plywood
// (memory).
const wetPly = 0.80

// wetPlyE is what it leaves of the stiffness (memory).
const wetPlyE = 0.85

// PlySagLimit is the span over which plywood may sag, as span over this (common
// practice).
const PlySagLimit = 180

// threeSpans is the largest deflection of a beam over three even spans, over
// w·L⁴/EI (beam tables).
const threeSpans = 0.0068843

// Panel is plywood across studs or beams, its strong way from one to the next,
// over three spans and more.
type Panel struct {
	Plywood tables.Plywood
	CD      float64 // duration of load
	Wet     bool
	Span    float64 // m, spacing of what carries it
}

// PanelStrength is what plywood across a spacing carries evenly, kPa: w =
// 10 FbS'/L2, that is 120 FbS'/L2 in psf with L in inches (structure reference,
// section 5, memory). The second of the pair is the factored resistance.
func (p Panel) Strength() (box.Pair, error) {
	for _, err := range []error{
		quantity.Within("span of the plywood", p.Span, 0.05, 3, quantity.Length),
		quantity.Range("duration factor CD", p.CD, 0.9, 2),
		quantity.Range("bending capacity FbS", p.Plywood.FbS, 1e-3, 100),
	} {
		if err != nil {
			return box.Pair{}, err
		}
	}
	w := 10 * p.fbs() / (p.Span * p.Span)
	return box.Pair{ASD: w, LRFD: w / p.CD * kfFb * phiFb * lambdaLasting}, nil
}

// fbs is the allowable bending moment of the panel, kNm/m.
func (p Panel) fbs() float64 {
	m := p.Plywood.FbS * p.CD
	if p.Wet {
		m *= wetPly
	}
	return m
}

// Check makes the check of the panel under an even load, service and factored,
// kPa. id and title are those of what it is built into.
func (p Panel) Check(id, title string, load box.Pair) (check.Check, error) {
	can, err := p.Strength()
	if err != nil {
		return check.Check{}, err
	}
	cm := 1.0
	if p.Wet {
		cm = wetPly
	}
	c := check.Check{
		ID: id, Title: title, Method: "Panel over three spans and more, bending",
		Source: srcPly + "; " + srcLRFD,
		Assumptions: []string{
			"The face grain runs across what carries the plywood, and every sheet runs over three spans or more.",
			"The largest pressure acts over all spans.",
			"All load counts as lasting.",
		},
		Validity: "Bending only: rolling shear is not checked; the bow of the panel has a check of its own.",
		Demand:   quantity.Of("w", load.ASD, quantity.Pressure), Capacity: quantity.Of("wa", can.ASD, quantity.Pressure),
		Ratio: load.ASD / can.ASD, RatioLRFD: load.LRFD / can.LRFD,
		Working: []check.Line{{
			Text: "Bending capacity of " + p.Plywood.ID, Formula: "FbS' = FbS·CD·CM",
			Terms: []quantity.Q{quantity.Of("FbS", p.Plywood.FbS, quantity.LineMoment), quantity.Of("CD", p.CD, quantity.None),
				quantity.Of("CM", cm, quantity.None)},
			Result: quantity.Of("FbS'", p.fbs(), quantity.LineMoment), Source: srcPly,
		}, {
			Text: "Pressure that three spans carry", Formula: "wa = 10·FbS'/L²",
			Terms:  []quantity.Q{quantity.Of("L", p.Span, quantity.Length)},
			Result: quantity.Of("wa", can.ASD, quantity.Pressure), Source: srcStat,
		}, {
			Text: "Load and resistance factors", Formula: "r = wu/(KF·φ·λ·wa/CD)",
			Terms: []quantity.Q{quantity.Of("wu", load.LRFD, quantity.Pressure), quantity.Of("KF", kfFb, quantity.None),
				quantity.Of("φ", phiFb, quantity.None), quantity.Of("λ", lambdaLasting, quantity.None)},
			Result: quantity.Of("r", load.LRFD/can.LRFD, quantity.Ratio), Source: srcLRFD,
		}},
	}
	if most := c.Worst(); most > 1 {
		c.Remedy = "What carries the plywood no further apart than {0}, or a stronger panel."
		c.RemedyQ = []quantity.Q{quantity.Of("", p.Span/math.Sqrt(most), quantity.Length)}
	}
	return c, nil
}

// ei is the stiffness of the panel in use, kNm2/m.
func (p Panel) ei() float64 {
	if p.Wet {
		return p.Plywood.EI * wetPlyE
	}
	return p.Plywood.EI
}

// Sag is how far the panel bows between what carries it under an even service
// load, kPa, once it has crept, m.
func (p Panel) Sag(load float64) (float64, error) {
	for _, err := range []error{
		quantity.Within("span of the plywood", p.Span, 0.05, 3, quantity.Length),
		quantity.Range("stiffness EI of the plywood", p.Plywood.EI, 1e-4, 1000),
		quantity.Within("pressure on the plywood", load, 0, 1e5, quantity.Pressure),
	} {
		if err != nil {
			return 0, err
		}
	}
	return Use{Wet: p.Wet}.Creep() * threeSpans * load * math.Pow(p.Span, 4) / p.ei(), nil
}

// SagCheck checks the bow of the panel against its span over PlySagLimit. id and
// title are those of what it is built into.
func (p Panel) SagCheck(id, title string, load float64) (check.Check, error) {
	w, err := p.Sag(load)
	if err != nil {
		return check.Check{}, err
	}
	creep := Use{Wet: p.Wet}.Creep()
	c := box.Sag{ID: id, Title: title, Method: "Deflection over three spans under service loads, with creep",
		Source: srcPly + "; creep NDS 3.5.2 (memory); deflection limit L/180 (common practice)", From: "common practice",
		W: w, Span: p.Span, Limit: PlySagLimit}.Check(check.Line{
		Text: "Bow of the panel once it has crept", Formula: "w = Kcr·0.0069·p·L⁴/(EI·CM)",
		Terms: []quantity.Q{quantity.Of("Kcr", creep, quantity.None), quantity.Of("p", load, quantity.Pressure),
			quantity.Of("L", p.Span, quantity.Length), quantity.Of("EI·CM", p.ei(), quantity.Stiffness)},
		Result: quantity.Of("w", w, quantity.Thickness), Source: srcPly + "; beam tables (common practice)",
	})
	c.Assumptions = []string{"The largest pressure acts over all spans.", "All load lasts."}
	if c.Ratio > 1 {
		c.Remedy = "What carries the plywood no further apart than {0}, or a stiffer panel."
		c.RemedyQ = []quantity.Q{quantity.Of("", p.Span/math.Cbrt(c.Ratio), quantity.Length)}
	}
	return c, nil
}
