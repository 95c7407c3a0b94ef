package tables

import (
	"math"
	"testing"
)

// Weight and symmetry of the machines; the truck wheel is 16 kip on 20 x 10 in
// (second-hand).
func TestVehicles(t *testing.T) {
	for id, tonnes := range map[string]float64{
		"truck-hs20": 72 * 0.45359237, "excavator-3.5t": 3.5, "excavator-8t": 8, "tractor-midi": 3.5, "pickup": 3.1,
	} {
		v, ok := Default().Vehicle(id)
		if !ok {
			t.Errorf("no vehicle %s", id)
			continue
		}
		sum, moment := 0.0, 0.0
		for _, w := range v.Wheels {
			sum += w.P
			moment += w.P * w.V
			if p := w.P / (w.A * w.B); p < 25 || p > 700 {
				t.Errorf("%s: wheel presses %g kPa", id, p)
			}
		}
		near(t, id+" weight, t", sum/9.81, tonnes, 0.01*tonnes)
		near(t, id+" balance", moment, 0, 1e-9)
	}
	truck, _ := Default().Vehicle("truck-hs20")
	w := truck.Wheels[0]
	near(t, "wheel, kip", w.P/(1000*lbf), 16, 0.001)
	near(t, "patch along, in", w.A/inch, 10, 1e-9)
	near(t, "patch across, in", w.B/inch, 20, 1e-9)
	near(t, "gauge, ft", truck.Wheels[1].V*2/foot, 6, 1e-9)
	near(t, "axles, ft", (truck.Wheels[0].U-truck.Wheels[2].U)/foot, 14, 1e-9)
}

// Plant loads (common practice) and 500 lb/in (derived);
// pressures by Broms against the printed ones, gamma 18.85.
func TestPlant(t *testing.T) {
	for id, sh := range map[string]float64{"plate": 11.0, "walk-behind": 15.5, "ride-on": 19.0, "heavy": 25.5, "heavy-500": 32.4} {
		p, ok := Default().Plant(id)
		if !ok {
			t.Errorf("no plant %s", id)
			continue
		}
		near(t, id+" pressure", math.Sqrt(2*p.P*18.85/math.Pi), sh, 0.06)
	}
	p, _ := Default().Plant("heavy-500")
	near(t, "500 lb/in, kN/m", p.P, 500*lbf/inch, 0.05)
}

// Legal slopes (R3, R4; second-hand), and the angles that the rule prints.
func TestDigRules(t *testing.T) {
	for class, c := range map[string]struct{ n, deg float64 }{"rock": {0, 90}, "A": {0.75, 53}, "B": {1, 45}, "C": {1.5, 34}} {
		d, ok := Default().Dig(class)
		if !ok {
			t.Fatalf("no class %s", class)
		}
		near(t, class+" run", d.N, c.n, 0)
		near(t, class+" angle", math.Atan2(1, d.N)*180/math.Pi, c.deg, 0.5)
		near(t, class+" depth", d.MaxDepth, 6.096, 1e-9)
		if class != "A" && d.ShortHrs != 0 {
			t.Errorf("class %s has a short-term slope", class)
		}
	}
	a, _ := Default().Dig("A")
	near(t, "short-term run", a.ShortN, 0.5, 0)
	near(t, "short-term depth, ft", a.ShortMax/foot, 12, 1e-9)
	near(t, "short-term hours", a.ShortHrs, 24, 0)
}

// Table A (verified) in feet.
func TestPowerLines(t *testing.T) {
	want := [][2]float64{{50, 10}, {200, 15}, {350, 20}, {500, 25}, {750, 35}, {1000, 45}}
	got := Default().PowerLines()
	if len(got) != len(want) {
		t.Fatalf("%d rows, want %d", len(got), len(want))
	}
	for i, w := range want {
		near(t, "voltage", got[i].KV, w[0], 0)
		near(t, "clearance, ft", got[i].Clearance/foot, w[1], 1e-9)
	}
}
