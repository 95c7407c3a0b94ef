package frame

// Solution is the answer of a frame to a load case.
type Solution struct {
	U [][3]float64 // displacement of every node: x, y (m), turning to the left (rad)
	// React is what the supports and springs put on every node: x, y (kN),
	// moment (kNm); zero at free nodes up to rounding.
	React [][3]float64
	N     []float64    // axial force of every member, tension positive, kN
	Ends  [][6]float64 // forces on the ends of every member in its own axes: along, across, moment at I, then at J
	// Lines are shear, moment and deflection (from the chord) along every
	// member. A positive moment has its tension on the left of I to J. In a
	// second-order solution they are exact at the nodes.
	Lines []Beam

	frame *Frame
}

// newSolution recovers forces from displacements.
func newSolution(f *Frame, lc LoadCase, elements []element, u [][3]float64) *Solution {
	n := len(f.Members)
	s := &Solution{U: u, React: make([][3]float64, len(f.Nodes)), N: make([]float64, n),
		Ends: make([][6]float64, n), Lines: make([]Beam, n), frame: f}
	for k := range elements {
		e, m := &elements[k], f.Members[k]
		q := e.forces(e.local(u[m.I], u[m.J]))
		s.Ends[k], s.N[k] = q, q[3]
		s.Lines[k] = span(e.l, lc.member(k), m.E*m.Iz, q[2], -q[5])
		for b, node := range [2]int{m.I, m.J} {
			along, across := q[3*b], q[3*b+1]
			s.React[node][0] += e.c*along - e.s*across
			s.React[node][1] += e.s*along + e.c*across
			s.React[node][2] += q[3*b+2]
		}
	}
	for k, load := range lc.Nodes {
		for d, v := range load {
			s.React[k][d] -= v
		}
	}
	return s
}

// At is the displacement of the point s m along member k, in global axes, m.
func (s *Solution) At(k int, along float64) (dx, dy float64) {
	m, l := s.frame.Members[k], s.frame.Length(k)
	c, sn := s.frame.axis(k)
	t, w := along/l, s.Lines[k].W(along)
	ui, uj := s.U[m.I], s.U[m.J]
	return ui[0] + (uj[0]-ui[0])*t - sn*w, ui[1] + (uj[1]-ui[1])*t + c*w
}
