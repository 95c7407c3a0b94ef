package units

import (
	"math"
	"strconv"

	"hillset/engine/quantity"
)

// entryDigits is how many decimals of the shown unit a field for typing keeps:
// finer than anything that is measured, coarse enough to hide the rounding of
// a conversion.
const entryDigits = 6

// entryParts are the parts of an inch that a field shows as a fraction.
const entryParts = 16

// Entry shows a value for a field in which it can be changed: unlike Format it
// loses nothing, so that leaving the field untouched leaves the value as it is
// to 10⁻⁶ of the shown unit. Parse reads it back.
func Entry(val float64, kind quantity.Kind, sys System) string {
	if math.IsNaN(val) || math.IsInf(val, 0) {
		return ""
	}
	u := of(kind, sys)
	if kind == quantity.Length && sys == US {
		n := val / inch * entryParts
		if math.Abs(n-math.Round(n)) < 1e-5 && math.Abs(val) >= 0.75*inch {
			return feetInches(val, entryParts)
		}
	}
	v := (val - zeroOf(kind, sys)) / u.size
	s := strconv.FormatFloat(v, 'f', entryDigits, 64)
	if a := math.Abs(v); a != 0 && a < 1e-3 {
		s = strconv.FormatFloat(v, 'g', entryDigits, 64)
	} else {
		s = trim(s)
	}
	s = minus(s)
	if kind == quantity.Slope {
		return s + ":1"
	}
	return attach(s, u.name)
}
