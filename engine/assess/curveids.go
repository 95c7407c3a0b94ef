package assess

import "slices"

// CurveIDs are the ids of the questions that CurveOf answers, in the order in
// which they are asked.
func CurveIDs() []string { return slices.Clone(questionIDs) }
