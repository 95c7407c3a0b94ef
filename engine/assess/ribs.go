package assess

import (
	"errors"
	"math"
	"slices"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/model"
)

// strutPart is the part that cross struts are.
const strutPart = "cross struts"

// ribLoad is a rib under the loads of one station. Stages that load it alike
// share it.
type ribLoad struct {
	left, right *wallLoad
	on          box.OnRoof
	wheels      frame.Load
	ratio       float64
	fault       error
	ring        *box.Rib      // the way of standing that is worse
	ready       *box.ReadyRib // the same, ready for loads
	strut, bow  float64       // ratios; strut is 0 without struts
	limber      float64       // ratio of the sag and the slenderness of the struts
	foot        box.Pair      // kN, see box.RibResult
	into        [2]box.Inward // how far the walls come into the room
}

// rib loads the rib that may stand here, nil where nothing presses on it.
func (pl *place) rib(left, right *wallLoad, roof *roofAt) *ribLoad {
	j := pl.j
	if !j.hasRibs() || j.ribFault != nil || !left.loaded && !right.loaded && roof.load.Total <= 0 {
		return nil
	}
	r := &ribLoad{left: left, right: right, on: roof.onRoof(), wheels: roof.wheels, fault: j.ribUnfit}
	for _, o := range pl.ribs {
		if o.left == left && o.right == right && o.on == r.on && slices.Equal(o.wheels, r.wheels) {
			return o
		}
	}
	pl.ribs = append(pl.ribs, r)
	if r.fault != nil {
		return r
	}
	r.fault = r.solve(j)
	return r
}

// solve works the rib in every way that it may stand and keeps the worst of
// each.
func (r *ribLoad) solve(j *job) error {
	for k, ready := range [...]*box.ReadyRib{j.ready, j.bedded} {
		if ready == nil {
			continue
		}
		solved, err := ready.Rate(r.left.load, r.right.load, r.on, r.wheels)
		if k > 0 && errors.Is(err, frame.ErrUnstable) {
			continue // with so little weight the ground lets go: the corners alone hold the rib
		}
		if err != nil {
			return err
		}
		ring := &j.ring
		if k > 0 {
			ring = &j.bed
		}
		_, ratio := solved.Worst()
		if v := ratioOf(ratio.ASD, ratio.LRFD); r.ring == nil || worse(v, r.ratio) {
			r.ratio, r.ring, r.ready = v, ring, ready
		}
		_, strut := solved.WorstStrut()
		_, _, _, bow := ring.RibBow(&solved)
		_, limber := ring.StrutLimber(&solved)
		r.limber = math.Max(r.limber, limber)
		r.strut, r.bow = math.Max(r.strut, math.Max(strut.ASD, strut.LRFD)), math.Max(r.bow, bow)
		r.foot = box.Pair{ASD: math.Max(r.foot.ASD, solved.Foot.ASD), LRFD: math.Max(r.foot.LRFD, solved.Foot.LRFD)}
		for side, v := range solved.Inward {
			r.into[side].Post = math.Max(r.into[side].Post, v)
		}
	}
	for side, w := range [...]*wallLoad{r.left, r.right} {
		if w.loaded {
			r.into[side].Sheet, r.into[side].Wale = w.bow, w.waleBow(j)
		}
	}
	return nil
}

// written makes a check of the rib in one way of standing.
func (r *ribLoad) written(ready *box.ReadyRib, ring *box.Rib, of func(box.Rib, *box.RibResult) (check.Check, error)) (check.Check, error) {
	in := r.loaded(*ring)
	solved, err := ready.UnderWheels(in.Left, in.Right, r.on, in.Wheels)
	if err != nil {
		return check.Check{}, err
	}
	return of(in, &solved)
}

// loaded is a rib of the project with its loads, to be written.
func (r *ribLoad) loaded(ring box.Rib) box.Rib {
	ring.Left, ring.Right = r.left.load, r.right.load
	ring.Dead, ring.Live, ring.Snow, ring.Water = r.on.Dead, r.on.Live, r.on.Snow, r.on.Water
	ring.Wheels = r.wheels
	return ring
}

// ribChecks offers the ribs at every station, as if one stood there: each
// carries both walls and the roof over its spacing and what bars running on
// over it bring beyond that. Broadside the stations
// run across the rib, which the hill pushes from one side.
func (j *job) ribChecks(sr *stageResult, worst *worstOf) error {
	if !j.hasRibs() || j.ribFault != nil {
		return j.ribFault
	}
	if j.p.Box.Orientation == model.Broadside {
		top := worstRoof(sr.tops)
		return (&place{j: j}).rib(&wallLoad{}, sr.back, top).offer(j, sr, top.load.Station, worst)
	}
	for i := range sr.tops {
		if err := sr.tops[i].rib.offer(j, sr, sr.tops[i].load.Station, worst); err != nil {
			return err
		}
	}
	return nil
}

// offer offers a rib; none is no check.
func (r *ribLoad) offer(j *job, sr *stageResult, station float64, worst *worstOf) error {
	if r == nil {
		return nil
	}
	if r.fault != nil {
		return r.fault
	}
	c := candidate{slot: slot{"rib", "ribs"}, stage: sr.st.ID, station: station, hasStation: true, ratio: r.ratio}
	if won := worst.add(c); won != nil {
		won.write = func() (check.Check, error) { return r.written(r.ready, r.ring, box.RibRingOf) }
	}
	c.id, c.ratio = "rib-deflection", r.bow
	if won := worst.add(c); won != nil {
		won.write = func() (check.Check, error) { return r.worse(j, box.RibDeflectionOf) }
	}
	if len(j.ring.Struts) > 0 {
		c.slot, c.ratio = slot{"strut", strutPart}, r.strut
		if won := worst.add(c); won != nil {
			won.write = func() (check.Check, error) { return r.worse(j, box.StrutCheckOf) }
		}
		c.id, c.ratio = "strut-sag", r.limber
		if won := worst.add(c); won != nil {
			won.write = func() (check.Check, error) { return r.worse(j, box.StrutSagOf) }
		}
	}
	r.onFloor(j, &j.agedAt(sr.st.Years).cross, c, worst)
	r.intoRoom(c, worst)
	return nil
}

// worse makes a check of the rib in every way that it may stand and gives the
// worse one.
func (r *ribLoad) worse(j *job, of func(box.Rib, *box.RibResult) (check.Check, error)) (check.Check, error) {
	made, err := r.written(j.ready, &j.ring, of)
	if err != nil || j.bedded == nil {
		return made, err
	}
	bed, err := r.written(j.bedded, &j.bed, of)
	if errors.Is(err, frame.ErrUnstable) {
		return made, nil // see solve
	}
	if err == nil && worse(bed.Worst(), made.Worst()) {
		return bed, nil
	}
	return made, err
}

// onFloor offers the cross member below the foot of a post where no floor tie
// takes its push.
func (r *ribLoad) onFloor(j *job, cross *crossMember, c candidate, worst *worstOf) {
	if j.ring.Tie.Area > 0 || r.foot.LRFD == 0 || cross.why != nil {
		return
	}
	in := cross.in
	in.Foot = r.foot
	for _, w := range [...]*wallLoad{r.left, r.right} {
		in.Load.ASD = math.Max(in.Load.ASD, math.Abs(w.bottom.ASD))
		in.Load.LRFD = math.Max(in.Load.LRFD, math.Abs(w.bottom.LRFD))
	}
	c.slot = crossSlot
	c.ratio = math.Max(cross.unit.ASD*(in.Load.ASD+r.foot.ASD/in.Spacing), cross.unit.LRFD*(in.Load.LRFD+r.foot.LRFD/in.Spacing))
	c.write = func() (check.Check, error) { return cross.check(in) }
	worst.add(c)
}

// intoRoom offers how far the walls come into the room at this rib.
func (r *ribLoad) intoRoom(c candidate, worst *worstOf) {
	for side, w := range [...]*wallLoad{r.left, r.right} {
		if !w.loaded {
			continue
		}
		if g := &w.sheet.gone; g.why != nil {
			c.slot = slot{"inward-bow", partOf(w.face)}
			g.offer(c, "Wall coming into the room", worst) // the check of the sheet tells the fault
			continue
		}
		c.slot, c.ratio = slot{"inward-bow", partOf(w.face)}, r.into[side].Sum()/box.InwardLimit
		if won := worst.add(c); won != nil {
			won.write = func() (check.Check, error) { return box.InwardBow(r.into[side]) }
		}
	}
}

// waleBow is the largest deflection of the wales of a wall, m; 0 without any.
func (w *wallLoad) waleBow(j *job) (most float64) {
	bars := j.agedAt(w.years).bars[w.face]
	for i := range bars {
		if b := &bars[i]; b.kind == box.KindWale && b.fault == nil {
			_, bow, err := b.ready.Ratio(b.load(w))
			if err == nil { // a bar that cannot be worked out is told by its own check
				most = math.Max(most, bow*b.rail.Span/box.BowLimit)
			}
		}
	}
	return most
}

// ribSpans is the number of spans of a bar that runs along the box over the
// ribs.
func (j *job) ribSpans() int {
	return max(1, int(math.Round(j.box.L/j.p.Strengthening.Ribs.Spacing)))
}

// purlinPlaces are the purlins across the span of the roof; they need ribs with
// a roof beam to carry them.
func (j *job) purlinPlaces() []float64 {
	n := j.p.Strengthening.Ribs.Purlins
	if n <= 0 || !j.hasRibs() || j.p.Strengthening.Ribs.RoofBeam == "" {
		return nil
	}
	out := make([]float64, n)
	for i := range out {
		out[i] = j.roofSpan() * float64(i+1) / float64(n+1)
	}
	return out
}

// worstRoof is the heaviest load of a roof whose stations run across its span.
func worstRoof(tops []topLoad) *roofAt {
	out := &roofAt{}
	for i := range tops {
		if r := &tops[i].roofAt; i == 0 || r.load.Total > out.load.Total {
			out = r
		}
	}
	return out
}
