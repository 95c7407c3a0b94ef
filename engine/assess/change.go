package assess

import (
	"cmp"
	"context"
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"sync"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// change is a change of the project with its words.
type change struct {
	id    string
	text  string // values as {0}, {1}
	q     []quantity.Q
	apply func(*model.Project)
}

// state is a project that was tried.
type state struct {
	p  *model.Project
	tr trial
}

// outcome is a change that was tried on a state.
type outcome struct {
	change
	state
	idea int // its place in ideas
}

// adviser tries changes.
type adviser struct {
	ctx  context.Context
	t    *tables.Set
	box  tables.Box
	bars []tables.Bar // hollow sections that may be built in, from the weakest
	rule ruler        // in whose units sizes are round

	// room keeps no more trials under way than there are processors.
	room chan struct{}
	// known are the trials of projects already tried, by their file.
	lock  sync.Mutex
	known map[string]trial
	// tried hears how many there are by now.
	tried func(n int)
}

// between is how many trials pass from one word of them to the next.
const between = 10

// try is the trial of a project, worked out once however often it comes up.
func (a *adviser) try(p *model.Project) (trial, error) {
	file, err := json.Marshal(p)
	if err != nil {
		return trial{}, err
	}
	a.lock.Lock()
	tr, ok := a.known[string(file)]
	a.lock.Unlock()
	if ok {
		return tr, nil
	}
	a.room <- struct{}{}
	tr, err = try(a.ctx, p, a.t)
	<-a.room
	if err != nil {
		return tr, err
	}
	a.lock.Lock()
	a.known[string(file)] = tr
	n := len(a.known)
	a.lock.Unlock()
	if a.tried != nil && n%between == 0 {
		a.tried(n)
	}
	return tr, nil
}

// on tries a change on a project.
func (a *adviser) on(p *model.Project, c change) (outcome, error) {
	q := p.Clone()
	c.apply(q)
	tr, err := a.try(q)
	return outcome{change: c, state: state{q, tr}}, err
}

// ratio is that of a check in a trial; 0 where no stage comes to it.
func (tr *trial) ratioAt(s slot) float64 {
	for _, c := range tr.checks {
		if c.slot == s {
			return c.ratio
		}
	}
	return 0
}

// failing are the checks that count and do not hold: beyond limits, or not made.
func (tr *trial) failing(counts func(slot) bool) []slot {
	var out []slot
	for _, c := range tr.checks {
		if !held(c.ratio) && counts(c.slot) {
			out = append(out, c.slot)
		}
	}
	return out
}

// heldOf are those of some checks that a trial brings within limits. One that
// it cannot make is not.
func (tr *trial) heldOf(of []slot) []slot {
	var out []slot
	for _, s := range of {
		if tr.why == "" && held(tr.ratioAt(s)) {
			out = append(out, s)
		}
	}
	return out
}

// least finds the smallest of rising values that brings within limits what the
// largest of them does of the checks given, and leaves no more checks open.
// Where even that brings none, it is the largest. Values that cannot be computed
// count as too small.
func (a *adviser) least(p *model.Project, values []float64, of []slot, with func(v float64) change) (outcome, error) {
	if len(values) == 0 || len(of) == 0 {
		return outcome{}, nil
	}
	best, err := a.largest(p, values, with)
	if err != nil || best.p == nil {
		return outcome{}, err
	}
	held, end := best.tr.heldOf(of), best.tr.score()
	if len(held) == 0 {
		return best.outcome, nil
	}
	lo, hi := -1, best.i
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		o, err := a.on(p, with(values[mid]))
		if err != nil {
			return o, err
		}
		if len(o.tr.heldOf(held)) == len(held) && o.tr.score().asGood(end) {
			hi, best.outcome = mid, o
		} else {
			lo = mid
		}
	}
	return best.outcome, nil
}

// placed is an outcome with the place of its value.
type placed struct {
	outcome
	i int
}

// largest is the largest value that can be computed at all, going down by
// halves; its project is nil where there is none.
func (a *adviser) largest(p *model.Project, values []float64, with func(v float64) change) (placed, error) {
	for i := len(values) - 1; i >= 0; i = i/2 - 1 + i%2 {
		o, err := a.on(p, with(values[i]))
		if err != nil || o.tr.why == "" {
			return placed{o, i}, err
		}
		if i == 0 {
			break
		}
	}
	return placed{}, nil
}

// steps are values from lo up to hi, a step apart and written without the dust
// of rounding.
func steps(lo, hi, step float64) []float64 {
	var out []float64
	for i := 0; ; i++ {
		v := math.Round((lo+float64(i)*step)/step*1e6) / 1e6 * step
		v = math.Round(v*1e6) / 1e6
		if v > hi+step*1e-6 {
			return out
		}
		out = append(out, v)
	}
}

// abreast runs n things on as many processors as there are, each for its own
// place, so that their order does not change the outcome.
func abreast[T any](n int, do func(i int) (T, error)) ([]T, error) {
	out, errs := make([]T, n), make([]error, n)
	var wg sync.WaitGroup
	for i := range n {
		wg.Add(1)
		go func() {
			defer wg.Done()
			out[i], errs[i] = do(i)
		}()
	}
	wg.Wait()
	if i := slices.IndexFunc(errs, func(err error) bool { return err != nil }); i >= 0 {
		return nil, errs[i]
	}
	return out, nil
}

// both is one change after the other.
func both(x, y change) change {
	return change{id: x.id + "+" + y.id, text: x.text + " " + shifted(y.text, len(x.q)), q: slices.Concat(x.q, y.q),
		apply: func(p *model.Project) { x.apply(p); y.apply(p) }}
}

// shifted renumbers the values of a text, for it to follow another.
func shifted(text string, by int) string {
	if by == 0 {
		return text
	}
	return quantity.Replace(text, func(inside string) (string, bool) {
		n, err := strconv.Atoi(inside)
		return "{" + strconv.Itoa(n+by) + "}", err == nil
	})
}

// lightest sorts outcomes by what is added to the project in mass, so that the
// best of equals is the lightest.
func (a *adviser) lightest(tried []outcome) []outcome {
	slices.SortStableFunc(tried, func(x, y outcome) int { return cmp.Compare(a.mass(x.p), a.mass(y.p)) })
	return tried
}

// mass is that of all that is bought for a project, t; infinite for none.
func (a *adviser) mass(p *model.Project) float64 {
	if p == nil {
		return math.Inf(1)
	}
	t, err := TakeoffOf(p, a.t)
	if err != nil {
		return math.Inf(1)
	}
	return t.Mass
}

// best is the outcome that leaves least to be mended, none where nothing could
// be computed. Of equals it is the first.
func best(tried []outcome) []outcome {
	var out []outcome
	for _, o := range tried {
		if o.p != nil && o.tr.why == "" && (len(out) == 0 || o.tr.better(&out[0].tr)) {
			out = []outcome{o}
		}
	}
	return out
}

// better tells whether a trial leaves fewer checks unmade than another, or as
// many and fewer beyond limits, or as many and nearer to their limits. What
// cannot be checked is never made good by what is mended elsewhere.
func (tr *trial) better(than *trial) bool {
	x, y := tr.score(), than.score()
	switch {
	case x.Missing != y.Missing:
		return x.Missing < y.Missing
	case x.Beyond != y.Beyond:
		return x.Beyond < y.Beyond
	}
	return tr.far() < than.far()-1e-6
}

// far is how far a trial is from its limits, all checks together.
func (tr *trial) far() float64 {
	sum := 0.0
	for _, c := range tr.checks {
		sum += far(c.ratio)
	}
	return sum
}
