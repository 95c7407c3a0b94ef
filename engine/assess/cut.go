package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/dig"
	"hillset/engine/model"
	"hillset/engine/section"
)

// cut offers the checks of the open excavation: the batter of every face, the
// spoil heap, the way out of the gap.
func (j *job) cut(plan *section.Plan, sr *stageResult, worst *worstOf) error {
	v := sr.view
	add := func(c check.Check) {
		worst.add(candidate{slot: slot{c.ID, c.Part}, stage: sr.st.ID, ratio: ratioOf(c.Ratio, c.RatioLRFD),
			write: func() (check.Check, error) { return c, nil }})
	}
	j.faces(v, v, "cut face", "front face of the cut", add)
	cross, err := plan.Cross(v.Toe[0])
	if err != nil {
		return err
	}
	cv, err := cross.Beside(sr.st)
	if err != nil {
		return err
	}
	j.faces(v, cv, "right face of the cut", "left face of the cut", add)
	h := math.Max(v.CutHeight, cv.CutHeight)
	if h <= 0 {
		return nil
	}
	if j.p.Cut.Spoil.Height > 0 {
		add(dig.SpoilCheck(dig.SpoilInput{Part: "spoil heap", Setback: j.p.Cut.Spoil.Setback, Height: j.p.Cut.Spoil.Height, CutHeight: h, N: j.p.Cut.Batter}))
	}
	// the gap runs round three sides of the box; its narrowest part decides
	add(dig.TrenchCheck(dig.GapInput{Part: "gap beside the box", Depth: h, Width: math.Min(j.p.Cut.WorkBack, j.p.Cut.WorkSide),
		Length: 2*j.depth + j.across + 2*j.p.Cut.WorkSide, Ladders: j.p.Cut.Ladders, LaddersStated: j.p.Cut.Ladders > 0}))
	return nil
}

// faces splits the straight pieces of a section into its two faces and checks
// each: the one that rises to the right and the one that rises to the left.
func (j *job) faces(long, v *section.View, right, left string, add func(check.Check)) {
	up, down := facesOf(v.Batters)
	for _, f := range []struct {
		part   string
		pieces []section.Batter
	}{{right, up}, {left, down}} {
		if len(f.pieces) > 0 {
			add(j.batter(long, v, f.pieces, f.part))
		}
	}
}

// seeping tells whether the ground counts as seeping where it is cut: water
// was seen to, or stands above the formation within the works by an observed
// or seasonal level. It does not when the user has made sure that the ground
// is dry when it is dug.
func (j *job) seeping(long *section.View) bool {
	if j.p.Cut.Seepage {
		return true
	}
	if j.p.Cut.DryDig {
		return false
	}
	w := j.p.Site.Water
	if z, ok := j.wetSeason(long); ok && z > long.Formation {
		return true
	}
	for _, o := range w.Observed {
		if o.Pos[0] >= j.frontX-j.p.Cut.Apron && o.Pos[0] <= long.Crest[0] && o.Pos[1] > long.Formation {
			return true
		}
	}
	return false
}

// wetSeason is the highest level of the ordinary wet season where the hill is
// cut: that computed for the hill as found, or the one given. ok is false where
// neither is known.
func (j *job) wetSeason(long *section.View) (level float64, ok bool) {
	if j.field != nil && j.field.Far[model.WaterSeasonal] != nil {
		table := j.field.Far[model.WaterSeasonal].Table
		level = math.Inf(-1)
		for _, v := range table.ClipX(j.frontX-j.p.Cut.Apron, math.Max(long.Crest[0], j.backX)) {
			level = math.Max(level, v[1])
		}
		return level, !math.IsInf(level, -1)
	}
	if z := j.p.Site.Water.Seasonal; z != nil {
		return *z, true
	}
	return 0, false
}

// batter checks one face.
func (j *job) batter(long, v *section.View, face []section.Batter, part string) check.Check {
	in := dig.BatterInput{Part: part, HoursOpen: j.p.Cut.HoursOpen, Seepage: j.seeping(long), Fissured: j.p.Cut.Fissured, Height: v.CutHeight}
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
