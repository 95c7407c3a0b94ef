package geom

import (
	"math"
	"testing"
)

// Chains met by the level line z = 1 from x 0 to 10 (derived):
//
//	cross       touch       on it           end on it
//	  \           \/        ___/               /
//	---\---     ---v---   ==/------        ---/
//	    \
func TestIntersections(t *testing.T) {
	level := Polyline{{0, 1}, {10, 1}}
	for _, c := range []struct {
		name string
		b    Polyline
		want []Vec
	}{
		{"cross", Polyline{{2, 3}, {4, -1}}, []Vec{{3, 1}}},
		{"twice", Polyline{{6, 3}, {7, 0}, {8, 3}}, []Vec{{6 + 2.0/3, 1}, {7 + 1.0/3, 1}}},
		{"touch at a vertex", Polyline{{2, 3}, {4, 1}, {6, 3}}, []Vec{{4, 1}}},
		{"end on it", Polyline{{5, 4}, {5, 1}}, []Vec{{5, 1}}},
		{"ends meet", Polyline{{10, 1}, {12, 5}}, []Vec{{10, 1}}},
		{"overlap", Polyline{{2, 0}, {3, 1}, {6, 1}, {7, 2}}, []Vec{{3, 1}, {6, 1}}},
		{"overlap run the other way", Polyline{{6, 1}, {3, 1}}, []Vec{{3, 1}, {6, 1}}},
		{"overlap at the end", Polyline{{8, 1}, {13, 1}}, []Vec{{8, 1}, {10, 1}}},
		{"collinear, apart", Polyline{{11, 1}, {13, 1}}, nil},
		{"parallel", Polyline{{0, 1.001}, {10, 1.001}}, nil},
		{"short of it", Polyline{{5, 4}, {5, 1.0001}}, nil},
		{"point on it", Polyline{{5, 1}, {5, 1}}, []Vec{{5, 1}}},
		{"point off it", Polyline{{5, 2}, {5, 2}}, nil},
		{"NaN", Polyline{{5, math.NaN()}, {5, 1}}, nil},
		{"infinite", Polyline{{5, math.Inf(1)}, {5, 0}}, nil},
		{"nothing", nil, nil},
	} {
		got := Intersections(level, c.b)
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
			continue
		}
		for i := range got {
			nearVec(t, c.name, got[i], c.want[i], 1e-12)
		}
	}
}

// Every point found lies on both lines, and as many are found as the sign of
// the difference changes at a fine sampling: a second route.
func TestIntersectionsAgainstSampling(t *testing.T) {
	r := newRand(21)
	for k := range 100 {
		a, b := mono(r, 0, 10, 0, 3, 12), mono(r, 0, 10, 0, 3, 15)
		got := Intersections(a, b)
		for _, v := range got {
			za, _ := a.At(v[0])
			zb, _ := b.At(v[0])
			near(t, "level on a", za, v[1], 1e-8)
			near(t, "level on b", zb, v[1], 1e-8)
		}
		changes := 0
		var was float64
		for i := range 20001 {
			x := 10 * float64(i) / 20000
			za, _ := a.At(x)
			zb, _ := b.At(x)
			if d := za - zb; d*was < 0 {
				changes++
				was = d
			} else if d != 0 {
				was = d
			}
		}
		if changes > len(got) || (len(got)-changes)%2 != 0 {
			t.Errorf("case %d: %d points, %d changes of sign", k, len(got), changes)
		}
	}
}

func TestRayHit(t *testing.T) {
	wall := Polyline{{5, 0}, {5, 4}, {2, 4}, {2, 8}}
	for _, c := range []struct {
		name      string
		from, dir Vec
		want      Vec
		ok        bool
	}{
		{"straight", Vec{0, 1}, Vec{3, 0}, Vec{5, 1}, true},
		{"nearest of two", Vec{0, 5}, Vec{1, 0}, Vec{2, 5}, true},
		{"away", Vec{0, 1}, Vec{-1, 0}, Vec{}, false},
		{"past the end", Vec{0, -1}, Vec{1, 0}, Vec{}, false},
		{"at a vertex", Vec{3, 2}, Vec{1, 1}, Vec{5, 4}, true},
		{"from the line", Vec{5, 2}, Vec{1, 0}, Vec{5, 2}, true},
		{"along a piece", Vec{5, -3}, Vec{0, 2}, Vec{5, 0}, true},
		{"within a piece, along it", Vec{5, 1}, Vec{0, 1}, Vec{5, 1}, true},
		{"along it, behind", Vec{2, 9}, Vec{0, 1}, Vec{}, false},
		{"beside it", Vec{4.9999, -3}, Vec{0, 1}, Vec{4.9999, 4}, true},
		{"no direction", Vec{0, 1}, Vec{}, Vec{}, false},
		{"NaN", Vec{0, math.NaN()}, Vec{1, 0}, Vec{}, false},
		{"infinite direction", Vec{0, 1}, Vec{math.Inf(1), 0}, Vec{}, false},
	} {
		got, ok := RayHit(c.from, c.dir, wall)
		if ok != c.ok {
			t.Errorf("%s: hit %v, want %v", c.name, ok, c.ok)
		}
		nearVec(t, c.name, got, c.want, 1e-12)
	}
	if _, ok := RayHit(Vec{}, Vec{1, 0}, Polyline{{1, math.NaN()}, {1, 1}}); ok {
		t.Error("hit a line that is not finite")
	}
}

// EX-02 crest height on a hillside (site notes 1.4, derived there): from the
// toe, d0 below the ground, a batter n:1 meets ground that rises 1 in m.
//
//	                 ___--- crest
//	         ___--- /
//	___---         / n:1
//	        d0 |  /
//	           | / toe
func TestCrestHeight(t *testing.T) {
	for _, c := range []struct {
		name        string
		d0, m, n, h float64
		daylights   bool
	}{
		{"EX-02a", 3.00, 3, 1, 4.500, true},
		{"EX-02b", 3.20, 3, 1.5, 6.400, true},
		{"EX-02c", 2.60, 2, 1, 5.200, true},
		{"EX-02d", 2.60, 1.5, 1.5, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			ground := Polyline{{-10, c.d0 - 10/c.m}, {500, c.d0 + 500/c.m}}
			at, ok := RayHit(Vec{}, Vec{c.n, 1}, ground)
			if ok != c.daylights {
				t.Fatalf("daylights %v, want %v", ok, c.daylights)
			}
			near(t, "crest height", at[1], c.h, 0.001)
			near(t, "crest distance", at[0], c.h*c.n, 0.001)
		})
	}
}

// The largest toe depth d0 that keeps the crest at 20 ft (6.096 m): table of
// the site notes 1.4, derived there, printed to 1 mm. h = d0/(1-n/m) magnifies
// the printing error up to fourfold.
func TestLargestToeDepth(t *testing.T) {
	for _, c := range []struct {
		m  float64
		d0 [3]float64 // for n = 0.75, 1, 1.5
	}{
		{2, [3]float64{3.810, 3.048, 1.524}},
		{2.5, [3]float64{4.267, 3.658, 2.438}},
		{3, [3]float64{4.572, 4.064, 3.048}},
		{4, [3]float64{4.953, 4.572, 3.810}},
		{5, [3]float64{5.182, 4.877, 4.267}},
	} {
		for i, n := range []float64{0.75, 1, 1.5} {
			ground := Polyline{{-10, c.d0[i] - 10/c.m}, {100, c.d0[i] + 100/c.m}}
			at, ok := RayHit(Vec{}, Vec{n, 1}, ground)
			if !ok {
				t.Fatalf("1V:%gH, n %g: no crest", c.m, n)
			}
			near(t, "crest height", at[1], 6.096, 0.0005*4+1e-9)
		}
	}
}

func TestSplitByRegion(t *testing.T) {
	// the hill passes under a box from x 4 to 7, z 0.5 to 3
	in, out := SplitByRegion(hill, box(4, 0.5, 7, 3))
	if len(in) != 1 || len(out) != 2 {
		t.Fatalf("inside %v, outside %v", in, out)
	}
	want := Polyline{{4, 1}, {6, 1}, {7, 2.5}}
	for i, v := range want {
		nearVec(t, "inside", in[0][i], v, 1e-9)
	}
	r := newRand(22)
	for range 50 {
		line, reg := mono(r, 0, 10, 0, 5, 9), randomStar(r, Vec{5, 2}, 4, 12)
		in, out := SplitByRegion(line, reg)
		var sum float64
		for _, p := range in {
			sum += p.Length()
			for i := 1; i < len(p); i++ {
				if !reg.Contains(lerp(p[i-1], p[i], 0.4)) {
					t.Errorf("outside: %v-%v", p[i-1], p[i])
				}
			}
		}
		for _, p := range out {
			sum += p.Length()
			for i := 1; i < len(p); i++ {
				if reg.Contains(lerp(p[i-1], p[i], 0.4)) {
					t.Errorf("inside: %v-%v", p[i-1], p[i])
				}
			}
		}
		near(t, "length of all parts", sum, line.Length(), 1e-6)
	}
	if in, out := SplitByRegion(Polyline{{0, 0}, {1, math.NaN()}, {2, 0}, {3, 0}}, nil); in != nil || len(out) != 1 {
		t.Errorf("NaN in the middle: %v, %v", in, out)
	}
}
