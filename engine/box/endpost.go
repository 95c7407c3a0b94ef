package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// EndPost is a corner post of the blind end: the wales of the end wall and the
// earth on its own face bend it along the box, between its two castings, while
// it carries its share of the roof.
type EndPost struct {
	Post     steel.Post
	Steel    Material
	Strength float64 // kN, lower bound in compression (box table)
	Span     float64 // m between the middles of its castings
	Face     Pressures
	Width    float64    // m of its face that Face presses on; places up from the lower casting
	Bars     []PostPush // wales that end on it
	Axial    Effects    // kN from the roof
}

// PostPush is the end of a bar on a post.
type PostPush struct {
	At float64 // m above the middle of the lower casting
	P  float64 // kN, service
}

// EndPostResult is what comes out of an end post.
type EndPostResult struct {
	M, At     float64 // kNm, service moment of largest size, m up from the lower casting
	Top       float64 // kN, service reaction on the upper casting
	Bottom    float64
	Mn, Pn    float64 // kNm, kN
	PE        float64 // kN, Euler load along the box
	P, Mom    Pair    // what governs: kN and kNm, amplified
	Ratio     Pair
	Case      string
	CaseLRFD  string
	Amplified Pair
}

// pushWidth is the length of post over which the end of a bar presses, m: about
// the depth of the bar.
const pushWidth = 0.06

func (in *EndPost) check() error {
	for _, err := range []error{
		in.Steel.check(),
		quantity.Within("post area", in.Post.Area, 1e-6, 1, quantity.Area),
		quantity.Within("post strength", in.Strength, 1, 1e5, quantity.Stress),
		quantity.Within("post length", in.Span, minHeight, maxHeight, quantity.Length),
		quantity.Within("post width", in.Width, 0, 1, quantity.Length),
		in.Face.check(in.Span),
	} {
		if err != nil {
			return err
		}
	}
	for _, b := range in.Bars {
		if err := quantity.Within("height of a bar on the post", b.At, 0, in.Span, quantity.Length); err != nil {
			return err
		}
		if err := (Pair{b.P, b.P}).check("push of a bar on the post"); err != nil {
			return err
		}
	}
	return in.Axial.check("roof load on the post")
}

// check refuses effects that are not finite.
func (e Effects) check(field string) error {
	for _, v := range [...]float64{e.D, e.L, e.H, e.F, e.S} {
		if err := quantity.Range(field, v, -1e6, 1e6); err != nil {
			return err
		}
	}
	return nil
}

// load is everything that bends the post, kN/m. The end of a bar within half
// its depth of a casting goes straight into the casting.
func (in *EndPost) load() frame.Load {
	parts := []frame.Load{in.Face.Service().Scale(in.Width)}
	for _, b := range in.Bars {
		if b.At < pushWidth/2 || b.At > in.Span-pushWidth/2 {
			continue
		}
		p := b.P / pushWidth
		parts = append(parts, frame.Load{{S: b.At - pushWidth/2, P: p}, {S: b.At + pushWidth/2, P: p}})
	}
	return frame.Add(parts...)
}

// atTop is what bars bring straight to the upper casting, kN.
func (in *EndPost) atTop() float64 {
	sum := 0.0
	for _, b := range in.Bars {
		if b.At > in.Span-pushWidth/2 {
			sum += b.P
		}
	}
	return sum
}

// Solve does the statics and rates the post.
func (in EndPost) Solve() (EndPostResult, error) {
	var r EndPostResult
	if err := in.check(); err != nil {
		return r, err
	}
	line, err := frame.Simple(in.Span, in.load(), in.Steel.E*in.Post.Ix)
	if err != nil {
		return r, err
	}
	r.M, r.At = line.MMax, line.SMax
	r.Bottom, r.Top = line.Ra, line.Rb+in.atTop()
	r.Mn = in.Post.Sx * in.Steel.Fy
	fn, _, err := steel.ColumnStress(in.Steel.Fy, in.Steel.E, in.Span/in.Post.RMin)
	if err != nil {
		return r, err
	}
	r.Pn = math.Min(in.Strength, fn*in.Post.Area)
	r.PE = math.Pi * math.Pi * in.Steel.E * in.Post.Ix / (in.Span * in.Span)
	see := func(combos []Combo, form strengthForm) (ratio, p, m, b1 float64, name string) {
		for k, c := range combos {
			pc, up := math.Max(0, c.Of(in.Axial)), math.Inf(1)
			if left := 1 - form.raise*pc/r.PE; left > 0 {
				up = 1 / left
			}
			mc := 0.0
			if first := math.Abs(r.M) * c.H; first > 0 {
				mc = first * up
			}
			one := steel.H1(pc, r.Pn*form.axial, mc, r.Mn*form.bend)
			if k == 0 || one > ratio {
				ratio, p, m, b1, name = one, pc, mc, up, c.Name
			}
		}
		return ratio, p, m, b1, name
	}
	r.Ratio.ASD, r.P.ASD, r.Mom.ASD, r.Amplified.ASD, r.Case = see(Allowable, asdForm)
	r.Ratio.LRFD, r.P.LRFD, r.Mom.LRFD, r.Amplified.LRFD, r.CaseLRFD = see(Strength, lrfdForm)
	return r, nil
}

// BlindEndPost checks a corner post of the blind end.
func BlindEndPost(in EndPost) (check.Check, EndPostResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c := check.Check{
		ID: "end-post", Title: "Corner post of the blind end, bent along the box", Method: "Beam-column between its castings",
		Source: "post outline (memory); strength in compression: lower bound of a published thesis (abstract seen, verified); " + srcH1 + "; " + srcCombos,
		Assumptions: []string{
			"The post is pinned at its castings and bends to first yield only.",
			"The two walls that meet at it hold it against giving way to the side.",
			"Wales end on it in its middle; their ends are welded to the post.",
			"All pressure counts as earth and ground water (H).",
		},
		Validity: "Posts without dents, cuts or rust holes.",
		Demand:   quantity.Of("r", r.Ratio.ASD, quantity.Ratio), Capacity: quantity.Of("", 1, quantity.Ratio),
		Ratio: r.Ratio.ASD, RatioLRFD: r.Ratio.LRFD, Case: r.Case, CaseLRFD: r.CaseLRFD,
		Working: in.working(&r),
	}
	if most := c.Worst(); most > 1 {
		c.Remedy = "Wales of the back wall that end nearer the castings, or a bar welded along the post with a modulus of at least {0}; or less soil behind the box."
		c.RemedyQ = []quantity.Q{quantity.Of("", math.Max(0, (most-1)*in.Post.Sx), quantity.SectionModulus)}
	}
	return c, r, nil
}

// working writes the steps.
func (in *EndPost) working(r *EndPostResult) []check.Line {
	bars := 0.0
	for _, b := range in.Bars {
		bars += b.P
	}
	face, _ := in.Face.Service().Total()
	return []check.Line{{
		Text: "Bars of the end wall press on the post", Formula: "Σ P = Σ R·b/2",
		Result: quantity.Of("Σ P", bars, quantity.Force), Source: srcStat,
	}, {
		Text: "Pressure on its own face", Formula: "W = b·∫ p dz",
		Terms:  []quantity.Q{quantity.Of("b", in.Width, quantity.Length)},
		Result: quantity.Of("W", face*in.Width, quantity.Force), Source: srcStat,
	}, {
		Text: "Largest moment along the box, service", Formula: "V(z) = 0 → M",
		Terms: []quantity.Q{
			quantity.Of("z", r.At, quantity.Length), quantity.Of("Rt", r.Top, quantity.Force), quantity.Of("Rb", r.Bottom, quantity.Force),
		},
		Result: quantity.Of("M", math.Abs(r.M), quantity.Moment), Source: srcStat,
	}, {
		Text: "Bending strength at first yield", Formula: "Mn = S·Fy",
		Terms: []quantity.Q{
			quantity.Of("S", in.Post.Sx, quantity.SectionModulus), quantity.Of("Fy", in.Steel.Fy, quantity.Stress),
		},
		Result: quantity.Of("Mn", r.Mn, quantity.Moment), Source: "AISC 360 F (memory)",
	}, {
		Text: "Strength in compression: column, not above the lower bound of the table", Formula: "Pn ≤ A·Fn",
		Terms: []quantity.Q{
			quantity.Of("A", in.Post.Area, quantity.Area), quantity.Of("L/r", in.Span/in.Post.RMin, quantity.None),
		},
		Result: quantity.Of("Pn", r.Pn, quantity.Force), Source: srcColumn,
	}, {
		Text: "Load from the roof, " + r.Case, Formula: "P = Σ γ·P",
		Result: quantity.Of("P", r.P.ASD, quantity.Force), Source: srcCombos,
	}, {
		Text: "Moment with the compression", Formula: "M2 = γ·M/(1 − 1.6·P/PE)",
		Terms:  []quantity.Q{quantity.Of("PE", r.PE, quantity.Force)},
		Result: quantity.Of("M2", r.Mom.ASD, quantity.Moment), Source: "AISC 360 App. 8, Cm = 1 (memory)",
	}, {
		Text: "Together, allowable strength", Formula: "P/Pa ≥ 0.2: P/Pa + 8/9·M2/Ma, else P/(2·Pa) + M2/Ma",
		Result: quantity.Of("r", r.Ratio.ASD, quantity.Ratio), Source: srcH1,
	}, {
		Text: "Together, load and resistance factors, " + r.CaseLRFD, Formula: "the same with φ",
		Terms: []quantity.Q{
			quantity.Of("Pu", r.P.LRFD, quantity.Force), quantity.Of("Mu", r.Mom.LRFD, quantity.Moment),
		},
		Result: quantity.Of("r", r.Ratio.LRFD, quantity.Ratio), Source: srcH1,
	}}
}
