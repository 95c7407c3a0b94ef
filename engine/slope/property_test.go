package slope

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"hillset/geom"
)

// The factor falls as the water rises, along a given circle and as searched for.
func TestWaterLowersFactor(t *testing.T) {
	last, lastFound := math.Inf(1), math.Inf(1)
	for _, rise := range []float64{-3, -1, 0, 0.5, 1, 1.5} {
		in := hill(before, geom.Polyline{{-12, -1 + rise/2}, {0, -0.5 + rise/3}, {24, 5.5 + rise}, {40, 8 + rise}})
		g := must(t, in)
		s, err := g.CircleAt(geom.Vec{5, 28}, 29.5, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		m, err := g.Mass(s, 50)
		if err != nil {
			t.Fatal(err)
		}
		f, err := m.Spencer()
		if err != nil {
			t.Fatal(err)
		}
		found, err := g.Search(context.Background(), Options{MinDepth: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		if f.F >= last {
			t.Errorf("water %.1f m up: %.4f along the circle, before %.4f", rise, f.F, last)
		}
		if found.Bishop > lastFound*1.001 {
			t.Errorf("water %.1f m up: %.4f found, before %.4f", rise, found.Bishop, lastFound)
		}
		last, lastFound = f.F, found.Bishop
	}
}

// Turned round, the same ground has the same factor.
func TestMirror(t *testing.T) {
	in := hillDuring(10)
	g := must(t, in)
	turned := in
	turned.Zones = nil
	for _, z := range in.Zones {
		m := Zone{Soil: z.Soil}
		for _, p := range z.Region {
			var ring geom.Ring
			for i := len(p.Outer) - 1; i >= 0; i-- {
				ring = append(ring, flip(p.Outer[i]))
			}
			m.Region = append(m.Region, geom.Polygon{Outer: ring})
		}
		turned.Zones = append(turned.Zones, m)
	}
	turned.Loads = []Load{{-in.Loads[0].X1, -in.Loads[0].X0, in.Loads[0].Q}}
	turned.Water = nil
	for i := len(in.Water) - 1; i >= 0; i-- {
		turned.Water = append(turned.Water, flip(in.Water[i]))
	}
	a, err := g.Search(context.Background(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	b, err := must(t, turned).Mirror().Search(context.Background(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "factor", b.Bishop, a.Bishop, 1e-6)
	s := a.Slip.Mirror()
	if back := s.Mirror(); back.A != a.Slip.A || back.B != a.Slip.B {
		t.Errorf("mirrored twice: %v, was %v", back, a.Slip)
	}
	if _, err := must(t, turned).Search(context.Background(), Options{Foot: Range{-11, -9}}); !errors.Is(err, ErrNone) {
		t.Errorf("sliding uphill: %v", err)
	}
}

// Ground without cohesion slides in a skin: tan phi over tan beta.
func TestSkinOfSand(t *testing.T) {
	f, err := must(t, layered(slopeOf(26.565, 10, 20, 30), -20, layer{nil, soil(0, 34, 19)})).Search(context.Background(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "factor", f.Bishop, 1.349, 0.02)
	deep, err := must(t, layered(slopeOf(26.565, 10, 20, 30), -20, layer{nil, soil(0, 34, 19)})).Search(context.Background(), Options{MinDepth: 1})
	if err != nil {
		t.Fatal(err)
	}
	if deep.Bishop < 1.005*f.Bishop {
		t.Errorf("1 m deep: %.4f, skin %.4f", deep.Bishop, f.Bishop)
	}
}

// A slip line that goes through a body, out of the ground or out of the section
// is no way to slide, and a method says why it has no factor.
func TestNoWay(t *testing.T) {
	g := must(t, hillAfter())
	through, err := g.CircleAt(geom.Vec{3, 12}, 11, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := g.Mass(through, 30); !errors.Is(err, ErrFirm) {
		t.Errorf("through the box: %v", err)
	}
	if _, err := g.Mass(Slip{A: geom.Vec{-5, 0}, B: geom.Vec{50, 12}}, 30); !errors.Is(err, ErrOutside) {
		t.Errorf("beyond the section: %v", err)
	}
	if _, err := g.Mass(Slip{Line: geom.Polyline{{-5, 0}, {-3, 1}, {20, 6}}}, 30); !errors.Is(err, ErrAbove) {
		t.Errorf("over the ground: %v", err)
	}
	if _, err := g.CircleAt(geom.Vec{0, 50}, 10, 0, 0); !errors.Is(err, ErrMissed) {
		t.Errorf("in the air: %v", err)
	}
	flat := must(t, layered(level(-10, 10, 0), -10, layer{nil, soil(5, 30, 18)}))
	m, err := flat.Mass(Slip{A: geom.Vec{-3, 0}, B: geom.Vec{3, 0}, Half: 0.8}, 30)
	if err != nil {
		t.Fatal(err)
	}
	for i := range m.Slices { // a hair from balance by rounding
		m.Slices[i].Weight -= m.Slices[i].Base[0]
	}
	for name, method := range map[string]func() (float64, error){"ordinary": m.Ordinary, "Bishop": m.Bishop} {
		if _, err := method(); !errors.Is(err, ErrRests) {
			t.Errorf("%s on level ground: %v", name, err)
		}
	}
}

// SL-05: on an upright face the method that balances all forces gives a number
// that is not below what limit analysis allows, or says that it has none.
func TestSpencerOnUprightFace(t *testing.T) {
	g := must(t, layered(slopeOf(89.9, 4, 8, 12), -8, layer{nil, soil(30, 0, 18)}))
	f, err := g.Search(context.Background(), Options{Foot: Range{-1e-3, 1e-3}})
	if err != nil {
		t.Fatal(err)
	}
	m, err := g.Mass(f.Slip, 60)
	if err != nil {
		t.Fatal(err)
	}
	s, err := m.Spencer()
	switch {
	case err != nil && !errors.Is(err, ErrRounds):
		t.Errorf("not a clear message: %v", err)
	case err == nil && s.F < 1.573:
		t.Errorf("F = %.3f is below what stands", s.F)
	}
}

// A search stops when it is told to.
func TestSearchStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := must(t, hillBefore()).Search(ctx, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// Bad input is refused by field, value and range.
func TestRefusals(t *testing.T) {
	nan := math.NaN()
	skin := SkinIn{Beta: 20 * deg, Depth: 1, Gamma: 18, Phi: 30 * deg}
	plane := PlaneIn{Height: 6, Face: 60 * deg, Plane: 40 * deg, C: 12, Phi: 25 * deg, Gamma: 19}
	build := func(change func(*In)) func() error {
		return func() error {
			in := hillDuring(10)
			change(&in)
			_, err := New(in)
			return err
		}
	}
	skinned := func(change func(*SkinIn)) func() error {
		return func() error {
			in := skin
			change(&in)
			_, err := Skin(in)
			return err
		}
	}
	planed := func(change func(*PlaneIn)) func() error {
		return func() error {
			in := plane
			change(&in)
			_, err := Plane(in)
			return err
		}
	}
	g := must(t, hillBefore())
	search := func(o Options) func() error {
		return func() error {
			_, err := g.Search(context.Background(), o)
			return err
		}
	}
	mass := func(s Slip, n int) func() error {
		return func() error {
			_, err := g.Mass(s, n)
			return err
		}
	}
	for _, c := range []struct {
		field string
		f     func() error
	}{
		{"zones", build(func(in *In) { in.Zones = nil })},
		{"zones[0].gamma", build(func(in *In) { in.Zones[0].Soil.Gamma = nan })},
		{"zones[0].gamma_sat", build(func(in *In) { in.Zones[0].Soil.GammaSat = 1 })},
		{"zones[1].c", build(func(in *In) { in.Zones[1].Soil.C = -1 })},
		{"zones[1].phi", build(func(in *In) { in.Zones[1].Soil.Phi = 2 })},
		{"loads[0].q", build(func(in *In) { in.Loads[0].Q = nan })},
		{"loads[0].x1", build(func(in *In) { in.Loads[0].X1 = -5 })},
		{"ru", build(func(in *In) { in.Ru = 2 })},
		{"kh", build(func(in *In) { in.Kh = -0.1 })},
		{"water", build(func(in *In) { in.Water = geom.Polyline{{0, 0}} })},
		{"beta", skinned(func(in *SkinIn) { in.Beta = 0 })},
		{"depth", skinned(func(in *SkinIn) { in.Depth = nan })},
		{"share", skinned(func(in *SkinIn) { in.Seepage.Share = 1.5 })},
		{"plane", planed(func(in *PlaneIn) { in.Plane = 70 * deg })},
		{"water", planed(func(in *PlaneIn) { in.Water = 1 })},
		{"crack", planed(func(in *PlaneIn) { in.Crack = 5.9 })},
		{"min_depth", search(Options{MinDepth: -1})},
		{"water", search(Options{Water: 1})},
		{"places", search(Options{Places: 1000})},
		{"half", mass(Slip{A: geom.Vec{0, 0}, B: geom.Vec{20, 6}, Half: 2}, 10)},
		{"b.x", mass(Slip{A: geom.Vec{0, 0}, B: geom.Vec{-1, 6}}, 10)},
		{"n", mass(Slip{A: geom.Vec{0, 0}, B: geom.Vec{20, 6}, Half: 0.5}, 0)},
		{"phi", func() error { _, err := CrackDepth(1, nan, 18); return err }},
		{"c", func() error { _, err := Culmann(1, nan, 0.3, 18); return err }},
		{"r", func() error { _, err := g.CircleAt(geom.Vec{0, 5}, -1, 0, 0); return err }},
		{"factor", func() error { _, err := SteepestSkin(skin, nan); return err }},
	} {
		if err := c.f(); err == nil || !strings.HasPrefix(err.Error(), c.field) {
			t.Errorf("want a refusal of %s, got %v", c.field, err)
		}
	}
}

// How long a search takes as the places along the surface grow: about with their
// square.
func BenchmarkSearch(b *testing.B) {
	for _, n := range []int{12, 24, 48} {
		b.Run(map[int]string{12: "12", 24: "24", 48: "48"}[n], func(b *testing.B) {
			g, err := New(hillAfter())
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if _, err := g.Search(context.Background(), Options{MinDepth: 0.5, Places: n}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
