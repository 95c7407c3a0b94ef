package steel

import (
	"errors"
	"math"
	"testing"
)

// EN 1993-5 Table 4-1 rows, mm per side (structure reference, section 6,
// memory).
var (
	rustFill    = LossTable{Years: []float64{5, 25, 50, 75, 100}, Loss: []float64{0.18e-3, 0.70e-3, 1.20e-3, 1.70e-3, 2.20e-3}}
	rustNatural = LossTable{Years: []float64{5, 25, 50, 75, 100}, Loss: []float64{0, 0.30e-3, 0.60e-3, 0.90e-3, 1.20e-3}}
)

func TestRusted(t *testing.T) {
	// Structure reference, section 6 (derived): what is left of 1.6 mm after
	// 10, 25 and 50 years, one side; printed to 0.01 mm.
	for _, c := range []struct {
		name  string
		table LossTable
		years float64
		left  float64
	}{
		{"fill 10", rustFill, 10, 1.29}, {"fill 25", rustFill, 25, 0.90}, {"fill 50", rustFill, 50, 0.40},
		{"natural 10", rustNatural, 10, 1.53}, {"natural 25", rustNatural, 25, 1.30}, {"natural 50", rustNatural, 50, 1.00},
		{"new", rustFill, 0, 1.60},
	} {
		got, err := c.table.Rusted(1.6e-3, c.years, 1)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got*1e3-c.left) > 0.0051 {
			t.Errorf("%s years: %.4f mm left, want %.2f", c.name, got*1e3, c.left)
		}
	}
	both, err := rustFill.Rusted(2e-3, 25, 2)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "two sides", both, 0.6e-3, 1e-9)
	if _, err := rustFill.Rusted(1.6e-3, 80, 1); !errors.Is(err, ErrRustedThrough) {
		t.Errorf("after 80 years in fill: %v", err)
	}
}

func TestRustRefuses(t *testing.T) {
	for _, y := range []float64{-1, 101, math.NaN(), math.Inf(1)} {
		if _, err := rustFill.At(y); err == nil {
			t.Errorf("%g years accepted", y)
		}
		if _, err := rustFill.Rusted(1.6e-3, y, 1); err == nil {
			t.Errorf("%g years accepted", y)
		}
	}
	for _, c := range []struct {
		t     float64
		sides int
	}{{0, 1}, {math.NaN(), 1}, {1.6e-3, 0}, {1.6e-3, 3}} {
		if _, err := rustFill.Rusted(c.t, 5, c.sides); err == nil {
			t.Errorf("thickness %g, sides %d accepted", c.t, c.sides)
		}
	}
	for _, l := range []LossTable{
		{}, {Years: []float64{5}}, {Years: []float64{5, 5}, Loss: []float64{0, 1}},
		{Years: []float64{5, 10}, Loss: []float64{1e-3, 0.5e-3}}, {Years: []float64{math.NaN()}, Loss: []float64{1}},
		{Years: []float64{5}, Loss: []float64{math.NaN()}},
	} {
		if _, err := l.At(1); err == nil {
			t.Errorf("table %+v accepted", l)
		}
	}
}
