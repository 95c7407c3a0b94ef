package sheet

import (
	"fmt"
	"strings"
)

// Size is a paper size.
type Size struct {
	Name  string
	Short float64 // mm
	Long  float64 // mm
	Large bool    // room for the tables beside the drawing
}

// Sizes are the paper sizes on offer: ISO 216 and ANSI A and B.
var Sizes = []Size{
	{Name: "A4", Short: 210, Long: 297},
	{Name: "A3", Short: 297, Long: 420, Large: true},
	{Name: "letter", Short: 215.9, Long: 279.4},
	{Name: "tabloid", Short: 279.4, Long: 431.8, Large: true},
}

// SizeNamed finds a paper size by its name, in either case.
func SizeNamed(name string) (Size, error) {
	names := make([]string, len(Sizes))
	for i, s := range Sizes {
		if strings.EqualFold(s.Name, name) {
			return s, nil
		}
		names[i] = s.Name
	}
	return Size{}, fmt.Errorf("sheet size = %q (allowed: %s)", name, strings.Join(names, ", "))
}

// box is a rectangle on paper, mm, y down.
type box struct{ x, y, w, h float64 }

func (b box) right() float64  { return b.x + b.w }
func (b box) bottom() float64 { return b.y + b.h }

func (b box) inset(d float64) box { return box{b.x + d, b.y + d, b.w - 2*d, b.h - 2*d} }

// The frame of ISO 5457: a filing margin on the left, less on the other sides.
const (
	filingMargin = 20.0
	margin       = 10.0
)

// page gives width and height as laid.
func (s Size) page(landscape bool) (w, h float64) {
	if landscape {
		return s.Long, s.Short
	}
	return s.Short, s.Long
}

// frame is the drawing frame inside the margins.
func (s Size) frame(landscape bool) box {
	w, h := s.page(landscape)
	return box{filingMargin, margin, w - filingMargin - margin, h - 2*margin}
}
