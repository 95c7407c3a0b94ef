package concrete

import (
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/quantity"
)

// Sag is the bow of a solved wall under lasting load, m: that of the uncracked
// section times the share by which its stiffness falls.
func (r *WallResult) Sag(softer float64) float64 {
	w, _ := r.Beam.Sag()
	return math.Abs(w) * softer
}

// SagCheck checks the bow of a wall under lasting load against its height over
// limit. softer is by how much creep and cracking let its stiffness fall.
func (w Wall) SagCheck(limit, softer float64) (check.Check, error) {
	for _, err := range []error{
		box.SagLimitRange(limit),
		quantity.Range("loss of stiffness of the concrete", softer, 1, 100),
	} {
		if err != nil {
			return check.Check{}, err
		}
	}
	r, err := w.Solve()
	if err != nil {
		return check.Check{}, err
	}
	sag := r.Sag(softer)
	c := box.Sag{ID: "concrete-skin-deflection", Title: "Bow of the concrete skin", Method: "Deflection under service loads, with creep and cracking",
		Source: fmt.Sprintf("deflection limit L/%.0f (common practice); creep and cracking after ACI 318 (memory)", limit), From: "common practice",
		W: sag, Span: w.Height, Limit: limit}.Check(
		check.Line{
			Text: "Bow of the uncracked skin at first", Formula: "w from the fourth derivative: E·I·w'''' = p, integrated along the strip",
			Terms:  []quantity.Q{quantity.Of("EI", r.EI, quantity.Stiffness), quantity.Of("L", w.Height, quantity.Length)},
			Result: quantity.Of("we", sag/softer, quantity.Thickness), Source: srcStat,
		},
		check.Line{
			Text: "The same in time", Formula: "w = k·we",
			Terms:  []quantity.Q{quantity.Of("k", softer, quantity.None)},
			Result: quantity.Of("w", sag, quantity.Thickness), Source: "ACI 318: creep, cracked sections (memory)",
		})
	c.Assumptions = []string{"All pressure lasts.", "A plain skin stays uncracked as long as its bending is within limits."}
	c.Validity = "A skin whose bending is beyond limits bows far more than the figure shown."
	if c.Ratio > 1 {
		c.Remedy = "A thicker skin, a drained fill, or less fill."
	}
	return c, nil
}
