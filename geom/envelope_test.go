package geom

import (
	"fmt"
	"math"
	"testing"
)

// Two lines that cross, run together and part (areas by hand):
//
//	a: 0,0  -> 4,4 -> 8,4 -> 12,0
//	b: 0,2  -> 4,2 -> 6,4 -> 8,4 -> 12,4
//
//	a is above b from x 2 to 6: two triangles, 2 + 2 = 4.
//	b is above a from 0 to 2 (2) and from 8 to 12 (8).
var (
	lineA = Polyline{{0, 0}, {4, 4}, {8, 4}, {12, 0}}
	lineB = Polyline{{0, 2}, {4, 2}, {6, 4}, {8, 4}, {12, 4}}
)

func TestBetween(t *testing.T) {
	up := Between(lineA, lineB, math.Inf(-1), math.Inf(1))
	near(t, "a above b", up.Area(), 4, 1e-12)
	if len(up) != 1 || len(up[0].Outer) != 4 {
		t.Errorf("region %v, want one quadrilateral", up)
	}
	down := Between(lineB, lineA, 0, 12)
	near(t, "b above a", down.Area(), 10, 1e-12)
	if len(down) != 2 {
		t.Errorf("region %v, want two polygons", down)
	}
	cut := Between(lineB, lineA, 1, 10)
	near(t, "b above a, 1 to 10", cut.Area(), 0.5+2, 1e-12)
	for _, p := range append(append(up, down...), cut...) {
		if p.Outer.SignedArea() <= 0 || !p.Outer.IsSimple() {
			t.Errorf("ring %v", p.Outer)
		}
	}
}

// A stratum that pinches out and comes back gives two lenses:
//
//	 __      __
//	/  \____/  \
func TestBetweenPinchesOut(t *testing.T) {
	top := Polyline{{0, 0}, {2, 1}, {4, 0}, {6, 0}, {8, 1}, {10, 0}}
	bot := Polyline{{0, 0}, {10, 0}}
	r := Between(top, bot, 0, 10)
	if len(r) != 2 {
		t.Fatalf("%d polygons, want 2: %v", len(r), r)
	}
	for _, p := range r {
		near(t, "lens", p.Area(), 2, 1e-12)
		if len(p.Outer) != 3 {
			t.Errorf("lens %v", p.Outer)
		}
	}
	point := Polyline{{0, 1}, {5, 0}, {10, 1}} // touches at one point
	if r := Between(point, bot, 0, 10); len(r) != 2 {
		t.Errorf("touching point: %v", r)
	}
}

func TestBetweenEmpty(t *testing.T) {
	flat := Polyline{{0, 0}, {5, 0}}
	for name, r := range map[string]Region{
		"same line":     Between(flat, flat, 0, 5),
		"below":         Between(flat, Polyline{{0, 1}, {5, 1}}, 0, 5),
		"no common x":   Between(flat, Polyline{{6, -1}, {9, -1}}, 0, 9),
		"no width":      Between(flat, Polyline{{0, -1}, {5, -1}}, 2, 2),
		"NaN limit":     Between(flat, Polyline{{0, -1}, {5, -1}}, math.NaN(), 2),
		"invalid upper": Between(Polyline{{0, 0}}, flat, 0, 5),
		"NaN level":     Between(flat, Polyline{{0, -1}, {5, math.NaN()}}, 0, 5),
		"nanometre":     Between(flat, Polyline{{0, -5e-10}, {5, -5e-10}}, 0, 5),
	} {
		if r != nil {
			t.Errorf("%s: %v", name, r)
		}
	}
}

// Between, AreaBetween, the envelopes and clipping are separate code: they
// must agree on random lines.
func TestBetweenRoutes(t *testing.T) {
	r := newRand(31)
	for k := range 200 {
		a, b := mono(r, 0, 20, 0, 3, 3+r.IntN(20)), mono(r, -1, 18, 0.5, 2, 3+r.IntN(20))
		x0, x1 := 4*r.Float64(), 10+9*r.Float64()
		name := fmt.Sprint("case ", k)
		area := AreaBetween(a, b, x0, x1)
		reg := Between(a, b, x0, x1)
		near(t, name+" region", reg.Area(), area, 1e-9)
		near(t, name+" trapezoids", stepArea(a, b, x0, math.Min(x1, 18)), area, 2e-3)
		up, low := Upper(a, b), Lower(a, b)
		near(t, name+" envelopes", AreaBetween(up, low, x0, x1), area+AreaBetween(b, a, x0, x1), 1e-9)
		near(t, name+" upper over b", AreaBetween(up, b, x0, x1), area, 1e-9)
		// by clipping: the ground below a less the ground below b
		base := Polyline{{-5, -10}, {25, -10}}
		d, err := Difference(Between(a, base, x0, math.Min(x1, 18)), Between(b, base, x0, math.Min(x1, 18)))
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+" clipped", d.Area(), area, snapTol(d, reg)+1e-4)
	}
}

// stepArea sums the positive part of a-b by the midpoint rule.
func stepArea(a, b Polyline, x0, x1 float64) (sum float64) {
	const n = 20000
	h := (x1 - x0) / n
	for i := range n {
		x := x0 + (float64(i)+0.5)*h
		za, _ := a.At(x)
		zb, _ := b.At(x)
		sum += math.Max(0, za-zb) * h
	}
	return sum
}

func TestEnvelopes(t *testing.T) {
	low, up := Lower(lineA, lineB), Upper(lineA, lineB)
	wantLow := Polyline{{0, 0}, {2, 2}, {4, 2}, {6, 4}, {8, 4}, {12, 0}}
	wantUp := Polyline{{0, 2}, {2, 2}, {4, 4}, {12, 4}}
	for i, w := range map[string][2]Polyline{"lower": {low, wantLow}, "upper": {up, wantUp}} {
		if fmt.Sprint(w[0]) != fmt.Sprint(w[1]) {
			t.Errorf("%s %v, want %v", i, w[0], w[1])
		}
	}
	if got := Lower(lineA, Polyline{{20, 0}, {21, 0}}); got != nil {
		t.Errorf("no common range: %v", got)
	}
	r := newRand(32)
	for range 100 {
		a, b := mono(r, 0, 10, 0, 3, 9), mono(r, 1, 11, 0, 3, 9)
		low := Lower(a, b)
		if err := low.Validate(); err != nil {
			t.Fatal(err)
		}
		for range 50 {
			x := 1 + 9*r.Float64()
			za, _ := a.At(x)
			zb, _ := b.At(x)
			zl, ok := low.At(x)
			if !ok {
				t.Fatalf("no level at %g", x)
			}
			near(t, "lower", zl, math.Min(za, zb), 1e-8)
		}
	}
}

func TestCrossAbove(t *testing.T) {
	roof := Polyline{{0, 5}, {10, 5}}
	for _, c := range []struct {
		name string
		b    Polyline
		x    float64
		want bool
	}{
		{"below", Polyline{{0, 4}, {10, 4}}, 0, false},
		{"touches", Polyline{{0, 4}, {5, 5}, {10, 4}}, 0, false},
		{"runs along", Polyline{{0, 4}, {5, 5}, {8, 5}, {10, 4}}, 0, false},
		{"within tolerance", Polyline{{0, 4}, {5, 5 + 0.9*TolTouch}, {10, 4}}, 0, false},
		{"beyond tolerance", Polyline{{0, 4}, {5, 5 + 1.1*TolTouch}, {10, 4}}, 5, true},
		{"crosses", Polyline{{0, 4}, {3, 5.5}, {7, 6}, {10, 4}}, 7, true},
		{"above at the end", Polyline{{2, 4}, {12, 9}}, 10, true},
		{"only outside the range", Polyline{{-4, 9}, {0, 5}, {10, 4}}, 0, false},
		{"no common range", Polyline{{11, 9}, {12, 9}}, 0, false},
		{"invalid", Polyline{{0, math.NaN()}, {10, 9}}, 0, false},
	} {
		x, got := CrossAbove(roof, c.b)
		if got != c.want || got && math.Abs(x-c.x) > 1e-9 {
			t.Errorf("%s: %v at %g, want %v at %g", c.name, got, x, c.want, c.x)
		}
	}
}

// VO-03 open-front hillside pit (site notes, derived there in closed form):
// floor z = 0 to x = 8, back batter 1:1, ground z = 1 + 0.25 x.
//
//	                   __--
//	             __--/   ground
//	       __--     / 1:1
//	 __--__________/
//	-4             8   12
func TestHillsidePit(t *testing.T) {
	ground := Polyline{{-8, -1}, {20, 6}}
	const back, side = 1.0, 0.75
	crest, ok := RayHit(Vec{8, 0}, Vec{back, 1}, ground)
	if !ok {
		t.Fatal("the back batter does not daylight")
	}
	nearVec(t, "VO-03 crest", crest, Vec{12, 4}, 1e-9)
	cut := Upper(Polyline{{-8, 0}, {8, 0}, {20, 12 / back}}, Polyline{{-8, 0}, {20, 0}})
	near(t, "VO-03 centre-line section", AreaBetween(ground, cut, -8, 20), 24, 1e-9)
	near(t, "VO-03 as a region", Between(ground, cut, -8, 20).Area(), 24, 1e-9)

	section := func(x float64) float64 { return crossCut(t, ground, cut, x, side) }
	// The section area is quadratic in x on each side of x = 8, so Simpson's
	// rule is exact there.
	front := (section(-4) + 4*section(2) + section(8)) * 12 / 6
	rear := (section(8) + 4*section(10) + section(12)) * 4 / 6
	near(t, "VO-03 front part", front, 99, 0.001)
	near(t, "VO-03 back part", rear, 45, 0.001)
	near(t, "VO-03 volume", front+rear, 144, 0.001)
	var aea float64
	for x := -4.0; x < 12; x += 2 {
		aea += (section(x) + section(x+2)) / 2 * 2
	}
	near(t, "VO-03 average end areas at 2 m", aea, 142.5, 0.001)
	near(t, "VO-03 average end areas at -4, 8, 12",
		(section(-4)+section(8))/2*12+(section(8)+section(12))/2*4, 150, 0.001)
}

// crossCut is the area dug in the cross section at x: floor 4 m wide at the
// level of the centre-line cut, sides rising side:1 to the ground level there.
func crossCut(t *testing.T, ground, cut Polyline, x, side float64) float64 {
	t.Helper()
	g, _ := ground.At(x)
	z, _ := cut.At(x)
	if g <= z {
		return 0
	}
	level := Polyline{{-20, g}, {24, g}}
	// The back face is dug to its own level at x, between the same side
	// batters, which start from the floor z = 0.
	sides := Polyline{{-20, 20 / side}, {0, 0}, {4, 0}, {24, 20 / side}}
	return AreaBetween(level, Upper(sides, Polyline{{-20, z}, {24, z}}), -20, 24)
}

// VO-01 pit with four 2:1 sides (S15 of the site notes, verified): top
// 100 x 70 ft, depth 12 ft, 44 256 ft3. The section areas come from rings, the
// volume by the prismoid.
func TestPitVolume(t *testing.T) {
	top := Rect{Vec{0, 0}, Vec{100, 70}}.ToRing()
	at := func(depth float64) float64 {
		r, err := OffsetRing(top, -2*depth)
		if err != nil {
			t.Fatal(err)
		}
		return r.Area()
	}
	near(t, "VO-01 mid area", at(6), 3496, 1e-3)
	near(t, "VO-01 bottom area", at(12), 1144, 1e-3)
	v := 12 * (at(0) + 4*at(6) + at(12)) / 6
	near(t, "VO-01 volume, yd3", v/27, 1639.1, 0.1)
	near(t, "VO-01 average end areas, ft3", 12*(at(0)+at(12))/2, 48864, 0.1)
}

func BenchmarkBetween(b *testing.B) {
	r := newRand(33)
	up, low := mono(r, 0, 50, 1, 2, 100), mono(r, 0, 50, 0, 2, 100)
	for b.Loop() {
		Between(up, low, 0, 50)
	}
}
