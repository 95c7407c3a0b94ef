package climate

import (
	"math"

	"hillset/engine/bisect"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	viscosityAir = 1.45e-5 // m2/s at 10 °C
	densityPipe  = 1.2     // kg/m3, in the losses of a pipe
	turbulent    = 2300.0  // Reynolds number above which the flow is turbulent

	srcPipes = "draught against losses of the pipes: 64/Re or Blasius (derived)"
)

// Pipes are two pipes of one bore, one low and one high, as the way of the air.
type Pipes struct {
	Bore      float64 // m
	Low, High float64 // lengths, m
	Apart     float64 // height between their outer ends, m
	Fittings  float64 // sum of the loss coefficients of one pipe: screen, bends, in and out
}

func (p *Pipes) validate() error {
	return limit.First(
		limit.Within("bore", p.Bore, 0.01, 2, q.Length),
		limit.Within("low length", p.Low, 0.01, 200, q.Length),
		limit.Within("high length", p.High, 0.01, 200, q.Length),
		limit.Within("apart", p.Apart, 0, 30, q.Length),
		limit.Within("fittings", p.Fittings, 0.5, 100, q.None))
}

// Draught is the pressure that drives the air, Pa: positive upwards, where the
// room is the warmer.
func (p Pipes) Draught(ti, to float64) (float64, error) {
	return p.draught(ti, to), limit.First(p.validate(), temperatures(ti, to))
}

func (p *Pipes) draught(ti, to float64) float64 {
	return (density(to) - density(ti)) * gravity * p.Apart
}

// Flow is the air through both pipes, m3/s, signed as the draught. At the
// change from laminar to turbulent flow, where the friction jumps, it is the
// lower of the two.
func (p Pipes) Flow(ti, to float64) (float64, error) {
	draught, err := p.Draught(ti, to)
	if err != nil || draught == 0 {
		return 0, err
	}
	v := bisect.Rising(0, 200, func(v float64) float64 { return p.loss(v) - math.Abs(draught) })
	return math.Copysign(v*math.Pi/4*p.Bore*p.Bore, draught), nil
}

// loss is what a velocity, m/s, loses in both pipes, Pa.
func (p *Pipes) loss(v float64) float64 {
	if v <= 0 {
		return 0
	}
	re := v * p.Bore / viscosityAir
	f := 64 / re
	if re > turbulent {
		f = 0.316 * math.Pow(re, -0.25)
	}
	return densityPipe * v * v / 2 * (2*p.Fittings + f*(p.Low+p.High)/p.Bore)
}
