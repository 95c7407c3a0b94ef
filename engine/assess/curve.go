package assess

import "hillset/engine/quantity"

// Curve is one question answered by running the whole assessment over and
// over with one value changed, with the largest ratio of the checks that this
// value touches against it. The checks of the open cut never count.
type Curve struct {
	ID       string // "cover", "backfill", "water", "vehicle", "distance", "years"
	Question string
	Axis     string        // what is varied, in words
	Kind     quantity.Kind // of the values
	Now      float64       // as drawn; NaN where it is not in the project
	Points   []CurvePoint  // rising in V; none where Answer says why
	// Answer counts all checks of the box, as the header does. PartsOnly counts
	// those of its parts alone: sheets, bars and frames, not the box as a body,
	// which floats, slides, tips or sinks.
	Answer, PartsOnly CurveAnswer
	// Held says what is kept as drawn, and what is counted.
	Held string
}

// CurvePoint is one value that was tried.
type CurvePoint struct {
	V float64
	// Ratio is the largest of the checks of the box that the value touches: +Inf
	// where there is no resistance at all, NaN where Why says why there is none.
	Ratio   float64
	Governs string // check id
	Part    string
	Why     string
	// Parts is the same of the parts alone, without the box as a body; NaN where
	// the value touches none of them.
	Parts                  float64
	PartsGoverns, PartsOne string // check id and part
}

// CurveAnswer is the value at the limit.
type CurveAnswer struct {
	Value float64 // NaN where there is none
	// AtLeast and None say that all values tried are within, or that none is.
	AtLeast, None bool
	// Alone is the limit of the checks that the value touches, where another is
	// beyond limits whatever the value is; NaN otherwise.
	Alone         float64
	Why           string // why it could not be solved, or why there is no value
	Governs, Part string // check and part that set the limit
	Unmade        bool   // that check can no longer be made beyond the limit
}
