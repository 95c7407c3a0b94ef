package geom

import (
	"math"
	"slices"
)

// SplitByRegion parts a chain into the stretches inside r, edges included, and
// those outside, each in order along the chain: a stratum line is drawn outside
// the box only. Stretches shorter than TolLength go with their neighbour.
// Pieces that are not finite are left out.
func SplitByRegion(line Polyline, r Region) (inside, outside []Polyline) {
	var run Polyline
	var runIn bool
	flush := func() {
		switch {
		case len(run) < 2:
		case runIn:
			inside = append(inside, dropCollinear(run))
		default:
			outside = append(outside, dropCollinear(run))
		}
		run = nil
	}
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if !FiniteVec(a) || !FiniteVec(b) {
			flush()
			continue
		}
		ts := cutsBy(a, b, r)
		for k := 1; k < len(ts); k++ {
			p, q := lerp(a, b, ts[k-1]), lerp(a, b, ts[k])
			if in := r.Contains(lerp(p, q, 0.5)); len(run) == 0 || in != runIn {
				flush()
				run, runIn = Polyline{p}, in
			}
			run = append(run, q)
		}
	}
	flush()
	return inside, outside
}

// cutsBy are the parameters, from 0 to 1, at which the edges of r meet ab.
func cutsBy(a, b Vec, r Region) []float64 {
	ts := []float64{0, 1}
	for _, p := range r {
		for _, ring := range p.Rings() {
			for i := range ring {
				ts = appendHits(ts, a, b, ring[i], ring[(i+1)%len(ring)])
			}
		}
	}
	slices.Sort(ts)
	l := dist(a, b)
	return slices.CompactFunc(ts, func(s, t float64) bool { return math.Abs(t-s)*l <= TolLength })
}
