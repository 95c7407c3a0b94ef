package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
)

// adrift offers the checks of a box that floats: nothing presses on its base,
// so nothing holds it there, and the ordinary workings would only show signs
// without sense.
func (j *job) adrift(sr *stageResult, b *body, worst *worstOf) {
	line := check.Line{Text: "Load on the base: the box floats", Formula: "N = W − U",
		Terms: []quantity.Q{
			quantity.Of("W", b.weight, quantity.Force), quantity.Of("U", b.uplift, quantity.Force),
		},
		Result: quantity.Of("N", b.weight-b.uplift, quantity.Force), Source: "statics (derived)"}
	for _, c := range []struct {
		id, title string
		asked     float64
	}{
		{"sliding", "Sliding out of the hill", fsSliding},
		{"overturning", "Overturning about the front edge", fsOverturning},
	} {
		worst.add(candidate{slot: slot{c.id, "box"}, stage: sr.st.ID, ratio: math.Inf(1), write: func() (check.Check, error) {
			return check.Check{ID: c.id, Title: c.title, Ratio: math.Inf(1), RatioLRFD: math.NaN(),
				Demand:   quantity.Of("FS req", c.asked, quantity.Factor),
				Capacity: quantity.Of("FS", 0, quantity.Factor),
				Method:   "Load on the base", Source: "statics (derived)",
				Assumptions: []string{"a box that floats is held by nothing but its fill, which is not counted"},
				Working:     []check.Line{line}}, nil
		}})
	}
	worst.missing("resultant", "Resultant in the middle third", "box", sr.st.ID, "the box floats: nothing presses on its base")
}
