package assess

import (
	"fmt"

	"hillset/engine/box"
	"hillset/engine/check"
)

// purlinBar is the purlin of the project without load.
func (j *job) purlinBar() wallBar {
	b := wallBar{kind: box.KindPurlin}
	bar, err := j.bar(j.p.Strengthening.Ribs.Purlin)
	b.rail, b.fault = j.ribbed(bar, j.added), err
	return b
}

// purlinChecks offers the purlins under a metre of roof.
func (j *job) purlinChecks(sr *stageResult, s *roofSheet, station float64, worst *worstOf) error {
	for k, load := range s.result.Purlins {
		b := j.purlin
		b.part = purlinName(k)
		if err := b.offer(sr, load, station, true, worst); err != nil {
			return err
		}
	}
	return nil
}

// purlinName names purlin k, without a search for words in a run for the usual
// ones.
func purlinName(k int) string {
	if names := [...]string{"roof, purlin 1", "roof, purlin 2", "roof, purlin 3"}; k < len(names) {
		return names[k]
	}
	return fmt.Sprintf("roof, purlin %d", k+1)
}

// postCheck offers the most loaded corner post under everything on the roof.
func (j *job) postCheck(sr *stageResult, worst *worstOf) error {
	area, n := j.depth*j.across, float64(len(sr.tops))
	in := box.Post{Strength: j.box.PostStrength, Length: j.box.L - j.box.CastL, Width: j.box.W - j.box.CastW}
	var moment, total float64
	for i := range sr.tops {
		l := &sr.tops[i].load
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
	worst.add(candidate{slot: slot{made.ID, "corner posts"}, stage: sr.st.ID, ratio: made.Worst(), write: func() (check.Check, error) { return made, nil }})
	return nil
}
