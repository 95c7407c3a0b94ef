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
	captionGap = 3.0 // between a figure and its caption
	captionH   = captionGap + capHead + 1.5*capBody + 1.2
	// captionMax is how much of a wide caption makes room for itself; a longer
	// one is cut short.
	captionMax = 120.0
)

// arrangement is the figures placed in a field, at one scale.
type arrangement struct {
	scale Scale
	figs  []*figure
	at    []geom.Vec // origin of each section, from the corner of the field
	foot  []float64  // where each caption stands, from the top of the field
	w, h  float64    // size used, mm
}

// arrange finds the largest standard scale at which all views fit the field
// together, beside each other or one above the other, and places them. Where
// there is room, sections side by side stand level with one another.
func arrange(views []*section.View, scene SceneFunc, feet bool, w, h float64) (*arrangement, error) {
	for _, s := range scales(feet) {
		k := s.MMPerM()
		if !bareFits(views, k, w, h) {
			continue // even without letters and signs
		}
		figs, err := figures(views, scene, k)
		if err != nil {
			return nil, err
		}
		for _, place := range []func([]*figure) *arrangement{level, inRow, stacked} {
			if a := place(figs); a.w <= w && a.h <= h {
				a.scale = s
				return a, nil
			}
		}
	}
	all := scales(feet)
	return nil, fmt.Errorf("sheet: the sections do not fit %.0f by %.0f mm at %s, the smallest scale; take a larger sheet", w, h, all[len(all)-1].Name)
}

func figures(views []*section.View, scene SceneFunc, k float64) ([]*figure, error) {
	var out []*figure
	for _, v := range views {
		sc, err := scene(v, k)
		if err != nil {
			return nil, fmt.Errorf("sheet: drawing at %g mm per m: %w", k, err)
		}
		f, err := newFigure(sc, k)
		if err != nil {
			return nil, err
		}
		out = append(out, f)
	}
	return out, nil
}

// bareFits tells whether the works alone could fit, which spares building
// scenes at scales that are far too large.
func bareFits(views []*section.View, k, w, h float64) bool {
	for _, v := range views {
		if r := works(v); r.W()*k > w || r.H()*k > h {
			return false
		}
	}
	return true
}

// level places figures in a row with equal levels at equal heights.
func level(figs []*figure) *arrangement {
	top, bottom := math.Inf(1), math.Inf(-1)
	for _, f := range figs {
		top, bottom = math.Min(top, f.ext.y), math.Max(bottom, f.ext.bottom())
	}
	a := &arrangement{figs: figs, h: bottom - top + captionH}
	a.row(func(*figure) float64 { return -top })
	return a
}

// inRow places figures in a row on one lower edge.
func inRow(figs []*figure) *arrangement {
	tall := 0.0
	for _, f := range figs {
		tall = math.Max(tall, f.ext.h)
	}
	a := &arrangement{figs: figs, h: tall + captionH}
	a.row(func(f *figure) float64 { return tall - f.ext.bottom() })
	return a
}

func (a *arrangement) row(oy func(*figure) float64) {
	x := 0.0
	for i, f := range a.figs {
		if i > 0 {
			x += figGap
		}
		a.at = append(a.at, geom.Vec{x + (f.slot()-f.ext.w)/2 - f.ext.x, oy(f)})
		a.foot = append(a.foot, a.h)
		x += f.slot()
	}
	a.w = x
}

// stacked places figures one above the other, centred.
func stacked(figs []*figure) *arrangement {
	a := &arrangement{figs: figs}
	for _, f := range figs {
		a.w = math.Max(a.w, f.slot())
	}
	for i, f := range figs {
		if i > 0 {
			a.h += figGap
		}
		a.at = append(a.at, geom.Vec{(a.w-f.ext.w)/2 - f.ext.x, a.h - f.ext.y})
		a.h += f.ext.h + captionH
		a.foot = append(a.foot, a.h)
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

// slot is the width that a figure takes up together with its caption.
func (f *figure) slot() float64 {
	head, stage := f.caption()
	w := math.Max(captionStyle.width(head), stageStyle.width(under(stage, "3/16 in = 1 ft")))
	return math.Max(f.ext.w, math.Min(w, captionMax))
}

// draw puts the figures and their captions into a field, spreading what is
// left over.
func (a *arrangement) draw(b *board, f box) {
	x0, y0 := f.x+(f.w-a.w)/2, f.y+(f.h-a.h)/2
	for i, fig := range a.figs {
		ox, oy := x0+a.at[i][0], y0+a.at[i][1]
		fig.draw(b, ox, oy)
		head, stage := fig.caption()
		x, y := ox+fig.ext.x+fig.ext.w/2, y0+a.foot[i]-1.2-1.5*capBody
		b.text("caption", captionStyle, x, y, fitted(captionStyle, head, fig.slot()))
		b.text("caption:scale", stageStyle, x, y+1.5*capBody, fitted(stageStyle, under(stage, a.scale.Name), fig.slot()))
	}
}
