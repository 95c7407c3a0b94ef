package geom

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// hill is the ground line of most tests below (levels derived by hand):
//
//	z 4 |            _____
//	  3 |           /
//	  1 |     _____/
//	  0 |____/
//	     0  2 3   6 8    12  x
var hill = Polyline{{0, 0}, {2, 0}, {3, 1}, {6, 1}, {8, 4}, {12, 4}}

func TestValidate(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name string
		p    Polyline
		want string // part of the error; empty for none
	}{
		{"hill", hill, ""},
		{"two points", Polyline{{0, 0}, {1e-9, 5}}, ""},
		{"none", nil, "0 points"},
		{"one", Polyline{{0, 0}}, "1 points"},
		{"NaN level", Polyline{{0, 0}, {1, nan}}, "point 1 (1, NaN)"},
		{"infinite x", Polyline{{0, 0}, {inf, 2}}, "point 1 (+Inf, 2)"},
		{"NaN first", Polyline{{nan, 0}, {1, 2}}, "point 0 (NaN, 0)"},
		{"overhang", Polyline{{0, 0}, {3, 1}, {2, 2}}, "point 2: x 2 must be greater than x 3 of point 1"},
		{"upright step", Polyline{{0, 0}, {3, 1}, {3, 2}}, "point 2: x 3"},
	} {
		err := c.p.Validate()
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: error %v, want %q", c.name, err, c.want)
		}
	}
}

func TestAtAndSlope(t *testing.T) {
	for _, c := range []struct {
		x, z, slope float64
		ok          bool
	}{
		{0, 0, 0, true}, {1, 0, 0, true}, {2, 0, 1, true}, {2.25, 0.25, 1, true}, {3, 1, 0, true},
		{7, 2.5, 1.5, true}, {8, 4, 0, true}, {12, 4, 0, true},
		{-1e-12, 0, 0, false}, {12.0001, 0, 0, false}, {math.NaN(), 0, 0, false}, {math.Inf(1), 0, 0, false},
	} {
		z, ok := hill.At(c.x)
		s, okS := hill.SlopeAt(c.x)
		if ok != c.ok || okS != c.ok || z != c.z || s != c.slope {
			t.Errorf("x %g: z %g %v, slope %g %v; want %g, %g, %v", c.x, z, ok, s, okS, c.z, c.slope, c.ok)
		}
	}
	for _, p := range []Polyline{nil, {{1, 1}}} {
		if _, ok := p.At(1); ok {
			t.Errorf("%v has a level", p)
		}
		if _, ok := p.SlopeAt(1); ok {
			t.Errorf("%v has a slope", p)
		}
	}
}

func TestBoundsAndLength(t *testing.T) {
	if got, want := hill.Bounds(), (Rect{Vec{0, 0}, Vec{12, 4}}); got != want {
		t.Errorf("bounds %v, want %v", got, want)
	}
	near(t, "length", hill.Length(), 2+math.Sqrt2+3+math.Sqrt(13)+4, 1e-12)
	if (Polyline{{1, 2}}).Length() != 0 || (Polyline{{0, 0}, {math.NaN(), 1}}).Bounds() != (Rect{}) {
		t.Error("a point has length, or NaN has bounds")
	}
}

func TestClipX(t *testing.T) {
	for _, c := range []struct {
		name   string
		x0, x1 float64
		want   Polyline
	}{
		{"inside one piece", 6.5, 7, Polyline{{6.5, 1.75}, {7, 2.5}}},
		{"over vertices", 1, 7, Polyline{{1, 0}, {2, 0}, {3, 1}, {6, 1}, {7, 2.5}}},
		{"at vertices", 2, 6, Polyline{{2, 0}, {3, 1}, {6, 1}}},
		{"beyond both ends", -5, 50, hill},
		{"infinite", math.Inf(-1), math.Inf(1), hill},
		{"no width", 3, 3, nil},
		{"reversed", 7, 3, nil},
		{"outside", 13, 14, nil},
		{"touching", 12, 14, nil},
		{"NaN", math.NaN(), 4, nil},
	} {
		if got := hill.ClipX(c.x0, c.x1); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	if got := (Polyline{{1, 1}}).ClipX(0, 2); got != nil {
		t.Errorf("a point clipped to %v", got)
	}
}

func TestInsert(t *testing.T) {
	for _, c := range []struct {
		name string
		v    Vec
		at   int
		n    int
	}{
		{"before", Vec{-1, 3}, 0, 7}, {"between", Vec{4, 3}, 3, 7}, {"after", Vec{13, 0}, 6, 7},
		{"replaces", Vec{3, 9}, 2, 6}, {"replaces nearly", Vec{3 + 5e-10, 9}, 2, 6}, {"replaces last", Vec{12 - 5e-10, 9}, 5, 6},
	} {
		got, err := hill.Insert(c.v)
		if err != nil || len(got) != c.n || got[c.at] != c.v || got.Validate() != nil {
			t.Errorf("%s: %v, %v", c.name, got, err)
		}
	}
	if _, err := hill.Insert(Vec{1, math.NaN()}); err == nil {
		t.Error("NaN taken")
	}
	if hill[2] != (Vec{3, 1}) {
		t.Error("Insert changed its receiver")
	}
}

func TestSimplify(t *testing.T) {
	r := newRand(11)
	p := mono(r, 0, 50, 0, 2, 200)
	for _, tol := range []float64{0, 0.1, 0.5, 1, 5} {
		s := p.Simplify(tol)
		if s.Validate() != nil || s[0] != p[0] || s[len(s)-1] != p[len(p)-1] {
			t.Fatalf("tol %g: ends lost or invalid", tol)
		}
		for _, v := range p {
			if _, _, _, d := s.Nearest(v); d > tol+TolLength {
				t.Errorf("tol %g: point %v lies %g away", tol, v, d)
			}
		}
	}
	if got := p.Simplify(100); len(got) != 2 {
		t.Errorf("%d points left of a band within the tolerance", len(got))
	}
	if got := p.Simplify(math.NaN()); !slices.Equal(got, p) {
		t.Error("NaN tolerance dropped points")
	}
	if got := (Polyline{{0, 0}, {1, 0}, {2, 0}}).Simplify(0); len(got) != 2 {
		t.Errorf("straight line keeps %v", got)
	}
}

func TestNearest(t *testing.T) {
	for _, c := range []struct {
		q     Vec
		index int
		t     float64
		at    Vec
		d     float64
	}{
		{Vec{1, 2}, 0, 0.5, Vec{1, 0}, 2},
		{Vec{-3, 4}, 0, 0, Vec{0, 0}, 5},
		{Vec{2, 1}, 1, 0.5, Vec{2.5, 0.5}, math.Sqrt2 / 2},
		{Vec{15, 8}, 4, 1, Vec{12, 4}, 5},
		{Vec{10, 4}, 4, 0.5, Vec{10, 4}, 0},
	} {
		i, tt, at, d := hill.Nearest(c.q)
		if i != c.index {
			t.Errorf("%v: index %d, want %d", c.q, i, c.index)
		}
		near(t, "t", tt, c.t, 1e-12)
		near(t, "distance", d, c.d, 1e-12)
		nearVec(t, "point", at, c.at, 1e-12)
	}
	if i, _, _, d := Polyline(nil).Nearest(Vec{}); i != -1 || !math.IsInf(d, 1) {
		t.Errorf("no points: %d, %g", i, d)
	}
	if i, _, _, d := hill.Nearest(Vec{math.NaN(), 0}); i != -1 || !math.IsInf(d, 1) {
		t.Errorf("NaN: %d, %g", i, d)
	}
	if i, _, at, d := (Polyline{{3, 4}}).Nearest(Vec{}); i != 0 || at != (Vec{3, 4}) || d != 5 {
		t.Errorf("one point: %d %v %g", i, at, d)
	}
}

func TestReversedAndTranslate(t *testing.T) {
	back := hill.Reversed().Reversed()
	moved := hill.Translate(Vec{3, -1}).Translate(Vec{-3, 1})
	if !slices.Equal(back, hill) || !slices.Equal(moved, hill) {
		t.Error("there and back is not the same")
	}
	if p := hill.Reversed(); p[0] != (Vec{12, 4}) || p[5] != (Vec{0, 0}) {
		t.Errorf("reversed: %v", p)
	}
}

// Grade sheet: cut depths and catch points on the surveyed ground.
// GS-01 of the site notes, derived there; levels are given to 0.1 mm.
var gs01 = Polyline{
	{0, 99.20}, {3, 99.95}, {6, 100.60}, {9, 101.55}, {12, 102.80},
	{15, 103.90}, {18, 104.60}, {21, 105.20}, {24, 105.70},
}

func TestGradeSheet(t *testing.T) {
	const tol = 0.0005 // stated with GS-01
	floor := Polyline{{4, 98.60}, {12, 98.68}}
	for _, c := range []struct{ x, cut float64 }{
		{4, 1.5667}, {6, 1.9800}, {8, 2.5933}, {10, 3.3067}, {12, 4.1200},
	} {
		g, _ := gs01.At(c.x)
		f, ok := floor.At(c.x)
		if !ok {
			t.Fatalf("no floor at %g", c.x)
		}
		near(t, "GS-01 cut", g-f, c.cut, tol)
	}
	toe := Vec{12, 98.68}
	for _, c := range []struct {
		hv    float64 // horizontal to vertical
		catch Vec
		hits  bool
	}{
		{1, Vec{17.8957, 104.5757}, true},
		{1.5, Vec{22.0400, 105.3733}, true},
		{2, Vec{}, false}, // "profile too short"
	} {
		at, ok := RayHit(toe, Vec{c.hv, 1}, gs01)
		if ok != c.hits {
			t.Fatalf("GS-01 %g:1 hit %v", c.hv, ok)
		}
		nearVec(t, "GS-01 catch", at, c.catch, tol)
	}
}
