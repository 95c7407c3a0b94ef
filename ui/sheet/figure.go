package sheet

import (
	"errors"
	"fmt"
	"image/color"
	"math"

	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/face"
	"hillset/ui/scene"
)

// Drawing says how a section is to be drawn.
type Drawing struct {
	MMPerM   float64   // scale: signs and letters keep their size on paper
	Land     geom.Rect // window of the ground, m; empty for all of it
	Room     Room      // round the ground, for texts
	Verdicts bool      // with the marks of the verdicts
}

// SceneFunc lays out the drawing of a section.
type SceneFunc func(v *section.View, d Drawing) (*scene.Scene, error)

// figure is a scene measured for the paper.
type figure struct {
	sc  *scene.Scene
	k   float64 // mm per m
	ext box     // what it covers, mm, with the origin of the section at (0, 0)
	// scale is written in the caption; oneLine sets that in one line.
	scale   string
	oneLine bool
}

// edge is added round a figure for the width of its outermost lines, mm.
const edge = 0.5

// newFigure measures a scene. A scene with nothing in it, or with a number
// that is not finite, is an error.
func newFigure(sc *scene.Scene, k float64) (*figure, error) {
	f := &figure{sc: sc, k: k}
	e := newExtent()
	for _, it := range sc.Items {
		var err error
		switch {
		case it.Path != nil:
			for _, part := range it.Path.Parts {
				err = errors.Join(err, e.grow(f.paper(part, 0, 0), it.Path.Tag))
			}
		case it.Label != nil && it.Label.Text != "":
			l := *it.Label
			l.Text, _ = face.Clean(l.Text)
			c := scene.LabelCorners(&l, k)
			err = e.grow(f.paper(c[:], 0, 0), l.Tag)
		}
		if err != nil {
			return nil, fmt.Errorf("sheet: %s: %w", sc.Caption, err)
		}
	}
	if e.hi[0] < e.lo[0] {
		return nil, fmt.Errorf("sheet: %s: the drawing is empty", sc.Caption)
	}
	f.ext = box{e.lo[0], e.lo[1], e.hi[0] - e.lo[0], e.hi[1] - e.lo[1]}.inset(-edge)
	return f, nil
}

// extent is the least upright rectangle round the points given to it.
type extent struct{ lo, hi geom.Vec }

func newExtent() extent {
	inf := math.Inf(1)
	return extent{geom.Vec{inf, inf}, geom.Vec{-inf, -inf}}
}

func (e *extent) grow(pts geom.Polyline, tag string) error {
	for _, v := range pts {
		if !finite(v[0]) || !finite(v[1]) {
			return fmt.Errorf("item %q has a point that is not finite", tag)
		}
		for i := range v {
			e.lo[i], e.hi[i] = math.Min(e.lo[i], v[i]), math.Max(e.hi[i], v[i])
		}
	}
	return nil
}

// paper turns points of the section into points of the page; ox, oy is where
// the origin of the section lies on the page.
func (f *figure) paper(pts geom.Polyline, ox, oy float64) geom.Polyline {
	out := make(geom.Polyline, len(pts))
	for i, v := range pts {
		out[i] = geom.Vec{ox + v[0]*f.k, oy - v[1]*f.k}
	}
	return out
}

// label resolves the anchor of a label into a baseline start.
func (f *figure) label(l scene.Label, text string, ox, oy float64, ink color.RGBA) Text {
	sin, cos := math.Sincos(l.Angle)
	back, down := l.Anchor.H*face.Width(text, l.Height, l.Bold), l.Anchor.V*l.Height
	return Text{
		Tag: l.Tag, Layer: layerName(l.Layer), Text: text, Cap: l.Height, Bold: l.Bold, Angle: l.Angle, Ink: ink,
		X: ox + l.At[0]*f.k - back*cos + down*sin,
		Y: oy - l.At[1]*f.k + back*sin + down*cos,
	}
}

// draw puts the figure on the page.
func (f *figure) draw(b *board, ox, oy float64) {
	for _, it := range f.sc.Items {
		if it.Path != nil {
			f.drawPath(b, *it.Path, ox, oy)
		}
		if it.Label != nil {
			f.drawLabel(b, *it.Label, ox, oy)
		}
	}
}

func (f *figure) drawPath(b *board, p scene.Path, ox, oy float64) {
	parts := make([]geom.Polyline, len(p.Parts))
	for i, part := range p.Parts {
		parts[i] = f.paper(part, ox, oy)
	}
	b.path(Path{
		Tag: p.Tag, Layer: layerName(p.Layer), Parts: parts, Closed: p.Closed,
		Fill: b.ink(p.Fill), Stroke: b.ink(p.Stroke), Width: p.Width, Dash: p.Dash,
	})
}

func (f *figure) drawLabel(b *board, l scene.Label, ox, oy float64) {
	text := b.clean(l.Text)
	if text == "" {
		return
	}
	t := f.label(l, text, ox, oy, b.ink(l.Role))
	if l.Halo {
		l.Text = text
		c := scene.LabelCorners(&l, f.k)
		b.path(Path{Tag: l.Tag + ":halo", Layer: t.Layer, Parts: []geom.Polyline{f.paper(c[:], ox, oy)}, Closed: true, Fill: white})
	}
	b.put(t)
}

// ink is the colour of a role in the print palette; no ink for the empty role.
func (b *board) ink(r scene.Role) color.RGBA {
	if r == "" {
		return none
	}
	c, ok := b.palette[r]
	if !ok && b.err == nil {
		b.err = fmt.Errorf("sheet: the print palette has no colour for %q", r)
	}
	return c
}

// layerNames are the layers of the document as a reader shows them.
var layerNames = map[scene.Layer]string{
	scene.Ground: "Ground", scene.Fills: "Fill", scene.BoxLayer: "Box", scene.Water: "Water",
	scene.Pressures: "Pressures", scene.Dims: "Dimensions", scene.Levels: "Levels",
	scene.Slopes: "Batters", scene.Callouts: "Callouts", scene.Verdicts: "Verdicts", scene.SlipLine: "Slip line", scene.Frame: "Axes and scale",
	scene.Flow: "Flow lines", scene.Heads: "Heads", scene.Mesh: "Mesh",
	scene.Deformed: "Deformed shape", scene.MomentLines: "Moments", scene.ThrustLines: "Thrusts", scene.PanelLayer: "Panels", scene.CurveLayer: "Charts",
}

func layerName(l scene.Layer) string {
	if n, ok := layerNames[l]; ok {
		return n
	}
	return string(l)
}
