package geom

import "math"

// The package's tolerances. They are constants: nothing may be loosened from
// outside, and each use names which of them it means.
const (
	// TolLength (m) is the distance below which two computed positions are the
	// same point. Coordinates of a site stay under 10 km, where one unit in the
	// last place of a float64 is 2e-12 m; a chain of a few hundred operations
	// stays well below 1e-9 m, and nobody builds to a nanometre.
	TolLength = 1e-9

	// TolTouch (m) is how far one stratum line may pass another before it counts
	// as crossing. A micrometre forgives a level typed in feet and stored in
	// metres, and is a thousandth of the finest level ever read on a staff.
	TolTouch = 1e-6

	// SnapGrid (m) is the grid to which the clipping functions round every
	// coordinate before they start. It is the same micrometre: two edges that
	// should be shared then truly are, and an area of 100 m of edge changes by
	// at most 1e-4 m2 x 1/2.
	SnapGrid = 1e-6

	// TolRel is the relative difference below which two results of different
	// magnitude are equal: some thousand rounding errors of 1.1e-16.
	TolRel = 1e-12

	// MaxCoord (m) is the largest coordinate the clipping functions take. At
	// 1e6 m the snapped coordinates have 41 bits, so that cross products fit
	// 128-bit integers with room to spare.
	MaxCoord = 1e6
)

// AbsOrRel reports whether a and b differ by no more than abs, or by no more
// than rel times the larger magnitude. NaN equals nothing; infinities of the
// same sign are equal.
func AbsOrRel(a, b, abs, rel float64) bool {
	if a == b {
		return true
	}
	if math.IsInf(a, 0) || math.IsInf(b, 0) {
		return false
	}
	d := math.Abs(a - b)
	return d <= abs || d <= rel*math.Max(math.Abs(a), math.Abs(b))
}

// Finite reports whether every number given is neither NaN nor infinite.
func Finite(vs ...float64) bool {
	for _, v := range vs {
		if !finite(v) {
			return false
		}
	}
	return true
}

func finite(v float64) bool { return v-v == 0 }

// FiniteVec reports whether both coordinates are finite.
func FiniteVec(v Vec) bool { return finite(v[0]) && finite(v[1]) }

func allFinite(vs []Vec) bool {
	for _, v := range vs {
		if !FiniteVec(v) {
			return false
		}
	}
	return true
}

// Cross is the z component of a x b: positive when b lies anticlockwise of a.
func Cross(a, b Vec) float64 { return a[0]*b[1] - a[1]*b[0] }

// Unit is v scaled to length 1. ok is false, and the result zero, when v is
// shorter than TolLength or not finite (mgl64's Normalize gives NaN there).
func Unit(v Vec) (u Vec, ok bool) {
	l := math.Hypot(v[0], v[1])
	if !finite(l) || l < TolLength {
		return Vec{}, false
	}
	return Vec{v[0] / l, v[1] / l}, true
}

// LeftNormal is v turned by +90 degrees, of the same length.
func LeftNormal(v Vec) Vec { return Vec{-v[1], v[0]} }

func lerp(a, b Vec, t float64) Vec {
	return Vec{a[0] + (b[0]-a[0])*t, a[1] + (b[1]-a[1])*t}
}

func dist(a, b Vec) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }
