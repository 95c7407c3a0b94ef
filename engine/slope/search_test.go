package slope

import (
	"context"
	"math"
	"testing"

	"hillset/geom"
)

// slopeOf is a face from a toe at (0,0) with level ground before and behind.
func slopeOf(angle, height, before, behind float64) geom.Polyline {
	run := height / math.Tan(angle*deg)
	return geom.Polyline{{-before, 0}, {0, 0}, {run, height}, {run + behind, height}}
}

func giamDonald(layers ...layer) In {
	return layered(geom.Polyline{{20, 25}, {30, 25}, {50, 35}, {70, 35}}, 10, layers...)
}

// Circles found, against the least factors of the reference: log-spiral bounds,
// charts and own searches, all derived unless said. A search misses from above:
// 0.5 % below to 2 % above where no other tolerance is given.
func TestSearch(t *testing.T) {
	firm := Soil{Gamma: 22, GammaSat: 22, Firm: true}
	chart := func(phi, ru float64) In {
		in := layered(slopeOf(26.565, 10, 20, 30), -20, layer{nil, soil(10, phi, 20)})
		in.Ru = ru
		return in
	}
	strip := layered(level(-15, 15, 0), -10, layer{nil, soil(25, 0, 18)})
	strip.Loads = []Load{{0, 2, 100}}
	for _, c := range []struct {
		id            string
		in            In
		o             Options
		want, lo, hi  float64
		from, to      float64 // of the arc, where known
		least         float64 // no method may go below
		within, where float64
	}{
		{id: "SL-05", in: layered(slopeOf(89.9, 4, 8, 12), -8, layer{nil, soil(30, 0, 18)}), o: Options{Foot: Range{-1e-3, 1e-3}}, want: 1.596, lo: 0.99, hi: 1.01, least: 1.573},
		{id: "SL-06 a (memory chart, exam page verified)", in: layered(slopeOf(30, 7, 35, 40), -30, layer{nil, soil(25, 0, 16)}, layer{level(-35, 60, -14), firm}), want: 1.254, lo: 0.985, hi: 1.015},
		{id: "SL-06 b", in: layered(slopeOf(60, 5, 10, 15), -5, layer{nil, soil(20, 0, 18)}, layer{level(-10, 30, 0), firm}), want: 1.166, lo: 0.99, hi: 1.01},
		{id: "SL-06 c", in: layered(slopeOf(45, 10, 20, 25), -10, layer{nil, soil(36.2, 0, 20)}, layer{level(-20, 45, -2), firm}), want: 1.063, lo: 0.99, hi: 1.01},
		{id: "SL-07", in: strip, want: 1.380, lo: 0.99, hi: 1.01, least: 1.28},
		{id: "SL-08 ru 0", in: chart(30, 0), want: 1.886, lo: 0.995, hi: 1.02},
		{id: "SL-08 ru 0.3", in: chart(30, 0.3), want: 1.392, lo: 0.995, hi: 1.02},
		{id: "SL-08 phi 20", in: chart(20, 0), want: 1.369, lo: 0.995, hi: 1.02},
		{id: "SL-10 1(a)", in: giamDonald(layer{nil, soil(3, 19.6, 20)}), want: 0.985, lo: 0.980 / 0.985, hi: 1.005 / 0.985, from: 30, to: 51.29},
		{id: "SL-10 1(c)", in: giamDonald(layer{nil, soil(0, 38, 19.5)},
			layer{geom.Polyline{{20, 25}, {30, 25}, {40, 27}, {50, 29}, {54, 31}, {70, 31}}, soil(5.3, 23, 19.5)},
			layer{geom.Polyline{{20, 25}, {30, 25}, {40, 27}, {52, 24}, {70, 24}}, soil(7.2, 20, 19.5)}), want: 1.403, lo: 1.395 / 1.403, hi: 1.43 / 1.403},
		{id: "SL-16", in: hillDuring(0), want: 1.177, lo: 0.995, hi: 1.02, from: 9.01, to: 11.98},
		{id: "SL-16 with surcharge", in: hillDuring(10), want: 1.121, lo: 0.995, hi: 1.02, from: 9.01, to: 12.99},
	} {
		t.Run(c.id, func(t *testing.T) {
			g := must(t, c.in)
			f, err := g.Search(context.Background(), c.o)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("F = %.4f (want %.4f), %d circles, from %.3f to %.3f", f.Bishop, c.want, f.Tried, f.Slip.A[0], f.Slip.B[0])
			if f.Bishop < c.lo*c.want || f.Bishop > c.hi*c.want {
				t.Errorf("F = %.4f, want %.4f to %.4f", f.Bishop, c.lo*c.want, c.hi*c.want)
			}
			if f.Bishop < c.least {
				t.Errorf("F = %.4f is below what any circle can have, %.3f", f.Bishop, c.least)
			}
			if c.to > 0 && (math.Abs(f.Slip.A[0]-c.from) > 0.4 || math.Abs(f.Slip.B[0]-c.to) > 0.4) {
				t.Errorf("arc from %.2f to %.2f, want %.2f to %.2f", f.Slip.A[0], f.Slip.B[0], c.from, c.to)
			}
		})
	}
}
