package sheet

import (
	"image/color"
	"math"
	"sort"

	"hillset/geom"
	"hillset/ui/face"
	"hillset/ui/scene"
)

// Inks of what the sheet itself adds to the scenes: all readable in grey.
var (
	black = color.RGBA{0, 0, 0, 255}
	grey  = color.RGBA{80, 80, 80, 255}
	pale  = color.RGBA{232, 232, 232, 255}
	white = color.RGBA{255, 255, 255, 255}
	none  = color.RGBA{}
)

// Line widths of the sheet, mm: the series of ISO 128, each √2 of the next.
const (
	hair  = 0.18
	thin  = 0.25
	frame = 0.7
)

// Sizes of letters, mm of capital height.
const (
	capLeast = 2.0 // the least on any sheet
	capBody  = 2.5
	capHead  = 3.5
	capTitle = 5.0
)

// sheetLayer is the document layer of all that is not part of a section.
const sheetLayer = "sheet"

// board draws on a Paper and keeps the first error, so that a layout reads as
// a list of things drawn. It replaces signs that the typeface lacks and
// remembers them.
type board struct {
	paper   Paper
	err     error
	lost    map[rune]bool
	palette scene.Palette
}

func newBoard(p Paper) *board {
	return &board{paper: p, lost: map[rune]bool{}, palette: scene.Colours(scene.Print)}
}

func (b *board) page(w, h float64) {
	if b.err == nil {
		b.err = b.paper.Page(w, h)
	}
}

func (b *board) path(p Path) {
	if b.err == nil {
		b.err = b.paper.Path(p)
	}
}

// clean makes text fit for the typeface and remembers what it lacked.
func (b *board) clean(text string) string {
	out, replaced := face.Clean(text)
	if replaced {
		for _, r := range text {
			if c, bad := face.Clean(string(r)); bad && c == string(face.Replacement) {
				b.lost[r] = true
			}
		}
	}
	return out
}

// lostSigns lists the runes replaced so far, in order of their number.
func (b *board) lostSigns() []rune {
	out := make([]rune, 0, len(b.lost))
	for r := range b.lost {
		out = append(out, r)
	}
	sort.Slice(out, func(i, j int) bool { return out[i] < out[j] })
	return out
}

// style is how a text of the sheet looks.
type style struct {
	cap  float64
	bold bool
	ink  color.RGBA
	h    float64 // 0 left of, 0.5 centred on, 1 right of the point
}

func (s style) width(text string) float64 { return face.Width(text, s.cap, s.bold) }

// text writes one line; x, y is the baseline.
func (b *board) text(tag string, s style, x, y float64, text string) {
	text = b.clean(text)
	if text == "" {
		return
	}
	b.put(Text{Tag: tag, Layer: sheetLayer, X: x - s.h*s.width(text), Y: y, Text: text, Cap: s.cap, Bold: s.bold, Ink: s.ink})
}

func (b *board) put(t Text) {
	if b.err == nil {
		b.err = b.paper.Text(t)
	}
}

// line draws one straight line.
func (b *board) line(tag string, width float64, x1, y1, x2, y2 float64) {
	b.path(Path{Tag: tag, Layer: sheetLayer, Parts: []geom.Polyline{{{x1, y1}, {x2, y2}}}, Stroke: black, Width: width})
}

// rect draws a rectangle.
func (b *board) rect(tag string, r box, fill, stroke color.RGBA, width float64) {
	b.path(Path{Tag: tag, Layer: sheetLayer, Parts: []geom.Polyline{r.ring()}, Closed: true, Fill: fill, Stroke: stroke, Width: width})
}

func (b box) ring() geom.Polyline {
	return geom.Polyline{{b.x, b.y}, {b.right(), b.y}, {b.right(), b.bottom()}, {b.x, b.bottom()}}
}

// fitted shortens a text with an ellipsis until it is no wider than w.
func fitted(s style, text string, w float64) string {
	const dots = "…"
	room, all := w-s.width(dots), 0.0
	cut := 0 // bytes that fit beside the dots
	for i, r := range text {
		if all <= room {
			cut = i
		}
		all += face.Advance(r, s.bold) * s.cap / face.CapPerEm
		if all > w+tiny {
			break
		}
	}
	switch {
	case all <= w+tiny:
		return text
	case cut == 0:
		return ""
	}
	return text[:cut] + dots
}

// corners gives the corners of a text's box, for measuring: width along the
// baseline, from under the descenders to the capital line.
func (t Text) corners() geom.Polyline {
	w := face.Width(t.Text, t.Cap, t.Bold)
	sin, cos := math.Sincos(t.Angle)
	at := func(u, v float64) geom.Vec { // u along the line, v up from the baseline
		return geom.Vec{t.X + u*cos - v*sin, t.Y - u*sin - v*cos}
	}
	low := -descent * t.Cap
	return geom.Polyline{at(0, low), at(w, low), at(w, t.Cap), at(0, t.Cap)}
}

// descent is how far letters reach below the baseline, as a share of the
// capital height: 'g' and 'p' of the embedded face reach 0.29 of it.
const descent = 0.3
