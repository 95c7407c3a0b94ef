// Package limit refuses values outside the range a formula holds for. Every
// refusal names the field, the value found and the range allowed.
package limit

import (
	"errors"
	"fmt"
	"math"

	"hillset/engine/quantity"
)

// Error is a value outside its range. Lo and Hi are the range allowed, in the
// SI unit of Kind; either may be infinite where there is no limit on that side.
type Error struct {
	Field  string
	Value  float64
	Lo, Hi float64
	Kind   quantity.Kind
	Why    string // reason for the limit; may be empty
}

// Error names the field, its value and the range in SI units.
func (e *Error) Error() string {
	s := fmt.Sprintf("%s = %.6g%s is outside %s", e.Field, e.Value, unit(e.Kind), e.Range())
	if e.Why != "" {
		s += ": " + e.Why
	}
	return s
}

// Range is the range allowed, in words.
func (e *Error) Range() string {
	u := unit(e.Kind)
	switch {
	case math.IsInf(e.Lo, -1) && math.IsInf(e.Hi, 1):
		return "the finite numbers"
	case math.IsInf(e.Hi, 1):
		return fmt.Sprintf("%.6g%s or more", e.Lo, u)
	case math.IsInf(e.Lo, -1):
		return fmt.Sprintf("%.6g%s or less", e.Hi, u)
	}
	return fmt.Sprintf("%.6g to %.6g%s", e.Lo, e.Hi, u)
}

func unit(k quantity.Kind) string {
	switch k {
	case quantity.Length, quantity.Thickness:
		return " m"
	case quantity.Area:
		return " m2"
	case quantity.Force:
		return " kN"
	case quantity.LineLoad:
		return " kN/m"
	case quantity.Moment:
		return " kNm"
	case quantity.LineMoment:
		return " kNm/m"
	case quantity.Pressure, quantity.Stress:
		return " kPa"
	case quantity.UnitWeight:
		return " kN/m3"
	case quantity.Angle:
		return " rad"
	case quantity.Flow:
		return " m3/s"
	case quantity.LineFlow:
		return " m2/s"
	case quantity.Velocity, quantity.Permeability, quantity.Rate:
		return " m/s"
	case quantity.Permittivity:
		return " 1/s"
	case quantity.Duration:
		return " s"
	case quantity.Power:
		return " W"
	case quantity.Energy:
		return " Wh"
	case quantity.Grain:
		return " mm"
	case quantity.Temperature:
		return " °C"
	case quantity.Warmth:
		return " K"
	case quantity.FrostIndex:
		return " °C·days"
	case quantity.Conductivity:
		return " W/mK"
	case quantity.Insulation:
		return " m2K/W"
	case quantity.AirFlow:
		return " m3/s"
	case quantity.VapourPressure:
		return " Pa"
	}
	return ""
}

// Sizes beyond which no length, force or pressure of a building site lies. The
// powers that the formulas take of a value between them stay within floating
// point, so that a result is never NaN.
const (
	huge = 1e12
	tiny = 1e-9
)

// Within refuses a value that is not finite or lies outside lo to hi, ends
// included.
func Within(field string, v, lo, hi float64, k quantity.Kind) error {
	if !finite(v) || v < lo || v > hi {
		return &Error{Field: field, Value: v, Lo: lo, Hi: hi, Kind: k}
	}
	return nil
}

// AtLeast refuses a value that is not finite or less than lo.
func AtLeast(field string, v, lo float64, k quantity.Kind) error {
	return Within(field, v, lo, math.Inf(1), k)
}

// Finite refuses NaN and the infinities.
func Finite(field string, v float64, k quantity.Kind) error {
	return Within(field, v, math.Inf(-1), math.Inf(1), k)
}

// Positive refuses a value that is not finite or not above zero by a margin
// that counts.
func Positive(field string, v float64, k quantity.Kind) error {
	if !finite(v) || v < tiny {
		return &Error{Field: field, Value: v, Lo: 0, Hi: math.Inf(1), Kind: k, Why: "must be above zero"}
	}
	return nil
}

// First is the first refusal of a list, nil when there is none.
func First(errs ...error) error {
	for _, e := range errs {
		if e != nil {
			return e
		}
	}
	return nil
}

// In puts the name of the whole before the field of a refusal, so that
// "phi" becomes "layers[2].phi". Other errors are wrapped.
func In(whole string, err error) error {
	if err == nil {
		return nil
	}
	var e *Error
	if errors.As(err, &e) {
		c := *e
		c.Field = whole + "." + e.Field
		return &c
	}
	return fmt.Errorf("%s: %w", whole, err)
}

// finite is false for NaN, the infinities and what is as good as infinite.
func finite(v float64) bool { return math.Abs(v) <= huge }
