package assess

import (
	"context"
	"math"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// Bounds of the two questions and how closely they are solved, m.
const (
	mostCover   = 4.0   // deepest cover tried over the roof
	answerSteps = 9     // halvings after the coarse walk
	coarse      = 0.25  // step of the coarse walk
	tolAnswer   = 0.001 // m
)

func unsolved(kind string) Answer { return Answer{Kind: kind, Value: math.NaN()} }

// Answers solves the two questions of the header by the full assessment: how
// deep the box may sit, as the cover on its roof or the fill beside it, and
// how high the water may come. Both keep everything else as drawn. It may take
// forty times as long as Run and stops with ctx.
//
// The checks of the open cut do not count: cover and water do not change them.
func Answers(ctx context.Context, r *Result, t *tables.Set) error {
	depth, err := solveDepth(ctx, r, t)
	if err != nil {
		return err
	}
	water, err := solveWater(ctx, r, t)
	if err != nil {
		return err
	}
	r.Depth, r.WaterUp = depth, water
	return nil
}

// trial is the outcome of one assessment with one value changed.
type trial struct {
	within  bool
	decides string // check with the largest ratio
	why     string // why nothing could be computed
}

// try runs an assessment and tells whether every check that was made holds,
// leaving the checks of the open cut aside. Nothing is drawn or written.
func try(ctx context.Context, p *model.Project, t *tables.Set) (trial, error) {
	if problems := p.Validate(); len(problems) > 0 {
		return trial{why: problems[0].Error()}, nil
	}
	j, err := newJob(p, t)
	if err != nil {
		return trial{why: asProblem(err).Error()}, nil
	}
	worst := newWorst()
	stages := j.work(ctx, worst)
	if err := ctx.Err(); err != nil {
		return trial{}, err
	}
	for i := range stages {
		if sr := &stages[i]; len(sr.blocks) > 0 {
			return trial{why: sr.blocks[0].Error()}, nil
		} else if sr.err != nil {
			return trial{why: asProblem(sr.err).Error()}, nil
		}
	}
	return worst.trial(), nil
}

// trial is the verdict of the checks of the box.
func (w *worstOf) trial() trial {
	out, most := trial{why: "no check could be made"}, math.Inf(-1)
	for _, s := range w.order {
		if c := w.best[s]; !ofCut(c.id) && c.ratio > most {
			most = c.ratio
			out = trial{within: c.ratio <= 1, decides: c.id}
		}
	}
	return out
}

// ofCut tells the checks of the open excavation from those of the box.
func ofCut(id string) bool {
	switch id {
	case batterID, "spoil", "trench-egress":
		return true
	}
	return false
}

// solveDepth raises the finished surface over the box from the bottom of the
// walls: first as fill beside it, then as cover on its roof.
func solveDepth(ctx context.Context, r *Result, t *tables.Set) (Answer, error) {
	a := unsolved("cover")
	a.Question = "How deep may this box sit here?"
	b, err := section.BoxOf(r.Project, t)
	if err != nil {
		a.Why = err.Error()
		return a, nil
	}
	if len(r.Project.Fill.Line) >= 2 {
		a.Why = "the finished surface is drawn by hand: remove the drawn line to let the cover be varied"
		return a, nil
	}
	at := func(cover float64) *model.Project {
		p := r.Project.Clone()
		p.Fill.FrontTop, p.Fill.BackTop = cover, cover
		if cover < roofBuildUp(p) {
			p.Fill.Roof = nil
		}
		return p
	}
	return solve(ctx, a, -b.H+0.2, mostCover, at, t)
}

// roofBuildUp is the thickness of the laid layers on the roof: a surface below
// them has no room for them.
func roofBuildUp(p *model.Project) float64 {
	sum := 0.0
	for _, l := range p.Fill.Roof {
		sum += l.Thickness
	}
	return sum
}

// solveWater raises the design high level from the underside of the box to the
// finished surface.
func solveWater(ctx context.Context, r *Result, t *tables.Set) (Answer, error) {
	a := unsolved("water")
	a.Question = "How high may the water come?"
	b, err := section.BoxOf(r.Project, t)
	if err != nil {
		a.Why = err.Error()
		return a, nil
	}
	has := false
	for _, s := range r.Project.Stages {
		has = has || s.Water == model.WaterHigh
	}
	if !has {
		a.Why = "no stage has high water"
		return a, nil
	}
	base := r.Project.Box.Level
	at := func(h float64) *model.Project {
		p := r.Project.Clone()
		z := base + h
		p.Site.Water.DesignHigh = &z
		if s := p.Site.Water.Seasonal; s == nil || *s > z {
			p.Site.Water.Seasonal = &z
		}
		return p
	}
	top := b.H + math.Max(0, math.Max(r.Project.Fill.FrontTop, r.Project.Fill.BackTop))
	return solve(ctx, a, 0, top, at, t)
}

// solve walks up from lo in coarse steps to the first value that is beyond
// limits and halves the last step. The first limit met is the answer: what is
// within again higher up is of no use on site.
func solve(ctx context.Context, a Answer, lo, hi float64, at func(float64) *model.Project, t *tables.Set) (Answer, error) {
	good := math.NaN()
	first := ""
	for v := lo; ; v = math.Min(v+coarse, hi) {
		tr, err := try(ctx, at(v), t)
		if err != nil {
			return a, err
		}
		if tr.why != "" {
			if math.IsNaN(good) && v < hi {
				first = tr.why
				continue
			}
			if math.IsNaN(good) {
				a.Why = first
				return a, nil
			}
		}
		if !tr.within {
			if math.IsNaN(good) {
				a.None, a.Governs, a.Value = true, tr.decides, v
				return a, nil
			}
			return halve(ctx, a, good, v, at, t)
		}
		good = v
		if v >= hi {
			a.Solved, a.AtLeast, a.Value = true, true, v
			return a, nil
		}
	}
}

// halve closes in on the limit between a value within and one beyond.
func halve(ctx context.Context, a Answer, good, bad float64, at func(float64) *model.Project, t *tables.Set) (Answer, error) {
	for i := 0; i < answerSteps && bad-good > tolAnswer; i++ {
		mid := (good + bad) / 2
		tr, err := try(ctx, at(mid), t)
		if err != nil {
			return a, err
		}
		if tr.within {
			good = mid
		} else {
			bad = mid
			if tr.decides != "" {
				a.Governs = tr.decides
			}
		}
	}
	if a.Governs == "" {
		tr, err := try(ctx, at(bad), t)
		if err != nil {
			return a, err
		}
		a.Governs = tr.decides
	}
	a.Solved, a.Value = true, good
	return a, nil
}
