package seepage

import (
	"cmp"
	"math"
	"slices"

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
	walk := f.walker()
	in := walk.sources()
	total := 0.0
	for _, s := range in {
		total += s.q
	}
	if total <= 0 || n < 1 {
		return nil
	}
	var out []Path
	sum, next := 0.0, 0
	for _, s := range in {
		for next < n {
			share := (total*(float64(next)+0.5)/float64(n) - sum) / s.q
			if share > 1 {
				break
			}
			if line := walk.follow(s, share); len(line) > 1 {
				out = append(out, Path{line, total / float64(n)})
			}
			next++
		}
		sum += s.q
	}
	return out
}

// source is a stretch of an end of the section through which water enters
// evenly, or a held node (tri below zero).
type source struct {
	a, b geom.Vec
	q    float64 // m3/s per m
	tri  int
	node int32
}

// sources are where water enters, from the bottom up at each end: what enters at
// a node comes through the halves of the edges beside it.
func (w *walker) sources() []source {
	m := w.m
	lo, hi := m.Lines[0].X, m.Lines[len(m.Lines)-1].X
	share := map[int32]int{} // edges beside an entering node
	var edges [][3]int32     // triangle and both nodes
	for i := range m.Tris {
		for c := range 3 {
			p, q := m.Tris[i].N[c], m.Tris[i].N[(c+1)%3]
			x := m.Nodes[p][0]
			if w.beside[i][c] >= 0 || x != m.Nodes[q][0] || x != lo && x != hi || !w.wet[i] {
				continue
			}
			share[p]++
			share[q]++
			edges = append(edges, [3]int32{int32(i), p, q})
		}
	}
	var out []source
	for _, e := range edges {
		mid := m.Nodes[e[1]].Add(m.Nodes[e[2]]).Mul(0.5)
		for _, n := range e[1:] {
			if q := w.out[n]; q < 0 {
				s := source{a: m.Nodes[n], b: mid, q: -q / float64(share[n]), tri: int(e[0]), node: n}
				if s.a[1] > s.b[1] {
					s.a, s.b = s.b, s.a
				}
				s.b[1] = math.Max(s.a[1], math.Min(s.b[1], w.head[n])) // none enters above the water
				out = append(out, s)
			}
		}
	}
	for n, q := range w.out {
		if q < 0 && share[int32(n)] == 0 {
			out = append(out, source{a: m.Nodes[n], b: m.Nodes[n], q: -q, tri: -1, node: int32(n)})
		}
	}
	slices.SortStableFunc(out, func(p, q source) int {
		if c := cmp.Compare(p.a[0], q.a[0]); c != 0 {
			return c
		}
		return cmp.Compare(p.a[1], q.a[1])
	})
	return out
}

// drowned is the share of its flow from which a triangle counts as ground that a
// drop goes through: in those that the free surface cuts higher up, it goes
// along their lower edges.
const drowned = 0.5

// walker knows the neighbours and the velocities of all triangles.
type walker struct {
	m      *Mesh
	beside [][3]int32 // triangle across the edge from corner c to c+1, -1 for none
	v      []geom.Vec
	wet    []bool
	head   []float64
	out    []float64
	first  []int32 // of every node, where its triangles begin in around
	around []int32
}

func (f *Flow) walker() *walker {
	m := f.Mesh
	w := &walker{m: m, beside: m.grid.beside, v: make([]geom.Vec, len(m.Tris)), wet: make([]bool, len(m.Tris)), head: f.Head, out: f.Out,
		first: make([]int32, len(m.Nodes)+1), around: make([]int32, 3*len(m.Tris))}
	for i := range m.Tris {
		t := &m.Tris[i]
		w.v[i] = f.velocity(t)
		w.wet[i] = f.Share[i] > drowned
		for _, n := range t.N {
			w.first[n+1]++
		}
	}
	for n := range m.Nodes {
		w.first[n+1] += w.first[n]
	}
	at := slices.Clone(w.first)
	for i := range m.Tris {
		for _, n := range m.Tris[i].N {
			w.around[at[n]] = int32(i)
			at[n]++
		}
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
// velocity. Where both sides of an edge drive the drop to it, or beyond it there
// is no wet ground, the drop goes along the edge to its lower end. The head falls
// all the way.
func (w *walker) follow(s source, share float64) geom.Polyline {
	at := s.a.Add(s.b.Sub(s.a).Mul(share))
	line := geom.Polyline{at}
	i, last, node := s.tri, -1, int32(-1)
	if i < 0 || at.Sub(w.m.Nodes[s.node]).Len() < atNode {
		node = s.node
	}
	for range 4 * len(w.m.Tris) {
		if node >= 0 { // at a node
			if w.out[node] > 0 {
				return line
			}
			if i = w.enter(node); i < 0 {
				if node = w.down(node); node < 0 {
					return line
				}
				at = w.m.Nodes[node]
				line = append(line, at)
				continue
			}
			last, node = -1, -1
		}
		next, c := w.leave(i, at, last)
		if c < 0 {
			if last < 0 {
				return line
			}
			c = last // driven back to the edge that it came by
		} else {
			line, at = append(line, next), next
			if node = w.corner(i, c, at); node >= 0 {
				continue
			}
			if j, k := w.across(i, c); j >= 0 && w.wet[j] {
				if _, on := w.leave(j, at, k); on >= 0 {
					i, last = j, k
					continue
				}
			}
		}
		a, b := w.m.Tris[i].N[c], w.m.Tris[i].N[(c+1)%3]
		if w.beside[i][c] < 0 && (w.out[a] > 0 || w.out[b] > 0) {
			return line
		}
		if node = a; w.head[b] < w.head[a] {
			node = b
		}
		at = w.m.Nodes[node]
		line = append(line, at)
	}
	return line
}

// atNode is how near to a node a drop counts as at it, m: rounding.
const atNode = 1e-7

// corner is the end of an edge that a drop is at, -1 for neither.
func (w *walker) corner(i, c int, at geom.Vec) int32 {
	for _, n := range [2]int32{w.m.Tris[i].N[c], w.m.Tris[i].N[(c+1)%3]} {
		if at.Sub(w.m.Nodes[n]).Len() < atNode {
			return n
		}
	}
	return -1
}

// across is the triangle beyond an edge of another, -1 for none, with the
// number that the edge has there.
func (w *walker) across(i, c int) (j, k int) {
	j = int(w.beside[i][c])
	if j < 0 {
		return -1, -1
	}
	a := w.m.Tris[i].N[(c+1)%3]
	for k := range 3 {
		if w.m.Tris[j].N[k] == a {
			return j, k
		}
	}
	panic("seepage: two triangles do not share their edge")
}

// enter is a wet triangle at a node from which the velocity leads inward, the
// one that leads farthest; -1 for none.
func (w *walker) enter(n int32) int {
	best, reach := -1, 0.0
	for _, i := range w.around[w.first[n]:w.first[n+1]] {
		if !w.wet[i] {
			continue
		}
		at := w.m.Nodes[n]
		if next, c := w.leave(int(i), at, -1); c >= 0 {
			if l := next.Sub(at).Len(); l > reach+atNode {
				best, reach = int(i), l
			}
		}
	}
	return best
}

// down is the node beside another to which the head falls most steeply through
// wet ground; -1 where it falls to none.
func (w *walker) down(n int32) int32 {
	best, steepest := int32(-1), 0.0
	for _, i := range w.around[w.first[n]:w.first[n+1]] {
		if !w.wet[i] {
			continue
		}
		for _, o := range w.m.Tris[i].N {
			if o == n {
				continue
			}
			if s := (w.head[n] - w.head[o]) / w.m.Nodes[n].Sub(w.m.Nodes[o]).Len(); s > steepest {
				best, steepest = o, s
			}
		}
	}
	return best
}

// leave is where a drop at a point of triangle i leaves it, and by which edge;
// the edge is -1 where it stays or is driven back to the one that it came by.
func (w *walker) leave(i int, at geom.Vec, cameBy int) (geom.Vec, int) {
	t, v := &w.m.Tris[i], w.v[i]
	best, edge := math.Inf(1), -1
	for c := range 3 {
		a, b := w.m.Nodes[t.N[c]], w.m.Nodes[t.N[(c+1)%3]]
		d := b.Sub(a)
		out := v[0]*d[1] - v[1]*d[0] // towards the right of the edge is out
		if out <= 0 {
			continue
		}
		if c == cameBy { // driven back
			return at, -1
		}
		// A drop on an edge may lie a rounding beyond it.
		if s := math.Max(0, cross(a.Sub(at), d)/cross(v, d)); s < best {
			best, edge = s, c
		}
	}
	if edge < 0 {
		return at, -1
	}
	return at.Add(v.Mul(best)), edge
}
