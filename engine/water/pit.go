package water

import (
	"context"
	"math"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// Pit is the water that comes into the open cut in the wet season.
type Pit struct {
	Long, Cross *State
	// Width and Length are the extent of the formation across and along the box,
	// m: what the flows of the two sections are summed over.
	Width, Length float64
	// Back and Sides are what comes in by the long and by the cross section, m3/s.
	// Each is summed over the formation only: what runs together in plan towards the
	// corners of the cut is in neither.
	Back, Sides float64
}

// Corners is what the corners of the cut, towards which water runs together in
// plan, make of the sum of both sections: 1.37 on the demonstration hill by
// Dupuit flow worked in plan (derived). The formula of a well of the same area
// does not hold: the ground goes far deeper than the cut.
const Corners = 1.4

// Inflow is what comes into the pit, m3/s: both sections, and the corners.
func (p *Pit) Inflow() float64 { return Corners * p.Sections() }

// Sections is what comes in by both sections together, m3/s.
func (p *Pit) Sections() float64 { return p.Back + p.Sides }

// Pit is the water in the open cut where PitOf has worked it out, nil before and
// where it could not.
func (f *Field) Pit() *Pit {
	f.lock.Lock()
	defer f.lock.Unlock()
	return f.pit
}

// PitOf works out the water in the open cut of a project under its seasonal
// level. Without a stage that opens the cut, or where the level cannot be
// fitted, the error says so.
func PitOf(ctx context.Context, p *model.Project, t *tables.Set, f *Field) (*Pit, error) {
	f.lock.Lock()
	defer f.lock.Unlock()
	if f.pit == nil && f.noPit == nil {
		f.pit, f.noPit = pitOf(ctx, p, t, f)
		if err := ctx.Err(); err != nil {
			f.pit, f.noPit = nil, nil
			return nil, err
		}
	}
	return f.pit, f.noPit
}

func pitOf(ctx context.Context, p *model.Project, t *tables.Set, f *Field) (*Pit, error) {
	j := &job{ctx: ctx, p: p, t: t, f: f, miss: map[string]error{}}
	if j.plan, j.fault = section.NewPlan(p, t); j.fault != nil {
		return nil, j.fault
	}
	far := f.Far[model.WaterSeasonal]
	if far == nil {
		var err error
		if far, err = j.fitOne(model.WaterSeasonal); err != nil {
			return nil, err
		}
	}
	box, err := section.BoxOf(p, t)
	if err != nil {
		return nil, err
	}
	out := &Pit{Width: section.Across(p, box) + 2*p.Cut.WorkSide, Length: section.Depth(p, box) + p.Cut.WorkBack + p.Cut.Apron}
	x := p.Box.Front + section.Depth(p, box)/2
	var faults [2]error
	run(ctx, []func(){
		func() {
			cut, err := j.plan.Long()
			out.Long, faults[0] = j.open(cut, err, func(*section.View) (left, right float64, err error) { return far.Left, far.Right, nil })
		},
		func() {
			cut, err := j.plan.Cross(x)
			out.Cross, faults[1] = j.open(cut, err, func(v *section.View) (left, right float64, err error) { return j.sides(far, v, x) })
		},
	})
	for _, err := range faults {
		if err != nil {
			return nil, err
		}
	}
	if ctx.Err() == nil {
		out.Back = math.Max(0, out.Long.Sums.Within) * out.Width
		out.Sides = math.Max(0, out.Cross.Sums.Within) * out.Length
	}
	return out, nil
}

// open solves a section with the cut open.
func (j *job) open(cut *section.Cut, err error, levels func(*section.View) (left, right float64, err error)) (*State, error) {
	if err != nil {
		return nil, err
	}
	v, err := cut.At(model.Stage{ID: "cut", Kind: model.StageCut, Water: model.WaterSeasonal})
	if err != nil {
		return nil, err
	}
	left, right, err := levels(v)
	if err != nil {
		return nil, err
	}
	return Solve(j.p, v, left, right, Options{Grain: Ordinary()})
}
