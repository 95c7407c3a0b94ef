package seepage

import (
	"math"
	"slices"

	"hillset/geom"
)

// touch is how far apart two lines of the section may be and still count as
// one, m: a hand's trim on site, far below any triangle.
const touch = 4e-3

// void and solid stand for what is no zone in a band.
const (
	void  = -1
	solid = -2
)

// band is one material in a panel, between two straight edges.
type band struct {
	mat    int        // index of a zone, void or solid
	lo, hi [2]float64 // levels at the left and the right end
}

// panel is a strip of the section between two upright lines, in which no edge
// begins or ends. Its bands run from the bottom up.
type panel struct {
	x0, x1 float64
	bands  []band
}

// edge is a line of a ring that spans a panel.
type edge struct{ z0, z1 float64 }

// breaks are the places at which something begins or ends, rising, those
// closer than touch taken together.
func (d *Domain) breaks() []float64 {
	var xs, firm []float64
	each := func(out *[]float64, r geom.Region) {
		for _, p := range r {
			for _, ring := range rings(p) {
				for _, v := range ring {
					*out = append(*out, v[0])
				}
			}
		}
	}
	for _, s := range d.Solids {
		each(&firm, s)
	}
	for _, z := range d.Zones {
		each(&xs, z.Region)
	}
	for _, r := range d.Drains {
		firm = append(firm, r.At[0])
	}
	for _, s := range d.Sealed {
		xs = append(xs, s[0], s[1])
	}
	for _, h := range d.Held {
		xs = append(xs, h.In.Min[0], h.In.Max[0])
	}
	return merge(append(firm, xs...), len(firm))
}

// merge takes places together that are closer than touch; the first n win over
// the others, and the least of the rest over those beside it.
func merge(xs []float64, n int) []float64 {
	kept := slices.Clone(xs[:n])
	slices.Sort(kept)
	kept = apart(kept)
	rest := slices.Clone(xs[n:])
	slices.Sort(rest)
	for _, x := range rest {
		i, found := slices.BinarySearch(kept, x)
		if found || i > 0 && x-kept[i-1] < touch || i < len(kept) && kept[i]-x < touch {
			continue
		}
		kept = slices.Insert(kept, i, x)
	}
	return kept
}

// apart drops of sorted places those closer than touch to the one before.
func apart(xs []float64) []float64 {
	out := xs[:0]
	for _, x := range xs {
		if n := len(out); n == 0 || x-out[n-1] >= touch {
			out = append(out, x)
		}
	}
	return out
}

func rings(p geom.Polygon) []geom.Ring { return append([]geom.Ring{p.Outer}, p.Holes...) }

// snapped is the break that stands for a place.
func snapped(breaks []float64, x float64) float64 {
	i, _ := slices.BinarySearch(breaks, x)
	best := math.Inf(1)
	out := x
	for k := max(0, i-1); k <= min(len(breaks)-1, i); k++ {
		if d := math.Abs(breaks[k] - x); d < best {
			best, out = d, breaks[k]
		}
	}
	return out
}

// panels cuts the section along its breaks.
func (d *Domain) panels(what places) []panel {
	xs := d.breaks()
	edges := make([][]edge, max(0, len(xs)-1))
	lay := func(r geom.Region) {
		for _, p := range r {
			for _, ring := range rings(p) {
				for i, a := range ring {
					layEdge(xs, edges, a, ring[(i+1)%len(ring)])
				}
			}
		}
	}
	for _, z := range d.Zones {
		lay(z.Region)
	}
	for _, s := range d.Solids {
		lay(s)
	}
	out := make([]panel, 0, len(edges))
	for i, es := range edges {
		out = append(out, what.panel(xs[i], xs[i+1], es))
	}
	return out
}

// layEdge puts an edge of a ring into every panel that it spans.
func layEdge(xs []float64, edges [][]edge, a, b geom.Vec) {
	if a[0] > b[0] {
		a, b = b, a
	}
	ax, bx := snapped(xs, a[0]), snapped(xs, b[0])
	if bx-ax < touch/2 {
		return // upright: the panels beside it tell
	}
	slope := (b[1] - a[1]) / (bx - ax)
	i, _ := slices.BinarySearch(xs, ax)
	for ; i+1 < len(xs) && xs[i+1] <= bx; i++ {
		edges[i] = append(edges[i], edge{a[1] + slope*(xs[i]-ax), a[1] + slope*(xs[i+1]-ax)})
	}
}

// panel sorts the edges that span a strip and finds what lies between them.
func (ps places) panel(x0, x1 float64, es []edge) panel {
	slices.SortFunc(es, func(a, b edge) int {
		switch m, n := a.z0+a.z1, b.z0+b.z1; {
		case m < n:
			return -1
		case m > n:
			return 1
		}
		return 0
	})
	p := panel{x0: x0, x1: x1}
	mid := (x0 + x1) / 2
	for i := 0; i+1 < len(es); i++ {
		a, b := es[i], es[i+1]
		lo, hi := [2]float64{a.z0, a.z1}, [2]float64{math.Max(a.z0, b.z0), math.Max(a.z1, b.z1)}
		if n := len(p.bands); n > 0 {
			lo = p.bands[n-1].hi
			hi = [2]float64{math.Max(hi[0], lo[0]), math.Max(hi[1], lo[1])}
		}
		if hi[0]-lo[0] < touch && hi[1]-lo[1] < touch {
			continue
		}
		mat := ps.at(geom.Vec{mid, (lo[0] + lo[1] + hi[0] + hi[1]) / 4})
		if n := len(p.bands); n > 0 && p.bands[n-1].mat == mat {
			p.bands[n-1].hi = hi
			continue
		}
		p.bands = append(p.bands, band{mat: mat, lo: lo, hi: hi})
	}
	return p
}

// places are all bodies of a section in the order in which they win over each
// other: solids before any zone, then the zones.
type places []place

type place struct {
	mat int
	box geom.Rect // round the body, so that most need no closer look
	in  geom.Polygon
}

func (d *Domain) places() (out places) {
	add := func(mat int, r geom.Region) {
		for _, p := range r {
			out = append(out, place{mat, p.Outer.Bounds().Expand(touch), p})
		}
	}
	for _, s := range d.Solids {
		add(solid, s)
	}
	for i := range d.Zones {
		add(i, d.Zones[i].Region)
	}
	return out
}

// at is the material at a point: a solid before any zone, the first zone that
// holds it, or void.
func (ps places) at(v geom.Vec) int {
	for i := range ps {
		if p := &ps[i]; p.box.Contains(v) && p.in.Contains(v) {
			return p.mat
		}
	}
	return void
}
