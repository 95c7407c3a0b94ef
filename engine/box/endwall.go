package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// EndWall is the blind end of a box under the push that the roof brings to it
// crosswise, from earth that presses one side more than the other: the end
// sheet is a shear panel, the header a strut, and the posts are the chords that
// hold the frame against tipping.
type EndWall struct {
	Push  Pair // kN at the top, across the box
	Sheet Panel
	Width float64 // m between the middles of the posts
	// Bend is the share of its strength that the sheet uses against what presses
	// on it; HeaderBend the same of the header.
	Bend, HeaderBend Pair
	Header           steel.Bar
	Steel            Material // of the header
	Rise             float64  // m from the bed to the push
	Open             float64  // m of its width taken by openings
	// Post is what the roof brings to the more loaded post, kN, and Strength its
	// lower bound in compression.
	Post     Effects
	Strength float64
}

// EndWallResult is what comes out of it.
type EndWallResult struct {
	Panel       PanelStrength
	V           Pair    // kN/m in the end sheet
	HeaderPn    float64 // kN
	Grow        Pair    // by which the push raises the bending of the header
	Couple      Pair    // kN, on one post down, on the other up
	SheetRatio  Pair    // shear with bending
	HeaderRatio Pair
	PostRatio   Pair
	postP       Pair
	post        [2]string
}

// Racking test of ISO 1496-1: push on the top of one frame across the box, kN
// (structure reference 1.3, second-hand). Shown beside a push, never a limit.
const rackingTest = 150.0

func (in *EndWall) check() error {
	for _, err := range []error{
		in.Push.check("push on the end frame"), in.Bend.check("bending of the end sheet"), in.HeaderBend.check("bending of the header"),
		in.Steel.check(),
		quantity.Within("width of the end frame", in.Width, 0.5, 6, quantity.Length),
		quantity.Within("height of the end frame", in.Rise, minHeight, maxHeight, quantity.Length),
		quantity.Within("openings of the end", in.Open, 0, in.Width-0.1, quantity.Length),
		quantity.Within("post strength", in.Strength, 1, 1e5, quantity.Stress),
		quantity.Within("header area", in.Header.Area, 1e-6, 1, quantity.Area),
		in.Post.check("roof load on the post"),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// Solve finds forces, strengths and ratios.
func (in EndWall) Solve() (EndWallResult, error) {
	var r EndWallResult
	if err := in.check(); err != nil {
		return r, err
	}
	var err error
	if r.Panel, err = in.Sheet.Strength(); err != nil {
		return r, err
	}
	if r.HeaderPn, err = weakColumn(in.Header, in.Steel, in.Width); err != nil {
		return r, err
	}
	h := in.Push.size()
	r.V = h.Times(1 / (in.Width - in.Open))
	r.SheetRatio = r.Panel.Together(r.V, in.Bend)
	pe, err := steel.Euler(in.Steel.E, in.Header.Iy, in.Width) // the earth bends it sideways
	if err != nil {
		return r, err
	}
	r.Grow = Pair{bowing(h.ASD*asdForm.raise, pe), bowing(h.LRFD*lrfdForm.raise, pe)}
	r.HeaderRatio = Pair{
		steel.H1(h.ASD, r.HeaderPn/steel.OmegaTube, bowed(in.HeaderBend.ASD, r.Grow.ASD), 1),
		steel.H1(h.LRFD, r.HeaderPn*steel.PhiTube, bowed(in.HeaderBend.LRFD, r.Grow.LRFD), 1),
	}
	r.Couple = h.Times(in.Rise / in.Width)
	e := in.Post
	e.H += r.Couple.ASD
	r.postP.ASD, r.post[0] = Largest(Allowable, e)
	r.postP.LRFD, r.post[1] = Largest(Strength, e)
	r.PostRatio = Pair{r.postP.ASD * steel.OmegaTube / in.Strength, r.postP.LRFD / (steel.PhiTube * in.Strength)}
	return r, nil
}

// weakColumn is the strength of a bar as a column about its weaker axis, kN.
func weakColumn(b steel.Bar, m Material, length float64) (float64, error) {
	pn := math.Inf(1)
	for _, axis := range []steel.Axis{steel.X, steel.Y} {
		c, err := b.Column(axis, m.Fy, m.E, length)
		if err != nil {
			return 0, err
		}
		pn = math.Min(pn, c.Pn)
	}
	return pn, nil
}

// Ratio is what governs of the three.
func (r *EndWallResult) Ratio() (p Pair, at int) {
	p.ASD, at = worst(r.SheetRatio.ASD, r.HeaderRatio.ASD, r.PostRatio.ASD)
	p.LRFD, _ = worst(r.SheetRatio.LRFD, r.HeaderRatio.LRFD, r.PostRatio.LRFD)
	return p, at
}

// BlindEnd checks the blind end as the frame that takes a push across the box.
func BlindEnd(in EndWall) (check.Check, EndWallResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	ratio, at := r.Ratio()
	c := check.Check{
		ID: "end-frame", Title: "Blind end pushed crosswise", Method: "End sheet as a shear panel, header as a strut, posts as chords",
		Source: "statics (derived); " + srcEasley + "; " + srcShear + "; " + srcTogether + "; " + srcH1,
		Assumptions: []string{
			"The roof brings half of what one side presses more than the other, by where it presses along the box.",
			"All of the push enters the header at one end; nothing holds the header along the box between its posts.",
			"The welds of the end sheet are whole.",
			"The bed holds the foot of the frame: sliding across says how far.",
		},
		Validity: "A blind end without large openings. The racking test of a new box lasts minutes and is no allowable push for earth.",
		Ratio:    ratio.ASD, RatioLRFD: ratio.LRFD, Case: Allowable[1].Name, CaseLRFD: Strength[1].Name,
		Working: in.working(&r),
	}
	in.Sheet.told(&c)
	one := quantity.Of("", 1, quantity.Ratio)
	switch at {
	case 0:
		c.Demand, c.Capacity = quantity.Of("rS", r.SheetRatio.ASD, quantity.Ratio), one
	case 1:
		c.Demand, c.Capacity = quantity.Of("rH", r.HeaderRatio.ASD, quantity.Ratio), one
	default:
		c.Demand, c.Capacity = quantity.Of("P", r.postP.ASD, quantity.Force), quantity.Of("Pn/Ω", in.Strength/steel.OmegaTube, quantity.Force)
		c.Case, c.CaseLRFD = r.post[0], r.post[1]
	}
	if c.Worst() > 1 {
		c.Remedy = "Ribs that take the sway, or raise both sides of the fill together: the push on this end is {0}."
		c.RemedyQ = []quantity.Q{quantity.Of("", math.Abs(in.Push.ASD), quantity.Force)}
	}
	return c, r, nil
}

func (in *EndWall) working(r *EndWallResult) []check.Line {
	out := append(pushLines(in.Push), check.Line{
		Text: "Shear flow in the end sheet", Formula: "v = H/(b − openings)",
		Terms: []quantity.Q{
			quantity.Of("b", in.Width, quantity.Length), quantity.Of("openings", in.Open, quantity.Length),
		},
		Result: quantity.Of("v", r.V.ASD, quantity.LineLoad), Source: srcStat,
	})
	out = append(out, panelLines(in.Sheet, r.Panel)...)
	return append(out, check.Line{
		Text: "Sheet: shear together with the earth that bends it", Formula: "the larger of √((Ω·v/vy)² + m²) and Ω·v/vcr + m",
		Terms:  []quantity.Q{quantity.Of("m", in.Bend.ASD, quantity.Ratio)},
		Result: quantity.Of("rS", r.SheetRatio.ASD, quantity.Ratio), Source: srcTogether,
	}, check.Line{
		Text: "Header: push together with the earth that bends it", Formula: "H/Pa ≥ 0.2: H/Pa + 8/9·B1·m, else H/(2·Pa) + B1·m; B1 = 1/(1 − 1.6·H/PE)",
		Terms: []quantity.Q{
			quantity.Of("Pa", r.HeaderPn/steel.OmegaTube, quantity.Force), quantity.Of("B1", r.Grow.ASD, quantity.Factor), quantity.Of("m", in.HeaderBend.ASD, quantity.Ratio),
		},
		Result: quantity.Of("rH", r.HeaderRatio.ASD, quantity.Ratio), Source: srcH1,
	}, check.Line{
		Text: "Couple on the posts", Formula: "Pc = H·h/b",
		Terms:  []quantity.Q{quantity.Of("h", in.Rise, quantity.Length), quantity.Of("b", in.Width, quantity.Length)},
		Result: quantity.Of("Pc", r.Couple.ASD, quantity.Force), Source: srcStat,
	}, check.Line{
		Text: "Post on the far side, " + r.post[0], Formula: "P = Σ γ·P + Pc",
		Result: quantity.Of("P", r.postP.ASD, quantity.Force), Source: srcCombos,
	}, check.Line{
		Text: "Load and resistance factors: sheet, header and post", Formula: "the largest of the three",
		Terms: []quantity.Q{
			quantity.Of("sheet", r.SheetRatio.LRFD, quantity.Ratio), quantity.Of("header", r.HeaderRatio.LRFD, quantity.Ratio),
			quantity.Of("post", r.PostRatio.LRFD, quantity.Ratio),
		},
		Result: quantity.Of("r", math.Max(r.SheetRatio.LRFD, math.Max(r.HeaderRatio.LRFD, r.PostRatio.LRFD)), quantity.Ratio), Source: srcLoad,
	})
}

// pushLines write the push on an end frame, beside the test of a new box.
func pushLines(push Pair) []check.Line {
	return []check.Line{{
		Text: "Push across the box at the top of this end", Formula: "H = Σ (Rt left − Rt right)·Δx·x/L",
		Result: quantity.Of("H", math.Abs(push.ASD), quantity.Force), Source: srcStat,
	}, {
		Text: "For comparison only: racking test of a new box with its doors shut, for minutes; not an allowable push", Formula: "ISO 1496-1",
		Result: quantity.Of("test", rackingTest, quantity.Force), Source: "a page quoting ISO 1496-1 (second-hand)",
	}}
}
