package quantity

import (
	"errors"
	"fmt"
)

// ErrRange is wrapped by every error about a value outside the range in which
// a method holds.
var ErrRange = errors.New("out of range")

// Range returns nil when lo <= v <= hi, and otherwise an error that names the
// field, its value and the allowed range, all in SI units. NaN never passes;
// infinite bounds leave a side open to every finite value.
func Range(field string, v, lo, hi float64) error {
	if v >= lo && v <= hi && v-v == 0 { // v-v is NaN for an infinite v
		return nil
	}
	return fmt.Errorf("%w: %s = %.4g, allowed %.4g to %.4g", ErrRange, field, v, lo, hi)
}

// Within is Range for a value of a kind: the error holds value and range as Text,
// to be written in the reader's units.
func Within(field string, v, lo, hi float64, kind Kind) error {
	if v >= lo && v <= hi && v-v == 0 {
		return nil
	}
	return fmt.Errorf("%w: %s = %s, allowed %s", ErrRange, field, Typed.Text(v, kind), Between(lo, hi, kind))
}
