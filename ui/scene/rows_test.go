package scene

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/units"
)

var ell = geom.Region{
	{Outer: geom.Ring{{0, 0}, {6, 0}, {6, 2}, {2, 2}, {2, 5}, {0, 5}}, Holes: []geom.Ring{{{0.5, 0.5}, {1.5, 0.5}, {1.5, 1.5}, {0.5, 1.5}}}},
	{Outer: geom.Ring{{6, 0}, {9, 0}, {9, 1}, {6, 2}}},
}

// The rows of a region add up to its area whatever way they run.
func TestRowsGiveTheArea(t *testing.T) {
	var s scanner
	for _, angle := range []float64{0, 0.4, math.Pi / 4, quarter, 2.5} {
		s.load(ell, angle)
		const n = 4000
		sum, d := 0.0, (s.hi-s.lo)/n
		for i := range n {
			h := s.cut(s.lo + (float64(i)+0.5)*d)
			if len(h)%2 != 0 {
				t.Fatalf("angle %g: odd number of crossings", angle)
			}
			for j := 0; j < len(h); j += 2 {
				sum += (h[j+1] - h[j]) * d
			}
		}
		// Midpoint rule on straight edges: exact but for the rows at corners.
		if math.Abs(sum-ell.Area()) > 0.01 {
			t.Errorf("angle %g: rows give %.4f m2, area is %.4f", angle, sum, ell.Area())
		}
	}
}

func TestRowsMendSlabs(t *testing.T) {
	var s scanner
	s.load(ell, 0)
	if h := s.cut(1.8); len(h) != 2 || math.Abs(h[0]) > 1e-12 || math.Abs(h[1]-6.6) > 1e-9 {
		t.Errorf("two slabs side by side give the intervals %v, want 0 to 6.6", h)
	}
}

func TestNarrow(t *testing.T) {
	for _, c := range []struct {
		name    string
		a, b, w []float64
	}{
		{"apart", []float64{0, 1}, []float64{2, 3}, nil},
		{"touching", []float64{0, 1}, []float64{1, 2}, nil},
		{"within", []float64{0, 5}, []float64{1, 2}, []float64{1, 2}},
		{"several", []float64{0, 2, 3, 6}, []float64{1, 4, 5, 9}, []float64{1, 2, 3, 4, 5, 6}},
	} {
		got := narrow(c.a, c.b)
		if len(got) != len(c.w) {
			t.Errorf("%s: %v, want %v", c.name, got, c.w)
			continue
		}
		for i := range got {
			if got[i] != c.w[i] {
				t.Errorf("%s: %v, want %v", c.name, got, c.w)
			}
		}
	}
}

// Clipping to a rectangle agrees with the general clipper on area.
func TestClipAgainstGeneralClipper(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for range 300 {
		a, b := geom.Vec{r.Float64()*10 - 1, r.Float64()*7 - 1}, geom.Vec{r.Float64()*10 - 1, r.Float64()*7 - 1}
		win := geom.Rect{Min: geom.Vec{min(a[0], b[0]), min(a[1], b[1])}, Max: geom.Vec{max(a[0], b[0]), max(a[1], b[1])}}
		want, err := geom.Intersect(ell, win.ToRegion())
		if err != nil {
			t.Fatal(err)
		}
		// The general clipper rounds to a micrometre along an edge of some 40 m.
		if got := clipRegion(ell, win); math.Abs(got.Area()-want.Area()) > 1e-4 {
			t.Fatalf("window %v: area %.6f, want %.6f", win, got.Area(), want.Area())
		}
	}
}

func TestClipLineKeepsInsideLength(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	win := geom.Rect{Min: geom.Vec{2, 2}, Max: geom.Vec{8, 6}}
	for range 300 {
		var line geom.Polyline
		for range 6 {
			line = append(line, geom.Vec{r.Float64() * 10, r.Float64() * 8})
		}
		got := 0.0
		for _, c := range clipLine(line, win) {
			got += c.Length()
			for _, p := range c {
				if !win.Expand(1e-9).Contains(p) {
					t.Fatalf("%v lies outside of the window", p)
				}
			}
		}
		const n = 20000
		want := 0.0
		for i := 1; i < len(line); i++ {
			d := line[i].Sub(line[i-1])
			for k := range n {
				if win.Contains(line[i-1].Add(d.Mul((float64(k) + 0.5) / n))) {
					want += d.Len() / n
				}
			}
		}
		// Each of at most 10 ends is found to within one sample of up to 13 m.
		if math.Abs(got-want) > 10*13.0/n {
			t.Fatalf("length inside %.5f, samples give %.5f", got, want)
		}
	}
}

// Every sign of a hatch lies in its material, and the cap holds at any scale.
func TestHatchStaysInside(t *testing.T) {
	for name, v := range named() {
		for _, mm := range []float64{4, 10, 20, 50, 200} {
			s, err := Build(v, nil, Options{MMPerM: mm, Soils: soils, Units: units.Metric})
			if err != nil {
				t.Fatal(err)
			}
			regions := map[string]geom.Region{}
			for _, zs := range [][]section.Zone{v.Strata, v.Fill, v.Bedding} {
				for _, z := range zs {
					regions[z.Name] = append(regions[z.Name], z.Region...)
				}
			}
			n := 0
			for _, it := range s.Items {
				if it.Path == nil || !strings.HasPrefix(it.Path.Tag, "hatch:") {
					continue
				}
				r := regions[strings.TrimPrefix(it.Path.Tag, "hatch:")]
				for _, c := range it.Path.Parts {
					n += len(c) - 1
					if mid := c.Bounds().Center(); !r.Contains(mid) {
						t.Fatalf("%s at %g mm/m: a sign of %s at %v lies outside", name, mm, it.Path.Tag, mid)
					}
				}
			}
			if n > maxHatch+20 || n == 0 {
				t.Errorf("%s at %g mm/m: %d hatch segments, want 1 to %d", name, mm, n, maxHatch)
			}
		}
	}
}

func TestHatchStaysWithTheGround(t *testing.T) {
	// A window moved by half a metre shows the same signs at the same places.
	v := natural()
	at := func(x0 float64) map[geom.Vec]bool {
		o := Options{MMPerM: 60, Units: units.Metric, Clip: geom.Rect{Min: geom.Vec{x0, 96}, Max: geom.Vec{x0 + 5, 101}}}
		s, err := Build(v, nil, o)
		if err != nil {
			t.Fatal(err)
		}
		out := map[geom.Vec]bool{}
		for _, it := range s.Items {
			if it.Path != nil && it.Path.Tag == "hatch:Lean clay" {
				for _, c := range it.Path.Parts {
					if p := c[0]; p[0] > 11.2 && p[0] < 14.3 { // right of the level axis in both
						out[geom.Vec{math.Round(p[0] * 1e6), math.Round(p[1] * 1e6)}] = true
					}
				}
			}
		}
		return out
	}
	a, b := at(10), at(10.5)
	if len(a) < 20 || len(a) != len(b) {
		t.Fatalf("%d and %d signs", len(a), len(b))
	}
	for p := range a {
		if !b[p] {
			t.Fatalf("the sign at %v moved with the window", p)
		}
	}
}

// Every group symbol of the soil classification has a hatch, and soils of
// different groups look different without colour.
func TestHatchesTellSoilsApart(t *testing.T) {
	get := func(class string) *pattern {
		return hatchOf(&section.Zone{Kind: section.Natural, Hatch: class})
	}
	for _, class := range []string{"GW", "GP", "GM", "GC", "SW", "SP", "SM", "SC", "ML", "CL", "OL", "MH", "CH", "OH", "PT", "SC-SM", "CL-ML", "GW-GM", "rock", "drain-stone", "topsoil"} {
		if get(class) == &plainHatch {
			t.Errorf("%s has no hatch of its own", class)
		}
	}
	if get("no such soil") != &plainHatch {
		t.Error("an unknown soil does not get the plain hatch")
	}
	different := []string{"GW", "SW", "ML", "CL", "CH", "PT", "SM", "GM", "rock", "drain-stone", "foam", "concrete"}
	for i, a := range different {
		for _, b := range different[i+1:] {
			if get(a) == get(b) {
				t.Errorf("%s and %s have the same hatch", a, b)
			}
		}
	}
	for kind, want := range map[section.ZoneKind]*pattern{section.Rock: &stoneHatch, section.Backfill: &fillHatch, section.Pad: &concreteHatch, section.Cap: &clayHatch, section.BedRock: &rockHatch} {
		if got := hatchOf(&section.Zone{Kind: kind, Hatch: "CL"}); got != want {
			t.Errorf("%s has the wrong hatch", kind)
		}
	}
}
