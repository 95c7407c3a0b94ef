package assess

import (
	"math"

	"hillset/engine/model"
)

// Exact by definition.
const (
	inch  = 0.0254     // m
	pound = 0.45359237 // kg
)

// measure is a round size in each of the two systems of units, both in the unit
// of the file.
type measure struct{ metric, us float64 }

// Steps of what is advised.
var (
	smallStep = measure{0.05, 2 * inch} // m: fill, cover, heights of bars
	largeStep = measure{0.1, 3 * inch}  // m: pads, beams, distances
)

// ruler is the system of units in which advice is round: that of the project.
// true is feet and inches.
type ruler bool

func rulerOf(p *model.Project) ruler { return p.Display.Units == model.US }

// of is a size as that system has it.
func (r ruler) of(x measure) float64 {
	if r {
		return x.us
	}
	return x.metric
}

// all are sizes as that system has them.
func (r ruler) all(xs []measure) []float64 {
	out := make([]float64, len(xs))
	for i, x := range xs {
		out[i] = r.of(x)
	}
	return out
}

// offRound is by what share of a step a value may miss a multiple of it and still
// counts as one: more than rounding, less than anybody measures.
const offRound = 1e-4

// above are the multiples of a step that are more than lo, up to hi.
func (r ruler) above(lo, hi float64, step measure) []float64 {
	s := r.of(step)
	var out []float64
	for k := math.Floor(lo/s+offRound) + 1; k*s <= hi+offRound*s; k++ {
		out = append(out, undusted(k*s))
	}
	return out
}

// from are the multiples of a step from lo on, both as the system has them.
func (r ruler) from(lo, hi, step measure) []float64 {
	return r.above(r.of(lo)-r.of(step)/2, r.of(hi), step)
}

// floor is the largest multiple of a step that is no more than v.
func (r ruler) floor(v float64, step measure) float64 {
	s := r.of(step)
	return undusted(math.Floor(v/s+offRound) * s)
}

// nearest is the multiple of a step nearest to v.
func (r ruler) nearest(v float64, step measure) float64 {
	s := r.of(step)
	return undusted(math.Round(v/s) * s)
}

// undusted is a value without the dust of rounding.
func undusted(v float64) float64 { return math.Round(v*1e6) / 1e6 }
