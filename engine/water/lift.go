package water

import "math"

// Lift is the water that lifts the box.
type Lift struct {
	// Mean is how high it would rise above the underside, in the mean over the
	// floor, m: 0 where none lifts, NaN where it is not known.
	Mean float64
	// Along is how far behind the middle of the base it acts, towards the hill,
	// and Aside how far right of the middle, looking into the hill, m.
	Along, Aside float64
	// ByCross tells that the cross sections say so: the water comes from the
	// sides.
	ByCross bool
}

// Lift is the uplift by the long section, or by the cross sections together
// where those give more: the flow is not followed in space, and the higher of
// the two counts.
func (w *Wet) Lift() Lift {
	mean, _, at := w.Long.Under()
	out := Lift{Mean: mean, Along: at - w.Long.View.Box.Center()[0]}
	if len(w.Cross) == 0 {
		return out
	}
	ms, side := make([]float64, len(w.Cross)), 0.0
	xs, sum := make([]float64, len(w.Cross)), 0.0
	for i, c := range w.Cross {
		m, _, at := c.Under()
		ms[i], xs[i] = m, c.View.Station
		sum += m
		side += m * (at - c.View.Box.Center()[0])
	}
	if sum > 0 {
		out.Aside = side / sum
	}
	cross, along := profile(xs, ms)
	if cross > mean || math.IsNaN(cross) {
		out.Mean, out.ByCross = cross, true
		if len(xs) > 1 {
			out.Along = along - (xs[0]+xs[len(xs)-1])/2
		}
	}
	if out.Mean == 0 {
		out.Along, out.Aside = 0, 0
	}
	return out
}

// profile is the mean of values at rising places, straight between them, and
// the place of their middle of mass.
func profile(xs, vs []float64) (mean, at float64) {
	if len(xs) == 1 {
		return vs[0], xs[0]
	}
	area, moment := 0.0, 0.0
	for i := range len(xs) - 1 {
		a, b, va, vb := xs[i], xs[i+1], vs[i], vs[i+1]
		area += (b - a) * (va + vb) / 2
		moment += (b - a) / 6 * (a*(2*va+vb) + b*(va+2*vb))
	}
	last := xs[len(xs)-1]
	if area == 0 {
		return 0, (xs[0] + last) / 2
	}
	return area / (last - xs[0]), moment / area
}
