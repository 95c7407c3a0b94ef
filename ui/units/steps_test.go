package units

import (
	"math"
	"slices"
	"testing"

	"hillset/engine/check"
	"hillset/engine/quantity"
)

// A working is read by people who stand in the mud: no formula is shown with
// only a part of its symbols filled in.
func TestLineSteps(t *testing.T) {
	n := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.None) }
	kN := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Force) }
	m := func(sym string, v float64) quantity.Q { return quantity.Of(sym, v, quantity.Length) }
	for _, c := range []struct {
		name string
		line check.Line
		want []string
	}{
		{"all symbols known", check.Line{Formula: "wa = L/n", Terms: []quantity.Q{m("L", 2.4), n("n", 120)}, Result: quantity.Of("wa", 0.02, quantity.Thickness)},
			[]string{"wa = L/n", "= (2.40 m)/120", "= 20.0 mm"}},
		{"a symbol of an earlier line", check.Line{Formula: "r = M·Ω/Mn", Terms: []quantity.Q{n("Ω", 1.67)}, Result: quantity.Of("r", 0.5, quantity.Ratio)},
			[]string{"r = M·Ω/Mn", "where Ω = 1.67", "r = 0.50"}},
		{"an equation of the beam", check.Line{Formula: "E·I·w'''' = p", Terms: []quantity.Q{quantity.Of("EI", 65.7, quantity.Stiffness), m("z", 1.15)}, Result: quantity.Of("w", 0.119, quantity.Thickness)},
			[]string{"E·I·w'''' = p", "where EI = 65.70 kNm²/m, z = 1.15 m", "w = 119.0 mm"}},
		{"a condition", check.Line{Formula: "n ≥ n,req", Terms: []quantity.Q{quantity.Of("n", 0.75, quantity.Slope), quantity.Of("n,req", 1.5, quantity.Slope)}, Result: quantity.Of("", 2, quantity.Ratio)},
			[]string{"n ≥ n,req", "where n = 0.75:1, n,req = 1.5:1", "2.00"}},
		{"a symbol of two words", check.Line{Formula: "R = N·tan δ", Terms: []quantity.Q{kN("N", 10), n("tan δ", 0.4), n("δ", 22)}, Result: kN("R", 4)},
			[]string{"R = N·tan δ", "= (10.0 kN)·0.4", "where δ = 22", "R = 4.0 kN"}},
		{"a product that has a name", check.Line{Formula: "FS = (N + C·F)/E", Terms: []quantity.Q{kN("N", 10), kN("C·F", 2), kN("E", 6)}, Result: quantity.Of("FS", 2, quantity.Factor)},
			[]string{"FS = (N + C·F)/E", "= ((10.0 kN) + (2.0 kN))/(6.0 kN)", "= 2.00"}},
		{"the name alone", check.Line{Formula: "C·F", Terms: []quantity.Q{n("C", 0.5), kN("F", 8)}, Result: kN("C·F", 4)},
			[]string{"where C = 0.5, F = 8.0 kN", "C·F = 4.0 kN"}},
		{"a given value", check.Line{Formula: "S", Result: quantity.Of("S", 1.2, quantity.Pressure)}, []string{"S = 1.2 kPa"}},
		{"functions stay", check.Line{Formula: "K0 = 1 − sin φ", Terms: []quantity.Q{quantity.Of("φ", math.Pi/6, quantity.Angle)}, Result: n("K0", 0.5)},
			[]string{"K0 = 1 − sin φ", "= 1 − sin (30.0°)", "= 0.5"}},
		{"words in the formula", check.Line{Formula: "Wg = γw·h, not below 0", Terms: []quantity.Q{n("γw", 9.81), m("h", 1)}, Result: kN("Wg", 9.81)},
			[]string{"Wg = γw·h, not below 0", "where γw = 9.81, h = 1.00 m", "Wg = 9.8 kN"}},
		{"too long to be read", check.Line{Formula: "r = Ωc·P/Pn + Ωb·M/(Mn·(1 − Ωc·P/PE))", Terms: []quantity.Q{n("Ωc", 1.8), kN("P", 17.4), kN("Pn", 47.6), n("Ωb", 1.67), kN("M", 9.3), kN("Mn", 3.5), kN("PE", 54.3)}, Result: quantity.Of("r", 11.3, quantity.Ratio)},
			[]string{"r = Ωc·P/Pn + Ωb·M/(Mn·(1 − Ωc·P/PE))", "where Ωc = 1.8, P = 17.4 kN, Pn = 47.6 kN, Ωb = 1.67, M = 9.3 kN, Mn = 3.5 kN, PE = 54.3 kN", "r = 11.30"}},
		{"a formula without a result of its own name", check.Line{Formula: "M = M1 + M2", Terms: []quantity.Q{n("M1", 1), n("M2", 2)}, Result: n("Mb", 3)},
			[]string{"M = M1 + M2", "= 1 + 2", "Mb = 3"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := LineSteps(c.line, Metric); !slices.Equal(got, c.want) {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}
