package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// maxTilt bounds the tilt of a wall's back face for the wedge formulas.
const maxTilt = 45 * math.Pi / 180

// passiveFriction is the largest delta/phi at which the plane wedge may be
// used for passive pressure (UFC 3-220-20 4-3.2, second-hand).
const passiveFriction = 0.4

// CoulombKa is the active coefficient of the plane wedge: phi friction angle,
// delta wall friction (+ when the soil settles against the wall), beta surface
// (+ rising away), theta tilt of the back face (+ when soil lies on it), all
// rad (UFC 3-220-20 4-10, second-hand). The thrust acts at delta from the
// normal of the face: see Split.
func CoulombKa(phi, delta, beta, theta float64) (float64, error) {
	if err := wedgeInput(phi, delta, beta, theta); err != nil {
		return 0, err
	}
	if err := slopeStands(beta, phi); err != nil {
		return 0, err
	}
	return wedgeActive(phi, delta, beta, theta, 0), nil
}

// wedgeActive is the closed form of the active wedge with the whole picture
// turned by psi; psi = 0 is Coulomb, psi > 0 Mononobe-Okabe.
func wedgeActive(phi, delta, beta, theta, psi float64) float64 {
	a := math.Cos(phi - theta - psi)
	d := math.Cos(delta + theta + psi)
	t := math.Cos(theta)
	in := math.Sin(phi+delta) * math.Sin(phi-beta-psi) / (d * math.Cos(beta-theta))
	r := 1 + math.Sqrt(math.Max(0, in)) // below zero only by rounding at the limit
	return a * a / (math.Cos(psi) * t * t * d * r * r)
}

// CoulombKp is the passive coefficient of the plane wedge (UFC 3-220-20 4-11,
// second-hand), signs as for CoulombKa but delta + when the wall is pushed
// down against the soil's heave. It refuses delta above 0.4 phi, where the
// plane wedge overstates the resistance: use LogSpiralKp.
func CoulombKp(phi, delta, beta, theta float64) (float64, error) {
	if err := wedgeInput(phi, delta, beta, theta); err != nil {
		return 0, err
	}
	if delta > passiveFriction*phi+slack {
		return 0, &limit.Error{Field: "delta", Value: delta, Lo: -phi, Hi: passiveFriction * phi, Kind: quantity.Angle,
			Why: "a plane wedge is unsafe for passive pressure at this wall friction"}
	}
	if beta < -phi-slack {
		return 0, &limit.Error{Field: "beta", Value: beta, Lo: -phi, Hi: phi, Kind: quantity.Angle,
			Why: "the surface falls more steeply than the friction angle"}
	}
	k := wedgePassive(phi, delta, beta, theta)
	if math.IsNaN(k) || math.IsInf(k, 0) {
		return 0, &limit.Error{Field: "beta", Value: beta, Lo: -phi, Hi: phi, Kind: quantity.Angle, Why: "no passive wedge"}
	}
	return k, nil
}

func wedgePassive(phi, delta, beta, theta float64) float64 {
	a := math.Cos(phi + theta)
	d := math.Cos(delta - theta)
	t := math.Cos(theta)
	in := math.Sin(phi+delta) * math.Sin(phi+beta) / (d * math.Cos(beta-theta))
	if in < 0 && in > -slack {
		in = 0 // rounding at beta = -phi
	}
	r := 1 - math.Sqrt(in)
	if r <= 0 {
		return math.NaN()
	}
	return a * a / (t * t * d * r * r)
}

// Split gives the horizontal and the vertical (down on the wall) part of an
// active thrust p on a face tilted by theta with wall friction delta.
func Split(p, delta, theta float64) (h, v float64) {
	sin, cos := math.Sincos(delta + theta)
	return p * cos, p * sin
}

func wedgeInput(phi, delta, beta, theta float64) error {
	err := limit.First(
		limit.Within("phi", phi, 0, maxPhi, quantity.Angle),
		limit.Within("delta", delta, -phi, phi, quantity.Angle),
		limit.Within("beta", beta, -math.Pi/2, math.Pi/2, quantity.Angle),
		limit.Within("theta", theta, -maxTilt, maxTilt, quantity.Angle))
	switch {
	case err != nil:
		return err
	case phi+math.Abs(theta) >= math.Pi/2:
		return &limit.Error{Field: "theta", Value: theta, Lo: phi - math.Pi/2, Hi: math.Pi/2 - phi, Kind: quantity.Angle,
			Why: "the wall leans further than the wedge it holds"}
	case delta+theta >= math.Pi/2 || math.Abs(beta-theta) >= math.Pi/2:
		return &limit.Error{Field: "theta", Value: theta, Lo: math.Abs(beta) - math.Pi/2, Hi: math.Pi/2 - delta, Kind: quantity.Angle,
			Why: "the face and the surface or the thrust do not meet"}
	}
	return nil
}
