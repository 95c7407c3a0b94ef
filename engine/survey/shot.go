// Package survey turns what is measured on the slope into a ground line: rows
// of distance and level, slope distances with angles, stadia readings and the
// level book. Lengths are in m, angles in radians, positive uphill. Formulas
// are those of the ordinary textbooks of surveying; cases LV-01 to LV-05 of
// references/site.md check them.
package survey

import (
	"fmt"
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Bounds of what is taken for a measurement and not for a slip of the pen.
const (
	MaxSight = 1000.0             // m, longest tape or sight
	MaxAngle = 89 * math.Pi / 180 // steepest sight; beyond it the distance is lost in the cosine
	MaxStaff = 10.0               // m, longest staff
)

// bad makes the problem of one value.
func bad(field string, v float64, kind quantity.Kind, allowed, text string) error {
	return model.Problem{Field: field, Value: quantity.Typed.Text(v, kind), Allowed: allowed, Text: text, Hard: true}
}

// length writes a length of a message, m.
func length(v float64) string { return quantity.Typed.Text(v, quantity.Length) }

// most writes the upper end of the allowed lengths, m.
func most(v float64) string { return quantity.Floor.Text(v, quantity.Length) }

// angles writes the angles that are allowed for a sight.
func angles() string { return quantity.Between(-MaxAngle, MaxAngle, quantity.Angle) }

// Shot is one measurement along the line of sight.
type Shot struct {
	Slope float64 // m along the line
	Angle float64 // rad above the horizontal; negative downhill
}

// GradeAngle is the angle of a rise per run: θ = atan p. Percentages and
// degrees do not add, so a grade is turned into its angle before use.
func GradeAngle(rise float64) float64 { return math.Atan(rise) }

// Reduce gives the horizontal and vertical parts, H = S cos θ and V = S sin θ.
// A distance of 0 or less or over MaxSight, an angle beyond ±MaxAngle and NaN
// are errors that name the field.
func (s Shot) Reduce() (h, v float64, err error) {
	if !(s.Slope > 0 && s.Slope <= MaxSight) {
		return 0, 0, bad("slope_distance", s.Slope, quantity.Length, "above 0 to "+most(MaxSight), "is no distance of a shot")
	}
	if !(math.Abs(s.Angle) <= MaxAngle) {
		return 0, 0, bad("angle", s.Angle, quantity.Angle, angles(), "is no angle of a shot")
	}
	return s.Slope * math.Cos(s.Angle), s.Slope * math.Sin(s.Angle), nil
}

// Sigma is what an error of the angle (rad) does to the two parts of a shot:
// σ_H = S sin θ σ_θ and σ_V = S cos θ σ_θ, both positive.
func (s Shot) Sigma(angle float64) (h, v float64) {
	return math.Abs(s.Slope * math.Sin(s.Angle) * angle), math.Abs(s.Slope * math.Cos(s.Angle) * angle)
}

// Chain lays shots end to end from a start: each begins where the one before
// it ended, and all lead into the hill. The result has one point more than
// there are shots. An error names the shot, from 1.
func Chain(start model.Vec, shots []Shot) ([]Point, error) {
	at := start
	out := []Point{{X: at[0], Z: at[1]}}
	for i, s := range shots {
		h, v, err := s.Reduce()
		if err != nil {
			return nil, fmt.Errorf("shot %d: %w", i+1, err)
		}
		at = model.Vec{at[0] + h, at[1] + v}
		out = append(out, Point{X: at[0], Z: at[1]})
	}
	return out, nil
}

// Fan takes all shots from one place. eye is the height of the instrument over
// the start and target that of the mark sighted over the ground, m. The result
// holds the start and the points in the order of the shots.
func Fan(start model.Vec, eye, target float64, shots []Shot) ([]Point, error) {
	out := []Point{{X: start[0], Z: start[1]}}
	for i, s := range shots {
		h, v, err := s.Reduce()
		if err != nil {
			return nil, fmt.Errorf("shot %d: %w", i+1, err)
		}
		out = append(out, Point{X: start[0] + h, Z: start[1] + eye + v - target})
	}
	return out, nil
}

// Step is one level step of a broken chain: Run m along the level tape, Rise m
// of plumbed height, negative downhill.
type Step struct{ Run, Rise float64 }

// Steps adds up a broken chain: H = Σ runs, V = Σ plumbed heights.
func Steps(start model.Vec, steps []Step) ([]Point, error) {
	out := []Point{{X: start[0], Z: start[1]}}
	at := start
	for i, s := range steps {
		if !(s.Run > 0 && s.Run <= MaxSight) {
			return nil, fmt.Errorf("step %d: %w", i+1, bad("run", s.Run, quantity.Length, "above 0 to "+most(MaxSight), "is no run of a step"))
		}
		if !(math.Abs(s.Rise) <= MaxStaff) {
			return nil, fmt.Errorf("step %d: %w", i+1, bad("rise", s.Rise, quantity.Length, quantity.Between(-MaxStaff, MaxStaff, quantity.Length), "is no rise of a step"))
		}
		at = model.Vec{at[0] + s.Run, at[1] + s.Rise}
		out = append(out, Point{X: at[0], Z: at[1]})
	}
	return out, nil
}
