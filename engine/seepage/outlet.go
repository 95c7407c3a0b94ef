package seepage

import "math"

// outflow is what leaves at held nodes.
func (s *solver) outflow(share, h, out []float64) {
	s.excess(share, h, out)
	for n := range out {
		if !s.held(n) {
			out[n] = 0
		}
	}
}

// excess is what the rain and the ground bring to every node: to nothing at free
// ones once the flow has settled.
func (s *solver) excess(share, h, out []float64) {
	for n := range out {
		out[n] = s.rhs[n] * s.size
	}
	for i := range s.m.Tris {
		t, e := &s.m.Tris[i], &s.el[i]
		for p, pq := range pairs {
			a, b := t.N[pq[0]], t.N[pq[1]]
			v := share[i] * e.k[p]
			out[a] -= v * h[b]
			if a != b {
				out[b] -= v * h[a]
			}
		}
	}
}

// restless is how often an outlet may turn before it is left open: what it
// then draws in is checked at the end, by sound.
const restless = 10

// turn opens outlets where the water stands above them and shuts those that
// would draw water in. It gives the number that turned.
func (s *solver) turn(h, out []float64) (turned int) {
	for n, k := range s.hold {
		if k != outlet || s.turns[n] >= restless && s.open[n] {
			continue
		}
		switch {
		case s.open[n] && out[n] < -leak*s.size:
			s.open[n] = false
			turned++
			s.turns[n]++
		case !s.open[n] && h[n] > s.head[n]+settledHead/10:
			s.open[n] = true
			turned++
			s.turns[n]++
		}
	}
	return turned
}

// leak is an inflow, over the largest permeability, that only rounding and the
// dry share make.
const leak = 1e-9

// sound tells whether outlets draw in next to nothing: those left open for their
// restlessness may.
func (s *solver) sound(out []float64) bool {
	through, drawn := 0.0, 0.0
	for n, q := range out {
		through += math.Abs(q)
		if s.hold[n] == outlet && q < 0 {
			drawn -= q
		}
	}
	return drawn <= drawnMost*through/2
}

// drawnMost is the share of the flow that outlets may draw in.
const drawnMost = 1e-2

// shut closes the outlets that draw in, for good: with the rest at rest their
// water would otherwise be let go and called back without end.
func (s *solver) shut(out []float64) {
	for n, q := range out {
		if s.hold[n] == outlet && q < 0 {
			s.hold[n], s.open[n] = free, false
		}
	}
}
