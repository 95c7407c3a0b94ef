package geom

import (
	"math"
	"slices"
	"sort"
)

// sweep fills in the winding numbers below every edge. The edges meet at their
// ends only, so their order from bottom to top changes at vertices only.
func (c *clipper) sweep() {
	c.ends = make([]int, len(c.edges))
	ends := c.ends
	for i := range ends {
		ends[i] = i
	}
	slices.SortFunc(ends, func(i, j int) int { return c.edges[i].q.compare(c.edges[j].q) })
	active := make([]int, 0, 32)
	next, done := 0, 0 // edges are sorted by p, ends by q
	for done < len(ends) {
		v := c.edges[ends[done]].q
		if next < len(c.edges) && c.edges[next].p.less(v) {
			v = c.edges[next].p
		}
		leave := done
		for leave < len(ends) && c.edges[ends[leave]].q == v {
			leave++
		}
		enter := next
		for enter < len(c.edges) && c.edges[enter].p == v {
			enter++
		}
		active = c.step(active, v, leave-done, next, enter)
		done, next = leave, enter
	}
}

// step passes the sweep over vertex v: n edges end there, edges from..to start.
func (c *clipper) step(active []int, v gpt, n, from, to int) []int {
	at := sort.Search(len(active), func(i int) bool {
		e := &c.edges[active[i]]
		return orient(e.p, e.q, v) <= 0
	})
	for i := at; i < at+n; i++ {
		if i >= len(active) || c.edges[active[i]].q != v {
			panic("geom: clip: edges left uncut")
		}
	}
	start := make([]int, 0, 4)
	for i := from; i < to; i++ {
		start = append(start, i)
	}
	slices.SortFunc(start, func(i, j int) int { return -orient(v, c.edges[i].q, c.edges[j].q) })
	var below [2]int32
	if at > 0 {
		e := &c.edges[active[at-1]]
		below = [2]int32{e.above(0), e.above(1)}
	}
	for _, i := range start {
		e := &c.edges[i]
		e.below = below
		below = [2]int32{e.above(0), e.above(1)}
	}
	return slices.Replace(active, at, at+n, start...)
}

// tangled reports whether an operand winds negatively round more area than
// snapping its edges can have made.
func (c *clipper) tangled(side int) bool {
	var area, length float64
	for i := range c.edges {
		e := &c.edges[i]
		if (e.below[side] < 0) == (e.above(side) < 0) {
			continue
		}
		p, q := e.p.sub(c.edges[0].p).vec(), e.q.sub(c.edges[0].p).vec()
		a := Cross(p, q) / 2
		if e.below[side] < 0 {
			a = -a
		}
		area += a
		length += dist(p, q)
	}
	// Each of the two edges of a sliver may have moved by a grid unit or two.
	return math.Abs(area) > 4*SnapGrid*(length+SnapGrid)
}
