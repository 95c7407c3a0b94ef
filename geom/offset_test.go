package geom

import (
	"fmt"
	"math"
	"testing"
)

// Offsets of the unit shapes (areas by hand; tolerance: the grid over some
// 40 m of edge).
func TestOffsetRingTable(t *testing.T) {
	square := box(0, 0, 4, 4)[0].Outer
	ell := Ring{{0, 0}, {6, 0}, {6, 2}, {2, 2}, {2, 6}, {0, 6}}
	dumbbell := Ring{{0, 0}, {4, 0}, {4, 1.5}, {8, 1.5}, {8, 0}, {12, 0}, {12, 4}, {8, 4}, {8, 2.5}, {4, 2.5}, {4, 4}, {0, 4}}
	for _, c := range []struct {
		name  string
		r     Ring
		d     float64
		area  float64
		polys int
	}{
		{"square out", square, 1, 36, 1},
		{"square in", square, -1, 4, 1},
		{"square in, clockwise", square.Reversed(), -1, 4, 1},
		{"square out, clockwise", square.Reversed(), 1, 36, 1},
		{"square by nothing", square, 0, 16, 1},
		{"square to its centre", square, -2, 0, 0},
		{"square past its centre", square, -3, 0, 0},
		{"square far past its centre", square, -30, 0, 0},
		{"L out", ell, 1, 8*4 + 4*4, 1},
		{"L in", ell, -0.5, 5*1 + 4*1, 1},
		{"L in to nothing", ell, -1, 0, 0},
		{"dumbbell parts", dumbbell, -0.75, 2 * 2.5 * 2.5, 2},
		{"dumbbell joins", dumbbell, 2.5, 17 * 9, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := OffsetRing(c.r, c.d)
			if err != nil {
				t.Fatal(err)
			}
			wellFormed(t, c.name, got)
			near(t, "area", got.Area(), c.area, clipTol)
			if len(got) != c.polys {
				t.Errorf("%d polygons, want %d: %v", len(got), c.polys, got)
			}
		})
	}
}

// A frame's hole closes as the frame grows, and opens as it shrinks; polygons
// that share an edge move as one.
func TestOffsetRegion(t *testing.T) {
	frame := Region{{Outer: box(0, 0, 10, 10)[0].Outer, Holes: []Ring{box(4, 4, 6, 6)[0].Outer}}}
	pair := append(box(0, 0, 2, 4), box(2, 0, 6, 4)...)
	for _, c := range []struct {
		name string
		r    Region
		d    float64
		area float64
	}{
		{"hole narrows", frame, 0.5, 121 - 1},
		{"hole closes", frame, 1, 144},
		{"hole widens", frame, -1, 64 - 16},
		{"frame vanishes", frame, -2, 0},
		{"neighbours as one", pair, -1, 4 * 2},
		{"nothing", nil, 1, 0},
	} {
		got, err := OffsetRegion(c.r, c.d)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		near(t, c.name, got.Area(), c.area, clipTol)
		if c.area == 0 && got != nil {
			t.Errorf("%s: %v, want nil", c.name, got)
		}
	}
	for _, d := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e9} {
		if got, err := OffsetRegion(frame, d); err == nil {
			t.Errorf("offset by %g gave %v", d, got)
		}
	}
	if _, err := OffsetRing(Ring{{0, 0}, {2, 2}, {2, 0}, {0, 2}}, 1); err == nil {
		t.Error("bow tie moved out")
	}
}

// J. Steiner's formula for a convex ring: round corners give A + P d + pi d2,
// full mitres A + P d + d2 sum tan(turn/2); cut mitres lie between.
func TestOffsetConvexArea(t *testing.T) {
	r := newRand(51)
	for k := range 200 {
		ring := randomConvex(r, Vec{3, 3}, 3+r.IntN(12))
		d := 0.05 + 2*r.Float64()
		got, err := OffsetRing(ring, d)
		if err != nil {
			t.Fatal(err)
		}
		base := ring.Area() + ring.Length()*d
		var mitres float64
		cut := false
		for i := range ring {
			n := len(ring)
			a, b := ring[i].Sub(ring[(i+n-1)%n]), ring[(i+1)%n].Sub(ring[i])
			half := math.Atan2(Cross(a, b), a.Dot(b)) / 2
			mitres += math.Tan(half)
			cut = cut || 1/math.Cos(half) > MitreLimit
		}
		tol := snapTol(got)
		if a := got.Area(); a < base+math.Pi*d*d-tol || a > base+mitres*d*d+tol {
			t.Errorf("case %d: area %g outside %g..%g", k, a, base+math.Pi*d*d, base+mitres*d*d)
		}
		if !cut {
			near(t, fmt.Sprint("full mitres of case ", k), got.Area(), base+mitres*d*d, tol)
		}
	}
}

// Moving out and back in never loses a convex ring's area, and restores it
// where no corner was cut.
func TestOffsetThereAndBack(t *testing.T) {
	r := newRand(52)
	for k := range 100 {
		ring := randomConvex(r, Vec{}, 3+r.IntN(8))
		d := 0.1 + r.Float64()
		out, err := OffsetRing(ring, d)
		if err != nil {
			t.Fatal(err)
		}
		back, err := OffsetRegion(out, -d)
		if err != nil {
			t.Fatal(err)
		}
		lost, err := Difference(ring.ToRegion(), back)
		if err != nil {
			t.Fatal(err)
		}
		if lost.Area() > snapTol(out, back)*10 {
			t.Errorf("case %d: %g m2 lost", k, lost.Area())
		}
	}
}

// Independent of the winding argument: every boundary point of the result is
// at least |d| from the old boundary, on the right side of it, and for inward
// offsets of any shape nothing deeper than the mitres' reach is missing.
func TestOffsetDistances(t *testing.T) {
	r := newRand(53)
	for k := range 150 {
		reg := randomStar(r, Vec{}, 4, 4+r.IntN(16))
		d := 0.02 + 0.5*r.Float64()
		for _, s := range []float64{d, -d} {
			got, err := OffsetRegion(reg, s)
			if err != nil {
				t.Fatalf("case %d: %v", k, err)
			}
			edge := reg[0].Outer.Closed()
			for _, p := range got {
				for _, ring := range p.Rings() {
					for i := range ring {
						v := lerp(ring[i], ring[(i+1)%len(ring)], 0.3)
						if _, _, _, far := edge.Nearest(v); far < d-10*SnapGrid {
							t.Fatalf("case %d by %g: %v is %g away", k, s, v, far)
						}
						if reg.Contains(v) != (s < 0) {
							t.Fatalf("case %d by %g: %v on the wrong side", k, s, v)
						}
					}
				}
			}
			offsetCovers(t, reg, edge, got, s)
		}
	}
}

// offsetCovers samples the plane: nearer than d outside is in, deeper than the
// longest mitre inside is in.
func offsetCovers(t *testing.T, reg Region, edge Polyline, got Region, s float64) {
	t.Helper()
	r := newRand(54)
	for range 60 {
		v := Vec{r.Float64()*10 - 5, r.Float64()*10 - 5}
		_, _, _, far := edge.Nearest(v)
		in := reg.Contains(v)
		switch {
		case s > 0 && (in || far < s-10*SnapGrid):
			if !got.Contains(v) {
				t.Fatalf("by %g: %v missing", s, v)
			}
		case s > 0 && far > MitreLimit*s+10*SnapGrid, s < 0 && (!in || far < -s-10*SnapGrid):
			if got.Contains(v) {
				t.Fatalf("by %g: %v too many", s, v)
			}
		case s < 0 && in && far > -MitreLimit*s+10*SnapGrid:
			if !got.Contains(v) {
				t.Fatalf("by %g: %v missing inside", s, v)
			}
		}
	}
}

// Lines drawn to the right, moved up by d > 0:
//
//	flat      ridge (mitre)   valley (loop cut)
//	-----       /\              \    /
//	_____      /  \              \  /
//	          / /\ \           \  \/  /
//	           /  \             \    /
func TestOffsetPolylineTable(t *testing.T) {
	h := math.Sqrt2
	for _, c := range []struct {
		name string
		p    Polyline
		d    float64
		want Polyline
	}{
		{"flat up", Polyline{{0, 1}, {5, 1}}, 2, Polyline{{0, 3}, {5, 3}}},
		{"flat down", Polyline{{0, 1}, {5, 1}}, -2, Polyline{{0, -1}, {5, -1}}},
		{"by nothing", Polyline{{0, 1}, {5, 1}}, 0, Polyline{{0, 1}, {5, 1}}},
		{"ridge", Polyline{{0, 0}, {5, 5}, {10, 0}}, h, Polyline{{-1, 1}, {5, 7}, {11, 1}}},
		{"valley", Polyline{{0, 5}, {5, 0}, {10, 5}}, h, Polyline{{1, 6}, {5, 2}, {9, 6}}},
		{"square corner", Polyline{{0, 0}, {0, 4}, {6, 4}}, 1, Polyline{{-1, 0}, {-1, 5}, {6, 5}}},
		{"square corner, inside", Polyline{{0, 0}, {0, 4}, {6, 4}}, -1, Polyline{{1, 0}, {1, 3}, {6, 3}}},
		{"trench lost", Polyline{{0, 4}, {4, 4}, {4, 0}, {5, 0}, {5, 4}, {9, 4}}, 1, Polyline{{0, 5}, {9, 5}}},
		{"straight vertex", Polyline{{0, 0}, {2, 0}, {2, 0}, {5, 0}}, 1, Polyline{{0, 1}, {5, 1}}},
	} {
		got := OffsetPolyline(c.p, c.d)
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
			continue
		}
		for i := range got {
			nearVec(t, c.name, got[i], c.want[i], 1e-9)
		}
	}
}

// A needle sharper than the mitre limit is cut square at d from its tip.
func TestOffsetPolylineCutsNeedles(t *testing.T) {
	p := Polyline{{0, 0}, {5, 40}, {10, 0}}
	got := OffsetPolyline(p, 1)
	if len(got) != 4 {
		t.Fatalf("%v, want four points", got)
	}
	near(t, "cut at", got[1][1], 41, 1e-9)
	near(t, "cut level", got[2][1], 41, 1e-9)
}

func TestOffsetPolylineVanishes(t *testing.T) {
	for name, c := range map[string]struct {
		p Polyline
		d float64
	}{
		"none":        {nil, 1},
		"point":       {Polyline{{1, 1}}, 1},
		"point twice": {Polyline{{1, 1}, {1, 1}}, 1},
		"NaN":         {Polyline{{0, 0}, {1, math.NaN()}}, 1},
		"NaN offset":  {Polyline{{0, 0}, {1, 0}}, math.NaN()},
		"infinite":    {Polyline{{0, 0}, {1, 0}}, math.Inf(1)},
		// inside a closed triangle of inradius under 1
		"no room": {Polyline{{0, 0}, {3, 0}, {1.5, 2}, {0, 0}}, 5},
	} {
		if got := OffsetPolyline(c.p, c.d); got != nil {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// On random ground lines: nowhere nearer than |d|, on the asked side, in order
// of x where the line is gentle, and the mirror image for the other side.
func TestOffsetPolylineProperties(t *testing.T) {
	r := newRand(55)
	for k := range 200 {
		p := mono(r, 0, 20, 0, 2, 4+r.IntN(20))
		d := 0.05 + r.Float64()
		got := OffsetPolyline(p, d)
		if len(got) < 2 {
			t.Fatalf("case %d: nothing left", k)
		}
		for i := 1; i < len(got); i++ {
			for _, f := range []float64{0.01, 0.5, 0.99} {
				v := lerp(got[i-1], got[i], f)
				if _, _, _, far := p.Nearest(v); far < d-1e-6 {
					t.Fatalf("case %d: %v is %g away, d %g", k, v, far, d)
				}
				if z, ok := p.At(v[0]); ok && v[1] < z {
					t.Fatalf("case %d: %v below the line", k, v)
				}
			}
		}
		if w := got[len(got)-1][0] - got[0][0]; w < 20-2*d-0.01 {
			t.Errorf("case %d: only %g of 20 m left by %g", k, w, d)
		}
		mirror := make(Polyline, len(p))
		for i, v := range p {
			mirror[i] = Vec{v[0], -v[1]}
		}
		down := OffsetPolyline(mirror, -d)
		if len(down) != len(got) {
			t.Fatalf("case %d: %d points, mirrored %d", k, len(got), len(down))
		}
		for i, v := range down {
			nearVec(t, fmt.Sprint("mirror of case ", k), Vec{v[0], -v[1]}, got[i], 1e-6)
		}
	}
}

func FuzzOffset(f *testing.F) {
	f.Add([]byte{0, 0, 9, 0, 9, 9, 0, 9}, 1.0)
	f.Add([]byte{0, 0, 9, 0, 9, 9, 0, 9}, -4.5)
	f.Add([]byte{0, 0, 20, 1, 9, 9, 3, 30, 7, 7}, -0.3)
	f.Fuzz(func(t *testing.T, p []byte, d float64) {
		ring := fuzzRing(p, 0.25)
		line := OffsetPolyline(Polyline(ring), d)
		for _, v := range line {
			if !FiniteVec(v) {
				t.Fatalf("line offset by %g has %v", d, v)
			}
		}
		got, err := OffsetRing(ring, d)
		if err != nil {
			return
		}
		wellFormed(t, "offset", got)
		clean, err := UnionAll(ring.ToRegion())
		if err != nil {
			t.Fatal(err)
		}
		if (got.Area()-clean.Area())*d < -math.Abs(d)*snapTol(got, clean) {
			t.Errorf("by %g the area went from %g to %g", d, clean.Area(), got.Area())
		}
	})
}

func BenchmarkOffset(b *testing.B) {
	reg := blob(40, Vec{}, 5, 0.1)
	line := mono(newRand(56), 0, 30, 0, 2, 40)
	b.Run("region", func(b *testing.B) {
		for b.Loop() {
			if _, err := OffsetRegion(reg, -0.3); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("line", func(b *testing.B) {
		for b.Loop() {
			OffsetPolyline(line, 0.3)
		}
	})
}
