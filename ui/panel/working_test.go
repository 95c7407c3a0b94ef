package panel

import (
	"math"
	"testing"

	"hillset/engine/check"
)

// The ratios of both ways of reckoning are named with their load cases.
func TestRatiosNameTheirLoadCases(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		c    check.Check
		want string
	}{
		{check.Check{Ratio: 0.8, RatioLRFD: 0.9, Case: "D + H + F", CaseLRFD: "0.9D + 1.6H"},
			"By allowable stress 0.80 in the load case D + H + F, by load and resistance factors 0.90 in the load case 0.9D + 1.6H; the larger decides."},
		{check.Check{Ratio: 0.8, RatioLRFD: 0.9}, "By allowable stress 0.80, by load and resistance factors 0.90; the larger decides."},
		{check.Check{Ratio: 0.8, RatioLRFD: nan, Case: "D + H"}, "In the load case D + H."},
		{check.Check{Ratio: 0.8, RatioLRFD: nan}, ""},
	} {
		if got := bothRatios(&c.c); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
