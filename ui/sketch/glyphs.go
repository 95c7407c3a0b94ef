package sketch

import (
	"hillset/geom"
	"hillset/ui/face"
)

// flatness is how far a curve of a letter may be from its chords, in em: a
// tenth of a pixel for letters 16 pixels tall.
const flatness = 0.0045

// glyph is one letter in capital heights, x to the right, y up from the
// baseline.
type glyph struct {
	advance float64
	rings   []geom.Ring
}

// glyphKey names a letter of one weight.
type glyphKey struct {
	r    rune
	bold bool
}

// letters keeps the outlines of the letters in use. Each strip has its own, so
// that no lock is needed.
type letters map[glyphKey]*glyph

// get gives a letter; one that the typeface lacks shows as its replacement.
func (l letters) get(r rune, bold bool) *glyph {
	k := glyphKey{r, bold}
	if g := l[k]; g != nil {
		return g
	}
	g := &glyph{advance: face.Advance(r, bold) / face.CapPerEm}
	for _, c := range face.Outline(r, bold) {
		ring := c.Flatten(flatness)
		for i := range ring {
			ring[i] = ring[i].Mul(1 / face.CapPerEm)
		}
		g.rings = append(g.rings, ring)
	}
	l[k] = g
	return g
}
