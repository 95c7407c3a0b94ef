package units

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		val  float64
		kind quantity.Kind
		sys  System
		want string
	}{
		{1.93, quantity.Length, Metric, "1.93 m"},
		{0.025, quantity.Length, Metric, "0.025 m"},
		{-1.5, quantity.Length, Metric, "−1.50 m"},
		{0, quantity.Length, Metric, "0.00 m"},
		{-0.0001, quantity.Length, Metric, "0.000 m"},
		{76 * 0.0254, quantity.Length, US, `6'-4"`},
		{76.5 * 0.0254, quantity.Length, US, `6'-4½"`},
		{0.5 * 0.0254 * 2, quantity.Length, US, `1"`},
		{11.9 * 0.0254, quantity.Length, US, `1'-0"`},
		{-27 * 0.0254, quantity.Length, US, `−2'-3"`},
		{0.003, quantity.Length, US, `0.12"`},
		{0, quantity.Length, US, `0.00"`},
		{0.0016, quantity.Thickness, Metric, "1.6 mm"},
		{0.0016, quantity.Thickness, US, "0.063 in"},
		{15.13, quantity.Pressure, Metric, "15.1 kPa"},
		{15, quantity.Pressure, US, "313 psf"}, // 15/0.0478803
		{0.034, quantity.Pressure, Metric, "0.034 kPa"},
		{-2.04, quantity.Pressure, Metric, "−2.0 kPa"},
		{345000, quantity.Stress, Metric, "345 MPa"},
		{345000, quantity.Stress, US, "50.0 ksi"}, // 345/6.89476
		{10, quantity.Force, US, "2248 lb"},       // 10/0.00444822
		{100, quantity.Force, US, "22.5 kip"},
		{100, quantity.Force, Metric, "100.0 kN"},
		{1, quantity.LineMoment, US, "225 ft-lb/ft"}, // 224.8 in references/structure.md
		{18.85, quantity.UnitWeight, US, "120 pcf"},
		{1.5, quantity.Slope, Metric, "1.5:1"},
		{2.0 / 3, quantity.Slope, US, "0.67:1"},
		{0.02, quantity.Gradient, US, "2.0 %"},
		{math.Pi / 6, quantity.Angle, US, "30.0°"},
		{0.873, quantity.Ratio, US, "0.87"},
		{2.23, quantity.Mass, Metric, "2230 kg"},
		{26.74, quantity.Mass, Metric, "26.74 t"},
		{1e-3 / 60, quantity.Flow, Metric, "1.0 L/min"},
		{2.778e-7, quantity.Flow, Metric, "0.017 L/min"}, // one litre an hour
		{4.2e-3, quantity.Flow, Metric, "4.20 L/s"},
		{3.785411784e-3 / 60, quantity.Flow, US, "1.0 gpm"}, // 231 cubic inches
		{1.845e-6, quantity.LineFlow, Metric, "0.11 L/min/m"},
		{0.43, quantity.Velocity, US, "1.41 ft/s"},
		{2e-5, quantity.Permeability, Metric, "2.0×10⁻⁵ m/s"},
		{2e-9, quantity.Permeability, Metric, "2.0×10⁻⁹ m/s"},
		{0.05, quantity.Permeability, Metric, "0.05 m/s"},
		{0.3048 / 86400, quantity.Permeability, US, "1 ft/day"},
		{75e-3 / 3600, quantity.Rate, Metric, "75.0 mm/h"},
		{25.4e-3 / 3600, quantity.Rate, US, "1.00 in/h"},
		{0.2, quantity.Permittivity, US, "0.20 /s"},
		{360, quantity.Duration, US, "6.0 min"},
		{9 * 3600, quantity.Duration, US, "9.0 h"},
		{81.5, quantity.Power, Metric, "82 W"},
		{2760, quantity.Energy, US, "2760 Wh"},
		{12500, quantity.Energy, US, "12.5 kWh"},
		{1.029, quantity.Grain, US, "1.03 mm"},
		{8, quantity.Temperature, Metric, "8.0 °C"},
		{8, quantity.Temperature, US, "46.4 °F"},
		{-20, quantity.Temperature, US, "−4.0 °F"},
		{0.096, quantity.Temperature, Metric, "0.1 °C"},
		{-0.04, quantity.Temperature, Metric, "0.0 °C"},
		{5, quantity.Warmth, US, "9.0 °F"},
		{450, quantity.FrostIndex, US, "810 °F·days"},
		{0.026, quantity.Conductivity, Metric, "0.026 W/mK"},
		{1.76, quantity.Insulation, US, "10.0 ft²·h·°F/Btu"},
		{0.01, quantity.AirFlow, US, "21.2 cfm"},
		{0.002, quantity.Grain, US, "0.0020 mm"},
		{1e-7, quantity.None, US, "1.0×10⁻⁷"},
		{0.3333333, quantity.None, US, "0.3333"},
		{0, quantity.None, US, "0"},
		{math.NaN(), quantity.Pressure, US, "—"},
		{math.Inf(1), quantity.Ratio, US, "—"},
		{math.Inf(-1), quantity.Length, US, "—"},
	} {
		t.Run(c.want, func(t *testing.T) {
			if got := Format(c.val, c.kind, c.sys); got != c.want {
				t.Errorf("%v %s in %v = %q, want %q", c.val, kindNames[c.kind], c.sys, got, c.want)
			}
		})
	}
}

func TestFormatLevel(t *testing.T) {
	for _, c := range []struct {
		val  float64
		sys  System
		want string
	}{
		{100.256, Metric, "100.26 m"},
		{100.256, US, "328.92 ft"}, // 100.256/0.3048 = 328.924
		{-0.001, Metric, "0.00 m"},
		{-1, US, "−3.28 ft"},
		{math.NaN(), US, "—"},
	} {
		if got := FormatLevel(c.val, c.sys); got != c.want {
			t.Errorf("level %v in %v = %q, want %q", c.val, c.sys, got, c.want)
		}
	}
}

// What is shown, read back, is the value to half a unit of the last place
// shown: Parse and Format must agree on units, signs and marks for every kind.
func TestFormatThenParse(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for k := quantity.None; k <= quantity.Last; k++ {
		for _, sys := range []System{Metric, US} {
			for range 400 {
				u := of(k, sys)
				v := (r.Float64()*2 - 1) * math.Pow(10, r.Float64()*6-2) * u.size
				if k == quantity.Slope {
					v = math.Abs(v)
				}
				if k == quantity.Angle {
					v = math.Mod(v, math.Pi/2)
				}
				text := Format(v, k, sys)
				back, err := Parse(k, text, sys)
				// half a unit of the last place, of a unit up to 1000 times larger,
				// or of the two leading digits that a small value keeps
				tol := 0.5*math.Pow10(-u.digits)*u.size + 0.05*math.Abs(v) + 0.25*inch*b2f(k == quantity.Length && sys == US)
				if err != nil || math.Abs(back-v) > tol {
					t.Fatalf("%s %v in %v shown as %q reads as %v (%v)", kindNames[k], v, sys, text, back, err)
				}
			}
		}
	}
}

func b2f(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// A field that is left as it is must not move the value by more than 10⁻⁶ of
// the unit shown (or one part in a million of a very small value).
func TestEntryThenParse(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for k := quantity.None; k <= quantity.Last; k++ {
		for _, sys := range []System{Metric, US} {
			for i := range 400 {
				u := of(k, sys)
				v := math.Abs((r.Float64()) * math.Pow(10, r.Float64()*7-4) * u.size)
				if i%2 == 0 && k == quantity.Length {
					v = float64(r.IntN(4000)) / 16 * inch // as people type
				}
				text := Entry(v, k, sys)
				back, err := Parse(k, text, sys)
				if err != nil || math.Abs(back-v) > 1e-6*u.size {
					t.Fatalf("%s %v in %v stands as %q, reads as %v (%v)", kindNames[k], v, sys, text, back, err)
				}
			}
		}
	}
	for text, v := range map[string]float64{`6'-4½"`: 76.5 * inch, "2.591 m": 2.591, `8'-5 5/16"`: 101.3125 * inch, "1.5:1": 1.5} {
		kind, sys := quantity.Length, US
		if strings.HasSuffix(text, " m") {
			sys = Metric
		}
		if strings.Contains(text, ":") {
			kind = quantity.Slope
		}
		if got := Entry(v, kind, sys); got != text {
			t.Errorf("Entry(%v) = %q, want %q", v, got, text)
		}
	}
	if got := Entry(math.NaN(), quantity.Length, US); got != "" {
		t.Errorf("Entry(NaN) = %q, want an empty field", got)
	}
}

func TestFormatLine(t *testing.T) {
	for _, c := range []struct {
		name string
		line check.Line
		sys  System
		want string
	}{
		{"formula", check.Line{Formula: "M = w·L²/10",
			Terms:  []quantity.Q{{Sym: "w", Val: 15.1, Kind: quantity.LineLoad}, {Sym: "L", Val: 2.3, Kind: quantity.Length}},
			Result: quantity.Of("M", 7.988, quantity.Moment)}, Metric,
			"M = w·L²/10 = (15.10 kN/m)·(2.30 m)²/10 = 7.99 kNm"},
		{"whole names only", check.Line{Formula: "p = K0·K",
			Terms:  []quantity.Q{{Sym: "K", Val: 2, Kind: quantity.None}, {Sym: "K0", Val: 0.5, Kind: quantity.None}},
			Result: quantity.Of("p", 1, quantity.None)}, Metric,
			"p = K0·K = 0.5·2 = 1"},
		{"primes and lowered digits", check.Line{Formula: "σ'h = K₀·σ'v",
			Terms:  []quantity.Q{{Sym: "σ'v", Val: -10, Kind: quantity.Pressure}, {Sym: "K₀", Val: 0.5, Kind: quantity.None}},
			Result: quantity.Of("σ'h", -5, quantity.Pressure)}, Metric,
			"σ'h = K₀·σ'v = 0.5·(−10.0 kPa) = −5.0 kPa"},
		{"terms that do not stand in it", check.Line{Formula: "from table 3",
			Terms:  []quantity.Q{{Sym: "φ", Val: math.Pi / 6, Kind: quantity.Angle}},
			Result: quantity.Of("K", 0.33, quantity.None)}, Metric,
			"from table 3; where φ = 30.0°; K = 0.33"},
		{"no formula", check.Line{Result: quantity.Of("N", 3, quantity.Force)}, Metric, "N = 3.0 kN"},
		{"not a number", check.Line{Formula: "R = D/C", Result: quantity.Of("R", math.NaN(), quantity.Ratio)}, Metric, "R = D/C; R = —"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := FormatLine(c.line, c.sys); got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}

func TestFill(t *testing.T) {
	qs := []quantity.Q{quantity.Of("d", 1.5, quantity.Length), quantity.Of("p", 10, quantity.Pressure)}
	for in, want := range map[string]string{
		"keep {0} below {1}": "keep 1.50 m below 10.0 kPa",
		"{1}{1}":             "10.0 kPa10.0 kPa",
		"{2} and {-1}":       "— and —",
		"{x} { {0":           "{x} { {0",
		"plain":              "plain",
	} {
		if got := Fill(in, qs, Metric); got != want {
			t.Errorf("Fill(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestFormatProblem(t *testing.T) {
	p := model.Problem{Text: "is out of range", Ranged: true, Kind: quantity.Length, Num: 3 * foot, Min: 0, Max: foot}
	if got, want := FormatProblem(p, US), `3'-0" is out of range (allowed: 0 ft to 1'-0")`; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	box := model.Problem{Text: "the box lies beyond the ground line", Ranged: true, Kind: quantity.Length, Num: 0, Min: 2.238, Max: 16.2782}
	for sys, want := range map[System]string{
		US:     `the box lies beyond the ground line: 0 ft (allowed: 7'-5" to 53'-4")`,
		Metric: "the box lies beyond the ground line: 0 m (allowed: 2.238 m to 16.27 m)",
	} {
		if got := FormatProblem(box, sys); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	for _, c := range []struct{ value, text, want string }{
		{"0 points", "the ground line is not drawn yet", "the ground line is not drawn yet"},
		{"none", "no soil is given for the ground", "no soil is given for the ground"},
		{"12 m", "the ground line cannot be used", "the ground line cannot be used: 12 m"},
		{`""`, "is not chosen yet", "not chosen yet"},
		{"1 point", "is not a line yet", "1 point is not a line yet"},
	} {
		if got := FormatProblem(model.Problem{Value: c.value, Text: c.text}, Metric); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
	q := model.Problem{Value: `"x"`, Text: "names a soil that does not exist", Allowed: "the id of a soil"}
	if got, want := FormatProblem(q, US), `"x" names a soil that does not exist (allowed: the id of a soil)`; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestSystemNames(t *testing.T) {
	for _, s := range []System{Metric, US} {
		if Of(s.String()) != s {
			t.Errorf("%v does not read back", s)
		}
	}
	if US.String() != model.US || Of("") != Metric {
		t.Error("names differ from those of the project file")
	}
}

func BenchmarkFormat(b *testing.B) {
	for b.Loop() {
		Format(1.9431, quantity.Length, US)
		Format(15.13, quantity.Pressure, US)
	}
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := Parse(quantity.Length, `6'-4½"`, US); err != nil {
			b.Fatal(err)
		}
	}
}

// Values in texts: the foot is 0.3048 m, the pound-force per square foot
// 0.04788 kPa, exact by definition.
func TestSay(t *testing.T) {
	l := func(m quantity.Manner, v float64) string { return m.Text(v, quantity.Length) }
	for _, c := range []struct{ text, metric, us string }{
		{"at " + l(quantity.Shown, 0.35) + ".", "at 0.35 m.", `at 1'-2".`}, // 13.78 in, to half an inch 14
		{l(quantity.Brief, 6.096), "6.1 m", "20 ft"},
		{l(quantity.Brief, 0.4572), "0.46 m", `1'-6"`},
		{quantity.Brief.Text(10, quantity.Temperature), "10 °C", "50 °F"},
		{quantity.Brief.Text(0.05, quantity.Thickness), "50 mm", "1.969 in"},
		{l(quantity.Typed, 1.23456), "1.23456 m", `4'-⅝"`},
		{"at most " + l(quantity.Floor, 1.23456), "at most 1.23 m", `at most 4'-0"`},
		{"at most " + l(quantity.Floor, 1.23456789), "at most 1.23 m", `at most 4'-0"`},
		{quantity.Between(1.23456789, 2.3456789, quantity.Length), "1.24 m to 2.34 m", `4'-1" to 7'-8"`},
		{quantity.Between(100, 1000, quantity.Pressure), "100 kPa to 1000 kPa", "2089 psf to 20885 psf"},
		{l(quantity.Level, 100.271), "100.27 m", "328.97 ft"},
		{"{0} of " + l(quantity.Shown, 1), "— of 1.00 m", `— of 3'-3½"`},
		{"{soil} {", "{soil} {", "{soil} {"},
	} {
		if got := Say(c.text, Metric); got != c.metric {
			t.Errorf("%s: %q, want %q", c.text, got, c.metric)
		}
		if got := Say(c.text, US); got != c.us {
			t.Errorf("%s: %q, want %q", c.text, got, c.us)
		}
	}
}

func TestFormatErrorKeepsTheField(t *testing.T) {
	p := model.Problem{Field: "cut.apron", Value: "200 m", Allowed: "0 to 100 m", Text: "is out of range", Ranged: true, Kind: quantity.Length, Num: 200, Max: 100}
	got := FormatError(fmt.Errorf("reading the project: %w", p), US)
	if want := `reading the project: cut.apron = 656'-2": is out of range (allowed: 0 ft to 328'-1")`; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	p = model.Problem{Field: "box.openings[0].width", Value: quantity.Typed.Text(0.9144, quantity.Length), Text: "the opening reaches past the end of its wall",
		Allowed: "at most " + quantity.Floor.Text(0.6096, quantity.Length) + " from there"}
	if got, want := FormatError(p, US), `box.openings[0].width = 3'-0": the opening reaches past the end of its wall (allowed: at most 2'-0" from there)`; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
