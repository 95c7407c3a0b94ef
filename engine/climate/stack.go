package climate

import (
	"fmt"
	"math"

	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	gasAir   = 287.05   // J/kgK
	pressure = 101325.0 // Pa
	// Sharp is the discharge coefficient of a sharp-edged opening.
	Sharp = 0.65

	srcStack = "stack flow, ASHRAE Fundamentals 1997 p. 25.13 eq. 37 as quoted (verified); two openings in series (derived)"
)

// density is that of dry air at a temperature, °C, and sea level, kg/m3.
func density(t float64) float64 { return pressure / (gasAir * (t + kelvin)) }

// Openings are two openings one above the other, with air through one and out
// by the other.
type Openings struct {
	Low, High float64 // net free areas, m2
	Apart     float64 // height between their middles, m
	Cd        float64 // discharge coefficient, Sharp for a sharp edge
}

func (o *Openings) validate() error {
	return limit.First(
		limit.Within("low", o.Low, 1e-5, 20, q.Area),
		limit.Within("high", o.High, 1e-5, 20, q.Area),
		limit.Within("apart", o.Apart, 0, 30, q.Length),
		limit.Within("cd", o.Cd, 0.1, 1, q.None))
}

func temperatures(ti, to float64) error {
	return limit.First(degrees("inside", ti), degrees("outside", to))
}

// Effective is the area of one opening with the same resistance as both, m2.
func (o Openings) Effective() (float64, error) { return o.effective(), o.validate() }

func (o *Openings) effective() float64 { return o.Low * o.High / math.Hypot(o.Low, o.High) }

// Flow is the air that warmth drives through, m3/s: positive upwards, where the
// room is the warmer, and negative downwards. Without a difference of
// temperature there is none. Wind is left out.
func (o Openings) Flow(ti, to float64) (float64, error) {
	if err := limit.First(o.validate(), temperatures(ti, to)); err != nil {
		return 0, err
	}
	warm := math.Max(ti, to) + kelvin
	v := math.Sqrt(2 * gravity * o.Apart * math.Abs(ti-to) / warm)
	return math.Copysign(o.Cd*o.effective()*v, ti-to), nil
}

// Neutral is the height above the low opening at which the pressures inside and
// outside are the same, m.
func (o Openings) Neutral() (float64, error) {
	if err := o.validate(); err != nil {
		return 0, err
	}
	share := o.High * o.High / (o.High*o.High + o.Low*o.Low)
	return o.Apart * share, nil
}

// OneOpening is the flow through an opening of an area, m2, that lies a height
// above or below the neutral level, m, by ASHRAE's form, m3/s; positive out.
func OneOpening(area, height, cd, ti, to float64) (float64, error) {
	err := limit.First(limit.Within("area", area, 1e-5, 20, q.Area), limit.Within("height", height, 0, 30, q.Length), limit.Within("cd", cd, 0.1, 1, q.None), temperatures(ti, to))
	if err != nil || ti == to {
		return 0, err
	}
	return math.Copysign(cd*area*math.Sqrt(2*gravity*height*math.Abs(ti-to)/(math.Max(ti, to)+kelvin)), ti-to), nil
}

// AreaFor is the net free area of each of two equal openings that let a flow
// through, m2.
func AreaFor(flow, apart, cd, ti, to float64) (float64, error) {
	err := limit.First(limit.Within("flow", flow, 0, 100, q.AirFlow), limit.Within("apart", apart, 0.01, 30, q.Length), limit.Within("cd", cd, 0.1, 1, q.None), temperatures(ti, to))
	if err != nil {
		return 0, err
	}
	if math.Abs(ti-to) < 0.05 {
		return 0, fmt.Errorf("inside = %s and outside = %s: without a difference of %s or more no opening does", q.Typed.Text(ti, q.Temperature), q.Typed.Text(to, q.Temperature), q.Brief.Text(0.05, q.Warmth))
	}
	return flow * math.Sqrt2 / (cd * math.Sqrt(2*gravity*apart*math.Abs(ti-to)/(math.Max(ti, to)+kelvin))), nil
}
