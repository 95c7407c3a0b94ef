package assess

import (
	"context"
	"errors"
	"iter"
	"runtime"
	"sync"
	"sync/atomic"

	"hillset/engine/box"
	"hillset/engine/model"
	"hillset/engine/section"
)

// stageResult is what one stage gives.
type stageResult struct {
	st     model.Stage
	view   *section.View
	loaded bool // fill lies against the box and nothing is missing
	back   *wallLoad
	fault  error // of the back wall
	sides  []sideLoads
	tops   []topLoad
	walls  []*wallLoad   // left and right in turn, station by station
	wings  [2]*wingState // left and right; nil where none stands
	blocks []model.Problem
	err    error

	endPush box.Pair // kN, what the blind end brings to the top of each long side
	chord   box.Pair // kN in the top rails by the roof as a diaphragm
}

// loadedWalls are the walls that soil presses on, the back wall first.
func (sr *stageResult) loadedWalls() iter.Seq[*wallLoad] {
	return func(yield func(*wallLoad) bool) {
		if sr.back != nil && sr.back.loaded && !yield(sr.back) {
			return
		}
		for _, w := range sr.walls {
			if w.loaded && !yield(w) {
				return
			}
		}
	}
}

// work runs all stages: first what each looks like, then the loads and what
// becomes of them in sheets and ribs, place by place, and last, stage by stage,
// the checks. They go to worst in the order of the stages.
func (j *job) work(ctx context.Context, worst *worstOf) []stageResult {
	stages := make([]stageResult, len(j.p.Stages))
	plan, long, err := j.lay()
	if err == nil {
		j.wings = j.wingSides(plan)
	}
	for i := range stages {
		sr := &stages[i]
		sr.st, sr.err = j.p.Stages[i], err
		if err == nil && ctx.Err() == nil {
			sr.err = j.look(long, sr)
		}
	}
	j.places(ctx, plan, stages)
	for i := range stages {
		if sr := &stages[i]; sr.err == nil && ctx.Err() == nil {
			if err := j.stage(plan, sr, worst); err != nil {
				sr.err = err
			}
		}
	}
	j.pourChecks(worst)
	j.alone(ctx, worst)
	j.drainage(ctx, stages, worst)
	j.climateChecks(stages, worst)
	return stages
}

// lay lays the ground out and cuts it along the fall line.
func (j *job) lay() (*section.Plan, *section.Cut, error) {
	plan, err := section.NewPlan(j.p, j.t)
	if err != nil {
		return nil, nil, err
	}
	long, err := plan.Long()
	return plan, long, err
}

// look shows a stage and tells whether it has loads.
func (j *job) look(long *section.Cut, sr *stageResult) error {
	show := long.Beside
	if j.drawn {
		show = long.At
	}
	v, err := show(sr.st)
	if err != nil {
		return inStage(sr.st, err)
	}
	sr.view = v
	sr.blocks = append(sr.blocks, j.misfits(v)...)
	if !v.HasBox {
		return nil
	}
	if missing := j.missingWater(sr.st); missing != nil {
		sr.blocks = append(sr.blocks, *missing)
		return nil
	}
	sr.loaded = sr.st.Kind != model.StageSet
	return nil
}

// misfits are faults of the place of the box that a section shows: a bed in the
// air, a cut into rock.
func (j *job) misfits(v *section.View) []model.Problem {
	var out []model.Problem
	if gap := v.Gap(); v.HasBox && gap > gapAllowed {
		out = append(out, model.Problem{Field: "box.level", Value: "too high", Allowed: "a level with the formation in the ground",
			Text: "the box stands in the air: the formation is above the ground, and the bed would lie on loose fill"})
	}
	if d, _ := v.BelowRock(); d > gapAllowed {
		out = append(out, model.Problem{Field: "site.rock", Value: "dug into", Allowed: "a cut above the rock line",
			Text: "the cut reaches below the rock line"})
	}
	return out
}

// gapAllowed is how far the ground may miss the formation before the bed
// counts as standing in the air, m: what is trimmed on site.
const gapAllowed = 0.05

// places works the back wall and the stations, each through all stages, on as
// many processors as there are.
func (j *job) places(ctx context.Context, plan *section.Plan, stages []stageResult) {
	var loaded []*stageResult
	for i := range stages {
		if stages[i].loaded {
			loaded = append(loaded, &stages[i])
		}
	}
	if len(loaded) == 0 {
		return
	}
	tasks := j.tasks(plan, loaded)
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(tasks)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := next.Add(1) - 1; i < int64(len(tasks)) && ctx.Err() == nil; i = next.Add(1) - 1 {
				tasks[i]()
			}
		}()
	}
	wg.Wait()
}

// tasks are the places to be worked, none of which touches what is another's.
// Broadside the sides are the ends of the box, pressed at one place only.
func (j *job) tasks(plan *section.Plan, stages []*stageResult) []func() {
	at := j.stations()
	broadside := j.p.Box.Orientation == model.Broadside
	pairs := len(at)
	if broadside {
		pairs = 1
	}
	for _, sr := range stages {
		sr.sides, sr.tops = make([]sideLoads, pairs), make([]topLoad, len(at))
	}
	tasks := []func(){func() {
		back := &place{j: j, x: j.backX}
		for _, sr := range stages {
			sr.back, sr.fault = back.backWall(sr.view)
		}
	}}
	if broadside {
		tasks = append(tasks, func() { j.newPlace(plan, (j.frontX+j.backX)/2).ends(stages) })
	}
	tasks = append(tasks, j.wingTasks(stages)...)
	for i, x := range at {
		tasks = append(tasks, func() {
			if broadside {
				(&place{j: j, x: x}).roofs(stages, i)
				return
			}
			j.newPlace(plan, x).ring(stages, i)
		})
	}
	return tasks
}

// stage makes the checks of one stage.
func (j *job) stage(plan *section.Plan, sr *stageResult, worst *worstOf) error {
	if sr.st.Kind == model.StageCut {
		return j.cut(plan, sr, worst)
	}
	if sr.st.Kind == model.StageSet && sr.view != nil && len(sr.blocks) == 0 {
		return j.empty(sr, worst)
	}
	if !sr.loaded {
		return nil
	}
	partial := sr.gather()
	errs := []error{partial, j.wallChecks(sr, worst)}
	for _, part := range j.parts() {
		err := partial
		if partial == nil || !part.whole {
			err = part.run(sr, worst)
			errs = append(errs, err)
		}
		if err != nil {
			for _, c := range part.checks {
				worst.fault(slot{c.id, c.part}, c.title, sr.st.ID, "it could not be worked out in stage “"+sr.st.Name+"”: ", err)
			}
		}
	}
	j.wingChecks(sr, worst)
	return errors.Join(errs...)
}

// part is a group of checks of a stage that needs nothing of the others, with
// what is missing when it cannot be worked out.
type part struct {
	run    func(*stageResult, *worstOf) error
	whole  bool // it sums over the box, so every load must be there
	checks []gap
}

func (j *job) parts() []part {
	return append([]part{
		{j.roofChecks, false, []gap{{id: "roof-sheet", title: "Roof sheet as beam and strut", part: "roof"}}},
		{j.railChecks, true, []gap{{id: "rails", title: "Rails, header and wales", part: "rails and wales"}}},
		{j.ribChecks, true, []gap{{id: "rib", title: "Rib as a closed frame", part: "ribs"}}},
		{j.lengthwise, true, []gap{
			{id: "end-post", title: "Corner post of the blind end, bent along the box", part: blindPost},
			{id: "racking", title: "Push of the blind end along the box", part: "long walls"},
		}},
		{j.girders, true, []gap{{id: "girder", title: "Long wall as a girder", part: "long walls"}}},
		{j.crosswise, true, []gap{
			{id: "end-frame", title: "Blind end pushed crosswise", part: blindFrame},
			{id: "end-frame", title: "Door end pushed crosswise", part: doorFrame},
		}},
		{j.openings, true, []gap{{id: "opening", title: "Openings cut in walls and roof", part: "openings"}}},
		{j.doors, false, []gap{{id: "doors", title: doorTitle, part: "doors"}}},
		{j.stability, true, []gap{
			{id: "flotation", title: "Flotation", part: "box"},
			{id: "sliding", title: "Sliding out of the hill", part: "box"},
			{id: "overturning", title: "Overturning about the front edge", part: "box"},
			{id: "sliding-across", title: "Sliding along the contour", part: "box"},
			{id: "tipping-across", title: "Tipping along the contour", part: "box"},
			{id: padBearing, title: "Bearing below the pads", part: "pads"},
			settleGaps[0], settleGaps[1], settleGaps[2],
		}},
	}, j.outsideParts()...)
}

// gather brings the loads of a stage together and says what could not be
// worked out. What is whole is kept: stations with both sides, and roofs.
func (sr *stageResult) gather() error {
	errs := []error{sr.fault}
	for _, s := range sr.sides {
		if s.fault != nil {
			errs = append(errs, s.fault)
			continue
		}
		for _, w := range [...]*wallLoad{s.left, s.right} {
			if w != nil {
				sr.walls = append(sr.walls, w)
			}
		}
	}
	whole := sr.tops[:0]
	for i := range sr.tops {
		if sr.tops[i].fault != nil {
			errs = append(errs, sr.tops[i].fault)
			continue
		}
		whole = append(whole, sr.tops[i])
	}
	sr.tops = whole
	return errors.Join(errs...)
}
