package sheet

import (
	"math"
	"testing"
)

func TestDR02ScaleChoice(t *testing.T) {
	// references/site.md DR-02 (derived).
	const ft, in = 0.3048, 25.4
	for _, c := range []struct {
		name         string
		feet         bool
		w, h, fw, fh float64
		want         string
		pw, ph       float64 // size on paper, mm
	}{
		{"A3", false, 18.3, 7.4, 390, 237, "1:50", 366, 148},
		{"A4", false, 18.3, 7.4, 267, 150, "1:100", 183, 74},
		{"US", true, 60 * ft, 24 * ft, 16 * in, 8 * in, "¼ in = 1 ft", 15 * in, 6 * in},
		{"exactly full", false, 4, 2, 200, 100, "1:20", 200, 100},
		{"an inch to ten feet", true, 100 * ft, 10 * ft, 10 * in, 8 * in, "1 in = 10 ft", 10 * in, in},
	} {
		t.Run("DR-02 "+c.name, func(t *testing.T) {
			s, ok := LargestScale(c.feet, c.w, c.h, c.fw+1e-9, c.fh)
			if !ok || s.Name != c.want {
				t.Fatalf("scale %q, want %q", s.Name, c.want)
			}
			if k := s.MMPerM(); math.Abs(c.w*k-c.pw) > 1e-6 || math.Abs(c.h*k-c.ph) > 1e-6 {
				t.Errorf("on paper %g x %g mm, want %g x %g", c.w*k, c.h*k, c.pw, c.ph)
			}
		})
	}
	if s, ok := LargestScale(false, 1e6, 1, 100, 100); ok {
		t.Errorf("a drawing of 1000 km fits at %s", s.Name)
	}
}

func TestScaleBars(t *testing.T) {
	// DR-02: a bar of 100 mm at 1:50 reads 5 m (derived).
	for _, s := range metricScales {
		if s.Name == "1:50" && (s.Bar != 100 || s.Real != 5) {
			t.Errorf("1:50: %g mm reads %g m", s.Bar, s.Real)
		}
	}
	for _, feet := range []bool{false, true} {
		last := 0.0
		for _, s := range scales(feet) {
			unit := 1000.0
			if s.Feet {
				unit = 304.8
			}
			if math.Abs(s.Bar*s.Den-s.Real*unit) > 1e-6 {
				t.Errorf("%s: the bar of %g mm is not %g", s.Name, s.Bar, s.Real)
			}
			if s.Den <= last {
				t.Errorf("%s stands out of order", s.Name)
			}
			last = s.Den
		}
	}
	if got := barMark(metricScales[5], 5) + barMark(metricScales[5], 1); got != "5 m1" {
		t.Errorf("marks %q", got)
	}
	if got := barMark(usScales[6], 4); got != "16 ft" {
		t.Errorf("US mark %q", got)
	}
}
