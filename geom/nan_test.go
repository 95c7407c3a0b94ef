package geom

import (
	"fmt"
	"math"
	"testing"
)

// Every exported function, given coordinates and arguments that are not finite
// or far too large: no panic, and no NaN in what is returned as a result.
func TestNotFiniteEverywhere(t *testing.T) {
	bad := []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, -math.MaxFloat64}
	for _, x := range bad {
		for i := range 3 {
			for k := range 2 {
				line := Polyline{{0, 0}, {1, 2}, {2, 1}}
				line[i][k] = x
				t.Run(fmt.Sprint(x, " as coordinate ", k, " of point ", i), func(t *testing.T) { useAll(t, line, Polyline{{0, 1}, {2, 1.5}}, x) })
			}
		}
		t.Run(fmt.Sprint(x, " as argument"), func(t *testing.T) { useAll(t, hill, lineB, x) })
	}
}

func useAll(t *testing.T, a, b Polyline, x float64) {
	t.Helper()
	v := Vec{x, 1}
	ring := Ring(a)
	reg := ring.ToRegion()
	wantFinite(t, "At", levels(a.At(x)), levels(a.At(0.5)), levels(a.SlopeAt(0.5)))
	wantFinite(t, "ClipX", a.ClipX(0.2, x), a.ClipX(0.2, 1.7))
	wantFinite(t, "envelopes", Lower(a, b), Upper(b, a))
	_ = a.Simplify(x)
	_ = a.Simplify(0.1)
	_, _ = a.Insert(v)
	_, _, at, _ := a.Nearest(v)
	hit, _ := RayHit(v, Vec{1, x}, a)
	first, _ := RayHit(Vec{0, 0.5}, Vec{1, 0}, a)
	wantFinite(t, "Nearest and RayHit", Polyline{at, hit, first})
	if allFinite(a) && a.Length() < 1e100 {
		wantFinite(t, "OffsetPolyline", OffsetPolyline(a, x), OffsetPolyline(a, 0.1))
	}
	for _, r := range []Region{Between(a, b, 0, x), Between(b, a, 0, 2)} {
		for _, p := range r {
			wantFinite(t, "Between", Polyline(p.Outer))
		}
	}
	for _, op := range []func() (Region, error){
		func() (Region, error) { return Union(reg, box(0, 0, 1, 1)) },
		func() (Region, error) { return Intersect(box(0, 0, 1, 1), reg) },
		func() (Region, error) { return Difference(reg, Rect{Vec{0, 0}, v}.ToRegion()) },
		func() (Region, error) { return OffsetRing(ring, x) },
		func() (Region, error) { return OffsetRegion(reg, 0.5) },
	} {
		if r, err := op(); err == nil {
			for _, p := range r {
				wantFinite(t, "clip", Polyline(p.Outer))
			}
		}
	}
	segs, _ := Hatch(reg, x, 1, v, 50)
	more, _ := Hatch(reg, 0.3, 0.5, Vec{}, 50)
	dash, _ := HatchDashed(reg, 0.3, 0.5, Dash{x, 1}, Vec{}, 50)
	for _, s := range append(append(segs, more...), dash...) {
		wantFinite(t, "hatch", Polyline{s.A, s.B})
	}
	wantFinite(t, "scatter", Scatter(reg, x, 50), Scatter(reg, 0.1, 50))
	if c, ok := reg.Centroid(); ok {
		wantFinite(t, "centroid", Polyline{c})
	}
	if !finite(x) && reg.Contains(v) || ring.Contains(Vec{math.NaN(), 0}) {
		t.Error("holds a point that is nowhere")
	}
	_, _ = SplitByRegion(a, reg)
	_, _ = CrossAbove(a, b)
	_ = Intersections(a, b)
	_ = ring.IsSimple()
	_ = reg.Bounds().Expand(x).Union(a.Bounds())
}

// levels makes a level a point, if there is one.
func levels(z float64, ok bool) Polyline {
	if !ok {
		return nil
	}
	return Polyline{{0, z}}
}

func wantFinite(t *testing.T, what string, lines ...Polyline) {
	t.Helper()
	for _, l := range lines {
		if !allFinite(l) {
			t.Errorf("%s gave %v", what, l)
		}
	}
}
