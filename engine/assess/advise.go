package assess

import (
	"cmp"
	"context"
	"math"
	"runtime"
	"slices"

	"hillset/engine/section"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// Advise tries changes of the project, each through the full assessment, and
// ranks those that bring a check beyond limits within them or nearer: first
// what brings all within limits, then by how much is gained for what is added.
// What building does not change, such as the water level, the soils of the hill
// and the snow, is not offered. What no trial comes to is run once for the first
// of them. There is no advice for a project that cannot be
// computed. It stops with ctx; the outcome does not depend on the number of
// processors. tried, where it is not nil, hears now and then how many changes
// have been tried; it may be called from several goroutines.
func Advise(ctx context.Context, r *Result, t *tables.Set, tried func(n int)) ([]Remedy, error) {
	b, err := section.BoxOf(r.Project, t)
	if err != nil || len(r.Blocks) > 0 {
		return nil, nil
	}
	a := newAdviser(ctx, t, b)
	a.tried, a.rule = tried, rulerOf(r.Project)
	base := state{p: r.Project}
	if base.tr, err = a.try(r.Project); err != nil || base.tr.why != "" {
		return nil, err
	}
	if len(wrong(&base.tr)) == 0 {
		return nil, nil
	}
	out, err := a.remedies(&base)
	if err != nil {
		return nil, err
	}
	all, ok, err := a.chain(&base)
	if ok {
		out = slices.Insert(out, 0, all)
	}
	if err != nil || len(out) == 0 {
		return out, err
	}
	out[0].Rest, err = restOf(ctx, r.Project, &out[0], t)
	return out, err
}

func newAdviser(ctx context.Context, t *tables.Set, b tables.Box) *adviser {
	return &adviser{ctx: ctx, t: t, box: b, bars: hollowBars(t), known: map[string]trial{}, room: make(chan struct{}, runtime.GOMAXPROCS(0))}
}

// remedies are the single changes that help, ranked.
func (a *adviser) remedies(base *state) ([]Remedy, error) {
	found, err := a.singles(base)
	if err != nil {
		return nil, err
	}
	var out []Remedy
	for _, o := range found {
		m, ok, err := a.remedy(base, o)
		if err != nil {
			return nil, err
		}
		if ok {
			out = append(out, m)
		}
	}
	rank(out)
	return out, nil
}

// wrong are the checks that ask for a remedy: beyond limits, or not made for
// want of something that can be built.
func wrong(tr *trial) []slot {
	var out []slot
	for _, c := range tr.checks {
		if !held(c.ratio) {
			out = append(out, c.slot)
		}
	}
	return out
}

// singles tries every idea on a state, all at once.
func (a *adviser) singles(s *state) ([]outcome, error) {
	sets, err := abreast(len(ideas), func(i int) ([]outcome, error) { return a.tryIdea(i, s) })
	var out []outcome
	for _, set := range sets {
		out = append(out, set...)
	}
	return out, err
}

// remedy writes out a change that was tried; false where it helps nothing.
func (a *adviser) remedy(base *state, o outcome) (Remedy, bool, error) {
	m := Remedy{ID: o.id, Text: o.text, Q: o.q, Before: base.tr.score(), After: o.tr.score(), Apply: o.apply}
	if o.tr.why != "" {
		return m, false, nil
	}
	m.For, m.Fails = compared(&base.tr, &o.tr)
	if len(m.For) == 0 {
		return m, false, nil
	}
	before, err := TakeoffOf(base.p, a.t)
	if err != nil {
		return m, false, err
	}
	after, err := TakeoffOf(o.p, a.t)
	if err != nil {
		return m, false, err
	}
	m.Adds = after.less(before)
	return m, true, nil
}

// compared lists the checks that a change helps and those that it breaks, by
// id, the worst first.
func compared(before, after *trial) (helped, broken []string) {
	put := func(to *[]string, id string) {
		if !slices.Contains(*to, id) {
			*to = append(*to, id)
		}
	}
	order := slices.Clone(before.checks)
	slices.SortStableFunc(order, func(x, y rated) int { return cmp.Compare(y.ratio, x.ratio) })
	for _, c := range order {
		if !held(c.ratio) && better(after.ratioAt(c.slot), c.ratio) {
			put(&helped, c.id)
		}
	}
	for _, c := range after.checks {
		old := before.ratioAt(c.slot)
		if !known(c.ratio) && known(old) || c.ratio > 1 && held(old) {
			put(&broken, c.id)
		}
	}
	return helped, broken
}

// open counts what is left to be mended: checks beyond limits, and those that
// could not be made.
func (s Score) open() int { return s.Beyond + s.Missing }

// asGood tells whether an assessment leaves no more open than another, nor more
// that could not be made.
func (s Score) asGood(as Score) bool { return s.Missing <= as.Missing && s.open() <= as.open() }

// gain is how much better an assessment is than another: checks mended, and a
// tenth of the excess that is gone.
func gain(before, after Score) float64 {
	return float64(before.open()-after.open()) + (before.Excess-after.Excess)/mostExcess
}

// rank sorts remedies: those with nothing left open first, those that leave more
// unmade than before last, then by gain per what is added, as tonnes on top of one tonne for the trouble; the price
// stands in for tonnes where everything that is added is priced.
func rank(ms []Remedy) {
	priced := !slices.ContainsFunc(ms, func(m Remedy) bool { return math.IsNaN(m.Adds.Price) })
	most := 0.0
	for _, m := range ms {
		most = math.Max(most, m.Adds.Price)
	}
	effort := func(m Remedy) float64 {
		if priced && most > 0 {
			return 1 + 10*math.Max(0, m.Adds.Price)/most
		}
		return 1 + math.Max(0, m.Adds.Mass)
	}
	class := func(m Remedy) int {
		switch {
		case m.After.open() == 0:
			return 0
		case m.After.Missing > m.Before.Missing:
			return 2
		}
		return 1
	}
	slices.SortStableFunc(ms, func(x, y Remedy) int {
		return cmp.Or(cmp.Compare(class(x), class(y)), cmp.Compare(gain(y.Before, y.After)/effort(y), gain(x.Before, x.After)/effort(x)))
	})
}

// hollowBars are the hollow sections of the table that are worth choosing from:
// each stronger than those before it, and none both heavier and weaker than
// another.
func hollowBars(t *tables.Set) []tables.Bar {
	type sized struct {
		row     tables.Bar
		area, z float64
	}
	var all []sized
	for _, id := range t.BarIDs() {
		row, _ := t.Bar(id)
		if row.Shape != "shs" && row.Shape != "rhs" {
			continue
		}
		b, err := steel.BarProps(row)
		if err != nil {
			continue // such a bar cannot be checked either
		}
		all = append(all, sized{row, b.Area, b.Zx})
	}
	slices.SortStableFunc(all, func(x, y sized) int { return cmp.Or(cmp.Compare(x.area, y.area), cmp.Compare(y.z, x.z)) })
	var out []tables.Bar
	most := 0.0
	for _, s := range all {
		if s.z > most {
			out, most = append(out, s.row), s.z
		}
	}
	return out
}
