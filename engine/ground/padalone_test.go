package ground

import (
	"math"
	"testing"
)

// TestPadAlone: 90 kN on a pad of 0.9 m press with 111 kPa (statics, derived);
// the side in the remedy brings a failing pad to its limit.
func TestPadAlone(t *testing.T) {
	in := PadAloneIn{P: 90, Side: 0.9, Allowable: 95.76, Basis: "2000 psf"}
	c, err := PadAloneCheck(in)
	if err != nil || math.Abs(c.Demand.Val-90/0.81) > 1e-9 || math.Abs(c.Ratio-90/0.81/95.76) > 1e-9 {
		t.Fatalf("%+v: %v", c, err)
	}
	in.Side = c.RemedyQ[0].Val
	if c, err = PadAloneCheck(in); err != nil || math.Abs(c.Ratio-1) > 1e-9 {
		t.Errorf("with the remedy %.4f: %v", c.Ratio, err)
	}
	for _, bad := range []PadAloneIn{{P: -1, Side: 1, Allowable: 1}, {P: 1, Allowable: 1}, {P: 1, Side: 1}} {
		if _, err := PadAloneCheck(bad); err == nil {
			t.Errorf("%+v is taken", bad)
		}
	}
}
