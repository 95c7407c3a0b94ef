// Package drain works out what takes water away from the box and what happens
// when it stops: pipes, rock trenches and layers, filters, the outlet on the
// hillside, the swale above, the sump with its pump and battery, and the
// inflow to an open cut.
//
// All values are SI: m, m3/s, m/s, m2/s for a flow per metre, s, W, Wh; grain
// sizes in mm and shares as fractions. What is outside the range of a method
// is refused with an error that names field, value and range.
package drain

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/quantity"
)

const (
	gravity = 9.81         // m/s2
	density = 1000.0       // kg/m3
	gammaW  = earth.GammaW // kN/m3
	nu10    = 1.307e-6     // m2/s, kinematic viscosity of water at 10 °C
	srcFlow = "Manning (memory; the full-pipe table recomputed, derived)"
	most    = 1e3 // m3/s, above which no flow of a drain or swale lies
)

// condition is one of several conditions of a check, each with its own demand
// and capacity.
type condition struct {
	text             string
	formula, src     string
	demand, capacity quantity.Q
	remedy           string // {0} is remedyQ
	remedyQ          quantity.Q
}

func (c *condition) ratio() float64 { return check.Over(c.demand.Val, c.capacity.Val) }

// govern fills demand, capacity, ratio and remedy of a check from the worst of
// its conditions and adds a line for each.
func govern(c *check.Check, conds []condition) {
	c.Ratio, c.RatioLRFD = 0, math.NaN()
	worst := 0
	for i := range conds {
		k := &conds[i]
		r := k.ratio()
		c.Working = append(c.Working, check.Step(k.text, k.formula, k.src, quantity.Of("r", r, quantity.Ratio), k.demand, k.capacity))
		if r > c.Ratio {
			c.Ratio, worst = r, i
		}
	}
	k := &conds[worst]
	c.Demand, c.Capacity = k.demand, k.capacity
	if c.Ratio > 1 {
		c.Remedy, c.RemedyQ = k.remedy, nil
		if k.remedyQ.Kind != quantity.None {
			c.RemedyQ = []quantity.Q{k.remedyQ}
		}
	}
}
