package ground

import (
	"math"
	"testing"

	"hillset/engine/earth"
)

// Tolerances of the reference cases.
const (
	tolA = 1e-3 // pure arithmetic of a stated formula: 0.1 %, or half a unit of the last figure printed
	tolB = 1e-2 // printed textbook rounding: 1 %
)

func deg(d float64) float64 { return d * math.Pi / 180 }

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= math.Max(tol*math.Abs(want), tol/tolA*0.0005)) {
		t.Errorf("%s = %.6g, want %.6g within %.2g", what, got, want, tol)
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic("test: " + err.Error())
	}
	return v
}

// box20 is the empty 20 ft box of EP-25 and EP-26.
func box20() FlotationIn {
	return FlotationIn{Length: 6.058, Width: 2.438, Height: 2.591, Tare: 22.6,
		Cover: 0.6, Gamma: 18, GammaSat: 20}
}

func TestFlotation(t *testing.T) {
	t.Run("EP-25 a", func(t *testing.T) { // derived
		in := box20()
		in.Water = 1.2
		f := must(Float(in))
		near(t, "A", f.Area, 14.769, tolA)
		near(t, "U", f.Uplift, 173.9, tolA)
		near(t, "resisting", f.Resisting, 182.1, tolA)
		near(t, "FS", f.FS, 1.047, tolA)
		near(t, "water for 1.3", must(in.WaterFor(1.3)).Value, 0.967, tolA)
		near(t, "water for 1.1", must(in.WaterFor(1.1)).Value, 1.143, tolA)
	})
	t.Run("EP-25 b", func(t *testing.T) { // derived
		in := box20()
		in.Water = 3.191
		in.K, in.Delta, in.Perimeter, in.Share = 0.5, deg(17), 2*6.058+2.438, 1
		f := must(Float(in))
		near(t, "U", f.Uplift, 462.3, tolA)
		near(t, "Wg", f.WaterAbove, 86.9, tolA)
		near(t, "Ws", f.Resisting, 112.9, tolA)
		near(t, "FS by weight", f.FSWeight, 0.301, tolA)
		near(t, "friction", f.Friction, 111.3, tolA)
		near(t, "FS", f.FS, 0.597, tolA)
		in.Share = 0
		near(t, "cover for 1.1", must(in.CoverFor(1.1, 10, true)).Value, 2.59, 0.002) // printed to two places
	})
	t.Run("WT-16", func(t *testing.T) { // derived, 2300 kg
		in := box20()
		in.Tare = 2.3 * 9.81
		near(t, "critical water", must(in.WaterFor(1)).Value, 1.257, tolA)
		in.Cover = 0
		near(t, "without cover", must(in.WaterFor(1)).Value, 0.156, tolA)
	})
}

func TestSlide(t *testing.T) {
	t.Run("EP-26", func(t *testing.T) { // derived
		col := earth.Column{Layers: []earth.Layer{{Top: 3.191, Bottom: 0, Gamma: 18, GammaSat: 20, Phi: deg(30), OCR: 1}},
			Water: math.Inf(-1)}
		d := must(col.Lateral(earth.AtRest, 2.591, 0))
		near(t, "top", d.At(2.591).Total, 5.40, tolA)
		near(t, "foot", d.At(0).Total, 28.72, tolA)
		p, z := d.Resultant()
		near(t, "P", p*2.438, 107.8, tolA)
		near(t, "level", z, 1.000, tolA)
		side := must(SideFriction(SideFrictionIn{Diagram: d, K: 0.5, Delta: deg(17), Length: 2 * 6.058}))
		near(t, "side friction", side, 163.7, tolA)
		in := SlideIn{Length: 6.058, Width: 2.438, Weight: must(Float(box20())).Resisting,
			Earth: p * 2.438, EarthLevel: z, EarthActive: p * 2.438 / 1.5, TanBase: 0.4, Side: side, Share: 0}
		s := must(SlideBox(in))
		near(t, "FS sliding", s.FS, 0.676, tolA)
		near(t, "FS active", s.FSActive, 1.014, tolA)
		near(t, "FS overturning", s.FSOver, 5.12, tolA)
		near(t, "e", s.E, 0.592, tolA)
		near(t, "q front", s.Under.Toe, 19.56, tolA)
		near(t, "q back", s.Under.Heel, 5.10, tolA)
		if !s.Under.Middle {
			t.Error("the resultant must lie in the middle third")
		}
		in.Share = 1
		near(t, "FS full side", must(SlideBox(in)).FS, 2.195, tolA)
		in.Share = 0.5
		near(t, "FS half side", must(SlideBox(in)).FS, 1.436, tolA)
	})
}
