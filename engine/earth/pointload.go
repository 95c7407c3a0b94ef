package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// PointLoad is a point load, kN, x away from a wall that reaches h below it,
// looked at where the plan angle at the load between the wall's normal and the
// line of sight is t; t = 0 is the nearest line (Caltrans 5-1-5 to 5-1-7,
// second-hand). The pressure falls off with cos2(1.1 t) and is nothing where
// 1.1 t has reached a right angle. A load close to the wall therefore fades
// quickly aside: look at the lines opposite each load.
func PointLoad(load, x, h, t float64) (WallLoad, error) {
	err := limit.First(pointInput(load, x, h), limit.Within("t", t, -math.Pi/2, math.Pi/2, quantity.Angle))
	if err != nil {
		return nil, err
	}
	m := x / h
	c := load / (h * h) * aside(t)
	if m <= nearLoad+slack {
		return below(func(z float64) float64 { return 0.28 * c * sq(z/h) / cube(0.16+sq(z/h)) }), nil
	}
	return below(func(z float64) float64 { return 1.77 * c * sq(m*z/h) / cube(m*m+sq(z/h)) }), nil
}

// aside is the share of the pressure on the nearest line that acts at a plan
// angle t.
func aside(t float64) float64 {
	if math.Abs(1.1*t) >= math.Pi/2 {
		return 0
	}
	return sq(math.Cos(1.1 * t))
}

// PointThrust is the thrust of PointLoad on the nearest line per m of wall,
// kN/m, and its height above the foot, by exact integration.
func PointThrust(load, x, h float64) (thrust, arm float64, err error) {
	if err := pointInput(load, x, h); err != nil {
		return 0, 0, err
	}
	a, c := nearLoad, 0.28
	if m := x / h; m > nearLoad+slack {
		a, c = m, 1.77*m*m
	}
	r := 1 + a*a
	zero := -1/(4*r*r) + 1/(8*a*a*r) + math.Atan(1/a)/(8*a*a*a)
	if a > nearSum {
		zero = farSum(a, 3)
	}
	one := 1 / (4 * a * a * r * r)
	return c * load / h * zero, h * (1 - one/zero), nil
}

func pointInput(load, x, h float64) error {
	return limit.First(
		limit.AtLeast("load", load, 0, quantity.Force),
		limit.AtLeast("x", x, 0, quantity.Length),
		limit.Positive("h", h, quantity.Length))
}

func cube(x float64) float64 { return x * x * x }

// PlanLoad is one wheel: its load, its distance from the wall and its place
// along the wall.
type PlanLoad struct {
	P float64 // kN
	X float64 // from the wall, m
	Y float64 // along the wall, m
}

// WheelLoads is the pressure of wheels on a wall that reaches h below them, on
// the line at place y along the wall: the sum of their PointLoads.
func WheelLoads(wheels []PlanLoad, y, h float64) (WallLoad, error) {
	if err := limit.Finite("y", y, quantity.Length); err != nil {
		return nil, err
	}
	loads := make([]WallLoad, 0, len(wheels))
	for _, w := range wheels {
		if err := limit.Finite("wheel.y", w.Y, quantity.Length); err != nil {
			return nil, err
		}
		p, err := PointLoad(w.P, w.X, h, math.Atan2(w.Y-y, w.X))
		if err != nil {
			return nil, limit.In("wheel", err)
		}
		loads = append(loads, p)
	}
	return func(z float64) float64 {
		var s float64
		for _, p := range loads {
			s += p(z)
		}
		return s
	}, nil
}
