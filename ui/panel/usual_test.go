package panel

import (
	"testing"

	"hillset/ui/units"
)

// What was measured of the steel stands beside the ordinary range, in the units
// of the reader, and follows them (ranges: table of members).
func TestUsualRanges(t *testing.T) {
	b := newBench(t, drawn)
	for _, c := range []struct {
		sys         units.System
		label, want string
	}{
		{units.Metric, "Side sheet", "usually 1.6 mm to 2.0 mm"},
		{units.Metric, "Roof sheet", "usually 1.6 mm to 2.0 mm"},
		{units.Metric, "Yield strength", "usually 343 MPa to 355 MPa"},
		{units.US, "Side sheet", "usually 0.063 in to 0.079 in"},
		{units.US, "Yield strength", "usually 49.7 ksi to 51.5 ksi"},
	} {
		b.units(c.sys)
		if got := b.number("box", c.label).help.text; got != c.want {
			t.Errorf("%s in %v: %q, want %q", c.label, c.sys, got, c.want)
		}
	}
}
