package assess

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"sync"

	"hillset/engine/box"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// stageResult is what one stage gives; stages are worked on side by side.
type stageResult struct {
	view   *section.View
	back   wallLoad
	walls  []wallLoad // left and right in turn, station by station
	roofs  []roofAt
	found  []candidate
	blocks []model.Problem
	err    error
}

func (sr *stageResult) add(c candidate) { sr.found = append(sr.found, c) }

// Run assesses a project: every stage, every station, every check that can be
// made. What the input keeps from being computed is listed in Blocks; an error
// is returned only when ctx is done or a table is broken. Run never changes p
// and may be called at the same time for different projects.
func Run(ctx context.Context, p *model.Project, t *tables.Set) (*Result, error) {
	res := &Result{Project: p, Blocks: p.Validate()}
	res.Depth, res.WaterUp = unsolved("cover"), unsolved("water")
	if hard := model.FirstHard(res.Blocks); hard != nil {
		return res, nil
	}
	j, err := newJob(p, t)
	if err != nil {
		return res, res.block(err)
	}
	stages := j.runStages(ctx)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	worst := newWorst()
	for i := range stages {
		if err := res.take(&stages[i], worst); err != nil {
			return res, err
		}
	}
	res.Checks = append(worst.checks(), j.notChecked(res, worst)...)
	sortChecks(res.Checks)
	res.Assumed = j.assumed()
	return res, ctx.Err()
}

// runStages works the stages on as many processors as there are.
func (j *job) runStages(ctx context.Context) []stageResult {
	out := make([]stageResult, len(j.p.Stages))
	next := make(chan int)
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(out)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range next {
				if ctx.Err() == nil {
					j.stage(j.p.Stages[i], &out[i])
				}
			}
		}()
	}
	for i := range out {
		next <- i
	}
	close(next)
	wg.Wait()
	return out
}

// take adds a stage to the result.
func (r *Result) take(sr *stageResult, worst *worstOf) error {
	r.Blocks = append(r.Blocks, sr.blocks...)
	if sr.view != nil {
		r.Views = append(r.Views, sr.view)
	}
	for _, w := range append([]wallLoad{sr.back}, sr.walls...) {
		if !w.loaded {
			continue
		}
		thrust, level := w.diagram.Resultant()
		r.Loads = append(r.Loads, Load{Stage: sr.view.Stage.ID, Face: w.face, Station: w.station, Diagram: w.diagram, Thrust: thrust, Level: level})
	}
	for _, ra := range sr.roofs {
		r.Roofs = append(r.Roofs, ra.load)
	}
	for _, c := range sr.found {
		worst.add(c)
	}
	if sr.err != nil {
		return r.block(sr.err)
	}
	return nil
}

// block lists a problem of the input, once; any other error is handed back.
func (r *Result) block(err error) error {
	pr := asProblem(err)
	for _, b := range r.Blocks {
		if b.Field == pr.Field && b.Text == pr.Text {
			return nil
		}
	}
	r.Blocks = append(r.Blocks, pr)
	return nil
}

// asProblem makes a problem of any error of the engine. Those that carry no
// field of the project are shown as they are.
func asProblem(err error) model.Problem {
	var pr model.Problem
	if errors.As(err, &pr) {
		return pr
	}
	return model.Problem{Field: "project", Value: "", Text: err.Error()}
}

// stage runs everything of one stage.
func (j *job) stage(st model.Stage, sr *stageResult) {
	sr.err = func() error {
		v, err := section.NewLong(j.p, j.t, st)
		if err != nil {
			return err
		}
		sr.view = v
		if st.Kind == model.StageCut {
			return j.cut(v, sr)
		}
		if !v.HasBox || st.Kind == model.StageSet {
			return nil
		}
		if missing := j.missingWater(st); missing != nil {
			sr.blocks = append(sr.blocks, *missing)
			return nil
		}
		return j.loaded(v, sr)
	}()
	if sr.err != nil {
		sr.err = inStage(st, sr.err)
	}
}

// inStage names the stage in a problem that only some stages have.
func inStage(st model.Stage, err error) error {
	var pr model.Problem
	if errors.As(err, &pr) {
		return err
	}
	return model.Problem{Field: "stages." + st.ID, Value: st.Name, Text: err.Error()}
}

// missingWater is the problem of a stage whose water level nobody has given.
func (j *job) missingWater(st model.Stage) *model.Problem {
	if st.Water == "" || st.Water == model.WaterNone {
		return nil
	}
	if _, ok := section.WaterAt(j.p, st); ok {
		return nil
	}
	field := "site.water.design_high"
	if st.Water == model.WaterSeasonal {
		field = "site.water.seasonal"
	}
	return &model.Problem{Field: field, Value: "not given", Allowed: "a level",
		Text: fmt.Sprintf("stage %q cannot be checked without it", st.Name)}
}

// loaded works a stage with fill against the box.
func (j *job) loaded(v *section.View, sr *stageResult) error {
	var err error
	if sr.back, err = j.wall(v, section.Back, j.backX); err != nil {
		return err
	}
	if err := j.sides(v, sr); err != nil {
		return err
	}
	j.wallChecks(v.Stage, sr)
	if err := j.roofChecks(v, sr); err != nil {
		return err
	}
	if err := j.railChecks(v, sr); err != nil {
		return err
	}
	if err := j.ribChecks(v, sr); err != nil {
		return err
	}
	return j.stability(v, sr)
}

// sides presses the two sides at every station. Broadside these are the ends
// of the box, pressed at one place only.
func (j *job) sides(v *section.View, sr *stageResult) error {
	at := j.stations()
	if j.p.Box.Orientation == model.Broadside {
		at = []float64{(j.frontX + j.backX) / 2}
	}
	for _, x := range at {
		cv, err := section.CrossOf(j.p, j.t, v, x)
		if err != nil {
			return err
		}
		for _, f := range []section.Face{section.Left, section.Right} {
			w, err := j.wall(cv, f, x)
			if err != nil {
				return err
			}
			sr.walls = append(sr.walls, w)
		}
	}
	for _, x := range j.stations() {
		ra, err := j.roofLoad(v, x)
		if err != nil {
			return err
		}
		sr.roofs = append(sr.roofs, ra)
	}
	return nil
}

// topThrust is what the two long walls press on the edges of the roof sheet
// at a station: the smaller of the two tops, since the rest goes sideways. A
// wall over several wales may pull at its top; that is no thrust.
func (sr *stageResult) topThrust(i int) box.Pair {
	if 2*i+1 >= len(sr.walls) {
		return box.Pair{}
	}
	l, r := sr.walls[2*i].result.Top, sr.walls[2*i+1].result.Top
	return box.Pair{ASD: math.Max(0, math.Min(l.ASD, r.ASD)), LRFD: math.Max(0, math.Min(l.LRFD, r.LRFD))}
}
