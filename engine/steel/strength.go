package steel

import (
	"math"

	"hillset/engine/quantity"
)

// Safety factors and resistance factors of AISI S100-16 (memory; the column
// factors of AISC 360 were verified numerically, ST-05).
const (
	OmegaBending = 1.67
	PhiBending   = 0.90
	OmegaShear   = 1.60
	PhiShear     = 0.95
	OmegaColumn  = 1.80 // AISI
	PhiColumn    = 0.85 // AISI
	OmegaTube    = 1.67 // AISC 360, columns and tension
	PhiTube      = 0.90
)

// kShear is the shear buckling coefficient of an unstiffened web.
const kShear = 5.34

// ShearStrength is the nominal shear strength of a sheet per metre, kN/m:
// the slopes carry it, yielding or buckling (AISI S100 G2.1, memory).
func (p Profile) ShearStrength(fy, e float64) (float64, error) {
	if err := p.checkWith(fy, e); err != nil {
		return 0, err
	}
	ht := p.Slope() / p.T
	av := 2 * p.T * p.H / p.Pitch()
	edge := math.Sqrt(e * kShear / fy)
	switch {
	case ht <= edge:
		return 0.60 * fy * av, nil
	case ht <= 1.51*edge:
		return 0.60 * math.Sqrt(e*kShear*fy) / ht * av, nil
	}
	// 0.904 E kv/(h/t)2 written so that the two buckling forms meet.
	return 0.60 * 1.51 * e * kShear / (ht * ht) * av, nil
}

// ColumnStress gives the nominal stress Fn and the Euler stress Fe of a column
// of slenderness klr = KL/r, kPa. The curve is common to AISI S100 E2 and AISC
// 360 E3 (verified numerically, ST-05). Valid for 0 < klr <= 400.
func ColumnStress(fy, e, klr float64) (fn, fe float64, err error) {
	if err := checkSteel(fy, e); err != nil {
		return 0, 0, err
	}
	if err := quantity.Range("slenderness KL/r", klr, 1e-3, 400); err != nil {
		return 0, 0, err
	}
	fe = math.Pi * math.Pi * e / (klr * klr)
	lc2 := fy / fe
	if lc2 <= 1.5*1.5 {
		return math.Pow(0.658, lc2) * fy, fe, nil
	}
	return 0.877 * fe, fe, nil
}

// Euler is the Euler load of a pinned column or strip of length l, in the unit
// of e·i per length squared (kN, or kN per metre of a sheet).
func Euler(e, i, l float64) (float64, error) {
	for _, err := range []error{
		quantity.Within("modulus E", e, minE, maxE, quantity.Stress),
		quantity.Range("second moment I", i, 1e-15, 1),
		quantity.Within("length L", l, 1e-3, 100, quantity.Length),
	} {
		if err != nil {
			return 0, err
		}
	}
	return math.Pi * math.Pi * e * i / (l * l), nil
}

// Strut is the axial strength of a sheet spanning l between pinned edges,
// per metre of width.
type Strut struct {
	KLr   float64 // slenderness
	Fn    float64 // kPa
	Fe    float64 // kPa
	AreaN float64 // m2/m, effective at Fn
	Pn    float64 // kN/m, A_eff(Fn)·Fn
	AreaY float64 // m2/m, effective at Fy
	Pno   float64 // kN/m, A_eff(Fy)·Fy: strength without buckling of the whole
	PE    float64 // kN/m, Euler load
}

// Strut computes the axial strength of the sheet over the span l in m (AISI
// S100 E2 with effective area, memory).
func (p Profile) Strut(rule Rule, fy, e, l float64) (Strut, error) {
	g, err := p.Props()
	if err != nil {
		return Strut{}, err
	}
	if err := quantity.Within("span L", l, 1e-3, 100, quantity.Length); err != nil {
		return Strut{}, err
	}
	s := Strut{KLr: l / g.R}
	if s.Fn, s.Fe, err = ColumnStress(fy, e, s.KLr); err != nil {
		return s, err
	}
	if s.AreaN, err = p.AreaAt(rule, s.Fn, e); err != nil {
		return s, err
	}
	if s.AreaY, err = p.AreaAt(rule, fy, e); err != nil {
		return s, err
	}
	s.Pn, s.Pno = s.AreaN*s.Fn, s.AreaY*fy
	s.PE, err = Euler(e, g.Inertia, l)
	return s, err
}
