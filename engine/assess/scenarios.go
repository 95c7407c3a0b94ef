package assess

import (
	"context"
	"math"
	"slices"

	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/engine/water"
)

// scene is a state of the drains under a condition of the water.
type scene struct {
	id, name string
	wet      string
	c        water.Case
}

// scenes are those that a project can come to.
func scenes(p *model.Project) []scene {
	d := p.Defence.Drain
	out := []scene{{"working", "Wet season, drains working", model.WaterSeasonal, water.Free}}
	if d.Present || d.Uphill {
		out = append(out,
			scene{"half", "Wet season, drains at half capacity", model.WaterSeasonal, water.Case{Back: 0.5}},
			scene{"blocked", "Wet season, drains blocked", model.WaterSeasonal, water.Case{Back: 1}})
		if d.Present && d.Outlet == "sump" {
			out = append(out, scene{"pump", "Wet season, pump dead", model.WaterSeasonal, water.Case{Back: 1, Pumped: true}})
		}
		return append(out,
			scene{"storm", "Storm: design high water, drains working", model.WaterHigh, water.Free},
			scene{"storm-blocked", "Storm: design high water, drains blocked", model.WaterHigh, water.Case{Back: 1}})
	}
	out[0].name = "Wet season, no drains"
	return append(out, scene{"storm", "Storm: design high water, no drains", model.WaterHigh, water.Free})
}

// Scenarios runs the assessment of the box in service once for every state that
// its drains may be in: working, at half capacity, blocked, with the pump dead
// where there is one, and in a storm that brings the design high water, with the
// drains at work and blocked. Only the stages in
// service that have water count, each with the water of the scenario. It asks
// for computed water: an error is a model.Problem, or that of ctx.
func Scenarios(ctx context.Context, p *model.Project, t *tables.Set) ([]Scenario, error) {
	if !p.Site.Water.Computed {
		return nil, model.Problem{Field: "site.water.computed", Value: "off", Allowed: "on", Text: "only computed water tells what the drains do"}
	}
	if hard := model.FirstHard(p.Validate()); hard != nil {
		return nil, *hard
	}
	var wet []model.Stage
	for _, st := range p.Stages {
		if st.Kind == model.StageService && st.Water != "" && st.Water != model.WaterNone {
			wet = append(wet, st)
		}
	}
	if len(wet) == 0 {
		return nil, model.Problem{Field: "stages", Value: "none", Allowed: "1 or more", Text: "no stage in service has water"}
	}
	var out []Scenario
	free := map[string]drainFlow{} // by the water, with the drains at work
	for _, sc := range scenes(p) {
		q := p.Clone()
		q.Stages = slices.Clone(wet)
		for i := range q.Stages {
			q.Stages[i].Water, q.Stages[i].Blocked = sc.wet, false
		}
		s, flow, err := play(ctx, q, t, sc, free[sc.wet])
		if err != nil {
			return nil, err
		}
		if sc.c == water.Free {
			free[sc.wet] = flow
		}
		out = append(out, s)
	}
	return out, nil
}

// play runs one scenario; free is what the drains take of the same water when
// they work.
func play(ctx context.Context, p *model.Project, t *tables.Set, sc scene, free drainFlow) (Scenario, drainFlow, error) {
	s := Scenario{ID: sc.id, Name: sc.name, Level: math.NaN(), Above: math.NaN(), Worst: math.NaN(), Hours: math.NaN(), Soonest: math.NaN()}
	field, err := water.OfCase(ctx, p, t, sc.c)
	if err != nil {
		return s, drainFlow{}, err
	}
	j, err := newJobIn(ctx, p, t, field)
	if err != nil {
		return s, drainFlow{}, err
	}
	var flow drainFlow
	for _, st := range p.Stages {
		w, err := field.At(st)
		if err != nil {
			s.Why = Words(err)
			return s, flow, nil
		}
		s.Rough = s.Rough || field.Rough(st)
		if z := w.Highest(); !(z <= s.Level) {
			s.Level = z
		}
		if f := j.drainFlowOf(w); f.total() >= flow.total() {
			flow = f
		}
	}
	s.Above, s.Inflow = s.Level-p.Box.Level, flow.total()
	tr, err := tryKept(ctx, p, t, kept{field: field})
	if err != nil {
		return s, flow, err
	}
	if s.Why = tr.why; tr.why == "" {
		s.Worst, s.Check, s.Part = tr.ratio, tr.decides, tr.part
		s.Float = tr.ratioAt(slot{"flotation", "box"})
	}
	excess := 0.0           // of water that nothing takes any more
	if sc.c != water.Free { // what an interceptor no longer takes may come to the box as well
		excess = math.Max(0, free.total()-flow.total())
	}
	times := 1.0
	if !j.measured() {
		times = unmeasured
	}
	s.Hours, err = j.hours(excess, s.Level)
	if err == nil {
		s.Soonest, err = j.hours(excess*times, s.Level)
	}
	if err != nil {
		s.Hours, s.Soonest, s.Why = math.NaN(), math.NaN(), Words(err)
	}
	if math.IsNaN(s.Hours) && s.Why == "" {
		s.Why = "the ground water itself comes as high as the box: how fast is not computed"
	}
	return s, flow, nil
}

// hours is the time until what the drains no longer take has filled the stone up
// to the underside of the box, where in the end it comes to stand at a level:
// the inflow falls off to nothing there in a straight line. +Inf where it never
// does; NaN where it does without any excess.
func (j *job) hours(excess, level float64) (float64, error) {
	under := j.p.Box.Level
	switch {
	case level <= under:
		return math.Inf(1), nil
	case excess == 0:
		return math.NaN(), nil
	}
	layers, invert := j.store()
	in := drain.RiseIn{Inflow: excess, Head: level - invert, Layers: layers}
	s, err := in.Seconds(under - invert)
	return s / 3600, err
}
