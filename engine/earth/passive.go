package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// LogSpiralKp is the passive coefficient of a vertical wall and level ground
// with wall friction delta, 0 to phi, from a log-spiral surface:
// R exp[(delta/phi) ln(R) 1.443 sin phi], R = (1+sin phi)/(1-sin phi) (UFC
// 3-220-20 4-12, second-hand). At delta 0 it is RankineKp.
func LogSpiralKp(phi, delta float64) (float64, error) {
	err := limit.First(
		limit.Within("phi", phi, 0, maxPhi, quantity.Angle),
		limit.Within("delta", delta, 0, phi, quantity.Angle))
	if err != nil {
		return 0, err
	}
	s := math.Sin(phi)
	r := (1 + s) / (1 - s)
	if phi == 0 {
		return r, nil // delta/phi has no value, and no friction to bring in
	}
	return r * math.Exp(delta/phi*math.Log(r)*1.443*s), nil
}

// FanKp is the passive coefficient normal to a face from the stress fan of EN
// 1997-1 C.2 without cohesion (first and last equation second-hand, the rest
// memory), a second opinion to LogSpiralKp on the low side. Angles as for
// CoulombKp. It refuses cases in which the fan closes up.
func FanKp(phi, delta, beta, theta float64) (float64, error) {
	if err := wedgeInput(phi, delta, beta, theta); err != nil {
		return 0, err
	}
	if phi == 0 {
		return 1, nil
	}
	if err := slopeStands(beta, phi); err != nil {
		return 0, err
	}
	s := math.Sin(phi)
	mt := (math.Acos(clip(-math.Sin(beta)/s)) - phi - beta) / 2
	mw := (math.Acos(clip(math.Sin(delta)/s)) - phi - delta) / 2
	v := mt + beta - mw - theta
	if v < -slack {
		return 0, &limit.Error{Field: "beta", Value: beta, Lo: mw + theta - mt, Hi: phi, Kind: quantity.Angle,
			Why: "the stress fan closes up"}
	}
	kn := (1 + s*math.Sin(2*mw+phi)) / (1 - s*math.Sin(2*mt+phi)) * math.Exp(2*v*math.Tan(phi))
	return kn * math.Cos(beta) * math.Cos(beta-theta), nil
}

// clip takes rounding beyond 1 off the argument of an arc cosine whose range
// has been checked already.
func clip(x float64) float64 { return math.Max(-1, math.Min(1, x)) }
