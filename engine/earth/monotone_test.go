package earth

import (
	"math"
	"math/rand"
	"testing"
)

// TestThrustGrowsWithItsCauses raises water, surcharge and slope one by one:
// the thrust on a wall must never fall.
func TestThrustGrowsWithItsCauses(t *testing.T) {
	rnd := rand.New(rand.NewSource(31))
	causes := map[string]func(*Column, float64){
		"water":     func(c *Column, s float64) { c.Water = -4 + 4*s },
		"surcharge": func(c *Column, s float64) { c.Q = 20 * s },
		"slope":     func(c *Column, s float64) { c.Beta = deg(20 * s) },
		"floor":     func(c *Column, s float64) { c.KFloor = .4 * s },
	}
	for range 20 {
		base := threeLayers()
		for i := range base.Layers {
			base.Layers[i].Phi = deg(24 + 14*rnd.Float64())
		}
		for name, set := range causes {
			for _, st := range []State{AtRest, Active} {
				last := 0.0
				for s := 0.0; s <= 1; s += .1 {
					c := base
					set(&c, s)
					p, z := must(c.Lateral(st, -.5, -3.5)).Resultant()
					if p < last-1e-9 {
						t.Errorf("%s, state %d: %v after %v", name, st, p, last)
					}
					if z >= -.5 || z <= -3.5 {
						t.Errorf("%s: the thrust acts off the wall, at %v", name, z)
					}
					last = p
				}
			}
		}
	}
}

// TestActiveIsLessThanAtRest compares the states level by level.
func TestActiveIsLessThanAtRest(t *testing.T) {
	c := threeLayers()
	for _, beta := range []float64{-15, 0, 10, 24} {
		c.Beta = deg(beta)
		rest, active := must(c.Lateral(AtRest, 0, -4)), must(c.Lateral(Active, 0, -4))
		m, _ := Merge(rest, active).Resultant()
		p, _ := rest.Resultant()
		near(t, "the larger of the two is at rest", m, p, 1e-9)
		for z := 0.0; z < 4; z += .05 {
			if active.At(-z).Soil > rest.At(-z).Soil+1e-9 {
				t.Errorf("beta %v, depth %v: active %v over at rest %v", beta, z, active.At(-z).Soil, rest.At(-z).Soil)
			}
			if math.Abs(active.At(-z).U-rest.At(-z).U) > 1e-12 {
				t.Error("water does not depend on the state")
			}
		}
	}
}

// TestLateralIsAdditive cuts a wall in two: the parts make up the whole, and
// moving everything up moves nothing but the levels.
func TestLateralIsAdditive(t *testing.T) {
	rnd := rand.New(rand.NewSource(32))
	c := threeLayers()
	whole, _ := must(c.Lateral(Active, 0.4, -4)).Resultant()
	for range 50 {
		cut := .4 - 4.4*rnd.Float64()
		up, zu := must(c.Lateral(Active, .4, cut)).Resultant()
		low, zl := must(c.Lateral(Active, cut, -4)).Resultant()
		near(t, "parts", up+low, whole, 1e-9)
		if up > 0 && zu < cut || zl > cut {
			t.Errorf("cut at %v: parts act at %v and %v", cut, zu, zl)
		}
		lift := 1000 * rnd.Float64()
		high := Column{Water: c.Water + lift, Q: c.Q}
		for _, l := range c.Layers {
			l.Top += lift
			l.Bottom += lift
			high.Layers = append(high.Layers, l)
		}
		p, z := must(high.Lateral(Active, cut+lift, -4+lift)).Resultant()
		near(t, "lifted", p, low, 1e-9)
		if math.Abs(z-lift-zl) > 1e-9 {
			t.Errorf("lifted by %v: acts at %v, not %v", lift, z-lift, zl)
		}
	}
}
