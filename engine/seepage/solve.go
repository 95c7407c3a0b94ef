package seepage

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"hillset/engine/quantity"
)

// ErrUnsettled says that the free surface did not come to rest.
var ErrUnsettled = errors.New("the water table does not settle")

// Limits of the plain iteration.
const (
	settledHead = 1e-4 // m, largest change of a wet node
	maxRounds   = 12   // after which Newton's method takes over
	hopeful     = 6    // rounds after which those that settle soon are near
	hopeless    = 0.03 // m, change that none of these came below: Newton's method is sooner there
	memory      = 6    // steps that the mixing looks back on
	stride      = 0.5  // of a plain step: a full one lets the free surface swing
	soakRounds  = 12
)

// hold is what is asked of the head of a node.
type hold int8

const (
	free   hold = iota
	given       // held at a level
	outlet      // held at its own level, or that of the water in a drain, while water leaves there
	sill        // held at its own level always: see anchor
)

// Flow is the steady flow in a mesh.
type Flow struct {
	Mesh  *Mesh
	Head  []float64 // m, of every node
	Share []float64 // of its saturated flow that every triangle carries
	// Out is what leaves the ground at every node, m3/s per m: at held nodes
	// only. Where it is below zero water enters there.
	Out    []float64
	Rain   float64 // m3/s per m, recharge taken in
	Rounds int     // of the iteration, in vain ones too
	Change float64 // m, last change of a wet node
	// Along says that only the equations along edges settled (see newton): within
	// 5 % of what the others give, or a fifth where a film thinner than the mesh runs.
	Along bool
	// Rough says that even these did not settle with all edges, and that those
	// whose conductance is below zero count less than they should: less exact, as a
	// rule with too much flow.
	Rough bool

	s *solver
}

// Inexact tells whether the flow is less exact than the plain equations make it.
func (f *Flow) Inexact() bool { return f.Along || f.Rough }

// solver is a mesh with everything that does not change while the free surface
// is looked for.
type solver struct {
	m     *Mesh
	el    []element
	hold  []hold
	open  []bool // outlets that water leaves now
	turns []int8 // how often an outlet has turned
	head  []float64
	rain  []float64 // of every line, m3/s per m
	sills []int     // nodes held as sills
	is    []bool    // held now, in the equations being worked
	eq    []float64 // the equations, in the shape of the mesh
	rhs   []float64
	count int     // rounds so far
	size  float64 // largest permeability: the equations are worked in its units
}

// Solve finds the flow in a mesh. from is the flow in the same mesh under
// other conditions to start from, nil for none. It fails with ErrUnsettled when
// no steady state is found, and with ErrClosed when there can be none.
func (m *Mesh) Solve(from *Flow) (*Flow, error) {
	s := newSolver(m)
	h := s.start()
	var like *Flow
	if from != nil && from.Mesh.grid == m.grid {
		copy(h, from.Head)
		if slices.Equal(from.Mesh.domain.Drains, m.domain.Drains) {
			like = from
		}
		for n, o := range from.s.open {
			s.open[n] = o && s.hold[n] == outlet
		}
	}
	f, err := s.run(h, like)
	if err != nil {
		return nil, err
	}
	return f, s.drowned(f)
}

func newSolver(m *Mesh) *solver {
	n := len(m.Nodes)
	s := &solver{m: m, el: m.grid.el, hold: make([]hold, n), open: make([]bool, n), turns: make([]int8, n), head: make([]float64, n),
		rain: make([]float64, len(m.Lines)), rhs: make([]float64, n), is: make([]bool, n), eq: make([]float64, m.grid.line.at[n])}
	for _, z := range m.domain.Zones {
		s.size = math.Max(s.size, math.Max(z.Kx, z.Kz))
	}
	s.conditions()
	s.anchor()
	return s
}

// start is a first guess: a straight line between the ends, below the surface.
func (s *solver) start() []float64 {
	d, ls := s.m.domain, s.m.Lines
	top := func(l Line) float64 { return s.m.Nodes[l.Last][1] }
	a, b := d.Left.Head, d.Right.Head
	if math.IsNaN(a) {
		a = top(ls[0])
	}
	if math.IsNaN(b) {
		b = top(ls[len(ls)-1])
	}
	if math.IsNaN(d.Left.Head) && !math.IsNaN(d.Right.Head) {
		a = math.Min(a, b)
	}
	if math.IsNaN(d.Right.Head) && !math.IsNaN(d.Left.Head) {
		b = math.Min(b, a)
	}
	lo, hi := ls[0].X, ls[len(ls)-1].X
	h := make([]float64, len(s.m.Nodes))
	for _, l := range ls {
		t := (l.X - lo) / (hi - lo)
		v := math.Min(a+(b-a)*t, top(l))
		for n := l.First; n <= l.Last; n++ {
			h[n] = v
			s.open[n] = s.hold[n] == outlet && s.head[n] < v
		}
	}
	return h
}

// run iterates until the free surface and the outlets rest: plainly for a while,
// and from where that was left by Newton's method. From a flow like this one, the
// levels at the ends apart, it starts with that at once.
func (s *solver) run(h []float64, like *Flow) (*Flow, error) {
	switch {
	case like == nil:
	case like.Along: // nothing else settled there
		if f, ok := s.near(h, likeTau, likeRounds); ok {
			return f, nil
		}
	default:
		if f, ok := s.exactly(h, hasty); ok {
			return f, nil
		}
	}
	f, left, err := s.settle(h)
	if err == nil || !errors.Is(err, ErrUnsettled) || left == nil {
		return f, err
	}
	if f, ok := s.exactly(left, patient); ok {
		return f, nil
	}
	f, ok := s.near(left, nearTau, nearRounds)
	if !ok {
		if f, err = s.hard(); err != nil {
			return nil, err
		}
	}
	if e, ok := s.exactly(f.Head, patient); ok {
		return e, nil
	}
	return f, nil
}

// attempt runs a method that may shut and open outlets. Where it does not settle
// all stand as before.
func (s *solver) attempt(try func() (*Flow, bool)) (*Flow, bool) {
	hold, open := slices.Clone(s.hold), slices.Clone(s.open)
	clear(s.turns)
	f, ok := try()
	if !ok {
		copy(s.hold, hold)
		copy(s.open, open)
		clear(s.turns)
	}
	return f, ok
}

// near is Newton's method along edges, with all of them, from heads that lie
// near.
func (s *solver) near(h []float64, tau float64, rounds int) (*Flow, bool) {
	return s.attempt(func() (*Flow, bool) {
		w := s.newton(1)
		next, err := w.settle(slices.Clone(h), tau, rounds)
		if err != nil {
			return nil, false
		}
		return w.flow(next), true
	})
}

// hard finds the flow by Newton's method along edges from wet ground. Where it
// does not settle with all edges it is led there by flows in which those below
// zero count less, the last of which stands only where nothing settles from there.
func (s *solver) hard() (*Flow, error) {
	clear(s.turns)
	wet, err := s.soaked()
	if err != nil {
		return nil, err
	}
	hold, open := slices.Clone(s.hold), slices.Clone(s.open)
	try := func(h []float64, flat float64, rounds int) (*Flow, error) {
		copy(s.hold, hold) // some may have been shut
		clear(s.turns)
		w := s.newton(flat)
		next, err := w.settle(slices.Clone(h), firstTau, rounds)
		if err != nil {
			copy(s.open, open)
			return nil, err
		}
		copy(open, s.open)
		return w.flow(next), nil
	}
	if f, err := try(wet, 1, wholeRounds); err == nil {
		return f, nil
	}
	f, err := try(wet, 0, bareRounds)
	if err != nil {
		return nil, err
	}
	for _, flat := range ramp {
		if next, err := try(f.Head, flat, fineRounds); err == nil {
			f = next
			if flat == 1 {
				return f, nil
			}
		}
	}
	return f, nil
}

// ramp is how much edges below zero count in the tries that follow the one
// without them, as far as they settle: all, or nearer to all step by step.
var ramp = [...]float64{1, 0.5, 0.75, 0.9, 1}

// soaked are the heads if all ground carried water, as a start: from there it
// drains, which settles sooner than filling.
func (s *solver) soaked() ([]float64, error) {
	h := s.start()
	share := make([]float64, len(s.el))
	for i := range share {
		share[i] = 1
	}
	out := make([]float64, len(h))
	for range soakRounds {
		s.pour(h)
		next, err := s.linear(share)
		if err != nil {
			return nil, err
		}
		h = next
		s.outflow(share, h, out)
		if s.turn(h, out) == 0 {
			break
		}
	}
	clear(s.turns)
	return h, nil
}

// settle is the plain iteration. Where it does not come to rest it tells where
// it was left.
func (s *solver) settle(h []float64) (f *Flow, left []float64, err error) {
	mix := newMixer(memory, stride)
	share, least := make([]float64, len(s.el)), math.Inf(1)
	f = &Flow{Mesh: s.m, Share: share, Out: make([]float64, len(h)), s: s}
	for round := 1; round <= maxRounds; round++ {
		s.count++
		for i := range s.m.Tris {
			share[i] = s.m.share(i, h)
		}
		f.Rain = s.pour(h)
		next, err := s.linear(share)
		if err != nil {
			return nil, nil, err
		}
		s.outflow(share, next, f.Out)
		f.Change, f.Rounds = s.change(h, next), s.count
		turned := s.turn(next, f.Out)
		f.Head = next
		if turned == 0 && f.Change < settledHead && s.sound(f.Out) {
			return f, nil, nil
		}
		if least = math.Min(least, f.Change); round == hopeful && least > hopeless {
			break
		}
		if turned > 0 {
			mix.forget()
		}
		h = mix.next(h, next)
	}
	return nil, h, restlessness(s.count, f.Change)
}

// restlessness says that it still moves, why that is so as a rule, and what to
// do.
func restlessness(rounds int, move float64) error {
	return fmt.Errorf("%w: after %d rounds it still moves by %s. Water that runs as a thin film down a tight layer does so: lower the rain that seeps in, or bring the permeabilities of the soils nearer to each other", ErrUnsettled, rounds, quantity.Text(move, quantity.Thickness))
}

// change is the largest change of a node that is wet before or after.
func (s *solver) change(a, b []float64) float64 {
	most := 0.0
	for n := range a {
		if z := s.m.Nodes[n][1]; s.m.domain.Full || a[n] > z || b[n] > z {
			most = math.Max(most, math.Abs(b[n]-a[n]))
		}
	}
	return most
}

// held tells whether the head of a node is known.
func (s *solver) held(n int) bool {
	k := s.hold[n]
	return k == given || k == sill || k == outlet && s.open[n]
}

// linear solves the equations for the shares of the triangles.
func (s *solver) linear(share []float64) ([]float64, error) {
	line, eq := &s.m.grid.line, s.eq
	clear(eq)
	rhs := make([]float64, len(s.rhs))
	copy(rhs, s.rhs)
	for n := range s.is {
		s.is[n] = s.held(n)
	}
	for i := range s.m.Tris {
		t, e, slot := &s.m.Tris[i], &s.el[i], &s.m.grid.slots[i]
		f := share[i] / s.size
		for p, pq := range pairs {
			a, b := t.N[pq[0]], t.N[pq[1]]
			v := f * e.k[p]
			switch ha, hb := s.is[a], s.is[b]; {
			case !ha && !hb:
				eq[slot[p]] += v
			case ha && hb:
			case ha:
				rhs[b] -= v * s.head[a]
			default:
				rhs[a] -= v * s.head[b]
			}
		}
	}
	for n := range rhs {
		if s.is[n] {
			eq[line.at[n+1]-1], rhs[n] = 1, s.head[n]
		}
	}
	if !line.cholesky(eq) {
		return nil, fmt.Errorf("%w: %s", ErrUnsettled, contrast)
	}
	line.back(eq, rhs)
	return rhs, nil
}

// contrast is what is wrong where the equations are lost in rounding.
const contrast = "the permeabilities of its soils lie too far apart to be worked in one section; bring the tightest and the most open nearer to each other"
