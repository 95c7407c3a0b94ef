package water

import (
	"context"
	"math"

	"hillset/engine/drain"
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
	// Hand is the cut for the formula of a well of the same area: over the foot of
	// the long section as a tight floor, in the soil below its back, with the water
	// of the hill as found all round it.
	Hand drain.CutIn
	// Well is what that well takes in, m3/s: it counts what runs together in plan. 0
	// where the formula does not hold, for which NoWell is why.
	Well   float64
	NoWell error
}

// Inflow is what comes into the pit, m3/s: the larger of both sections together,
// in which the corners are not, and of a well of the same area.
func (p *Pit) Inflow() float64 { return math.Max(p.Sections(), p.Well) }

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
		out.byHand(far, p.Box.Front-p.Cut.Apron, x)
	}
	return out, nil
}

// byHand fills the well; front and mid are the places of the front and of the
// middle of the floor. Dupuit's h² adds up, so that the well feels the mean of the
// squares round it: behind, at both sides and in front, where the hill may lie
// lower than the cut.
func (p *Pit) byHand(far *Far, front, mid float64) {
	v := p.Long.View
	if p.Sections() == 0 {
		p.NoWell = model.Problem{Text: "no water comes in by either section"}
		return
	}
	so, ok := v.SoilBelow(v.Toe[0])
	if !ok || so.Kx <= 0 {
		p.NoWell = model.Problem{Text: "the permeability at the back of the cut is not known"}
		return
	}
	foot := footOf(p.Long)
	low, squares := v.Formation-foot, 0.0
	for _, x := range []float64{v.Crest[0], mid, mid, front} {
		h := low
		if z, ok := far.Table.At(x); ok {
			h = math.Max(low, z-foot)
		}
		squares += h * h / 4
	}
	p.Hand = drain.CutIn{H: math.Sqrt(squares), Low: low, K: so.Kx, Length: p.Width, Reach: drain.SichardtReach}
	f, err := drain.PitInflow(p.Hand, p.Width, p.Length)
	p.Well, p.NoWell = f.Steady, err
}

// footOf is the level of the foot of a computed section below the toe of its
// cut, m.
func footOf(s *State) float64 {
	m := s.Flow.Mesh
	x, best, foot := s.View.Toe[0], math.Inf(1), 0.0
	for _, l := range m.Lines {
		if off := math.Abs(l.X - x); off < best {
			best, foot = off, m.Nodes[l.First][1]
		}
	}
	return foot
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
