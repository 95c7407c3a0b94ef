package ground

import (
	"math"
	"testing"

	"hillset/engine/check"
)

// TestAcross: by hand. 60 kN on tan δ 0.4 hold 24 kN; 10 kN of earth at 0.6 m
// and 2 kN of water at 0.3 m turn 6.6 kNm against 60 kN at 1.2 m (statics,
// derived).
func TestAcross(t *testing.T) {
	in := SlideIn{Length: 2.4, Width: 6, Weight: 60, TanBase: 0.4, Earth: 10, EarthLevel: 0.6, Water: 2, WaterLevel: 0.3, Required: 1.5}
	for _, c := range []struct {
		id   string
		make func(SlideIn) (check.Check, error)
		fs   float64
	}{{"sliding-across", SlidingAcrossCheck, 24.0 / 12}, {"tipping-across", TippingAcrossCheck, 72 / 6.6}} {
		got, err := c.make(in)
		if err != nil {
			t.Fatal(err)
		}
		if got.ID != c.id || math.Abs(got.Capacity.Val-c.fs) > 1e-9 || math.Abs(got.Ratio-1.5/c.fs) > 1e-9 || len(got.Working) < 4 || got.Remedy != "" {
			t.Errorf("%s: %+v", c.id, got)
		}
		heavy := in
		heavy.Earth = 400
		got, err = c.make(heavy)
		if err != nil || got.Ratio <= 1 || got.Remedy == "" {
			t.Errorf("%s: %+v, %v", c.id, got, err)
		}
		// The remedy holds: with that push, or that moment, the ratio is 1.
		if heavy.Water = 0; c.id == "sliding-across" {
			heavy.Earth = got.RemedyQ[0].Val
		} else {
			heavy.EarthLevel = got.RemedyQ[0].Val / heavy.Earth
		}
		if got, err = c.make(heavy); err != nil || math.Abs(got.Ratio-1) > 1e-9 {
			t.Errorf("%s after its remedy: %g, %v", c.id, got.Ratio, err)
		}
		for _, bad := range []func(*SlideIn){
			func(x *SlideIn) { x.Required = 0 }, func(x *SlideIn) { x.Length = 0 }, func(x *SlideIn) { x.Earth = -1 }, func(x *SlideIn) { x.Weight = math.NaN() },
		} {
			x := in
			bad(&x)
			if _, err := c.make(x); err == nil {
				t.Errorf("%s takes %+v", c.id, x)
			}
		}
	}
}
