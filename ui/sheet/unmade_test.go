package sheet

import (
	"math"
	"testing"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

// What was not checked says what is asked for, in the reader's units, where that
// is known: 60 L/min are a litre a second.
func TestUnmade(t *testing.T) {
	c := check.Unchecked("pump", "Pump", "sump", "no pump is given")
	if got := Unmade(&c, units.Metric); got != "no pump is given" {
		t.Errorf("nothing is known: %q", got)
	}
	c.Demand = quantity.Of("Q", 2e-3, quantity.Flow)
	if got := Unmade(&c, units.Metric); got != "no pump is given; asked for: 2.00 L/s" {
		t.Errorf("2 L/s: %q", got)
	}
	c.Demand.Val, c.Missing = math.NaN(), ""
	if got := Unmade(&c, units.Metric); got != "no value was found" {
		t.Errorf("no number: %q", got)
	}
}
