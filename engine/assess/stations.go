package assess

import (
	"math"
	"slices"

	"hillset/engine/model"
)

// maxStation is the largest distance between stations at which the walls and
// the roof are checked, m: about two pitches of the side sheet.
const maxStation = 0.61

// sameStation is how close two stations may lie before they are one, m.
const sameStation = 1e-3

// stations are the places along the depth of the box: evenly spaced, front and
// back included, and where a load of the site stands or ends, since what presses
// most is opposite a wheel or the middle of an area, and ends at its edge. Ribs
// are judged at every station as if one stood there.
func (j *job) stations() []float64 {
	n := int(math.Ceil(j.depth/maxStation - 1e-9))
	even := make([]float64, 0, n+1)
	for i := range n + 1 {
		even = append(even, j.frontX+j.depth*float64(i)/float64(n))
	}
	out := slices.Clone(even)
	for _, x := range j.loadedAt() {
		if !slices.ContainsFunc(out, func(o float64) bool { return math.Abs(o-x) < sameStation }) {
			out = append(out, x)
		}
	}
	slices.Sort(out)
	return out
}

// loadedAt are the places of wheels, brought to the ends of the box where they
// stand beyond them, and the ends and middles of area loads along the box.
func (j *job) loadedAt() []float64 {
	var out []float64
	for _, s := range j.p.Site.Surcharges {
		if s.Kind == model.AreaLoad {
			for _, x := range [...]float64{s.X1, (s.X1 + s.X2) / 2, s.X2} {
				if x > j.frontX && x < j.backX {
					out = append(out, x)
				}
			}
			continue
		}
		wheels, err := j.patches(s)
		if err != nil {
			continue // the stage that it acts in tells
		}
		for _, w := range wheels {
			out = append(out, math.Min(math.Max(w.X, j.frontX), j.backX))
		}
	}
	return out
}

// tributary is the length of box that each of some rising stations stands for:
// half of the way to its neighbours. They add up to the way from the first to
// the last.
func tributary(xs []float64) []float64 {
	out := make([]float64, len(xs))
	for i := 1; i < len(xs); i++ {
		half := (xs[i] - xs[i-1]) / 2
		out[i-1] += half
		out[i] += half
	}
	return out
}

// stationsOf are the stations of the roof loads of a stage.
func stationsOf(tops []topLoad) []float64 {
	out := make([]float64, len(tops))
	for i := range tops {
		out[i] = tops[i].load.Station
	}
	return out
}
