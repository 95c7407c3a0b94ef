package sketch

import (
	"fmt"
	"math"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"hillset/assets"
	"hillset/geom"
)

// flatness is how far a curve of a letter may be from its chords, in capital
// heights: a tenth of a pixel for letters 16 pixels tall.
const flatness = 0.006

// glyph is one letter, in capital heights, x to the right, y up from the
// baseline.
type glyph struct {
	advance  float64
	contours [][]geom.Vec
}

// typeface gives letters as outlines made of straight pieces. It keeps those
// it has made and may be used from several goroutines.
type typeface struct {
	mu     sync.Mutex
	font   *sfnt.Font
	buf    sfnt.Buffer
	ppem   fixed.Int26_6
	scale  float64 // capital heights per font unit
	glyphs map[rune]*glyph
}

var faces = sync.OnceValue(func() [2]*typeface {
	return [2]*typeface{openFace(assets.Regular()), openFace(assets.Bold())}
})

// faceOf gives the upright or the bold face.
func faceOf(bold bool) *typeface {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

func openFace(data []byte) *typeface {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic(fmt.Sprintf("sketch: embedded typeface cannot be read: %v", err))
	}
	t := &typeface{font: f, glyphs: map[rune]*glyph{}}
	t.ppem = fixed.Int26_6(f.UnitsPerEm()) << 6
	m, err := f.Metrics(&t.buf, t.ppem, font.HintingNone)
	if err != nil || m.CapHeight <= 0 {
		panic(fmt.Sprintf("sketch: embedded typeface has no capital height: %v", err))
	}
	t.scale = 1 / float64(m.CapHeight)
	return t
}

// glyph gives the letter r; a letter that the face lacks shows as its sign for
// a missing letter, so that the fault is seen.
func (t *typeface) glyph(r rune) *glyph {
	t.mu.Lock()
	defer t.mu.Unlock()
	if g := t.glyphs[r]; g != nil {
		return g
	}
	g, err := t.load(r)
	if err != nil {
		panic(fmt.Sprintf("sketch: letter %q of the embedded typeface cannot be read: %v", r, err))
	}
	t.glyphs[r] = g
	return g
}

func (t *typeface) load(r rune) (*glyph, error) {
	i, err := t.font.GlyphIndex(&t.buf, r)
	if err != nil {
		return nil, err
	}
	segs, err := t.font.LoadGlyph(&t.buf, i, t.ppem, nil)
	if err != nil {
		return nil, err
	}
	g := &glyph{contours: flatten(segs, t.scale)}
	adv, err := t.font.GlyphAdvance(&t.buf, i, t.ppem, font.HintingNone)
	if err != nil {
		return nil, err
	}
	g.advance = float64(adv) * t.scale
	return g, nil
}

// flatten turns the curves of a letter into chords. Font outlines have y
// pointing down.
func flatten(segs sfnt.Segments, scale float64) [][]geom.Vec {
	var out [][]geom.Vec
	var chain []geom.Vec
	at := func(p fixed.Point26_6) geom.Vec {
		return geom.Vec{float64(p.X) * scale, -float64(p.Y) * scale}
	}
	for _, s := range segs {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if len(chain) > 0 {
				out = append(out, chain)
			}
			chain = []geom.Vec{at(s.Args[0])}
		case sfnt.SegmentOpLineTo:
			chain = append(chain, at(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			chain = quadTo(chain, at(s.Args[0]), at(s.Args[1]))
		case sfnt.SegmentOpCubeTo:
			chain = cubeTo(chain, at(s.Args[0]), at(s.Args[1]), at(s.Args[2]))
		}
	}
	if len(chain) > 0 {
		out = append(out, chain)
	}
	return out
}

// steps is how many chords keep within the flatness, for a curve whose second
// difference has the given length.
func steps(bend float64) int {
	return 1 + int(math.Sqrt(bend/(8*flatness)))
}

func quadTo(chain []geom.Vec, c, b geom.Vec) []geom.Vec {
	a := chain[len(chain)-1]
	n := steps(2 * a.Sub(c.Mul(2)).Add(b).Len())
	for i := 1; i <= n; i++ {
		t := float64(i) / float64(n)
		s := 1 - t
		chain = append(chain, a.Mul(s*s).Add(c.Mul(2*s*t)).Add(b.Mul(t*t)))
	}
	return chain
}

func cubeTo(chain []geom.Vec, c, d, b geom.Vec) []geom.Vec {
	a := chain[len(chain)-1]
	bend := math.Max(a.Sub(c.Mul(2)).Add(d).Len(), c.Sub(d.Mul(2)).Add(b).Len())
	n := steps(6 * bend)
	for i := 1; i <= n; i++ {
		t := float64(i) / float64(n)
		s := 1 - t
		chain = append(chain, a.Mul(s*s*s).Add(c.Mul(3*s*s*t)).Add(d.Mul(3*s*t*t)).Add(b.Mul(t*t*t)))
	}
	return chain
}

// width is the length of a line of text, in capital heights.
func (t *typeface) width(text string) float64 {
	w := 0.0
	for _, r := range text {
		w += t.glyph(r).advance
	}
	return w
}
