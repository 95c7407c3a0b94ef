package assess

import "math"

// Whatever compares ratios asks this file, so that a ratio that nobody knows
// never passes for one that holds.

// tie is the share by which rounding may part ratios that are equal.
const tie = 1e-9

// known tells whether a ratio was worked out: NaN is none, nor is -Inf, the
// largest of no ratios at all.
func known(ratio float64) bool { return !math.IsNaN(ratio) && !math.IsInf(ratio, -1) }

// held tells whether a ratio holds. One that is not known does not.
func held(ratio float64) bool { return ratio <= 1 && known(ratio) }

// rankOf orders ratios by what must not be hidden: beyond limits before not
// checked, and that before within.
func rankOf(ratio float64) int {
	switch {
	case ratio > 1:
		return 2
	case !known(ratio):
		return 1
	}
	return 0
}

// worse tells whether a ratio must be shown rather than another. Of equals it
// is neither.
func worse(ratio, than float64) bool {
	r, t := rankOf(ratio), rankOf(than)
	return r > t || r == t && ratio > than*(1+tie)
}

// worthwhile is the share by which a ratio must fall for a change to count as
// a help.
const worthwhile = 0.005

// better tells whether a ratio was brought within limits, or nearer to them
// than it was before. One that is not known was not.
func better(now, before float64) bool {
	return held(now) || known(now) && now < before*(1-worthwhile)
}

// mostFar bounds how far a ratio may count as beyond its limit.
const mostFar = 1e6

// far is how far a ratio is beyond its limit, by its logarithm, so that a large
// one counts without drowning the others; 0 where it holds. One that is not
// known counts as one without any resistance.
func far(ratio float64) float64 {
	switch {
	case held(ratio):
		return 0
	case !known(ratio):
		return math.Log(mostFar)
	}
	return math.Log(math.Min(ratio, mostFar))
}
