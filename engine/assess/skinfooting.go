package assess

import (
	"hillset/engine/check"
	"hillset/engine/concrete"
	"hillset/engine/ground"
)

const (
	skinFootID    = "skin-footing"
	skinFootTitle = "Bearing below the concrete skin"
)

// skinFooting offers the bearing below the concrete skins of the walls that soil
// presses on.
func (j *job) skinFooting(sr *stageResult, worst *worstOf) error {
	soil, ok := j.weakestBelow(sr.view)
	for w := range sr.loadedWalls() {
		if o := j.outer[w.face]; o == nil || !o.wall {
			continue
		}
		part := w.concretePart()
		if !ok || soil.Bearing <= 0 {
			worst.missing(skinFootID, skinFootTitle, part, sr.st.ID, noBearing(soil))
			continue
		}
		in := ground.SkinFootingIn{Height: j.box.H, Width: j.p.Strengthening.Cavity.Width, Gamma: concrete.Gamma,
			Allowable: soil.Bearing, Basis: presumed(soil)}
		p, err := in.Pressure()
		if err != nil {
			return err
		}
		c := w.candidate(sr, skinFootID, part, p/in.Allowable)
		c.write = func() (check.Check, error) { return ground.SkinFootingCheck(in) }
		worst.add(c)
	}
	return nil
}
