package assess

import (
	"errors"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
)

// Parts that take a push across the box.
const (
	blindFrame = "blind end"
	doorFrame  = "door end"
)

// crosswise offers the two end frames under what one long wall presses more
// than the other. Ribs that stand by themselves take the sway.
func (j *job) crosswise(sr *stageResult, worst *worstOf) error {
	if j.swayHeld() {
		return nil
	}
	blind, door := j.crossPush(sr)
	if blind.ASD < negligible && door.ASD < negligible {
		return nil
	}
	roof, err := j.postLoad(sr)
	if err != nil {
		return err
	}
	fault := j.blindEnd(sr, blind, roof, worst)
	a := j.agedAt(sr.st.Years)
	at := slot{"end-frame", doorFrame}
	if g := j.lost(sr.st.Years, j.end.rows[:], &a.rear.gone); g != nil {
		return errors.Join(fault, g.offer(sr.whole(at.id, at.part), "Door end pushed crosswise", worst))
	}
	if a.portalFault != nil {
		return errors.Join(fault, a.portalFault)
	}
	r, err := a.portal.Under(door, roof)
	if err != nil {
		return errors.Join(fault, err)
	}
	worst.add(candidate{slot: at, stage: sr.st.ID, ratio: math.Max(r.ASD.Ratio, r.LRFD.Ratio),
		write: func() (check.Check, error) { made, _, err := a.portal.Check(door, roof); return made, err }})
	return fault
}

// swayHeld tells whether ribs with stiff corners hold the box upright across it.
func (j *job) swayHeld() bool { return j.hasRibs() && j.p.Strengthening.Ribs.Rigid() }

// crossPush is what the roof brings to the blind end and to the door end, by
// where the one wall presses more than the other.
func (j *job) crossPush(sr *stageResult) (blind, door box.Pair) {
	if j.p.Box.Orientation == model.Broadside {
		if sr.back == nil {
			return blind, door
		}
		half := sr.back.roofPush().Times(j.box.L / 2)
		half = box.Pair{ASD: math.Abs(half.ASD), LRFD: math.Abs(half.LRFD)}
		return half, half
	}
	for i, length := range tributary(stationsOfWalls(sr.walls)) {
		l, r := sr.walls[2*i], sr.walls[2*i+1]
		net := l.roofPush().Plus(r.roofPush().Times(-1)).Times(length)
		share := (l.station - j.frontX) / j.depth
		blind, door = blind.Plus(net.Times(share)), door.Plus(net.Times(1-share))
	}
	size := func(p box.Pair) box.Pair { return box.Pair{ASD: math.Abs(p.ASD), LRFD: math.Abs(p.LRFD)} }
	return size(blind), size(door)
}

// blindEnd offers the blind end.
func (j *job) blindEnd(sr *stageResult, push box.Pair, roof box.Effects, worst *worstOf) error {
	at := slot{"end-frame", blindFrame}
	face := section.Back
	if j.p.Box.Orientation == model.Broadside {
		face = section.Right
	}
	if why := j.holed(face, j.endSpan()); why != "" {
		worst.missing(at.id, "Blind end pushed crosswise", at.part, sr.st.ID, why)
		return nil
	}
	if g := j.lost(sr.st.Years, j.end.rows[:1], &j.agedAt(sr.st.Years).end.gone, &j.agedAt(sr.st.Years).front.gone); g != nil {
		return g.offer(sr.whole(at.id, at.part), "Blind end pushed crosswise", worst)
	}
	in, err := j.endWall(sr, face, push, roof)
	if err != nil {
		return err
	}
	r, err := in.Solve()
	if err != nil {
		return err
	}
	ratio, _ := r.Ratio()
	worst.add(candidate{slot: at, stage: sr.st.ID, ratio: ratioOf(ratio.ASD, ratio.LRFD),
		write: func() (check.Check, error) { made, _, err := box.BlindEnd(in); return made, err }})
	return nil
}

func (j *job) endWall(sr *stageResult, face section.Face, push box.Pair, roof box.Effects) (box.EndWall, error) {
	a := j.agedAt(sr.st.Years)
	in := box.EndWall{Push: push, Sheet: j.panelOf(a, face), Width: j.endSpan(), Steel: j.metal, Rise: j.box.H, Open: j.openWidth(face),
		Post: roof, Strength: a.front.strength}
	var err error
	if in.Header, err = j.rustedBar(j.end.rows[0], sr.st.Years); err != nil {
		return in, err
	}
	w := j.blind(sr)
	if w == nil {
		return in, nil
	}
	in.Bend = w.bend()
	for i := range a.bars[face] {
		if b := &a.bars[face][i]; b.kind == box.KindHeader && b.fault == nil {
			in.HeaderBend, err = b.kind.Bending(b.under(w.top))
		}
	}
	return in, err
}

// bend is the share of its strength that a sheet uses against what presses on
// it.
func (w *wallLoad) bend() (out box.Pair) {
	r := &w.result
	for _, p := range [...]box.Pair{r.FieldRatio, r.HogRatio, r.ShearRatio, r.TogetherRatio} {
		out = box.Pair{ASD: math.Max(out.ASD, p.ASD), LRFD: math.Max(out.LRFD, p.LRFD)}
	}
	return out
}

// doorPortal is the door end after some years, without load. Its header and
// sill are taken as those of the blind end.
func (j *job) doorPortal(a *aged) (*box.ReadyPortal, error) {
	if a.rear.unfit != nil {
		return nil, a.rear.unfit
	}
	in := box.Portal{Post: a.rear.Post, Steel: j.metal, Strength: a.rear.strength, Width: j.box.W - 2*a.rear.Cx}
	var err error
	if in.Header, err = j.rustedBar(j.end.rows[0], a.years); err != nil {
		return nil, err
	}
	if in.Sill, err = j.rustedBar(j.end.rows[1], a.years); err != nil {
		return nil, err
	}
	in.Height = j.box.H - in.Header.H/2 - j.box.UnderClearance - in.Sill.H/2
	return in.Ready()
}
