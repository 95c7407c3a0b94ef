package assess

import (
	"context"
	"math"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/engine/water"
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
// Nor do those of the wing walls: a course more is laid where the fill is higher.
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

// Follow works out all that a Run leaves for later: the hillside and the answers.
func Follow(ctx context.Context, r *Result, t *tables.Set) error {
	if err := Hillside(ctx, r, t); err != nil {
		return err
	}
	return Answers(ctx, r, t)
}

// solveDepth moves the finished surface over the box up and down as it is
// drawn. Where the drawing is within limits the answer is the first limit met
// going up; where it is beyond, the first place within going down.
func solveDepth(ctx context.Context, r *Result, t *tables.Set) (Answer, error) {
	a := unsolved("cover")
	a.Question = "How deep may this box sit here?"
	b, err := section.BoxOf(r.Project, t)
	if err != nil {
		a.Why = Words(err)
		return a, nil
	}
	if len(r.Project.Fill.Line) >= 2 {
		a.Why = "the finished surface is drawn by hand: remove the drawn line to let the cover be varied"
		return a, nil
	}
	drawn := coverOf(r.Project)
	s := &solver{ctx: ctx, t: t, field: r.Water, at: func(cover float64) *model.Project { return coverTo(r.Project, cover) }}
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
		a.Why = Words(err)
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
	still := stillOf(r.Project, r.Water)
	at := func(h float64) *model.Project { return waterTo(still, base+h) }
	top := waterTop(r.Project, b)
	s := &solver{ctx: ctx, t: t, at: at}
	start, err := s.try(0)
	if err != nil {
		return a, err
	}
	switch {
	case start.why != "":
		a.Why = start.why
		return a, nil
	case !start.within:
		a.None, a.Value = true, 0
		a.blame(&start)
		return a, nil
	}
	return s.up(a, 0, top)
}

// coverOf is the least cover as drawn, m; negative where the fill ends below
// the roof.
func coverOf(p *model.Project) float64 { return math.Min(p.Fill.FrontTop, p.Fill.BackTop) }

// coverTo is a copy of a project with the finished surface over the box moved
// up or down. Less cover than the build-up is thick leaves no build-up.
func coverTo(p *model.Project, cover float64) *model.Project {
	q := p.Clone()
	lift := cover - coverOf(p)
	q.Fill.FrontTop, q.Fill.BackTop = p.Fill.FrontTop+lift, p.Fill.BackTop+lift
	if cover < buildUp(q) {
		q.Fill.Roof = nil
	}
	return q
}

// waterTo is a copy of a project with the design high water at a level; the
// seasonal one is never above it.
func waterTo(p *model.Project, z float64) *model.Project {
	q := p.Clone()
	q.Site.Water.DesignHigh = &z
	if s := q.Site.Water.Seasonal; s == nil || *s > z {
		q.Site.Water.Seasonal = &z
	}
	return q
}

// waterTop is the highest water that is tried, m above the underside: the
// finished surface over the box.
func waterTop(p *model.Project, b tables.Box) float64 {
	f := p.Box.Front
	return b.H + math.Max(section.Cover(p, b, f), section.Cover(p, b, f+section.Depth(p, b)))
}

// solver tries values of one question.
type solver struct {
	ctx   context.Context
	t     *tables.Set
	field *water.Field // that of the drawing, kept; nil where the level is given
	at    func(float64) *model.Project
	first *trial // the first trial that could be computed
}

// try tries a value. What the first trial could check every other one must, or
// it counts as beyond limits.
func (s *solver) try(v float64) (trial, error) {
	tr, err := tryKept(s.ctx, s.at(v), s.t, kept{field: s.field})
	switch {
	case err != nil || tr.why != "":
	case s.first == nil:
		first := tr
		s.first = &first
	default:
		tr.unlike(s.first)
	}
	return tr, err
}

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
	a.None, a.Value = true, lo
	a.blame(&first)
	return a, nil
}

// blame names what sets the limit.
func (a *Answer) blame(tr *trial) { a.Governs, a.Unmade = tr.decides, math.IsNaN(tr.ratio) }

// halve closes in on the limit between a value within and one beyond; what
// cannot be computed counts as beyond, as nobody can vouch for it.
func (s *solver) halve(a Answer, good, bad float64, beyond trial) (Answer, error) {
	a.blame(&beyond)
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
			a.blame(&tr)
		}
	}
	a.Solved, a.Value = true, good
	return a, nil
}
