package sheet

import (
	"fmt"
	"math"

	"hillset/engine/section"
	"hillset/geom"
)

// Distances round the figures, mm.
const (
	figGap     = 8.0 // between two figures
	captionGap = 3.0 // between a figure and its caption
	captionH   = captionGap + capHead + 1.2*capBody + 2
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
		for _, place := range []func([]*figure) *arrangement{level, beside, stacked} {
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

// bareFits tells whether the boxes alone could fit, which spares building
// scenes at scales that are far too large.
func bareFits(views []*section.View, k, w, h float64) bool {
	for _, v := range views {
		if v.HasBox && ((v.Box.Max[0]-v.Box.Min[0])*k > w || (v.Box.Max[1]-v.Box.Min[1])*k > h) {
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

// beside places figures in a row on one lower edge.
func beside(figs []*figure) *arrangement {
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

// captionStyle is how the caption under a figure is set.
func captionStyle() style { return style{cap: capHead, bold: true, ink: black, h: 0.5} }

// slot is the width that a figure takes up together with its caption.
func (f *figure) slot() float64 {
	return math.Max(f.ext.w, math.Min(captionStyle().width(f.sc.Caption), captionMax))
}

// draw puts the figures and their captions into a field, spreading what is
// left over.
func (a *arrangement) draw(b *board, f box) {
	x0, y0 := f.x+(f.w-a.w)/2, f.y+(f.h-a.h)/2
	for i, fig := range a.figs {
		ox, oy := x0+a.at[i][0], y0+a.at[i][1]
		fig.draw(b, ox, oy)
		s := captionStyle()
		x, y := ox+fig.ext.x+fig.ext.w/2, y0+a.foot[i]-1-1.5*capBody
		b.text("caption", s, x, y, fitted(s, b.clean(fig.sc.Caption), fig.slot()))
		b.text("caption:scale", style{cap: capBody, ink: black, h: 0.5}, x, y+1.5*capBody, "Scale "+a.scale.Name)
	}
}
