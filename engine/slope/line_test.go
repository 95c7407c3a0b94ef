package slope

import (
	"errors"
	"math"
	"testing"

	"hillset/geom"
)

// SL-03 (F7, F9, F10 derived): a plane, its worst one, and the heights of Culmann
// and Terzaghi. A method of slices must give the plane exactly.
func TestPlaneSL03(t *testing.T) {
	in := PlaneIn{Height: 6, Face: 60 * deg, Plane: 40 * deg, C: 12, Phi: 25 * deg, Gamma: 19}
	f, err := Plane(in)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "plane", f, 1.3850, 0.001)
	a, worst, err := WorstPlane(in)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "worst plane", worst, 1.384, 0.001)
	if math.Abs(a/deg-39.3) > 0.1 {
		t.Errorf("worst plane at %.2f°, want 39.3°", a/deg)
	}
	g := must(t, layered(geom.Polyline{{-5, 0}, {0, 0}, {3.4641, 6}, {20, 6}}, -5, layer{nil, soil(12, 25, 19)}))
	m, err := g.Mass(Slip{A: geom.Vec{0, 0}, B: geom.Vec{6 / math.Tan(40*deg), 6}}, 30)
	if err != nil {
		t.Fatal(err)
	}
	o, err := m.Ordinary()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ordinary", o, 1.3850, 0.001)
	for name, method := range map[string]func() (Forces, error){"Spencer": m.Spencer, "half sine": m.HalfSine} {
		s, err := method()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		near(t, name, s.F, 1.3850, 0.001)
	}
	for _, c := range []struct {
		what string
		want float64
		f    func() (float64, error)
	}{
		{"Culmann", 10.964, func() (float64, error) { return Culmann(60*deg, 12, 25*deg, 19) }},
		{"Culmann, upright", 3.174, func() (float64, error) { return Culmann(90*deg, 10, 20*deg, 18) }},
		{"crack", 1.587, func() (float64, error) { return CrackDepth(10, 20*deg, 18) }},
		{"cut with a crack", 2.118, func() (float64, error) { return CrackedCut(10, 20*deg, 18) }},
	} {
		got, err := c.f()
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.what, got, c.want, 0.001)
	}
}

// SL-04 (F8 derived): a plane with water in the crack behind it, by the formula
// and by slices.
func TestCrackSL04(t *testing.T) {
	in := PlaneIn{Height: 5, Face: 65 * deg, Plane: 45 * deg, C: 10, Phi: 25 * deg, Gamma: 19, Crack: 1.5}
	w, a := in.weight()
	near(t, "weight", w, 105.38, 0.0005)
	near(t, "plane", a, 4.950, 0.0005)
	ground := geom.Polyline{{-5, 0}, {0, 0}, {5 / math.Tan(65*deg), 5}, {20, 5}}
	for _, c := range []struct{ water, want float64 }{{0, 1.131}, {1.2, 0.859}, {1.5, 0.773}} {
		in.Water = c.water
		f, err := Plane(in)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "plane", f, c.want, 0.003)
		sec := layered(ground, -5, layer{nil, soil(10, 25, 19)})
		sec.Pore = func(v geom.Vec) float64 { return gammaW * c.water * v[0] / 3.5 } // falls to nothing at the toe
		m, err := must(t, sec).Mass(Slip{A: geom.Vec{0, 0}, B: geom.Vec{3.5, 3.5}, Water: c.water}, 30)
		if err != nil {
			t.Fatal(err)
		}
		s, err := m.Spencer()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Spencer", s.F, c.want, 0.003)
	}
}

// SL-15 (derived): a broken line along a weak seam, within 0.7 %.
func TestSeamSL15(t *testing.T) {
	in := layered(geom.Polyline{{-15, 0}, {0, 0}, {12, 8}, {45, 8}}, -20,
		layer{nil, soil(6, 28, 19)},
		layer{geom.Polyline{{-15, -0.6}, {45, 0.6}}, soil(0, 12, 19)},
		layer{geom.Polyline{{-15, -0.9}, {45, 0.3}}, soil(20, 30, 20)})
	slip := Slip{Line: geom.Polyline{{-1, 0}, {0.5, -0.44}, {13, -0.19}, {19, 8}}}
	for _, c := range []struct {
		name                 string
		water                geom.Polyline
		spencer, theta, sine float64
	}{
		{"dry", nil, 1.260, 19.45, 1.254},
		{"water", geom.Polyline{{-15, 0}, {0, 0}, {8, 1.5}, {20, 3}, {45, 4}}, 1.108, 18.43, 1.101},
	} {
		t.Run("SL-15 "+c.name, func(t *testing.T) {
			in.Water = c.water
			m, err := must(t, in).Mass(slip, 100)
			if err != nil {
				t.Fatal(err)
			}
			s, err := m.Spencer()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "Spencer", s.F, c.spencer, 0.007)
			if math.Abs(s.Theta/deg-c.theta) > 0.15 {
				t.Errorf("theta = %.2f, want %.2f", s.Theta/deg, c.theta)
			}
			h, err := m.HalfSine()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "half sine", h.F, c.sine, 0.007)
			if _, err := m.Bishop(); !errors.Is(err, ErrArc) {
				t.Errorf("Bishop along a broken line: %v", err)
			}
			if _, err := m.Ordinary(); !errors.Is(err, ErrArc) {
				t.Errorf("ordinary along a broken line: %v", err)
			}
		})
	}
}
