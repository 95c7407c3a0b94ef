package earth

import (
	"math"
	"testing"
)

// Tolerances of the reference cases.
const (
	tolA = 1e-3 // pure arithmetic of a stated formula: 0.1 %, or 0.005 in the last figure
	tolB = 1e-2 // printed textbook rounding: 1 %
)

func deg(d float64) float64 { return d * math.Pi / 180 }

// near compares within a share of the value wanted, or half a unit of the
// third figure where that is more.
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

func soilPart(r *Row) float64  { return r.Soil }
func waterPart(r *Row) float64 { return r.U }

// sand is one layer from level 0 down to -depth.
func sand(depth, gamma, sat, phi float64) Column {
	return Column{Layers: []Layer{{Name: "sand", Bottom: -depth, Gamma: gamma, GammaSat: sat, Phi: deg(phi), OCR: 1}},
		Water: math.Inf(-1)}
}

func TestLateralCases(t *testing.T) {
	t.Run("EP-02", func(t *testing.T) { // derived
		c := sand(3.191, 18, 20, 30)
		c.Water, c.Q = -2.191, 5
		d := must(c.Lateral(AtRest, -0.6, -3.191))
		for _, w := range []struct{ z, soil float64 }{{0.6, 7.900}, {2.191, 22.219}, {3.191, 27.314}} {
			near(t, "soil", d.At(-w.z).Soil, w.soil, tolA)
		}
		near(t, "u at floor", d.At(-3.191).U, 9.81, tolA)
		e, ze := d.ResultantOf(soilPart)
		near(t, "earth", e, 48.726, tolA)
		near(t, "earth arm", ze+3.191, 1.0663, tolA)
		u, _ := d.ResultantOf(waterPart)
		near(t, "water", u, 4.905, tolA)
		p, zp := d.Resultant()
		near(t, "total", p, 53.631, tolA)
		near(t, "arm", zp+3.191, 0.9993, tolA)
	})
	t.Run("EP-03", func(t *testing.T) { // memory and derived
		c := sand(5, 16.5, 19.3, 30)
		c.Water, c.Q = -2.5, 10
		d := must(c.Lateral(AtRest, 0, -5))
		near(t, "top", d.At(0).Soil, 5, tolB)
		near(t, "water level", d.At(-2.5).Soil, 25.63, tolB)
		near(t, "base", d.At(-5).Soil, 37.49, tolB)
		near(t, "u", d.At(-5).U, 24.53, tolB)
		p, z := d.Resultant()
		near(t, "total", p, 147.83, tolA)
		near(t, "arm", z+5, 1.696, tolA)
	})
	t.Run("EP-06", func(t *testing.T) { // memory and derived
		c := sand(5, 17, 20, 35)
		p, _ := must(c.Lateral(Active, 0, -5)).Resultant()
		near(t, "dry", p, 57.6, tolB)
		c.Water = -2
		d := must(c.Lateral(Active, 0, -5))
		near(t, "K", d.At(-1).K, 0.2710, tolA)
		p, z := d.Resultant()
		near(t, "wet", p, 93.4, tolB)
		near(t, "arm", z+5, 1.411, tolB)
	})
	t.Run("EP-07", func(t *testing.T) { // memory and derived
		c := sand(6, 17.4, 20, 26)
		c.Layers[0].Cohesion = 14.36
		d := must(c.Lateral(Active, 0, -6))
		ka := must(RankineKa(deg(26)))
		near(t, "Ka", ka, 0.3905, tolA)
		near(t, "top", BellActive(ka, 0, 14.36), -17.95, tolA)
		near(t, "base", d.At(-6).Soil, 22.82, tolA)
		z0 := must(CrackDepth(14.36, 17.4, ka, 0))
		near(t, "crack", z0, 2.641, tolA)
		if d.At(-z0+1e-9).Soil != 0 || d.At(-z0-1e-3).Soil <= 0 {
			t.Error("the pressure must leave zero at the foot of the crack")
		}
		p, z := d.Resultant()
		near(t, "after crack", p, 38.32, tolA)
		near(t, "arm", z+6, 1.120, tolA)
		before := (BellActive(ka, 0, 14.36) + BellActive(ka, 6*17.4, 14.36)) / 2 * 6
		near(t, "before crack", before, 14.62, tolA)
	})
}
