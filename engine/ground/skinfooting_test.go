package ground

import (
	"math"
	"testing"

	"hillset/engine/check"
)

// TestSkinFooting: by hand, 24 kN/m3 · 2.59 m = 62.16 kPa whatever the width; on 72 kPa
// (1 500 psf, presumptive class of the building code) 0.863, on 50 kPa a footing 1.243
// times as wide.
func TestSkinFooting(t *testing.T) {
	in := SkinFootingIn{Height: 2.59, Width: 0.2, Gamma: 24, Allowable: 72, Basis: "by hand"}
	c, err := SkinFootingCheck(in)
	if err != nil || math.Abs(c.Demand.Val-62.16) > 1e-9 || math.Abs(c.Ratio-0.8633) > 1e-4 || c.Verdict() != check.Within {
		t.Errorf("%+v, %v", c, err)
	}
	in.Allowable = 50
	if c, err = SkinFootingCheck(in); err != nil || c.Verdict() != check.Beyond || math.Abs(c.RemedyQ[0].Val-0.2*1.2432) > 1e-9 {
		t.Errorf("%+v, %v", c, err)
	}
	for name, bad := range map[string]func(*SkinFootingIn){
		"no height": func(x *SkinFootingIn) { x.Height = 0 }, "NaN width": func(x *SkinFootingIn) { x.Width = math.NaN() },
		"weightless": func(x *SkinFootingIn) { x.Gamma = -1 }, "no ground": func(x *SkinFootingIn) { x.Allowable = 0 },
	} {
		x := in
		bad(&x)
		if _, err := SkinFootingCheck(x); err == nil {
			t.Errorf("taken: %s", name)
		}
	}
}
