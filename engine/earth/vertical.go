package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// PointStress is the vertical stress of a point load, kN, at depth z and plan
// distance r, kPa: 3 P z3/(2 pi R5) (Boussinesq; UFC 3-220-10 4-3,
// second-hand). It has no value at the load itself, so z must be above zero.
func PointStress(load, r, z float64) (float64, error) {
	err := limit.First(
		limit.AtLeast("load", load, 0, quantity.Force),
		limit.Finite("r", r, quantity.Length),
		limit.Positive("z", z, quantity.Length))
	if err != nil {
		return 0, err
	}
	return 3 * load / (2 * math.Pi * z * z) / math.Pow(1+sq(r/z), 2.5), nil
}

// LineStress is the vertical stress of a line load, kN/m, at depth z and
// distance r, kPa: 2 p z3/(pi R4) (derived; a printed form with 4p is wrong
// against integration).
func LineStress(load, r, z float64) (float64, error) {
	err := limit.First(
		limit.AtLeast("load", load, 0, quantity.LineLoad),
		limit.Finite("r", r, quantity.Length),
		limit.Positive("z", z, quantity.Length))
	if err != nil {
		return 0, err
	}
	return 2 * load / (math.Pi * z) / sq(1+sq(r/z)), nil
}

// CornerInfluence is the vertical stress under a corner of a rectangle a by b
// at depth z, per unit of its load (Boussinesq, integrated; derived). At z = 0
// it is one quarter.
func CornerInfluence(a, b, z float64) (float64, error) {
	err := limit.First(
		limit.AtLeast("a", a, 0, quantity.Length),
		limit.AtLeast("b", b, 0, quantity.Length),
		limit.AtLeast("z", z, 0, quantity.Length))
	if err != nil {
		return 0, err
	}
	return corner(a, b, z), nil
}

// speck is a length, m, that nothing on a site is measured to; its square is
// still well within floating point.
const speck = 1e-9

// corner is CornerInfluence for any sign of a and b, which its own sign
// follows, so that corners can be added and taken away.
func corner(a, b, z float64) float64 {
	if math.Abs(a) < speck || math.Abs(b) < speck {
		return 0
	}
	if z < speck {
		z = 0 // the surface itself
	}
	r1, r2 := a*a+z*z, b*b+z*z
	r3 := math.Sqrt(a*a + b*b + z*z)
	angle := math.Atan2(math.Abs(a*b), z*r3)
	if a*b < 0 {
		angle = -angle
	}
	return (angle + a*b*z/r3*(1/r1+1/r2)) / (2 * math.Pi)
}

// Patch is a load on a rectangle in plan.
type Patch struct {
	P    float64 // kN
	X, Y float64 // middle, m
	A, B float64 // sides along x and y, m
}

// Stress is the vertical stress of the patch at a plan point and depth z, kPa,
// by superposition of corners. The patch must have sides and z be 0 or more:
// see Validate.
func (p Patch) Stress(x, y, z float64) float64 {
	x1, x2 := p.X-p.A/2-x, p.X+p.A/2-x
	y1, y2 := p.Y-p.B/2-y, p.Y+p.B/2-y
	return p.P / (p.A * p.B) * (corner(x2, y2, z) - corner(x1, y2, z) - corner(x2, y1, z) + corner(x1, y1, z))
}

// Validate says what is wrong with a patch.
func (p Patch) Validate() error {
	return limit.First(
		limit.AtLeast("p", p.P, 0, quantity.Force),
		limit.Finite("x", p.X, quantity.Length),
		limit.Finite("y", p.Y, quantity.Length),
		limit.Positive("a", p.A, quantity.Length),
		limit.Positive("b", p.B, quantity.Length))
}

// PatchStress is the vertical stress of patches together at a plan point and
// depth z, kPa.
func PatchStress(patches []Patch, x, y, z float64) (float64, error) {
	err := limit.First(
		limit.Finite("x", x, quantity.Length),
		limit.Finite("y", y, quantity.Length),
		limit.AtLeast("z", z, 0, quantity.Length),
		patchesValid(patches))
	if err != nil {
		return 0, err
	}
	return patchSum(patches, x, y, z), nil
}

func patchesValid(patches []Patch) error {
	for _, p := range patches {
		if err := p.Validate(); err != nil {
			return limit.In("patch", err)
		}
	}
	return nil
}

func patchSum(patches []Patch, x, y, z float64) float64 {
	var s float64
	for _, p := range patches {
		s += p.Stress(x, y, z)
	}
	return s
}

// SpreadTwoToOne is the mean stress of a load on a by b spread at two down to
// one out, P/((a+z)(b+z)) (memory).
func SpreadTwoToOne(load, a, b, z float64) (float64, error) {
	if err := limit.First(Patch{P: load, A: a, B: b}.Validate(), limit.AtLeast("z", z, 0, quantity.Length)); err != nil {
		return 0, err
	}
	return load / ((a + z) * (b + z)), nil
}
