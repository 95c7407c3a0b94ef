package assess

import (
	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
)

// ribLoad is a rib under the loads of one station. Stages that load it alike
// share it.
type ribLoad struct {
	left, right *wallLoad
	rib         box.Rib
	ratio       float64
	fault       error
}

// rib loads the rib that may stand here, nil where nothing presses on it.
func (pl *place) rib(left, right *wallLoad, roof *RoofLoad) *ribLoad {
	j := pl.j
	if !j.hasRibs() || j.ribFault != nil || !left.loaded && !right.loaded && roof.Total <= 0 {
		return nil
	}
	r := &ribLoad{left: left, right: right, rib: j.frame}
	r.rib.Left, r.rib.Right = left.strip.Load, right.strip.Load
	r.rib.Dead, r.rib.Live = roof.Layers+roof.Soil, roof.Live+roof.Area
	r.rib.Snow, r.rib.Water = roof.Snow, roof.Water
	for _, o := range pl.ribs {
		if o.left == left && o.right == right && o.rib.Dead == r.rib.Dead && o.rib.Live == r.rib.Live &&
			o.rib.Snow == r.rib.Snow && o.rib.Water == r.rib.Water {
			return o
		}
	}
	pl.ribs = append(pl.ribs, r)
	solved, err := r.rib.Solve()
	if err != nil {
		r.fault = err
		return r
	}
	_, ratio := solved.Worst()
	r.ratio = ratioOf(ratio.ASD, ratio.LRFD)
	return r
}

// ribChecks offers the ribs at every station, as if one stood there: each
// carries its spacing of both walls and of the roof. Broadside the stations
// run across the rib, which the hill pushes from one side.
func (j *job) ribChecks(sr *stageResult, worst *worstOf) error {
	if !j.hasRibs() || j.ribFault != nil {
		return j.ribFault
	}
	if j.p.Box.Orientation == model.Broadside {
		top := worstRoof(sr.tops)
		return (&place{j: j}).rib(&wallLoad{}, sr.back, top).offer(sr, top.Station, worst)
	}
	for i := range sr.tops {
		if err := sr.tops[i].rib.offer(sr, sr.tops[i].load.Station, worst); err != nil {
			return err
		}
	}
	return nil
}

// offer offers a rib; none is no check.
func (r *ribLoad) offer(sr *stageResult, station float64, worst *worstOf) error {
	if r == nil {
		return nil
	}
	if r.fault != nil {
		return r.fault
	}
	worst.add(candidate{slot: slot{"rib", "ribs"}, stage: sr.st.ID, station: station, hasStation: true, ratio: r.ratio,
		write: func() (check.Check, error) { made, _, err := box.RibRing(r.rib); return made, err }})
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
	for _, w := range j.side.between() {
		out.Wales = append(out.Wales, w.Height)
	}
	return out, nil
}

// worstRoof is the heaviest load of a roof whose stations run across its span.
func worstRoof(tops []topLoad) *RoofLoad {
	out := &RoofLoad{}
	for i := range tops {
		if l := &tops[i].load; i == 0 || l.Total > out.Total {
			out = l
		}
	}
	return out
}
