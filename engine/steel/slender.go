package steel

import "hillset/engine/quantity"

// kOutstand is the buckling coefficient of a flat held at one edge, and
// mostOutstand how slender such a one may be at all (AISI S100, memory).
const (
	kOutstand    = 0.43
	mostOutstand = 60
)

// effective is the area of a bar that still carries under the stress fn of the
// whole column, m2: A_eff(Fn) of the reference, each flat by its effective width
// (AISI S100 App. 1). It is all of it where no flat buckles. Flats too slender to
// be rated are refused.
func (b Bar) effective(fn float64) (float64, error) {
	area := b.Area
	flat := func(width, k, count float64) error {
		_, rho, err := Rho(AISI, width/b.T, fn, EAISI, k)
		area -= count * (1 - rho) * width * b.T
		return err
	}
	switch b.Shape {
	case SHS, RHS:
		for _, width := range []float64{b.H, b.B} {
			if err := flat(width-4*b.T, kFlat, 2); err != nil { // between corners of radius 2t
				return 0, err
			}
		}
	case Chan:
		if err := quantity.Range("outstand to thickness of a flange", (b.B-b.T)/b.T, 0, mostOutstand); err != nil {
			return 0, err
		}
		if err := flat(b.B-b.T, kOutstand, 1); err != nil {
			return 0, err
		}
		if err := flat(b.lip-b.T, kOutstand, 1); err != nil {
			return 0, err
		}
		return area, flat(b.H-2*b.T, kFlat, 1)
	}
	return area, nil
}

// Rated tells why a bar cannot be rated in bending and shear, nil where it can.
func (b Bar) Rated(fy, e float64) error {
	for _, axis := range []Axis{X, Y} {
		if _, err := b.Moment(axis, fy, e); err != nil {
			return err
		}
		if _, err := b.Shear(axis, fy, e); err != nil {
			return err
		}
	}
	return nil
}
