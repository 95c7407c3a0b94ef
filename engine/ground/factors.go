package ground

import (
	"fmt"
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Method is one of the methods of bearing capacity. Their factors must not be
// mixed.
type Method int

// The methods.
const (
	EC7      Method = iota // EN 1997-1 Annex D
	Vesic                  // as tabled in UFC 3-220-20, inclination by Meyerhof
	Meyerhof               // Meyerhof 1963
	Terzaghi               // Terzaghi 1943, shallow footings
	Hansen                 // factors only
)

// String is the name of the method.
func (m Method) String() string {
	names := []string{"EN 1997-1 Annex D", "Vesic", "Meyerhof", "Terzaghi", "Hansen"}
	if m < 0 || int(m) >= len(names) {
		return fmt.Sprintf("method %d", int(m))
	}
	return names[m]
}

// Factors are the factors of bearing capacity of a soil.
type Factors struct{ Nc, Nq, Ng float64 }

// maxFooting bounds phi for the factors: beyond it Ng of the methods parts by
// more than half and none was tested.
const maxFooting = 50 * math.Pi / 180

// flat is the phi below which the formulas take their limit phi = 0, rad.
const flat = 1e-6

// BearingFactors gives Nc, Nq and Ng of a method for phi, rad (UFC 3-220-20
// 5-3 and EN 1997-1 D.4, second-hand; Ng of Vesic, Meyerhof, Hansen and
// Terzaghi memory).
func BearingFactors(m Method, phi float64) (Factors, error) {
	if err := limit.Within("phi", phi, 0, maxFooting, quantity.Angle); err != nil {
		return Factors{}, err
	}
	t := math.Tan(phi)
	if m == Terzaghi {
		return terzaghi(phi), nil
	}
	nq := math.Exp(math.Pi*t) * sqTan(phi)
	f := Factors{Nc: math.Pi + 2, Nq: nq}
	if phi > flat {
		f.Nc = (nq - 1) / t
	}
	switch m {
	case EC7:
		f.Ng = 2 * (nq - 1) * t
	case Vesic:
		f.Ng = 2 * (nq + 1) * t
	case Meyerhof:
		f.Ng = (nq - 1) * math.Tan(1.4*phi)
	case Hansen:
		f.Ng = 1.5 * (nq - 1) * t
	default:
		return Factors{}, fmt.Errorf("ground: method = %d: not a method of bearing capacity", m)
	}
	return f, nil
}

// terzaghi gives the factors of general shear; Ng is the usual fit to his
// curve, 2 (Nq+1) tan(phi)/(1 + 0.4 sin 4 phi) (memory).
func terzaghi(phi float64) Factors {
	if phi <= flat {
		return Factors{Nc: 3*math.Pi/2 + 1, Nq: 1}
	}
	c := math.Cos(math.Pi/4 + phi/2)
	nq := math.Exp(2*(3*math.Pi/4-phi/2)*math.Tan(phi)) / (2 * c * c)
	return Factors{Nc: (nq - 1) / math.Tan(phi), Nq: nq,
		Ng: 2 * (nq + 1) * math.Tan(phi) / (1 + 0.4*math.Sin(4*phi))}
}

// sqTan is tan2(45 + phi/2).
func sqTan(phi float64) float64 {
	t := math.Tan(math.Pi/4 + phi/2)
	return t * t
}

// LocalShear reduces strength for soil that yields before it fails as a whole:
// 0.67 c and tan phi* = 0.67 tan phi (UFC 3-220-20, second-hand).
func LocalShear(c, phi float64) (c2, phi2 float64) {
	return 0.67 * c, math.Atan(0.67 * math.Tan(phi))
}

// Overburden is the effective stress beside a footing at depth, kPa, with water
// at a depth below the surface.
func Overburden(gamma, gammaSat, depth, water float64) (float64, error) {
	if err := waterInput(gamma, gammaSat, depth, water); err != nil {
		return 0, err
	}
	dry := math.Min(depth, math.Max(0, water))
	return gamma*dry + (gammaSat-gammaWater)*(depth-dry), nil
}

// GammaBelow is the unit weight that counts below a footing of width b with
// water at a depth below the surface: buoyant where the water stands at or
// above the base, moist where it is b below it or deeper, in between by the
// share of b that is dry (UFC 3-220-20 5-3.2, second-hand). With water a
// little deeper than the base this is on the low side.
func GammaBelow(gamma, gammaSat, depth, water, b float64) (float64, error) {
	if err := limit.First(waterInput(gamma, gammaSat, depth, water), limit.Positive("b", b, quantity.Length)); err != nil {
		return 0, err
	}
	share := math.Min(1, math.Max(0, (water-depth)/b))
	buoyant := gammaSat - gammaWater
	return buoyant + share*(gamma-buoyant), nil
}

// waterInput checks the values; water may be +Inf for none.
func waterInput(gamma, gammaSat, depth, water float64) error {
	if math.IsNaN(water) {
		return limit.Finite("water", water, quantity.Length)
	}
	return limit.First(
		limit.Positive("gamma", gamma, quantity.UnitWeight),
		limit.AtLeast("gamma_sat", gammaSat, math.Max(gamma, gammaWater), quantity.UnitWeight),
		limit.AtLeast("depth", depth, 0, quantity.Length))
}
