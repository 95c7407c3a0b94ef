package geom

import (
	"fmt"
	"math"
	"testing"
)

func total(segs []Segment) (l float64) {
	for _, s := range segs {
		l += dist(s.A, s.B)
	}
	return l
}

// Lines through whole metres in a box from z 0.5 to 3.5 (derived):
//
//	+--------+ 3.5
//	|--------| 3
//	|--------| 2
//	|--------| 1
//	+--------+ 0.5
//
// The last case is a notched arrow: z 1 runs from 2/3 to 10/3 and touches the
// notch at (2, 1), z 2 from 4/3 to 8/3, z 3 touches the tip.
func TestHatchTable(t *testing.T) {
	frame := Region{{Outer: box(0, 0.5, 10, 3.5)[0].Outer, Holes: []Ring{box(4, 1.5, 6, 2.5)[0].Outer}}}
	for _, c := range []struct {
		name    string
		r       Region
		angle   float64
		spacing float64
		origin  Vec
		max     int
		n       int
		length  float64
		used    float64
	}{
		{"level lines", box(0, 0.5, 10, 3.5), 0, 1, Vec{}, 100, 3, 30, 1},
		{"upright lines", box(0.5, 0, 3.5, 10), math.Pi / 2, 1, Vec{}, 100, 3, 30, 1},
		{"anchor moved", box(0, 0.5, 10, 3.5), 0, 1, Vec{7, 0.25}, 100, 3, 30, 1},
		{"anchor moved by a whole line", box(0, 0.5, 10, 3.5), 0, 1, Vec{7, -12}, 100, 3, 30, 1},
		{"hole", frame, 0, 1, Vec{}, 100, 4, 10 + 8 + 10, 1},
		{"spacing doubled", box(0, 0.5, 10, 3.5), 0, 0.25, Vec{}, 3, 3, 30, 1},
		{"45 degrees", box(0, 0, 2, 2), math.Pi / 4, math.Sqrt2, Vec{}, 100, 1, 2 * math.Sqrt2, math.Sqrt2},
		{"wider than the region", box(0, 0.5, 10, 0.9), 0, 5, Vec{}, 100, 0, 0, 5},
		{"vertex on a line", Ring{{0, 0}, {2, 1}, {4, 0}, {2, 3}}.ToRegion(), 0, 1, Vec{}, 100, 3, 8.0/3 + 4.0/3, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			segs, used := Hatch(c.r, c.angle, c.spacing, c.origin, c.max)
			if len(segs) != c.n {
				t.Fatalf("%d segments, want %d: %v", len(segs), c.n, segs)
			}
			near(t, "length", total(segs), c.length, 1e-9)
			near(t, "spacing", used, c.used, 1e-12)
		})
	}
}

func TestHatchNothing(t *testing.T) {
	b := box(0, 0, 1, 1)
	nan, inf := math.NaN(), math.Inf(1)
	for name, c := range map[string]struct {
		r              Region
		angle, spacing float64
		o              Vec
		max            int
	}{
		"empty": {nil, 0, 1, Vec{}, 9}, "no lines allowed": {b, 0, 1, Vec{}, 0}, "no spacing": {b, 0, 0, Vec{}, 9},
		"negative": {b, 0, -1, Vec{}, 9}, "NaN angle": {b, nan, 1, Vec{}, 9}, "infinite spacing": {b, 0, inf, Vec{}, 9},
		"NaN anchor": {b, 0, 1, Vec{nan, 0}, 9}, "NaN ring": {Ring{{0, 0}, {1, nan}, {0, 1}}.ToRegion(), 0, 1, Vec{}, 9},
		"point": {Region{{Outer: Ring{{1, 1}}}}, 0, 1, Vec{}, 9},
	} {
		if s, used := Hatch(c.r, c.angle, c.spacing, c.o, c.max); s != nil || used != 0 {
			t.Errorf("%s: %v, %g", name, s, used)
		}
		if s, used := HatchDashed(c.r, c.angle, c.spacing, Dash{1, 1}, c.o, c.max); s != nil || used != 0 {
			t.Errorf("%s dashed: %v, %g", name, s, used)
		}
	}
	for _, d := range []Dash{{0, 1}, {1, 0}, {-1, 1}, {nan, 1}, {1, inf}} {
		if s, _ := HatchDashed(b, 0, 0.1, d, Vec{}, 99); s != nil {
			t.Errorf("dash %v: %v", d, s)
		}
	}
	for _, cell := range []float64{0, -1, nan, inf} {
		if s := Scatter(b, cell, 99); s != nil {
			t.Errorf("cell %g: %v", cell, s)
		}
	}
	if Scatter(nil, 1, 9) != nil || Scatter(b, 1, 0) != nil {
		t.Error("points from nothing")
	}
}

// The lines are a midpoint-free strip sum of the area: total length x spacing
// tends to it, with an error of at most one spacing times the height of the
// edges seen along the lines.
func TestHatchArea(t *testing.T) {
	r := newRand(61)
	for k := range 200 {
		reg := randomStar(r, Vec{3, 3}, 5, 3+r.IntN(30))
		angle, spacing := 2*math.Pi*r.Float64(), 0.02+0.1*r.Float64()
		segs, used := Hatch(reg, angle, spacing, Vec{r.Float64(), r.Float64()}, 1<<20)
		if used != spacing {
			t.Fatalf("spacing became %g", used)
		}
		near(t, fmt.Sprint("case ", k), total(segs)*spacing, reg.Area(), spacing*perimeter(reg))
		for _, s := range segs {
			if !reg.Contains(lerp(s.A, s.B, 0.5)) || !reg[0].Outer.OnBoundary(s.A) || !reg[0].Outer.OnBoundary(s.B) {
				t.Fatalf("case %d: %v is not clipped to the region", k, s)
			}
		}
	}
}

// Lines stay in place when the region moves, and neighbours continue them.
func TestHatchAnchored(t *testing.T) {
	left, right := box(0, 0, 3, 4), box(3, 0, 7, 4)
	a, _ := Hatch(left, 0.3, 0.37, Vec{}, 999)
	b, _ := Hatch(right, 0.3, 0.37, Vec{}, 999)
	both, _ := Hatch(append(left, right...), 0.3, 0.37, Vec{}, 999)
	near(t, "length of the parts", total(a)+total(b), total(both), 1e-9)
	whole, _ := Hatch(box(0, 0, 7, 4), 0.3, 0.37, Vec{}, 999)
	near(t, "length of the whole", total(whole), total(both), 1e-9)
	n := Vec{-math.Sin(0.3), math.Cos(0.3)}
	for _, s := range append(a, b...) {
		k := s.A.Dot(n) / 0.37
		near(t, "line number", k, math.Round(k), 1e-9)
	}
}

func TestHatchLimit(t *testing.T) {
	reg := blob(60, Vec{}, 5, 0.4)
	for _, limit := range []int{1, 7, 100, 2000} {
		for _, spacing := range []float64{1e-12, 1e-3, 0.3} {
			s, used := Hatch(reg, 0.7, spacing, Vec{}, limit)
			if len(s) > limit || used < spacing {
				t.Errorf("limit %d, spacing %g: %d segments at %g", limit, spacing, len(s), used)
			}
			if r := math.Log2(used / spacing); math.Abs(r-math.Round(r)) > 1e-9 {
				t.Errorf("spacing %g became %g, not doubled", spacing, used)
			}
			d, usedD := HatchDashed(reg, 0.7, spacing, Dash{0.2, 0.1}, Vec{}, limit)
			if len(d) > limit || usedD < spacing {
				t.Errorf("limit %d, spacing %g: %d dashes at %g", limit, spacing, len(d), usedD)
			}
			if p := Scatter(reg, spacing, limit); len(p) > limit {
				t.Errorf("limit %d, cell %g: %d points", limit, spacing, len(p))
			}
		}
	}
}

// Dashes 2 on, 1 off, on lines z 0.5, 1.5 ...; every second line half a period
// (1.5) along:
//
//   - --  --  --   z 1 (k odd)
//     --  --  --  -   z 0
func TestHatchDashed(t *testing.T) {
	segs, used := HatchDashed(box(0, -0.5, 9, 1.5), 0, 1, Dash{2, 1}, Vec{}, 100)
	want := []Segment{
		{Vec{0, 0}, Vec{2, 0}}, {Vec{3, 0}, Vec{5, 0}}, {Vec{6, 0}, Vec{8, 0}},
		{Vec{0, 1}, Vec{0.5, 1}}, {Vec{1.5, 1}, Vec{3.5, 1}}, {Vec{4.5, 1}, Vec{6.5, 1}}, {Vec{7.5, 1}, Vec{9, 1}},
	}
	if used != 1 || len(segs) != len(want) {
		t.Fatalf("%v at %g, want %v", segs, used, want)
	}
	for i, s := range segs {
		nearVec(t, fmt.Sprint("start of dash ", i), s.A, want[i].A, 1e-12)
		nearVec(t, fmt.Sprint("end of dash ", i), s.B, want[i].B, 1e-12)
	}
	reg := blob(50, Vec{}, 20, 0.2)
	d, _ := HatchDashed(reg, 0.4, 0.1, Dash{0.5, 0.3}, Vec{}, 1<<20)
	// share of the line drawn, by its definition
	near(t, "area by dashes", total(d)*0.1/(0.5/0.8), reg.Area(), 0.01*reg.Area())
}

// Points are fixed to the world: those of a part are among those of the whole,
// one per cell inside, no two in one cell.
func TestScatter(t *testing.T) {
	r := newRand(62)
	for k := range 60 {
		reg := randomStar(r, Vec{2, -3}, 6, 3+r.IntN(20))
		pts := Scatter(reg, 0.25, 1<<20)
		near(t, fmt.Sprint("points of case ", k), float64(len(pts)), reg.Area()/0.0625, 0.5*perimeter(reg)/0.25+10)
		whole := map[Vec]bool{}
		for _, v := range Scatter(box(-10, -10, 10, 10), 0.25, 1<<20) {
			whole[v] = true
		}
		n := 0
		for v := range whole {
			if reg.Contains(v) {
				n++
			}
		}
		if n != len(pts) {
			t.Errorf("case %d: %d points, %d of the whole lie inside", k, len(pts), n)
		}
		cells := map[[2]float64]bool{}
		for _, v := range pts {
			c := [2]float64{math.Floor(v[0] / 0.25), math.Floor(v[1] / 0.25)}
			if !whole[v] || cells[c] || !reg.Contains(v) {
				t.Fatalf("case %d: %v is strange, doubled or outside", k, v)
			}
			cells[c] = true
		}
	}
}

// A thin slanting band, most of whose bounding box is empty, still gets its
// points at the asked density.
func TestScatterThinBand(t *testing.T) {
	band := Ring{{0, 0}, {30, 10}, {30, 10.1}, {0, 0.1}}.ToRegion()
	pts := Scatter(band, 0.05, 2000)
	near(t, "points", float64(len(pts)), 3/0.0025, 200)
}

// Points spread evenly: the mean place within the cells is the middle.
func TestScatterUnbiased(t *testing.T) {
	pts := Scatter(box(0, 0, 100, 100), 1, 1<<20)
	var m Vec
	for _, v := range pts {
		m = m.Add(Vec{v[0] - math.Floor(v[0]), v[1] - math.Floor(v[1])})
	}
	m = m.Mul(1 / float64(len(pts)))
	// standard error of 10^4 uniform draws over 0.8: 0.8/sqrt(12 x 10^4) = 0.0023
	nearVec(t, "mean place", m, Vec{0.5, 0.5}, 4*0.0023)
}

func FuzzHatch(f *testing.F) {
	f.Add([]byte{0, 0, 9, 0, 9, 9, 0, 9}, 0.5, 1.0, 0.0, 0.0)
	f.Add([]byte{0, 0, 20, 1, 9, 9, 3, 30, 7, 7}, 1.57, 0.01, 1e9, -1e-9)
	f.Add([]byte{0, 0, 9, 9, 9, 0, 0, 9}, -3.0, 1e-300, 5.0, 1e300)
	f.Fuzz(func(t *testing.T, p []byte, angle, spacing, ox, oz float64) {
		reg := fuzzRing(p, 0.5).ToRegion()
		const limit = 500
		segs, used := Hatch(reg, angle, spacing, Vec{ox, oz}, limit)
		if len(segs) > limit || len(segs) > 0 && used < spacing {
			t.Fatalf("%d segments at %g from %g", len(segs), used, spacing)
		}
		dashes, _ := HatchDashed(reg, angle, spacing, Dash{spacing, spacing / 2}, Vec{ox, oz}, limit)
		pts := Scatter(reg, spacing, limit)
		if len(dashes) > limit || len(pts) > limit {
			t.Fatalf("%d dashes, %d points", len(dashes), len(pts))
		}
		for _, s := range append(segs, dashes...) {
			if !FiniteVec(s.A) || !FiniteVec(s.B) {
				t.Fatalf("segment %v", s)
			}
		}
		if near0 := math.Abs(ox)+math.Abs(oz)+math.Abs(angle) < 1e4; near0 && reg != nil && reg[0].Outer.IsSimple() && used > 0 {
			near(t, "area", total(segs)*used, reg.Area(), used*perimeter(reg)+1e-6)
		}
	})
}

func BenchmarkHatch(b *testing.B) {
	reg := blob(60, Vec{}, 5, 0.2)
	b.Run("lines", func(b *testing.B) {
		for b.Loop() {
			Hatch(reg, 0.7, 0.05, Vec{}, 2000)
		}
	})
	b.Run("scatter", func(b *testing.B) {
		for b.Loop() {
			Scatter(reg, 0.2, 2000)
		}
	})
}
