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

// whole is a candidate of the box as a whole at this stage, without a ratio yet.
func (sr *stageResult) whole(id, part string) candidate {
	return candidate{slot: slot{id, part}, stage: sr.st.ID}
}

// slot is what candidates compete for: a check of a part.
type slot struct{ id, part string }

// worstOf keeps one candidate for each check and part: one beyond limits before
// one that could not be checked, and that before one within, so that what was
// not checked is never hidden by something within; among those checked the one
// with the largest ratio, of equals the one offered first.
type worstOf struct {
	order []slot
	best  map[slot]*candidate
	book  bayBook // nil where nobody asks which bay it was
}

func newWorst() *worstOf { return &worstOf{best: map[slot]*candidate{}} }

// add takes a candidate in. It gives the one that is kept where this one governs
// so far, else nil: how its check is written may then be set in it, so that
// nothing is made ready to write what does not govern.
func (w *worstOf) add(c candidate) *candidate {
	if !known(c.ratio) {
		c.ratio = math.NaN() // told in one way only
	}
	w.book.see(&c)
	old := w.best[c.slot]
	if old == nil {
		old = &candidate{}
		w.order, w.best[c.slot] = append(w.order, c.slot), old
	} else if !worse(c.ratio, old.ratio) {
		return nil
	}
	*old = c
	return old
}

// missing offers a check that could not be made.
func (w *worstOf) missing(id, title, part, stage, why string) {
	w.add(candidate{slot: slot{id, part}, stage: stage, ratio: math.NaN(),
		write: func() (check.Check, error) { return check.Unchecked(id, title, part, why), nil }})
}

// checks writes the winners out, worst first.
func (w *worstOf) checks() []check.Check {
	out := make([]check.Check, 0, len(w.order))
	for _, s := range w.order {
		c := w.best[s]
		made, err := c.write()
		if err != nil {
			made = c.bare(err)
		}
		made.Part, made.Stage, made.Rule = c.part, c.stage, ruleIDs[c.id]
		// that of a wing is a place before the box, which no section cuts
		made.Station, made.HasStation = c.station, c.hasStation && !ofWing(c.id)
		out = append(out, made)
	}
	return out
}

// bare is a check whose working could not be written. A ratio that was found
// stays: only its working is missing.
func (c *candidate) bare(err error) check.Check {
	if !known(c.ratio) {
		return faulty(c.id, c.id, c.part, "", err)
	}
	return check.Check{ID: c.id, Title: c.id, Ratio: c.ratio, RatioLRFD: math.NaN(), Validity: "The working could not be written: " + err.Error()}
}

// sortChecks puts the worst first, then the rules that are met, and those not
// checked last.
func sortChecks(cs []check.Check) {
	group := func(c *check.Check) int {
		switch {
		case c.Verdict() == check.NotChecked:
			return 2
		case c.Met():
			return 1
		}
		return 0
	}
	slices.SortStableFunc(cs, func(a, b check.Check) int {
		g := group(&a)
		if o := group(&b); g != o || g == 2 {
			return cmp.Compare(g, o)
		}
		return cmp.Compare(b.Worst(), a.Worst())
	})
}

// ratioOf is the larger of two ratios, where NaN is none; NaN where both are.
func ratioOf(a, b float64) float64 {
	c := check.Check{Ratio: a, RatioLRFD: b}
	return c.Worst()
}
