package ground

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// SkinFootingIn is the foot of a concrete skin that stands beside the box, at the
// level of the formation.
type SkinFootingIn struct {
	Height    float64 // m, of the skin
	Width     float64 // m, of the skin and of its foot
	Gamma     float64 // kN/m3, of the concrete
	Allowable float64 // kPa
	Basis     string  // where it comes from
}

// Pressure is the even pressure below the foot, kPa. The skin carries nothing but
// itself; it is hinged at its foot.
func (in SkinFootingIn) Pressure() (float64, error) {
	err := limit.First(
		limit.Positive("height", in.Height, q.Length),
		limit.Positive("width", in.Width, q.Length),
		limit.Positive("gamma", in.Gamma, q.UnitWeight),
		limit.Positive("allowable", in.Allowable, q.Pressure))
	return in.Gamma * in.Width * in.Height / in.Width, err
}

// SkinFootingCheck is the bearing below a concrete skin as a check.
func SkinFootingCheck(in SkinFootingIn) (check.Check, error) {
	p, err := in.Pressure()
	if err != nil {
		return check.Check{}, err
	}
	const src = "equilibrium of a wall on its foot (derived)"
	weight := in.Gamma * in.Width * in.Height
	c := check.Check{
		ID: "skin-footing", Title: "Bearing below the concrete skin", Method: "Even pressure below a strip as wide as the skin",
		Source: src + "; bearing: " + in.Basis,
		Demand: q.Of("q", p, q.Pressure), Capacity: q.Of("q all", in.Allowable, q.Pressure),
		Ratio: p / in.Allowable, RatioLRFD: math.NaN(),
		Assumptions: []string{
			"The skin stands on ground at the formation, on a foot no wider than itself, and carries nothing but itself.",
			"The fill beside it hangs nothing on it by friction, and it is hinged at its foot: the pressure is even.",
		},
		Validity: "Settlement, and what holds the foot sideways, are not checked.",
		Working: []check.Line{
			check.Step("Weight of the skin along its length", "W = γ·t·H", "density of concrete (common practice)", q.Of("W", weight, q.LineLoad),
				q.Of("γ", in.Gamma, q.UnitWeight), q.Of("t", in.Width, q.Length), q.Of("H", in.Height, q.Length)),
			check.Step("Pressure below it", "q = W/t", src, q.Of("q", p, q.Pressure)),
		},
	}
	if c.Ratio > 1 {
		c.Remedy = "A strip footing {0} wide below the skin."
		c.RemedyQ = []q.Q{q.Of("", in.Width*c.Ratio, q.Length)}
	}
	return c, nil
}
