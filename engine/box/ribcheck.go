package box

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

const srcRing = "stiffness solution of the closed frame (derived); AISC 360 H1-1, F, E3, G (memory; column curve verified)"

// Worst is the part of the rib with the largest ratio, over both kinds of
// combinations, with that ratio.
func (r *RibResult) Worst() (RibPart, Pair) {
	part, both := LeftPost, Pair{}
	most := -1.0
	for p := range ringParts {
		asd, lrfd := r.ASD[p].Ratio, r.LRFD[p].Ratio
		both.ASD, both.LRFD = math.Max(both.ASD, asd), math.Max(both.LRFD, lrfd)
		if m := math.Max(asd, lrfd); m > most {
			part, most = p, m
		}
	}
	return part, both
}

// governing is the part with the largest ratio.
func governing(ratings *[ribParts]PartRating) RibPart {
	at := LeftPost
	for p := range ringParts {
		if ratings[p].Ratio > ratings[at].Ratio {
			at = p
		}
	}
	return at
}

// RibRing checks a rib as a closed frame with sway under the soil on both
// walls, equal or not, and the load on the roof.
func RibRing(in Rib) (check.Check, RibResult, error) { return in.checked(RibRingOf) }

// checked solves a rib and makes a check of it.
func (in Rib) checked(of func(Rib, *RibResult) (check.Check, error)) (check.Check, RibResult, error) {
	r, err := in.Solve()
	if err != nil {
		return check.Check{}, r, err
	}
	c, err := of(in, &r)
	return c, r, err
}

// RibRingOf is RibRing of a rib that is solved.
func RibRingOf(in Rib, r *RibResult) (check.Check, error) {
	part, ratio := r.Worst()
	byASD := governing(&r.ASD) // it may be another part than the one that decides
	a := r.ASD[byASD]
	mn := ribMoment(in, byASD) / steel.OmegaBending
	c := check.Check{
		ID: "rib", Title: "Rib as a closed frame",
		Method:      "Plane frame with sway, sway amplified, ASD and LRFD",
		Source:      srcRing,
		Assumptions: append(ribJointWords(in), ribShareWords(in), ribRoofWords(in), ribWallWords(in), ribGroundWords(in, r)),
		Validity:    "Even spacing of ribs; walls and roof bear on the ribs.",
		Demand:      quantity.Of("M", math.Abs(a.M), quantity.Moment), Capacity: quantity.Of("Mn/Ω", mn, quantity.Moment),
		Ratio: ratio.ASD, RatioLRFD: ratio.LRFD, Case: a.Combo, CaseLRFD: r.LRFD[governing(&r.LRFD)].Combo,
		Working: ribWorking(in, r, part),
	}
	if in.Pinned {
		c.Title = "Rib of bars that span by themselves"
		c.Method = "Plane frame of hinged bars held by the roof, ASD and LRFD"
	}
	if a.Ratio > a.Bending*(1+1e-9) { // compression or shear counts as well
		c.Demand = quantity.Of("ΣN,M", a.Ratio, quantity.Ratio)
		c.Capacity = quantity.Of("", 1, quantity.Ratio)
	}
	switch most := ratio.largest(); {
	case math.IsInf(most, 1):
		c.Remedy = "The load on the roof pushes the swaying posts over: heavier posts and beam, ribs closer together, or less cover."
	case most > 1:
		c.Remedy = "Ribs about {0} apart, or a heavier " + part.String() + " with a modulus near {1}."
		c.RemedyQ = []quantity.Q{
			quantity.Of("", in.Spacing/most, quantity.Length),
			quantity.Of("", ribMoment(in, part)/in.Steel.Fy*most, quantity.SectionModulus),
		}
	}
	return c, nil
}

// ribJointWords tells how the bars are joined and what holds them sideways.
func ribJointWords(in Rib) []string {
	if !in.Pinned {
		return []string{
			"Rigid corners, welded to the full strength of the bars.",
			"The frame is held sideways at the bottom corner away from the larger push.",
			"No help from the roof as a diaphragm.",
		}
	}
	out := []string{"Hinged corners: every bar spans by itself.",
		"The roof, as a diaphragm, holds the tops of the posts sideways: see its own check."}
	if in.Beam.Area == 0 {
		out = append(out, "There is no roof beam: the roof sheet props the tops apart, and the edges of the roof stand on the posts.")
	}
	if in.Tie.Area == 0 {
		out = append(out, "There is no floor tie: the cross members of the floor prop the feet apart.")
	}
	return out
}

// ribGroundWords tells what the rib stands on.
func ribGroundWords(in Rib, r *RibResult) string {
	if in.Ground == 0 {
		return "The rib stands on both bottom corners; the floor between them does not touch the ground."
	}
	if r.Lifts {
		return "The floor lies on the ground as on springs that push and do not pull; part of it lets go."
	}
	return "The floor lies on the ground as on springs, which spread what the rib presses over its spacing."
}

func ribShareWords(in Rib) string {
	if in.Share > 1 {
		return "Rails, wales and purlins run on over the ribs: the first inner rib takes more than its spacing of walls and roof."
	}
	return "Each rib carries the walls and the roof over its spacing."
}

func ribRoofWords(in Rib) string {
	if in.Beam.Area == 0 {
		return "The roof sheet brings its load to its edges and so to the posts."
	}
	if len(in.Purlins) > 0 {
		return "The purlins bring the roof load to the beam as forces; the edges of the sheet stand over the posts."
	}
	return "The roof beam takes the whole roof load of that strip evenly."
}

func ribWallWords(in Rib) string {
	if len(in.Wales) > 0 {
		return "The sheets bring their load to the posts at the wales and to the corners through the rails."
	}
	return "Without wales the posts carry the sheets over their height: the troughs beside them are packed so that each crest bears."
}

// ribMoment is the nominal bending strength of a part, found before without
// error.
func ribMoment(in Rib, part RibPart) float64 {
	bar := in.bar(part)
	mn, err := bar.Moment(steel.X, in.Steel.Fy, in.Steel.E)
	if err != nil {
		panic("box: strength of a bar lost: " + err.Error())
	}
	return mn
}

// ribWorking writes the working for the governing part.
func ribWorking(in Rib, r *RibResult, part RibPart) []check.Line {
	a, l := r.ASD[part], r.LRFD[part]
	push := func(p Pressures) float64 { return p.total() * in.length() }
	raise := check.Line{
		Text: "Worst of the " + part.String() + ", " + a.Combo, Formula: "M = B1·M1 + (B2 − 1)·Msway, B1 between the ends of a bar",
		Terms: []quantity.Q{
			quantity.Of("B2", a.Amplified, quantity.Factor), quantity.Of("z", a.At, quantity.Length),
			quantity.Of("N", a.N, quantity.Force),
		},
		Result: quantity.Of("M", a.M, quantity.Moment), Source: "sway amplification by AISC 360 App. 8 (memory)",
	}
	corner := check.Line{
		Text: "Largest corner moment, service", Formula: "K·u = F",
		Terms: []quantity.Q{
			quantity.Of("B", in.Width, quantity.Length), quantity.Of("H", in.Height, quantity.Length),
			quantity.Of("sway", r.Sway, quantity.Thickness),
		},
		Result: quantity.Of("M", r.Corner, quantity.Moment), Source: srcRing,
	}
	if in.Pinned {
		raise.Formula, raise.Terms[0].Sym, raise.Source = "M = B1·M1, B1 = 1/(1 − 1.6·N/PE)", "B1", "AISC 360 App. 8, Cm 1 (memory)"
		corner.Text, corner.Formula, corner.Result = "Moment in the corners: hinged", "M = 0", quantity.Of("M", 0, quantity.Moment)
	}
	return []check.Line{{
		Text: "Push of the walls on one rib, left and right", Formula: "W = c·s·∫ p dz",
		Terms: []quantity.Q{
			quantity.Of("s", in.Spacing, quantity.Length),
			quantity.Of("c", in.length()/in.Spacing, quantity.None),
			quantity.Of("W left", push(in.Left), quantity.Force),
		},
		Result: quantity.Of("W right", push(in.Right), quantity.Force), Source: srcStat,
	}, corner, raise, {
		Text: "Bending alone, allowable strength", Formula: "r = M·Ω/Mn",
		Terms: []quantity.Q{
			quantity.Of("Mn", ribMoment(in, part), quantity.Moment), quantity.Of("Ω", steel.OmegaBending, quantity.Factor),
		},
		Result: quantity.Of("r", a.Bending, quantity.Ratio), Source: "AISC 360 F7 (memory)",
	}, {
		Text: "With the force along the bar, allowable strength", Formula: "N/Nc ≥ 0.2: N/Nc + 8/9·M/Mc; else N/(2·Nc) + M/Mc; or shear",
		Result: quantity.Of("r", a.Ratio, quantity.Ratio), Source: "AISC 360 H1-1 (memory)",
	}, {
		Text: "The same by load and resistance factors, " + l.Combo, Formula: "Mu, Nu against φ·Mn, φ·Pn",
		Terms: []quantity.Q{
			quantity.Of("Mu", l.M, quantity.Moment), quantity.Of("Nu", l.N, quantity.Force),
			quantity.Of("φ", steel.PhiBending, quantity.Factor),
		},
		Result: quantity.Of("r", l.Ratio, quantity.Ratio), Source: srcRing,
	}}
}
