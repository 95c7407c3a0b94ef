package assess

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

func TestRuler(t *testing.T) {
	step := measure{0.1, 3 * inch}
	for _, c := range []struct {
		got, want []float64
	}{
		{ruler(false).above(0.6, 1, step), []float64{0.7, 0.8, 0.9, 1}},
		{ruler(false).above(0.65, 0.85, step), []float64{0.7, 0.8}},
		{ruler(true).above(0.6, 1, step), []float64{24 * inch, 27 * inch, 30 * inch, 33 * inch, 36 * inch, 39 * inch}}, // 23.6 to 39.4 in
		{ruler(true).above(24*inch, 0.7, step), []float64{27 * inch}},
		{ruler(true).above(1, 0.5, step), nil},
		{ruler(false).from(measure{0.14, 6 * inch}, measure{0.2, 8 * inch}, measure{0.02, inch}), []float64{0.14, 0.16, 0.18, 0.2}},
		{ruler(true).from(measure{0.14, 6 * inch}, measure{0.2, 8 * inch}, measure{0.02, inch}), []float64{6 * inch, 7 * inch, 8 * inch}},
		{[]float64{ruler(false).floor(1.219, step), ruler(true).floor(1.219, step)}, []float64{1.2, 45 * inch}},
		{[]float64{ruler(false).nearest(0.66, step), ruler(true).nearest(0.66, step)}, []float64{0.7, 27 * inch}}, // 25.98 in lie nearer to 27 than to 24
	} {
		if !slices.EqualFunc(c.got, c.want, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }) {
			t.Errorf("%v, want %v", c.got, c.want)
		}
	}
}

// What is advised is a round number for whoever builds it: whole inches and
// quarters of a thousand pounds, or whole centimetres and hundreds of kilograms.
func TestAdviceIsRound(t *testing.T) {
	for _, c := range []struct {
		units        string
		length, mass float64 // m, t
	}{{model.US, inch, 0.25 * pound}, {model.Metric, 0.01, 0.1}} {
		p := demo(t, "as-drawn").Clone()
		p.Site.Water.Computed = false // which is quicker
		p.Display.Units = c.units
		seen := 0
		look := func(text string, q []quantity.Q) {
			if strings.HasPrefix(text, "Lower the finished surface") {
				q = q[1:] // by how much it falls follows from what there is
			}
			for _, v := range q {
				step := map[quantity.Kind]float64{quantity.Length: c.length, quantity.Mass: c.mass}[v.Kind]
				if step == 0 {
					continue
				}
				seen++
				if n := v.Val / step; math.Abs(n-math.Round(n)) > 1e-3 {
					t.Errorf("%s: %g of %q is not round", c.units, v.Val, text)
				}
			}
		}
		for _, m := range advice(t, p) {
			if len(m.Steps) == 0 {
				look(m.Text, m.Q)
			}
			for _, s := range m.Steps {
				look(s.Text, s.Q)
			}
		}
		if seen < 20 {
			t.Errorf("%s: %d sizes", c.units, seen)
		}
	}
}
