package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// AreaLoad is a rectangle q in plan, from x1 to x2 away from the wall and from
// y1 to y2 along it, on a wall that reaches h below it, on the line at place y.
// It is the doubled elastic stress of the rectangle with Poisson's ratio 0.5
// (Holl 1940; derived, the limit of a long rectangle is StripLoad). It refuses
// a rectangle wider than 4h both ways: that is a wide surcharge.
func AreaLoad(q, x1, x2, y1, y2, y, h float64) (WallLoad, error) {
	err := limit.First(
		limit.AtLeast("q", q, 0, quantity.Pressure),
		limit.AtLeast("x1", x1, 0, quantity.Length),
		limit.AtLeast("x2", x2, x1, quantity.Length),
		limit.Finite("y1", y1, quantity.Length),
		limit.AtLeast("y2", y2, y1, quantity.Length),
		limit.Finite("y", y, quantity.Length),
		limit.Positive("h", h, quantity.Length))
	if err != nil {
		return nil, err
	}
	if err := notWide(math.Min(x2-x1, y2-y1), h); err != nil {
		return nil, err
	}
	return below(func(z float64) float64 {
		f := func(a, b float64) float64 { return hollSigmaX(a, b, z) }
		return 2 * q * (f(x2, y2-y) - f(x2, y1-y) - f(x1, y2-y) + f(x1, y1-y))
	}), nil
}

// hollSigmaX is the horizontal stress in the direction of a, per unit of load,
// under the corner of a rectangle a by b at depth z; it changes sign with a and
// with b, so that corners can be added and taken away.
func hollSigmaX(a, b, z float64) float64 {
	if math.Abs(a) < speck || math.Abs(b) < speck {
		return 0
	}
	r3 := math.Sqrt(a*a + b*b + z*z)
	angle := math.Atan2(math.Abs(a*b), z*r3)
	if a*b < 0 {
		angle = -angle
	}
	return (angle - a*b*z/((a*a+z*z)*r3)) / (2 * math.Pi)
}
