package water

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"runtime"
	"slices"
	"sync"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// Field is the computed water of a project: under each condition that its
// stages name, in the long section and across the box.
type Field struct {
	Case   Case            // the state that the drains are in
	Far    map[string]*Far // by model.WaterSeasonal and model.WaterHigh
	states map[key]*Wet
	faults map[key]error

	lock  sync.Mutex
	pit   *Pit
	noPit error
}

// Wet is the water round the box in one shape of the works under one
// condition.
type Wet struct {
	Long  *State
	Cross []*State // at stations along the box, rising; one for a box set broadside
}

// key tells apart what the water feels of a stage.
type key struct {
	shape   section.Shape
	wet     string
	blocked bool
}

func keyOf(st model.Stage) key { return key{section.ShapeOf(st), st.Water, st.Blocked} }

// ErrNoCondition says that a stage asks for no water.
var ErrNoCondition = errors.New("no water in this stage")

// ErrNotAsked says that a field is of other stages.
var ErrNotAsked = errors.New("it was not computed")

// crossStations is the number of cross sections along the box.
const crossStations = 3

// Compute works out the water of all stages that have some. What cannot be
// computed is told by At for the stages that need it; an error is returned only
// when ctx is done.
func Compute(ctx context.Context, p *model.Project, t *tables.Set) (*Field, error) {
	return compute(ctx, p, t, Free, nil)
}

// compute adds to what old holds of the same project, nil for nothing.
func compute(ctx context.Context, p *model.Project, t *tables.Set, c Case, old *Field) (*Field, error) {
	f := &Field{Case: c, Far: map[string]*Far{}, states: map[key]*Wet{}, faults: map[key]error{}}
	if old != nil {
		maps.Copy(f.Far, old.Far)
		maps.Copy(f.states, old.states)
		maps.Copy(f.faults, old.faults)
		old.lock.Lock()
		f.pit, f.noPit = old.pit, old.noPit
		old.lock.Unlock()
	}
	j := &job{p: p, t: t, f: f, ctx: ctx, c: c}
	j.plan, j.fault = section.NewPlan(p, t)
	j.fit()
	var tasks []func()
	for _, keys := range j.shapes() {
		tasks = append(tasks, j.tasks(keys)...)
	}
	run(ctx, tasks)
	return f, ctx.Err()
}

// At is the water at a stage; an error says why there is none.
func (f *Field) At(st model.Stage) (*Wet, error) {
	if st.Water == "" || st.Water == model.WaterNone {
		return nil, ErrNoCondition
	}
	k := keyOf(st)
	if err := f.faults[k]; err != nil {
		return nil, err
	}
	w := f.states[k]
	if w == nil {
		return nil, fmt.Errorf("water of stage %q: %w", st.ID, ErrNotAsked)
	}
	return w, nil
}

// CrossAt is the cross section nearest to station x.
func (w *Wet) CrossAt(x float64) *State {
	var best *State
	for _, s := range w.Cross {
		if best == nil || math.Abs(s.View.Station-x) < math.Abs(best.View.Station-x) {
			best = s
		}
	}
	return best
}

// job is one computation.
type job struct {
	ctx   context.Context
	c     Case
	p     *model.Project
	t     *tables.Set
	f     *Field
	plan  *section.Plan
	fault error // of everything
	mu    sync.Mutex
	miss  map[string]error // by condition
}

// fit finds the far levels of the conditions in use.
func (j *job) fit() {
	j.miss = map[string]error{}
	if j.fault != nil {
		return
	}
	for _, wet := range []string{model.WaterSeasonal, model.WaterHigh} {
		if !uses(j.p, wet) || j.f.Far[wet] != nil {
			continue
		}
		far, err := j.fitOne(wet)
		if err != nil {
			j.miss[wet] = err
			continue
		}
		j.f.Far[wet] = far
	}
}

// fitOne finds the far levels of one condition.
func (j *job) fitOne(wet string) (*Far, error) {
	natural, err := section.NewLong(j.p, j.t, model.Stage{Kind: model.StageNatural})
	if err != nil {
		return nil, err
	}
	box, err := section.BoxOf(j.p, j.t)
	if err != nil {
		return nil, err
	}
	return farOf(j.ctx, j.p, natural, Targets(j.p, wet, j.p.Box.Front+section.Depth(j.p, box)), Ordinary())
}

// uses tells whether a stage has the condition.
func uses(p *model.Project, wet string) bool {
	for _, st := range p.Stages {
		if st.Water == wet {
			return true
		}
	}
	return false
}

// keysOf are the different waters of the stages.
func keysOf(p *model.Project) []key {
	var out []key
	seen := map[key]bool{}
	for _, st := range p.Stages {
		if st.Water == "" || st.Water == model.WaterNone {
			continue
		}
		k := keyOf(st)
		if !seen[k] {
			seen[k] = true
			out = append(out, k)
		}
	}
	return out
}

// shapes are the keys that can be computed, those of one shape together: they
// share their sections.
func (j *job) shapes() (out [][]key) {
	for _, k := range keysOf(j.p) {
		if j.f.states[k] != nil || j.f.faults[k] != nil {
			continue // worked out before
		}
		err := j.fault
		if err == nil {
			err = j.miss[k.wet]
		}
		if err != nil {
			j.f.faults[k] = err
			continue
		}
		j.f.states[k] = &Wet{}
		i := slices.IndexFunc(out, func(o []key) bool { return o[0].shape == k.shape })
		if i < 0 {
			out = append(out, []key{k})
			continue
		}
		out[i] = append(out[i], k)
	}
	return out
}

// stage is one of the stages of a key.
func (j *job) stage(k key) model.Stage {
	for _, st := range j.p.Stages {
		if keyOf(st) == k {
			return st
		}
	}
	panic("water: a key without a stage")
}

// tasks are the sections of one shape, each to be worked by itself.
func (j *job) tasks(keys []key) []func() {
	tasks := []func(){func() {
		cut, err := j.plan.Long()
		j.work(cut, err, keys, Options{Grain: Ordinary()}, func(f *Far, _ *section.View) (left, right float64, err error) { return f.Left, f.Right, nil },
			func(w *Wet, s *State) { w.Long = s })
	}}
	if !keys[0].shape.Box {
		return tasks
	}
	at := j.stations()
	for _, k := range keys {
		j.f.states[k].Cross = make([]*State, len(at))
	}
	for i, x := range at {
		tasks = append(tasks, func() {
			cut, err := j.plan.Cross(x)
			j.work(cut, err, keys, Options{NoRain: true, Grain: Ordinary()}, func(f *Far, v *section.View) (left, right float64, err error) { return j.sides(f, v, x) },
				func(w *Wet, s *State) { w.Cross[i] = s })
		})
	}
	return tasks
}

// work solves one section under all conditions of its shape: cut into triangles
// once, and each condition from the flow of the one before.
func (j *job) work(cut *section.Cut, err error, keys []key, o Options, levels func(*Far, *section.View) (left, right float64, err error), put func(*Wet, *State)) {
	var laid *Laid
	var last *State
	for _, k := range keys {
		var v *section.View
		if err == nil {
			v, err = cut.At(j.stage(k))
		}
		if err == nil && laid == nil {
			laid, err = Lay(j.p, v, o)
		}
		if err != nil { // of the section itself, whatever the condition
			j.fail(k, err)
			continue
		}
		if j.ctx.Err() != nil {
			return
		}
		left, right, fault := levels(j.f.Far[k.wet], v)
		if fault == nil {
			var s *State
			if s, fault = laid.SolveCase(v, left, right, k.blocked, j.c, last); fault == nil {
				put(j.f.states[k], s)
				last = s
			}
		}
		if fault != nil {
			j.fail(k, fault)
		}
	}
}

// fail notes why a condition has no water.
func (j *job) fail(k key, err error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.f.faults[k] = err
}

// stations are where the box is cut across: at its ends and between end-on, in
// the middle broadside.
func (j *job) stations() []float64 {
	box, _ := section.BoxOf(j.p, j.t)
	d := section.Depth(j.p, box)
	if j.p.Box.Orientation == model.Broadside {
		return []float64{j.p.Box.Front + d/2}
	}
	out := make([]float64, crossStations)
	for i := range out {
		out[i] = j.p.Box.Front + d*float64(i)/(crossStations-1)
	}
	return out
}

// sides are the levels at the ends of a section across the box: the water
// stands there as in the hill as found, which falls with the ground across the
// slope.
func (j *job) sides(far *Far, v *section.View, x float64) (left, right float64, err error) {
	z, ok := far.Table.At(x)
	if !ok {
		return 0, 0, model.Problem{Field: "box.front", Value: quantity.Text(x, quantity.Length), Allowed: "a place on the ground line", Text: "the box reaches beyond the ground line"}
	}
	lo, hi := v.Ground[0][0], v.Ground[len(v.Ground)-1][0]
	return z + j.p.Site.CrossSlope*lo, z + j.p.Site.CrossSlope*hi, nil
}

// run works tasks on all processors.
func run(ctx context.Context, tasks []func()) {
	next := make(chan func())
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), max(1, len(tasks))) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for f := range next {
				if ctx.Err() == nil {
					f()
				}
			}
		}()
	}
	for _, f := range tasks {
		next <- f
	}
	close(next)
	wg.Wait()
}
