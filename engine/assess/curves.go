package assess

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// Curves answers all questions by running the whole assessment over and over,
// each with one value changed and everything else as drawn. It stops with ctx.
// The outcome does not depend on the number of processors.
func Curves(ctx context.Context, r *Result, t *tables.Set) ([]Curve, error) {
	out := make([]Curve, 0, len(questionIDs))
	for _, id := range questionIDs {
		c, err := CurveOf(ctx, r, t, id)
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	return out, nil
}

// CurveOf answers one question, by the id of its curve. An error is returned
// when ctx is done and for an id that is none.
func CurveOf(ctx context.Context, r *Result, t *tables.Set, id string) (Curve, error) {
	if !slices.Contains(questionIDs, id) {
		return Curve{}, fmt.Errorf("curve = %q (allowed: %s)", id, strings.Join(questionIDs, ", "))
	}
	b, err := section.BoxOf(r.Project, t)
	if err != nil {
		return blocked(Curve{ID: id, Now: math.NaN()}, Words(err)), nil
	}
	if hard := model.FirstHard(r.Blocks); hard != nil {
		return blocked(Curve{ID: id, Now: math.NaN()}, hard.Error()), nil
	}
	q := ask(r, t, b, id)
	if q.why != "" {
		return blocked(q.curve, q.why), nil
	}
	w := walk{ctx: ctx, t: t, q: q}
	if err := w.tryAll(); err != nil {
		return Curve{}, err
	}
	if !slices.ContainsFunc(w.tried, func(a triedAt) bool { return a.tr.why == "" }) {
		return blocked(q.curve, w.tried[0].tr.why), nil
	}
	return w.curve()
}

// blocked is a question that cannot be asked.
func blocked(c Curve, why string) Curve {
	c.Answer = CurveAnswer{Value: math.NaN(), Alone: math.NaN(), Why: why}
	c.PartsOnly = c.Answer
	return c
}

// walk tries the values of a question.
type walk struct {
	ctx     context.Context
	t       *tables.Set
	q       question
	tried   []triedAt     // rising in v
	touched map[slot]bool // what the value changes
	unmade  map[slot]bool // what could not be checked at the start: see excuse
}

// triedAt is the trial of one value.
type triedAt struct {
	v  float64
	tr trial
}

// try tries one value and keeps it.
func (w *walk) try(v float64) (trial, error) {
	p, heavier := w.q.at(v)
	tr, err := tryKept(w.ctx, p, w.t, kept{heavier: heavier, field: w.q.field})
	if err != nil {
		return tr, err
	}
	i, _ := slices.BinarySearchFunc(w.tried, v, func(a triedAt, v float64) int {
		switch {
		case a.v < v:
			return -1
		case a.v > v:
			return 1
		}
		return 0
	})
	w.tried = slices.Insert(w.tried, i, triedAt{v, tr})
	return tr, nil
}

// tryAll tries the values that are laid out beforehand, and the drawn one.
func (w *walk) tryAll() error {
	vs := slices.Clone(w.q.values)
	if now := w.q.curve.Now; !math.IsNaN(now) {
		vs = append(vs, now)
	}
	slices.Sort(vs)
	for _, v := range slices.Compact(vs) {
		if _, err := w.try(v); err != nil {
			return err
		}
	}
	w.touch()
	w.excuse()
	return nil
}

// tieOfTouch is the share by which a ratio must change between two values for
// its check to count as touched: more than rounding.
const tieOfTouch = 1e-6

// touch finds the checks that the value changes. Where it changes none, all
// count: their level line is the answer.
func (w *walk) touch() {
	w.touched = map[slot]bool{}
	first := map[slot]float64{}
	seen := map[slot]int{}
	n := 0
	for _, a := range w.tried {
		if a.tr.why != "" {
			continue
		}
		n++
		for _, c := range a.tr.checks {
			seen[c.slot]++
			old, ok := first[c.slot]
			if !ok {
				first[c.slot] = c.ratio
			} else if !alikeRatio(old, c.ratio) {
				w.touched[c.slot] = true
			}
		}
	}
	for s, k := range seen {
		if k < n { // comes or goes with the value
			w.touched[s] = true
		}
	}
	if !slices.ContainsFunc(w.all(), func(c rated) bool { return c.ofBox() && w.touched[c.slot] }) {
		for s := range seen {
			w.touched[s] = true
		}
	}
}

// all are the checks of the values tried, one after the other.
func (w *walk) all() []rated {
	var out []rated
	for _, a := range w.tried {
		out = append(out, a.tr.checks...)
	}
	return out
}

// alikeRatio tells two ratios that are the same but for rounding.
func alikeRatio(a, b float64) bool {
	if math.IsNaN(a) || math.IsNaN(b) || math.IsInf(a, 0) || math.IsInf(b, 0) {
		return math.IsNaN(a) == math.IsNaN(b) && (math.IsNaN(a) || a == b)
	}
	return math.Abs(a-b) <= tieOfTouch*math.Max(math.Abs(a), math.Abs(b))
}

// CurvesCount says what counts in every curve and every answer.
const CurvesCount = "Only the checks that a value changes are in its curve; the answer also asks that the others of the box hold. The checks of the open cut and of the wing walls do not count."

// curve solves the answers and lists what was tried.
func (w *walk) curve() (Curve, error) {
	c := w.q.curve
	var err error
	if c.Answer, err = w.solve(rated.ofBox); err != nil {
		return c, err
	}
	if c.PartsOnly, err = w.solve(rated.ofPart); err != nil {
		return c, err
	}
	for _, a := range w.tried {
		p := CurvePoint{V: a.v, Ratio: math.NaN(), Parts: math.NaN(), Why: a.tr.why}
		if a.tr.why == "" {
			if g, ok := a.tr.worst(func(c rated) bool { return c.ofBox() && w.touched[c.slot] && !w.excused(c) }); ok {
				p.Ratio, p.Governs, p.Part = g.ratio, g.id, g.part
				if !known(g.ratio) {
					p.Why = "a check of \"" + g.part + "\" (" + g.id + ") cannot be made there"
				}
			}
			if g, ok := a.tr.worst(func(c rated) bool { return c.ofPart() && w.touched[c.slot] && !w.excused(c) }); ok {
				p.Parts, p.PartsGoverns, p.PartsOne = g.ratio, g.id, g.part
			}
		}
		c.Points = append(c.Points, p)
	}
	return c, nil
}
