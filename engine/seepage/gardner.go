package seepage

import (
	"math"

	"hillset/engine/quantity"
)

// GardnerSuction is the suction at a height over the water table, m, while a
// steady rain, m/s, seeps down through ground of a saturated permeability ks,
// m/s, that falls off as exp(-alpha·suction), alpha in 1/m (Gardner 1958, memory;
// derived again). It is a closed form to hold profiles against: exp(-alpha·s) =
// q/ks + (1 - q/ks)·exp(-alpha·z).
func GardnerSuction(rain, ks, alpha, height float64) (float64, error) {
	for _, err := range []error{
		quantity.Within("saturated permeability", ks, leastK, mostK, quantity.Permeability),
		quantity.Within("steady rain", rain, 0, ks, quantity.Rate),
		quantity.Range("alpha of the conductivity", alpha, 0.01, 100),
		quantity.Within("height over the water table", height, 0, mostHeight, quantity.Length),
	} {
		if err != nil {
			return 0, err
		}
	}
	q := rain / ks
	return -math.Log(q+(1-q)*math.Exp(-alpha*height)) / alpha, nil
}
