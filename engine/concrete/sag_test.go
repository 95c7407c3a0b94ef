package concrete

import (
	"math"
	"testing"

	"hillset/engine/frame"
)

// TestBowOfTheSkin: 0.0065 wL⁴/EI under a triangle (structure reference, section
// 4, derived), with E = 57 000√f'c in psi (ACI 318, memory), times what creep
// and cracking take.
func TestBowOfTheSkin(t *testing.T) {
	w := Wall{Section: Section{Thickness: 0.2, Fc: 20e3}, Height: 2.6, Load: frame.Linear(40, 0, 2.6)}
	r, err := w.Solve()
	if err != nil {
		t.Fatal(err)
	}
	first := 0.006522 * 40 * math.Pow(2.6, 4) / r.EI
	for _, softer := range []float64{1, 3, 8.6} {
		c, err := w.SagCheck(180, softer)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "bow", c.Demand.Val, softer*first, 1e-3)
		near(t, "ratio", c.Ratio, softer*first*180/2.6, 1e-3)
		if !math.IsNaN(c.RatioLRFD) || c.Case == "" || len(c.Working) != 3 {
			t.Errorf("%+v", c)
		}
	}
	e := 57000 * math.Sqrt(20e3/6.894757) * 6.894757 // kPa
	near(t, "stiffness", r.EI, e*0.2*0.2*0.2/12, 0.02)
	for _, bad := range [][2]float64{{10, 3}, {180, 0.5}, {180, math.NaN()}} {
		if _, err := w.SagCheck(bad[0], bad[1]); err == nil {
			t.Errorf("takes %v", bad)
		}
	}
}
