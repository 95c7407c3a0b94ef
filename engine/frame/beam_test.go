package frame

import (
	"math"
	"math/rand/v2"
	"testing"
)

const (
	exact  = 1e-9 // closed forms against exact statics: rounding only
	tolHan = 1e-3 // ST-06: handbook ratios printed to three figures
	tolRef = 5e-3 // ST-07, ST-08, ST-12 as stated by the cases
	tolFil = 2e-3 // ST-09, ST-11 as stated by the cases
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s = %.7g, want %.7g within %g", what, got, want, tol)
	}
}

func simple(t *testing.T, l float64, ld Load, ei float64) Beam {
	t.Helper()
	b, err := Simple(l, ld, ei)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestSimpleTriangle(t *testing.T) {
	// Structure reference, section 4 (derived): triangle from 0 to w.
	const w, l, ei = 20.0, 3.0, 500.0
	b := simple(t, l, Linear(0, w, l), ei)
	near(t, "Rt", b.Ra, w*l/6, exact)
	near(t, "Rb", b.Rb, w*l/3, exact)
	near(t, "M", b.MMax, w*l*l/(9*math.Sqrt(3)), exact)
	near(t, "place of M", b.SMax, l/math.Sqrt(3), exact)
	d, at := b.Sag()
	near(t, "deflection", d, 0.006522*w*math.Pow(l, 4)/ei, 2e-4)
	near(t, "place of deflection", at, 0.519*l, 2e-3)

	u := simple(t, l, Uniform(w, l), ei)
	near(t, "uniform M", u.MMax, w*l*l/8, exact)
	d, at = u.Sag()
	near(t, "uniform deflection", d, 5*w*math.Pow(l, 4)/(384*ei), exact)
	near(t, "its place", at, l/2, 1e-6)

	t.Run("ST-06", func(t *testing.T) { // Civil Engineering Formulas, Table 2.3 (verified)
		tri, uni := simple(t, 1, Linear(0, 2, 1), 1), simple(t, 1, Uniform(1, 1), 1)
		near(t, "safe load ratio", uni.MMax/tri.MMax, 0.974, tolHan)
		dt, _ := tri.Sag()
		du, _ := uni.Sag()
		near(t, "deflection ratio", dt/tri.MMax/(du/uni.MMax), 0.976, tolHan)
	})
	t.Run("ST-07", func(t *testing.T) { // derived; z from the top
		b := simple(t, 2.40, Linear(5.4, 27.0, 2.40), 65.72)
		near(t, "Rt", b.Ra, 15.12, tolRef)
		near(t, "Rb", b.Rb, 23.76, tolRef)
		near(t, "M", b.MMax, 11.80, tolRef)
		near(t, "z", b.SMax, 1.329, tolRef)
		d, _ := b.Sag()
		near(t, "deflection", d, 0.107, tolRef)
		// The formula of the reference: zero shear, then M.
		p0, w, l := 5.4, 21.6, 2.40
		z := (-p0 + math.Sqrt(p0*p0+2*w/l*b.Ra)) * l / w
		near(t, "zero shear", b.SMax, z, exact)
		near(t, "M by formula", b.MMax, b.Ra*z-p0*z*z/2-w*z*z*z/(6*l), exact)
	})
}

// partial is the largest moment of a pinned wall of height l under the
// pressure g·y down from the surface at height h (structure reference, section
// 4, derived), with the top reaction.
func partial(g, h, l float64) (m, rt, y float64) {
	rt = g * h * h * h / (6 * l)
	y = h * math.Sqrt(h/(3*l))
	return rt*(l-h) + 2.0/3*rt*y, rt, y
}

// fillLoad is the same load measured up from the bottom.
func fillLoad(g, h float64) Load { return Load{{0, g * h}, {h, 0}} }

func TestPartialFill(t *testing.T) {
	t.Run("ST-09", func(t *testing.T) { // derived
		b := simple(t, 2.40, fillLoad(9, 1.80), 65)
		near(t, "Rt", b.Rb, 3.645, tolFil)
		near(t, "M", b.MMax, 4.374, tolFil)
		near(t, "depth of M below the top", 2.40-b.SMax, 1.50, tolFil)
	})
	rng := rand.New(rand.NewPCG(7, 8))
	for range 100 {
		l := 1 + 3*rng.Float64()
		h, g := l*(0.05+0.95*rng.Float64()), 1+20*rng.Float64()
		m, rt, y := partial(g, h, l)
		b := simple(t, l, fillLoad(g, h), 65)
		near(t, "M", b.MMax, m, exact)
		near(t, "Rt", b.Rb, rt, exact)
		near(t, "y0", h-b.SMax, y, 1e-7)
	}
}

// depthFor bisects for the fill height that brings the pinned wall to mAllow.
func depthFor(t *testing.T, g, l, mAllow float64) float64 {
	t.Helper()
	lo, hi := 0.0, l
	for range 60 {
		mid := (lo + hi) / 2
		if simple(t, l, fillLoad(g, math.Max(mid, 1e-6)), 65).MMax > mAllow {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}

func TestGreatestBackfill(t *testing.T) {
	t.Run("ST-10", func(t *testing.T) { // derived, 1 %; Mn 5.550 kNm/m
		for _, c := range []struct{ g, asd, lrfd float64 }{
			{4.712, 2.14, 2.08}, {1.5 * 4.712, 1.77, 1.73}, {2 * 4.712, 1.57, 1.53}, {9, 1.60, 1.56}, {14.81, 1.30, 1.27},
		} {
			near(t, "ASD", depthFor(t, c.g, 2.40, 5.550/1.67), c.asd, 1e-2)
			near(t, "LRFD", depthFor(t, c.g, 2.40, 0.9*5.550/1.6), c.lrfd, 1e-2)
		}
	})
	t.Run("ST-17", func(t *testing.T) { // derived from NDS values; ft, lb
		fb := 900 * 0.9 * 0.85 * 1.3 * 1.15 * 0.8
		near(t, "Fb'", fb, 823, tolRef)
		m := fb * 1.5 * 5.5 * 5.5 / 6 / 12 * 12 / 16
		near(t, "moment", m, 389, tolRef)
		for _, c := range []struct{ g, h float64 }{{30, 5.25}, {45, 4.44}, {60, 3.95}} {
			near(t, "backfill", depthFor(t, c.g, 7.75, m), c.h, tolRef)
		}
	})
	t.Run("ST-18", func(t *testing.T) { // derived; ft, lb, 1.6H
		m := 0.6 * 5 * math.Sqrt(2500) * 112.5 / 12
		near(t, "φMn", m, 1406, tolRef)
		for _, c := range []struct{ g, h float64 }{{30, 7.54}, {45, 6.22}, {60, 5.48}} {
			near(t, "backfill", depthFor(t, 1.6*c.g, 8, m), c.h, 1e-2)
		}
	})
}

// TestSimpleByDifferences integrates random loads with many small forces,
// which shares nothing with the exact pieces.
func TestSimpleByDifferences(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for range 40 {
		l, ei := 0.5+5*rng.Float64(), 20+100*rng.Float64()
		ld := randomLoad(rng, l)
		b := simple(t, l, ld, ei)
		const n = 20000
		h := l / n
		m := make([]float64, n+1)
		ra := 0.0
		force := func(k int) float64 { _, p := ld.At((float64(k) + 0.5) * h); return p * h }
		for k := range n {
			ra += force(k) * (l - (float64(k)+0.5)*h) / l
		}
		v, most := ra, 0.0
		for k := range n {
			m[k+1] = m[k] + v*h - force(k)*h/2
			v -= force(k)
			most = math.Max(most, math.Abs(m[k+1]))
		}
		// A jump falls anywhere in a step, so the steps are off by up to half
		// a step of the largest load, whatever the moment is.
		off := 30 * l * h / 2
		for k := 0; k <= n; k += 400 {
			if d := math.Abs(b.M(float64(k)*h) - m[k]); d > off {
				t.Errorf("M at %g off by %g, allowed %g", float64(k)*h, d, off)
			}
		}
		if math.Abs(math.Abs(b.MMax)-most) > off {
			t.Errorf("largest moment %g, by steps %g", b.MMax, most)
		}
		w, wMost := deflectSteps(m, h, ei), 0.0
		for k := range w {
			wMost = math.Max(wMost, math.Abs(w[k]))
		}
		sag, at := b.Sag()
		if math.Abs(math.Abs(sag)-wMost) > off*l*l/(8*ei) || math.Abs(b.W(at)-sag) > 1e-9*wMost {
			t.Errorf("sag %g at %g, by steps %g", sag, at, wMost)
		}
	}
}

// deflectSteps integrates the moment twice by the trapezoid rule.
func deflectSteps(m []float64, h, ei float64) []float64 {
	n := len(m) - 1
	w, s := make([]float64, n+1), 0.0
	for k := 1; k <= n; k++ {
		ds := -(m[k-1] + m[k]) / 2 / ei * h
		w[k] = w[k-1] + (s+ds/2)*h
		s += ds
	}
	for k := range w {
		w[k] -= w[n] * float64(k) / float64(n)
	}
	w[n] = 0
	return w
}

// randomLoad has gaps, jumps and both signs.
func randomLoad(rng *rand.Rand, l float64) Load {
	n := 2 + rng.IntN(5)
	places := make([]float64, n)
	for k := range places {
		places[k] = l * rng.Float64()
	}
	for k := range places { // sort the few by hand
		for j := k; j > 0 && places[j] < places[j-1]; j-- {
			places[j], places[j-1] = places[j-1], places[j]
		}
	}
	var ld Load
	for _, s := range places {
		ld = append(ld, LoadPoint{s, 30 * (rng.Float64() - 0.3)})
		if rng.IntN(3) == 0 {
			ld = append(ld, LoadPoint{s, 30 * rng.Float64()})
		}
	}
	return ld
}

// TestIdle: a span without load is the span under a load of nothing.
func TestIdle(t *testing.T) {
	rng := rand.New(rand.NewPCG(47, 48))
	for k := range 50 {
		l, ma, mb := 0.5+3*rng.Float64(), 9*rng.NormFloat64(), 9*rng.NormFloat64()
		if k == 0 {
			ma, mb = 0, 0
		}
		a, err := Span(l, nil, 70, ma, mb)
		if err != nil {
			t.Fatal(err)
		}
		b := span(l, Uniform(0, l), 70, ma, mb, nil)
		wa, sa := a.Sag()
		wb, sb := b.Sag()
		for _, v := range [][2]float64{
			{a.Ra, b.Ra}, {a.Rb, b.Rb}, {a.MMax, b.MMax}, {a.SMax, b.SMax}, {a.MPos, b.MPos}, {a.MNeg, b.MNeg}, {a.SPos, b.SPos}, {a.SNeg, b.SNeg},
			{a.VMax, b.VMax}, {wa, wb}, {sa, sb}, {a.M(l / 3), b.M(l / 3)}, {a.V(l / 3), b.V(l / 3)}, {a.W(l / 3), b.W(l / 3)},
		} {
			if math.Abs(v[0]-v[1]) > 1e-9 {
				t.Errorf("%g, %g: %+v, under nothing %+v", ma, mb, a, b)
				break
			}
		}
	}
}

func TestBeamRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	ok := Uniform(1, 2)
	for _, c := range []struct {
		l  float64
		ld Load
		ei float64
	}{
		{nan, ok, 1}, {0, ok, 1}, {inf, ok, 1}, {2, ok, nan}, {2, ok, 0}, {2, ok, inf},
		{2, Load{{nan, 1}}, 1}, {2, Load{{0, nan}, {1, 0}}, 1}, {2, Load{{0, inf}, {1, 0}}, 1},
		{2, Load{{1, 1}, {0.5, 1}}, 1}, {2, Load{{0, 1}, {2.1, 1}}, 1}, {2, Load{{-0.1, 1}, {2, 1}}, 1},
	} {
		if _, err := Simple(c.l, c.ld, c.ei); err == nil {
			t.Errorf("%+v accepted", c)
		}
	}
	for _, v := range []float64{nan, inf} {
		if _, err := Span(2, ok, 1, v, 0); err == nil {
			t.Errorf("end moment %g accepted", v)
		}
		if _, err := Span(2, ok, 1, 0, v); err == nil {
			t.Errorf("end moment %g accepted", v)
		}
	}
	b := simple(t, 2, nil, 1)
	if w, _ := b.Sag(); b.MMax != 0 || b.Ra != 0 || w != 0 || b.VMax != 0 {
		t.Errorf("a span without load has %+v", b)
	}
	defer func() {
		if recover() == nil {
			t.Error("a place off the span is accepted")
		}
	}()
	b.M(2.5)
}

func TestLoad(t *testing.T) {
	ld := Load{{0, 2}, {1, 4}, {1, 10}, {3, 0}}
	total, at := ld.Total()
	near(t, "total", total, 3+10, exact)
	near(t, "place", at, (2*0.5+1*2.0/3+10*(1+2.0/3))/13, exact)
	before, after := ld.At(1)
	if before != 4 || after != 10 {
		t.Errorf("at the jump %g and %g", before, after)
	}
	if before, after = ld.At(0); before != 0 || after != 2 {
		t.Errorf("at the start %g and %g", before, after)
	}
	if total, at = (Load{}).Total(); total != 0 || !math.IsNaN(at) {
		t.Errorf("no load: %g at %g", total, at)
	}
	turned, _ := ld.Turned(3).Total()
	near(t, "turned", turned, 13, exact)
	near(t, "scaled", ld.Scale(-2)[2].P, -20, exact)
	a, b := ld.Clip(0, 1.7), ld.Clip(1.7, 3)
	ta, _ := a.Total()
	tb, _ := b.Total()
	near(t, "clipped parts", ta+tb, 13, exact)
	if err := a.Check(1.7); err != nil {
		t.Error(err)
	}
}

// TestAdd: a sum of loads has the sum of the effects, for random loads.
func TestAdd(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for range 100 {
		const l, ei = 3.0, 40.0
		a, b, c := randomLoad(rng, l), randomLoad(rng, l), Load(nil)
		sum := simple(t, l, Add(a, c, b), ei)
		ba, bb := simple(t, l, a, ei), simple(t, l, b, ei)
		scale := math.Abs(ba.MMax) + math.Abs(bb.MMax) + 1e-9
		for s := 0.0; s <= l; s += 0.37 {
			if d := sum.M(s) - ba.M(s) - bb.M(s); math.Abs(d) > 1e-9*scale {
				t.Fatalf("M at %g off by %g", s, d)
			}
		}
	}
	one := Add(nil, Linear(1, 2, 3), nil)
	one[0].P = 99
	if Add() != nil || len(one) != 2 {
		t.Error("sums of nothing and of one load")
	}
}

func BenchmarkSimple(b *testing.B) {
	ld := Linear(27, 5.4, 2.4)
	for b.Loop() {
		if _, err := Simple(2.4, ld, 65); err != nil {
			b.Fatal(err)
		}
	}
}
