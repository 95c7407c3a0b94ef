package seepage

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/quantity"
	"hillset/geom"
)

// Mesh is the ground as triangles. Its nodes stand on upright lines, from the
// left to the right and on each from the bottom up, which keeps the band of the
// equations narrow.
type Mesh struct {
	Nodes []geom.Vec
	Tris  []Tri
	Lines []Line
	// Edges are the outer edges, the ground on their left.
	Edges  []Edge
	domain *Domain
	drains []int // node of every drain
	grid   *grid
}

// Tri is a triangle, anticlockwise.
type Tri struct {
	N    [3]int32
	Zone int32
}

// Line is an upright line of nodes: First to Last, which may have gaps where a
// solid stands.
type Line struct {
	X           float64
	First, Last int // node numbers, Last included
}

// Edge is a piece of the outer boundary.
type Edge struct {
	A, B int32
	Kind EdgeKind
}

// EdgeKind says what lies beyond an outer edge.
type EdgeKind int8

// The kinds.
const (
	Base    EdgeKind = iota // the bottom of the section: no water passes
	LeftEnd                 // the ends of the section
	RightEnd
	Air  // the surface, cut faces: water may leave
	Body // a solid: none passes
)

// most bounds the mesh, so that a wrong grain cannot fill the memory.
const mostNodes = 200000

// Build makes the mesh of a domain.
func (d *Domain) Build(g Grain) (*Mesh, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	if err := g.check(); err != nil {
		return nil, err
	}
	what := d.places()
	ps := d.panels(what)
	if len(ps) == 0 {
		return nil, fmt.Errorf("%w: the zones of the section have no extent", quantity.ErrRange)
	}
	b := builder{d: d, g: g, what: what}
	b.features()
	b.split(ps)
	if err := b.lines(); err != nil {
		return nil, err
	}
	for i := range b.panels {
		b.strip(i)
	}
	if len(b.m.Tris) == 0 {
		return nil, fmt.Errorf("%w: the zones of the section have no extent", quantity.ErrRange)
	}
	b.drop()
	b.m.domain = d
	b.edges()
	b.m.grid = gridOf(&b.m, b.beside)
	return &b.m, nil
}

// builder makes one mesh.
type builder struct {
	d      *Domain
	g      Grain
	near   []spot
	deep   float64 // level below which nothing happens
	panels []panel
	at     [][]float64 // levels of the nodes of every line
	start  []int       // number of the first node of every line
	what   places
	beside [][3]int32
	m      Mesh
}

// spot is a place round which the mesh is fine.
type spot struct {
	r    geom.Rect
	size float64
}

// wellRadius is the radius of a pipe over the size of the triangles round its
// node that stands for it: a single node draws like a well of a fifth of its
// spacing (finite differences, Peaceman 1978, memory: 0.2; SE-13).
const wellRadius = 0.2

// features are where the mesh is fine: round solids, and round drains as fine
// as their bore asks.
func (b *builder) features() {
	b.deep = math.Inf(1)
	for _, z := range b.d.Zones {
		b.deep = math.Min(b.deep, z.Region.Bounds().Min[1]+b.d.Deep)
	}
	for _, s := range b.d.Solids {
		b.near = append(b.near, spot{s.Bounds(), b.g.Near})
	}
	for _, r := range b.d.Drains {
		b.near = append(b.near, spot{geom.Rect{Min: r.At, Max: r.At}, r.Bore / 2 / wellRadius})
	}
	for _, h := range b.d.Held {
		b.near = append(b.near, spot{h.In, b.g.Near})
	}
}

// size is the size of the triangles at a point.
func (b *builder) size(v geom.Vec) float64 {
	s := b.g.Far
	for _, n := range b.near {
		dx := math.Max(0, math.Max(n.r.Min[0]-v[0], v[0]-n.r.Max[0]))
		dz := math.Max(0, math.Max(n.r.Min[1]-v[1], v[1]-n.r.Max[1]))
		s = math.Min(s, n.size+b.g.Grow*math.Hypot(dx, dz))
	}
	return s * (1 + math.Max(0, b.deep-v[1])/coarser)
}

// coarser is the depth in which the mesh doubles where nothing happens, m.
const coarser = 1.5

// split divides panels until none is wider than the mesh may be there.
func (b *builder) split(ps []panel) {
	for _, p := range ps {
		b.halve(p)
	}
}

func (b *builder) halve(p panel) {
	if p.x1-p.x0 <= b.least(p) {
		b.panels = append(b.panels, p)
		return
	}
	mid := (p.x0 + p.x1) / 2
	l, r := panel{x0: p.x0, x1: mid}, panel{x0: mid, x1: p.x1}
	for _, s := range p.bands {
		lo, hi := (s.lo[0]+s.lo[1])/2, (s.hi[0]+s.hi[1])/2
		l.bands = append(l.bands, band{s.mat, [2]float64{s.lo[0], lo}, [2]float64{s.hi[0], hi}})
		r.bands = append(r.bands, band{s.mat, [2]float64{lo, s.lo[1]}, [2]float64{hi, s.hi[1]}})
	}
	b.halve(l)
	b.halve(r)
}

// least is the smallest size asked for in a panel: a little more than at the
// nearest point, since triangles may be half as long again one way.
func (b *builder) least(p panel) float64 {
	mid := (p.x0 + p.x1) / 2
	s := b.g.Far
	for _, n := range b.near {
		dx := math.Max(0, math.Max(n.r.Min[0]-mid, mid-n.r.Max[0]))
		s = math.Min(s, n.size+b.g.Grow*dx)
	}
	return 1.3 * s
}

// lines sets the nodes on the lines between the panels.
func (b *builder) lines() error {
	n := len(b.panels)
	b.at = make([][]float64, n+1)
	total := 0
	for i := range n + 1 {
		b.at[i] = b.line(i)
		b.start = append(b.start, total)
		total += len(b.at[i])
		if total > mostNodes {
			return quantity.Range("nodes of the mesh", float64(total), 3, mostNodes)
		}
	}
	b.m.Nodes = make([]geom.Vec, 0, total)
	for i, zs := range b.at {
		x := b.x(i)
		b.m.Lines = append(b.m.Lines, Line{X: x, First: b.start[i], Last: b.start[i] + len(zs) - 1})
		for _, z := range zs {
			b.m.Nodes = append(b.m.Nodes, geom.Vec{x, z})
		}
	}
	for _, r := range b.d.Drains {
		b.m.drains = append(b.m.drains, b.node(r.At))
	}
	return nil
}

// x is the place of line i.
func (b *builder) x(i int) float64 {
	if i < len(b.panels) {
		return b.panels[i].x0
	}
	return b.panels[i-1].x1
}

// ends gives the bands that touch line i with their levels there.
func (b *builder) ends(i int, see func(mat int, lo, hi float64)) {
	if i > 0 {
		for _, s := range b.panels[i-1].bands {
			see(s.mat, s.lo[1], s.hi[1])
		}
	}
	if i < len(b.panels) {
		for _, s := range b.panels[i].bands {
			see(s.mat, s.lo[0], s.hi[0])
		}
	}
}

// line gives the levels of the nodes of line i, rising.
func (b *builder) line(i int) []float64 {
	x := b.x(i)
	var keys []float64
	for _, r := range b.d.Drains {
		if math.Abs(r.At[0]-x) < touch/2 {
			keys = append(keys, r.At[1])
		}
	}
	firm := len(keys)
	for _, h := range b.d.Held {
		if x >= h.In.Min[0]-touch && x <= h.In.Max[0]+touch {
			keys = append(keys, h.In.Min[1], h.In.Max[1])
		}
	}
	b.ends(i, func(mat int, lo, hi float64) {
		if mat >= 0 {
			keys = append(keys, lo, hi)
		}
	})
	keys = merge(keys, firm)
	keys = slices.DeleteFunc(keys, func(z float64) bool { return !b.ground(i, z) })
	var out []float64
	for k, z := range keys {
		out = append(out, z)
		if k+1 == len(keys) || !b.ground(i, (z+keys[k+1])/2) {
			continue
		}
		out = b.fill(out, x, z, keys[k+1])
	}
	return out
}

// ground tells whether a level on line i lies in ground on either side.
func (b *builder) ground(i int, z float64) (in bool) {
	b.ends(i, func(mat int, lo, hi float64) { in = in || mat >= 0 && lo-touch <= z && z <= hi+touch })
	return in
}

// fill adds levels between two as the size of the mesh asks.
func (b *builder) fill(out []float64, x, z0, z1 float64) []float64 {
	// steps grow with the size along the way: equal shares of the number of
	// triangles that fit
	const parts = 16
	var sum [parts + 1]float64
	for k := range parts {
		z := z0 + (z1-z0)*(float64(k)+0.5)/parts
		sum[k+1] = sum[k] + (z1-z0)/parts/b.size(geom.Vec{x, z})
	}
	n := int(math.Ceil(sum[parts] - 1e-9))
	k := 0
	for j := 1; j < n; j++ {
		want := sum[parts] * float64(j) / float64(n)
		for sum[k+1] < want {
			k++
		}
		t := (float64(k) + (want-sum[k])/(sum[k+1]-sum[k])) / parts
		out = append(out, z0+(z1-z0)*t)
	}
	return out
}

// node is the number of the node nearest to a place.
func (b *builder) node(v geom.Vec) int {
	best, at := math.Inf(1), -1
	for i := range b.at {
		if math.Abs(b.x(i)-v[0]) > touch {
			continue
		}
		for k, z := range b.at[i] {
			if d := math.Abs(z - v[1]); d < best {
				best, at = d, b.start[i]+k
			}
		}
	}
	return at
}

// index is the place in a sorted list of levels nearest to z.
func index(zs []float64, z float64) int {
	i, _ := slices.BinarySearch(zs, z)
	switch {
	case i == 0:
		return 0
	case i == len(zs), z-zs[i-1] < zs[i]-z:
		return i - 1
	}
	return i
}

// strip makes the triangles of panel i, band by band.
func (b *builder) strip(i int) {
	l, r := b.at[i], b.at[i+1]
	for _, s := range b.panels[i].bands {
		if s.mat < 0 {
			continue
		}
		b.band(s.mat, b.start[i], index(l, s.lo[0]), index(l, s.hi[0]), l, b.start[i+1], index(r, s.lo[1]), index(r, s.hi[1]), r)
	}
}

// band zips two lines of nodes together: always the side whose next node lies
// lower, by its share of the way.
func (b *builder) band(mat, l0, i, iEnd int, l []float64, r0, j, jEnd int, r []float64) {
	share := func(zs []float64, k, from, to int) float64 {
		if to == from {
			return math.Inf(1)
		}
		return (zs[k] - zs[from]) / (zs[to] - zs[from])
	}
	iFrom, jFrom := i, j
	for i < iEnd || j < jEnd {
		a, c := int32(l0+i), int32(r0+j)
		left := i < iEnd && (j == jEnd || share(l, i+1, iFrom, iEnd) < share(r, j+1, jFrom, jEnd))
		if left {
			i++
			b.m.Tris = append(b.m.Tris, Tri{[3]int32{a, c, int32(l0 + i)}, int32(mat)})
			continue
		}
		j++
		b.m.Tris = append(b.m.Tris, Tri{[3]int32{a, c, int32(r0 + j)}, int32(mat)})
	}
}

// drop takes out nodes that no triangle uses, and numbers the rest anew.
func (b *builder) drop() {
	m := &b.m
	used := make([]bool, len(m.Nodes))
	for _, t := range m.Tris {
		for _, n := range t.N {
			used[n] = true
		}
	}
	to := make([]int32, len(m.Nodes))
	kept := m.Nodes[:0]
	for i := range used {
		to[i] = -1
		if used[i] {
			to[i] = int32(len(kept))
			kept = append(kept, m.Nodes[i])
		}
	}
	m.Nodes = kept
	for k := range m.Tris {
		n := &m.Tris[k].N
		for c := range n {
			n[c] = to[n[c]]
		}
	}
	for k, n := range m.drains {
		if n >= 0 {
			m.drains[k] = int(to[n])
		}
	}
	m.Lines = m.Lines[:0]
	for i, v := range m.Nodes {
		if n := len(m.Lines); n == 0 || v[0] != m.Lines[n-1].X {
			m.Lines = append(m.Lines, Line{X: v[0], First: i})
		}
		m.Lines[len(m.Lines)-1].Last = i
	}
}
