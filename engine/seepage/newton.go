package seepage

import (
	"fmt"
	"math"
)

// Where thin films of water run down a tight layer the plain iteration swings
// without end: the flow there hangs on the depth of the film, not on the slope
// of its surface. Such sections are led to their flow by Newton's method on
// equations that are made for it; near there exact takes over. What an edge carries is its conductance times the mean of its
// wetness over all heads between those of its corners (Kirchhoff 1894): then it
// rises with the one head and falls with the other wherever they are, which a
// wetness from the two heads alone does not.

// newton is the state of that iteration.
type newton struct {
	s     *solver
	lo    []float64 // foot and height of every triangle
	high  []float64
	stiff []float64 // what a head of one drives from every node when all is wet, in units of rhs
	f     []float64 // what leaves a node less what is poured in
	fell  []float64 // where the recharge falls, in units of rhs
	rain  float64   // its sum, m3/s per m
	// flat is how much edges whose conductance is below zero, in triangles too
	// flat, count: with none of them every derivative has the sign that lets the
	// heads settle, but more flows than should.
	flat         float64
	lower, upper []float64
}

// drip is dryShare for Newton's method: with less it settles less often.
const drip = 1e-3

// wetted is the integral over the head of the wetness of a triangle that reaches
// from lo up by w, and the wetness itself: the share of its height below the
// head, with a smooth start and end.
func wetted(h, lo, w float64) (sum, share float64) {
	u := (h - lo) / w
	switch {
	case u <= 0:
		return w * drip * u, drip
	case u >= 1:
		return w * (drip + (1-drip)/2 + u - 1), 1
	}
	return w * (drip*u + (1-drip)*u*u*u*(1-u/2)), drip + (1-drip)*u*u*(3-2*u)
}

func (s *solver) newton(flat float64) *newton {
	n, m := len(s.rhs), len(s.m.Tris)
	w := &newton{s: s, flat: flat, f: make([]float64, n), stiff: make([]float64, n), lo: make([]float64, m), high: make([]float64, m)}
	w.lower, w.upper = s.eq, make([]float64, len(s.eq))
	for k := range s.m.Tris {
		t := &s.m.Tris[k]
		z0, z1, z2 := s.m.Nodes[t.N[0]][1], s.m.Nodes[t.N[1]][1], s.m.Nodes[t.N[2]][1]
		w.lo[k] = min(z0, z1, z2)
		w.high[k] = max(z0, z1, z2) - w.lo[k]
		for c, n := range t.N {
			w.stiff[n] += s.el[k].k[c] / s.size
		}
	}
	return w
}

// link is the conductance of triangle k along its edge from corner c to the next.
func (w *newton) link(k, c int) float64 {
	v := -w.s.el[k].k[edgeOf[c]] / w.s.size
	if v < 0 {
		return w.flat * v
	}
	return v
}

// edgeOf is the place in element.k of the edge from a corner to the next.
var edgeOf = [3]int{3, 4, 5}

// wet gives for the corners of triangle k the integral of its wetness over the
// head, and the wetness.
func (w *newton) wet(k int, h []float64) (sum, share [3]float64) {
	for c, n := range w.s.m.Tris[k].N {
		sum[c], share[c] = wetted(h[n], w.lo[k], w.high[k])
	}
	return sum, share
}

// residual fills f and gives its sum over the free nodes.
func (w *newton) residual(h []float64) float64 {
	for n := range w.f {
		w.f[n] = -w.s.rhs[n]
	}
	for k := range w.s.m.Tris {
		t := &w.s.m.Tris[k]
		sum, _ := w.wet(k, h)
		for i := range 3 {
			j := (i + 1) % 3
			q := w.link(k, i) * (sum[i] - sum[j])
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
		_, share := w.wet(k, h)
		for c := range 3 {
			i, j := t.N[c], t.N[(c+1)%3]
			if is[i] && is[j] {
				continue
			}
			v := w.link(k, c)
			di, dj := v*share[c], v*share[(c+1)%3]
			if !is[i] {
				diagonal(i, di)
			}
			if !is[j] {
				diagonal(j, dj)
			}
			if is[i] || is[j] {
				continue
			}
			// row i by head j, and row j by head i
			if p := slot[edgeOf[c]]; i < j {
				w.upper[p] -= dj
				w.lower[p] -= di
			} else {
				w.lower[p] -= dj
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
		diagonal(int32(n), w.stiff[n]/tau)
		x[n] = -w.f[n]
	}
	return x, line.lu(w.lower, w.upper, x)
}

// settle solves by Newton's method from h, each step held back by a storage that
// is let go of as the flow comes to rest (pseudo-transient continuation, Kelley
// and Keyes 1998). tau is the first: the nearer h lies, the larger.
func (w *newton) settle(h []float64, tau float64, rounds int) ([]float64, error) {
	s := w.s
	out := make([]float64, len(h))
	change, turned := 0.0, 0
	for round := range rounds {
		s.count++
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
			next[n] = w.s.stepped(n, h[n], part*x[n])
		}
		then := w.residual(next)
		if then > worse*now && tau > leastTau {
			tau /= 4
			continue
		}
		w.outflow(out)
		change, turned = s.change(h, next), s.turn(next, out)
		h = next
		if turned == 0 && (change < settledHead*part && then < balanced*w.through()+leak || round > eager && change < nearly && then < amiss*w.through()) {
			if s.sound(out) {
				return h, nil
			}
			s.shut(out)
		}
		tau *= math.Max(0.5, math.Min(4, 1.5*now/math.Max(then, 1e-300)))
		tau = math.Min(tau, mostTau)
	}
	return nil, restlessness(s.count, change)
}

// stepped is the head of node n after a step: no longer than longest, and no
// higher than a little above the node where it was dry. What stands dry is all
// but cut off, and would leap far beyond where it comes to.
func (s *solver) stepped(n int, h, step float64) float64 {
	next, z := h+math.Max(-longest, math.Min(longest, step)), s.m.Nodes[n][1]
	if h < z {
		return math.Min(next, z+leap)
	}
	return next
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
	f := &Flow{Mesh: s.m, Head: h, Share: make([]float64, len(s.el)), Out: make([]float64, len(h)), s: s, Along: true, Rough: w.flat < 1, Rounds: s.count}
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
	// The storage as a share of what a node drives when all is wet: the larger
	// tau, the less it holds a step back.
	firstTau = 10.0
	nearTau  = 1e4 // from where the plain iteration was left
	likeTau  = 1e6 // from a flow under other levels
	leastTau = 1e-4
	mostTau  = 1e15
	worse    = 10.0 // how much more may be amiss after a step
	longest  = 1.0  // m, longest step of a node
	leap     = 0.05 // m, how far above itself a step may bring the head of a dry node
	// Rounds for all edges from ground that is wet all over, without the edges
	// below zero, and with more of them from there: it starts near.
	wholeRounds = 150
	bareRounds  = 500
	fineRounds  = 100
	nearRounds  = 30
	likeRounds  = 12
	eager       = 60    // rounds to each part of late
	nearly      = 5e-3  // m, movement of a late round that still passes: less than anyone reads off a pipe
	amiss       = 0.003 // of the flow through the section that a late round may leave unbalanced
	balanced    = 1e-4  // of the flow through the section that may be amiss
)
