package assess

import (
	"cmp"
	"math"
	"slices"

	"hillset/engine/check"
)

// candidate is one check at one stage and station, not yet written out: only
// the governing one of each part is, since the working costs far more than the
// number.
type candidate struct {
	slot
	stage      string
	station    float64
	hasStation bool
	ratio      float64
	write      func() (check.Check, error)
}

// slot is what candidates compete for: a check of a part.
type slot struct{ id, part string }

// worstOf keeps the candidate with the largest ratio for each check and part;
// of equals the one offered first, so the earlier stage and station.
type worstOf struct {
	order []slot
	best  map[slot]candidate
}

func newWorst() *worstOf { return &worstOf{best: map[slot]candidate{}} }

func (w *worstOf) add(c candidate) {
	old, ok := w.best[c.slot]
	if !ok {
		w.order = append(w.order, c.slot)
	}
	if !ok || c.ratio > old.ratio*(1+tie) {
		w.best[c.slot] = c
	}
}

// tie is the share by which rounding may part ratios that are equal.
const tie = 1e-9

// checks writes the winners out, worst first.
func (w *worstOf) checks() []check.Check {
	out := make([]check.Check, 0, len(w.order))
	for _, s := range w.order {
		c := w.best[s]
		made, err := c.write()
		if err != nil {
			made = check.Unchecked(c.id, c.id, c.part, err.Error())
		}
		made.Part, made.Stage = c.part, c.stage
		made.Station, made.HasStation = c.station, c.hasStation
		out = append(out, made)
	}
	return out
}

// sortChecks puts the worst first and those not checked last.
func sortChecks(cs []check.Check) {
	slices.SortStableFunc(cs, func(a, b check.Check) int {
		ua, ub := a.Verdict() == check.NotChecked, b.Verdict() == check.NotChecked
		if ua != ub {
			if ua {
				return 1
			}
			return -1
		}
		if ua || a.Worst() == b.Worst() {
			return 0
		}
		return cmp.Compare(b.Worst(), a.Worst())
	})
}

// ratioOf is the larger of two ratios, where NaN is none.
func ratioOf(a, b float64) float64 {
	c := check.Check{Ratio: a, RatioLRFD: b}
	if r := c.Worst(); !math.IsNaN(r) {
		return r
	}
	return math.Inf(-1)
}
