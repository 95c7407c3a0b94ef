package water

import (
	"math"

	"hillset/engine/seepage"
)

// Case is the state that the drains are in.
type Case struct {
	// Back is the share of what a drain takes when it runs free that it can no
	// longer take: 0 runs free, 1 takes nothing.
	Back float64
	// Pumped holds back only the drain round the box, which a pump empties: the
	// interceptor runs on by gravity.
	Pumped bool
}

// Free is the case of drains that run free.
var Free = Case{}

// interceptor is the name that package section gives that drain.
const interceptor = "interceptor"

// holds tells whether a drain is held back.
func (c Case) holds(name string) bool { return !c.Pumped || name != interceptor }

// Throttling of a drain.
const (
	throttled  = 0.01  // of the flow aimed at: how nearly it is met
	backedLeap = 0.25  // m, first water tried in the pipe
	backedMost = 30.0  // m, above which none is tried
	backedFine = 0.001 // m, how closely the water in the pipe is found
)

// throttle finds the flow in which the drains of a section that are held back
// take together the rest of what they take in free: water stands in their
// pipes, in all as high, until no more comes. The level is closed in on by
// halving: what a drain takes falls with the water that stands in it.
func throttle(d *seepage.Domain, m *seepage.Mesh, free *seepage.Flow, c Case) (*seepage.Flow, error) {
	take := func(f *seepage.Flow) float64 {
		sum := 0.0
		for i, q := range f.Sum(math.Inf(1), math.Inf(-1)).Drains {
			if c.holds(d.Drains[i].Name) {
				sum += q
			}
		}
		return sum
	}
	aim := (1 - c.Back) * take(free)
	if aim <= 0 {
		return free, nil
	}
	at := func(h float64, from *seepage.Flow) (*seepage.Flow, error) {
		return m.WithEachDrain(func(r *seepage.Drain) {
			if c.holds(r.Name) {
				r.Backed = h
			}
		}).Solve(from)
	}
	lo, hi, last := 0.0, backedLeap, free
	for {
		f, err := at(hi, last)
		if err != nil {
			return nil, err
		}
		last = f
		if take(f) <= aim || hi >= backedMost {
			break
		}
		lo, hi = hi, 2*hi
	}
	for hi-lo > backedFine && math.Abs(take(last)-aim) > throttled*aim {
		mid := (lo + hi) / 2
		f, err := at(mid, last)
		if err != nil {
			return nil, err
		}
		if last = f; take(f) > aim {
			lo = mid
		} else {
			hi = mid
		}
	}
	return last, nil
}
