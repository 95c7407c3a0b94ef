package geom

import (
	"slices"
	"sort"
)

// link is a boundary edge of the result, its inside on the left.
type link struct {
	from, to gpt
	used     bool
}

// collect joins the edges that bound the kept area into polygons.
func (c *clipper) collect(keep func(inA, inB bool) bool) Region {
	links := c.boundary(keep)
	var loops [][]gpt
	for i := range links {
		if links[i].used {
			continue
		}
		loop, forked := walk(links, i)
		if forked {
			loops = splitLoop(loops, loop)
		} else {
			loops = append(loops, loop)
		}
	}
	return assemble(loops)
}

// boundary is the kept area's edges sorted by where they start: those that run
// with the sweep come in the order of edges, the others in that of ends.
func (c *clipper) boundary(keep func(inA, inB bool) bool) []link {
	links := make([]link, 0, len(c.edges))
	next := 0
	forward := func(e *cedge) {
		if c.inside(e, keep) > 0 {
			links = append(links, link{from: e.p, to: e.q})
		}
	}
	for _, i := range c.ends {
		e := &c.edges[i]
		if c.inside(e, keep) >= 0 {
			continue
		}
		for ; next < len(c.edges) && c.edges[next].p.less(e.q); next++ {
			forward(&c.edges[next])
		}
		links = append(links, link{from: e.q, to: e.p})
	}
	for ; next < len(c.edges); next++ {
		forward(&c.edges[next])
	}
	return links
}

// inside is +1 when what is kept lies above e only, -1 below only, else 0.
func (c *clipper) inside(e *cedge, keep func(inA, inB bool) bool) int {
	lo := keep(e.below[0] > 0, e.below[1] > 0)
	hi := keep(e.above(0) > 0, e.above(1) > 0)
	switch {
	case hi && !lo:
		return 1
	case lo && !hi:
		return -1
	}
	return 0
}

// walk follows the boundary of one face from link i until it closes; forked
// says that it passed a vertex with more than one way on.
func walk(links []link, i int) (loop []gpt, forked bool) {
	for !links[i].used {
		links[i].used = true
		loop = append(loop, links[i].from)
		var fork bool
		i, fork = follow(links, links[i].from, links[i].to)
		forked = forked || fork
	}
	return loop, forked
}

// follow is the link that continues a boundary that came from u to v: the
// first one clockwise from the way back, so that the inside stays on the left.
func follow(links []link, u, v gpt) (next int, fork bool) {
	lo := sort.Search(len(links), func(i int) bool { return !links[i].from.less(v) })
	if lo == len(links) || links[lo].from != v {
		panic("geom: clip: boundary does not close")
	}
	best := lo
	back := u.sub(v)
	for i := lo + 1; i < len(links) && links[i].from == v; i++ {
		if clockwiseFirst(back, links[i].to.sub(v), links[best].to.sub(v)) {
			best = i
		}
		fork = true
	}
	return best, fork
}

// clockwiseFirst reports whether d is met before e when turning clockwise from
// the direction back.
func clockwiseFirst(back, d, e gpt) bool {
	sd, se := crossSign(back, d), crossSign(back, e)
	// cross < 0: first half turn; 0: straight on (the way back has no link);
	// > 0: second half turn.
	if sd != se {
		return sd < se
	}
	return crossSign(d, e) < 0
}

// splitLoop cuts a loop wherever it passes a point twice, so that each part is
// simple: a hole that touches its outer ring becomes a hole again.
func splitLoop(loops [][]gpt, loop []gpt) [][]gpt {
	seen := make(map[gpt]int, len(loop))
	var stack []gpt
	for _, v := range loop {
		if at, again := seen[v]; again {
			loops = append(loops, slices.Clone(stack[at:]))
			for _, w := range stack[at+1:] {
				delete(seen, w)
			}
			stack = stack[:at+1]
			continue
		}
		seen[v] = len(stack)
		stack = append(stack, v)
	}
	return append(loops, stack)
}

// assemble turns simple loops into polygons with their holes.
func assemble(loops [][]gpt) Region {
	type hole struct {
		ring Ring
		on   Vec // a point of the edge itself, which no other edge touches
	}
	var out Region
	var holes []hole
	for _, l := range loops {
		r := toRing(l)
		switch a := r.SignedArea(); {
		case a > SnapGrid*r.Length():
			out = append(out, Polygon{Outer: r})
		case a < -SnapGrid*r.Length():
			holes = append(holes, hole{r, lerp(l[0].vec(), l[1].vec(), 0.5)})
		}
	}
	for _, h := range holes {
		if i := owner(out, h.on); i >= 0 {
			out[i].Holes = append(out[i].Holes, h.ring)
		}
	}
	return out
}

// owner is the smallest polygon round a point of a hole's edge; -1 when that
// was dropped as a sliver, which takes the hole with it.
func owner(r Region, on Vec) int {
	best, area := -1, 0.0
	for i, p := range r {
		if len(r) == 1 {
			return i
		}
		if a := p.Outer.Area(); p.Outer.crossings(on) && (best < 0 || a < area) {
			best, area = i, a
		}
	}
	return best
}

// toRing gives the loop in metres from its first point in sweep order, without
// the vertices that lie exactly on a straight edge.
func toRing(l []gpt) Ring {
	n := len(l)
	first := 0
	for i := range l {
		if l[i].less(l[first]) {
			first = i
		}
	}
	r := make(Ring, 0, n)
	for k := range n {
		i := (first + k) % n
		if orient(l[(i+n-1)%n], l[i], l[(i+1)%n]) != 0 {
			r = append(r, l[i].vec())
		}
	}
	return r
}
