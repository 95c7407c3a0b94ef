package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// SideSheet checks the side sheet in bending and shear. The results carry the
// reactions on rails and wales for the checks of those.
func SideSheet(in Strip) (check.Check, StripResult, error) {
	return sheet(in, "side-sheet", "Side sheet in bending")
}

// EndSheet checks the sheet of the blind end in the same way; its reactions go
// to the header, the sill and the wales of the back wall.
func EndSheet(in Strip) (check.Check, StripResult, error) {
	return sheet(in, "end-sheet", "End sheet in bending")
}

// sheet is the check of an upright sheet.
func sheet(in Strip, id, title string) (check.Check, StripResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: id, Title: title,
		Method: "Strip of sheet spanning upright, effective width, ASD and LRFD",
		Source: srcEff + "; " + srcBend + "; " + srcLoad,
		Assumptions: []string{
			"The sheet is pinned at the bottom and the top: its edge welds carry no lasting moment.",
			"No help from membrane action, from the corners or from the container's own test load.",
			"Straight lines and sharp corners; slopes fully effective.",
			"All pressure counts as earth and ground water or as live load with the factor 1.6.",
		},
		Validity: "Flats up to 500 times the thickness; sheet without holes, and with no dent deeper than the one given.",
		Working:  sheetWorking(in, &r),
		Case:     wallCase, CaseLRFD: wallCaseLRFD,
	}
	if in.Dent > 0 {
		c.Assumptions = append(c.Assumptions, dentWords)
		c.Working = append([]check.Line{dentLine(in.Profile, in.Dent)}, c.Working...)
	}
	if !r.Outer.WebsAreOK {
		c.Validity += " The slopes are so slender that they are no longer fully effective; the strength shown is too high by a few per cent."
	}
	r.govern(&c)
	if c.Worst() > 1 {
		err = sheetRemedy(&c, in, r)
	}
	return c, r, err
}

const dentWords = "A dent takes its depth off the corrugations of the strip it lies in, from bottom to top, and the strips beside it give no help: our own model, on the careful side."

// dentLine writes what a dent leaves of the corrugations.
func dentLine(p steel.Profile, dent float64) check.Line {
	return check.Line{
		Text: "Depth of the corrugations on their midline, less the dent", Formula: "h = h0 − e",
		Terms: []quantity.Q{
			quantity.Of("h0", p.H, quantity.Thickness), quantity.Of("e", dent, quantity.Thickness),
		},
		Result: quantity.Of("h", p.H-dent, quantity.Thickness), Source: "our own model (derived)",
	}
}

// govern sets demand, capacity and ratios by the limit state with the largest
// ratio.
func (r *StripResult) govern(c *check.Check) {
	c.Ratio, _ = worst(r.FieldRatio.ASD, r.HogRatio.ASD, r.ShearRatio.ASD, r.TogetherRatio.ASD)
	c.RatioLRFD, _ = worst(r.FieldRatio.LRFD, r.HogRatio.LRFD, r.ShearRatio.LRFD, r.TogetherRatio.LRFD)
	_, at := worst(r.FieldRatio.ASD, r.HogRatio.ASD, r.ShearRatio.ASD, r.TogetherRatio.ASD)
	bend := func(m, mn float64) {
		c.Demand = quantity.Of("M", m, quantity.LineMoment)
		c.Capacity = quantity.Of("Mn/Ω", mn/steel.OmegaBending, quantity.LineMoment)
	}
	switch at {
	case 0:
		bend(r.Field.ASD, r.Outer.Mn)
	case 1:
		bend(r.Hog.ASD, r.Inner.Mn)
	case 2:
		c.Demand = quantity.Of("V", r.Shear.ASD, quantity.LineLoad)
		c.Capacity = quantity.Of("Vn/Ω", r.Vn/steel.OmegaShear, quantity.LineLoad)
	default:
		c.Demand = quantity.Of("√(rM² + rV²)", r.TogetherRatio.ASD, quantity.Ratio)
		c.Capacity = quantity.Of("", 1, quantity.Ratio)
	}
}

// sheetWorking writes the working of a wall strip.
func sheetWorking(in Strip, r *StripResult) []check.Line {
	out := []check.Line{{
		Text: "Load on a strip, service", Formula: "W = ∫ p dz",
		Terms:  []quantity.Q{quantity.Of("L", in.Height, quantity.Length)},
		Result: quantity.Of("W", r.load(), quantity.LineLoad), Source: srcStat,
	}, {
		Text: "Largest moment between supports, tension inside", Formula: "V(z) = 0 → M",
		Terms: []quantity.Q{
			quantity.Of("z", r.FieldAt, quantity.Length),
			quantity.Of("Rb", r.Bottom.ASD, quantity.LineLoad),
			quantity.Of("Rt", r.Top.ASD, quantity.LineLoad),
		},
		Result: quantity.Of("M", r.Field.ASD, quantity.LineMoment), Source: srcStat,
	}}
	out = append(out, effLines(&r.Outer, "between supports")...)
	out = append(out, ratioLines("Bending between supports", r.Field, r.Outer.Mn, r.FieldRatio)...)
	if len(r.Wales) > 0 {
		out = append(out, check.Line{
			Text: "Largest moment over a wale, tension outside", Formula: "three-moment equation",
			Terms:  []quantity.Q{quantity.Of("z", r.HogAt, quantity.Length)},
			Result: quantity.Of("Mw", r.Hog.ASD, quantity.LineMoment), Source: srcStat,
		})
		out = append(out, effLines(&r.Inner, "over a wale")...)
		out = append(out, ratioLines("Bending over a wale", r.Hog, r.Inner.Mn, r.HogRatio)...)
	}
	return append(out, check.Line{
		Text: "Shear in the slopes", Formula: "V·Ω/Vn",
		Terms: []quantity.Q{
			quantity.Of("V", r.Shear.ASD, quantity.LineLoad),
			quantity.Of("Vn", r.Vn, quantity.LineLoad),
			quantity.Of("Ω", steel.OmegaShear, quantity.Factor),
		},
		Result: quantity.Of("rV", r.ShearRatio.ASD, quantity.Ratio), Source: srcShear,
	})
}

// load is the whole service load on the strip, kN/m.
func (r *StripResult) load() float64 {
	w := 0.0
	for _, re := range r.Line.Reactions {
		w += re
	}
	return w
}

// effLines writes how the effective section was found.
func effLines(e *steel.EffSection, where string) []check.Line {
	return []check.Line{{
		Text: "Slenderness of the " + flatName(e.Side) + " in compression " + where, Formula: "λ = (1.052/√k)·(w/t)·√(f/E)",
		Terms: []quantity.Q{
			quantity.Of("k", 4, quantity.None),
			quantity.Of("f", e.F, quantity.Stress),
			quantity.Of("E", steel.EAISI, quantity.Stress),
		},
		Result: quantity.Of("λ", e.Lambda, quantity.None), Source: srcEff,
	}, {
		Text: "Effective share of that flat", Formula: "ρ = (1 − 0.22/λ)/λ, at most 1",
		Terms:  []quantity.Q{quantity.Of("λ", e.Lambda, quantity.None)},
		Result: quantity.Of("ρ", e.Rho, quantity.None), Source: srcEff,
	}, {
		Text: "Strength at first yield of the effective section", Formula: "Mn = Se·Fy",
		Terms: []quantity.Q{
			quantity.Of("Se", e.S, quantity.Modulus),
			quantity.Of("Fy", e.Fy, quantity.Stress),
		},
		Result: quantity.Of("Mn", e.Mn, quantity.LineMoment), Source: srcBend,
	}}
}

// ratioLines writes the two ratios of a moment per metre.
func ratioLines(what string, m Pair, mn float64, ratio Pair) []check.Line {
	return []check.Line{{
		Text: what + ", allowable strength", Formula: "r = M·Ω/Mn",
		Terms: []quantity.Q{
			quantity.Of("M", m.ASD, quantity.LineMoment),
			quantity.Of("Ω", steel.OmegaBending, quantity.Factor),
			quantity.Of("Mn", mn, quantity.LineMoment),
		},
		Result: quantity.Of("r", ratio.ASD, quantity.Ratio), Source: srcBend,
	}, {
		Text: what + ", load and resistance factors", Formula: "r = Mu/(φ·Mn)",
		Terms: []quantity.Q{
			quantity.Of("Mu", m.LRFD, quantity.LineMoment),
			quantity.Of("φ", steel.PhiBending, quantity.Factor),
			quantity.Of("Mn", mn, quantity.LineMoment),
		},
		Result: quantity.Of("r", ratio.LRFD, quantity.Ratio), Source: srcLoad,
	}}
}

// Heights tried for one wale, as shares of the wall height.
var waleTries = []float64{0.35, 0.40, 0.45, 0.50, 0.55}

// sheetRemedy names the height of a single wale that helps most and what it
// brings, or says that one is not enough.
func sheetRemedy(c *check.Check, in Strip, r StripResult) error {
	if len(in.Wales) > 0 {
		c.Remedy = "Another wale, a drained fill, less cover or a lower fill beside the wall."
		return nil
	}
	at, best, err := bestWale(in, r)
	if err != nil {
		return err
	}
	c.RemedyQ = []quantity.Q{quantity.Of("", at, quantity.Length), quantity.Of("", best, quantity.Ratio)}
	c.Remedy = "A wale {0} above the bottom support, held by ribs, brings the ratio to {1}."
	if best > 1 {
		c.Remedy = "One wale is not enough: at its best, {0} above the bottom support, it leaves the ratio at {1}. Two wales, a drained fill, or less fill."
	}
	return nil
}

// bestWale tries single wales on a solved strip and gives the height with the
// smallest ratio.
func bestWale(in Strip, r StripResult) (at, ratio float64, err error) {
	service := in.Load.Service()
	for _, share := range waleTries {
		in.Wales = []float64{share * in.Height}
		if err := r.statics(in.places(), service); err != nil {
			return 0, 0, err
		}
		if v := r.worst(); ratio == 0 || v < ratio {
			at, ratio = in.Wales[0], v
		}
	}
	return at, ratio, nil
}

// worst is the largest ratio of the strip.
func (r *StripResult) worst() float64 {
	v := 0.0
	for _, p := range []Pair{r.FieldRatio, r.HogRatio, r.ShearRatio, r.TogetherRatio} {
		v = math.Max(v, p.largest())
	}
	return v
}

// Deflection limits of sheets, as span over this (structure reference,
// section 4, common practice).
const (
	SagLimit       = 120 // bare sheet
	SagLimitLined  = 180 // with a membrane or a brittle lining
	minSagLimit    = 50
	maxSagLimit    = 1000
	sheetSagSource = "deflection limit L/120, L/180 under a membrane or brittle lining (common practice)"
)

// SheetDeflection checks the inward bow of a wall sheet under service loads
// against the span over limit (SagLimit or SagLimitLined). id and title are
// those of the wall.
func SheetDeflection(in Strip, limit float64) (check.Check, StripResult, error) {
	if err := SagLimitRange(limit); err != nil {
		return check.Check{}, StripResult{}, err
	}
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	w, at, k := r.Line.SagOverSpan()
	c := sheetSag("sheet-deflection", "Bow of the wall sheet", abs(w), r.Line.Spans[k].L, limit, check.Line{
		Text: "Bow under service loads of the span that bows most for its length", Formula: "w from the fourth derivative: E·I·w'''' = p, integrated along the strip",
		Terms: []quantity.Q{
			quantity.Of("EI", r.Line.Spans[k].EI, quantity.Stiffness),
			quantity.Of("z", at, quantity.Length),
		},
		Result: quantity.Of("w", w, quantity.Thickness), Source: srcStat,
	})
	if c.Ratio > 1 {
		c.Remedy = "A wale: half the span bows about a sixteenth as much."
	}
	c.Assumptions = []string{"Linear: a sheet beyond its strength bows far more than the figure shown.", "Gross section, pinned edges."}
	if in.Dent > 0 {
		c.Assumptions = append(c.Assumptions, dentWords)
		c.Working = append([]check.Line{dentLine(in.Profile, in.Dent)}, c.Working...)
	}
	return c, r, nil
}

// WallLoad makes a wall load from pairs of height above the bottom support and
// pressure, in the order given.
func WallLoad(pairs ...[2]float64) frame.Load {
	out := make(frame.Load, len(pairs))
	for k, p := range pairs {
		out[k] = frame.LoadPoint{S: p[0], P: p[1]}
	}
	return out
}
