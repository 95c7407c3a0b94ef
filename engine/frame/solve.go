package frame

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/lapack"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// conditionLimit is the condition number, of the matrix scaled to a unit
// diagonal, beyond which the frame counts as a mechanism: some four digits are
// left. A beam of 400 elements reaches 1e10.
const conditionLimit = 1e13

// Stiffness is the factored stiffness of a frame, ready for load cases.
type Stiffness struct {
	frame *Frame
	index []int     // equation of every freedom, -1 where held
	scale []float64 // of every equation
	upper []float64 // the rows of the factor U of K = Ut·U, each of width numbers from its diagonal on, that one inverted
	width int
	axial []float64 // axial forces in the geometric stiffness; nil for none
	parts []element // members without load, before their hinges are released
	ends  [][6]int  // equations of the ends of every member
}

// Factor assembles and factors the first-order stiffness. Errors: values out
// of range (quantity.ErrRange), a mechanism (ErrMechanism) with a node that it
// moves.
func (f *Frame) Factor() (*Stiffness, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	return f.factor(nil)
}

// factor is Factor on values already checked, with axial forces for the
// geometric stiffness.
func (f *Frame) factor(axial []float64) (*Stiffness, error) {
	s := &Stiffness{frame: f, axial: axial, parts: make([]element, len(f.Members))}
	for k := range s.parts {
		s.parts[k] = newElement(f, k, s.force(k))
	}
	equations := s.number()
	s.ends = make([][6]int, len(f.Members))
	for k := range s.ends {
		s.ends[k] = s.equations(k)
	}
	if equations == 0 {
		return s, nil // every freedom is held
	}
	band, err := s.assemble(equations)
	if err != nil {
		return nil, err
	}
	if !s.factorize(band) {
		if axial != nil {
			return nil, fmt.Errorf("frame: %w", ErrUnstable)
		}
		return nil, fmt.Errorf("frame: %w: node %d can move", ErrMechanism, s.looseNode(band))
	}
	return s, nil
}

// factorize factors the scaled stiffness. ok is false where it is not positive
// or its condition is beyond the limit.
func (s *Stiffness) factorize(band *mat.SymBandDense) (ok bool) {
	a := band.RawSymBand()
	norm := lapack64.Lansb(lapack.MaxColumnSum, a, make([]float64, a.N))
	a.Data = slices.Clone(a.Data)
	u, ok := lapack64.Pbtrf(a)
	if !ok || 1/lapack64.Pbcon(a, norm, make([]float64, 3*a.N), make([]int, a.N)) > conditionLimit {
		return false
	}
	s.upper, s.width = u.Data, u.Stride
	for p := range a.N {
		s.upper[p*s.width] = 1 / s.upper[p*s.width]
	}
	return true
}

// number gives every free freedom its equation. The turning of a node at which
// all members are hinged has no stiffness and is left out.
func (s *Stiffness) number() int {
	f := s.frame
	stiff := make([]bool, len(f.Nodes))
	for _, m := range f.Members {
		stiff[m.I] = stiff[m.I] || !m.HingeI
		stiff[m.J] = stiff[m.J] || !m.HingeJ
	}
	place := f.order()
	at := make([]int, len(f.Nodes))
	for k, p := range place {
		at[p] = k
	}
	s.index = make([]int, 3*len(f.Nodes))
	count := 0
	for _, k := range at {
		n := f.Nodes[k]
		held := [3]bool{n.X, n.Y, n.R || (!stiff[k] && n.KR == 0)}
		for d := range 3 {
			s.index[3*k+d] = -1
			if !held[d] {
				s.index[3*k+d] = count
				count++
			}
		}
	}
	return count
}

// equations lists the equations of the ends of member k.
func (s *Stiffness) equations(k int) (eq [6]int) {
	m := s.frame.Members[k]
	for d := range 3 {
		eq[d], eq[d+3] = s.index[3*m.I+d], s.index[3*m.J+d]
	}
	return eq
}

// assemble sums the members and springs into a band matrix scaled to a unit
// diagonal.
func (s *Stiffness) assemble(n int) (*mat.SymBandDense, error) {
	f, width := s.frame, 0
	for k := range f.Members {
		eq := s.ends[k]
		lo, hi := n, -1
		for _, e := range eq {
			if e >= 0 {
				lo, hi = min(lo, e), max(hi, e)
			}
		}
		width = max(width, hi-lo)
	}
	band := mat.NewSymBandDense(n, width, nil)
	raw := band.RawSymBand()
	for k := range f.Members {
		e, none := s.parts[k], [6]float64{}
		if !e.release(f.Members[k], &none) {
			return nil, fmt.Errorf("frame: member %d: %w", k, ErrUnstable)
		}
		g := e.global()
		eq := s.ends[k]
		for i, p := range eq {
			for j, q := range eq {
				if p >= 0 && q >= p {
					raw.Data[p*raw.Stride+q-p] += g[i][j]
				}
			}
		}
	}
	for k, node := range f.Nodes {
		for d, spring := range [3]float64{node.KX, node.KY, node.KR} {
			if p := s.index[3*k+d]; p >= 0 {
				raw.Data[p*raw.Stride] += spring
			}
		}
	}
	return band, s.rescale(band)
}

// force is the axial force of member k in the geometric stiffness.
func (s *Stiffness) force(k int) float64 {
	if s.axial == nil {
		return 0
	}
	return s.axial[k]
}

// rescale divides rows and columns by the root of the diagonal.
func (s *Stiffness) rescale(band *mat.SymBandDense) error {
	raw := band.RawSymBand()
	s.scale = make([]float64, raw.N)
	for p := range s.scale {
		d := raw.Data[p*raw.Stride]
		if !(d > 0) {
			if s.axial != nil {
				return fmt.Errorf("frame: %w", ErrUnstable)
			}
			return fmt.Errorf("frame: %w: node %d can move", ErrMechanism, s.nodeOf(p))
		}
		s.scale[p] = 1 / math.Sqrt(d)
	}
	for p := range s.scale {
		for q := p; q <= min(p+raw.K, raw.N-1); q++ {
			raw.Data[p*raw.Stride+q-p] *= s.scale[p] * s.scale[q]
		}
	}
	return nil
}

// nodeOf is the node of equation p.
func (s *Stiffness) nodeOf(p int) int {
	for k, q := range s.index {
		if q == p {
			return k / 3
		}
	}
	panic(fmt.Sprintf("frame: equation %d without a node", p))
}

// looseNode finds a node that a mechanism moves: with a slight spring on every
// freedom, the mechanism answers any load far more than the rest.
func (s *Stiffness) looseNode(band *mat.SymBandDense) int {
	raw := band.RawSymBand()
	rhs := mat.NewVecDense(raw.N, nil)
	for p := range raw.N {
		raw.Data[p*raw.Stride] += 1e-8
		rhs.SetVec(p, 1+0.37*math.Sin(float64(3*p+1)))
	}
	var chol mat.BandCholesky
	var u mat.VecDense
	if !chol.Factorize(band) || chol.SolveVecTo(&u, rhs) != nil {
		return 0
	}
	worst := 0
	for p := range raw.N {
		if math.Abs(u.AtVec(p)) > math.Abs(u.AtVec(worst)) {
			worst = p
		}
	}
	return s.nodeOf(worst)
}

// Solve finds displacements and forces for a load case.
func (s *Stiffness) Solve(lc LoadCase) (*Solution, error) {
	if err := lc.check(s.frame); err != nil {
		return nil, err
	}
	return s.solve(lc)
}

// SolveEnds is Solve without Lines: what Solution.Combine needs of its parts.
// The result replaces what sol held and is made in its memory; sol may be the
// zero Solution.
func (s *Stiffness) SolveEnds(lc LoadCase, sol *Solution) error {
	if err := lc.check(s.frame); err != nil {
		return err
	}
	return s.solveEnds(lc, sol)
}

func (s *Stiffness) solve(lc LoadCase) (*Solution, error) {
	sol := &Solution{}
	if err := s.solveEnds(lc, sol); err != nil {
		return nil, err
	}
	sol.draw(lc)
	sol.work = nil // only for those that are solved again
	return sol, nil
}

// workRoom is memory for one solution after the other.
type workRoom struct {
	elements []loaded
	own      []element // released copies, one for each member
	rhs      []float64
}

// solveEnds finds displacements and the forces on the ends of the members.
func (s *Stiffness) solveEnds(lc LoadCase, sol *Solution) error {
	f := s.frame
	sol.fit(f)
	if sol.work == nil {
		sol.work = &workRoom{elements: make([]loaded, len(f.Members)), own: make([]element, len(f.Members)), rhs: make([]float64, len(s.scale))}
	}
	elements, rhs := sol.work.elements, sol.work.rhs
	clear(rhs)
	for k, n := range lc.Nodes {
		for d, v := range n {
			p := s.index[3*k+d]
			if p >= 0 {
				rhs[p] += v
			} else if d == 2 && v != 0 && !f.Nodes[k].R {
				return fmt.Errorf("frame: %w: moment on node %d, where every member is hinged", ErrMechanism, k)
			}
		}
	}
	for k, m := range f.Members {
		e := &elements[k]
		e.element = &s.parts[k]
		e.eq = e.endLoads(lc.member(k))
		if m.HingeI || m.HingeJ {
			own := &sol.work.own[k] // what it gives up is its own
			*own = s.parts[k]
			if !own.release(m, &e.eq) {
				return fmt.Errorf("frame: member %d: %w", k, ErrUnstable)
			}
			e.element = own
		}
		load := e.turned(e.eq)
		for i, p := range s.ends[k] {
			if p >= 0 {
				rhs[p] += load[i]
			}
		}
	}
	s.displacements(rhs, sol.U)
	sol.recover(lc, elements)
	return nil
}

// displacements solves for the right-hand side.
func (s *Stiffness) displacements(rhs []float64, u [][3]float64) {
	for p := range rhs {
		rhs[p] *= s.scale[p]
	}
	s.substitute(rhs)
	for k := range u {
		for d := range 3 {
			if p := s.index[3*k+d]; p >= 0 {
				u[k][d] = rhs[p] * s.scale[p]
			}
		}
	}
}

// substitute solves Ut·U·x = b in the place of b, forward and then back.
func (s *Stiffness) substitute(b []float64) {
	n := len(b)
	for p := range b {
		row := s.upper[p*s.width : p*s.width+min(s.width, n-p)]
		v, below := b[p]*row[0], b[p:p+len(row)]
		b[p] = v
		for q := 1; q < len(row); q++ {
			below[q] -= row[q] * v
		}
	}
	for p := n - 1; p >= 0; p-- {
		row := s.upper[p*s.width : p*s.width+min(s.width, n-p)]
		v, below := b[p], b[p:p+len(row)]
		for q := 1; q < len(row); q++ {
			v -= row[q] * below[q]
		}
		b[p] = v * row[0]
	}
}

// Solve is Factor and Stiffness.Solve in one.
func (f *Frame) Solve(lc LoadCase) (*Solution, error) {
	s, err := f.Factor()
	if err != nil {
		return nil, err
	}
	return s.Solve(lc)
}

// Second-order iteration.
const (
	axialSettled = 1e-10 // relative change of the axial forces
	maxSecond    = 60    // rounds
)

// SolveSecondOrder finds displacements and forces with the effect of the axial
// forces on the deflected members (geometric stiffness, iterated). Compressed
// members should be divided, see Refine. Compression at or beyond the critical
// load gives ErrUnstable.
func (f *Frame) SolveSecondOrder(lc LoadCase) (*Solution, error) {
	s, err := f.Factor()
	if err != nil {
		return nil, err
	}
	sol, err := s.Solve(lc)
	if err != nil {
		return nil, err
	}
	for range maxSecond {
		axial := make([]float64, len(f.Members))
		largest := 0.0
		for k := range axial {
			axial[k] = sol.N[k]
			largest = math.Max(largest, math.Abs(axial[k]))
		}
		if s, err = f.factor(axial); err != nil {
			return nil, err
		}
		if sol, err = s.solve(lc); err != nil {
			return nil, err
		}
		change := 0.0
		for k := range axial {
			change = math.Max(change, math.Abs(sol.N[k]-axial[k]))
		}
		if change <= axialSettled*largest {
			return sol, nil
		}
	}
	return nil, fmt.Errorf("frame: %w: the axial forces do not settle", ErrUnstable)
}
