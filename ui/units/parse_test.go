package units

import (
	"errors"
	"math"
	"strings"
	"testing"

	"hillset/engine/quantity"
)

// near is the rounding of a handful of multiplications on values of order 1 to
// 1000; nothing here is iterated.
const near = 1e-12

func close(got, want float64) bool {
	return math.Abs(got-want) <= near*math.Max(1, math.Abs(want))
}

// The foot is 0.3048 m, the pound 0.45359237 kg and standard gravity 9.80665
// m/s2, all exactly (international agreement of 1959; CGPM 1901). Expected
// values are worked out from these alone.
const deg = math.Pi / 180

var cases = []struct {
	kind quantity.Kind
	text string
	sys  System
	want float64
}{
	{quantity.Length, `6'4"`, Metric, 76 * 0.0254},
	{quantity.Length, `6'4"`, US, 76 * 0.0254},
	{quantity.Length, `6' 4 1/2"`, US, 76.5 * 0.0254},
	{quantity.Length, `6'-4 1/2"`, US, 76.5 * 0.0254},
	{quantity.Length, `6'-4½"`, US, 76.5 * 0.0254},
	{quantity.Length, `6′4″`, US, 76 * 0.0254},
	{quantity.Length, `6’ 4”`, US, 76 * 0.0254},
	{quantity.Length, `6' 4''`, US, 76 * 0.0254},
	{quantity.Length, `6ft 4in`, Metric, 76 * 0.0254},
	{quantity.Length, `6 feet 4 inches`, Metric, 76 * 0.0254},
	{quantity.Length, `6-4`, US, 76 * 0.0254},
	{quantity.Length, `6-4 3/8`, US, 76.375 * 0.0254},
	{quantity.Length, `6' 4`, US, 76 * 0.0254},
	{quantity.Length, `6'`, Metric, 72 * 0.0254},
	{quantity.Length, `76"`, Metric, 76 * 0.0254},
	{quantity.Length, `3/8"`, Metric, 0.375 * 0.0254},
	{quantity.Length, `4-1/2"`, Metric, 4.5 * 0.0254},
	{quantity.Length, `-2'3"`, US, -27 * 0.0254},
	{quantity.Length, `−2'3"`, US, -27 * 0.0254},
	{quantity.Length, `- 0'6"`, US, -6 * 0.0254},
	{quantity.Length, `1.93 m`, US, 1.93},
	{quantity.Length, `193cm`, US, 1.93},
	{quantity.Length, `1930 mm`, US, 1.93},
	{quantity.Length, `1 m 93 cm`, US, 1.93},
	{quantity.Length, `1.93`, Metric, 1.93},
	{quantity.Length, `1,93`, Metric, 1.93},
	{quantity.Length, `0,125`, Metric, 0.125},
	{quantity.Length, `.5`, Metric, 0.5},
	{quantity.Length, `+3`, Metric, 3},
	{quantity.Length, `6.5`, US, 6.5 * 0.3048},
	{quantity.Length, `6 1/2`, US, 6.5 * 0.3048},
	{quantity.Length, `12 500 mm`, US, 12.5},
	{quantity.Length, `1,234.5 mm`, US, 1.2345},
	{quantity.Length, `1.234,5 mm`, US, 1.2345},
	{quantity.Length, `1,234,567 mm`, US, 1234.567},
	{quantity.Thickness, `1.6`, Metric, 0.0016},
	{quantity.Thickness, `1.6 mm`, US, 0.0016},
	{quantity.Thickness, `1/16`, US, 0.0254 / 16},
	{quantity.Thickness, `0.063 in`, Metric, 0.063 * 0.0254},
	{quantity.Thickness, `60 mil`, Metric, 0.06 * 0.0254},

	// 1 psf = 0.04788 kPa, 1 pcf = 1 psf/ft = 0.15709 kN/m3 (references/earth.md 0)
	{quantity.Pressure, `1 psf`, Metric, 0.45359237 * 9.80665 / 0.3048 / 0.3048 / 1000},
	{quantity.Pressure, `100`, US, 45.359237 * 9.80665 / 0.3048 / 0.3048 / 1000},
	{quantity.Pressure, `15 kPa`, US, 15},
	{quantity.Pressure, `15 kN/m²`, US, 15},
	{quantity.Pressure, `1 psi`, US, 0.45359237 * 9.80665 / 0.0254 / 0.0254 / 1000},
	// a gallon is 231 cubic inches, a horsepower 550 foot-pounds a second
	{quantity.Flow, `60 L/min`, US, 1e-3},
	{quantity.Flow, `3.6 m³/h`, US, 1e-3},
	{quantity.Flow, `60 gpm`, Metric, 231 * 0.0254 * 0.0254 * 0.0254},
	{quantity.Flow, `60`, US, 231 * 0.0254 * 0.0254 * 0.0254},
	{quantity.Flow, `1 cfs`, US, 0.3048 * 0.3048 * 0.3048},
	{quantity.LineFlow, `6 L/min/m`, US, 1e-4},
	{quantity.Velocity, `1.4 ft/s`, Metric, 1.4 * 0.3048},
	{quantity.Permeability, `2.0×10⁻⁵ m/s`, US, 2e-5},
	{quantity.Permeability, `1e-3 cm/s`, US, 1e-5},
	{quantity.Permeability, `864 m/day`, US, 0.01},
	{quantity.Rate, `36 mm/h`, US, 1e-5},
	{quantity.Rate, `1 in/hr`, Metric, 0.0254 / 3600},
	{quantity.Permittivity, `0.5 /s`, US, 0.5},
	{quantity.Duration, `1.5 h`, Metric, 5400},
	{quantity.Duration, `10`, US, 600},
	{quantity.Power, `1 hp`, US, 550 * 0.45359237 * 9.80665 * 0.3048},
	{quantity.Energy, `2.8 kWh`, US, 2800},
	{quantity.Grain, `3/4"`, US, 0.75 * 25.4},
	{quantity.Temperature, "8", Metric, 8},
	{quantity.Temperature, "−40", US, -40},
	{quantity.Temperature, "212 °F", Metric, 100},
	{quantity.Temperature, "32F", Metric, 0},
	{quantity.Temperature, "10 °C", US, 10},
	{quantity.Warmth, "18 °F", US, 10},
	{quantity.FrostIndex, "2500", US, 2500 / 1.8},
	{quantity.FrostIndex, "450 °C·d", US, 450},
	{quantity.Conductivity, "0.76 Btu/h·ft·°F", Metric, 0.76 * 1055.05585262 / 3600 / 0.3048 * 1.8},
	{quantity.Insulation, "10 R", Metric, 10 * 3600 * 0.3048 * 0.3048 / 1055.05585262 / 1.8},
	{quantity.AirFlow, "5 cfm", Metric, 5 * 0.3048 * 0.3048 * 0.3048 / 60},
	{quantity.Grain, `0.075`, US, 0.075},
	{quantity.UnitWeight, `1 pcf`, Metric, 0.45359237 * 9.80665 / 0.3048 / 0.3048 / 0.3048 / 1000},
	{quantity.UnitWeight, `1 psf/ft`, Metric, 0.45359237 * 9.80665 / 0.3048 / 0.3048 / 0.3048 / 1000},
	{quantity.UnitWeight, `19 kN/m3`, US, 19},
	{quantity.UnitWeight, `19 kN/m^3`, US, 19},
	{quantity.UnitWeight, `1000 kg/m3`, US, 9.80665},
	{quantity.LineLoad, `1 lb/ft`, Metric, 0.45359237 * 9.80665 / 0.3048 / 1000},
	{quantity.LineLoad, `2 klf`, Metric, 2 * 453.59237 * 9.80665 / 0.3048 / 1000},
	{quantity.Force, `1 kip`, Metric, 453.59237 * 9.80665 / 1000},
	{quantity.Force, `2 kN`, US, 2},
	{quantity.Moment, `1 ft-lb`, Metric, 0.45359237 * 9.80665 * 0.3048 / 1000},
	{quantity.Moment, `2 kN·m`, US, 2},
	{quantity.LineMoment, `1 ft-lb/ft`, Metric, 0.45359237 * 9.80665 / 1000},
	{quantity.Stress, `50 ksi`, Metric, 50e3 * 0.45359237 * 9.80665 / 0.0254 / 0.0254 / 1000},
	{quantity.Stress, `345`, Metric, 345000},
	{quantity.Mass, `2230`, Metric, 2.230},
	{quantity.Mass, `1 lb`, Metric, 0.00045359237},
	{quantity.Volume, `1 yd³`, Metric, 0.9144 * 0.9144 * 0.9144},
	{quantity.Hours, `10 days`, US, 240},
	{quantity.None, `1e-6`, US, 1e-6},
	{quantity.Ratio, `85 %`, US, 0.85},
	{quantity.SectionModulus, `28.35 cm³`, US, 28.35e-6},

	{quantity.Angle, `32`, US, 32 * deg},
	{quantity.Angle, `32,5°`, US, 32.5 * deg},
	{quantity.Angle, `18°30'`, US, 18.5 * deg},
	{quantity.Angle, `18° 30' 36"`, US, 18.51 * deg},
	{quantity.Angle, `-18.5 deg`, US, -18.5 * deg},
	{quantity.Angle, `33 %`, US, math.Atan(0.33)}, // 18.263 degrees in LV-04

	{quantity.Slope, `1.5:1`, Metric, 1.5},
	{quantity.Slope, `1:1.5`, Metric, 1 / 1.5},
	{quantity.Slope, `1½:1`, Metric, 1.5},
	{quantity.Slope, `3/4:1`, Metric, 0.75},
	{quantity.Slope, `1.5H:1V`, Metric, 1.5},
	{quantity.Slope, `1V:1.5H`, Metric, 1.5},
	{quantity.Slope, `1 in 2`, Metric, 2},
	{quantity.Slope, `45°`, Metric, 1},
	{quantity.Slope, `90°`, Metric, 0},
	{quantity.Slope, `50%`, Metric, 2},
	{quantity.Slope, `0`, Metric, 0},
	{quantity.Slope, `2`, Metric, 2},

	{quantity.Gradient, `2%`, Metric, 0.02},
	{quantity.Gradient, `2`, Metric, 0.02},
	{quantity.Gradient, `-1,5`, US, -0.015},
	{quantity.Gradient, `1 in 50`, US, 0.02},
	{quantity.Gradient, `45°`, US, 1},
}

func TestParse(t *testing.T) {
	for _, c := range cases {
		t.Run(c.text, func(t *testing.T) {
			got, err := Parse(c.kind, c.text, c.sys)
			if err != nil || !close(got, c.want) {
				t.Errorf("%s in %v = %v, %v; want %v", kindNames[c.kind], c.sys, got, err, c.want)
			}
		})
	}
}

// DR-03 (derived): degrees, percentage and run of the ordinary batters.
func TestParseSlopeWords(t *testing.T) {
	const tol = 0.001 // the case prints three decimals of a degree, two of a percentage
	for _, c := range []struct {
		text, degrees, percent string
		run                    float64
	}{
		{"0.5:1", "63.435°", "200%", 0.5},
		{"0.75:1", "53.130°", "133.33%", 0.75},
		{"1:1", "45°", "100%", 1},
		{"1.5:1", "33.690°", "66.67%", 1.5},
		{"2:1", "26.565°", "50%", 2},
		{"3:1", "18.435°", "33.33%", 3},
		{"4:1", "14.036°", "25%", 4},
	} {
		t.Run("DR-03 "+c.text, func(t *testing.T) {
			for _, text := range []string{c.text, c.degrees, c.percent} {
				got, err := Parse(quantity.Slope, text, Metric)
				if err != nil || math.Abs(got-c.run) > tol {
					t.Errorf("%q = %v, %v; want %v", text, got, err, c.run)
				}
			}
		})
	}
	t.Run("DR-03 read as V:H", func(t *testing.T) {
		got, err := Parse(quantity.Slope, "1.5:1", US)
		if angle := math.Atan(1/got) * 180 / math.Pi; err != nil || math.Abs(angle-56.31) < 1 {
			t.Errorf("1.5:1 stands at %v°: it was read as vertical to horizontal", angle)
		}
	})
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		kind quantity.Kind
		text string
		says string
	}{
		{quantity.Length, ``, "empty"},
		{quantity.Length, `  `, "empty"},
		{quantity.Length, `abc`, "expected a number"},
		{quantity.Length, `NaN`, "expected a number"},
		{quantity.Length, `inf`, "expected a number"},
		{quantity.Length, `1e400`, ""},
		{quantity.Length, `6x4`, `"x4"`},
		{quantity.Length, `5 psf`, "unit of pressure"},
		{quantity.Length, `6'14"`, "reaches a whole"},
		{quantity.Length, `6.5' 3"`, "only the last part"},
		{quantity.Length, `3" 6'`, "larger unit comes first"},
		{quantity.Length, `6' 6'`, "larger unit comes first"},
		{quantity.Length, `1 m 6"`, "mixes"},
		{quantity.Length, `6 4`, "no unit"},
		{quantity.Length, `6-1/2`, "mixed fraction"},
		{quantity.Length, `6'4"5`, "no unit"},
		{quantity.Length, `1,234`, "1234 or 1.234"},
		{quantity.Length, `1.2.3`, "points"},
		{quantity.Length, `12,34.5`, "odd place"},
		{quantity.Length, `1/0"`, "no fraction"},
		{quantity.Length, `--3`, "expected a number"},
		{quantity.Thickness, `16 ga`, "gauge"},
		{quantity.UnitWeight, `20 psf`, "unit of pressure"},
		{quantity.Pressure, `20 psf/ft`, "unit of unit weight"},
		{quantity.Pressure, `20 furlong`, "not known"},
		{quantity.Slope, `1:0`, "level"},
		{quantity.Slope, `0%`, "level"},
		{quantity.Slope, `0°`, "above 0°"},
		{quantity.Slope, `1H:1H`, "name both"},
		{quantity.Slope, `-1:1`, "expected a number"},
		{quantity.Gradient, `1:50`, "both ways"},
		{quantity.Gradient, `90°`, "below 90°"},
		{quantity.Angle, `18° 75'`, "below 60"},
		{quantity.Angle, `18.5° 30'`, "whole degrees"},
	} {
		t.Run(c.text, func(t *testing.T) {
			v, err := Parse(c.kind, c.text, Metric)
			var p *ParseError
			if !errors.As(err, &p) {
				t.Fatalf("%q as %s = %v, %v; want a ParseError", c.text, kindNames[c.kind], v, err)
			}
			if !strings.Contains(err.Error(), c.says) || p.Example == "" {
				t.Errorf("message %q does not say %q with an example", err, c.says)
			}
		})
	}
}

// Every kind must have its units, its name and an example that it can read.
func TestEveryKindIsComplete(t *testing.T) {
	for k := quantity.None; k <= quantity.Last; k++ {
		for _, sys := range []System{Metric, US} {
			if kindNames[k] == "" || examples[k] == "" {
				t.Fatalf("kind %d has no name or no example", k)
			}
			for _, ex := range strings.Split(strings.ReplaceAll(examples[k], " or ", ", "), ", ") {
				ex, _, _ = strings.Cut(ex, " (")
				if _, err := Parse(k, ex, sys); err != nil {
					t.Errorf("the example %q of %s: %v", ex, kindNames[k], err)
				}
			}
			one, err := Parse(k, "1 "+Unit(k, sys), sys)
			bare, err2 := Parse(k, "1", sys)
			if k == quantity.Slope {
				continue // its unit is a way of writing, not a word
			}
			if err != nil || err2 != nil || !close(one, bare) {
				t.Errorf("%s in %v: with its unit %v (%v), bare %v (%v)", kindNames[k], sys, one, err, bare, err2)
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{`6'4"`, "1,93", "1:1.5", "18°30'", "1e-6 m", "½", "6'-4½\"", "−3 %"} {
		f.Add(s, 1, true)
	}
	f.Fuzz(func(t *testing.T, text string, kind int, us bool) {
		k := quantity.Kind(uint(kind) % uint(quantity.Last+1))
		sys := Metric
		if us {
			sys = US
		}
		v, err := Parse(k, text, sys)
		if err != nil {
			return
		}
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%q was read as %v", text, v)
		}
		if s := Format(v, k, sys); strings.Contains(s, "NaN") || s == "" {
			t.Fatalf("%v is shown as %q", v, s)
		}
	})
}
