package frame

import "math"

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
	room  []piece // of Lines
	work  *workRoom
	bars  []axis // of the members
}

// axis is the length and the direction of a member.
type axis struct{ l, c, s float64 }

// fit makes room for the answer of a frame, all nought.
func (s *Solution) fit(f *Frame) {
	if s.frame != f {
		nodes, members := len(f.Nodes), len(f.Members)
		both := make([][3]float64, 2*nodes)
		*s = Solution{U: both[:nodes:nodes], React: both[nodes:], N: make([]float64, members), Ends: make([][6]float64, members), frame: f}
		s.bars = make([]axis, members)
		for k := range s.bars {
			b := &s.bars[k]
			b.l = f.Length(k)
			b.c, b.s = f.axis(k)
		}
		return
	}
	clear(s.U)
	clear(s.React)
	clear(s.N)
	clear(s.Ends)
}

// recover finds the forces on the ends of the members from the displacements.
func (s *Solution) recover(lc LoadCase, elements []loaded) {
	for k := range elements {
		e, m := &elements[k], &s.frame.Members[k]
		u := e.local(s.U[m.I], s.U[m.J])
		q := e.forces(&u)
		s.Ends[k], s.N[k] = q, q[3]
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
}

// draw works out the lines along the members from the forces on their ends.
func (s *Solution) draw(lc LoadCase) {
	if s.Lines == nil {
		s.Lines = make([]Beam, len(s.frame.Members))
	}
	count := 0
	for k := range s.Lines {
		count += mostPieces(lc.member(k))
	}
	if cap(s.room) < count {
		s.room = make([]piece, count)
	}
	room := s.room
	for k := range s.Lines {
		m, load := &s.frame.Members[k], lc.member(k)
		n := mostPieces(load)
		s.Lines[k] = span(s.bars[k].l, load, m.E*m.Iz, s.Ends[k][2], -s.Ends[k][5], room[:0:n])
		room = room[n:]
	}
}

// Combine is the sum of first-order solutions of one frame, each times its
// factor, under the load case lc that the same sum of their loads makes. It
// costs no solving. The result replaces what s held; s may be the zero
// Solution, and must not be among the parts.
func (s *Solution) Combine(parts []*Solution, factors []float64, lc LoadCase) {
	s.fit(parts[0].frame)
	for p, part := range parts {
		w := factors[p]
		for n := range s.U {
			for d := range 3 {
				s.U[n][d] += w * part.U[n][d]
				s.React[n][d] += w * part.React[n][d]
			}
		}
		for k := range s.Ends {
			s.N[k] += w * part.N[k]
			for d := range 6 {
				s.Ends[k][d] += w * part.Ends[k][d]
			}
		}
	}
	s.draw(lc)
}

// At is the displacement of the point s m along member k, in global axes, m.
func (s *Solution) At(k int, along float64) (dx, dy float64) {
	m, l := s.frame.Members[k], s.frame.Length(k)
	c, sn := s.frame.axis(k)
	t, w := along/l, s.Lines[k].W(along)
	ui, uj := s.U[m.I], s.U[m.J]
	return ui[0] + (uj[0]-ui[0])*t - sn*w, ui[1] + (uj[1]-ui[1])*t + c*w
}

// Bow is the largest departure, with its sign, of members in a row from the
// straight line between the ends of the row, m, and where it is, m along the
// row. The members must lie in one line, every one going on from the one
// before. Like Lines it is exact.
func (s *Solution) Bow(row []int) (w, at float64) {
	total := 0.0
	for _, k := range row {
		total += s.Lines[k].L
	}
	first, last := s.across(row[0], 0), s.across(row[len(row)-1], 1)
	from := 0.0
	for _, k := range row {
		l := s.Lines[k].L
		line := func(x float64) float64 { return first + (last-first)*x/total }
		low, high := s.Lines[k].reach(s.across(k, 0)-line(from), s.across(k, 1)-line(from+l))
		for _, p := range [2]Place{low, high} {
			if math.Abs(p.W) > math.Abs(w) {
				w, at = p.W, from+p.S
			}
		}
		from += l
	}
	return w, at
}

// Reach is the least and the largest movement of member k across itself, m, to
// the left of the direction from I to J, and where along it.
func (s *Solution) Reach(k int) (low, high Place) {
	return s.Lines[k].reach(s.across(k, 0), s.across(k, 1))
}

// across is the movement of an end of member k across it.
func (s *Solution) across(k, end int) float64 {
	m, b := &s.frame.Members[k], &s.bars[k]
	u := &s.U[[2]int{m.I, m.J}[end]]
	return -b.s*u[0] + b.c*u[1]
}
