package assess

import (
	"math"
	"slices"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/model"
)

// ribLoad is a rib under the loads of one station. Stages that load it alike
// share it.
type ribLoad struct {
	left, right *wallLoad
	on          box.OnRoof
	wheels      frame.Load
	ratio       float64
	fault       error
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
	solved, err := j.ready.UnderWheels(left.strip.Load, right.strip.Load, r.on, r.wheels)
	if err != nil {
		r.fault = err
		return r
	}
	_, ratio := solved.Worst()
	r.ratio = ratioOf(ratio.ASD, ratio.LRFD)
	return r
}

// loaded is a rib of the project with its loads, to be written.
func (r *ribLoad) loaded(ring box.Rib) box.Rib {
	ring.Left, ring.Right = r.left.strip.Load, r.right.strip.Load
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
	worst.add(candidate{slot: slot{"rib", "ribs"}, stage: sr.st.ID, station: station, hasStation: true, ratio: r.ratio,
		write: func() (check.Check, error) { made, _, err := box.RibRing(r.loaded(j.ring)); return made, err }})
	return nil
}

// rib is a frame of the project's bars without load.
func (j *job) rib() (box.Rib, error) {
	r := j.p.Strengthening.Ribs
	out := box.Rib{Spacing: r.Spacing, Steel: j.added, Height: j.side.height()}
	var err error
	if out.Post, err = j.bar(r.Post); err != nil {
		return out, err
	}
	if out.Beam, err = j.bar(r.RoofBeam); err != nil {
		return out, err
	}
	if out.Tie, err = j.bar(r.FloorTie); err != nil {
		return out, err
	}
	out.Width = j.box.InW - out.Post.H
	out.RoofSpan, out.Purlins = j.roofSpan(), j.purlinPlaces()
	out.Share = box.InnerShare(j.ribSpans())
	for _, w := range j.side.between() {
		out.Wales = append(out.Wales, w.Height)
	}
	return out, nil
}

// ribSpans is the number of spans of a bar that runs along the box over the
// ribs.
func (j *job) ribSpans() int {
	return max(1, int(math.Round(j.box.L/j.p.Strengthening.Ribs.Spacing)))
}

// purlinPlaces are the purlins across the span of the roof; they need ribs to
// carry them.
func (j *job) purlinPlaces() []float64 {
	n := j.p.Strengthening.Ribs.Purlins
	if n <= 0 || !j.hasRibs() {
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
