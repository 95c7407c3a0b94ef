package assess

import (
	"math"
	"slices"
)

// solve finds the limit of the checks that count. Those that the value does
// not touch must hold as well: where one does not, there is no answer, and the
// limit of the others alone is given beside it.
func (w *walk) solve(counts func(rated) bool) (CurveAnswer, error) {
	a, err := w.limit(func(c rated) bool { return counts(c) && w.touched[c.slot] && !w.excused(c) })
	if err != nil {
		return a, err
	}
	for _, at := range w.tried {
		if at.tr.why != "" {
			continue
		}
		other, ok := at.tr.worst(func(c rated) bool { return counts(c) && known(c.ratio) && !w.touched[c.slot] })
		if ok && !held(other.ratio) {
			return CurveAnswer{Value: math.NaN(), Alone: a.Value, None: true, Governs: other.id, Part: other.part,
				Why: "it is beyond limits whatever this value is"}, nil
		}
		break // what the value does not touch is the same everywhere
	}
	return a, nil
}

// limit walks from the start towards harder values to the first beyond limits
// and halves that step: what is within again further on is of no use on site.
// Where the start is beyond, it walks to easier ones, to the first within.
func (w *walk) limit(counts func(rated) bool) (CurveAnswer, error) {
	within := func(i int) bool { return holds(&w.tried[i].tr, counts) }
	easy, step := 0, 1
	if w.q.nearest {
		easy, step = len(w.tried)-1, -1
	}
	inside := func(i int) bool { return i >= 0 && i < len(w.tried) }
	start := easy
	if i := slices.IndexFunc(w.tried, func(a triedAt) bool { return a.v == w.q.start }); i >= 0 {
		start = i
	}
	out := CurveAnswer{Value: math.NaN(), Alone: math.NaN()}
	if !within(start) {
		i := start
		for inside(i) && !within(i) {
			i -= step
		}
		if !inside(i) {
			out.None = true
			out.blame(&w.tried[start].tr, counts)
			return out, nil
		}
		return w.halve(out, w.tried[i].v, w.tried[i+step].v, counts)
	}
	i := start
	for inside(i) && within(i) {
		i += step
	}
	if !inside(i) {
		out.AtLeast, out.Value = true, w.tried[i-step].v
		return out, nil
	}
	return w.halve(out, w.tried[i-step].v, w.tried[i].v, counts)
}

// holds tells whether all checks that count are within limits. What could not
// be computed counts as beyond, as nobody can vouch for it.
func holds(tr *trial, counts func(rated) bool) bool {
	if tr.why != "" {
		return false
	}
	c, ok := tr.worst(counts)
	return !ok || held(c.ratio)
}

// excused tells a check that could not be made at the start of the walk either:
// that is told of the project as drawn, and the value does not change it.
func (w *walk) excused(c rated) bool { return !known(c.ratio) && w.unmade[c.slot] }

// excuse finds what could not be made at the start: the project as drawn, or
// else the first value that could be computed.
func (w *walk) excuse() {
	w.unmade = map[slot]bool{}
	i := slices.IndexFunc(w.tried, func(a triedAt) bool { return a.v == w.q.curve.Now && a.tr.why == "" })
	if i < 0 {
		i = slices.IndexFunc(w.tried, func(a triedAt) bool { return a.tr.why == "" })
	}
	if i < 0 {
		return
	}
	for _, c := range w.tried[i].tr.checks {
		if !known(c.ratio) {
			w.unmade[c.slot] = true
		}
	}
}

// blame names what sets the limit.
func (a *CurveAnswer) blame(tr *trial, counts func(rated) bool) {
	a.Governs, a.Part, a.Why = "", "", tr.why
	if c, ok := tr.worst(counts); tr.why == "" && ok {
		a.Governs, a.Part, a.Unmade = c.id, c.part, !known(c.ratio)
	}
}

// halve closes in on the limit between a value within and one beyond.
func (w *walk) halve(a CurveAnswer, good, bad float64, counts func(rated) bool) (CurveAnswer, error) {
	at := func(v float64) *trial {
		i := slices.IndexFunc(w.tried, func(x triedAt) bool { return x.v == v })
		return &w.tried[i].tr
	}
	for math.Abs(bad-good) > w.q.tol {
		mid := (good + bad) / 2
		tr, err := w.try(mid)
		if err != nil {
			return a, err
		}
		if holds(&tr, counts) {
			good = mid
		} else {
			bad = mid
		}
	}
	a.Value = good
	a.blame(at(bad), counts)
	return a, nil
}
