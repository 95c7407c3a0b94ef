package assess

import (
	"fmt"

	"hillset/engine/box"
	"hillset/engine/check"
)

// purlinBars are the purlins of the project without load.
func (j *job) purlinBars() []wallBar {
	r := &j.p.Strengthening.Ribs
	bar, err := j.bar(r.Purlin)
	out := make([]wallBar, max(0, r.Purlins))
	for k := range out {
		out[k] = wallBar{part: fmt.Sprintf("roof, purlin %d", k+1), kind: box.KindPurlin, rail: j.ribbed(bar, j.added), fault: err}
	}
	return out
}

// purlinChecks offers the purlins under a metre of roof.
func (j *job) purlinChecks(sr *stageResult, s *roofSheet, station float64, worst *worstOf) error {
	for k, load := range s.result.Purlins {
		if err := j.purlins[k].offer(sr, load, station, true, worst); err != nil {
			return err
		}
	}
	return nil
}

// postCheck offers the most loaded corner post under everything on the roof.
func (j *job) postCheck(sr *stageResult, worst *worstOf) error {
	lengths := tributary(stationsOf(sr.tops))
	in := box.Post{Strength: j.box.PostStrength, Length: j.box.L - j.box.CastL, Width: j.box.W - j.box.CastW}
	var moment, total float64
	for i := range sr.tops {
		l, area := &sr.tops[i].load, lengths[i]*j.across
		in.Dead += (l.Layers + l.Soil + l.Water) * area
		in.Live += (l.Live + l.Area) * area
		in.Snow += l.Snow * area
		moment += l.Total * area * (l.Station - (j.frontX+j.backX)/2)
		total += l.Total * area
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
	worst.add(candidate{slot: slot{made.ID, "corner posts"}, stage: sr.st.ID, ratio: made.Worst(), write: func() (check.Check, error) { return made, nil }})
	return nil
}
