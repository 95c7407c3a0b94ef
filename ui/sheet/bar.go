package sheet

import (
	"fmt"
	"math"
	"strconv"
)

// barH is the height of the scale bar with its figures and its note, mm.
const barH = 12.0

// drawBar draws the scale bar at the top left of a field. It survives a print
// that was fitted to the page; the written ratio does not.
func drawBar(b *board, s Scale, f box) {
	x, y := f.x+barOver(s), f.y+capLeast+1.6
	part := s.Bar / float64(s.Parts)
	for i := range s.Parts {
		fill := white
		if i%2 == 0 {
			fill = black
		}
		b.rect("scale-bar:part", box{x + float64(i)*part, y, part, 1.8}, fill, black, hair)
	}
	b.line("scale-bar", thin, x, y+1.8, x+s.Bar, y+1.8)
	ts := barStyle
	for i := 0; i <= s.Parts; i++ {
		b.text("scale-bar:mark", ts, x+float64(i)*part, y-1, barMark(s, i))
	}
	b.text("scale-bar:note", ts, x+s.Bar/2, y+1.8+1.4+capLeast, barNote(s))
}

// barStyle is how the texts of the bar are set.
var barStyle = style{cap: capLeast, ink: black, h: 0.5}

// barOver is how far the texts of the bar reach over its ends, mm.
func barOver(s Scale) float64 {
	last := barStyle.width(barMark(s, s.Parts)) / 2
	return max(last, (barStyle.width(barNote(s))-s.Bar)/2) + 1
}

// barWidth is the width of the bar with its texts, mm.
func barWidth(s Scale) float64 { return s.Bar + 2*barOver(s) }

// barMark is the number at the end of division i, the unit at the last.
func barMark(s Scale, i int) string {
	v := s.Real * float64(i) / float64(s.Parts)
	text := strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
	if i < s.Parts {
		return text
	}
	if s.Feet {
		return text + " ft"
	}
	return text + " m"
}

func barNote(s Scale) string {
	if s.Feet {
		return fmt.Sprintf("Scale %s; this bar is %g in long on a true print", s.Name, math.Round(s.Bar/25.4*1e4)/1e4)
	}
	return fmt.Sprintf("Scale %s; this bar is 100 mm long on a true print", s.Name)
}
