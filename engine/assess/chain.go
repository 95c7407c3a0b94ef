package assess

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// mostSteps bounds a chain.
const mostSteps = 15

// chain builds a remedy of several: again and again the check furthest beyond
// its limit is taken, every idea for it is tried on what has been reached, and
// the best is kept, until nothing is left open or nothing helps. In the end
// steps without which the end is as good are dropped, and heavy ones are sized
// anew beside the others. False where there are not two steps.
func (a *adviser) chain(base *state) (Remedy, bool, error) {
	done, err := a.climb(base)
	if err != nil {
		return Remedy{}, false, err
	}
	if done, err = a.pruned(base, done); err != nil {
		return Remedy{}, false, err
	}
	if done, err = a.refitted(base, done); err != nil || len(done) < 2 {
		return Remedy{}, false, err
	}
	return a.joined(base, done)
}

// climb takes step after step from a state. What was given up is tried once
// more when everything else is done, as it may be within reach by then.
func (a *adviser) climb(base *state) ([]outcome, error) {
	var done []outcome
	now := *base
	stuck, again := map[slot]bool{}, true
	for len(done) < mostSteps {
		worst, ok := furthest(&now.tr, stuck)
		if !ok {
			if !again || len(stuck) == 0 {
				break
			}
			again = false
			clear(stuck)
			continue
		}
		next, err := a.next(&now, worst)
		if err != nil {
			return nil, err
		}
		if next == nil {
			stuck[worst] = true
			continue
		}
		done = append(done, *next)
		now = next.state
	}
	return done, nil
}

// furthest is the check furthest beyond its limit that is not given up yet; one
// that could not be made comes last.
func furthest(tr *trial, stuck map[slot]bool) (slot, bool) {
	var out slot
	most, found := math.Inf(-1), false
	for _, s := range wrong(tr) {
		r := tr.ratioAt(s)
		if !known(r) {
			r = 0
		}
		if !stuck[s] && r > most {
			out, most, found = s, r, true
		}
	}
	return out, found
}

// next is the best of the outcomes of all ideas for a check, nil where none is
// better than what there is.
func (a *adviser) next(now *state, c slot) (*outcome, error) {
	found, err := a.bestOf(now, c, false)
	if err == nil && (len(found) == 0 || !held(found[0].tr.ratioAt(c))) {
		var more []outcome
		more, err = a.bestOf(now, c, true)
		found = best(append(found, more...))
	}
	if err != nil {
		return nil, err
	}
	if len(found) == 0 || !found[0].tr.better(&now.tr) {
		return nil, nil
	}
	return &found[0], nil
}

// bestOf is the best outcome for a check of the ideas tried at once, or of those
// set aside.
func (a *adviser) bestOf(now *state, c slot, aside bool) ([]outcome, error) {
	var asked []int
	for i := range ideas {
		if ideas[i].aside == aside && ideas[i].helps(a, now, c) {
			asked = append(asked, i)
		}
	}
	sets, err := abreast(len(asked), func(k int) ([]outcome, error) { return a.tryIdea(asked[k], now) })
	return best(slices.Concat(sets...)), err
}

// pruned leaves out steps, from the first on, without which the end is as good.
func (a *adviser) pruned(base *state, done []outcome) ([]outcome, error) {
	if len(done) == 0 {
		return nil, nil
	}
	end := done[len(done)-1].tr
	for i := 0; i < len(done); {
		without := slices.Delete(slices.Clone(done), i, i+1)
		o, err := a.on(base.p, change{apply: applyAll(without)})
		if err != nil {
			return nil, err
		}
		if o.tr.why != "" || end.better(&o.tr) {
			i++
			continue
		}
		done, end = without, o.tr
	}
	return done, nil
}

// refitted sizes the steps that weigh much anew, each on all the others, and
// takes what weighs less where the end is as good.
func (a *adviser) refitted(base *state, done []outcome) ([]outcome, error) {
	for i := range done {
		if !ideas[done[i].idea].heavy {
			continue
		}
		last, err := a.on(base.p, change{apply: applyAll(done)})
		if err != nil {
			return nil, err
		}
		without := slices.Delete(slices.Clone(done), i, i+1)
		rest, err := a.on(base.p, change{apply: applyAll(without)})
		if err != nil {
			return nil, err
		}
		tried, err := a.tryIdea(done[i].idea, &rest.state)
		if err != nil {
			return nil, err
		}
		found := best(a.lightest(tried))
		if len(found) == 0 || last.tr.better(&found[0].tr) || a.mass(found[0].p) >= a.mass(last.p) {
			continue
		}
		done = append(without, found[0])
	}
	return done, nil
}

// applyAll makes the changes one after the other.
func applyAll(done []outcome) func(*model.Project) {
	return func(p *model.Project) {
		for _, o := range done {
			o.apply(p)
		}
	}
}

// joined writes the steps of a chain out as one remedy, each tried on those
// before it.
func (a *adviser) joined(base *state, done []outcome) (Remedy, bool, error) {
	var text strings.Builder
	text.WriteString("All of:")
	var q []quantity.Q
	var steps []Step
	last := outcome{}
	for i := range done {
		o, err := a.on(base.p, change{apply: applyAll(done[:i+1])})
		if err != nil {
			return Remedy{}, false, err
		}
		steps = append(steps, Step{Text: done[i].text, Q: done[i].q, After: o.tr.score(), Apply: done[i].apply})
		fmt.Fprintf(&text, " %d. %s", i+1, shifted(done[i].text, len(q)))
		q = append(q, done[i].q...)
		last = o
	}
	last.change = change{id: "all", text: text.String(), q: q, apply: applyAll(done)}
	m, ok, err := a.remedy(base, last)
	m.Steps = steps
	return m, ok, err
}
