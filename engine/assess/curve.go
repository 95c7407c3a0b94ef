package assess

import "hillset/engine/quantity"

// Curve is one question answered by running the whole assessment over and
// over with one value changed, with the largest ratio of the checks that this
// value touches against it.
type Curve struct {
	ID       string // "cover", "backfill", "water", "vehicle", "distance", "years"
	Question string
	Axis     string        // what is varied, in words
	Kind     quantity.Kind // of the values
	Now      float64       // as drawn; NaN where it is not in the project
	Points   []CurvePoint  // rising in V
	Answer   CurveAnswer
	// Held says what is kept as drawn, and what is counted.
	Held string
}

// CurvePoint is one value that was tried.
type CurvePoint struct {
	V       float64
	Ratio   float64 // NaN where Why says why there is none
	Governs string  // check id
	Part    string
	Why     string
}

// CurveAnswer is the value at the limit.
type CurveAnswer struct {
	Value float64 // NaN where there is none
	// AtLeast and None say that all values tried are within, or that none is.
	AtLeast, None bool
	Why           string // why it could not be solved
	Governs, Part string // check and part that set the limit
}
