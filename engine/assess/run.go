package assess

import (
	"context"
	"errors"
	"fmt"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

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
	j, err := newJobIn(ctx, p, t, nil)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil {
		res.block(err)
		return res, nil
	}
	j.drawn, res.Water = true, j.field
	for i := range p.Box.Openings {
		if bad := j.misfit(i); bad != nil {
			res.block(*bad)
		}
	}
	worst := newWorst()
	worst.book = bayBook{}
	stages := j.work(ctx, worst)
	res.Climate = j.climate
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	for i := range stages {
		res.take(&stages[i])
	}
	res.Checks = append(worst.checks(), j.notChecked(res, worst)...)
	j.tellRough(res.Checks)
	j.tellShort(res.Checks)
	sortChecks(res.Checks)
	res.Panels, res.Bays = j.panelsFlat(), j.bays(worst.book, res.Checks)
	res.Assumed = j.assumed()
	res.Outlet = outletLine(res, t)
	if res.Kit, err = TakeoffOf(p, t); err != nil {
		res.block(err)
	}
	return res, ctx.Err()
}

// take adds a stage to the result.
func (r *Result) take(sr *stageResult) {
	for _, b := range sr.blocks {
		r.block(b)
	}
	if sr.view != nil {
		r.Views = append(r.Views, sr.view)
	}
	for w := range sr.loadedWalls() {
		r.Loads = append(r.Loads, Load{Stage: sr.st.ID, Face: w.face, Station: w.station, Diagram: w.diagram, Thrust: w.thrust, Level: w.level})
	}
	for i := range sr.tops {
		l := sr.tops[i].shown()
		l.Stage = sr.st.ID
		r.Roofs = append(r.Roofs, l)
	}
	for _, err := range each(sr.err) {
		r.block(inStage(sr.st, err))
	}
}

// each takes joined errors apart.
func each(err error) []error {
	if err == nil {
		return nil
	}
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		var out []error
		for _, e := range many.Unwrap() {
			out = append(out, each(e)...)
		}
		return out
	}
	return []error{err}
}

// block lists an error as a problem of the input, once.
func (r *Result) block(err error) {
	pr := asProblem(err)
	for _, b := range r.Blocks {
		if b.Field == pr.Field && b.Text == pr.Text {
			return
		}
	}
	r.Blocks = append(r.Blocks, pr)
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
	if j.field != nil {
		if err := j.waterFault(st); err != nil {
			pr := asProblem(inStage(st, err))
			return &pr
		}
		return nil
	}
	field := "site.water.design_high"
	if st.Water == model.WaterSeasonal {
		field = "site.water.seasonal"
	}
	return &model.Problem{Field: field, Value: "not given", Allowed: "a level",
		Text: fmt.Sprintf("stage %q cannot be checked without it", st.Name)}
}
