package climate

import (
	"math"

	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// Ground is the temperature of wide, level ground over the year: a wave that
// goes down from the surface (Hillel's form, Oklahoma State soil physics,
// verified; the same as Kusuda-Achenbach, memory).
type Ground struct {
	Mean        float64 // of the year at the surface, °C
	Swing       float64 // half the range of the surface over the year, K
	Coldest     float64 // day of the year when the surface is coldest, 0 to 365
	Diffusivity float64 // m2 a day
}

func (g *Ground) validate() error {
	return limit.First(degrees("mean", g.Mean),
		limit.Within("swing", g.Swing, 0, 60, q.Warmth),
		limit.Within("coldest", g.Coldest, 0, year, q.None),
		limit.Within("diffusivity", g.Diffusivity, 1e-3, 1, q.None))
}

// Damping is the depth over which the swing falls to 1/e, m.
func (g Ground) Damping() (float64, error) { return g.damping(), g.validate() }

func (g *Ground) damping() float64 { return math.Sqrt(year * g.Diffusivity / math.Pi) }

// At is the temperature at a depth, m, on a day of the year, °C.
func (g Ground) At(depth, dayOfYear float64) (float64, error) {
	err := limit.First(g.validate(), limit.Within("depth", depth, 0, 100, q.Length), limit.Within("day", dayOfYear, -year, 20*year, q.None))
	if err != nil {
		return 0, err
	}
	z := depth / g.damping()
	return g.Mean - g.Swing*math.Exp(-z)*math.Cos(2*math.Pi/year*(dayOfYear-g.Coldest)-z), nil
}

// Least is the lowest temperature of the year at a depth, °C, and the day on
// which it is reached.
func (g Ground) Least(depth float64) (temperature, dayOfYear float64, err error) {
	if temperature, err = g.At(depth, g.Coldest+depth/g.damping()*year/(2*math.Pi)); err != nil {
		return 0, 0, err
	}
	return temperature, math.Mod(g.Coldest+depth/g.damping()*year/(2*math.Pi), year), nil
}

// Most is the highest temperature of the year at a depth, °C.
func (g Ground) Most(depth float64) (float64, error) {
	least, _, err := g.Least(depth)
	return 2*g.Mean - least, err
}

// ZeroDepth is the depth below which the ground never reaches 0 °C by
// conduction alone, without the heat of freezing, m. ok is false where the mean
// is at or below 0 °C: it freezes however deep.
func (g Ground) ZeroDepth() (depth float64, ok bool, err error) {
	if err := g.validate(); err != nil {
		return 0, false, err
	}
	switch {
	case g.Mean <= 0:
		return 0, false, nil
	case g.Swing <= g.Mean:
		return 0, true, nil
	}
	return g.damping() * math.Log(g.Swing/g.Mean), true, nil
}
