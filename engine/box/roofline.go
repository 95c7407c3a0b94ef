package box

import (
	"math"

	"hillset/engine/frame"
)

// RoofPoint is a place of a roof strip under the governing combination of
// service loads.
type RoofPoint struct {
	S float64 // m across the span, from the left
	M float64 // kNm/m with the thrust on the bowed sheet; tension on the room side is positive
	W float64 // m downward, the initial sag not counted
}

// Line is the moment and the movement of a solved strip at each bay's ends and
// at inner points between them. The movement is that of the first order, grown
// by the thrust so that the largest is RoofResult.Deflection; the moment is in
// equilibrium with it: M = M1 + P·(w + sag). steady is false, and all movement
// 0, where the thrust reaches the Euler load of a bay: such a sheet finds no
// rest.
func (s RoofStrip) Line(r *RoofResult, inner int) (line []RoofPoint, steady bool, err error) {
	places, factor := s.places(), 1.0
	for _, c := range Allowable {
		if c.Name == r.ASD.Name {
			factor = c.L
		}
	}
	load := frame.Uniform(r.ASD.Q, s.Span)
	if len(s.Wheels) > 0 {
		load = frame.Add(load, s.Wheels.Scale(factor))
	}
	m, err := frame.Continuous(places, load, r.EI)
	if err != nil {
		return nil, false, err
	}
	p := s.Thrust.ASD
	steady = p < r.Strut.PE && !math.IsInf(r.Deflection, 0)
	grow, scale := 1.0, 0.0
	if steady {
		grow = 1 / (1 - p/r.Strut.PE)
		if w, _, _ := m.Sag(); w != 0 {
			scale = (r.Deflection - r.Sag*(grow-1)) / abs(w)
		}
	}
	for k := range m.Spans {
		b := &m.Spans[k]
		for i := range inner + 2 {
			x := b.L * float64(i) / float64(inner+1)
			bow := math.Sin(math.Pi * x / b.L)
			w := b.W(x)*scale + r.Sag*(grow-1)*bow
			line = append(line, RoofPoint{S: places[k] + x, M: b.M(x) + p*(w+r.Sag*bow), W: w})
		}
	}
	return line, steady, nil
}

// Euler is the thrust at which the longest bay of the roof buckles, kN/m.
func (r *RoofResult) Euler() float64 { return r.Strut.PE }
