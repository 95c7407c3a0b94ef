package sheet

import (
	"fmt"
	"math"
	"strings"

	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/face"
)

// Distances round the figures, mm.
const (
	figGap     = 8.0 // between two figures
	tightGap   = 4.0 // where room is scarce
	captionGap = 3.0 // between a figure and its caption
	captionEnd = 1.2 // below a caption
	stageLine  = 1.5 * capBody
	// captionMax is how much of a wide caption makes room for itself; a longer
	// one is cut short.
	captionMax = 120.0
)

// arrangement is the figures placed beside or above each other, at one scale.
type arrangement struct {
	scale Scale
	figs  []*figure
	at    []geom.Vec // origin of each section, from the corner of the arrangement
	room  []box      // what each figure takes up with its caption
	w, h  float64    // size used, mm
}

// figures draws all sections for a scale.
func figures(views []*section.View, scene SceneFunc, s Scale, l look) ([]*figure, error) {
	k := s.MMPerM()
	var out []*figure
	for _, v := range views {
		sc, err := scene(v, Drawing{MMPerM: k, Land: l.land(v), Room: l.room, Verdicts: l.verdicts})
		if err != nil {
			return nil, fmt.Errorf("sheet: drawing at %g mm per m: %w", k, err)
		}
		f, err := newFigure(sc, k)
		if err != nil {
			return nil, err
		}
		f.scale = s.Name
		out = append(out, f)
	}
	if l.tight {
		shortCaptions(out)
	}
	return out, nil
}

// shortCaptions sets the captions in one line each, where all of them fit.
func shortCaptions(figs []*figure) {
	for _, f := range figs {
		if f.inLine() > math.Max(f.ext.w, captionMax) {
			return
		}
	}
	for _, f := range figs {
		f.oneLine = true
	}
}

// captionH is the height that a caption takes below its figure.
func (f *figure) captionH() float64 {
	h := captionGap + capHead + captionEnd
	if !f.oneLine {
		h += stageLine
	}
	return h
}

// captionRoom is the greatest height of the captions.
func captionRoom(figs []*figure) (h float64) {
	for _, f := range figs {
		h = max(h, f.captionH())
	}
	return h
}

// bareFits tells whether the works alone could fit, which spares building
// scenes at scales that are far too large.
func bareFits(views []*section.View, k, w, h float64) bool {
	area := 0.0
	for _, v := range views {
		r := works(v)
		if r.W()*k > w || r.H()*k > h {
			return false
		}
		if !r.Empty() {
			area += r.W() * r.H() * k * k
		}
	}
	return area <= w*h
}

// level places figures in a row with equal levels at equal heights.
func level(figs []*figure, gap float64) *arrangement {
	top, bottom := math.Inf(1), math.Inf(-1)
	for _, f := range figs {
		top, bottom = math.Min(top, f.ext.y), math.Max(bottom, f.ext.bottom())
	}
	a := &arrangement{figs: figs, h: bottom - top + captionRoom(figs)}
	a.row(gap, func(*figure) float64 { return -top })
	return a
}

// inRow places figures in a row on one lower edge.
func inRow(figs []*figure, gap float64) *arrangement {
	tall := 0.0
	for _, f := range figs {
		tall = math.Max(tall, f.ext.h)
	}
	a := &arrangement{figs: figs, h: tall + captionRoom(figs)}
	a.row(gap, func(f *figure) float64 { return tall - f.ext.bottom() })
	return a
}

func (a *arrangement) row(gap float64, oy func(*figure) float64) {
	x := 0.0
	for i, f := range a.figs {
		if i > 0 {
			x += gap
		}
		w := f.slot()
		a.at = append(a.at, geom.Vec{x + (w-f.ext.w)/2 - f.ext.x, oy(f)})
		a.room = append(a.room, box{x, 0, w, a.h})
		x += w
	}
	a.w = x
}

// stacked places figures one above the other, at share of what a narrower one
// leaves: 0 in line at the left, 0.5 in the middle.
func stacked(figs []*figure, gap, share float64) *arrangement {
	a := &arrangement{figs: figs}
	for _, f := range figs {
		a.w = math.Max(a.w, f.slot())
	}
	for i, f := range figs {
		if i > 0 {
			a.h += gap
		}
		w := f.slot()
		x, h := share*(a.w-w), f.ext.h+f.captionH()
		a.at = append(a.at, geom.Vec{x + (w-f.ext.w)/2 - f.ext.x, a.h - f.ext.y})
		a.room = append(a.room, box{x, a.h, w, h})
		a.h += h
	}
	return a
}

// How a caption is set: what the section is, and below it stage and scale.
var (
	captionStyle = style{cap: capHead, bold: true, ink: black, h: 0.5}
	stageStyle   = style{cap: capBody, ink: black, h: 0.5}
)

// caption is the caption of a figure in two parts: the section and its stage.
func (f *figure) caption() (head, stage string) {
	text, _ := face.Clean(f.sc.Caption)
	head, stage, _ = strings.Cut(text, ": ")
	return head, stage
}

// under is the second line of a caption.
func under(stage, scale string) string {
	if stage == "" {
		return "Scale " + scale
	}
	return stage + ", scale " + scale
}

// captionSpace is between the two parts of a caption in one line, mm.
const captionSpace = 4.0

// inLine is the width of the caption in one line.
func (f *figure) inLine() float64 {
	head, stage := f.caption()
	return captionStyle.width(head) + captionSpace + stageStyle.width(under(stage, f.scale))
}

// slot is the width that a figure takes up together with its caption.
func (f *figure) slot() float64 {
	if f.oneLine {
		return math.Max(f.ext.w, f.inLine())
	}
	head, stage := f.caption()
	w, v := captionStyle.width(head), stageStyle.width(under(stage, f.scale))
	return math.Max(f.ext.w, math.Min(math.Max(w, v), captionMax))
}

// drawCaption writes the caption at the foot of the room of a figure.
func (f *figure) drawCaption(b *board, r box) {
	head, stage := f.caption()
	stage = under(stage, f.scale)
	hs, ss := captionStyle, stageStyle
	x, y := r.x+r.w/2, r.bottom()-captionEnd
	if !f.oneLine {
		b.text("caption", hs, x, y-stageLine, fitted(hs, head, r.w))
		b.text("caption:scale", ss, x, y, fitted(ss, stage, r.w))
		return
	}
	hs.h, ss.h = 0, 0
	x -= (hs.width(head) + captionSpace + ss.width(stage)) / 2
	b.text("caption", hs, x, y, head)
	b.text("caption:scale", ss, x+hs.width(head)+captionSpace, y, stage)
}

// draw puts the figures and their captions on the sheet, the corner of the
// arrangement at the given place.
func (a *arrangement) draw(b *board, x0, y0 float64) {
	for i, fig := range a.figs {
		fig.draw(b, x0+a.at[i][0], y0+a.at[i][1])
		r := a.room[i]
		r.x, r.y = r.x+x0, r.y+y0
		fig.drawCaption(b, r)
	}
}
