package frame

import (
	"math"
	"math/rand/v2"
	"testing"
)

// anyPlaces are the supports of a beam of one to five spans.
func anyPlaces(rng *rand.Rand) []float64 {
	places := []float64{0}
	for range 1 + rng.IntN(5) {
		places = append(places, places[len(places)-1]+0.3+2*rng.Float64())
	}
	return places
}

// beside compares with a share of the values at work.
func beside(t *testing.T, what string, got, want, scale float64) {
	t.Helper()
	if !(math.Abs(got-want) <= balance*scale) {
		t.Errorf("%s: %.12g, by the frame %.12g of %.3g", what, got, want, scale)
	}
}

// TestRoomByFrame: random beams solved one after the other in the same memory,
// and spans by their extremes alone, are what the plane frame gives, and balance.
func TestRoomByFrame(t *testing.T) {
	rng := rand.New(rand.NewPCG(51, 52))
	var m Multi
	var room MultiRoom
	var forces []float64
	for range 500 {
		places := anyPlaces(rng)
		l, ei := places[len(places)-1], 10+200*rng.Float64()
		ld := anyLoad(rng, l)
		if err := m.Solve(places, ld, ei, &room); err != nil {
			t.Fatal(err)
		}
		var err error
		if forces, err = ReactionsIn(forces, places, ld); err != nil {
			t.Fatal(err)
		}
		var f Frame
		var lc LoadCase
		for k, s := range places {
			f.Nodes = append(f.Nodes, Node{Px: s, X: k == 0, Y: true})
			if k > 0 {
				f.Members = append(f.Members, Member{I: k - 1, J: k, E: ei, A: 1, Iz: 1})
				lc.Members = append(lc.Members, ld.Clip(places[k-1], s))
			}
		}
		s, err := f.Solve(lc)
		if err != nil {
			t.Fatal(err)
		}
		size := 0.0 // kN; the spans are of the order of a metre
		for i := 1; i < len(ld); i++ {
			size += (ld[i].S - ld[i-1].S) * max(math.Abs(ld[i-1].P), math.Abs(ld[i].P))
		}
		total, first := 0.0, 0.0
		for k, r := range m.Reactions {
			total, first = total+r, first+r*places[k]
			beside(t, "reaction", r, -s.React[k][1], size)
			beside(t, "reaction alone", forces[k], r, size)
		}
		all, _ := ld.Total()
		beside(t, "whole load", total, all, size)
		beside(t, "its moment", first, moment0(ld), size*l)
		for k := range m.Spans {
			b, line := &m.Spans[k], &s.Lines[k]
			alone := SpanExtremes(b.L, lc.Members[k], m.MSup[k], m.MSup[k+1])
			beside(t, "moment", b.MMax, line.MMax, size)
			beside(t, "largest moment", alone.MPos, line.MPos, size)
			beside(t, "least moment", alone.MNeg, line.MNeg, size)
			beside(t, "shear", alone.VMax, line.VMax, size)
			beside(t, "moment where it is largest", line.M(alone.SPos), line.MPos, size)
			beside(t, "moment where it is least", line.M(alone.SNeg), line.MNeg, size)
			w, _ := b.Sag()
			v, _ := line.Sag()
			beside(t, "deflection", w*ei, v*ei, size)
		}
		if t.Failed() {
			t.Fatalf("places %v, load %v", places, ld)
		}
	}
}

// TestExtremesByWalk: no place of a span has a larger or a smaller moment, a
// larger shear or a larger deflection than its extremes: the second route walks
// it in small steps.
func TestExtremesByWalk(t *testing.T) {
	rng := rand.New(rand.NewPCG(53, 54))
	for range 500 {
		l := 0.4 + 3*rng.Float64()
		ld, ma, mb := anyLoad(rng, l), 5*rng.NormFloat64(), 5*rng.NormFloat64()
		b, err := Span(l, ld, 40, ma, mb)
		if err != nil {
			t.Fatal(err)
		}
		e := SpanExtremes(l, ld, ma, mb)
		if e != b.Extremes {
			t.Errorf("alone %+v, of the span %+v", e, b.Extremes)
		}
		low, high := b.reach(0, 0)
		size := math.Abs(e.MMax) + 1e-9
		for i := range 2001 {
			s := l * float64(i) / 2000
			if m := b.M(s); m > e.MPos+balance*size || m < e.MNeg-balance*size {
				t.Errorf("moment %g at %g, extremes %+v", m, s, e)
			}
			if v := b.V(s); math.Abs(v) > e.VMax*(1+balance) {
				t.Errorf("shear %g at %g, largest %g", v, s, e.VMax)
			}
			if w := b.W(s); w > high.W+balance*size || w < low.W-balance*size {
				t.Errorf("deflection %g at %g, from %g to %g", w, s, low.W, high.W)
			}
		}
		if t.Failed() {
			t.Fatalf("length %g, load %v, moments %g and %g", l, ld, ma, mb)
		}
	}
}

// TestCombineBeams: beams over several supports added up are the beam under the
// sum of their loads, and balance with it; beams cut elsewhere are refused.
func TestCombineBeams(t *testing.T) {
	rng := rand.New(rand.NewPCG(55, 56))
	var got Multi
	var rooms [3]MultiRoom
	for range 300 {
		places := anyPlaces(rng)
		l, ei := places[len(places)-1], 10+200*rng.Float64()
		factors := []float64{3 * rng.Float64(), 2*rng.Float64() - 0.5}
		var loads [2]Load
		var sum Load
		for _, p := range Add(Uniform(1, l), randomLoad(rng, l)) {
			loads[0] = append(loads[0], LoadPoint{p.S, 20 * rng.Float64()})
			loads[1] = append(loads[1], LoadPoint{p.S, 30 * rng.NormFloat64()})
			n := len(sum)
			sum = append(sum, LoadPoint{p.S, factors[0]*loads[0][n].P + factors[1]*loads[1][n].P})
		}
		var parts [2]Multi
		for i := range parts {
			if err := parts[i].Solve(places, loads[i], ei, &rooms[i]); err != nil {
				t.Fatal(err)
			}
		}
		got.Combine([]*Multi{&parts[0], &parts[1]}, factors, &rooms[2])
		want, err := Continuous(places, sum, ei)
		if err != nil {
			t.Fatal(err)
		}
		size, total := 0.0, 0.0
		for _, r := range want.Reactions {
			size += math.Abs(r)
		}
		for k, r := range got.Reactions {
			total += r
			beside(t, "reaction", r, want.Reactions[k], size)
			beside(t, "moment over a support", got.MSup[k], want.MSup[k], size)
		}
		all, _ := sum.Total()
		beside(t, "whole load", total, all, size)
		for k := range got.Spans {
			b, w := &got.Spans[k], &want.Spans[k]
			beside(t, "largest moment", b.MPos, w.MPos, size)
			beside(t, "least moment", b.MNeg, w.MNeg, size)
			beside(t, "shear", b.VMax, w.VMax, size)
			beside(t, "push on the start", b.Ra, w.Ra, size)
			s, _ := b.Sag()
			v, _ := w.Sag()
			beside(t, "deflection", s*ei, v*ei, size)
		}
		if t.Failed() {
			t.Fatalf("places %v, loads %v, factors %v", places, loads, factors)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("beams cut at other places are added up")
		}
	}()
	a, _ := Continuous([]float64{0, 2}, Load{{0, 1}, {1, 2}, {2, 0}}, 9)
	b, _ := Continuous([]float64{0, 2}, Load{{0, 1}, {1.5, 2}, {2, 0}}, 9)
	got.Combine([]*Multi{&a, &b}, []float64{1, 1}, &MultiRoom{})
}
