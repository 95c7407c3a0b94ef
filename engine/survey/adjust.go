package survey

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
)

// Misclosure is how far the last level of the book lies above the level that
// the point is known to have, m.
func (b *Book) Misclosure(known float64) float64 {
	return b.Rows[len(b.Rows)-1].Level - known
}

// Limit is one measure of how large a misclosure may be. It warns and does not
// forbid.
type Limit struct {
	Name   string
	Source string
	Metres float64
}

// Limits lists the usual measures for a run of length km and n set-ups.
func Limits(km float64, n int) []Limit {
	root := math.Sqrt(float64(n))
	return []Limit{
		{"third order, 12 mm √km", "quoted second-hand", 0.012 * math.Sqrt(km)},
		{"5 mm √set-ups", "quoted second-hand", 0.005 * root},
		{"builder's level, 10 mm √set-ups", "common practice", 0.010 * root},
	}
}

// AdjustBySetups spreads the misclosure evenly over the set-ups: the
// correction at change point i of n is −m i/n. Intermediate sights take the
// correction of the set-up from which they were read. The levels after
// correction are returned row by row.
func (b *Book) AdjustBySetups(known float64) []float64 {
	return b.adjust(known, func(setup int) float64 { return float64(setup) / float64(b.Setups) })
}

// AdjustByDistance spreads the misclosure over the length of the run: along
// holds the distance run at the end of each set-up, m, growing. The correction
// at change point i is −m L_i/L. Intermediate sights as in AdjustBySetups.
func (b *Book) AdjustByDistance(known float64, along []float64) ([]float64, error) {
	if len(along) != b.Setups {
		return nil, fmt.Errorf("%d distances for %d set-ups", len(along), b.Setups)
	}
	prev := 0.0
	for i, l := range along {
		if !(l > prev) || math.IsInf(l, 0) {
			return nil, bad(fmt.Sprintf("along[%d]", i), l, quantity.Length, "more than "+length(prev), "does not grow")
		}
		prev = l
	}
	return b.adjust(known, func(setup int) float64 { return along[setup-1] / along[len(along)-1] }), nil
}

func (b *Book) adjust(known float64, share func(setup int) float64) []float64 {
	m := b.Misclosure(known)
	out := make([]float64, len(b.Rows))
	for i, r := range b.Rows {
		out[i] = r.Level
		if r.Setup > 0 {
			out[i] -= m * share(r.Setup)
		}
	}
	return out
}
