package seepage

import (
	"math"
	"testing"

	"hillset/geom"
)

// block is a confined layer 10 m long and 4 m high between two heads: the head
// falls evenly along it.
func block(t *testing.T, left, right float64) *Flow {
	t.Helper()
	r := geom.Rect{Max: geom.Vec{10, 4}}
	d := &Domain{Zones: []Zone{{Name: "sand", Region: r.ToRegion(), Kx: 1e-4, Kz: 1e-4}},
		Left: Side{Head: left}, Right: Side{Head: right}, Pond: math.NaN(), Full: true}
	m, err := d.Build(Grain{Near: 0.5, Far: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	f, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Closed form (derived): between heads of 8 and 6 m, 10 m apart, a head h
// stands upright at x = 5 (8 - h), in one piece through the whole layer.
func TestContourOfEvenFlow(t *testing.T) {
	f := block(t, 8, 6)
	for _, h := range []float64{7.9, 7.31, 7, 6.45} {
		lines := f.Contour(h)
		if len(lines) != 1 {
			t.Fatalf("head %g: %d lines, want 1", h, len(lines))
		}
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range lines[0] {
			if want := 5 * (8 - h); math.Abs(p[0]-want) > 1e-6 {
				t.Errorf("head %g stands at x = %g, want %g", h, p[0], want)
			}
			lo, hi = math.Min(lo, p[1]), math.Max(hi, p[1])
		}
		if lo > 1e-9 || hi < 4-1e-9 {
			t.Errorf("head %g runs from %g to %g, want the whole layer", h, lo, hi)
		}
	}
	if n := len(f.Contour(8.5)); n != 0 {
		t.Errorf("%d lines of a head that is nowhere", n)
	}
	if lo, hi, ok := f.Wet(); !ok || math.Abs(lo-6) > 1e-9 || math.Abs(hi-8) > 1e-9 {
		t.Errorf("heads from %g to %g (%v), want 6 to 8", lo, hi, ok)
	}
}

// On every contour the head is the one asked for, it ends below the water table,
// and the same flow gives the same lines.
func TestContourOfDam(t *testing.T) {
	r := geom.Rect{Max: geom.Vec{8, 6}}
	d := &Domain{Zones: []Zone{{Name: "sand", Region: r.ToRegion(), Kx: 1e-4, Kz: 1e-4}},
		Left: Side{Head: 5}, Right: Side{Head: 1, Face: true}, Pond: math.NaN()}
	m, err := d.Build(Grain{Near: 0.4, Far: 0.4})
	if err != nil {
		t.Fatal(err)
	}
	f, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, h := range []float64{4.5, 3.5, 2.5, 1.5} {
		lines := f.Contour(h)
		if len(lines) == 0 {
			t.Errorf("no line of head %g", h)
		}
		again := f.Contour(h)
		for i, l := range lines {
			if len(l) != len(again[i]) {
				t.Errorf("head %g: line %d differs the second time", h, i)
			}
			for _, p := range l {
				if got, ok := f.HeadAt(p); !ok || math.Abs(got-h) > 1e-6 {
					t.Errorf("head %g: at %v it is %g (%v)", h, p, got, ok)
				}
				if p[1] > h+1e-9 {
					t.Errorf("head %g: %v lies above the water table", h, p)
				}
			}
		}
	}
}
