package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// CrossMember is a member across the floor that props the two bottom rails
// apart.
type CrossMember struct {
	Bar     steel.Bar
	Steel   Material
	Length  float64 // m between the bottom rails
	Spacing float64 // m between cross members
	// Load is the bottom reaction of the side sheet, kN per m of box: the larger
	// of the two sides.
	Load Pair
	// Foot is what the foot of a rib's post brings to it beside that, kN.
	Foot Pair
	// Floor is true where the floor boards, screwed down, hold it against
	// buckling sideways.
	Floor bool
}

// CrossResult is what comes out of a cross member.
type CrossResult struct {
	P  Pair    // kN
	Pn float64 // kN
}

func (in CrossMember) check() error {
	for _, err := range []error{
		in.Steel.check(),
		quantity.Within("cross member length", in.Length, minHeight, maxHeight, quantity.Length),
		quantity.Within("cross member spacing", in.Spacing, 0.05, 5, quantity.Length),
		quantity.Within("cross member area", in.Bar.Area, 1e-6, 1, quantity.Area),
		in.Load.check("bottom reaction of the wall"), in.Foot.check("push of a post's foot"),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// FloorCrossMember checks a cross member as a strut between the bottom rails.
func FloorCrossMember(in CrossMember) (check.Check, CrossResult, error) {
	var r CrossResult
	if err := in.check(); err != nil {
		return check.Check{}, r, err
	}
	column, err := in.Bar.Column(steel.X, in.Steel.Fy, in.Steel.E, in.Length)
	if err != nil {
		return check.Check{}, r, err
	}
	assume := "The floor boards hold it against buckling sideways."
	if !in.Floor {
		assume = "Nothing holds it against buckling sideways."
		weak, err := in.Bar.Column(steel.Y, in.Steel.Fy, in.Steel.E, in.Length)
		if err != nil {
			return check.Check{}, r, err
		}
		if weak.Pn < column.Pn {
			column = weak
		}
	}
	r.P, r.Pn = in.Load.size().Times(in.Spacing).Plus(in.Foot.size()), column.Pn
	allowed := r.Pn / steel.OmegaTube
	c := check.Check{
		ID: "cross-member", Title: "Floor cross member as a strut", Method: "Column between the bottom rails",
		Source:      srcColumn + "; Ω 1.67, φ 0.90 (memory)",
		Assumptions: []string{assume, "The push comes in centrally; the floor is empty."},
		Validity:    "Cross members welded to both rails, without rust holes.",
		Demand:      quantity.Of("P", r.P.ASD, quantity.Force), Capacity: quantity.Of("Pn/Ω", allowed, quantity.Force),
		Ratio: r.P.ASD / allowed, RatioLRFD: r.P.LRFD / (steel.PhiTube * r.Pn),
		Case: wallCase, CaseLRFD: wallCaseLRFD,
		Working: []check.Line{{
			Text: "Push on one cross member, with the foot of a post over it", Formula: "P = Rb·s + F",
			Terms: []quantity.Q{
				quantity.Of("Rb", math.Abs(in.Load.ASD), quantity.LineLoad),
				quantity.Of("s", in.Spacing, quantity.Length), quantity.Of("F", math.Abs(in.Foot.ASD), quantity.Force),
			},
			Result: quantity.Of("P", r.P.ASD, quantity.Force), Source: srcStat,
		}, {
			Text: "Strength as a column", Formula: "Pn = A·Fn",
			Terms: []quantity.Q{
				quantity.Of("A", in.Bar.Area, quantity.Area), quantity.Of("KL/r", column.KLr, quantity.None),
				quantity.Of("Fn", column.Fn, quantity.Stress),
			},
			Result: quantity.Of("Pn", r.Pn, quantity.Force), Source: srcColumn,
		}},
	}
	if in.Foot == (Pair{}) {
		c.Working[0].Text, c.Working[0].Formula, c.Working[0].Terms = "Push on one cross member", "P = Rb·s", c.Working[0].Terms[:2]
	} else {
		c.Assumptions = append(c.Assumptions, "A post stands over it and brings all of its push: the rail beside it spreads nothing.")
	}
	if most := c.Worst(); most > 1 && in.Foot != (Pair{}) {
		c.Remedy = "A floor tie from post to post takes the push of the feet."
	} else if most > 1 {
		c.Remedy = "Struts under the floor so that they stand no further apart than {0}."
		c.RemedyQ = []quantity.Q{quantity.Of("", in.Spacing/most, quantity.Length)}
	}
	return c, r, nil
}
