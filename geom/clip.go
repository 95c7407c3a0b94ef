package geom

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
)

// Clipping works on whole numbers: coordinates are rounded to SnapGrid, edges
// are cut wherever they meet (exact tests, crossings rounded to the grid), and
// one sweep over the cut edges finds what lies inside. Shared edges, touching
// corners and collinear overlaps are ordinary cases there, not special ones.
// The idea is snap rounding: J. D. Hobby, "Practical segment intersection with
// finite precision output", Computational Geometry 13 (1999).
//
// Common to all clipping functions:
//   - A ring may run either way. A point is inside a region when its outer
//     rings, less its holes, go round it; polygons that overlap count once.
//   - Rings of fewer than three points are left out: they have no area.
//   - Outer rings of a result run anticlockwise, holes clockwise, none touches
//     itself; vertices on a straight edge and polygons thinner than about two
//     grid units (area <= SnapGrid x perimeter) are dropped. Nothing left: nil.
//   - An edge may move by one grid unit for each other edge it is cut by.
//   - Errors: a coordinate that is not finite or beyond MaxCoord, and a ring
//     that crosses itself so that it has no inside (ErrTangled).

// ErrTangled says that a ring crosses itself, or a hole leaves its polygon.
var ErrTangled = errors.New("a ring crosses itself or a hole leaves its polygon")

// Union is the region covered by a or b.
func Union(a, b Region) (Region, error) {
	return overlay(a, b, func(inA, inB bool) bool { return inA || inB })
}

// Intersect is the region covered by both a and b.
func Intersect(a, b Region) (Region, error) {
	return overlay(a, b, func(inA, inB bool) bool { return inA && inB })
}

// Difference is the region covered by a and not by b.
func Difference(a, b Region) (Region, error) {
	return overlay(a, b, func(inA, inB bool) bool { return inA && !inB })
}

// UnionAll is the region covered by any of rs, in one pass.
func UnionAll(rs ...Region) (Region, error) {
	var all Region
	for _, r := range rs {
		all = append(all, r...)
	}
	return Union(all, nil)
}

func overlay(a, b Region, keep func(inA, inB bool) bool) (Region, error) {
	var c clipper
	for side, r := range [2]Region{a, b} {
		if err := c.add(side, r); err != nil {
			return nil, fmt.Errorf("%s region: %w", [2]string{"first", "second"}[side], err)
		}
	}
	if err := c.node(); err != nil {
		return nil, err
	}
	c.sweep()
	for side := range 2 {
		if c.tangled(side) {
			return nil, fmt.Errorf("%s region: %w", [2]string{"first", "second"}[side], ErrTangled)
		}
	}
	return c.collect(keep), nil
}

// gridPerM is 1/SnapGrid. Dividing by it gives the float nearest to the
// decimal, so that 2.5 m comes back as 2.5.
const gridPerM = 1e6

// gpt is a point on the grid, in grid units.
type gpt struct{ x, y int64 }

func (p gpt) sub(q gpt) gpt { return gpt{p.x - q.x, p.y - q.y} }

// less orders points by x, then y: the order of the sweep. A vertical edge
// counts as rising to the right by an infinitely small amount.
func (p gpt) less(q gpt) bool { return p.x < q.x || p.x == q.x && p.y < q.y }

func (p gpt) compare(q gpt) int {
	if p.x != q.x {
		return cmp.Compare(p.x, q.x)
	}
	return cmp.Compare(p.y, q.y)
}

func (p gpt) vec() Vec { return Vec{float64(p.x) / gridPerM, float64(p.y) / gridPerM} }

func snap(v Vec) (gpt, error) {
	if !(math.Abs(v[0]) <= MaxCoord && math.Abs(v[1]) <= MaxCoord) {
		return gpt{}, fmt.Errorf("point (%g, %g) must be finite and within +-%g m", v[0], v[1], float64(MaxCoord))
	}
	return gpt{int64(math.Round(v[0] * gridPerM)), int64(math.Round(v[1] * gridPerM))}, nil
}

// cedge is an edge from p to q, p before q in sweep order. step says how the
// winding number of each operand changes from the right of the edge (below) to
// the left (above); below is filled in by the sweep.
type cedge struct {
	p, q  gpt
	step  [2]int32
	below [2]int32
}

func (e *cedge) above(side int) int32 { return e.below[side] + e.step[side] }

// clipper holds one operation.
type clipper struct {
	edges []cedge // sorted by p, then q
	fresh []cedge // not yet merged among them
	ends  []int   // the edges by q
}

func (c *clipper) add(side int, r Region) error {
	for i, p := range r {
		if err := c.addRing(side, p.Outer, false); err != nil {
			return fmt.Errorf("polygon %d: %w", i, err)
		}
		for j, h := range p.Holes {
			if err := c.addRing(side, h, true); err != nil {
				return fmt.Errorf("polygon %d hole %d: %w", i, j, err)
			}
		}
	}
	return nil
}

func (c *clipper) addRing(side int, r Ring, hole bool) error {
	flip := (r.SignedArea() < 0) != hole
	return c.addChain(side, r, flip)
}

// addChain adds the closed chain as it runs, or backwards when flip is set.
func (c *clipper) addChain(side int, r Ring, flip bool) error {
	if len(r) == 0 {
		return nil
	}
	c.fresh = slices.Grow(c.fresh, len(r))
	prev, err := snap(r[len(r)-1])
	if err != nil {
		return err
	}
	for _, v := range r {
		at, err := snap(v)
		if err != nil {
			return err
		}
		if len(r) > 2 {
			var step [2]int32
			step[side] = 1
			if flip {
				step[side] = -1
			}
			c.push(prev, at, step)
		}
		prev = at
	}
	return nil
}

// push adds the edge from a to b, step being its change from right to left.
func (c *clipper) push(a, b gpt, step [2]int32) {
	if b.less(a) {
		a, b, step = b, a, [2]int32{-step[0], -step[1]}
	}
	if a != b {
		c.fresh = append(c.fresh, cedge{p: a, q: b, step: step})
	}
}
