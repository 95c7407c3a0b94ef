package slope

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// PlaneIn is a face with a level top and a plane through its toe, which may end
// at an upright crack in the top.
type PlaneIn struct {
	Height float64 // m
	Face   float64 // rad, of the face above the horizontal
	Plane  float64 // rad, of the slip plane
	C      float64 // kPa
	Phi    float64 // rad
	Gamma  float64 // kN/m3
	Crack  float64 // m, depth of the crack; 0 for none
	Water  float64 // m of water in it
}

func (in *PlaneIn) check() error {
	return limit.First(
		limit.Positive("height", in.Height, quantity.Length),
		limit.Within("face", in.Face, 1*deg, rightUp, quantity.Angle),
		limit.Within("plane", in.Plane, 0.1*deg, in.Face-0.01*deg, quantity.Angle),
		limit.Within("c", in.C, 0, strongest, quantity.Pressure),
		angle("phi", in.Phi, roughest),
		limit.Within("gamma", in.Gamma, 1, heaviest, quantity.UnitWeight),
		limit.Within("crack", in.Crack, 0, in.Height*0.999, quantity.Length),
		limit.Within("water", in.Water, 0, in.Crack, quantity.Length))
}

// weight is that of the wedge, kN, and length that of its plane, m.
func (in *PlaneIn) weight() (w, length float64) {
	h, z := in.Height, in.Crack
	cp := 1 / math.Tan(in.Plane)
	return in.Gamma / 2 * ((h*h-z*z)*cp - h*h/math.Tan(in.Face)), (h - z) / math.Sin(in.Plane)
}

// Plane is the factor of safety of a wedge on a plane with water in the crack
// and, falling to nothing at the toe, on the plane: [cA + (W cos - U - V sin)
// tan phi] / (W sin + V cos) (Hoek & Bray, memory; statics).
func Plane(in PlaneIn) (float64, error) {
	if err := in.check(); err != nil {
		return 0, err
	}
	w, a := in.weight()
	if w <= 0 {
		return 0, &limit.Error{Field: "crack", Value: in.Crack, Lo: 0, Hi: in.Height, Kind: quantity.Length, Why: "the crack meets the face above the plane"}
	}
	u, v := gammaW*in.Water*a/2, gammaW*in.Water*in.Water/2
	s, c := math.Sincos(in.Plane)
	return factorOf(in.C*a+(w*c-u-v*s)*math.Tan(in.Phi), w*s+v*c), nil
}

// WorstPlane is the plane through the toe with the least factor of safety, rad.
func WorstPlane(in PlaneIn) (plane, factor float64, err error) {
	// golden section: the factor has one valley between flat and face
	at := func(a float64) float64 {
		in.Plane = a
		f, fault := Plane(in)
		if fault != nil {
			err = fault
		}
		return f
	}
	const g = 0.6180339887498949
	lo, hi := 0.5*deg, in.Face-0.02*deg
	a, b := hi-g*(hi-lo), lo+g*(hi-lo)
	fa, fb := at(a), at(b)
	for range 60 {
		if err != nil {
			return 0, 0, err
		}
		if fa < fb {
			hi, b, fb = b, a, fa
			a = hi - g*(hi-lo)
			fa = at(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + g*(hi-lo)
			fb = at(b)
		}
	}
	return (lo + hi) / 2, math.Min(fa, fb), err
}

// Culmann is the height at which a face slides along its worst plane, m:
// (4c/gamma) sin beta cos phi / [1 - cos(beta - phi)] (Culmann 1866, memory;
// statics). It is good for faces near upright; on flatter ones a circle slides
// first.
func Culmann(face, c, phi, gamma float64) (float64, error) {
	if err := limit.First(
		limit.Within("face", face, 1*deg, rightUp, quantity.Angle),
		limit.Within("c", c, 0, strongest, quantity.Pressure),
		limit.Within("phi", phi, 0, face-0.01*deg, quantity.Angle),
		limit.Within("gamma", gamma, 1, heaviest, quantity.UnitWeight)); err != nil {
		return 0, err
	}
	return 4 * c / gamma * math.Sin(face) * math.Cos(phi) / (1 - math.Cos(face-phi)), nil
}

// CrackDepth is how deep a crack opens in level ground, m: (2c/gamma)
// tan(45 + phi/2) (Terzaghi 1943, memory).
func CrackDepth(c, phi, gamma float64) (float64, error) {
	if err := limit.First(
		limit.Within("c", c, 0, strongest, quantity.Pressure),
		angle("phi", phi, roughest),
		limit.Within("gamma", gamma, 1, heaviest, quantity.UnitWeight)); err != nil {
		return 0, err
	}
	return 2 * c / gamma * math.Tan(math.Pi/4+phi/2), nil
}

// CrackedCut is the height at which an upright cut with a crack behind it
// gives way, m: 2.67 (c/gamma) tan(45 + phi/2) (Terzaghi 1943, memory).
func CrackedCut(c, phi, gamma float64) (float64, error) {
	z, err := CrackDepth(c, phi, gamma)
	return z * 2.67 / 2, err
}
