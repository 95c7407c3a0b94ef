package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// The bars of a roof on posts of its own.
var (
	KindCross = &RailKind{
		id: "roof-cross-beam", title: "Cross beam of the roof on posts", axis: steel.X, bow: "Sag of the cross beam", bowID: "roof-cross-beam-deflection",
		assume: []string{"Hollow section, its depth upright, resting on the edge beams and held down there.", "It lies clear of the roof of the box."},
		remedy: "A bar of modulus {1}, cross beams closer together, or less cover.",
	}
	KindEdge = &RailKind{
		id: "roof-edge-beam", title: "Edge beam of the roof on posts", axis: steel.X, bow: "Sag of the edge beam", bowID: "roof-edge-beam-deflection",
		assume: []string{"Hollow section, its depth upright, jointed over every post."},
		remedy: "Posts no further apart than {0}, or a bar of modulus {1}.",
	}
)

// FreePost is a post beside the box that carries a roof past it, over its free
// height.
type FreePost struct {
	Bar    steel.Bar
	Steel  Material
	Height float64 // m
	Load   Pair    // kN
	Case   Cases   // combinations that gave the load
}

// FreePostResult is what comes out of such a post.
type FreePostResult struct {
	Column steel.BarColumn // about the weaker axis
	Ratio  Pair
}

// Solve finds the strength of the post about its weaker axis. Errors name what
// is out of range, slender walls among it.
func (in FreePost) Solve() (FreePostResult, error) {
	var r FreePostResult
	for _, err := range []error{
		in.Steel.check(), in.Load.check("load on the post"),
		quantity.Within("height of the post", in.Height, 0.3, 8, quantity.Length),
		quantity.Within("area of the post", in.Bar.Area, 1e-6, 1, quantity.Area),
	} {
		if err != nil {
			return r, err
		}
	}
	axis := steel.X
	if in.Bar.Ry < in.Bar.Rx {
		axis = steel.Y
	}
	var err error
	if r.Column, err = in.Bar.Column(axis, in.Steel.Fy, in.Steel.E, in.Height); err != nil {
		return r, err
	}
	r.Ratio = Pair{in.Load.ASD * steel.OmegaTube / r.Column.Pn, in.Load.LRFD / (steel.PhiTube * r.Column.Pn)}
	return r, nil
}

// Check makes the check of a free post as a column.
func (in FreePost) Check() (check.Check, FreePostResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	pn := r.Column.Pn
	c := check.Check{
		ID: "roof-post", Title: "Post of the roof on posts", Method: "Column over its free height, ASD and LRFD",
		Source: srcColumn + "; Ω 1.67, φ 0.90 (memory)",
		Assumptions: []string{
			"Pinned at the foot and the head; the fill beside it holds it against nothing.",
			"The load stands on its axis; the soil beside it presses on it evenly from all sides.",
			"The roof is held against swaying by braces or by what it leans on: that is not checked.",
		},
		Validity: "Straight posts without dents. Base plates and caps are not checked.",
		Demand:   quantity.Of("P", in.Load.ASD, quantity.Force), Capacity: quantity.Of("Pn/Ω", pn/steel.OmegaTube, quantity.Force),
		Ratio: r.Ratio.ASD, RatioLRFD: r.Ratio.LRFD, Case: in.Case.ASD, CaseLRFD: in.Case.LRFD,
		Working: []check.Line{{
			Text: "Slenderness about the weaker axis", Formula: "KL/r, K = 1",
			Terms:  []quantity.Q{quantity.Of("L", in.Height, quantity.Length), quantity.Of("r", math.Min(in.Bar.Rx, in.Bar.Ry), quantity.Thickness)},
			Result: quantity.Of("KL/r", r.Column.KLr, quantity.None), Source: srcColumn,
		}, {
			Text: "Column stress", Formula: "Fn = 0.658^(Fy/Fe)·Fy, or 0.877·Fe",
			Terms:  []quantity.Q{quantity.Of("Fe", r.Column.Fe, quantity.Stress), quantity.Of("Fy", in.Steel.Fy, quantity.Stress)},
			Result: quantity.Of("Fn", r.Column.Fn, quantity.Stress), Source: srcColumn,
		}, {
			Text: "Strength", Formula: "Pn = A·Fn", Terms: []quantity.Q{quantity.Of("A", in.Bar.Area, quantity.Area)},
			Result: quantity.Of("Pn", pn, quantity.Force), Source: srcColumn,
		}, {
			Text: "Allowable strength", Formula: "r = P·Ω/Pn",
			Terms:  []quantity.Q{quantity.Of("P", in.Load.ASD, quantity.Force), quantity.Of("Ω", steel.OmegaTube, quantity.Factor)},
			Result: quantity.Of("r", r.Ratio.ASD, quantity.Ratio), Source: "Ω 1.67 (memory)",
		}, {
			Text: "Load and resistance factors", Formula: "r = Pu/(φ·Pn)",
			Terms:  []quantity.Q{quantity.Of("Pu", in.Load.LRFD, quantity.Force), quantity.Of("φ", steel.PhiTube, quantity.Factor)},
			Result: quantity.Of("r", r.Ratio.LRFD, quantity.Ratio), Source: "φ 0.90 (memory)",
		}},
	}
	if most := c.Worst(); most > 1 {
		c.Remedy = "A stouter post, posts closer together, or less cover: no more than {0} on a post."
		c.RemedyQ = []quantity.Q{quantity.Of("", in.Load.ASD/most, quantity.Force)}
	}
	return c, r, nil
}
