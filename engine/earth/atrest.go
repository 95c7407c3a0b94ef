package earth

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Ranges that the coefficients are worked out for. Beyond them the input is
// taken for a slip, not for a soil.
const (
	maxPhi = 60 * math.Pi / 180 // no soil tested reaches this
	maxOCR = 50.0               // the tests behind the exponent sin phi end near here
)

// slack lets two values that were converted from the same number differ by
// rounding before one counts as larger; it serves angles in rad, ratios and
// lengths in m of the order of 1.
const slack = 1e-12

// K0 is the coefficient of earth pressure at rest below level ground,
// (1 - sin phi) OCR^sin phi (Jaky; Mayne and Kulhawy; UFC 3-220-20 Eq 4-2,
// second-hand). phi in rad, ocr at least 1. It refuses an ocr at which K0
// would exceed Kp: the soil would have failed before it got there.
func K0(phi, ocr float64) (float64, error) {
	err := limit.First(
		limit.Within("phi", phi, 0, maxPhi, quantity.Angle),
		limit.Within("ocr", ocr, 1, maxOCR, quantity.None))
	if err != nil {
		return 0, err
	}
	s := math.Sin(phi)
	k := (1 - s) * math.Pow(ocr, s)
	kp := (1 + s) / (1 - s)
	if k > kp*(1+slack) {
		most := math.Pow(kp/(1-s), 1/s)
		return 0, &limit.Error{Field: "ocr", Value: ocr, Lo: 1, Hi: most, Why: "K0 would exceed Kp at this phi"}
	}
	return k, nil
}

// K0Slope is the coefficient at rest below a surface that rises at beta away
// from the wall, K0 (1 + sin beta), for the horizontal pressure (EN 1997-1
// 9.5.2, memory). It holds for beta up to phi. For a surface that falls away
// from the wall the level value is returned, which is on the high side; a
// surface that falls more steeply than phi is refused too, for it would slip.
func K0Slope(phi, ocr, beta float64) (float64, error) {
	k, err := K0(phi, ocr)
	if err != nil {
		return 0, err
	}
	if err := slopeStands(beta, phi); err != nil {
		return 0, err
	}
	if beta <= 0 {
		return k, nil
	}
	return k * (1 + math.Sin(beta)), nil
}

// slopeStands refuses a surface steeper than the friction angle.
func slopeStands(beta, phi float64) error {
	if err := limit.Finite("beta", beta, quantity.Angle); err != nil {
		return err
	}
	if math.Abs(beta) > phi+slack {
		return &limit.Error{Field: "beta", Value: beta, Lo: -phi, Hi: phi, Kind: quantity.Angle,
			Why: "the surface is steeper than the friction angle"}
	}
	return nil
}
