package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/dig"
	"hillset/engine/section"
)

// cut offers the checks of the open excavation: the batter of the back face
// and of the two side faces where they are highest, the spoil heap, the way
// out of the gap.
func (j *job) cut(plan *section.Plan, sr *stageResult, worst *worstOf) error {
	v := sr.view
	add := func(c check.Check) {
		worst.add(candidate{slot: slot{c.ID, c.Part}, stage: sr.st.ID, ratio: ratioOf(c.Ratio, c.RatioLRFD),
			write: func() (check.Check, error) { return c, nil }})
	}
	j.face(v, "cut face", add)
	cross, err := plan.Cross(j.backX)
	if err != nil {
		return err
	}
	cv, err := cross.Beside(sr.st)
	if err != nil {
		return err
	}
	j.face(cv, "side faces of the cut", add)
	h := v.CutHeight
	if j.p.Cut.Spoil.Height > 0 && h > 0 {
		add(dig.SpoilCheck(dig.SpoilInput{Part: "spoil heap", Setback: j.p.Cut.Spoil.Setback, Height: j.p.Cut.Spoil.Height, CutHeight: h, N: j.p.Cut.Batter}))
	}
	if h > 0 {
		add(dig.TrenchCheck(dig.GapInput{Part: "gap beside the box", Depth: h, Width: math.Max(j.p.Cut.WorkBack, j.p.Cut.WorkSide), Length: j.depth,
			Ladders: j.p.Cut.Ladders, LaddersStated: j.p.Cut.Ladders > 0}))
	}
	return nil
}

// face splits the straight pieces of a section into continuous faces and
// checks each.
func (j *job) face(v *section.View, part string, add func(check.Check)) {
	var one []section.Batter
	flush := func() {
		if len(one) > 0 {
			add(j.batter(v, one, part))
		}
		one = nil
	}
	for _, b := range v.Batters {
		if n := len(one); n > 0 && math.Abs(one[n-1].Top[1]-b.Foot[1]) > 1e-6 {
			flush()
		}
		one = append(one, b)
	}
	flush()
}

// batter checks one face.
func (j *job) batter(v *section.View, face []section.Batter, part string) check.Check {
	in := dig.BatterInput{Part: part, HoursOpen: j.p.Cut.HoursOpen, Seepage: j.p.Cut.Seepage, Fissured: j.p.Cut.Fissured}
	in.Surcharge = j.p.Cut.Spoil.Height > 0 && j.p.Cut.Spoil.Setback < v.CutHeight
	for i, b := range face {
		p := dig.Piece{Stratum: b.Stratum, Foot: b.Foot[1] - face[0].Foot[1], Top: b.Top[1] - face[0].Foot[1], N: b.N}
		for _, s := range j.p.Site.Strata {
			if s.ID != b.Stratum {
				continue
			}
			if so, ok := section.SoilByID(j.p, s.Soil); ok {
				p.Stratum, p.Class, p.Cohesive = so.Name, so.DigClass, cohesive(so.USCS)
			}
		}
		if i+1 < len(face) {
			p.Step = math.Abs(face[i+1].Foot[0] - b.Top[0])
		}
		in.Pieces = append(in.Pieces, p)
	}
	return dig.BatterCheck(in)
}

// cohesive tells clay-like groups of ASTM D2487 from the rest.
func cohesive(uscs string) bool {
	switch uscs {
	case "CL", "CH", "CL-ML", "MH", "SC", "GC":
		return true
	}
	return false
}

// batterID is the id that package dig gives the check of a cut face.
const batterID = "batter"
