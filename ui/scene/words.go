package scene

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
	"hillset/ui/units"
)

// length writes a distance with its unit.
func (b *builder) length(m float64) string {
	return units.Format(m, quantity.Length, b.o.Units)
}

// level writes a level above the datum.
func (b *builder) level(m float64) string { return units.FormatLevel(m, b.o.Units) }

func (b *builder) write(v float64, kind quantity.Kind) string {
	return units.Format(v, kind, b.o.Units)
}

// slope writes the run and rise of a batter with the convention beside it.
func (b *builder) slope(n float64) string {
	const upright = 1e-3 // 1 mm per m is drawn and called vertical
	if n < upright {
		return "vertical"
	}
	return fmt.Sprintf("%.4g:1 (H:V)", math.Round(n*100)/100)
}

// oneTwoFive is the greatest of 1, 2, 5 times a power of ten that is not above v.
func oneTwoFive(v float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{5, 2} {
		if m*p <= v*(1+1e-9) {
			return m * p
		}
	}
	return p
}
