package concrete

import (
	"math"
	"testing"

	"hillset/engine/box"
)

// TestPad: by hand, a pad of 0.70 m, 0.25 m thick, f'c 2500 psi, under a bare
// casting with 80 kN, factored 110 kN (ACI 318 ch. 14, memory; derived here).
func TestPad(t *testing.T) {
	fc := 2500 * psi
	in := Pad{Section: Section{Thickness: 0.25, Fc: fc, Soil: true}, P: box.Pair{ASD: 80, LRFD: 110}, Length: 0.7, Width: 0.7, CastL: 0.178, CastW: 0.162}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-6*math.Abs(want) {
			t.Errorf("%s = %.8g, want %.8g", what, got, want)
		}
	}
	c, r, err := CastingCheck(in)
	if err != nil {
		t.Fatal(err)
	}
	area := 0.178*0.162 - 0.124*0.0635
	near("bearing", c.Ratio, 80*2.31/(0.85*fc*area))
	near("bearing, factored", c.RatioLRFD, 110/(0.65*0.85*fc*area))
	c, r, err = PadConcreteCheck(in)
	if err != nil {
		t.Fatal(err)
	}
	cant, q := (0.7-0.162)/2, 110/0.49 // the longer way from the casting
	root := 50 * psi                   // √2500 psi
	near("bending", r.Bend, q*0.7*cant*cant/2/(0.6*5*root*0.7*0.2*0.2/6))
	near("shear", r.Cut, q*0.7*(cant-0.2)/(0.6*4/3*root*0.7*0.2))
	near("punching", r.Punch, (110-q*0.378*0.362)/(0.6*2.66*root*2*(0.378+0.362)*0.2))
	near("ratio", c.RatioLRFD, r.Worst())
	near("demand over capacity", c.Demand.Val/c.Capacity.Val, c.RatioLRFD)
	if !math.IsNaN(c.Ratio) {
		t.Errorf("an allowable ratio %g of a rule that has none", c.Ratio)
	}
	// The thickness of the remedy does.
	thin := in
	thin.Thickness = 0.15
	c, _, err = PadConcreteCheck(thin)
	if err != nil || c.RatioLRFD <= 1 || c.Remedy == "" {
		t.Fatalf("%g, %v", c.RatioLRFD, err)
	}
	thin.Thickness = c.RemedyQ[0].Val
	if c, _, err = PadConcreteCheck(thin); err != nil || c.RatioLRFD > 1+1e-9 {
		t.Errorf("after its remedy %g, %v", c.RatioLRFD, err)
	}
	for _, bad := range []func(*Pad){
		func(x *Pad) { x.Fc = 0 }, func(x *Pad) { x.Thickness = 0.05 }, func(x *Pad) { x.Length = 0.1 }, func(x *Pad) { x.P.LRFD = math.NaN() },
	} {
		x := in
		bad(&x)
		if _, _, err := PadConcreteCheck(x); err == nil {
			t.Errorf("taken: %+v", x)
		}
	}
}
