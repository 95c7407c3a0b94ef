package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

const srcInteraction = "AISI S100 H1.2 interaction, Ω 1.80 and 1.67, φ 0.85 and 0.90 (memory); secant formula (derived)"

// RoofSheet checks the roof sheet as a beam under the cover and at the same
// time as a strut between the walls.
func RoofSheet(in RoofStrip) (check.Check, RoofResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	return RoofSheetOf(in, &r), r, nil
}

// RoofSheetOf is RoofSheet of a strip that is solved.
func RoofSheetOf(in RoofStrip, r *RoofResult) check.Check {
	c := check.Check{
		ID: "roof-sheet", Title: "Roof sheet as beam and strut",
		Method: "Strip of sheet across the box, effective width, beam-column interaction, ASD and LRFD",
		Source: srcEff + "; " + srcColumn + "; " + srcInteraction,
		Assumptions: []string{
			"The corrugations run across the box, so the sheet spans from rail to rail; ribs and roof beams across the box stand beside the corrugations and do not shorten that span, beams along the box do.",
			"Pinned at the rails: the die-stamped ends leave flat plate there.",
			"The thrust of the walls acts in full in every combination and presses through the middle of the sheet.",
			roofSagWords(in),
			"Water standing on the roof is factored like live load.",
		},
		Validity: "Flats up to 500 times the thickness; sheet uncut.",
		Ratio:    r.ASD.Ratio, RatioLRFD: r.LRFD.Ratio,
		Case: r.ASD.Name, CaseLRFD: r.LRFD.Name,
		Working: roofWorking(in, r),
	}
	roofDemand(&c, r)
	if c.Worst() > 1 {
		roofRemedy(&c, in)
	}
	return c
}

func roofSagWords(in RoofStrip) string {
	if in.Straight {
		return "The sheet sags no more than the measured dent."
	}
	return "The sheet sags by the measured dent, and by no less than span/300."
}

// roofDemand sets demand and capacity by the governing sum.
func roofDemand(c *check.Check, r *RoofResult) {
	_, at := worst(r.ASD.Sums[:]...)
	switch {
	case at == sumRoofShear:
		c.Demand = quantity.Of("V", r.ASD.Q*r.Unit.Shear(), quantity.LineLoad)
		c.Capacity = quantity.Of("Vn/Ω", r.Vn/steel.OmegaShear, quantity.LineLoad)
	case r.ASD.P > 0:
		c.Demand = quantity.Of("ΣP,M", r.ASD.Ratio, quantity.Ratio)
		c.Capacity = quantity.Of("", 1, quantity.Ratio)
	case at == sumOverBeam:
		c.Demand = quantity.Of("M", r.ASD.Hog, quantity.LineMoment)
		c.Capacity = quantity.Of("Mn/Ω", r.Inner.Mn/steel.OmegaBending, quantity.LineMoment)
	default:
		c.Demand = quantity.Of("M", r.ASD.Field, quantity.LineMoment)
		c.Capacity = quantity.Of("Mn/Ω", r.Outer.Mn/steel.OmegaBending, quantity.LineMoment)
	}
}

// roofWorking writes the working of a roof strip.
func roofWorking(in RoofStrip, r *RoofResult) []check.Line {
	a := r.ASD
	out := []check.Line{{
		Text: "Load, service, " + a.Name, Formula: "q = D + L + S by the combination",
		Terms: []quantity.Q{
			quantity.Of("D", in.Dead, quantity.Pressure),
			quantity.Of("L", in.Live+in.Water, quantity.Pressure),
			quantity.Of("S", in.Snow, quantity.Pressure),
		},
		Result: quantity.Of("q", a.Q, quantity.Pressure), Source: "load combinations of the building code form (verified)",
	}}
	out = append(out, wheelLines(in, r)...)
	out = append(out, check.Line{
		Text: "Moment between supports, first order", Formula: "M = Mq + P·e",
		Terms: []quantity.Q{
			quantity.Of("L", r.Bay, quantity.Length),
			quantity.Of("P", a.P, quantity.LineLoad),
			quantity.Of("e", r.Sag, quantity.Thickness),
		},
		Result: quantity.Of("M", a.Field, quantity.LineMoment), Source: srcStat,
	})
	out = append(out, effLines(&r.Outer, "between supports")...)
	out = append(out, strutLines(&r.Strut)...)
	out = append(out, check.Line{
		Text: "Compression with bending, allowable strength", Formula: "r = Ωc·P/Pn + Ωb·M/(Mn·(1 − Ωc·P/PE))",
		Terms: []quantity.Q{
			quantity.Of("Ωc", steel.OmegaColumn, quantity.Factor),
			quantity.Of("P", a.P, quantity.LineLoad),
			quantity.Of("Pn", r.Strut.Pn, quantity.LineLoad),
			quantity.Of("Ωb", steel.OmegaBending, quantity.Factor),
			quantity.Of("M", a.Field, quantity.LineMoment),
			quantity.Of("Mn", r.Outer.Mn, quantity.LineMoment),
			quantity.Of("PE", r.Strut.PE, quantity.LineLoad),
		},
		Result: quantity.Of("r", a.Sums[sumBuckling], quantity.Ratio), Source: srcInteraction,
	}, check.Line{
		Text: "The same by load and resistance factors, " + r.LRFD.Name, Formula: "r = Pu/(φc·Pn) + Mu/(φb·Mn·(1 − Pu/PE))",
		Terms: []quantity.Q{
			quantity.Of("Pu", r.LRFD.P, quantity.LineLoad),
			quantity.Of("Mu", r.LRFD.Field, quantity.LineMoment),
			quantity.Of("φc", steel.PhiColumn, quantity.Factor),
			quantity.Of("φb", steel.PhiBending, quantity.Factor),
		},
		Result: quantity.Of("r", r.LRFD.Sums[sumBuckling], quantity.Ratio), Source: srcInteraction,
	}, check.Line{
		Text: "Second-order moment at midspan, service", Formula: "M2 = (q/k²)·(sec(kL/2) − 1) + P·e/(1 − P/PE), k² = P/EI",
		Terms: []quantity.Q{
			quantity.Of("q", a.Q, quantity.Pressure),
			quantity.Of("EI", r.EI, quantity.Stiffness),
			quantity.Of("L", r.Bay, quantity.Length),
		},
		Result: quantity.Of("M2", a.Second, quantity.LineMoment), Source: "beam-column theory (derived)",
	})
	if len(in.Supports) > 0 {
		out = append(out, check.Line{
			Text: "Compression with bending over a purlin", Formula: "r = Ωc·P/Pno + Ωb·M/Mn",
			Terms: []quantity.Q{
				quantity.Of("Pno", r.Strut.Pno, quantity.LineLoad),
				quantity.Of("M", a.Hog, quantity.LineMoment),
				quantity.Of("Mn", r.Inner.Mn, quantity.LineMoment),
			},
			Result: quantity.Of("r", a.Sums[sumOverBeam], quantity.Ratio), Source: srcInteraction,
		})
	}
	return out
}

// strutLines writes how the axial strength was found.
func strutLines(s *steel.Strut) []check.Line {
	return []check.Line{{
		Text: "Column stress of the sheet", Formula: "λc = √(Fy/Fe); Fn = 0.658^(λc²)·Fy, or 0.877·Fe when λc > 1.5",
		Terms: []quantity.Q{
			quantity.Of("L/r", s.KLr, quantity.None),
			quantity.Of("Fe", s.Fe, quantity.Stress),
		},
		Result: quantity.Of("Fn", s.Fn, quantity.Stress), Source: srcColumn,
	}, {
		Text: "Axial strength with the area effective at that stress", Formula: "Pn = Ae·Fn",
		Terms: []quantity.Q{
			quantity.Of("Ae", s.AreaN, quantity.SheetArea),
			quantity.Of("Fn", s.Fn, quantity.Stress),
		},
		Result: quantity.Of("Pn", s.Pn, quantity.LineLoad), Source: srcColumn,
	}, {
		Text: "Euler load of a strip", Formula: "PE = π²·E·I/L²",
		Result: quantity.Of("PE", s.PE, quantity.LineLoad), Source: "Euler (derived)",
	}}
}

// roofRemedy tries purlins: one at mid-width, then two and three.
func roofRemedy(c *check.Check, in RoofStrip) {
	if len(in.Supports) > 0 {
		c.Remedy = "More purlins along the box, less cover, or a slab over the roof on posts of its own."
		return
	}
	for n := 1; n <= 3; n++ {
		in.Supports = nil
		for k := 1; k <= n; k++ {
			in.Supports = append(in.Supports, in.Span*float64(k)/float64(n+1))
		}
		r, err := in.Solve()
		if err != nil {
			continue
		}
		if ratio := math.Max(r.ASD.Ratio, r.LRFD.Ratio); ratio <= 1 {
			c.Remedy = []string{"One purlin", "Two purlins", "Three purlins"}[n-1] +
				" along the box under the sheet, held by ribs, with bays of {0}: the ratio comes to {1}."
			c.RemedyQ = []quantity.Q{quantity.Of("", r.Bay, quantity.Length), quantity.Of("", ratio, quantity.Ratio)}
			return
		}
	}
	c.Remedy = "Even three purlins along the box are not enough: less cover, wales that relieve the top of the walls, or a slab over the roof on posts of its own."
}

// RoofDeflection checks the sag that the cover and the thrust of the walls add
// to the roof sheet, second order, against the longest bay over limit
// (SagLimit or SagLimitLined). The ratio is +Inf when the thrust reaches the
// Euler load.
func RoofDeflection(in RoofStrip, limit float64) (check.Check, RoofResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c, err := RoofDeflectionOf(in, &r, limit)
	return c, r, err
}

// RoofDeflectionOf is RoofDeflection of a strip that is solved.
func RoofDeflectionOf(in RoofStrip, r *RoofResult, limit float64) (check.Check, error) {
	if err := SagLimitRange(limit); err != nil {
		return check.Check{}, err
	}
	c := sheetSag("roof-deflection", "Sag of the roof sheet", r.Deflection, r.Bay, limit, append(wheelLines(in, r), check.Line{
		Text: "Sag under service loads with the thrust of the walls", Formula: "w = w0·(secant form, or 1/(1 − P/PE) over purlins and under wheels) + e/(1 − P/PE) − e",
		Terms: []quantity.Q{
			quantity.Of("EI", r.EI, quantity.Stiffness),
			quantity.Of("P", in.Thrust.ASD, quantity.LineLoad),
			quantity.Of("PE", r.Strut.PE, quantity.LineLoad),
			quantity.Of("e", r.Sag, quantity.Thickness),
		},
		Result: quantity.Of("w", r.Deflection, quantity.Thickness), Source: "beam-column theory (derived)",
	})...)
	if c.Ratio > 1 {
		c.Remedy = "A purlin along the box at mid-width, held by ribs: half the span sags about a sixteenth as much."
	}
	_, c.Case = Largest(Allowable, in.effects())
	c.Assumptions = []string{"Gross section, pinned at the rails, elastic.", roofSagWords(in)}
	return c, nil
}
