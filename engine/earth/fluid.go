package earth

import (
	"fmt"
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// EquivalentFluid is the pressure on a face between two levels of a soil that
// is taken for a fluid of unit weight g, kN/m3, with its surface at a level and
// a wide pressure p0 on it that already acts sideways, kPa. Water is part of g
// here: see SubmergedFluid.
func EquivalentFluid(g, p0, surface, top, bottom float64) (Diagram, error) {
	err := limit.First(
		limit.AtLeast("g", g, 0, quantity.UnitWeight),
		limit.AtLeast("p0", p0, 0, quantity.Pressure),
		limit.Finite("surface", surface, quantity.Length),
		limit.Finite("top", top, quantity.Length),
		limit.Finite("bottom", bottom, quantity.Length),
		limit.Positive("top - bottom", top-bottom, quantity.Length))
	if err != nil {
		return nil, err
	}
	var d Diagram
	if top > surface {
		foot := math.Max(surface, bottom)
		d = append(d, Row{Level: top, Depth: surface - top}, Row{Level: foot, Depth: surface - foot})
	}
	if bottom >= surface {
		return d, nil
	}
	for _, z := range []float64{math.Min(top, surface), bottom} {
		p := p0 + g*(surface-z)
		d = append(d, Row{Level: z, Depth: surface - z, Soil: p, Total: p})
	}
	return d, nil
}

// SubmergedFluid is the unit weight of the fluid that soil below water stands
// for, k (gammaSat - gammaW) + gammaW, kN/m3 (rule of IBC 1610.1, second-hand).
func SubmergedFluid(k, gammaSat float64) (float64, error) {
	err := limit.First(limit.AtLeast("k", k, 0, quantity.None),
		limit.AtLeast("gamma_sat", gammaSat, GammaW, quantity.UnitWeight))
	if err != nil {
		return 0, err
	}
	return k*(gammaSat-GammaW) + GammaW, nil
}

// CodeFluid is the equivalent fluid weight that a building code gives for a
// soil class as backfill: at rest for a wall restrained at its top, else
// active. active and atRest are the row of the table, kN/m3; zero means that
// the code does not allow the soil as backfill, which is an error here.
func CodeFluid(class string, active, atRest float64, restrained bool) (float64, error) {
	err := limit.First(limit.AtLeast("active", active, 0, quantity.UnitWeight),
		limit.AtLeast("at_rest", atRest, 0, quantity.UnitWeight))
	if err != nil {
		return 0, err
	}
	g := active
	if restrained {
		g = atRest
	}
	if g == 0 {
		return 0, fmt.Errorf("earth: soil class %q: the code gives no lateral load, it is not allowed as backfill", class)
	}
	return g, nil
}

// NarrowFill is the horizontal pressure at depth z in fill of width b between
// the wall and a face that stands by itself, (gamma b/(2 tan delta))
// (1 - exp(-2 k z tan(delta)/b)), kPa (Janssen, memory). Both faces must be
// rough and rigid; without friction it is k gamma z.
func NarrowFill(gamma, k, delta, b, z float64) (float64, error) {
	err := limit.First(
		limit.Positive("gamma", gamma, quantity.UnitWeight),
		limit.Positive("k", k, quantity.None),
		limit.Within("delta", delta, 0, maxPhi, quantity.Angle),
		limit.Positive("b", b, quantity.Length),
		limit.AtLeast("z", z, 0, quantity.Length))
	if err != nil {
		return 0, err
	}
	t := math.Tan(delta)
	if t < 1e-9 { // the limit; the quotient below would lose its figures
		return k * gamma * z, nil
	}
	return -gamma * b / (2 * t) * math.Expm1(-2*k*z*t/b), nil
}
