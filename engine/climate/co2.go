package climate

import (
	"math"

	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// Limits of carbon dioxide in the air, shares by volume.
const (
	CO2Preferred = 0.005 // preferably below (FEMA 453 1.7, verified); OSHA over 8 h (memory)
	CO2Weighted  = 0.01  // time-weighted (NIOSH criteria 76-194, verified)
	CO2Two       = 0.02
	CO2Ceiling   = 0.03 // for 10 minutes at the most (NIOSH), never more (FEMA 453)

	CO2Outside = 0.0004 // of the air outside
	Oxygen     = 0.2095 // of the air outside
	// OxygenLeast is the share below which air counts as short of oxygen (many
	// regulations, verified).
	OxygenLeast = 0.195

	// ShelterAir is what one person in a shelter is given, m3/s: 5 cfm (FEMA 453
	// 1.7 quoting ASHRAE 62-1981, verified); it holds carbon dioxide near 0.25 %.
	ShelterAir = 5 * 0.3048 * 0.3048 * 0.3048 / 60

	srcCO2   = "V·dC/dt = N·G − Q·(C − C0) (derived)"
	srcLimit = "1 % time-weighted, 3 % for ten minutes (NIOSH criteria 76-194, verified); preferably below 0.5 % (FEMA 453, verified)"
)

var srcFEMA = q.Text(ShelterAir, q.AirFlow) + " a person holds carbon dioxide near 0.25 % (FEMA 453 1.7, verified)"

// People are in a room with its air.
type People struct {
	Volume float64 // of the air, m3
	N      float64 // how many
	CO2    float64 // that each breathes out, m3/s
	Start  float64 // share of carbon dioxide at the start and outside
}

func (p *People) validate() error {
	return limit.First(
		limit.Within("volume", p.Volume, 0.1, 1e6, q.Volume),
		limit.Within("people", p.N, 0, 1e5, q.None),
		limit.Within("carbon dioxide of one", p.CO2, 1e-7, 1e-3, q.AirFlow),
		limit.Within("carbon dioxide at the start", p.Start, 0, 0.1, q.Share))
}

func airFlow(flow float64) error { return limit.Within("flow", flow, 0, 1e3, q.AirFlow) }

// At is the share of carbon dioxide after a time, s, with a flow of fresh air,
// m3/s; without one the room is closed.
func (p People) At(seconds, flow float64) (float64, error) {
	if err := limit.First(p.validate(), airFlow(flow), limit.Within("time", seconds, 0, 1e10, q.Duration)); err != nil {
		return 0, err
	}
	if flow == 0 {
		return p.Start + p.N*p.CO2*seconds/p.Volume, nil
	}
	steady := p.Start + p.N*p.CO2/flow
	return steady + (p.Start-steady)*math.Exp(-flow*seconds/p.Volume), nil
}

// Steady is the share that it comes to with a flow of fresh air, m3/s; +Inf
// without one.
func (p People) Steady(flow float64) (float64, error) {
	if err := limit.First(p.validate(), airFlow(flow)); err != nil || p.N == 0 {
		return p.Start, err
	}
	return p.Start + p.N*p.CO2/flow, nil
}

// Seconds is the time until a share is reached, s; +Inf where it never is.
func (p People) Seconds(share, flow float64) (float64, error) {
	if err := limit.First(p.validate(), airFlow(flow), limit.Within("share", share, p.Start, 1, q.Share)); err != nil {
		return 0, err
	}
	give := p.N * p.CO2
	switch {
	case share == p.Start:
		return 0, nil
	case give == 0:
		return math.Inf(1), nil
	case flow == 0:
		return (share - p.Start) * p.Volume / give, nil
	case p.Start+give/flow <= share:
		return math.Inf(1), nil
	}
	return -p.Volume / flow * math.Log(1-(share-p.Start)*flow/give), nil
}

// OxygenAt is the share of oxygen left where carbon dioxide has reached a share,
// with the oxygen taken in over the carbon dioxide breathed out.
func (p People) OxygenAt(share, ratio float64) (float64, error) {
	err := limit.First(p.validate(), limit.Within("share", share, p.Start, 0.15, q.Share), limit.Within("ratio", ratio, 0.8, 2, q.None))
	return Oxygen - (share-p.Start)*ratio, err
}

// Breath is what a person of a body surface, m2, takes in and breathes out,
// m3/s, at an activity in met and a respiratory quotient (ASTM D6245 / ASHRAE
// 62.1, memory).
func Breath(met, skin, quotient float64) (o2, co2 float64, err error) {
	err = limit.First(limit.Within("activity", met, 0.5, 10, q.None), limit.Within("skin", skin, 0.3, 3, q.Area), limit.Within("quotient", quotient, 0.7, 1.1, q.None))
	o2 = 0.00276e-3 * skin * met / (0.23*quotient + 0.77)
	return o2, quotient * o2, err
}
