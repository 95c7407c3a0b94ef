// Package slope judges whether a hillside, a cut or a fill stays put: limit
// equilibrium of what may slide, along a slope without end, a plane, a circle
// or any given line, and the search for the circle along which it slides first.
//
// Lengths are in m, forces in kN and weights in kN/m3 per metre of section,
// stresses in kPa, angles in radians; x to the right, z up. The mass slides to
// the left, down a slope that rises to the right; Ground.Mirror turns the
// other way round. A factor of safety divides c' and tan phi' alike.
//
// Limits: plane strain, so nothing is gained at the ends of a slide; water is
// what the pore pressures say, and water that stands on the ground neither
// weighs nor props; what is above the water table has no suction; the search
// finds circles only, so a thin weak seam may slide at less.
package slope

import (
	"math"

	"hillset/engine/earth"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

const gammaW = earth.GammaW // kN/m3

// Bounds of what any soil is, for refusals.
const (
	heaviest  = 60.0          // kN/m3
	strongest = 1e5           // kPa
	rightUp   = math.Pi / 2   // rad
	roughest  = 89 * deg      // rad
	deg       = math.Pi / 180 // rad
)

func angle(field string, v, hi float64) error {
	return limit.Within(field, v, 0, hi, quantity.Angle)
}

// factorOf is what resists over what drives: infinite where nothing drives.
func factorOf(resists, drives float64) float64 {
	if drives <= 0 {
		return math.Inf(1)
	}
	return resists / drives
}
