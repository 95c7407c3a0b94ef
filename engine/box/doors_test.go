package box

import (
	"math"
	"testing"

	"hillset/engine/frame"
)

// TestDoors: refused whatever the leaf would carry, which is shown: a
// triangular load of ST-09's form on the strip (derived).
func TestDoors(t *testing.T) {
	leaf := strip(2.27, frame.Load{{S: 0, P: 9 * 1.2}, {S: 1.2, P: 0}})
	for _, k := range []float64{1, 1e-3} {
		in := Doors{Leaf: leaf, Earth: 1.4, Sill: 0.17}
		in.Leaf.Load.Earth = leaf.Load.Earth.Scale(k)
		c, r, err := DoorsCheck(in)
		if err != nil {
			t.Fatal(err)
		}
		if !math.IsInf(c.Worst(), 1) || c.Remedy == "" {
			t.Errorf("doors that hold: %+v", c)
		}
		// M = Rt (L - h) + 2/3 Rt y0, Rt = g h³/(6L), y0 = h √(h/(3L)).
		l, h, g := 2.27, 1.2, 9*k
		rt := g * h * h * h / (6 * l)
		m := rt*(l-h) + rt*h*math.Sqrt(h/(3*l))*2/3
		near(t, "moment in the leaf", r.Field.ASD, m, exact)
		found := false
		for _, line := range c.Working {
			if line.Result.Sym == "r" {
				near(t, "share of the leaf", line.Result.Val, math.Max(m*1.67/r.Outer.Mn, r.ShearRatio.ASD), exact)
				found = true
			}
		}
		if !found {
			t.Error("the share of the leaf is not shown")
		}
	}
	if _, _, err := DoorsCheck(Doors{}); err == nil {
		t.Error("no leaf is taken")
	}
}
