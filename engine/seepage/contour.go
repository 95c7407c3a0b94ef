package seepage

import (
	"math"

	"hillset/geom"
)

// Wet is the range of heads in the ground below the water table, m; false
// where all of it is dry.
func (f *Flow) Wet() (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for n, h := range f.Head {
		if h >= f.Mesh.Nodes[n][1] {
			lo, hi = math.Min(lo, h), math.Max(hi, h)
		}
	}
	return lo, hi, lo <= hi
}

// side is an edge of the mesh by its nodes, the smaller number first.
type side [2]int32

func sideOf(a, b int32) side { return side{min(a, b), max(a, b)} }

// Contour are the lines on which the head is h, m, below the water table: each
// is a chain from edge to edge of the mesh.
func (f *Flow) Contour(h float64) []geom.Polyline {
	links := map[side][]side{} // the neighbours of each crossed edge
	var list []side            // in the order of the triangles, so that the same flow gives the same lines
	for i := range f.Mesh.Tris {
		if f.Share[i] <= dryShare*2 {
			continue
		}
		a, b, ok := f.crossed(&f.Mesh.Tris[i], h)
		if !ok {
			continue
		}
		links[a], links[b] = append(links[a], b), append(links[b], a)
		list = append(list, a, b)
	}
	var out []geom.Polyline
	seen := map[side]bool{}
	walk := func(from side) {
		var line geom.Polyline
		for at, more := from, true; more; {
			seen[at] = true
			line = append(line, f.at(at, h))
			more = false
			for _, next := range links[at] {
				if !seen[next] {
					at, more = next, true
					break
				}
			}
		}
		out = append(out, under(line, h)...)
	}
	for _, ends := range [2]bool{true, false} { // open lines first, then rings
		for _, s := range list {
			if !seen[s] && (!ends || len(links[s]) == 1) {
				walk(s)
			}
		}
	}
	return out
}

// crossed are the two edges of a triangle that a head lies on.
func (f *Flow) crossed(t *Tri, h float64) (a, b side, ok bool) {
	n := 0
	for c := range 3 {
		p, q := t.N[c], t.N[(c+1)%3]
		if (f.Head[p] >= h) == (f.Head[q] >= h) {
			continue
		}
		if n++; n == 1 {
			a = sideOf(p, q)
		} else {
			b = sideOf(p, q)
		}
	}
	return a, b, n == 2
}

// at is where a head lies on an edge.
func (f *Flow) at(s side, h float64) geom.Vec {
	p, q := f.Mesh.Nodes[s[0]], f.Mesh.Nodes[s[1]]
	t := (h - f.Head[s[0]]) / (f.Head[s[1]] - f.Head[s[0]])
	return p.Add(q.Sub(p).Mul(t))
}

// under are the pieces of a line below level z.
func under(line geom.Polyline, z float64) []geom.Polyline {
	var out []geom.Polyline
	var run geom.Polyline
	for i, p := range line {
		if i > 0 {
			q := line[i-1]
			if (p[1] > z) != (q[1] > z) {
				cut := q.Add(p.Sub(q).Mul((z - q[1]) / (p[1] - q[1])))
				run = append(run, cut)
			}
		}
		if p[1] <= z {
			run = append(run, p)
			continue
		}
		if len(run) > 1 {
			out = append(out, run)
		}
		run = nil
	}
	if len(run) > 1 {
		out = append(out, run)
	}
	return out
}
