package climate

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	gasVapour  = 461.5  // J/kgK
	evaporate  = 2.43e6 // J/kg, at the temperature of the skin
	srcMoist   = "vapour as an ideal gas with saturation by Magnus; walls take up nothing (derived)"
	srcLatent  = "45 W of latent heat, 2.43 MJ/kg (ASHRAE Fundamentals 2009/2013 ch. 18 table 1, verified)"
	srcDensity = "vapour as an ideal gas (derived)"
)

// Water is the water in air, kg/m3.
func (a Air) Water() (float64, error) { return a.water(), a.validate() }

func (a *Air) water() float64 { return a.RH * saturation(a.T) / (gasVapour * (a.T + kelvin)) }

// Sweat is the moisture of n people who each give off latent heat, W, kg/s.
func Sweat(n, latent float64) (float64, error) {
	err := limit.First(limit.Within("people", n, 0, 1e5, q.None), limit.Within("latent", latent, 0, 1000, q.Power))
	return n * latent / evaporate, err
}

// Damp is a room that moisture is given off in.
type Damp struct {
	Volume float64 // of its air, m3
	Room   Air     // at the start
	Give   float64 // moisture, kg/s
}

func (d *Damp) validate() error {
	return limit.First(limit.Within("volume", d.Volume, 0.1, 1e6, q.Volume), d.Room.validate(), limit.Within("moisture", d.Give, 0, 1, q.Moisture))
}

// SecondsToWet is the time until the air of the closed room is saturated, s;
// +Inf where nothing is given off.
func (d Damp) SecondsToWet() (float64, error) {
	if err := d.validate(); err != nil {
		return 0, err
	}
	full := Air{d.Room.T, 1}
	missing := (full.water() - d.Room.water()) * d.Volume
	if missing == 0 {
		return 0, nil
	}
	return check.Over(missing, d.Give), nil
}

// Steady is the water in the air that it comes to with a flow of air from
// outside, m3/s, if nothing turned to water, kg/m3. Above that of saturated air
// in the room it does.
func (d Damp) Steady(outside Air, flow float64) (float64, error) {
	if err := limit.First(d.validate(), outside.validate(), limit.Within("flow", flow, 1e-6, 1e3, q.AirFlow)); err != nil {
		return 0, err
	}
	return outside.water() + d.Give/flow, nil
}

// FlowFor is the air from outside that holds the humidity of the room at a
// share, m3/s. ok is false where the air outside holds as much water: no flow does.
func (d Damp) FlowFor(outside Air, humidity float64) (flow float64, ok bool, err error) {
	if err := limit.First(d.validate(), outside.validate(), humid("humidity", humidity)); err != nil {
		return 0, false, err
	}
	held := Air{d.Room.T, humidity}
	takes := held.water() - outside.water()
	if takes <= 0 {
		return math.Inf(1), d.Give == 0, nil
	}
	return d.Give / takes, true, nil
}
