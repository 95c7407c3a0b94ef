package tables

import (
	"math"
	"testing"
)

// The ranges of the earth reference (Bowles, memory) reach the classes of the
// table of soils; organic soil, peat and what is no class have none.
func TestStiffnessOf(t *testing.T) {
	s := Default()
	for class, want := range map[string][2]float64{"GW": {50, 200}, "GM": {50, 200}, "SP": {10, 80}, "SC-SM": {10, 80}, "ML": {2, 20}, "MH": {2, 20}, "CL": {2, 50}, "CL-ML": {2, 50}, "CH": {2, 50},
		"OL": {}, "OH": {}, "PT": {}, "crushed-base": {}, "": {}} {
		var low, high float64
		for i, row := range s.StiffnessOf(class) {
			if i == 0 || row.Low < low {
				low = row.Low
			}
			high = math.Max(high, row.High)
		}
		if low != want[0]*1e3 || high != want[1]*1e3 {
			t.Errorf("%s: %g to %g kPa, want %v MPa", class, low, high, want)
		}
	}
	for id, want := range map[string]float64{"settlement": 0.025, "tilt": 1. / 250, "twist": 0.010} {
		if l, ok := s.SettleLimit(id); !ok || math.Abs(l.Limit-want) > 1e-12 {
			t.Errorf("%s: %v", id, l)
		}
	}
}
