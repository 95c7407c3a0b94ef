package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Limits of the simplified earthquake thrust on a yielding wall.
const (
	maxWallQuake = 20 * foot // wall height for SeedWhitman
	maxKhQuake   = 0.4       // kh for SeedWhitman
)

// MononobeOkabe is the active coefficient with earthquake, K_AE, and the angle
// psi = atan(kh/(1-kv)); angles and signs as for CoulombKa (UFC 3-220-20 4-15,
// second-hand). The thrust is (1-kv) gamma H2 K_AE/2, the static part
// included. It refuses phi - beta - psi below 0, where no wedge stands.
func MononobeOkabe(phi, delta, beta, theta, kh, kv float64) (kae, psi float64, err error) {
	err = limit.First(
		wedgeInput(phi, delta, beta, theta),
		limit.Within("kh", kh, 0, 1, quantity.None),
		limit.Within("kv", kv, -0.9, 0.9, quantity.None))
	if err != nil {
		return 0, 0, err
	}
	psi = math.Atan(kh / (1 - kv))
	if err := slopeStands(beta, phi); err != nil {
		return 0, psi, err
	}
	if phi-beta-psi < -slack {
		return 0, psi, &limit.Error{Field: "beta", Value: beta, Lo: -math.Pi / 2, Hi: phi - psi, Kind: quantity.Angle,
			Why: "no wedge stands in this earthquake"}
	}
	if delta+theta+psi >= math.Pi/2 {
		return 0, psi, &limit.Error{Field: "theta", Value: theta, Lo: -maxTilt, Hi: math.Pi/2 - delta - psi, Kind: quantity.Angle,
			Why: "the thrust has no horizontal part"}
	}
	return wedgeActive(phi, delta, beta, theta, psi), psi, nil
}

// SeedWhitman is the increment of thrust on a smooth vertical wall with level
// ground that may yield, (3/8) kh gamma h2, kN/m, and its height above the
// foot, 0.6 h (UFC 3-220-20 4-17, second-hand; h up to 20 ft, kh up to 0.4).
func SeedWhitman(kh, gamma, h float64) (dp, arm float64, err error) {
	err = limit.First(
		limit.Within("kh", kh, 0, maxKhQuake, quantity.None),
		limit.Positive("gamma", gamma, quantity.UnitWeight),
		limit.Positive("h", h, quantity.Length),
		limit.Within("h", h, 0, maxWallQuake, quantity.Length))
	if err != nil {
		return 0, 0, err
	}
	return 3. / 8 * kh * gamma * h * h, 0.6 * h, nil
}

// WoodNonYielding is the increment of thrust on a wall that does not give,
// kh gamma h2, kN/m, and its height above the foot, 0.6 h; it adds to the
// thrust at rest (Wood 1973; UFC 3-220-20 4-18, second-hand).
func WoodNonYielding(kh, gamma, h float64) (dp, arm float64, err error) {
	err = limit.First(
		limit.Within("kh", kh, 0, 1, quantity.None),
		limit.Positive("gamma", gamma, quantity.UnitWeight),
		limit.Positive("h", h, quantity.Length))
	if err != nil {
		return 0, 0, err
	}
	return kh * gamma * h * h, 0.6 * h, nil
}

// WaterDynamic is the pressure that water in freely draining saturated fill of
// height h adds in an earthquake at depth z, 0.875 kh gamma_w sqrt(h z), kPa
// (UFC 3-220-20 4-19, second-hand).
func WaterDynamic(kh, h, z float64) (float64, error) {
	err := limit.First(
		limit.Within("kh", kh, 0, 1, quantity.None),
		limit.Positive("h", h, quantity.Length),
		limit.Within("z", z, 0, h, quantity.Length))
	if err != nil {
		return 0, err
	}
	return 0.875 * kh * GammaW * math.Sqrt(h*z), nil
}
