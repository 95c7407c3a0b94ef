package climate

import (
	"math"

	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// Magnus over water (WMO-No. 8 annex 4.B as quoted by an instrument manual,
// verified): 0.3 % below steam tables at 20 °C.
const (
	magnusE = 611.2  // Pa
	magnusA = 17.62  //
	magnusB = 243.12 // °C

	srcMagnus = "Magnus, WMO-No. 8 annex 4.B as quoted by an instrument manual (verified)"
)

var srcInside = "inside surface in one dimension, ISO 13788 (memory); ISO takes " + q.Text(0.25, q.Insulation) + " against mould, " + q.Text(0.13, q.Insulation) + " is used here"

// MouldHumidity is the humidity at a surface up to which mould is not expected
// (ISO 13788, memory).
const MouldHumidity = 0.8

// Saturation is the pressure of vapour over water, Pa.
func Saturation(t float64) (float64, error) {
	return saturation(t), limit.Within("temperature", t, -45, 60, q.Temperature)
}

func saturation(t float64) float64 { return magnusE * math.Exp(magnusA*t/(magnusB+t)) }

// saturatedAt is the temperature at which vapour of a pressure, Pa, saturates.
func saturatedAt(p float64) float64 {
	g := math.Log(p / magnusE)
	return magnusB * g / (magnusA - g)
}

func humid(field string, rh float64) error { return limit.Within(field, rh, 0.01, 1, q.Share) }

// Air is air at a temperature, °C, with a relative humidity.
type Air struct {
	T  float64
	RH float64
}

func (a *Air) validate() error {
	return limit.First(limit.Within("temperature", a.T, -45, 60, q.Temperature), humid("humidity", a.RH))
}

// Vapour is the pressure of its vapour, Pa.
func (a Air) Vapour() (float64, error) { return a.RH * saturation(a.T), a.validate() }

// DewPoint is the temperature at which its vapour turns to water, °C.
func (a Air) DewPoint() (float64, error) { return a.wetAt(1) }

// MouldPoint is the temperature of a surface at which the humidity there is 80 %, °C.
func (a Air) MouldPoint() (float64, error) { return a.wetAt(MouldHumidity) }

func (a *Air) wetAt(rh float64) (float64, error) {
	if err := a.validate(); err != nil {
		return 0, err
	}
	return saturatedAt(a.RH * saturation(a.T) / rh), nil
}

// Surface is the temperature of an inside surface, °C: a room at ti, what is
// cold behind it at te, a surface resistance rsi and r between, m2K/W.
func Surface(ti, te, rsi, r float64) (float64, error) {
	err := limit.First(degrees("inside", ti), degrees("outside", te), limit.Within("rsi", rsi, 0.01, 1, q.Insulation), limit.Within("r", r, 0, 50, q.Insulation))
	return ti - (ti-te)*rsi/(rsi+r), err
}

// ResistanceFor is the least resistance, m2K/W, between a surface and what is
// cold behind it, with which the surface is no colder than least, °C; 0 where
// none is needed. A surface as warm as the room is refused: no resistance does.
func ResistanceFor(ti, te, least, rsi float64) (float64, error) {
	err := limit.First(degrees("inside", ti), degrees("outside", te), degrees("least", least), limit.Within("rsi", rsi, 0.01, 1, q.Insulation))
	if err != nil {
		return 0, err
	}
	if te >= least {
		return 0, nil
	}
	if !(least < ti-1e-6) {
		return 0, &limit.Error{Field: "least", Value: least, Lo: coldest, Hi: ti, Kind: q.Temperature, Why: "no insulation makes a surface warmer than the room: dry the air"}
	}
	return rsi * ((ti-te)/(ti-least) - 1), nil
}
