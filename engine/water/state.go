package water

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/geom"
)

// State is the ground water in one section at one stage.
type State struct {
	View  *section.View
	Flow  *seepage.Flow
	Names []string // of the drains, in the order of Sums.Drains
	// Sums tells where the water goes; within is the open cut.
	Sums seepage.Sums
	// Table is the water table; below the box the level to which water would
	// rise in a pipe.
	Table geom.Polyline

	drops drops
}

// Laid is a section cut into triangles, ready to be solved under any levels at
// its ends, with its drains working or blocked. It never changes.
type Laid struct {
	mesh *seepage.Mesh
	d    *seepage.Domain
}

// Lay prepares a section. An error is a model.Problem, or one of the mesh.
func Lay(p *model.Project, v *section.View, o Options) (*Laid, error) {
	d, err := domain(p, v, o)
	if err != nil {
		return nil, err
	}
	m, err := d.Build(o.Grain)
	if err != nil {
		return nil, err
	}
	return &Laid{m, d}, nil
}

// Solve finds the water between two levels at the ends, m. v is the section as
// it was laid, at a stage of the same shape; from is a state of the same Laid to
// start from, nil for none.
func (l *Laid) Solve(v *section.View, left, right float64, blocked bool, from *State) (*State, error) {
	return l.SolveCase(v, left, right, blocked, Free, from)
}

// SolveCase is Solve with the drains that are not blocked in some state.
func (l *Laid) SolveCase(v *section.View, left, right float64, blocked bool, c Case, from *State) (*State, error) {
	var flow *seepage.Flow
	if from != nil {
		flow = from.Flow
	}
	m := l.mesh.WithLevels(left, right).WithEachDrain(func(r *seepage.Drain) {
		r.Closed = blocked || c.Back >= 1 && c.holds(r.Name)
	})
	f, err := m.Solve(flow)
	if err == nil && !blocked && c.Back > 0 && c.Back < 1 {
		f, err = throttle(l.d, m, f, c)
	}
	if err != nil {
		return nil, err
	}
	return stateOf(v, l.d, f), nil
}

// Solve finds the water in a section between two levels at its ends, m.
func Solve(p *model.Project, v *section.View, left, right float64, o Options) (*State, error) {
	l, err := Lay(p, v, o)
	if err != nil {
		return nil, err
	}
	return l.Solve(v, left, right, o.Blocked, nil)
}

// stateOf sums up a flow.
func stateOf(v *section.View, d *seepage.Domain, f *seepage.Flow) *State {
	s := &State{View: v, Flow: f, Table: f.Table()}
	for _, r := range d.Drains {
		s.Names = append(s.Names, r.Name)
	}
	s.Sums = f.Sum(pit(v))
	return s
}

// pit is the reach of the open cut, from crest to crest; empty where none is
// open.
func pit(v *section.View) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	if k := v.Stage.Kind; k != model.StageCut && k != model.StageSet && k != model.StageBackfill {
		return lo, hi
	}
	for _, q := range v.Excavated {
		b := q.Bounds()
		lo, hi = math.Min(lo, b.Min[0]), math.Max(hi, b.Max[0])
	}
	return lo, hi
}
