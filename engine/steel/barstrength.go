package steel

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
)

// Axis is the axis a bar bends about.
type Axis int

// The axes.
const (
	X Axis = iota // across the width: the depth H works
	Y             // across the depth: the width B works
)

// Wall slenderness limits of AISC 360 Table B4.1b for hollow sections and
// outstands, as multiples of sqrt(E/Fy) (memory).
const (
	hssFlangeCompact = 1.12
	hssFlangeSlender = 1.40
	hssWebCompact    = 2.42
	outstandSlender  = 1.00
)

// Moment is the nominal bending strength of a bar, kNm. Compact hollow
// sections reach their plastic moment, those with walls between compact and
// slender a moment below it (AISC 360 F7, memory); channels and flats count to
// first yield only and are taken as held against twisting by the sheet they
// are welded to. Slender walls are refused.
func (b Bar) Moment(axis Axis, fy, e float64) (float64, error) {
	if err := checkSteel(fy, e); err != nil {
		return 0, err
	}
	s, z, deep, wide := b.Sx, b.Zx, b.H, b.B
	if axis == Y {
		s, z, deep, wide = b.Sy, b.Zy, b.B, b.H
	}
	root := math.Sqrt(e / fy)
	switch b.Shape {
	case Flat:
		return s * fy, nil
	case Chan:
		err := quantity.Range("outstand to thickness of a flange", b.B/b.T, 0, outstandSlender*root)
		return s * fy, err
	case SHS, RHS:
		flange, web := (wide-3*b.T)/b.T, (deep-3*b.T)/b.T
		if err := quantity.Range("flange width to thickness", flange, 0, hssFlangeSlender*root); err != nil {
			return 0, err
		}
		if err := quantity.Range("web depth to thickness", web, 0, hssWebCompact*root); err != nil {
			return 0, err
		}
		mp, my := z*fy, s*fy
		if flange <= hssFlangeCompact*root {
			return mp, nil
		}
		return math.Min(mp, mp-(mp-my)*(3.57*flange/root-4)), nil
	}
	return 0, fmt.Errorf("%w: shape = %q, allowed shs, rhs, c, flat", quantity.ErrRange, b.Shape)
}

// YieldMoment is the bending moment at first yield, kNm.
func (b Bar) YieldMoment(axis Axis, fy float64) float64 {
	if axis == Y {
		return b.Sy * fy
	}
	return b.Sx * fy
}

// Shear is the nominal shear strength along H (axis X) or along B (axis Y),
// kN: 0.6 Fy Av with stocky webs (AISC 360 G, memory). The slender webs for
// which that does not hold are refused.
func (b Bar) Shear(axis Axis, fy, e float64) (float64, error) {
	if err := checkSteel(fy, e); err != nil {
		return 0, err
	}
	av, deep := b.Avx, b.H
	if axis == Y {
		av, deep = b.Avy, b.B
	}
	if b.Shape != Flat {
		limit := 1.10 * math.Sqrt(5*e/fy)
		if err := quantity.Range("web depth to thickness", (deep-3*b.T)/b.T, -3, limit); err != nil {
			return 0, err
		}
	}
	return 0.6 * fy * av, nil
}

// BarColumn is the axial strength of a bar.
type BarColumn struct {
	KLr, Fn, Fe float64 // slenderness; kPa
	Area        float64 // m2, that carries
	Pn          float64 // kN
	PE          float64 // kN, Euler load
}

// Column is the axial strength of a bar over the buckling length kl in m about
// the given axis (AISC 360 E3, curve verified numerically, ST-05). Of
// walls that buckle before the bar only the effective width carries.
func (b Bar) Column(axis Axis, fy, e, kl float64) (BarColumn, error) {
	r, i := b.Rx, b.Ix
	if axis == Y {
		r, i = b.Ry, b.Iy
	}
	if err := quantity.Within("buckling length KL", kl, 1e-3, 100, quantity.Length); err != nil {
		return BarColumn{}, err
	}
	c := BarColumn{KLr: kl / r}
	var err error
	if c.Fn, c.Fe, err = ColumnStress(fy, e, c.KLr); err != nil {
		return c, err
	}
	c.Area, err = b.effective(c.Fn)
	c.Pn, c.PE = c.Area*c.Fn, math.Pi*math.Pi*e*i/(kl*kl)
	return c, err
}
