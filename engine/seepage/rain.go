package seepage

import "math"

// shower is the recharge that falls on the reach of every line.
func (s *solver) shower() {
	w := s.m.domain.Recharge
	if w == 0 {
		return
	}
	ls := s.m.Lines
	for i := 1; i < len(ls); i++ {
		half := w * (ls[i].X - ls[i-1].X) / 2
		s.rain[i-1] += half
		s.rain[i] += half
	}
}

// pour brings the recharge of every line to its free surface, into s.rhs, and
// gives the sum.
func (s *solver) pour(h []float64) float64 {
	clear(s.rhs)
	sum := 0.0
	for i, w := range s.rain {
		if w == 0 {
			continue
		}
		lo, hi, t := s.m.surface(s.m.Lines[i], h)
		// no more comes down than the tightest ground on the way lets through; the
		// rest runs off
		w = math.Min(w, s.m.grid.lets[hi]*w/s.m.domain.Recharge)
		sum += w
		s.rhs[lo] += w * (1 - t) / s.size
		s.rhs[hi] += w * t / s.size
	}
	return sum
}
