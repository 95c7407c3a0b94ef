package dig

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
)

// SpoilInput is the heap of dug soil, or plant, beside the crest of the cut.
type SpoilInput struct {
	Part       string
	Setback    float64 // from the crest to the toe of the heap, m
	Height     float64 // of the heap, m; 0 where nothing is heaped
	CutHeight  float64 // m
	N          float64 // batter of the cut below (H:V)
	Restrained bool    // held back by a retaining device
}

// farther is the setback that public geotechnical letters ask of loads beyond
// the rule: 5 ft beside a cut at 1:1 or flatter, half the height beside a
// steeper one (verified, advice and not law), m.
func (in SpoilInput) farther() float64 {
	if in.N >= 1-slopeTol {
		return crestLoads
	}
	return in.CutHeight / 2
}

// SpoilCheck checks how far the heap stays from the crest: 2 ft or restrained
// (R12, second-hand). A value out of range gives a check that was not made,
// naming it.
func SpoilCheck(in SpoilInput) check.Check {
	const id, title = "spoil", "Spoil heap beside the crest"
	part := in.Part
	if part == "" {
		part = "spoil heap"
	}
	for _, f := range []struct {
		name string
		v    float64
	}{{"spoil setback", in.Setback}, {"spoil height", in.Height}, {"height of the cut", in.CutHeight}, {"batter (H:V)", in.N}} {
		if err := quantity.Range(f.name, f.v, 0, 1000); err != nil {
			return check.Unchecked(id, title, part, err.Error())
		}
	}
	need := spoilSetback
	if in.Height == 0 || in.Restrained {
		need = 0
	}
	c := check.Check{
		ID: id, Title: title, Part: part, Method: method, RatioLRFD: math.NaN(),
		Demand:   quantity.Of("a,req", need, quantity.Length),
		Capacity: quantity.Of("a", in.Setback, quantity.Length),
		Ratio:    over(need, in.Setback, lengthTol),
		Source:   "29 CFR 1926.651(j)(2) as listed by a contractors' association (R12) [second-hand]",
	}
	c.Assumptions = []string{caution, "advice beyond the rule, from public geotechnical letters: loads at least " + length(crestLoads) + " from the crest of a cut at 1:1 or flatter, half its height from a steeper one"}
	if c.Ratio > 1 {
		c.Remedy, c.RemedyQ = "Keep the heap {0} back from the crest, or restrain it", []quantity.Q{c.Demand}
	}
	c.Working = []check.Line{{
		Text: "Setback of the heap from the crest (R12)", Formula: "a ≥ " + length(spoilSetback),
		Terms: []quantity.Q{c.Demand, c.Capacity, quantity.Of("h,heap", in.Height, quantity.Length)}, Result: quantity.Of("ratio", c.Ratio, quantity.Ratio), Source: c.Source,
	}, {
		Text: "Setback advised beyond the rule", Formula: length(crestLoads) + " if n ≥ 1, else h/2",
		Terms:  []quantity.Q{quantity.Of("n", in.N, quantity.Slope), quantity.Of("h", in.CutHeight, quantity.Length)},
		Result: quantity.Of("a,advised", in.farther(), quantity.Length), Source: "public geotechnical letters (Everett, Washington) [verified]",
	}}
	return c
}
