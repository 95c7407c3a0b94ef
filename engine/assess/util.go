package assess

import (
	"math"
	"slices"

	"hillset/engine/model"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// waleMargin is the least distance of a wale from the edge of a sheet at which
// it divides the span, m; nearer than that it only doubles the rail.
const waleMargin = 0.15

func profileOf(s tables.Sheet, t float64) (steel.Profile, error) { return steel.FromSheet(s, t) }

func sortedWales(in []model.Wale) []model.Wale {
	out := slices.Clone(in)
	slices.SortFunc(out, func(a, b model.Wale) int {
		switch {
		case a.Height < b.Height:
			return -1
		case a.Height > b.Height:
			return 1
		}
		return 0
	})
	return out
}

// clampTo is v brought between two places.
func clampTo(v, lo, hi float64) float64 { return math.Min(math.Max(v, lo), hi) }
