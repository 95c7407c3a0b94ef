package seepage

import (
	"math"
	"slices"
)

// exact is Newton's method on the very equations of the plain iteration, with the
// exact derivatives of what triangles carry. From heads that are near it comes to
// the same flow in a few rounds; from others nowhere, as a triangle may carry
// less where heads that drive it rise.
type exact struct {
	s            *solver
	share        []float64 // of the triangles at the last heads
	left         []float64 // excess at the last heads, m3/s per m
	rain         float64   // m3/s per m
	lower, upper []float64
}

// Limits of that method.
const (
	exactRounds = 20
	patient     = 3    // rounds that do not halve what is amiss, on end
	hasty       = 1    // the same from a flow under other levels, which may lie far off
	halvings    = 2    // of a step after which more is amiss than before
	settledFlow = 1e-5 // of the flow through the section that may be amiss
	nudge       = 1e-7 // m, for the derivative of a share
)

// exactly looks for the flow from h by exact, with some patience.
func (s *solver) exactly(h []float64, patience int) (*Flow, bool) {
	return s.attempt(func() (*Flow, bool) {
		w := &exact{s: s, share: make([]float64, len(s.el)), left: make([]float64, len(h)), lower: s.eq, upper: make([]float64, len(s.eq))}
		return w.settle(slices.Clone(h), patience)
	})
}

func (w *exact) settle(h []float64, patience int) (*Flow, bool) {
	s, slow := w.s, 0
	f := &Flow{Mesh: s.m, s: s, Out: make([]float64, len(h)), Share: w.share}
	before, _ := w.see(h)
	for range exactRounds {
		s.count++
		x, ok := w.step(h)
		if !ok {
			return nil, false
		}
		next, amiss, through := w.search(h, x, before)
		f.Change = s.change(h, next)
		h = next
		for n, v := range w.left {
			f.Out[n] = 0
			if s.held(n) {
				f.Out[n] = v
			}
		}
		turned := s.turn(h, f.Out)
		if turned == 0 && f.Change < settledHead && amiss < settledFlow*through && s.sound(f.Out) {
			f.Head, f.Rain, f.Rounds = h, w.rain, s.count
			return f, true
		}
		if turned > 0 {
			amiss, _ = w.see(h)
		}
		if slow++; amiss < before/2 {
			slow = 0
		}
		if slow > patience {
			break
		}
		before = amiss
	}
	return nil, false
}

// search goes the step x from h, or less of it where more would be amiss then.
func (w *exact) search(h, x []float64, before float64) (next []float64, amiss, through float64) {
	next, part := make([]float64, len(h)), 1.0
	for range halvings + 1 {
		for n := range h {
			next[n] = w.s.stepped(n, h[n], part*x[n])
		}
		if amiss, through = w.see(next); amiss < before {
			break
		}
		part /= 2
	}
	return next, amiss, through
}

// see takes the heads of held nodes into h, works out what the triangles carry
// and what is left at every node, and gives what is amiss at free ones and
// passes held ones in all.
func (w *exact) see(h []float64) (amiss, through float64) {
	s := w.s
	s.holdAll(h)
	for k := range s.el {
		w.share[k] = s.m.share(k, h)
	}
	w.rain = s.pour(h)
	s.excess(w.share, h, w.left)
	for n, v := range w.left {
		if s.held(n) {
			through += math.Abs(v)
		} else {
			amiss += math.Abs(v)
		}
	}
	return amiss, through
}

// step is the Newton step at h, which see has seen.
func (w *exact) step(h []float64) ([]float64, bool) {
	s, line, is := w.s, &w.s.m.grid.line, w.s.is
	clear(w.lower)
	clear(w.upper)
	for n := range is {
		is[n] = s.held(n)
	}
	for k := range s.m.Tris {
		t, e, slot := &s.m.Tris[k], &s.el[k], &s.m.grid.slots[k]
		f := w.share[k] / s.size
		for p, pq := range pairs {
			if a, b := t.N[pq[0]], t.N[pq[1]]; !is[a] && !is[b] {
				v := f * e.k[p]
				w.upper[slot[p]] += v
				if a != b {
					w.lower[slot[p]] += v
				}
			}
		}
		if w.share[k] > dryShare && w.share[k] < 1 {
			w.bend(k, h)
		}
	}
	x := make([]float64, len(h))
	for n := range x {
		if is[n] {
			w.upper[line.at[n+1]-1] = 1
			continue
		}
		x[n] = w.left[n] / s.size
	}
	return x, line.lu(w.lower, w.upper, x)
}

// bend adds what triangle k carries more as its share rises with the heads of its
// corners.
func (w *exact) bend(k int, h []float64) {
	s, line, is := w.s, &w.s.m.grid.line, w.s.is
	t, e := &s.m.Tris[k], &s.el[k]
	var drives [3]float64 // what leaves each corner if all is wet
	for p, pq := range pairs {
		a, b := pq[0], pq[1]
		drives[a] += e.k[p] * h[t.N[b]]
		if a != b {
			drives[b] += e.k[p] * h[t.N[a]]
		}
	}
	for _, n := range t.N {
		if is[n] {
			continue
		}
		was := h[n]
		h[n] = was + nudge
		d := s.m.share(k, h)
		h[n] = was - nudge
		d -= s.m.share(k, h)
		h[n] = was
		d /= 2 * nudge * s.size
		for c, m := range t.N {
			switch v := d * drives[c]; {
			case is[m]:
			case m == n:
				w.upper[line.at[n+1]-1] += v
			case m < n: // row m by head n
				w.upper[line.place(m, n)] += v
			default:
				w.lower[line.place(n, m)] += v
			}
		}
	}
}
