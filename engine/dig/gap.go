package dig

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/quantity"
)

// GapInput is the space at the bottom of the cut between its toe and the wall
// of the box.
type GapInput struct {
	Part          string
	Depth         float64 // from the crest of the cut to the floor, m
	Width         float64 // at the bottom, m
	Length        float64 // along the wall, m
	Ladders       int     // ladders or ramps that are provided
	LaddersStated bool    // false where nobody said how many there are
}

// Gap is what a gap beside the box counts as.
type Gap struct {
	Trench  bool      // R14: deeper than wide, or left by the box, and at most 15 ft wide at the bottom
	Egress  bool      // R13: a way out is asked for
	Ladders int       // least number, evenly spaced, so that nobody is more than 25 ft from one
	At      []float64 // where they may stand, m from one end
}

// JudgeGap tells whether the gap beside the box is a trench (R14, memory) and
// how many ladders it needs (R13, second-hand). Errors name the field out of
// range.
func JudgeGap(in GapInput) (Gap, error) {
	for _, f := range []struct {
		name string
		v    float64
	}{{"depth of the gap", in.Depth}, {"width of the gap", in.Width}, {"length of the gap", in.Length}} {
		if err := quantity.Range(f.name, f.v, 0, 1000); err != nil {
			return Gap{}, err
		}
	}
	// The box is a form standing in the cut, so the width alone decides; a
	// gap of no depth is none.
	g := Gap{Trench: in.Depth > 0 && !exceeds(in.Width, trenchWidth)}
	g.Egress = g.Trench && in.Depth >= egressFrom-lengthTol && in.Length > 0
	if g.Egress {
		g.Ladders = max(1, int(math.Ceil(in.Length/(2*egressTravel)-lengthTol)))
		for i := range g.Ladders {
			g.At = append(g.At, in.Length*(float64(i)+0.5)/float64(g.Ladders))
		}
	}
	return g, nil
}

// TrenchCheck checks the ways out of the gap beside the box: ladders needed
// over ladders provided. Where nobody stated how many there are it is not
// checked and says what is needed.
func TrenchCheck(in GapInput) check.Check {
	const id, title = "trench-egress", "Way out of the gap beside the box"
	part := in.Part
	if part == "" {
		part = "gap beside the box"
	}
	g, err := JudgeGap(in)
	if err == nil && in.Ladders < 0 {
		err = fmt.Errorf("%w: ladders = %d, allowed 0 or more", quantity.ErrRange, in.Ladders)
	}
	if err != nil {
		return check.Unchecked(id, title, part, err.Error())
	}
	c := check.Check{ID: id, Title: title, Part: part, RatioLRFD: math.NaN()}
	c.Demand = quantity.Of("ladders needed", float64(g.Ladders), quantity.None)
	c.Capacity = quantity.Of("ladders there", float64(in.Ladders), quantity.None)
	c.Ratio = over(float64(g.Ladders), float64(in.Ladders), 0)
	if g.Egress && !in.LaddersStated {
		c = check.Unchecked(id, title, part, fmt.Sprintf("how many ladders or ramps stand in the gap; it is a trench (R14) and needs %d, so that nobody is more than %s from one (R13)", g.Ladders, length(egressTravel)))
	} else if c.Ratio > 1 {
		c.Remedy = fmt.Sprintf("Stand %d ladders or ramps in the gap, evenly spaced, %s above the edge", g.Ladders, length(ladderAbove))
	}
	g.describe(&c, in)
	return c
}

func (g Gap) describe(c *check.Check, in GapInput) {
	c.Method = method
	c.Source = "29 CFR 1926.651(c) as listed by a contractors' association (R13) [second-hand]; definition of a trench (R14) [memory]"
	c.Assumptions = []string{caution, "air is tested where more than " + length(egressFrom) + " deep and bad air may be expected (R15); nobody is in the gap while the box is set"}
	text := "The gap is not a trench: wider than " + length(trenchWidth) + " at the bottom, or without depth"
	if g.Trench {
		text = "The box leaves no more than " + length(trenchWidth) + " at the bottom, so the gap is a trench (R14)"
	}
	c.Working = []check.Line{{
		Text: text, Formula: "w ≤ " + length(trenchWidth),
		Terms:  []quantity.Q{quantity.Of("d", in.Depth, quantity.Length)},
		Result: quantity.Of("w", in.Width, quantity.Length), Source: c.Source,
	}, {
		Text: "Ladders, nobody more than " + length(egressTravel) + " from one (R13; from a depth of " + length(egressFrom) + ")", Formula: "k = L / " + length(2*egressTravel) + ", rounded up",
		Terms:  []quantity.Q{quantity.Of("L", in.Length, quantity.Length)},
		Result: quantity.Of("k", float64(g.Ladders), quantity.None), Source: c.Source,
	}}
}
