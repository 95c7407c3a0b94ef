package box

import (
	"math"
	"testing"

	"hillset/engine/check"
	"hillset/engine/steel"
)

// TestFreePost: an SHS 100 x 100 x 5 of 345 MPa over 2.6 m (properties of the
// reference, section 3: A 18.36 cm2, r 3.84 cm, derived): KL/r 67.7, Fe 430.6,
// Fn 0.658^(345/430.6)·345 = 246.7 MPa, Pn 453 kN by hand from the AISC curve
// (curve verified, ST-05).
func TestFreePost(t *testing.T) {
	in := FreePost{Bar: tube(100, 5), Steel: Material{Fy: 345e3, E: 200e6}, Height: 2.6, Load: Pair{ASD: 200, LRFD: 280}, Case: Cases{Allowable[1].Name, Strength[1].Name}}
	c, r, err := in.Check()
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "KL/r", r.Column.KLr, 67.7, tol05)
	near(t, "Pn", r.Column.Pn, 453, tol05)
	near(t, "ASD", c.Ratio, 200*1.67/453, tol05)
	near(t, "LRFD", c.RatioLRFD, 280/(0.9*453), tol05)
	in.Load = Pair{ASD: 500, LRFD: 700}
	if c, _, err = in.Check(); err != nil || c.Verdict() != check.Beyond {
		t.Fatalf("%+v: %v", c, err)
	}
	k := c.RemedyQ[0].Val / 500
	in.Load = in.Load.Times(k)
	if c, _, err = in.Check(); err != nil || math.Abs(c.Worst()-1) > 1e-9 {
		t.Errorf("under the load of the remedy %.4f: %v", c.Worst(), err)
	}
	in.Bar.Ry = in.Bar.Rx / 2
	weak, err := in.Solve()
	if err != nil || weak.Column.KLr <= r.Column.KLr {
		t.Errorf("a bar weaker the other way buckles at KL/r %.1f, %v", weak.Column.KLr, err)
	}
	in.Height = 0
	if _, err := in.Solve(); err == nil {
		t.Error("a post without height is taken")
	}
	in.Height, in.Bar = 2.6, steel.Bar{}
	if _, err := in.Solve(); err == nil {
		t.Error("a post without a bar is taken")
	}
}
