package earth

import (
	"fmt"
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// Ranges of what a column may hold.
const (
	maxGamma    = 40.0   // kN/m3; no soil or rock is heavier
	maxCohesion = 1000.0 // kPa; beyond is rock
	maxLoad     = 1e4    // kPa
	maxLevel    = 1e5    // m, levels and coordinates
	maxLeft     = 2.0    // share of still water: at twice it rising water lifts the soil
	maxFloor    = 1.0    // KFloor: more than all of the vertical stress is no floor
)

// seam is how far apart the levels of two layers that meet may lie, m: less
// than any level is measured to, more than rounding leaves.
const seam = 1e-6

// Surface is the level of the ground beside the face. The column must have a
// layer.
func (c Column) Surface() float64 { return c.Layers[0].Top }

// Validate says what is wrong with a column: a missing layer, layers that
// leave a gap, a value out of its range. The error names the field.
func (c Column) Validate() error {
	if len(c.Layers) == 0 {
		return fmt.Errorf("earth: layers: none given, at least one is needed")
	}
	err := limit.First(
		limit.Within("q", c.Q, 0, maxLoad, quantity.Pressure),
		limit.Within("beta", c.Beta, -math.Pi/2, math.Pi/2, quantity.Angle),
		limit.Within("k_floor", c.KFloor, 0, maxFloor, quantity.None),
		limit.Within("left", c.Left, 0, maxLeft, quantity.None))
	if err != nil {
		return err
	}
	if math.IsNaN(c.Water) || c.Water > maxLevel {
		return &limit.Error{Field: "water", Value: c.Water, Lo: math.Inf(-1), Hi: maxLevel, Kind: quantity.Length}
	}
	for i := range c.Layers {
		l := &c.Layers[i]
		if err := l.validate(c.Water); err != nil {
			return limit.In(fmt.Sprintf("layers[%d]", i), err)
		}
		if i > 0 && math.Abs(l.Top-c.Layers[i-1].Bottom) > seam {
			b := c.Layers[i-1].Bottom
			return &limit.Error{Field: fmt.Sprintf("layers[%d].top", i), Value: l.Top, Lo: b, Hi: b, Kind: quantity.Length,
				Why: "layers must meet"}
		}
	}
	return nil
}

// validate checks one layer; the saturated unit weight matters only where
// water reaches into the layer.
func (l *Layer) validate(water float64) error {
	err := limit.First(
		limit.Within("top", l.Top, -maxLevel, maxLevel, quantity.Length),
		limit.Within("bottom", l.Bottom, -maxLevel, maxLevel, quantity.Length),
		limit.Positive("gamma", l.Gamma, quantity.UnitWeight),
		limit.Within("gamma", l.Gamma, 0, maxGamma, quantity.UnitWeight),
		limit.Within("phi", l.Phi, 0, maxPhi, quantity.Angle),
		limit.Within("cohesion", l.Cohesion, 0, maxCohesion, quantity.Pressure),
		limit.Within("ocr", l.OCR, 1, maxOCR, quantity.None))
	if err != nil {
		return err
	}
	if l.Top <= l.Bottom {
		return &limit.Error{Field: "top", Value: l.Top, Lo: l.Bottom, Hi: maxLevel, Kind: quantity.Length,
			Why: "a layer must have thickness"}
	}
	if water <= l.Bottom {
		return limit.Finite("gamma_sat", l.GammaSat, quantity.UnitWeight)
	}
	err = limit.Within("gamma_sat", l.GammaSat, math.Max(GammaW, l.Gamma), maxGamma, quantity.UnitWeight)
	if e, ok := err.(*limit.Error); ok {
		e.Why = "saturated soil is no lighter than moist soil or water"
	}
	return err
}

// coefficients gives what turns vertical into horizontal effective stress in
// a layer: sh = k sv - drop. A surface that rises makes the thrust parallel to
// it; k is then for the horizontal part. Cohesion is counted in the active
// state only, by Bell for level ground, which takes off less than a sloping
// surface would.
func (l *Layer) coefficients(st State, beta float64) (k, drop float64, err error) {
	switch st {
	case AtRest:
		k, err = K0Slope(l.Phi, l.OCR, beta)
		return k, 0, err
	case Active:
		if k, err = RankineKaSlope(l.Phi, beta); err != nil {
			return 0, 0, err
		}
		level, err := RankineKa(l.Phi)
		if beta > 0 {
			k *= math.Cos(beta)
		}
		return k, 2 * l.Cohesion * math.Sqrt(level), err
	}
	return 0, 0, fmt.Errorf("earth: state = %d: neither at rest nor active", st)
}
