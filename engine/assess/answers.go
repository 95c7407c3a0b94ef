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
			return trial{why: asProblem(each(sr.err)[0]).Error()}, nil
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

// solveDepth moves the finished surface over the box up and down as it is
// drawn. Where the drawing is within limits the answer is the first limit met
// going up; where it is beyond, the first place within going down.
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
	f := r.Project.Fill
	drawn := math.Min(f.FrontTop, f.BackTop)
	s := solver{ctx: ctx, t: t, at: func(cover float64) *model.Project {
		p := r.Project.Clone()
		p.Fill.FrontTop, p.Fill.BackTop = f.FrontTop+cover-drawn, f.BackTop+cover-drawn
		if cover < buildUp(p) {
			p.Fill.Roof = nil
		}
		return p
	}}
	start, err := s.try(drawn)
	if err != nil {
		return a, err
	}
	if start.why != "" {
		a.Why = start.why
		return a, nil
	}
	if start.within {
		return s.up(a, drawn, math.Max(mostCover, drawn))
	}
	return s.down(a, drawn, 0.2-b.H, start)
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
	f := r.Project.Box.Front
	top := b.H + math.Max(section.Cover(r.Project, b, f), section.Cover(r.Project, b, f+section.Depth(r.Project, b)))
	s := solver{ctx: ctx, t: t, at: at}
	start, err := s.try(0)
	if err != nil {
		return a, err
	}
	switch {
	case start.why != "":
		a.Why = start.why
		return a, nil
	case !start.within:
		a.None, a.Governs, a.Value = true, start.decides, 0
		return a, nil
	}
	return s.up(a, 0, top)
}

// solver tries values of one question.
type solver struct {
	ctx context.Context
	t   *tables.Set
	at  func(float64) *model.Project
}

func (s *solver) try(v float64) (trial, error) { return try(s.ctx, s.at(v), s.t) }

// up walks from a value within limits in coarse steps to the first beyond and
// halves that step: what is within again further up is of no use on site.
// Where something cannot be computed the walk ends, and says so.
func (s *solver) up(a Answer, lo, hi float64) (Answer, error) {
	for good := lo; good < hi; {
		v := math.Min(good+coarse, hi)
		tr, err := s.try(v)
		if err != nil {
			return a, err
		}
		if tr.why != "" {
			a.Solved, a.AtLeast, a.Value, a.Why = true, true, good, tr.why
			return a, nil
		}
		if !tr.within {
			return s.halve(a, good, v, tr)
		}
		good = v
	}
	a.Solved, a.AtLeast, a.Value = true, true, hi
	return a, nil
}

// down walks from a value beyond limits in coarse steps to the first within.
func (s *solver) down(a Answer, hi, lo float64, first trial) (Answer, error) {
	for bad, last := hi, first; bad > lo; {
		v := math.Max(bad-coarse, lo)
		tr, err := s.try(v)
		if err != nil {
			return a, err
		}
		if tr.why == "" && tr.within {
			return s.halve(a, v, bad, last)
		}
		if tr.why == "" {
			last = tr
		}
		bad = v
	}
	a.None, a.Governs, a.Value = true, first.decides, lo
	return a, nil
}

// halve closes in on the limit between a value within and one beyond; what
// cannot be computed counts as beyond, as nobody can vouch for it.
func (s *solver) halve(a Answer, good, bad float64, beyond trial) (Answer, error) {
	a.Governs = beyond.decides
	for i := 0; i < answerSteps && math.Abs(bad-good) > tolAnswer; i++ {
		mid := (good + bad) / 2
		tr, err := s.try(mid)
		if err != nil {
			return a, err
		}
		if tr.why == "" && tr.within {
			good = mid
			continue
		}
		bad = mid
		if tr.decides != "" {
			a.Governs = tr.decides
		}
	}
	a.Solved, a.Value = true, good
	return a, nil
}
