package assess

import (
	"fmt"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/section"
)

// purlinChecks offers the purlins under the most loaded metre of roof.
func (j *job) purlinChecks(v *section.View, sr *stageResult, r *box.RoofResult, station float64) error {
	if len(r.Purlins) == 0 {
		return nil
	}
	bar, err := j.bar(j.p.Strengthening.Ribs.Purlin)
	if err != nil {
		return err
	}
	in := j.ribbed(bar, j.added)
	for k, load := range r.Purlins {
		in.Load = load
		made, _, err := box.Purlin(in)
		if err != nil {
			return err
		}
		sr.add(candidate{id: made.ID, part: fmt.Sprintf("roof, purlin %d", k+1), stage: v.Stage.ID, station: station, hasStation: true,
			ratio: made.Worst(), write: func() (check.Check, error) { return made, nil }})
	}
	return nil
}

// postCheck offers the most loaded corner post under everything on the roof.
func (j *job) postCheck(v *section.View, sr *stageResult) error {
	area, n := j.depth*j.across, float64(len(sr.roofs))
	in := box.Post{Strength: j.box.PostStrength, Length: j.box.L - j.box.CastL, Width: j.box.W - j.box.CastW}
	var moment, total float64
	for _, r := range sr.roofs {
		l := r.load
		in.Dead += (l.Layers + l.Soil + l.Water) * area / n
		in.Live += (l.Live + l.Area) * area / n
		in.Snow += l.Snow * area / n
		moment += l.Total * (l.Station - (j.frontX+j.backX)/2)
		total += l.Total
	}
	if total <= 0 {
		return nil
	}
	in.EccX = moment / total
	if j.depth != j.box.L { // broadside: the stations run across the box
		in.EccX, in.EccY = 0, in.EccX
	}
	made, _, err := box.CornerPost(in)
	if err != nil {
		return err
	}
	sr.add(candidate{id: made.ID, part: "corner posts", stage: v.Stage.ID, ratio: made.Worst(), write: func() (check.Check, error) { return made, nil }})
	return nil
}
