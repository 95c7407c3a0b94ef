package units

import (
	"math"
	"testing"

	"hillset/engine/quantity"
	"hillset/engine/survey"
)

// A table pasted by somebody who works in feet: a bare number is in feet, a
// heading or a cell may say otherwise.
func TestPastedTable(t *testing.T) {
	for _, c := range []struct {
		text string
		sys  System
		x, z float64 // of the last row, m
	}{
		{"10\t328.08\n20.5\t330.00", US, 20.5 * foot, 330 * foot},
		{"10\t328.08\n20.5\t330.00", Metric, 20.5, 330},
		{"Distance (ft)\tLevel (m)\n0\t99,2\n10\t99,95", Metric, 10 * foot, 99.95},
		{"Distance\tLevel\n\"20'6\"\"\"\t330'-4 1/2\"", Metric, 20.5 * foot, 330.375 * foot},
		{"x,z\n6'4\",1.5 m", US, 76 * inch, 1.5},
	} {
		read := func(k quantity.Kind, s string) (float64, error) { return Parse(k, s, c.sys) }
		tab, err := survey.Read(c.text, survey.Options{Read: read})
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		p := tab.Points()[len(tab.Rows)-1]
		if math.Abs(p.X-c.x) > near || math.Abs(p.Z-c.z) > 1e-9 {
			t.Errorf("%q = (%v, %v), want (%v, %v)", c.text, p.X, p.Z, c.x, c.z)
		}
	}
}
