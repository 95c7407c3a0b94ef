package seepage

import (
	"math"

	"hillset/geom"
)

// edges finds the outer edges: those that one triangle alone has.
func (b *builder) edges() {
	m := &b.m
	b.beside = m.neighbours()
	lo, hi := m.Lines[0].X, m.Lines[len(m.Lines)-1].X
	for i := range m.Tris { // in the order of the triangles, so that it is the same every time
		for c := range 3 {
			if b.beside[i][c] < 0 {
				p, q := m.Tris[i].N[c], m.Tris[i].N[(c+1)%3]
				m.Edges = append(m.Edges, Edge{p, q, b.kind(m.Nodes[p], m.Nodes[q], lo, hi)})
			}
		}
	}
}

// neighbours is for every triangle the one across the edge from corner c to
// c+1, -1 for none.
func (m *Mesh) neighbours() [][3]int32 {
	// edges by their lower node: begin[n] is where those of node n start
	begin := make([]int32, len(m.Nodes)+1)
	each := func(see func(lo, hi int32, i, c int)) {
		for i := range m.Tris {
			for c := range 3 {
				p, q := m.Tris[i].N[c], m.Tris[i].N[(c+1)%3]
				see(min(p, q), max(p, q), i, c)
			}
		}
	}
	each(func(lo, _ int32, _, _ int) { begin[lo+1]++ })
	for n := range m.Nodes {
		begin[n+1] += begin[n]
	}
	type side struct {
		hi, tri int32
		c       int8
	}
	sides, next := make([]side, 3*len(m.Tris)), append([]int32(nil), begin...)
	out := make([][3]int32, len(m.Tris))
	each(func(lo, hi int32, i, c int) {
		out[i][c] = -1
		for _, s := range sides[begin[lo]:next[lo]] {
			if s.hi == hi {
				out[i][c], out[s.tri][s.c] = s.tri, int32(i)
			}
		}
		sides[next[lo]] = side{hi, int32(i), int8(c)}
		next[lo]++
	})
	return out
}

// kind tells what lies beyond an edge whose ground is on its left.
func (b *builder) kind(p, q geom.Vec, lo, hi float64) EdgeKind {
	d := q.Sub(p)
	switch {
	case p[0] == lo && q[0] == lo:
		return LeftEnd
	case p[0] == hi && q[0] == hi:
		return RightEnd
	}
	l := math.Hypot(d[0], d[1])
	out := p.Add(q).Mul(0.5).Add(geom.Vec{d[1] / l, -d[0] / l}.Mul(beyond))
	switch b.what.at(out) {
	case solid:
		return Body
	case void:
		if b.under(p, q) {
			return Base
		}
		return Air
	}
	return Body // a gap narrower than the search: closed
}

// beyond is how far past an edge the search looks, m: more than the lines that
// are taken together may part.
const beyond = 1.5 * touch

// under tells whether an edge is the foot of the ground: nothing lies below it.
func (b *builder) under(p, q geom.Vec) bool {
	if q[0] <= p[0] { // ground on the left of an edge to the left lies below it
		return false
	}
	mid := p.Add(q).Mul(0.5)
	for i := range b.panels {
		s := &b.panels[i]
		if mid[0] < s.x0 || mid[0] > s.x1 {
			continue
		}
		t := (mid[0] - s.x0) / (s.x1 - s.x0)
		for _, d := range s.bands {
			if d.mat != void {
				foot := d.lo[0] + t*(d.lo[1]-d.lo[0])
				return math.Abs(foot-mid[1]) < 2*touch
			}
		}
	}
	return false
}
