package seepage

import "math"

// grid is what a mesh and all its likes have in common, whatever the levels at
// their ends: worked out once when the mesh is built. It never changes.
type grid struct {
	el    []element
	line  skyline
	slots [][6]int32 // of every triangle, where its pairs lie in the equations
	lets  []float64  // the least permeability of the ground above every node, m/s
	gaps  []bool     // no ground lies between a node and the one above it on its line
	parts [][]int32  // nodes of every piece of ground that hangs together
	// beside is for every triangle the one across the edge from corner c to c+1,
	// -1 for none.
	beside [][3]int32
	// strips is for every line the first triangle between it and the next.
	strips []int32
}

func gridOf(m *Mesh, beside [][3]int32) *grid {
	g := &grid{el: m.elements(), line: skylineOf(m), slots: make([][6]int32, len(m.Tris)), parts: m.pieces(), beside: beside, strips: m.strips()}
	g.lets, g.gaps = m.tightest()
	for i := range m.Tris {
		n := &m.Tris[i].N
		for p, pq := range pairs {
			a, b := n[pq[0]], n[pq[1]]
			g.slots[i][p] = g.line.place(min(a, b), max(a, b))
		}
	}
	return g
}

// WithLevels is the same mesh with other levels at its ends, NaN for closed: it
// shares all but these and costs next to nothing. A flow in either may start
// the other.
func (m *Mesh) WithLevels(left, right float64) *Mesh {
	out, d := *m, *m.domain
	d.Left.Head, d.Right.Head = left, right
	out.domain = &d
	return &out
}

// WithDrains is the same mesh with all drains closed, or all open.
func (m *Mesh) WithDrains(closed bool) *Mesh {
	return m.WithEachDrain(func(r *Drain) { r.Closed = closed })
}

// WithEachDrain is the same mesh with its drains closed, opened or backed up one
// by one; they stay where they are.
func (m *Mesh) WithEachDrain(change func(*Drain)) *Mesh {
	out, d := *m, *m.domain
	d.Drains = make([]Drain, len(m.domain.Drains))
	for i, r := range m.domain.Drains {
		change(&r)
		d.Drains[i] = r
	}
	out.domain = &d
	return &out
}

// tightest finds what the ground above every node lets through: the least
// permeability on the way down its line, none through a gap, and the gaps.
func (m *Mesh) tightest() (lets []float64, gaps []bool) {
	n := len(m.Nodes)
	between := make([]float64, n) // from a node to the one above it
	for i := range m.Tris {
		t, k := &m.Tris[i], m.domain.Zones[m.Tris[i].Zone].Kz
		for c := range 3 {
			a, b := t.N[c], t.N[(c+1)%3]
			if lo, hi := min(a, b), max(a, b); hi == lo+1 && m.Nodes[lo][0] == m.Nodes[hi][0] {
				between[lo] = math.Max(between[lo], k)
			}
		}
	}
	lets, gaps = make([]float64, n), make([]bool, n)
	for _, l := range m.Lines {
		least := math.Inf(1)
		for i := l.Last; i >= l.First; i-- {
			if i < l.Last {
				least = math.Min(least, between[i])
				gaps[i] = between[i] == 0
			}
			lets[i] = least
		}
	}
	return lets, gaps
}

// pieces are the nodes of every piece of ground that hangs together.
func (m *Mesh) pieces() (out [][]int32) {
	of := make([]int32, len(m.Nodes))
	for i := range of {
		of[i] = int32(i)
	}
	root := func(n int32) int32 {
		for of[n] != n {
			of[n] = of[of[n]]
			n = of[n]
		}
		return n
	}
	for _, t := range m.Tris {
		a, b, c := root(t.N[0]), root(t.N[1]), root(t.N[2])
		least := min(a, b, c)
		of[a], of[b], of[c] = least, least, least
	}
	place := map[int32]int{}
	for n := range of {
		r := root(int32(n))
		k, ok := place[r]
		if !ok {
			k = len(out)
			place[r], out = k, append(out, nil)
		}
		out[k] = append(out[k], int32(n))
	}
	return out
}

// strips is for every line the first triangle between it and the next, and at
// the end the number of triangles: they stand in the order of the lines.
func (m *Mesh) strips() []int32 {
	out := make([]int32, len(m.Lines)+1)
	k := 0
	for i, t := range m.Tris {
		x := min(m.Nodes[t.N[0]][0], m.Nodes[t.N[1]][0], m.Nodes[t.N[2]][0])
		for m.Lines[k].X < x {
			k++
			out[k] = int32(i)
		}
	}
	for k++; k < len(out); k++ {
		out[k] = int32(len(m.Tris))
	}
	return out
}
