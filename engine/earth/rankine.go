package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// RankineKa is the active coefficient of level ground on a smooth vertical
// wall, tan2(45 - phi/2) (UFC 3-220-20 4-3, second-hand). phi in rad.
func RankineKa(phi float64) (float64, error) {
	if err := limit.Within("phi", phi, 0, maxPhi, quantity.Angle); err != nil {
		return 0, err
	}
	s := math.Sin(phi)
	return (1 - s) / (1 + s), nil
}

// RankineKp is the passive coefficient of level ground on a smooth vertical
// wall, the inverse of RankineKa (UFC 3-220-20 4-4, second-hand).
func RankineKp(phi float64) (float64, error) {
	ka, err := RankineKa(phi)
	if err != nil {
		return 0, err
	}
	return 1 / ka, nil
}

// RankineKaSlope is the active coefficient on a vertical plane below a surface
// that rises at beta, for a thrust P parallel to the surface: the horizontal
// part is P cos beta (Kramer and Stewart 8.67, second-hand). It refuses a
// surface steeper than phi. For a surface that falls away from the wall it is
// the level value, which is on the high side. There is no passive form: that
// of Rankine is the same for rising and falling ground.
func RankineKaSlope(phi, beta float64) (float64, error) {
	ka, err := RankineKa(phi)
	if err != nil {
		return 0, err
	}
	if err := slopeStands(beta, phi); err != nil {
		return 0, err
	}
	if beta <= 0 {
		return ka, nil
	}
	cb, cp := math.Cos(beta), math.Cos(phi)
	s := math.Sqrt(math.Max(0, cb*cb-cp*cp)) // below zero only by rounding at beta = phi
	return cb * (cb - s) / (cb + s), nil
}

// BellActive is the active pressure with cohesion, ka sv - 2 c sqrt(ka) (UFC
// 3-220-20 4-6, second-hand). It is negative, tension, near the surface.
func BellActive(ka, sv, c float64) float64 { return ka*sv - 2*c*math.Sqrt(ka) }

// BellPassive is the passive pressure with cohesion, kp sv + 2 c sqrt(kp).
func BellPassive(kp, sv, c float64) float64 { return kp*sv + 2*c*math.Sqrt(kp) }

// CrackDepth is the depth of the tension crack, 2c/(gamma sqrt(ka)) - q/gamma,
// zero where the surcharge q closes it (Caltrans, second-hand). gamma above 0.
func CrackDepth(c, gamma, ka, q float64) (float64, error) {
	err := limit.First(
		limit.AtLeast("cohesion", c, 0, quantity.Pressure),
		limit.Positive("gamma", gamma, quantity.UnitWeight),
		limit.Positive("ka", ka, quantity.None),
		limit.AtLeast("q", q, 0, quantity.Pressure))
	if err != nil {
		return 0, err
	}
	return math.Max(0, 2*c/(gamma*math.Sqrt(ka))-q/gamma), nil
}
