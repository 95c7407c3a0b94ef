package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// Racking is the push of the blind end along the box at the top of one long
// side: the top rail takes it as a strut, the side sheet brings it down as a
// shear panel, and the posts at its two ends hold it against tipping.
type Racking struct {
	Push Pair // kN at the top of this side
	// Rail is the top rail, RailBend what the side sheet has used of it in
	// bending between ribs (0 where the roof holds it), Bed how stiffly the roof
	// sheet holds it: RailBed.
	Rail      steel.Bar
	RailSteel Material
	RailBend  Pair
	Bed       float64
	Cuts      []RoofCut // where it does not
	Side      Panel
	Length    float64 // m between the corner posts
	Open      float64 // m of it taken by openings
	// Post is what the roof brings to the post at the far end, kN, and Strength
	// its lower bound in compression.
	Post     Effects
	Strength float64
}

// RackingResult is what comes out of it.
type RackingResult struct {
	Strut      bedded
	Panel      PanelStrength
	V          Pair // kN/m in the side sheet
	Couple     Pair // kN on the posts at the ends, + at the far one
	RailRatio  Pair
	PanelRatio Pair
	PostRatio  Pair
	post       [2]string // combinations
	postP      Pair
}

func (in *Racking) check() error {
	for _, err := range []error{
		in.Push.check("push of the blind end"), in.RailBend.check("bending of the top rail"), in.RailSteel.check(),
		quantity.Within("length of the side", in.Length, 0.5, 20, quantity.Length),
		quantity.Within("openings of the side", in.Open, 0, in.Length-0.1, quantity.Length),
		quantity.Within("post strength", in.Strength, 1, 1e5, quantity.Stress),
		quantity.Within("rail area", in.Rail.Area, 1e-6, 1, quantity.Area),
		in.Post.check("roof load on the post"),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// Solve finds forces, strengths and ratios.
func (in Racking) Solve() (RackingResult, error) {
	var r RackingResult
	if err := in.check(); err != nil {
		return r, err
	}
	var err error
	if r.Strut, err = beddedStrut(in.Rail, in.RailSteel, bed{in.Bed, in.Cuts, in.Length}); err != nil {
		return r, err
	}
	if r.Panel, err = in.Side.Strength(); err != nil {
		return r, err
	}
	h := in.Push.size()
	pn := r.Strut.Pn
	r.RailRatio = Pair{
		steel.H1(h.ASD, pn/steel.OmegaTube, in.RailBend.ASD, 1),
		steel.H1(h.LRFD, pn*steel.PhiTube, in.RailBend.LRFD, 1),
	}
	r.V = h.Times(1 / (in.Length - in.Open))
	va := r.Panel.Available()
	r.PanelRatio = Pair{r.V.ASD / va.ASD, r.V.LRFD / va.LRFD}
	r.Couple = h.Times(in.Side.Height / in.Length)
	e := in.Post
	e.H += r.Couple.ASD // the factor of H is what parts LRFD from ASD
	r.postP.ASD, r.post[0] = Largest(Allowable, e)
	r.postP.LRFD, r.post[1] = Largest(Strength, e)
	r.PostRatio = Pair{r.postP.ASD * steel.OmegaTube / in.Strength, r.postP.LRFD / (steel.PhiTube * in.Strength)}
	return r, nil
}

// Ratio is what governs of the three.
func (r *RackingResult) Ratio() (p Pair, at int) {
	p.ASD, at = worst(r.PanelRatio.ASD, r.RailRatio.ASD, r.PostRatio.ASD)
	p.LRFD, _ = worst(r.PanelRatio.LRFD, r.RailRatio.LRFD, r.PostRatio.LRFD)
	return p, at
}

// EndPush checks how one long side takes the push of the blind end.
func EndPush(in Racking) (check.Check, RackingResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	ratio, at := r.Ratio()
	c := check.Check{
		ID: "racking", Title: "Push of the blind end along the box", Method: "Top rail as a strut, long wall as a shear panel",
		Source: "statics (derived); " + srcEasley + "; " + srcShear + "; " + srcH1,
		Assumptions: []string{
			"The push leaves the rail evenly along the wall: the welds of sheet and rails are whole.",
			bedAssume,
			"The bed holds the foot of the box: sliding says how far.",
			"All of the push goes through the two long walls; the roof, which folds like a bellows along the box, takes none.",
		},
		Validity: "Side sheet welded all round; what weight and earth ask of the same sheet is added in the check of the side wall as a girder.",
		Ratio:    ratio.ASD, RatioLRFD: ratio.LRFD, Case: Allowable[1].Name, CaseLRFD: Strength[1].Name,
		Working: in.working(&r),
	}
	in.Side.told(&c)
	va := r.Panel.Available().ASD
	switch at {
	case 0:
		c.Demand, c.Capacity = quantity.Of("v", r.V.ASD, quantity.LineLoad), quantity.Of("va", va, quantity.LineLoad)
	case 1:
		c.Demand, c.Capacity = quantity.Of("r", r.RailRatio.ASD, quantity.Ratio), quantity.Of("", 1, quantity.Ratio)
	default:
		c.Demand, c.Capacity = quantity.Of("P", r.postP.ASD, quantity.Force), quantity.Of("Pn/Ω", in.Strength/steel.OmegaTube, quantity.Force)
		c.Case, c.CaseLRFD = r.post[0], r.post[1]
	}
	if most := c.Worst(); most > 1 {
		c.Remedy = "Less push at the top of the blind end, at most {0} on each side: lower the fill behind the box, or brace its back wall to the ground inside."
		c.RemedyQ = []quantity.Q{quantity.Of("", math.Abs(in.Push.ASD)/most, quantity.Force)}
	}
	return c, r, nil
}

func (in *Racking) working(r *RackingResult) []check.Line {
	out := append([]check.Line{{
		Text: "Push at the top of one side", Formula: "H = Rt·b/2 + posts",
		Result: quantity.Of("H", math.Abs(in.Push.ASD), quantity.Force), Source: srcStat,
	}}, r.Strut.lines(in.Rail, in.RailSteel, in.Bed)...)
	out = append(out, check.Line{
		Text: "Rail: push together with its bending between ribs", Formula: "H/Pa ≥ 0.2: H/Pa + 8/9·m, else H/(2·Pa) + m",
		Terms: []quantity.Q{
			quantity.Of("Pa", r.Strut.Pn/steel.OmegaTube, quantity.Force), quantity.Of("m", in.RailBend.ASD, quantity.Ratio),
		},
		Result: quantity.Of("rN", r.RailRatio.ASD, quantity.Ratio), Source: srcH1,
	}, check.Line{
		Text: "Shear flow in the side sheet", Formula: "v = H/(L − openings)",
		Terms: []quantity.Q{
			quantity.Of("L", in.Length, quantity.Length), quantity.Of("openings", in.Open, quantity.Length),
		},
		Result: quantity.Of("v", r.V.ASD, quantity.LineLoad), Source: srcStat,
	})
	out = append(out, panelLines(in.Side, r.Panel)...)
	return append(out, check.Line{
		Text: "Couple on the posts at the two ends", Formula: "Pc = H·h/L",
		Terms: []quantity.Q{
			quantity.Of("h", in.Side.Height, quantity.Length), quantity.Of("L", in.Length, quantity.Length),
		},
		Result: quantity.Of("Pc", r.Couple.ASD, quantity.Force), Source: srcStat,
	}, check.Line{
		Text: "Post at the far end, " + r.post[0], Formula: "P = Σ γ·P + Pc",
		Result: quantity.Of("P", r.postP.ASD, quantity.Force), Source: srcCombos,
	}, check.Line{
		Text: "Load and resistance factors: sheet, rail and post", Formula: "the largest of the three",
		Terms: []quantity.Q{
			quantity.Of("sheet", r.PanelRatio.LRFD, quantity.Ratio), quantity.Of("rail", r.RailRatio.LRFD, quantity.Ratio),
			quantity.Of("post", r.PostRatio.LRFD, quantity.Ratio),
		},
		Result: quantity.Of("r", math.Max(r.PanelRatio.LRFD, math.Max(r.RailRatio.LRFD, r.PostRatio.LRFD)), quantity.Ratio), Source: srcLoad,
	})
}
