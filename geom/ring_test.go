package geom

import (
	"math"
	"slices"
	"testing"
)

// tee is a T section, 10 wide and 10 high (derived by hand):
//
//	+----------+ z 10
//	+---+  +---+ z 8
//	    |  |
//	    +--+     z 0
//	0   4  6   10
var tee = Ring{{4, 0}, {6, 0}, {6, 8}, {10, 8}, {10, 10}, {0, 10}, {0, 8}, {4, 8}}

func TestRingAreaAndCentroid(t *testing.T) {
	for _, c := range []struct {
		name string
		r    Ring
		area float64 // signed
		c    Vec
	}{
		{"unit square", Ring{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, 1, Vec{0.5, 0.5}},
		{"clockwise", Ring{{0, 1}, {1, 1}, {1, 0}, {0, 0}}, -1, Vec{0.5, 0.5}},
		{"triangle", Ring{{0, 0}, {6, 0}, {0, 3}}, 9, Vec{2, 1}},
		// (16 x 4 + 20 x 9)/36
		{"tee", tee, 36, Vec{5, 244.0 / 36}},
		// VO-02 embankment section (site notes, derived): b 10, n 1.5, h 2.5
		{"VO-02", Ring{{0, 0}, {17.5, 0}, {13.75, 2.5}, {3.75, 2.5}}, 34.3750, Vec{8.75, (10*2.5*1.25 + 9.375*2.5/3) / 34.375}},
	} {
		near(t, c.name+" area", c.r.SignedArea(), c.area, 1e-12)
		got, ok := c.r.Centroid()
		if !ok {
			t.Errorf("%s: no centroid", c.name)
		}
		nearVec(t, c.name+" centroid", got, c.c, 1e-12)
	}
}

// VO-02 areas of the whole embankment (site notes, derived).
func TestEmbankmentSections(t *testing.T) {
	want := []float64{10.2150, 14.84375, 28.43375, 34.3750, 23.63375, 16.23375, 9.58375}
	for i, h := range []float64{0.90, 1.25, 2.15, 2.50, 1.85, 1.35, 0.85} {
		top := Polyline{{-20, h}, {20, h}}
		bank := Lower(top, Polyline{{-20, h + (5-20)/1.5}, {-5, h}, {5, h}, {20, h + (5-20)/1.5}})
		near(t, "VO-02", AreaBetween(bank, Polyline{{-20, 0}, {20, 0}}, -20, 20), want[i], 1e-9)
	}
}

// The shoelace formula against vertical strips, and its far-datum digits.
func TestAreaSecondRoute(t *testing.T) {
	r := newRand(41)
	for range 50 {
		ring := randomStar(r, Vec{3, 4}, 5, 3+r.IntN(30))[0].Outer
		var trapezoids float64
		for i := range ring {
			a, b := ring[i], ring[(i+1)%len(ring)]
			trapezoids += (a[0] - b[0]) * (a[1] + b[1]) / 2
		}
		near(t, "area", ring.SignedArea(), trapezoids, 1e-10)
		// binary fractions of a datum keep the differences exact
		far := ring.Translate(Vec{1 << 20, 1 << 21})
		near(t, "far area", far.SignedArea(), trapezoids, 1e-7)
		c, _ := ring.Centroid()
		cf, ok := far.Centroid()
		if !ok {
			t.Error("no far centroid")
		}
		nearVec(t, "far centroid", cf.Sub(Vec{1 << 20, 1 << 21}), c, 1e-8)
	}
}

func TestRingDegenerate(t *testing.T) {
	for name, r := range map[string]Ring{
		"none": nil, "one": {{1, 1}}, "two": {{0, 0}, {1, 1}}, "flat": {{0, 0}, {1, 1}, {2, 2}},
		"hair": {{0, 0}, {10, 0}, {5, 1e-10}}, "NaN": {{0, 0}, {1, math.NaN()}, {0, 1}},
		"infinite": {{0, 0}, {1, math.Inf(1)}, {0, 1}},
	} {
		if _, ok := r.Centroid(); ok {
			t.Errorf("%s has a centroid", name)
		}
		if r.IsSimple() && name != "hair" {
			t.Errorf("%s is simple", name)
		}
	}
	if (Ring{{1, 1}}).Length() != 0 || Ring(nil).Area() != 0 || Ring(nil).Closed() != nil || Ring(nil).ToRegion() != nil {
		t.Error("a ring without extent has length, area or a region")
	}
	near(t, "out and back", (Ring{{0, 0}, {3, 4}}).Length(), 10, 1e-12)
}

func TestContains(t *testing.T) {
	for _, c := range []struct {
		name string
		v    Vec
		want bool
	}{
		{"in the web", Vec{5, 4}, true},
		{"in the left flange", Vec{1, 9}, true},
		{"beside the web", Vec{3, 4}, false},
		{"above", Vec{5, 11}, false},
		{"left, level with vertices", Vec{-1, 8}, false},
		{"right, level with the top", Vec{11, 10}, false},
		{"on the bottom edge", Vec{5, 0}, true},
		{"on the flange's underside", Vec{2, 8}, true},
		{"a vertex", Vec{6, 8}, true},
		{"within tolerance of an edge", Vec{6 + 5e-10, 4}, true},
		{"just outside", Vec{6 + 1e-8, 4}, false},
		{"NaN", Vec{math.NaN(), 4}, false},
		{"infinite", Vec{math.Inf(1), 4}, false},
	} {
		for _, r := range []Ring{tee, tee.Reversed()} {
			if got := r.Contains(c.v); got != c.want {
				t.Errorf("%s: %v", c.name, got)
			}
		}
	}
	if (Ring{{0, 0}, {1, 1}}).Contains(Vec{0.5, 0.5}) {
		t.Error("a line holds a point")
	}
}

// Even-odd against the turning number, which is computed from angles.
func TestContainsSecondRoute(t *testing.T) {
	r := newRand(42)
	for range 40 {
		ring := randomStar(r, Vec{}, 3, 3+r.IntN(20))[0].Outer
		for range 50 {
			v := Vec{r.Float64()*7 - 3.5, r.Float64()*7 - 3.5}
			var turn float64
			for i := range ring {
				a, b := ring[i].Sub(v), ring[(i+1)%len(ring)].Sub(v)
				turn += math.Atan2(Cross(a, b), a.Dot(b))
			}
			if got, want := ring.Contains(v), math.Abs(turn) > math.Pi; got != want {
				t.Errorf("%v in %v: %v, turning %g", v, ring, got, turn)
			}
		}
	}
}

func TestIsSimple(t *testing.T) {
	for _, c := range []struct {
		name string
		r    Ring
		want bool
	}{
		{"tee", tee, true},
		{"triangle", Ring{{0, 0}, {1, 0}, {0, 1}}, true},
		{"bow tie", Ring{{0, 0}, {2, 2}, {2, 0}, {0, 2}}, false},
		{"touches itself at a vertex", Ring{{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}}, false},
		{"point twice running", Ring{{0, 0}, {1, 0}, {1, 0}, {0, 1}}, false},
		{"spike", Ring{{0, 0}, {2, 0}, {4, 0}, {2, 0}, {1, 2}}, false},
		{"folds back", Ring{{0, 0}, {4, 0}, {2, 0}, {1, 2}}, false},
		{"straight vertex", Ring{{0, 0}, {2, 0}, {4, 0}, {1, 2}}, true},
	} {
		if got := c.r.IsSimple(); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

func TestOrientation(t *testing.T) {
	back := tee.Reversed()
	if back[0] != tee[0] || back.SignedArea() != -tee.SignedArea() {
		t.Errorf("reversed %v", back)
	}
	if !slices.Equal(back.Oriented(true), tee) || !slices.Equal(tee.Oriented(true), tee) {
		t.Error("not turned anticlockwise")
	}
	if tee.Oriented(false).SignedArea() > 0 {
		t.Error("not turned clockwise")
	}
	if got := tee.Closed(); len(got) != len(tee)+1 || got[len(got)-1] != tee[0] {
		t.Errorf("closed %v", got)
	}
	p := Polygon{Outer: tee.Reversed(), Holes: []Ring{{{4.5, 1}, {5.5, 1}, {5, 2}}}}.Oriented()
	if p.Outer.SignedArea() < 0 || p.Holes[0].SignedArea() > 0 {
		t.Error("polygon not oriented")
	}
}

// A frame with a square hole and a separate square:
//
//	+------+
//	| +--+ |  +-+
//	| +--+ |  | |
//	+------+  +-+
func TestRegionProperties(t *testing.T) {
	frame := Polygon{Outer: box(0, 0, 6, 6)[0].Outer, Holes: []Ring{box(1, 2, 3, 4)[0].Outer}}
	r := Region{frame, box(10, 0, 12, 2)[0]}
	near(t, "area", r.Area(), 36, 1e-12)
	c, ok := r.Centroid()
	if !ok {
		t.Fatal("no centroid")
	}
	// (36 (3,3) - 4 (2,3) + 4 (11,1))/36
	nearVec(t, "centroid", c, Vec{144.0 / 36, 100.0 / 36}, 1e-12)
	pc, _ := frame.Centroid()
	nearVec(t, "frame's centroid", pc, Vec{100.0 / 32, 3}, 1e-12)
	if got, want := r.Bounds(), (Rect{Vec{0, 0}, Vec{12, 6}}); got != want {
		t.Errorf("bounds %v", got)
	}
	for _, in := range []struct {
		v    Vec
		want bool
	}{
		{Vec{0.5, 3}, true}, {Vec{2, 3}, false}, {Vec{1, 3}, true}, {Vec{3, 4}, true},
		{Vec{11, 1}, true}, {Vec{8, 1}, false}, {Vec{6, 6}, true},
	} {
		if got := r.Contains(in.v); got != in.want {
			t.Errorf("contains %v: %v", in.v, got)
		}
	}
	moved := r.Translate(Vec{5, 5})
	if moved.Area() != r.Area() || r[0].Outer[0] != (Vec{0, 0}) {
		t.Error("translation changed the area or its receiver")
	}
	for name, none := range map[string]Region{
		"nil": nil, "empty polygon": {{}}, "flat": Ring{{0, 0}, {1, 1}, {2, 2}}.ToRegion(),
		"NaN": Ring{{0, 0}, {math.NaN(), 1}, {2, 2}}.ToRegion(),
	} {
		if _, ok := none.Centroid(); ok {
			t.Errorf("%s has a centroid", name)
		}
	}
	if _, ok := (Region{{}, box(0, 0, 1, 1)[0]}).Centroid(); !ok {
		t.Error("an empty polygon first hides the centroid")
	}
}

func TestRect(t *testing.T) {
	a, b := Rect{Vec{0, 0}, Vec{4, 2}}, Rect{Vec{3, 1}, Vec{6, 8}}
	level := Rect{Vec{1, 5}, Vec{3, 5}}
	if a.W() != 4 || a.H() != 2 || a.Center() != (Vec{2, 1}) || a.Empty() || level.Empty() {
		t.Error("size")
	}
	if a.Union(b) != (Rect{Vec{0, 0}, Vec{6, 8}}) || a.Union(Rect{}) != a || (Rect{}).Union(a) != a {
		t.Error("union")
	}
	if a.Union(level) != (Rect{Vec{0, 0}, Vec{4, 5}}) {
		t.Error("union with a level line")
	}
	if a.Expand(1) != (Rect{Vec{-1, -1}, Vec{5, 3}}) || a.Expand(-1.5) != (Rect{}) || (Rect{}).Expand(3) != (Rect{}) {
		t.Error("expand")
	}
	if !a.Contains(Vec{4, 2}) || a.Contains(Vec{4.1, 2}) || (Rect{}).Contains(Vec{}) {
		t.Error("contains")
	}
	if !a.Overlaps(b) || a.Overlaps(level) || a.Overlaps(Rect{}) {
		t.Error("overlaps")
	}
	if r := a.ToRing(); r.SignedArea() != 8 || level.ToRing() != nil || (Rect{}).ToRegion() != nil {
		t.Errorf("ring %v", r)
	}
	for _, bad := range []Rect{{Vec{1, 0}, Vec{0, 1}}, {Vec{math.NaN(), 0}, Vec{1, 1}}, {Vec{2, 2}, Vec{2, 2}}} {
		if !bad.Empty() || bad.W() != 0 || bad.H() != 0 || bad.ToRing() != nil {
			t.Errorf("%v is not empty", bad)
		}
	}
}

func TestTolerance(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		a, b, abs, rel float64
		want           bool
	}{
		{1e-15, 0, 1e-12, 0, true}, // the case mgl64.FloatEqual calls unequal
		{1, 1.1, 0.2, 0, true}, {1, 1.3, 0.2, 0, false}, {1e9, 1e9 + 1, 0, 1e-8, true}, {1e9, 1e9 + 100, 0, 1e-8, false},
		{inf, inf, 0, 0, true}, {inf, -inf, 1, 1, false}, {inf, 1, 1, 1, false}, {nan, nan, 1, 1, false}, {nan, 1, inf, 1, false},
	} {
		if got := AbsOrRel(c.a, c.b, c.abs, c.rel); got != c.want {
			t.Errorf("AbsOrRel(%v) = %v", c, got)
		}
	}
	if !Finite() || !Finite(1, -1e308) || Finite(1, nan) || Finite(-inf) {
		t.Error("Finite")
	}
	if u, ok := Unit(Vec{3, 4}); !ok || math.Abs(u[0]-0.6)+math.Abs(u[1]-0.8) > 1e-15 {
		t.Errorf("Unit = %v", u)
	}
	for _, v := range []Vec{{}, {1e-10, 0}, {nan, 1}, {inf, 1}} {
		if u, ok := Unit(v); ok || u != (Vec{}) {
			t.Errorf("Unit(%v) = %v", v, u)
		}
	}
	if LeftNormal(Vec{1, 0}) != (Vec{0, 1}) {
		t.Error("LeftNormal turns right")
	}
}
