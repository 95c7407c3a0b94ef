package assess

import (
	"fmt"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
)

// purlinBars are the purlins of the project without load.
func (j *job) purlinBars() []wallBar {
	r := &j.p.Strengthening.Ribs
	bar, err := j.bar(r.Purlin)
	out := make([]wallBar, max(0, r.Purlins))
	for k := range out {
		out[k] = wallBar{part: fmt.Sprintf("roof, purlin %d", k+1), kind: box.KindPurlin, rail: j.ribbed(bar, j.added), fault: err}
	}
	return made(out)
}

// purlinChecks offers the purlins under a metre of roof.
func (j *job) purlinChecks(sr *stageResult, s *roofSheet, station float64, worst *worstOf) error {
	for k, load := range s.result.Purlins {
		if err := j.purlins[k].offer(sr, load, s.result.Cases[k], station, true, worst); err != nil {
			return err
		}
		c, at := j.agedAt(sr.st.Years).purlin, candidate{slot: slot{crippleID, "roof"}, stage: sr.st.ID, station: station, hasStation: true}
		switch {
		case c != nil && s.roof.why != nil:
			s.roof.offer(at, crippleTitle, worst)
		case c != nil:
			c.offer(at, load, s.result.Cases[k], worst)
		}
	}
	return nil
}

// postCheck offers the most loaded corner post under everything on the roof.
// Water is factored like live load, as in the checks of sheet and ribs.
func (j *job) postCheck(sr *stageResult, worst *worstOf) error {
	in, loaded, err := j.postIn(sr)
	if err != nil || !loaded {
		return err
	}
	at, post := slot{"corner-post", "corner posts"}, j.agedAt(sr.st.Years).weakest()
	if post.why != nil {
		return post.offer(sr.whole(at.id, at.part), "Corner post in compression", worst)
	}
	made, _, err := box.CornerPost(in)
	if err != nil {
		return err
	}
	made.Working = append(post.worn.lines(), made.Working...)
	worst.add(candidate{slot: at, stage: sr.st.ID, ratio: made.Worst(), write: func() (check.Check, error) { return made, nil }})
	return nil
}

// postIn is a corner post under everything on the roof; loaded is false where
// nothing lies there.
func (j *job) postIn(sr *stageResult) (in box.Post, loaded bool, err error) {
	post := j.agedAt(sr.st.Years).weakest()
	if post.unfit != nil {
		return in, false, post.unfit
	}
	in = box.Post{Strength: post.strength, Length: j.box.L - j.box.CastL, Width: j.box.W - j.box.CastW}
	w, err := j.weigh(sr)
	if err != nil {
		return in, false, err
	}
	all := w.dead.plus(w.water).plus(w.snow).plus(w.live)
	if all.p <= 0 {
		return in, false, nil
	}
	in.Dead, in.Live, in.Snow = w.dead.p, w.live.p+w.water.p, w.snow.p
	in.EccX, in.EccY = all.mx/all.p, all.my/all.p
	if j.p.Box.Orientation == model.Broadside {
		in.EccX, in.EccY = in.EccY, in.EccX
	}
	return in, true, nil
}
