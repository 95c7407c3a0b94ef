package bisect

import (
	"math"
	"testing"
)

func TestRising(t *testing.T) {
	for _, c := range []struct {
		name   string
		lo, hi float64
		f      func(float64) float64
		want   float64
	}{
		{"cube root", 0, 10, func(x float64) float64 { return x*x*x - 2 }, math.Cbrt(2)},
		{"cosine, falling taken the other way round", 0, 3, func(x float64) float64 { return -math.Cos(x) }, math.Pi / 2},
		{"below all", 1, 2, func(x float64) float64 { return x }, 1},
		{"above all", 1, 2, func(x float64) float64 { return x - 5 }, 2},
	} {
		if got := Rising(c.lo, c.hi, c.f); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
