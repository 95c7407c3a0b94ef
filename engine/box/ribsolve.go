package box

import (
	"math"
	"sync"

	"hillset/engine/frame"
)

// ReadyRib is a rib with everything worked out that does not depend on its
// loads. Goroutines may share it.
type ReadyRib struct {
	in   Rib
	held [2]*heldRib // at the right and at the left bottom corner
}

// heldRib is the frame of a rib held sideways at one corner, solved for any
// load.
type heldRib struct {
	f    ribFrame
	k    *frame.Stiffness
	rate *rater
	room sync.Pool // of *sumRoom
}

// Ready prepares a rib for many loads. Its own are set aside, but for FloorUp.
func (in Rib) Ready() (*ReadyRib, error) {
	if err := in.checkFrame(); err != nil {
		return nil, err
	}
	r := &ReadyRib{in: in}
	for side, left := range [2]bool{false, true} {
		var err error
		if r.held[side], err = in.hold(left); err != nil {
			return nil, err
		}
	}
	return r, nil
}

// Under is Rib.Solve under other loads, without wheels.
func (r *ReadyRib) Under(left, right Pressures, on OnRoof) (RibResult, error) {
	return r.UnderWheels(left, right, on, nil)
}

// UnderWheels is Rib.Solve under other loads.
func (r *ReadyRib) UnderWheels(left, right Pressures, on OnRoof, wheels frame.Load) (RibResult, error) {
	return r.solve(left, right, on, wheels, true)
}

// Rate is UnderWheels without the Service solution, which costs memory.
func (r *ReadyRib) Rate(left, right Pressures, on OnRoof, wheels frame.Load) (RibResult, error) {
	return r.solve(left, right, on, wheels, false)
}

func (r *ReadyRib) solve(left, right Pressures, on OnRoof, wheels frame.Load, keep bool) (RibResult, error) {
	in := r.in
	in.Wheels = wheels
	in.Left, in.Right = left, right
	in.Dead, in.Live, in.Snow, in.Water = on.Dead, on.Live, on.Snow, on.Water
	if err := in.checkLoads(); err != nil {
		return RibResult{}, err
	}
	if in.heldLeft() {
		return r.held[1].under(&in, keep)
	}
	return r.held[0].under(&in, keep)
}

// Solve does the statics of the rib in every combination and rates its parts.
func (in Rib) Solve() (RibResult, error) {
	if err := in.check(); err != nil {
		return RibResult{}, err
	}
	h, err := in.hold(in.heldLeft())
	if err != nil {
		return RibResult{}, err
	}
	return h.under(&in, true)
}

// hold builds and factors the frame.
func (in Rib) hold(left bool) (*heldRib, error) {
	h := &heldRib{}
	var err error
	if h.f, err = in.layout(left); err != nil {
		return nil, err
	}
	if h.k, err = h.f.Factor(); err != nil {
		return nil, err
	}
	h.rate, err = in.newRater(&h.f, h.k)
	return h, err
}

// under solves the frame for each kind of load and rates their combinations.
func (h *heldRib) under(in *Rib, keep bool) (RibResult, error) {
	r := RibResult{Frame: h.f.Frame, Parts: h.f.parts}
	room, ok := h.room.Get().(*sumRoom)
	if !ok {
		room = &sumRoom{}
	}
	defer h.room.Put(room)
	kinds := &room.kinds
	if err := in.kinds(&h.f, kinds); err != nil {
		return r, err
	}
	var solved [len(kinds)]*frame.Solution
	for k := range kinds {
		if k > 0 && kinds[k].none() {
			continue
		}
		solved[k] = &room.solved[k]
		if err := h.k.SolveEnds(kinds[k].loadCase(&room.one), solved[k]); err != nil {
			return r, err
		}
	}
	r.Service = &room.service
	if keep {
		r.Service = &frame.Solution{}
	}
	if len(in.Struts) > 0 {
		r.Struts = make([]StrutRating, len(in.Struts))
	}
	felt := in.felt()
	for _, one := range [2]struct {
		combos []Combo
		form   *strengthForm
	}{{ribCombos.allowable[felt.index()], &asdForm}, {ribCombos.strength[felt.index()], &lrfdForm}} {
		if err := h.run(in, one.combos, one.form, &solved, room, &r); err != nil {
			return r, err
		}
	}
	h.f.bows(&r)
	tops := h.f.tops()
	r.Sway = (r.Service.U[tops[0]][0] + r.Service.U[tops[1]][0]) / 2
	r.Corner = cornerMoment(&h.f, r.Service)
	if !keep {
		r.Service = nil
	}
	return r, nil
}

// sumRoom is memory for one combination after the other.
type sumRoom struct {
	service frame.Solution
	kinds   [4]ribLoads
	solved  [4]frame.Solution
	forces  ringForces
	lc      frame.LoadCase
	one     frame.LoadCase // of one kind
}

// ringForces are what the rating of a combination needs of its solution.
type ringForces struct {
	bars []barForces // of every member
	move float64     // m, of the roof to the right
	feet [2]float64  // kN, sideways at the left and at the right foot
}

// barForces are the force along a member, tension positive, kN, and the moments
// at its two ends, kNm, as in frame.Span.
type barForces struct{ n, mi, mj float64 }

// sum adds solved kinds, each times its factor, in the place of what was there.
func (s *ringForces) sum(f *ribFrame, parts []*frame.Solution, factors []float64) {
	if s.bars == nil {
		s.bars = make([]barForces, len(f.Members))
	}
	clear(s.bars)
	s.move, s.feet = 0, [2]float64{}
	tops := f.tops()
	for p, part := range parts {
		w := factors[p]
		for k := range s.bars {
			b, ends := &s.bars[k], &part.Ends[k]
			b.n += w * part.N[k]
			b.mi += w * ends[2]
			b.mj -= w * ends[5]
		}
		s.move += w * (part.U[tops[0]][0] + part.U[tops[1]][0]) / 2
		s.feet[0] += w * part.React[f.left[0]][0]
		s.feet[1] += w * part.React[f.right[0]][0]
	}
}

// load is the force in both posts at their feet, kN, compression positive.
func (s *ringForces) load(f *ribFrame) float64 {
	return -s.bars[f.member[0][0]].n - s.bars[f.member[1][0]].n
}

// run rates combinations of solved kinds of load.
func (h *heldRib) run(in *Rib, combos []Combo, form *strengthForm, solved *[4]*frame.Solution, room *sumRoom, r *RibResult) error {
	for i := range combos {
		c := &combos[i]
		var parts [len(solved)]*frame.Solution
		var factors [len(solved)]float64
		n := 0
		for k, f := range c.kinds() {
			if solved[k] != nil && f != 0 {
				parts[n], factors[n] = solved[k], f
				n++
			}
		}
		c.sum(&room.kinds, &room.lc)
		service := c.Name == serviceCombo
		if in.Ground > 0 && h.f.pulls(parts[:n], factors[:n]) {
			touched, _, err := h.f.SolveContact(room.lc)
			if err != nil {
				return err
			}
			r.Lifts = true
			room.forces.sum(&h.f, []*frame.Solution{touched}, []float64{1})
			if service {
				*r.Service = *touched // its frame is another, so that it is not reused
			}
		} else {
			room.forces.sum(&h.f, parts[:n], factors[:n])
			if service {
				r.Service.Combine(parts[:n], factors[:n], room.lc)
			}
		}
		h.rate.see(&room.forces, room.lc.Members, c.Name, form, r)
	}
	return nil
}

// none tells whether nothing of this kind presses.
func (l *ribLoads) none() bool {
	for n, p := range l.push {
		if p != 0 || l.down[n] != 0 {
			return false
		}
	}
	for _, ld := range l.members {
		if len(ld) > 0 {
			return false
		}
	}
	return true
}

// loadCase is the kind of load alone, in the memory of lc.
func (l *ribLoads) loadCase(lc *frame.LoadCase) frame.LoadCase {
	lc.Members = l.members
	if lc.Nodes == nil {
		lc.Nodes = make([][3]float64, len(l.push))
	}
	for n, p := range l.push {
		lc.Nodes[n] = [3]float64{p, -l.down[n]}
	}
	return *lc
}

// kinds are the factors of a combination in the order of Rib.kinds.
func (c Combo) kinds() [4]float64 { return [4]float64{c.D, c.L, c.H, c.S} }

// sum adds the kinds with the factors of a combination, in the memory of lc.
func (c Combo) sum(kinds *[4]ribLoads, lc *frame.LoadCase) {
	if lc.Nodes == nil {
		lc.Nodes = make([][3]float64, len(kinds[0].push))
		lc.Members = make([]frame.Load, len(kinds[0].members))
	}
	clear(lc.Nodes)
	for m := range lc.Members {
		lc.Members[m] = lc.Members[m][:0]
	}
	for k, factor := range c.kinds() {
		if factor == 0 {
			continue
		}
		for n, p := range kinds[k].push {
			lc.Nodes[n][0] += factor * p
			lc.Nodes[n][1] -= factor * kinds[k].down[n]
		}
		for m, ld := range kinds[k].members {
			if len(ld) > 0 {
				lc.Members[m] = lc.Members[m].Plus(ld, factor)
			}
		}
	}
}

// felt tells which kinds of load there are.
type felt struct{ live, snow, earth bool }

func (in *Rib) felt() felt {
	return felt{
		live:  in.Live+in.Water > 0 || len(in.Wheels) > 0 || len(in.Left.Live) > 0 || len(in.Right.Live) > 0,
		snow:  in.Snow != 0,
		earth: len(in.Left.Earth)+len(in.Left.Water)+len(in.Right.Earth)+len(in.Right.Water) > 0,
	}
}

// index numbers the sets of kinds from 0 to 7.
func (f felt) index() (i int) {
	for k, there := range [...]bool{f.live, f.snow, f.earth} {
		if there {
			i += 1 << k
		}
	}
	return i
}

// ribCombos are the distinct combinations by felt.index.
var ribCombos = func() (out struct{ allowable, strength [8][]Combo }) {
	for _, live := range []bool{false, true} {
		for _, snow := range []bool{false, true} {
			for _, earth := range []bool{false, true} {
				f := felt{live, snow, earth}
				out.allowable[f.index()], out.strength[f.index()] = f.distinct(allAllowable), f.distinct(allStrength)
			}
		}
	}
	return out
}()

// distinct leaves out combinations that repeat another, or lie between two
// others, because a kind of load is absent.
func (f felt) distinct(combos []Combo) []Combo {
	of := func(c Combo) Effects {
		e := c.Effects
		e.F = 0
		if !f.live {
			e.L = 0
		}
		if !f.snow {
			e.S = 0
		}
		return e
	}
	out := make([]Combo, 0, len(combos))
next:
	for _, c := range combos {
		if e := of(c); 0 < e.H && e.H < 1 && (!f.earth || e.L == 0 && e.S == 0) {
			continue // H that holds: it is not there, or between D + F and D + F + H
		}
		for _, o := range out {
			if of(o) == of(c) {
				continue next
			}
		}
		out = append(out, c)
	}
	return out
}

// serviceCombo is the combination whose solution is kept.
var serviceCombo = Allowable[1].Name

// cornerMoment is the largest absolute moment at the four corners: the ends of
// roof beam and floor tie.
func cornerMoment(f *ribFrame, s *frame.Solution) float64 {
	m := 0.0
	see := func(v float64) { m = math.Max(m, math.Abs(v)) }
	if f.roof >= 0 {
		b := &s.Lines[f.roof]
		see(b.M(0))
		see(b.M(b.L))
	}
	if n := len(f.floor); n > 0 {
		last := &s.Lines[f.floor[n-1]]
		see(s.Lines[f.floor[0]].M(0))
		see(last.M(last.L))
	}
	return m
}
