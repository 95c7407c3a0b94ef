package slope

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Seepage is how water flows in a slope without end.
type Seepage struct {
	Share float64 // of the depth that stands below the water table, 0 to 1
	Dip   float64 // rad, of the flow below the horizontal; Beta is parallel to the slope
}

// SkinIn is a slope so long that its ends do not count, with a slip plane
// parallel to it.
type SkinIn struct {
	Beta    float64 // rad
	Depth   float64 // m, vertical, of the slip plane
	Gamma   float64 // kN/m3, of all above the plane
	C       float64 // kPa, c'
	Phi     float64 // rad, phi'
	Seepage Seepage
}

func (in *SkinIn) check() error {
	return limit.First(
		limit.Within("beta", in.Beta, 0.1*deg, 80*deg, quantity.Angle),
		limit.Positive("depth", in.Depth, quantity.Length),
		limit.Within("gamma", in.Gamma, 1, heaviest, quantity.UnitWeight),
		limit.Within("c", in.C, 0, strongest, quantity.Pressure),
		angle("phi", in.Phi, roughest),
		limit.Within("share", in.Seepage.Share, 0, 1, quantity.Share),
		limit.Within("dip", in.Seepage.Dip, -in.Beta, 80*deg, quantity.Angle))
}

// Pore is the pore pressure on the plane, kPa: gammaw z / (1 + tan beta tan dip),
// by the share below water (Duncan & Wright, memory, re-derived).
func (in *SkinIn) Pore() float64 {
	return gammaW * in.Depth * in.Seepage.Share / (1 + math.Tan(in.Beta)*math.Tan(in.Seepage.Dip))
}

// Skin is the factor of safety of a slope without end:
// [c' + (gamma z cos2 beta - u) tan phi'] / (gamma z sin beta cos beta). What
// water presses beyond the weight counts against what resists, so that the
// factor may be below zero; it holds where the depth is small beside the length.
func Skin(in SkinIn) (float64, error) {
	if err := in.check(); err != nil {
		return 0, err
	}
	s, c := math.Sincos(in.Beta)
	w := in.Gamma * in.Depth
	return (in.C + (w*c*c-in.Pore())*math.Tan(in.Phi)) / (w * s * c), nil
}

// SteepestSkin is the steepest slope without end, rad, that has a factor of
// safety under flow parallel to it with the water table at the share given.
func SteepestSkin(in SkinIn, factor float64) (float64, error) {
	if err := limit.Within("factor", factor, 0.1, 100, quantity.Factor); err != nil {
		return 0, err
	}
	lo, hi := 0.1*deg, 80*deg
	for range 80 {
		mid := (lo + hi) / 2
		in.Beta, in.Seepage.Dip = mid, mid
		f, err := Skin(in)
		if err != nil {
			return 0, err
		}
		if f > factor {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, nil
}
