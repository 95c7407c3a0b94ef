package climate

import (
	"math"

	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// Insulated is the depth of frost in the soil below a layer of insulation of
// resistance r, m2K/W, spread over the ground: two-layer Stefan (derived). It
// takes no heat from the ground below into account, so that it is an upper bound.
func Insulated(f Frost, r float64) (float64, error) {
	if err := limit.First(f.validate(), limit.Within("r", r, 0, 50, q.Insulation)); err != nil {
		return 0, err
	}
	kr := f.K * r
	return math.Sqrt(kr*kr+2*f.K*f.Surface*day/f.Fusion) - kr, nil
}

// InsulationFor is the resistance, m2K/W, below which frost goes no deeper than
// depth, m, by the same two-layer Stefan; 0 where it does not go so deep anyhow.
func InsulationFor(f Frost, depth float64) (float64, error) {
	if err := limit.First(f.validate(), limit.Within("depth", depth, 1e-3, 20, q.Length)); err != nil {
		return 0, err
	}
	return math.Max(0, f.Surface*day/(f.Fusion*depth)-depth/(2*f.K)), nil
}

// validate refuses what FindFrost did not make.
func (f *Frost) validate() error {
	return limit.First(
		limit.Within("surface", f.Surface, 0, 16000, q.FrostIndex),
		limit.Within("fusion", f.Fusion, 1e4, 1e10, q.Fusion),
		limit.Within("k", f.K, 0.05, 10, q.Conductivity))
}
