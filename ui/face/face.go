// Package face measures and outlines the one typeface of the program. Screen,
// paper and exports all ask it, so that a text is as wide on one as on the
// other. It knows neither the window toolkit nor the PDF library.
package face

import (
	"fmt"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"hillset/assets"
)

// CapPerEm is the height of a capital in the typeface as a share of the em
// (1480 of 2048 units in both weights). A text of capital height h is set at
// the font size h / CapPerEm.
const CapPerEm = 1480.0 / 2048

// Replacement stands where the typeface has no sign for a rune.
const Replacement = '?'

// weight is one weight of the typeface with what has been read from it.
type weight struct {
	font   *sfnt.Font
	upem   float64
	common [0x250]float64 // advances of the Latin runes in em, read at once
	mu     sync.RWMutex
	glyphs map[rune]*glyph
}

// glyph is what is known of one rune; index 0 means that the typeface lacks it.
type glyph struct {
	index    sfnt.GlyphIndex
	advance  float64 // em
	contours []Contour
	outlined bool
}

var (
	regular = sync.OnceValue(func() *weight { return parse("regular", assets.Regular()) })
	heavy   = sync.OnceValue(func() *weight { return parse("bold", assets.Bold()) })
)

// parse reads an embedded font. A font that cannot be read is a fault of the
// build, not of any input, hence the panic.
func parse(name string, ttf []byte) *weight {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic(fmt.Sprintf("face: the embedded %s font cannot be read: %v", name, err))
	}
	w := &weight{font: f, upem: float64(f.UnitsPerEm()), glyphs: map[rune]*glyph{}}
	for r := range w.common {
		w.common[r] = w.advance(rune(r))
	}
	return w
}

// advance is the advance of r or, where the font lacks it, of the Replacement.
func (w *weight) advance(r rune) float64 {
	g := w.glyph(r, false)
	if g.index == 0 {
		g = w.glyph(Replacement, false)
	}
	return g.advance
}

func pick(bold bool) *weight {
	if bold {
		return heavy()
	}
	return regular()
}

// glyph returns the glyph of r, reading its outline too when asked.
func (w *weight) glyph(r rune, outline bool) *glyph {
	w.mu.RLock()
	g := w.glyphs[r]
	w.mu.RUnlock()
	if g != nil && (g.outlined || !outline) {
		return g
	}
	g = w.read(r, outline)
	w.mu.Lock()
	w.glyphs[r] = g
	w.mu.Unlock()
	return g
}

// read takes a glyph from the font at one pixel per font unit, so that the
// 26.6 numbers are font units without rounding.
func (w *weight) read(r rune, outline bool) *glyph {
	var buf sfnt.Buffer
	ppem := fixed.I(int(w.upem))
	index, err := w.font.GlyphIndex(&buf, r)
	if err != nil || index == 0 {
		return &glyph{outlined: true}
	}
	adv, err := w.font.GlyphAdvance(&buf, index, ppem, font.HintingNone)
	if err != nil {
		panic(fmt.Sprintf("face: advance of %q: %v", r, err))
	}
	g := &glyph{index: index, advance: w.em(adv), outlined: outline}
	if outline {
		segs, err := w.font.LoadGlyph(&buf, index, ppem, nil)
		if err != nil {
			panic(fmt.Sprintf("face: outline of %q: %v", r, err))
		}
		g.contours = w.contours(segs)
	}
	return g
}

func (w *weight) em(v fixed.Int26_6) float64 { return float64(v) / 64 / w.upem }

// Has tells whether both weights have a sign for r.
func Has(r rune) bool {
	return regular().glyph(r, false).index != 0 && heavy().glyph(r, false).index != 0
}

// Advance is how far the pen moves over r, in em. A rune that the typeface
// lacks advances as the Replacement does.
func Advance(r rune, bold bool) float64 {
	return pick(bold).over(r)
}

// over is advance by way of the table of common runes.
func (w *weight) over(r rune) float64 {
	if r >= 0 && int(r) < len(w.common) {
		return w.common[r]
	}
	return w.advance(r)
}

// Width is the length of one line of text whose capitals are capHeight high,
// in the unit of capHeight. Advances are added without kerning, as the PDF
// does. The empty text has width 0.
func Width(text string, capHeight float64, bold bool) float64 {
	w, em := pick(bold), 0.0
	for _, r := range text {
		em += w.over(r)
	}
	return em * capHeight / CapPerEm
}

// Clean makes text fit to be drawn: tabs and line ends become spaces, other
// control and format characters are dropped, and runes that the typeface
// lacks (or broken UTF-8) become the Replacement. replaced tells whether the
// last happened, so that the user can be told.
func Clean(text string) (clean string, replaced bool) {
	var b strings.Builder
	b.Grow(len(text))
	for _, r := range text {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			b.WriteRune(' ')
		case unicode.IsControl(r) || unicode.Is(unicode.Cf, r):
		case r == unicode.ReplacementChar || !Has(r):
			b.WriteRune(Replacement)
			replaced = true
		default:
			b.WriteRune(r)
		}
	}
	return b.String(), replaced
}
