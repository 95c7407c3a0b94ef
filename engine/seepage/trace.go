package seepage

import (
	"math"

	"hillset/geom"
)

// Path is the way of a drop of water, from where it enters to where it leaves.
type Path struct {
	Line  geom.Polyline // not a function of x: a drop may turn back
	Share float64       // m3/s per m that each path stands for
}

// Paths follows n drops from where water enters, each standing for the same
// flow, downstream to where it leaves. Water enters at held nodes; recharge is
// not followed. They are none where nothing enters.
func (f *Flow) Paths(n int) []Path {
	type source struct {
		at geom.Vec
		q  float64
	}
	var in []source
	total := 0.0
	for k, o := range f.Out {
		if o < 0 {
			in = append(in, source{f.Mesh.Nodes[k], -o})
			total -= o
		}
	}
	if total <= 0 || n < 1 {
		return nil
	}
	walk := f.walker()
	var out []Path
	sum, next := 0.0, 0
	for _, s := range in {
		for next < n && sum+s.q >= total*(float64(next)+0.5)/float64(n) {
			if line := walk.follow(s.at); len(line) > 1 {
				out = append(out, Path{line, total / float64(n)})
			}
			next++
		}
		sum += s.q
	}
	return out
}

// walker knows the neighbours and the velocities of all triangles.
type walker struct {
	m      *Mesh
	beside [][3]int32 // triangle across the edge from corner c to c+1, -1 for none
	v      []geom.Vec
	wet    []bool
}

func (f *Flow) walker() *walker {
	m := f.Mesh
	w := &walker{m: m, beside: m.grid.beside, v: make([]geom.Vec, len(m.Tris)), wet: make([]bool, len(m.Tris))}
	for i := range m.Tris {
		t := &m.Tris[i]
		w.v[i] = f.velocity(t)
		w.wet[i] = f.Share[i] > dryShare*2
	}
	return w
}

// velocity is the flow per area in a saturated triangle, m/s.
func (f *Flow) velocity(t *Tri) geom.Vec {
	m, z := f.Mesh, &f.Mesh.domain.Zones[t.Zone]
	p, q, r := m.Nodes[t.N[0]], m.Nodes[t.N[1]], m.Nodes[t.N[2]]
	h0, h1, h2 := f.Head[t.N[0]], f.Head[t.N[1]], f.Head[t.N[2]]
	twice := cross(q.Sub(p), r.Sub(p))
	gx := (h0*(q[1]-r[1]) + h1*(r[1]-p[1]) + h2*(p[1]-q[1])) / twice
	gz := (h0*(r[0]-q[0]) + h1*(p[0]-r[0]) + h2*(q[0]-p[0])) / twice
	return geom.Vec{-z.Kx * gx, -z.Kz * gz}
}

// follow goes from triangle to triangle, straight through each along its
// velocity.
func (w *walker) follow(from geom.Vec) geom.Polyline {
	i := w.enter(from)
	if i < 0 {
		return nil
	}
	line, at, last := geom.Polyline{from}, from, -1
	for range 4 * len(w.m.Tris) {
		if !w.wet[i] {
			break
		}
		next, c := w.leave(i, at, last)
		if c < 0 {
			break
		}
		line, at = append(line, next), next
		j := w.beside[i][c]
		if j < 0 {
			break
		}
		// the corner order of the neighbour tells which of its edges was crossed
		a := w.m.Tris[i].N[(c+1)%3]
		last = 0
		for k := range 3 {
			if w.m.Tris[j].N[k] == a {
				last = k
			}
		}
		i = int(j)
	}
	return line
}

// enter is a wet triangle at a point from which the velocity leads inward.
func (w *walker) enter(at geom.Vec) int {
	best, reach := -1, 0.0
	for i, t := range w.m.Tris {
		if !w.wet[i] {
			continue
		}
		for _, n := range t.N {
			if w.m.Nodes[n] != at {
				continue
			}
			if next, c := w.leave(i, at, -1); c >= 0 {
				if l := next.Sub(at).Len(); l > reach {
					best, reach = i, l
				}
			}
		}
	}
	return best
}

// leave is where a drop at a point of triangle i leaves it, and by which edge;
// it does not go back by the edge it came in by. The edge is -1 where it stays.
func (w *walker) leave(i int, at geom.Vec, cameBy int) (geom.Vec, int) {
	t, v := &w.m.Tris[i], w.v[i]
	best, edge := math.Inf(1), -1
	for c := range 3 {
		if c == cameBy {
			continue
		}
		a, b := w.m.Nodes[t.N[c]], w.m.Nodes[t.N[(c+1)%3]]
		d := b.Sub(a)
		out := v[0]*d[1] - v[1]*d[0] // towards the right of the edge is out
		if out <= 0 {
			continue
		}
		s := cross(a.Sub(at), d) / cross(v, d)
		if s >= 0 && s < best {
			best, edge = s, c
		}
	}
	if edge < 0 || best*v.Len() < 1e-12 {
		return at, -1
	}
	return at.Add(v.Mul(best)), edge
}
