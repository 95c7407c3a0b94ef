package survey

import (
	"fmt"
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Telescope holds the stadia constants. Ordinary is K = 100, C = 0.
type Telescope struct {
	K float64 // multiplying constant
	C float64 // additive constant, m
}

// Ordinary is the telescope with internal focusing.
var Ordinary = Telescope{K: 100}

// StadiaShot is one sight on an upright staff: the readings at the three
// hairs, m, and the angle of the middle one, rad.
type StadiaShot struct {
	Upper, Mid, Lower float64
	Angle             float64
}

// Reduce gives the horizontal distance D = K s cos²θ + C cos θ and the height
// of the middle hair over the axis, V = K s sin 2θ / 2 + C sin θ, for an
// intercept s on an upright staff. Errors name the field out of bounds.
func (t Telescope) Reduce(s, angle float64) (d, v float64, err error) {
	switch {
	case !(t.K > 0 && t.K <= 1000):
		err = bad("K", t.K, quantity.None, "above 0 to 1000", "is no multiplying constant")
	case !(t.C >= 0 && t.C <= 1):
		err = bad("C", t.C, quantity.Length, quantity.Between(0, 1, quantity.Length), "is no additive constant")
	case !(s > 0 && s <= MaxStaff):
		err = bad("intercept", s, quantity.Length, "above 0 to "+most(MaxStaff), "is no intercept on a staff")
	case !(math.Abs(angle) <= MaxAngle):
		err = bad("angle", angle, quantity.Angle, angles(), "is no angle of a sight")
	}
	if err != nil {
		return 0, 0, err
	}
	sin, cos := math.Sincos(angle)
	return t.K*s*cos*cos + t.C*cos, t.K*s*sin*cos + t.C*sin, nil
}

// hairTol is how far the middle hair may lie from the mean of the other two
// (m): two readings of a staff to the nearest 5 mm.
const hairTol = 0.01

// intercept checks the three readings against each other.
func (s StadiaShot) intercept() (float64, error) {
	for i, v := range []float64{s.Upper, s.Mid, s.Lower} {
		if !(v >= 0 && v <= MaxStaff) {
			return 0, bad([]string{"upper", "mid", "lower"}[i], v, quantity.Length, quantity.Between(0, MaxStaff, quantity.Length), "is no reading of a staff")
		}
	}
	if mean := (s.Upper + s.Lower) / 2; math.Abs(mean-s.Mid) > hairTol {
		return 0, bad("mid", s.Mid, quantity.Length, length(mean)+" ± "+length(hairTol), "is not half way between the other hairs")
	}
	return math.Abs(s.Upper - s.Lower), nil
}

// Points reduces sights from one set-up at start, with the axis eye m above
// the ground there: RL = RL0 + eye + V − mid. The start is the first point.
func (t Telescope) Points(start model.Vec, eye float64, shots []StadiaShot) ([]Point, error) {
	out := []Point{{X: start[0], Z: start[1]}}
	for i, s := range shots {
		gap, err := s.intercept()
		var d, v float64
		if err == nil {
			d, v, err = t.Reduce(gap, s.Angle)
		}
		if err != nil {
			return nil, fmt.Errorf("sight %d: %w", i+1, err)
		}
		out = append(out, Point{X: start[0] + d, Z: start[1] + eye + v - s.Mid})
	}
	return out, nil
}
