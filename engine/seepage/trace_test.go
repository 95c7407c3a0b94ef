package seepage

import (
	"math"
	"testing"

	"hillset/geom"
)

// Closed form (derived): in even flow every drop goes straight and level, and
// drops of equal flow keep equal distances.
func TestPathsOfEvenFlow(t *testing.T) {
	f := block(t, 8, 6)
	ps := f.Paths(5)
	if len(ps) != 5 {
		t.Fatalf("%d paths, want 5", len(ps))
	}
	for i, p := range ps {
		want := 4 * (float64(i) + 0.5) / 5
		for _, q := range p.Line {
			near(t, "level of a drop", q[1], want, 1e-6)
		}
		near(t, "its start", p.Line[0][0], 0, 1e-9)
		near(t, "its end", p.Line[len(p.Line)-1][0], 10, 1e-9)
		near(t, "what it stands for", p.Share, 1e-4*4*0.2/5, 1e-12)
	}
}

// Every drop of a dam with a drain goes downhill in head and ends where water
// leaves: at the face, or in the drain as many as its share of the flow asks.
func TestPathsEndWhereWaterLeaves(t *testing.T) {
	d := dam(12, 6, 1e-5)
	d.Left.Head, d.Right.Head, d.Right.Face = 5, 0.5, true
	d.Drains = []Drain{{Name: "pipe", At: geom.Vec{7, 0.8}, Bore: 0.1}}
	f := solve(t, d, Grain{0.3, 0.3, 0.2})
	const n = 40
	ps := f.Paths(n)
	if len(ps) != n {
		t.Fatalf("%d paths, want %d", len(ps), n)
	}
	inDrain := 0
	for _, p := range ps {
		last := math.Inf(1)
		for _, q := range p.Line {
			h, ok := f.HeadAt(q)
			if !ok || h > last+1e-9 {
				t.Fatalf("head %g after %g at %v (%v)", h, last, q, ok)
			}
			last = h
		}
		end := p.Line[len(p.Line)-1]
		switch {
		case end.Sub(geom.Vec{7, 0.8}).Len() < 1e-6:
			inDrain++
		case end[0] < 12-1e-6:
			t.Errorf("a drop ends at %v, in the middle of the ground", end)
		}
	}
	sums := f.Sum(math.Inf(1), math.Inf(-1))
	want := sums.Drains[0] / sums.In * n
	if math.Abs(float64(inDrain)-want) > 1.5 {
		t.Errorf("%d of %d drops end in the drain, want %.1f", inDrain, n, want)
	}
}
