package seepage

// Sums is where the water of a section goes, m3/s per m.
type Sums struct {
	In     float64   // that enters at the ends and at held places
	Out    float64   // that leaves at the ends and at held places
	Drains []float64 // that each drain takes
	// Within is what comes to the surface between two places along the section,
	// Beyond elsewhere.
	Within, Beyond float64
	Rain           float64 // recharge taken in
}

// Balance is what the sums miss: zero but for rounding and what is not settled.
func (s *Sums) Balance() float64 {
	b := s.In + s.Rain - s.Out - s.Within - s.Beyond
	for _, q := range s.Drains {
		b -= q
	}
	return b
}

// Sum adds up the flow; lo and hi bound what counts as within.
func (f *Flow) Sum(lo, hi float64) Sums {
	m := f.Mesh
	out := Sums{Drains: make([]float64, len(m.drains)), Rain: f.Rain}
	drain := make(map[int]int, len(m.drains))
	for k, n := range m.drains {
		if n >= 0 {
			drain[n] = k
		}
	}
	for n, q := range f.Out {
		if q == 0 {
			continue
		}
		k, isDrain := drain[n]
		x := m.Nodes[n][0]
		switch {
		case isDrain:
			out.Drains[k] += q
		case f.s.hold[n] != given && x > lo && x < hi:
			out.Within += q
		case f.s.hold[n] != given:
			out.Beyond += q
		case q < 0:
			out.In -= q
		default:
			out.Out += q
		}
	}
	return out
}
