package quantity

import (
	"math"
	"testing"
)

func TestTextReadsBack(t *testing.T) {
	seen := map[string]bool{}
	for k := None; k <= Last; k++ {
		if n := names[k]; n == "" || seen[n] {
			t.Fatalf("kind %d is called %q", k, n)
		}
		seen[names[k]] = true
		for m := range Manner(len(manners)) {
			for _, v := range []float64{0, -0.35, 1e-9, 123456.789, math.Inf(1)} {
				s := m.Text(v, k)
				if q, got, ok := Read(s[1 : len(s)-1]); !ok || q.Val != v || q.Kind != k || got != m {
					t.Errorf("%s reads back as %+v, %v, %v", s, q, got, ok)
				}
			}
		}
	}
	for _, s := range []string{"", "0", "length", "length x", "length 1 sideways", "cubit 3", "length 1 up down", "length  1"} {
		if q, m, ok := Read(s); ok {
			t.Errorf("%q reads as %+v %v", s, q, m)
		}
	}
}

func TestUnits(t *testing.T) {
	want := map[Kind]string{Length: "m", Area: "m2", Moment: "kNm", LineMoment: "kNm/m", Stress: "kPa", UnitWeight: "kN/m3", Factor: "",
		Flow: "m3/s", Permeability: "m/s", Rate: "m/s", Grain: "mm", Energy: "Wh"}
	for k, u := range want {
		if Unit(k) != u {
			t.Errorf("Unit(%d) = %q, want %q", k, Unit(k), u)
		}
	}
}

func TestSI(t *testing.T) {
	for text, want := range map[string]string{
		"at " + Text(0.35, Length) + ".":      "at 0.35 m.",
		Between(0.05, 1, Length):              "0.05 m to 1 m",
		"{0} of {soil}, " + Text(2, Ratio):    "{0} of {soil}, 2",
		"no end {length 2":                    "no end {length 2",
		"{" + Text(1.5, Pressure) + "} {x} {": "{1.5 kPa} {x} {",
	} {
		if got := SI(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
