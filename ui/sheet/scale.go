package sheet

// Scale is one standard drawing scale.
type Scale struct {
	Den  float64 // denominator: 50 for 1:50
	Name string  // as written in the title block
	Feet bool    // the scale bar is in feet
	// Bar is the length of the scale bar on paper, mm, and Real what it stands
	// for, m or ft; Parts is the number of its divisions.
	Bar, Real float64
	Parts     int
}

// MMPerM is the number of paper millimetres to one metre.
func (s Scale) MMPerM() float64 { return 1000 / s.Den }

// Metric scales: ISO 5455, largest first. The bar is always 100 mm.
var metricScales = []Scale{
	metric(1, "1:1"), metric(2, "1:2"), metric(5, "1:5"),
	metric(10, "1:10"), metric(20, "1:20"), metric(50, "1:50"),
	metric(100, "1:100"), metric(200, "1:200"), metric(500, "1:500"),
	metric(1000, "1:1000"), metric(2000, "1:2000"),
}

// US scales: the architect's scale from 3 in to ⅛ in to the foot, then the
// engineer's scale from 10 ft to 60 ft to the inch. The bar is of a round
// number of feet, 3 to 4 in long.
var usScales = []Scale{
	architect(3, "3 in = 1 ft", 1), architect(1.5, "1½ in = 1 ft", 2), architect(1, "1 in = 1 ft", 4),
	architect(0.75, "¾ in = 1 ft", 4), architect(0.5, "½ in = 1 ft", 8), architect(0.375, "⅜ in = 1 ft", 8),
	architect(0.25, "¼ in = 1 ft", 16), architect(0.1875, "3/16 in = 1 ft", 20), architect(0.125, "⅛ in = 1 ft", 32),
	engineer(10, "1 in = 10 ft"), engineer(20, "1 in = 20 ft"), engineer(30, "1 in = 30 ft"),
	engineer(40, "1 in = 40 ft"), engineer(50, "1 in = 50 ft"), engineer(60, "1 in = 60 ft"),
}

func metric(den float64, name string) Scale {
	return Scale{Den: den, Name: name, Bar: 100, Real: den / 10, Parts: 5}
}

// architect makes the scale of a number of inches to the foot.
func architect(in float64, name string, feet float64) Scale { return us(12/in, name, feet) }

// engineer makes the scale of a number of feet to the inch.
func engineer(ft float64, name string) Scale { return us(12*ft, name, 4*ft) }

func us(den float64, name string, feet float64) Scale {
	return Scale{Den: den, Name: name, Feet: true, Bar: feet * 304.8 / den, Real: feet, Parts: 4}
}

// scales gives the standard scales of a system of units, largest first.
func scales(feet bool) []Scale {
	if feet {
		return usScales
	}
	return metricScales
}

// LargestScale is the largest standard scale at which a drawing of w by h
// metres fits a field of fieldW by fieldH millimetres; ok is false when even
// the smallest is too large.
func LargestScale(feet bool, w, h, fieldW, fieldH float64) (s Scale, ok bool) {
	for _, s := range scales(feet) {
		if k := s.MMPerM(); w*k <= fieldW && h*k <= fieldH {
			return s, true
		}
	}
	return Scale{}, false
}
