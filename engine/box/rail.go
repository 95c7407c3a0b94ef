package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Rail is a bar that takes the reaction of a sheet over its length and spans
// between ribs, cross members or corner posts.
type Rail struct {
	Bar   steel.Bar
	Steel Material
	Span  float64 // m between its supports
	Spans int     // spans in a row: 1 single, 2 two equal ones, 3 and more continuous
	Load  Pair    // kN per m of the bar; the sign does not matter
	// Case names the combinations that gave the load; empty for that of a wall.
	Case Cases
}

// RailResult is what comes out of a rail.
type RailResult struct {
	M, V           Pair    // kNm, kN
	Mn, Vn         float64 // kNm, kN
	MRatio, VRatio Pair
	Support        Pair // kN on the most loaded inner support (end support of a single span)
	MaxSpan        Pair // m, the largest span within limits
	NeedModulus    float64
}

// railForm holds the coefficients of a uniformly loaded bar: M = wL²/m, V =
// v·wL, reaction r·wL (structure reference, section 4; beam tables).
type railForm struct{ m, v, r float64 }

// form picks the coefficients for the number of spans. Continuous bars take
// their worst span, the end span.
func (in Rail) form() railForm {
	switch in.Spans {
	case 1:
		return railForm{8, 0.5, 0.5}
	case 2:
		return railForm{8, 0.625, 1.25}
	}
	return railForm{10, 0.6, 1.1}
}

// RailKind is what differs between the rails: one of the kinds below.
type RailKind struct {
	id, title string
	axis      steel.Axis
	yield     bool // to first yield only: rails that are also part of the welded shell
	assume    []string
	remedy    string // {0} is the largest span, {1} the modulus needed
	bow       string // title of the check of its deflection; empty for none
	bowID     string
}

func (in Rail) check() error {
	for _, err := range []error{
		in.Steel.check(),
		quantity.Within("rail span", in.Span, 0.05, 20, quantity.Length),
		quantity.Range("number of rail spans", float64(in.Spans), 1, 100),
		quantity.Within("rail area", in.Bar.Area, 1e-6, 1, quantity.Area),
		in.Load.check("rail load"),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// solve does the statics and strengths of a rail.
func (in Rail) solve(kind *RailKind) (RailResult, error) {
	var r RailResult
	if err := in.check(); err != nil {
		return r, err
	}
	var err error
	if r.Mn, err = in.Bar.Moment(kind.axis, in.Steel.Fy, in.Steel.E); err != nil {
		return r, err
	}
	if kind.yield {
		r.Mn = in.Bar.YieldMoment(kind.axis, in.Steel.Fy)
	}
	if r.Vn, err = in.Bar.Shear(kind.axis, in.Steel.Fy, in.Steel.E); err != nil {
		return r, err
	}
	w, f, l := in.Load.size(), in.form(), in.Span
	r.M, r.V, r.Support = w.Times(l*l/f.m), w.Times(l*f.v), w.Times(l*f.r)
	mc := Pair{r.Mn / steel.OmegaBending, r.Mn * steel.PhiBending}
	vc := Pair{r.Vn / steel.OmegaTube, r.Vn * steel.PhiTube}
	r.MRatio = Pair{r.M.ASD / mc.ASD, r.M.LRFD / mc.LRFD}
	r.VRatio = Pair{r.V.ASD / vc.ASD, r.V.LRFD / vc.LRFD}
	r.MaxSpan = Pair{longest(w.ASD, mc.ASD, vc.ASD, f), longest(w.LRFD, mc.LRFD, vc.LRFD, f)}
	r.NeedModulus = math.Max(r.M.ASD*steel.OmegaBending, r.M.LRFD/steel.PhiBending) / in.Steel.Fy
	return r, nil
}

// longest is the span at which moment or shear reaches its limit; +Inf without
// load.
func longest(w, mc, vc float64, f railForm) float64 {
	if w == 0 {
		return math.Inf(1)
	}
	return math.Min(math.Sqrt(f.m*mc/w), vc/(f.v*w))
}

// ID is the stable name of the check.
func (kind *RailKind) ID() string { return kind.id }

// Title names the check in words.
func (kind *RailKind) Title() string { return kind.title }

// Ratio is the ratio that decides in the check of a rail, without its working.
// It refuses what Check refuses.
func (kind *RailKind) Ratio(in Rail) (float64, error) {
	r, err := in.solve(kind)
	if err != nil {
		return 0, err
	}
	return math.Max(math.Max(r.MRatio.ASD, r.VRatio.ASD), math.Max(r.MRatio.LRFD, r.VRatio.LRFD)), nil
}

// Bending is the share of the bending strength of a rail that its load uses,
// service and factored.
func (kind *RailKind) Bending(in Rail) (Pair, error) {
	r, err := in.solve(kind)
	return r.MRatio, err
}

// Check makes the check of a rail.
func (kind *RailKind) Check(in Rail) (check.Check, RailResult, error) {
	r, err := in.solve(kind)
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: kind.id, Title: kind.title, Method: "Bar under a line load, ASD and LRFD",
		Source:      "structure reference section 4, rail on ribs (derived); Ω 1.67, φ 0.90 (memory); " + srcLoad,
		Assumptions: append([]string{"The supports do not give way.", "Spans of equal length."}, kind.assume...),
		Validity:    "Bar without cuts, dents or bow beyond the repair limits.",
		Demand:      quantity.Of("M", r.M.ASD, quantity.Moment),
		Capacity:    quantity.Of("Mn/Ω", r.Mn/steel.OmegaBending, quantity.Moment),
		Working:     railWorking(in, kind, &r),
	}
	c.Case, c.CaseLRFD = in.Case.orWall()
	var at int
	c.Ratio, at = worst(r.MRatio.ASD, r.VRatio.ASD)
	c.RatioLRFD, _ = worst(r.MRatio.LRFD, r.VRatio.LRFD)
	if at == 1 {
		c.Demand = quantity.Of("V", r.V.ASD, quantity.Force)
		c.Capacity = quantity.Of("Vn/Ω", r.Vn/steel.OmegaTube, quantity.Force)
	}
	if c.Worst() > 1 {
		c.Remedy = kind.remedy
		c.RemedyQ = []quantity.Q{
			quantity.Of("", math.Min(r.MaxSpan.ASD, r.MaxSpan.LRFD), quantity.Length),
			quantity.Of("", r.NeedModulus, quantity.SectionModulus),
		}
	}
	return c, r, nil
}

// railWorking writes the working of a rail.
func railWorking(in Rail, kind *RailKind, r *RailResult) []check.Line {
	f := in.form()
	name, modulus := "S", in.Bar.YieldMoment(kind.axis, 1)
	if r.Mn > modulus*in.Steel.Fy*(1+1e-9) {
		name, modulus = "Z", r.Mn/in.Steel.Fy
	}
	return []check.Line{{
		Text: "Bending moment", Formula: "M = w·L²/n",
		Terms: []quantity.Q{
			quantity.Of("w", math.Abs(in.Load.ASD), quantity.LineLoad),
			quantity.Of("L", in.Span, quantity.Length),
			quantity.Of("n", f.m, quantity.None),
		},
		Result: quantity.Of("M", r.M.ASD, quantity.Moment), Source: "structure reference section 4 (derived)",
	}, {
		Text: "Bending strength", Formula: "Mn = " + name + "·Fy",
		Terms: []quantity.Q{
			quantity.Of(name, modulus, quantity.SectionModulus),
			quantity.Of("Fy", in.Steel.Fy, quantity.Stress),
		},
		Result: quantity.Of("Mn", r.Mn, quantity.Moment), Source: "AISC 360 F (memory)",
	}, {
		Text: "Allowable strength", Formula: "r = M·Ω/Mn",
		Terms:  []quantity.Q{quantity.Of("Ω", steel.OmegaBending, quantity.Factor)},
		Result: quantity.Of("r", r.MRatio.ASD, quantity.Ratio), Source: "Ω 1.67 (memory)",
	}, {
		Text: "Load and resistance factors", Formula: "r = Mu/(φ·Mn)",
		Terms: []quantity.Q{
			quantity.Of("Mu", r.M.LRFD, quantity.Moment), quantity.Of("φ", steel.PhiBending, quantity.Factor),
		},
		Result: quantity.Of("r", r.MRatio.LRFD, quantity.Ratio), Source: srcLoad,
	}, {
		Text: "Shear, allowable strength", Formula: "r = V·Ω/Vn",
		Terms: []quantity.Q{
			quantity.Of("V", r.V.ASD, quantity.Force), quantity.Of("Vn", r.Vn, quantity.Force),
			quantity.Of("Ω", steel.OmegaTube, quantity.Factor),
		},
		Result: quantity.Of("r", r.VRatio.ASD, quantity.Ratio), Source: "AISC 360 G (memory)",
	}, {
		Text: "Largest span within limits", Formula: "L = √(n·Mn/(Ω·w)), the same with φ, and for shear",
		Result: quantity.Of("Lmax", math.Min(r.MaxSpan.ASD, r.MaxSpan.LRFD), quantity.Length), Source: srcStat,
	}}
}

const shellAssume = "Bends sideways between its supports, to first yield; the sheets it is welded to hold it against twisting."

// The kinds of rail.
var (
	KindTopRail = &RailKind{
		id: "top-rail", title: "Top side rail", axis: steel.Y, yield: true, assume: []string{shellAssume},
		remedy: "Ribs no further apart than {0}, or a wale near the top with a bar of modulus {1} behind the rail.",
	}
	KindCutRail = &RailKind{
		id: "top-rail", title: "Top side rail over a cut in the roof", axis: steel.Y, yield: true,
		assume: []string{shellAssume, "The roof sheet holds it beside the cut, where it is free to turn; the frame of the cut does not hold it."},
		remedy: "A cut no longer than {0}, ribs on both sides of it, or a rail of modulus {1}.",
	}
	KindBottomRail = &RailKind{
		id: "bottom-rail", title: "Bottom side rail", axis: steel.Y, yield: true,
		assume: []string{shellAssume, "Every floor cross member is there and welded to the rail."},
		remedy: "Cross members or struts under the floor no further apart than {0}, or a rail of modulus {1}.",
	}
	KindHeader = &RailKind{
		id: "header", title: "Header of the blind end", axis: steel.Y, yield: true,
		assume: []string{shellAssume, "The roof sheet, folded across the box, does not hold the header."},
		remedy: "A bar of modulus {1} along the header from post to post, or a strut lengthwise so that no span exceeds {0}.",
	}
	KindSill = &RailKind{
		id: "sill", title: "Sill of the blind end", axis: steel.Y, yield: true,
		assume: []string{shellAssume, "The floor does not hold the sill."},
		remedy: "A sill of modulus {1}, or struts under the floor so that no span exceeds {0}.",
	}
	KindWale = &RailKind{
		id: "wale", title: "Wale", axis: steel.X, bow: "Bow of the wale", bowID: "wale-deflection",
		assume: []string{"Its depth stands square to the wall; it touches every crest."},
		remedy: "Supports of the wale no further apart than {0}, or a bar of modulus {1}.",
	}
	KindPurlin = &RailKind{
		id: "purlin", title: "Roof purlin", axis: steel.X, bow: "Sag of the purlin", bowID: "purlin-deflection",
		assume: []string{"Its depth stands upright; it touches every corrugation."},
		remedy: "Ribs no further apart than {0}, or a bar of modulus {1}.",
	}
)

// TopRail checks a top side rail under the top reaction of the side sheet.
// Span is the spacing of ribs, or the length of the box where there are none.
func TopRail(in Rail) (check.Check, RailResult, error) { return KindTopRail.Check(in) }

// BottomRail checks a bottom side rail under the bottom reaction of the side
// sheet. Span is the spacing of the floor cross members, about 0.3 m.
func BottomRail(in Rail) (check.Check, RailResult, error) { return KindBottomRail.Check(in) }

// Header checks the header over the blind end under the top reaction of the
// end sheet. Span is the width between the corner posts. The corrugations of
// the roof run across the box, so the roof folds like a bellows and gives the
// header no help.
func Header(in Rail) (check.Check, RailResult, error) { return KindHeader.Check(in) }

// Sill checks the sill under the blind end, under the bottom reaction of the
// end sheet.
func Sill(in Rail) (check.Check, RailResult, error) { return KindSill.Check(in) }

// Wale checks a wale under the reaction of the sheet on it, spanning between
// ribs or corner posts, its depth H square to the wall.
func Wale(in Rail) (check.Check, RailResult, error) { return KindWale.Check(in) }

// Purlin checks a beam along the box under the roof sheet, spanning between
// ribs.
func Purlin(in Rail) (check.Check, RailResult, error) { return KindPurlin.Check(in) }
