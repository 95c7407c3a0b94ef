// Package climate works out how deep frost goes, how warm ground and room are,
// where vapour turns to water on the steel, and how long the air of the room
// lasts: frost, heat, condensation and air of a box in the ground.
//
// All values are SI: m, s, W, W/mK, m2K/W, Pa, m3/s, kg/m3; temperatures are in
// °C, freezing indices in °C·days, days of the year from 1, shares as fractions.
// What is outside the range of a method is refused with an error that names
// field, value and range.
package climate

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	day     = 86400.0 // s
	year    = 365.0   // days
	kelvin  = 273.15  // K at 0 °C
	gravity = 9.81    // m/s2
)

// Temperatures of air and ground anywhere that people build, °C.
const (
	coldest = -70
	hottest = 70
)

func degrees(field string, v float64) error {
	return limit.Within(field, v, coldest, hottest, q.Temperature)
}

// judge fills demand, capacity and ratio of a check, and its remedy where it is
// beyond.
func judge(c *check.Check, demand, capacity q.Q, remedy string, values ...q.Q) {
	c.Demand, c.Capacity = demand, capacity
	c.Ratio, c.RatioLRFD = check.Over(demand.Val, capacity.Val), math.NaN()
	if c.Ratio > 1 {
		c.Remedy, c.RemedyQ = remedy, values
	}
}
