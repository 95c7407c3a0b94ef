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
		quantity.Range("deflection limit L over", limit, 50, 1000),
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
	allowed, sag := w.Height/limit, r.Sag(softer)
	c := check.Check{
		ID: "concrete-skin-deflection", Title: "Bow of the concrete skin", Method: "Deflection under service loads, with creep and cracking",
		Source:      fmt.Sprintf("deflection limit L/%.0f (common practice); creep and cracking after ACI 318 (memory)", limit),
		Assumptions: []string{"All pressure lasts.", "A plain skin stays uncracked as long as its bending is within limits."},
		Validity:    "A skin whose bending is beyond limits bows far more than the figure shown.",
		Demand:      quantity.Of("w", sag, quantity.Thickness), Capacity: quantity.Of("L/n", allowed, quantity.Thickness),
		Ratio: sag / allowed, RatioLRFD: math.NaN(), Case: box.Allowable[1].Name,
		Working: []check.Line{{
			Text: "Bow of the uncracked skin at first", Formula: "w from the fourth derivative: E·I·w'''' = p, integrated along the strip",
			Terms:  []quantity.Q{quantity.Of("EI", r.EI, quantity.Stiffness), quantity.Of("L", w.Height, quantity.Length)},
			Result: quantity.Of("we", sag/softer, quantity.Thickness), Source: srcStat,
		}, {
			Text: "The same in time", Formula: "w = k·we",
			Terms:  []quantity.Q{quantity.Of("k", softer, quantity.None)},
			Result: quantity.Of("w", sag, quantity.Thickness), Source: "ACI 318: creep, cracked sections (memory)",
		}, {
			Text: "Allowed", Formula: "wa = L/n",
			Terms:  []quantity.Q{quantity.Of("L", w.Height, quantity.Length), quantity.Of("n", limit, quantity.None)},
			Result: quantity.Of("wa", allowed, quantity.Thickness), Source: "common practice",
		}},
	}
	if c.Ratio > 1 {
		c.Remedy = "A thicker skin, a drained fill, or less fill."
	}
	return c, nil
}
