package seepage

import (
	"fmt"
	"math"
	"slices"
)

// Where thin films of water run down a tight layer the plain iteration swings
// without end: the flow there hangs on the depth of the film, not on the slope
// of its surface. Such sections are solved by Newton's method with the exact
// derivatives, at first with every edge wet by the head of the corner that its
// water comes from, which settles nearly always but lets too much flow; then,
// from there, without that lean.

// newton is the state of that iteration.
type newton struct {
	s    *solver
	lo   []float64 // foot and height of every triangle
	high []float64
	area []float64 // of ground about every node, m2
	f    []float64 // what leaves a node less what is poured in
	fell []float64 // where the recharge falls, in units of rhs
	rain float64   // its sum, m3/s per m
	// lean is the part of its head that wets an edge which is that of the corner
	// the water comes from; the rest is that of the other corner.
	lean         float64
	whole        bool // with edges whose conductance is below zero
	lower, upper []float64
}

// drip is dryShare for upstream weighting: with less it settles less often.
const drip = 1e-3

// wetness is the share of a height w above lo that lies below a head, with a
// smooth start and end, and its derivative.
func wetness(h, lo, w float64) (share, slope float64) {
	u := (h - lo) / w
	switch {
	case u <= 0:
		return drip, 0
	case u >= 1:
		return 1, 0
	}
	return drip + (1-drip)*u*u*(3-2*u), (1 - drip) * 6 * u * (1 - u) / w
}

func (s *solver) newton() *newton {
	n, m := len(s.rhs), len(s.m.Tris)
	w := &newton{s: s, lean: 1, f: make([]float64, n), area: make([]float64, n), lo: make([]float64, m), high: make([]float64, m)}
	w.lower, w.upper = s.eq, make([]float64, len(s.eq))
	for k := range s.m.Tris {
		t := &s.m.Tris[k]
		z0, z1, z2 := s.m.Nodes[t.N[0]][1], s.m.Nodes[t.N[1]][1], s.m.Nodes[t.N[2]][1]
		w.lo[k] = min(z0, z1, z2)
		w.high[k] = max(z0, z1, z2) - w.lo[k]
		for _, n := range t.N {
			w.area[n] += s.el[k].area / 3
		}
	}
	return w
}

// link is what flows along an edge of triangle k, from its corner i to its
// corner j, with its derivatives by the two heads. It is wet by the head it
// comes from, or leans to it. Unless whole, edges whose conductance is below
// zero, in triangles too flat, are left out: then every derivative has the sign
// that lets the heads settle.
func (w *newton) link(k, i, j int, h []float64) (q, di, dj float64) {
	t := &w.s.m.Tris[k]
	c := -w.s.el[k].k[edgeOf[i]] / w.s.size
	if c == 0 || c < 0 && !w.whole {
		return 0, 0, 0
	}
	hi, hj := h[t.N[i]], h[t.N[j]]
	si, li := wetness(hi, w.lo[k], w.high[k])
	sj, lj := wetness(hj, w.lo[k], w.high[k])
	ai, aj := w.lean, 1-w.lean
	if hi < hj {
		ai, aj = aj, ai
	}
	share, fall := ai*si+aj*sj, c*(hi-hj)
	return share * fall, share*c + ai*li*fall, -share*c + aj*lj*fall
}

// edgeOf is the place in element.k of the edge from a corner to the next.
var edgeOf = [3]int{3, 4, 5}

// residual fills f and gives its sum over the free nodes.
func (w *newton) residual(h []float64) float64 {
	for n := range w.f {
		w.f[n] = -w.s.rhs[n]
	}
	for k := range w.s.m.Tris {
		t := &w.s.m.Tris[k]
		for i := range 3 {
			j := (i + 1) % 3
			q, _, _ := w.link(k, i, j, h)
			w.f[t.N[i]] += q
			w.f[t.N[j]] -= q
		}
	}
	sum := 0.0
	for n, v := range w.f {
		if !w.s.held(n) {
			sum += math.Abs(v)
		}
	}
	return sum
}

// step is the Newton step at h, whose residual is in f.
func (w *newton) step(h []float64, tau float64) ([]float64, bool) {
	line, is := &w.s.m.grid.line, w.s.is
	clear(w.lower)
	clear(w.upper)
	diagonal := func(n int32, v float64) { w.upper[line.at[n+1]-1] += v }
	for n := range is {
		is[n] = w.s.held(n)
	}
	for k := range w.s.m.Tris {
		t, slot := &w.s.m.Tris[k], &w.s.m.grid.slots[k]
		for c := range 3 {
			i, j := t.N[c], t.N[(c+1)%3]
			if is[i] && is[j] {
				continue
			}
			_, di, dj := w.link(k, c, (c+1)%3, h)
			if !is[i] {
				diagonal(i, di)
			}
			if !is[j] {
				diagonal(j, -dj)
			}
			if is[i] || is[j] {
				continue
			}
			// row i by head j, and row j by head i
			if p := slot[edgeOf[c]]; i < j {
				w.upper[p] += dj
				w.lower[p] -= di
			} else {
				w.lower[p] += dj
				w.upper[p] -= di
			}
		}
	}
	x := make([]float64, len(h))
	for n := range x {
		if is[n] {
			diagonal(int32(n), 1)
			continue
		}
		diagonal(int32(n), w.area[n]/tau)
		x[n] = -w.f[n]
	}
	return x, line.lu(w.lower, w.upper, x)
}

// settle solves by Newton's method from h, each step held back by a storage that
// is let go of as the flow comes to rest (pseudo-transient continuation, Kelley
// and Keyes 1998).
func (w *newton) settle(h []float64, rounds int) ([]float64, error) {
	s := w.s
	out := make([]float64, len(h))
	tau := firstTau
	change, turned := 0.0, 0
	for round := range rounds {
		part, move := late(round)
		w.shower(h, move)
		s.holdAll(h)
		now := w.residual(h)
		x, ok := w.step(h, tau)
		if !ok {
			return nil, fmt.Errorf("%w: %s", ErrUnsettled, contrast)
		}
		next := make([]float64, len(h))
		for n := range h {
			next[n] = h[n] + math.Max(-longest, math.Min(longest, part*x[n]))
		}
		then := w.residual(next)
		if then > 2*now && tau > leastTau {
			tau /= 4
			continue
		}
		w.outflow(out)
		change, turned = s.change(h, next), s.turn(next, out)
		h = next
		if turned == 0 && (change < settledHead*part && (tau > lastTau || then < balanced*w.through()) || round > eager && change < nearly && then < amiss*w.through()) {
			if s.sound(out) {
				return h, nil
			}
			s.shut(out)
		}
		tau *= math.Max(0.5, math.Min(4, 2*now/math.Max(then, 1e-300)))
		tau = math.Min(tau, mostTau)
	}
	return nil, restlessness(rounds, change)
}

// refine goes from the upstream heads nearer to the exact flow, as far as it
// settles: to heads of both corners alike, then to all edges. It tells whether
// it came all the way.
func (w *newton) refine(h []float64) ([]float64, bool) {
	for _, whole := range [2]bool{false, true} {
		before := *w
		open, fell, hold := slices.Clone(w.s.open), slices.Clone(w.fell), slices.Clone(w.s.hold)
		clear(w.s.turns)
		w.lean, w.whole = 0.5, whole
		next, err := w.settle(slices.Clone(h), fineRounds)
		if err != nil {
			*w = before
			w.s.open, w.fell, w.s.hold = open, fell, hold
			return h, false
		}
		h = next
	}
	return h, true
}

// late is what late rounds take, which go to and fro otherwise: of their step,
// and of the way of the rain to where it would fall by the heads of the round.
// In the end the rain stays where it is and steps are whole again.
func late(round int) (step, move float64) {
	switch round / eager {
	case 0:
		return 1, 1
	case 1:
		return 0.5, 0.5
	case 2:
		return 0.5, 0.1
	}
	return 1, 0
}

// shower pours the recharge on the free surface, of which late rounds move only
// a part from where it fell before: rain that jumps from one node to another
// and back would keep the heads moving for ever.
func (w *newton) shower(h []float64, part float64) {
	s := w.s
	sum := s.pour(h)
	if w.fell == nil {
		w.fell, w.rain, part = make([]float64, len(h)), sum, 1
	}
	w.rain += part * (sum - w.rain)
	for n, v := range s.rhs {
		w.fell[n] += part * (v - w.fell[n])
	}
	copy(s.rhs, w.fell)
}

// through is what leaves and enters at held nodes by the last residual.
func (w *newton) through() float64 {
	sum := 0.0
	for n, v := range w.f {
		if w.s.held(n) {
			sum += math.Abs(v)
		}
	}
	return sum
}

// holdAll sets the heads of the held nodes.
func (s *solver) holdAll(h []float64) {
	for n := range h {
		if s.held(n) {
			h[n] = s.head[n]
		}
	}
}

// outflow is what leaves at held nodes by the last residual.
func (w *newton) outflow(out []float64) {
	for n := range out {
		out[n] = 0
		if w.s.held(n) {
			out[n] = -w.f[n] * w.s.size
		}
	}
}

// flow is the flow at heads that settle has found.
func (w *newton) flow(h []float64) *Flow {
	s := w.s
	f := &Flow{Mesh: s.m, Head: h, Share: make([]float64, len(s.el)), Out: make([]float64, len(h)), s: s, Upstream: !w.whole, Rounds: maxRounds + upRounds}
	f.Rain = w.rain
	copy(s.rhs, w.fell)
	w.residual(h)
	w.outflow(f.Out)
	for i := range s.m.Tris {
		f.Share[i] = s.m.share(i, h)
	}
	return f
}

const (
	// The storage as a length, by the area of ground about a node: the larger,
	// the less it holds a step back.
	firstTau = 1.0
	leastTau = 1e-4
	lastTau  = 1e7
	mostTau  = 1e15
	longest  = 3.0 // m, longest step of a node
	upRounds = 500
	// fineRounds are those of each step of refine: it starts near
	fineRounds = 100
	eager      = 60   // rounds to each part of late
	nearly     = 5e-3 // m, movement of a late round that still passes: less than anyone reads off a pipe
	amiss      = 0.01 // of the flow through the section that a late round may leave unbalanced
	balanced   = 1e-4 // of the flow through the section that may be amiss
)
