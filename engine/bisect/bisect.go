// Package bisect finds where a function that rises passes zero.
package bisect

// steps shrink any interval of the program below rounding.
const steps = 80

// Rising is the x between lo and hi at which f, which grows with x, reaches zero;
// one of the ends where it does not do so between them.
func Rising(lo, hi float64, f func(float64) float64) float64 {
	for range steps {
		mid := (lo + hi) / 2
		if f(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}
