package ground

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// PadAloneIn is a square pad below a post, at the level of the formation.
type PadAloneIn struct {
	P         float64 // kN from the post, service
	Side      float64 // m
	Allowable float64 // kPa
	Basis     string  // where it comes from
}

// Pressure is the even pressure below the pad, kPa. The pad weighs about what
// the ground weighs that it stands in the place of.
func (in PadAloneIn) Pressure() (float64, error) {
	err := limit.First(
		limit.AtLeast("p", in.P, 0, q.Force),
		limit.Positive("side", in.Side, q.Length),
		limit.Positive("allowable", in.Allowable, q.Pressure))
	return in.P / (in.Side * in.Side), err
}

// PadAloneCheck is the bearing below a square pad as a check.
func PadAloneCheck(in PadAloneIn) (check.Check, error) {
	p, err := in.Pressure()
	if err != nil {
		return check.Check{}, err
	}
	c := check.Check{
		ID: "post-footing", Title: "Bearing below the pads of the roof posts", Method: "Even pressure below a square pad",
		Source: srcPad + "; bearing: " + in.Basis,
		Demand: q.Of("q", p, q.Pressure), Capacity: q.Of("q all", in.Allowable, q.Pressure),
		Ratio: p / in.Allowable, RatioLRFD: math.NaN(),
		Assumptions: []string{
			"The post stands in the middle of its pad.",
			"The pad lies on the ground at the formation, no higher: there it does not press on the walls, and the rock bed under the box is not counted as spreading it.",
			"It weighs what the ground weighs in whose place it is.",
		},
		Validity: "The concrete of the pad (bending, punching) and its settlement are not checked; pads may not run into those of the box.",
		Working: []check.Line{check.Step("Pressure below the pad", "q = P/a²", srcPad, q.Of("q", p, q.Pressure),
			q.Of("P", in.P, q.Force), q.Of("a", in.Side, q.Length))},
	}
	if c.Ratio > 1 {
		c.Remedy = "Pads of {0} each way, or posts closer together."
		c.RemedyQ = []q.Q{q.Of("", in.Side*math.Sqrt(c.Ratio), q.Length)}
	}
	return c, nil
}

const srcPad = "equilibrium of a pad below its load (derived)"
