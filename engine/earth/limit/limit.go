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

// Error names the field, its value and the range, as quantity.Text.
func (e *Error) Error() string {
	s := fmt.Sprintf("%s = %s is outside %s", e.Field, quantity.Typed.Text(e.Value, e.Kind), e.Range())
	if e.Why != "" {
		s += ": " + e.Why
	}
	return s
}

// Range is the range allowed, in words.
func (e *Error) Range() string {
	switch {
	case math.IsInf(e.Lo, -1) && math.IsInf(e.Hi, 1):
		return "the finite numbers"
	case math.IsInf(e.Hi, 1):
		return quantity.Ceil.Text(e.Lo, e.Kind) + " or more"
	case math.IsInf(e.Lo, -1):
		return quantity.Floor.Text(e.Hi, e.Kind) + " or less"
	}
	return quantity.Between(e.Lo, e.Hi, e.Kind)
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
