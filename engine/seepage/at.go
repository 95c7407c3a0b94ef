package seepage

import (
	"sort"

	"hillset/geom"
)

// HeadAt is the head at a point of the ground, m; false where there is none.
func (f *Flow) HeadAt(v geom.Vec) (h float64, ok bool) {
	t, w, ok := f.Mesh.find(v)
	if !ok {
		return 0, false
	}
	for c, n := range t.N {
		h += w[c] * f.Head[n]
	}
	return h, true
}

// find is the triangle that holds a point, with the weights of its corners.
// A point up to touch outside still counts as on the edge.
func (m *Mesh) find(v geom.Vec) (t *Tri, w [3]float64, ok bool) {
	best := -touch
	// the strips that reach the place, from the first whose right line does
	from := max(0, sort.Search(len(m.Lines), func(i int) bool { return m.Lines[i].X >= v[0]-touch })-1)
	to := sort.Search(len(m.Lines), func(i int) bool { return m.Lines[i].X > v[0]+touch })
	for i := m.grid.strips[from]; i < m.grid.strips[to]; i++ {
		one := &m.Tris[i]
		p, q, r := m.Nodes[one.N[0]], m.Nodes[one.N[1]], m.Nodes[one.N[2]]
		if v[0] < min(p[0], q[0], r[0])-touch || v[0] > max(p[0], q[0], r[0])+touch {
			continue
		}
		area := cross(q.Sub(p), r.Sub(p))
		u := [3]float64{cross(q.Sub(v), r.Sub(v)) / area, cross(r.Sub(v), p.Sub(v)) / area, cross(p.Sub(v), q.Sub(v)) / area}
		if least := min(u[0], u[1], u[2]); least > best {
			t, w, best, ok = one, u, least, true
			if least >= 0 {
				return t, w, true
			}
		}
	}
	return t, w, ok
}

func cross(a, b geom.Vec) float64 { return a[0]*b[1] - a[1]*b[0] }
