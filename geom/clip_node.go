package geom

import (
	"errors"
	"math"
	"slices"
)

// A crossing rounded to the grid bends its edges by up to half a unit, which
// may make them meet a third edge; so cutting goes on in rounds until nothing
// meets. plainRounds of them are the quick way, and enough for all but edges
// that run side by side within some grid units: of 200 000 random pairs of
// polygons, none took more than two at the size of a section, and 3 in 10^5
// more than two at 10 micrometres. From then on edges are also drawn to every
// vertex they pass within half a unit of: Hobby's rule, which can make new
// crossings by rounding only. One such round ended each of 6000 tangles of 60
// random chords over 10 to 10^9 by 10 to 10^8 units; maxRounds guards the loop.
const (
	plainRounds = 3
	maxRounds   = 50
)

// errNoding says that the cuts did not come to rest within maxRounds.
var errNoding = errors.New("edges lie too densely for the 1e-6 m grid")

// cut asks for edge index to be split at a point.
type cut struct {
	edge  int
	along float64
	at    gpt
}

// node cuts all edges where they meet, until they meet at their ends only, and
// merges edges that coincide.
func (c *clipper) node() error {
	var cuts []cut
	for round := range maxRounds {
		c.merge()
		cuts = c.findCuts(cuts[:0])
		if len(cuts) == 0 {
			return nil
		}
		if round >= plainRounds {
			cuts = c.hotCuts(cuts)
		}
		c.apply(cuts)
	}
	return errNoding
}

// merge sorts the fresh edges in among the others and adds up those that
// coincide; edges whose steps cancel for both operands are no boundary and
// vanish.
func (c *clipper) merge() {
	slices.SortFunc(c.fresh, compareEdges)
	old := c.edges
	out := make([]cedge, 0, len(old)+len(c.fresh))
	for i, j := 0, 0; i < len(old) || j < len(c.fresh); {
		var e cedge
		if j == len(c.fresh) || i < len(old) && compareEdges(old[i], c.fresh[j]) <= 0 {
			e, i = old[i], i+1
		} else {
			e, j = c.fresh[j], j+1
		}
		out = addEdge(out, e)
	}
	if n := len(out); n > 0 && out[n-1].step == [2]int32{} {
		out = out[:n-1]
	}
	c.edges, c.fresh = out, c.fresh[:0]
}

// addEdge appends e, which is not before the last one, to merged edges.
func addEdge(out []cedge, e cedge) []cedge {
	n := len(out) - 1
	if n < 0 {
		return append(out, e)
	}
	last := &out[n]
	switch {
	case last.p == e.p && last.q == e.q:
		last.step[0] += e.step[0]
		last.step[1] += e.step[1]
		return out
	case last.step == [2]int32{}:
		*last = e
		return out
	}
	return append(out, e)
}

func compareEdges(a, b cedge) int {
	if a.p != b.p {
		return a.p.compare(b.p)
	}
	return a.q.compare(b.q)
}

// findCuts tests every pair of edges whose boxes overlap. The edges are sorted
// by x, so that only those still reaching the current x need a look.
func (c *clipper) findCuts(cuts []cut) []cut {
	active := make([]int, 0, 32)
	for i := range c.edges {
		e := &c.edges[i]
		lo, hi := min(e.p.y, e.q.y), max(e.p.y, e.q.y)
		kept := active[:0]
		for _, j := range active {
			f := &c.edges[j]
			if f.q.x < e.p.x {
				continue
			}
			kept = append(kept, j)
			if min(f.p.y, f.q.y) <= hi && max(f.p.y, f.q.y) >= lo {
				cuts = c.pair(cuts, i, j)
			}
		}
		active = append(kept, i)
	}
	return cuts
}

// pair adds the cuts that edges i and j make in each other.
func (c *clipper) pair(cuts []cut, i, j int) []cut {
	e, f := &c.edges[i], &c.edges[j]
	fp, fq := orient(e.p, e.q, f.p), orient(e.p, e.q, f.q)
	if fp*fq > 0 {
		return cuts
	}
	ep, eq := orient(f.p, f.q, e.p), orient(f.p, f.q, e.q)
	if ep*eq > 0 {
		return cuts
	}
	if fp*fq < 0 && ep*eq < 0 {
		at := crossing(e, f)
		return c.addCut(c.addCut(cuts, i, at), j, at)
	}
	cuts = c.cutOn(cuts, i, f.p, fp)
	cuts = c.cutOn(cuts, i, f.q, fq)
	cuts = c.cutOn(cuts, j, e.p, ep)
	return c.cutOn(cuts, j, e.q, eq)
}

// cutOn cuts edge i at an end v of another edge that lies on it.
func (c *clipper) cutOn(cuts []cut, i int, v gpt, side int) []cut {
	e := &c.edges[i]
	if side != 0 || !e.p.less(v) || !v.less(e.q) {
		return cuts
	}
	return c.addCut(cuts, i, v)
}

func (c *clipper) addCut(cuts []cut, i int, at gpt) []cut {
	e := &c.edges[i]
	if at == e.p || at == e.q {
		return cuts
	}
	d, w := e.q.sub(e.p), at.sub(e.p)
	along := float64(w.x)*float64(d.x) + float64(w.y)*float64(d.y)
	return append(cuts, cut{i, along, at})
}

// crossing is the grid point nearest to where two edges cross properly.
func crossing(e, f *cedge) gpt {
	d, g, w := e.q.sub(e.p), f.q.sub(f.p), f.p.sub(e.p)
	den := float64(d.x)*float64(g.y) - float64(d.y)*float64(g.x)
	t := (float64(w.x)*float64(g.y) - float64(w.y)*float64(g.x)) / den
	if !finite(t) {
		t = 0.5 // so near to parallel that every point of the overlap serves
	}
	t = clamp01(t)
	x := e.p.x + int64(math.Round(float64(d.x)*t))
	y := e.p.y + int64(math.Round(float64(d.y)*t))
	// Rounding of t must not leave the box of the other edge.
	x = max(f.p.x, min(f.q.x, x))
	y = max(min(f.p.y, f.q.y), min(max(f.p.y, f.q.y), y))
	return gpt{x, y}
}

// hotCuts adds a cut wherever an edge passes the grid cell round a vertex or
// round another cut.
func (c *clipper) hotCuts(cuts []cut) []cut {
	hot := make([]gpt, 0, 2*len(c.edges)+len(cuts))
	for i := range c.edges {
		hot = append(hot, c.edges[i].p, c.edges[i].q)
	}
	for i := range cuts {
		hot = append(hot, cuts[i].at)
	}
	slices.SortFunc(hot, gpt.compare)
	hot = slices.Compact(hot)
	for i := range c.edges {
		e := &c.edges[i]
		from, _ := slices.BinarySearchFunc(hot, gpt{e.p.x, math.MinInt64}, gpt.compare)
		for _, v := range hot[from:] {
			if v.x > e.q.x {
				break
			}
			if passes(e, v) {
				cuts = c.addCut(cuts, i, v)
			}
		}
	}
	return cuts
}

// passes reports whether the edge, within whose range of x v lies, meets the
// unit cell centred on v: then the cell's corners are not all on one side.
func passes(e *cedge, v gpt) bool {
	if v.y < min(e.p.y, e.q.y) || v.y > max(e.p.y, e.q.y) {
		return false
	}
	p, q := gpt{2 * e.p.x, 2 * e.p.y}, gpt{2 * e.q.x, 2 * e.q.y}
	sum := 0
	for _, k := range [4]gpt{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		sum += orient(p, q, gpt{2*v.x + k.x, 2*v.y + k.y})
	}
	return sum > -4 && sum < 4
}

// apply replaces every cut edge by its pieces.
func (c *clipper) apply(cuts []cut) {
	slices.SortFunc(cuts, func(a, b cut) int {
		switch {
		case a.edge != b.edge:
			return a.edge - b.edge
		case a.along < b.along:
			return -1
		case a.along > b.along:
			return 1
		}
		return 0
	})
	for i := 0; i < len(cuts); {
		k := cuts[i].edge
		e := c.edges[k]
		c.edges[k].step = [2]int32{} // dropped by the next merge
		from := e.p
		for ; i < len(cuts) && cuts[i].edge == k; i++ {
			c.push(from, cuts[i].at, e.step)
			from = cuts[i].at
		}
		c.push(from, e.q, e.step)
	}
}
