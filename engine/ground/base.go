package ground

import (
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Base is the pressure under a base of width B, per metre across, which takes
// no tension. The toe is the edge that the moments are taken about.
type Base struct {
	V       float64 // kN/m
	X0      float64 // resultant from the toe, m
	E       float64 // eccentricity B/2 - x0, + towards the toe, m
	Middle  bool    // the resultant lies in the middle third
	Contact float64 // length in contact, m
	Toe     float64 // pressure at the toe, kPa
	Heel    float64 // pressure at the heel, kPa
	Max     float64 // the larger of the two, linear distribution, kPa
	Width   float64 // B' = B - 2|e|, effective width, m
	Uniform float64 // V/B', kPa (Meyerhof)
	// Off is true where the resultant misses the base or nothing presses: it
	// tips or floats. Max and Uniform are then +Inf, and E too where nothing
	// presses.
	Off bool
}

// PressBase gives the pressure under a base of width b from the vertical load v
// and the moment m of all forces about the toe (resisting +), both per metre
// (UFC 3-220-20 4-23 to 4-28 and 5-7 to 5-10, second-hand).
func PressBase(v, m, b float64) (Base, error) {
	err := limit.First(
		limit.Finite("v", v, quantity.LineLoad),
		limit.Finite("m", m, quantity.LineMoment),
		limit.Positive("b", b, quantity.Length))
	if err != nil {
		return Base{}, err
	}
	p := Base{V: v}
	if v <= 0 {
		p.Off, p.Max, p.Uniform, p.E = true, math.Inf(1), math.Inf(1), math.Inf(1)
		return p, nil
	}
	p.X0 = m / v
	p.E = b/2 - p.X0
	e := math.Abs(p.E)
	p.Middle = e <= b/6*(1+rounding)
	if e >= b/2 {
		p.Off, p.Max, p.Uniform = true, math.Inf(1), math.Inf(1)
		return p, nil
	}
	p.Width = b - 2*e
	p.Uniform = v / p.Width
	var low float64
	if e <= b/6 {
		p.Contact = b
		p.Max, low = v/b*(1+6*e/b), v/b*(1-6*e/b)
	} else {
		p.Contact = 3 * (b/2 - e)
		p.Max = 2 * v / p.Contact
	}
	p.Toe, p.Heel = p.Max, low
	if p.E < 0 {
		p.Toe, p.Heel = low, p.Max
	}
	return p, nil
}

// rounding is the share by which a sum of moments may be off: an eccentricity
// at the edge of the middle third counts as inside.
const rounding = 1e-9

// InKern says whether a load with eccentricities ex along l and ey along b
// keeps the whole of a rectangular base in compression: ex/l + ey/b at most
// 1/6 (UFC 3-220-20 5-6, second-hand).
func InKern(ex, ey, l, b float64) (bool, error) {
	err := limit.First(
		limit.Finite("ex", ex, quantity.Length), limit.Finite("ey", ey, quantity.Length),
		limit.Positive("l", l, quantity.Length), limit.Positive("b", b, quantity.Length))
	if err != nil {
		return false, err
	}
	return math.Abs(ex)/l+math.Abs(ey)/b <= (1+rounding)/6, nil
}
