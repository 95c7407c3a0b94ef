package geom

import (
	"errors"
	"fmt"
	"math"
	"testing"
)

// Areas below are exact products of the drawn sizes (derived). The tolerance
// allows one grid unit over the drawn edges, some 40 m at most.
const clipTol = 40 * SnapGrid

// clipCases, a drawn at left unless said otherwise:
//
//	apart      edge        corner      inside      same      plus
//	+-+ +-+    +-+-+       +-+         +-----+     +==+        +-+
//	|a| |b|    |a|b|       |a|         | +-+ |     ‖ab‖      +-+-+-+
//	+-+ +-+    +-+-+       +-+-+       | |b| |     +==+      +-+-+-+
//	                         |b|       | +-+ |                 +-+
//	                         +-+       +-----+
var clipCases = []struct {
	name                string
	a, b                Region
	union, inter, aMinB float64
	unionPolys          int
}{
	{"apart", box(0, 0, 2, 2), box(3, 0, 5, 2), 8, 0, 4, 2},
	{"shared edge", box(0, 0, 2, 2), box(2, 0, 5, 2), 10, 0, 4, 1},
	{"part of an edge shared", box(0, 0, 2, 2), box(2, 0.5, 5, 1.5), 7, 0, 4, 1},
	{"touching corner", box(0, 0, 2, 2), box(2, 2, 3, 3), 5, 0, 4, 2},
	{"inside", box(0, 0, 6, 6), box(2, 2, 3, 3), 36, 1, 35, 1},
	{"inside, on the edge", box(0, 0, 6, 6), box(0, 2, 3, 3), 36, 3, 33, 1},
	{"the same", box(0, 0, 2, 3), box(0, 0, 2, 3), 6, 6, 0, 1},
	{"plus", box(0, 2, 6, 4), box(2, 0, 4, 6), 20, 4, 8, 1},
	{"a empty", nil, box(0, 0, 1, 1), 1, 0, 0, 1},
	{"b empty", box(0, 0, 1, 1), nil, 1, 0, 1, 1},
	{"both empty", nil, nil, 0, 0, 0, 0},
	{"corner on edge", box(0, 0, 4, 2), Ring{{2, 2}, {3, 3}, {1, 3}}.ToRegion(), 9, 0, 8, 2},
	{"slanted edge shared in part", Ring{{0, 0}, {3, 0}, {0, 3}}.ToRegion(),
		Ring{{2, 1}, {3, 3}, {1, 2}}.ToRegion(), 6, 0, 4.5, 1},
}

func TestClipTable(t *testing.T) {
	for _, c := range clipCases {
		t.Run(c.name, func(t *testing.T) {
			u, i, d := clipAll(t, c.a, c.b)
			near(t, "union", u.Area(), c.union, clipTol)
			near(t, "intersection", i.Area(), c.inter, clipTol)
			near(t, "difference", d.Area(), c.aMinB, clipTol)
			if len(u) != c.unionPolys {
				t.Errorf("union has %d polygons, want %d", len(u), c.unionPolys)
			}
		})
	}
}

// clipAll runs the three operations and checks their form.
func clipAll(t *testing.T, a, b Region) (union, inter, diff Region) {
	t.Helper()
	ops := []func(a, b Region) (Region, error){Union, Intersect, Difference}
	out := make([]Region, len(ops))
	for i, op := range ops {
		r, err := op(a, b)
		if err != nil {
			t.Fatalf("operation %d: %v", i, err)
		}
		wellFormed(t, fmt.Sprint("operation ", i), r)
		out[i] = r
	}
	return out[0], out[1], out[2]
}

// A hole cut in the middle, refilled with an island, and a hole that touches
// the outer ring at one corner:
//
//	+-------+      +---+---+
//	| +---+ |      |  / \  |
//	| | # | |      |  \ /  |
//	| +---+ |      |       |
//	+-------+      +-------+
func TestClipHoles(t *testing.T) {
	frame, err := Difference(box(0, 0, 6, 6), box(1, 1, 5, 5))
	if err != nil || len(frame) != 1 || len(frame[0].Holes) != 1 {
		t.Fatalf("frame = %v, %v", frame, err)
	}
	both, err := Union(frame, box(2, 2, 3, 3))
	if err != nil || len(both) != 2 {
		t.Fatalf("island: %v, %v", both, err)
	}
	near(t, "frame and island", both.Area(), 36-16+1, clipTol)
	c, ok := both.Centroid()
	if !ok {
		t.Fatal("no centroid")
	}
	// (20 x 3 + 1 x 2.5)/21, derived
	nearVec(t, "centroid", c, Vec{62.5 / 21, 62.5 / 21}, 1e-9)

	diamond := Ring{{3, 6}, {2, 5}, {3, 4}, {4, 5}}.ToRegion()
	touch, err := Difference(box(0, 0, 6, 6), diamond)
	if err != nil || len(touch) != 1 || len(touch[0].Holes) != 1 {
		t.Fatalf("touching hole = %v, %v", touch, err)
	}
	near(t, "touching hole", touch.Area(), 34, clipTol)
	for _, r := range touch[0].Rings() {
		if !r.IsSimple() {
			t.Errorf("ring %v touches itself", r)
		}
	}
}

// Two islands, each with its own hole, in the hole of a frame.
func TestClipNestedHolesFindTheirOwner(t *testing.T) {
	r := Region{
		{Outer: box(0, 0, 20, 20)[0].Outer, Holes: []Ring{box(1, 1, 19, 19)[0].Outer}},
		{Outer: box(2, 2, 8, 8)[0].Outer, Holes: []Ring{box(3, 3, 7, 7)[0].Outer}},
		// its corner touches the frame's inner edge at (19, 19)
		{Outer: box(10, 10, 19, 19)[0].Outer, Holes: []Ring{box(11, 11, 18, 18)[0].Outer}},
	}
	got, err := UnionAll(r)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "area", got.Area(), r.Area(), clipTol)
	for _, p := range got {
		for _, h := range p.Holes {
			c, _ := h.Centroid()
			if !p.Outer.Bounds().Contains(c) {
				t.Errorf("hole %v given to outer %v", h, p.Outer)
			}
		}
	}
	hole, island := box(3, 3, 7, 7), box(2, 2, 8, 8)
	back, err := Intersect(got, island)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "island", back.Area(), island.Area()-hole.Area(), clipTol)
}

func TestClipDropsStraightVertices(t *testing.T) {
	got, err := Union(box(0, 0, 2, 2), box(2, 0, 5, 2))
	if err != nil {
		t.Fatal(err)
	}
	if want := (Ring{{0, 0}, {5, 0}, {5, 2}, {0, 2}}); fmt.Sprint(got[0].Outer) != fmt.Sprint(want) {
		t.Errorf("got %v, want %v", got[0].Outer, want)
	}
}

// A gap or an overlap of a nanometre between strata leaves no sliver.
func TestClipSlivers(t *testing.T) {
	for _, gap := range []float64{1e-9, -1e-9, 4e-7, -4e-7} {
		a := box(0, 0, 10, 2)
		b := Ring{{0, 2 + gap}, {10, 2 + gap/2}, {10, 3}, {0, 3}}.ToRegion()
		u, i, d := clipAll(t, a, b)
		if len(u) != 1 || len(i) != 0 || len(d) != 1 {
			t.Errorf("gap %g: union %d, intersection %d, difference %d polygons", gap, len(u), len(i), len(d))
		}
	}
}

func TestClipErrors(t *testing.T) {
	ok := box(0, 0, 1, 1)
	bow := Ring{{0, 0}, {2, 2}, {2, 0}, {0, 2}}.ToRegion()
	lop := Ring{{0, 0}, {3, 3}, {3, 0}, {0, 2}}.ToRegion()
	stray := Region{{Outer: ok[0].Outer, Holes: []Ring{box(0.5, 0.5, 2, 0.7)[0].Outer}}}
	for _, c := range []struct {
		name    string
		bad     Region
		tangled bool
	}{
		{"NaN", Ring{{0, 0}, {1, math.NaN()}, {0, 1}}.ToRegion(), false},
		{"Inf", Ring{{0, 0}, {math.Inf(1), 0}, {0, 1}}.ToRegion(), false},
		{"too far", box(0, 0, 2*MaxCoord, 1), false},
		{"bow tie", bow, true},
		{"lopsided bow tie", lop, true},
		{"hole leaves its polygon", stray, true},
	} {
		for side := range 2 {
			a, b := c.bad, ok
			if side == 1 {
				a, b = b, a
			}
			got, err := Union(a, b)
			if err == nil || errors.Is(err, ErrTangled) != c.tangled || got != nil {
				t.Errorf("%s as operand %d: %v, %v", c.name, side, got, err)
			}
		}
	}
}

// Degenerate rings have no area and change nothing.
func TestClipDegenerateRings(t *testing.T) {
	a := box(0, 0, 2, 2)
	for name, r := range map[string]Ring{
		"none": nil, "point": {{1, 1}}, "line": {{0, 0}, {1, 1}}, "flat": {{0, 0}, {1, 1}, {0.5, 0.5}},
		"one point thrice": {{1, 1}, {1, 1}, {1, 1}},
	} {
		u, i, d := clipAll(t, a, Region{{Outer: r}})
		if u.Area() != 4 || i != nil || d.Area() != 4 {
			t.Errorf("%s: %g, %v, %g", name, u.Area(), i, d.Area())
		}
	}
}

func TestOverlappingPolygonsCountOnce(t *testing.T) {
	r := append(box(0, 0, 2, 2), box(1, 0, 3, 2)...)
	got, err := Intersect(r, box(0, 0, 3, 1))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "area", got.Area(), 3, clipTol)
}

// orient against the same in exact rational form: far apart, the 128-bit
// products must agree with what shifted small numbers give.
func TestOrientFar(t *testing.T) {
	const far = int64(MaxCoord * gridPerM)
	for _, c := range []struct {
		a, b, c gpt
		want    int
	}{
		{gpt{-far, -far}, gpt{far, far}, gpt{0, 0}, 0},
		{gpt{-far, -far}, gpt{far, far}, gpt{0, 1}, 1},
		{gpt{-far, -far}, gpt{far, far}, gpt{1, 0}, -1},
		{gpt{-far, far}, gpt{far, -far}, gpt{-1, 0}, -1},
		{gpt{-far, far}, gpt{far, -far}, gpt{1, 0}, 1},
		{gpt{-far, 0}, gpt{far, 1}, gpt{0, 0}, -1},
		{gpt{0, 0}, gpt{0, 0}, gpt{far, far}, 0},
		{gpt{0, 0}, gpt{3, 0}, gpt{1, 2}, 1},
		{gpt{0, 0}, gpt{3, 0}, gpt{1, -2}, -1},
	} {
		if got := orient(c.a, c.b, c.c); got != c.want {
			t.Errorf("orient(%v, %v, %v) = %d, want %d", c.a, c.b, c.c, got, c.want)
		}
	}
}
