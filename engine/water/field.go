package water

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"sync"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// Field is the computed water of a project: under each condition that its
// stages name, in the long section and across the box.
type Field struct {
	Far    map[string]*Far // by model.WaterSeasonal and model.WaterHigh
	states map[key]*Wet
	faults map[key]error
	stages []model.Stage
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

// crossStations is the number of cross sections along the box.
const crossStations = 3

// Compute works out the water of all stages that have some. What cannot be
// computed is told by At for the stages that need it; an error is returned only
// when ctx is done.
func Compute(ctx context.Context, p *model.Project, t *tables.Set) (*Field, error) {
	f := &Field{Far: map[string]*Far{}, states: map[key]*Wet{}, faults: map[key]error{}, stages: p.Stages}
	j := &job{p: p, t: t, f: f, ctx: ctx}
	j.plan, j.fault = section.NewPlan(p, t)
	j.fit()
	var tasks []func()
	for _, k := range j.keys() {
		tasks = append(tasks, j.tasks(k)...)
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
		return nil, fmt.Errorf("water: stage %q was not computed", st.ID)
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
	natural, err := section.NewLong(j.p, j.t, model.Stage{Kind: model.StageNatural})
	if err != nil {
		j.fault = err
		return
	}
	box, err := section.BoxOf(j.p, j.t)
	if err != nil {
		j.fault = err
		return
	}
	back := j.p.Box.Front + section.Depth(j.p, box)
	for _, wet := range []string{model.WaterSeasonal, model.WaterHigh} {
		if !uses(j.p, wet) {
			continue
		}
		targets := Targets(j.p, wet, back)
		far, err := Fit(j.ctx, j.p, natural, targets, Ordinary())
		if err != nil {
			j.miss[wet] = err
			continue
		}
		j.f.Far[wet] = far
	}
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

// keys are the different waters of the stages.
func (j *job) keys() []key {
	var out []key
	seen := map[key]bool{}
	for _, st := range j.p.Stages {
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

// stage is one of the stages of a key.
func (j *job) stage(k key) model.Stage {
	for _, st := range j.p.Stages {
		if keyOf(st) == k {
			return st
		}
	}
	panic("water: a key without a stage")
}

// tasks are the sections of a key, each to be worked by itself.
func (j *job) tasks(k key) []func() {
	err := j.fault
	if err == nil {
		err = j.miss[k.wet]
	}
	if err != nil {
		j.f.faults[k] = err
		return nil
	}
	w := &Wet{}
	j.f.states[k] = w
	st := j.stage(k)
	far := j.f.Far[k.wet]
	fail := func(err error) {
		j.mu.Lock()
		defer j.mu.Unlock()
		j.f.faults[k] = err
	}
	o := Options{Blocked: k.blocked, Grain: Ordinary()}
	tasks := []func(){func() {
		long, err := j.plan.Long()
		if err != nil {
			fail(err)
			return
		}
		v, err := long.At(st)
		if err != nil {
			fail(err)
			return
		}
		if w.Long, err = Solve(j.p, v, far.Left, far.Right, o); err != nil {
			fail(err)
		}
	}}
	if !k.shape.Box {
		return tasks
	}
	at := j.stations()
	w.Cross = make([]*State, len(at))
	for i, x := range at {
		tasks = append(tasks, func() {
			var err error
			if w.Cross[i], err = j.cross(st, x, far, o); err != nil {
				fail(err)
			}
		})
	}
	return tasks
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

// cross is a section across the box: at its ends the water stands as in the
// hill as found, which falls with the ground across the slope.
func (j *job) cross(st model.Stage, x float64, far *Far, o Options) (*State, error) {
	cut, err := j.plan.Cross(x)
	if err != nil {
		return nil, err
	}
	v, err := cut.At(st)
	if err != nil {
		return nil, err
	}
	z, ok := far.Flow.Table().At(x)
	if !ok {
		return nil, model.Problem{Field: "box.front", Value: fmt.Sprintf("%.2f m", x), Allowed: "a place on the ground line", Text: "the box reaches beyond the ground line"}
	}
	lo, hi := v.Ground[0][0], v.Ground[len(v.Ground)-1][0]
	return Solve(j.p, v, z+j.p.Site.CrossSlope*lo, z+j.p.Site.CrossSlope*hi, o)
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
