package assess

import (
	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
)

// DrainPlan is how the drain round the box is laid: it falls in two runs from the
// middle behind the box to its front corners, and an outlet by gravity goes on
// from there at the same fall.
type DrainPlan struct {
	Back, Side       float64 // lengths behind the box and along each side, m
	Top, Corner, End float64 // levels of the invert: in the middle behind the box, at the back and at the front corners, m
	Frost            float64 // depth of frost, m; 0 where it does not freeze or is not known
	Outlet           drain.Outlet
	// Fault is why no outlet was worked out; nil where Outlet holds one. Bare says
	// that the drain lies above the ground in front of the box.
	Fault error
	Bare  bool
}

// DrainPlanOf works out how the drain of an assessment is laid, with its outlet
// over the surface of the last finished stage. It fails where the box is not
// known.
func DrainPlanOf(r *Result, t *tables.Set) (DrainPlan, error) {
	p := r.Project
	b, err := section.BoxOf(p, t)
	if err != nil {
		return DrainPlan{}, err
	}
	pl := planOfDrain(p, section.Across(p, b), section.Depth(p, b))
	pl.Frost = FrostOf(p, t).Depth
	var finished *section.View
	for _, v := range r.Views {
		if v != nil && v.HasBox && v.Stage.Kind == model.StageService {
			finished = v
		}
	}
	switch {
	case p.Defence.Drain.Outlet == "sump":
		pl.Fault = model.Problem{Text: "a pump lifts the water out of a sump"}
	case finished == nil:
		pl.Fault = model.Problem{Text: "there is no finished stage"}
	default:
		pl.Outlet, pl.Fault = pl.findOutlet(p, finished, p.Box.Front)
	}
	return pl, nil
}

// outletLine is the outlet as a line in the long section; empty where there is
// none.
func outletLine(r *Result, t *tables.Set) geom.Polyline {
	if d := &r.Project.Defence.Drain; !d.Present || d.Outlet == "sump" {
		return nil
	}
	pl, err := DrainPlanOf(r, t)
	if err != nil || pl.Fault != nil || !pl.Outlet.Daylight { // the check of the outlet tells why
		return nil
	}
	return geom.Polyline{{r.Project.Box.Front - outletClear, pl.End}, pl.Outlet.At}
}

// planOfDrain is the plan without its outlet, of a box with its measures along
// and across the contour, m.
func planOfDrain(p *model.Project, across, depth float64) DrainPlan {
	d, w := &p.Defence.Drain, p.Fill.RockWidth
	pl := DrainPlan{Back: across + w, Side: depth + w/2, Top: section.Formation(p) - d.Depth}
	pl.Corner = pl.Top - d.Fall*pl.Back/2
	pl.End = pl.Corner - d.Fall*pl.Side
	return pl
}

// outletClear is how far in front of the box its outlet pipe is taken to begin,
// m: clear of the drawn edge of the front.
const outletClear = 0.05

// outletIn is the way of the outlet: from a front corner downhill, as deep as
// the drain has fallen until there.
func (pl *DrainPlan) outletIn(p *model.Project, v *section.View, front float64) (drain.OutletIn, error) {
	dr := &p.Defence.Drain
	start := geom.Vec{front - outletClear, pl.End}
	ground := v.Finish.ClipX(v.Finish[0][0], start[0])
	if z, ok := ground.At(start[0]); ok && start[1] > z-geom.TolTouch {
		pl.Bare = true
		return drain.OutletIn{}, model.Problem{Text: "the drain lies above the ground in front of the box already: it needs no outlet pipe there"}
	}
	in := drain.OutletIn{Ground: ground, Start: start, Fall: dr.Fall, Frost: pl.Frost}
	if dr.Edge > 0 {
		in.Edge, in.HasEdge = front-dr.Edge, true
	}
	return in, nil
}

// findOutlet follows the outlet to daylight.
func (pl *DrainPlan) findOutlet(p *model.Project, v *section.View, front float64) (drain.Outlet, error) {
	if !(p.Defence.Drain.Fall > 0) {
		return drain.Outlet{}, model.Problem{Text: "the fall of the drain is not given"}
	}
	in, err := pl.outletIn(p, v, front)
	if err != nil {
		return drain.Outlet{}, err
	}
	return drain.FindOutlet(in)
}
