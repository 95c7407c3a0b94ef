package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Pressures of loads on the surface on a wall. All but UniformLoad are elastic
// solutions doubled because the wall does not give: they hold no coefficient
// of earth pressure, and are the same at rest and active.

// YieldShare is what may be used of the doubled elastic pressures on a wall
// that really yields to the active state (UFC 3-220-20 4-4.2, second-hand).
const YieldShare = 0.75

// nearLoad is the distance over height within which a line or point load
// presses as if it stood at that distance.
const nearLoad = 0.4

// wideStrip is the loaded width over height beyond which a strip counts as a
// wide surcharge. The strip formula tends to the full load, K = 1, for a wide
// load beside the wall; at this width it has passed 0.65 at the foot.
const wideStrip = 4.0

// farAway is the distance over height from which a strip presses in a triangle
// to one part in ten thousand.
const farAway = 100.0

// nearSum is the distance over height from which the closed sums of line and
// point loads lose figures and farSum serves in their place.
const nearSum = 10.0

// farSum is the integral of n2/(a2+n2)^q over n from 0 to 1 as a series in
// 1/a2, for a above nearSum.
func farSum(a float64, q int) float64 {
	const terms = 8 // each a hundredth of the last or less
	c, s := 1.0, 0.0
	for k := range terms {
		s += c / float64(2*k+3)
		c *= -float64(q+k) / float64(k+1) / (a * a)
	}
	return s * math.Pow(a, -2*float64(q))
}

// UniformLoad is a wide surcharge q: k q at any depth.
func UniformLoad(k, q float64) (WallLoad, error) {
	err := limit.First(limit.AtLeast("k", k, 0, quantity.None), limit.AtLeast("q", q, 0, quantity.Pressure))
	if err != nil {
		return nil, err
	}
	return below(func(float64) float64 { return k * q }), nil
}

// below makes nothing act above the load.
func below(p WallLoad) WallLoad {
	return func(z float64) float64 {
		if z < 0 {
			return 0
		}
		return p(z)
	}
}

// StripLoad is an endless strip q parallel to the wall from l1 to l2 away from
// it, on a wall that reaches h below it: (2q/pi)(B - sin B cos 2A) (Caltrans
// 5-1-2, second-hand). It refuses a strip wider than 4h: that is a wide
// surcharge and belongs into Column.Q.
func StripLoad(q, l1, l2, h float64) (WallLoad, error) {
	if err := stripInput(q, l1, l2, h); err != nil {
		return nil, err
	}
	return below(func(z float64) float64 {
		a1, a2 := math.Atan2(l1, z), math.Atan2(l2, z)
		b := a2 - a1
		return 2 * q / math.Pi * (b - math.Sin(b)*math.Cos(a1+a2))
	}), nil
}

// StripThrust is the thrust of StripLoad over the height h, kN/m, and its
// height above the foot, m: (2 q h/pi)(atan(l2/h) - atan(l1/h)), the exact
// integral. For no load the height is zero.
func StripThrust(q, l1, l2, h float64) (thrust, arm float64, err error) {
	if err := stripInput(q, l1, l2, h); err != nil {
		return 0, 0, err
	}
	if q == 0 || l1 == l2 {
		return 0, 0, nil
	}
	c := 2 * q / math.Pi
	thrust = c * h * math.Atan2((l2-l1)*h, h*h+l1*l2) // the difference of the angles
	if l1 > farAway*h {
		return thrust, h / 3, nil // a triangle; the sums below would lose their figures
	}
	// The thrust down to z, summed over z, is the moment about the foot.
	sum := func(l float64) float64 {
		a := math.Atan2(l, h)
		return (h*h*a + l*h - l*l*(math.Pi/2-a)) / 2
	}
	return thrust, c * (sum(l2) - sum(l1)) / thrust, nil
}

func stripInput(q, l1, l2, h float64) error {
	err := limit.First(
		limit.AtLeast("q", q, 0, quantity.Pressure),
		limit.AtLeast("l1", l1, 0, quantity.Length),
		limit.Positive("h", h, quantity.Length),
		limit.AtLeast("l2", l2, l1, quantity.Length))
	if err != nil {
		return err
	}
	return notWide(l2-l1, h)
}

func notWide(width, h float64) error {
	if width > wideStrip*h*(1+slack) {
		return &limit.Error{Field: "l2 - l1", Value: width, Lo: 0, Hi: wideStrip * h, Kind: quantity.Length,
			Why: "a wide surcharge presses with K q, not by the strip formula"}
	}
	return nil
}

// LineLoad is a line load of kN per m, x away from a wall that reaches h below
// it (Caltrans 5-1-3 and 5-1-4, second-hand).
func LineLoad(load, x, h float64) (WallLoad, error) {
	if err := lineInput(load, x, h); err != nil {
		return nil, err
	}
	m := x / h
	if m <= nearLoad+slack {
		return below(func(z float64) float64 { return load / h * 0.20 * (z / h) / sq(0.16+sq(z/h)) }), nil
	}
	return below(func(z float64) float64 { return 1.28 * load / h * m * m * (z / h) / sq(m*m+sq(z/h)) }), nil
}

// LineThrust is the thrust of LineLoad, kN/m, and its height above the foot,
// by exact integration: 0.64 load/(m2+1), or 0.54 load for m up to 0.4.
func LineThrust(load, x, h float64) (thrust, arm float64, err error) {
	if err := lineInput(load, x, h); err != nil {
		return 0, 0, err
	}
	m, c := x/h, 0.20
	a := nearLoad
	if m > nearLoad+slack {
		a, c = m, 1.28*m*m
	}
	zero := 0.5 / (a * a) / (a*a + 1)
	one := (math.Atan(1/a)/a - 1/(a*a+1)) / 2
	if a > nearSum {
		one = farSum(a, 2)
	}
	return c * load * zero, h * (1 - one/zero), nil
}

func lineInput(load, x, h float64) error {
	return limit.First(
		limit.AtLeast("load", load, 0, quantity.LineLoad),
		limit.AtLeast("x", x, 0, quantity.Length),
		limit.Positive("h", h, quantity.Length))
}

func sq(x float64) float64 { return x * x }
