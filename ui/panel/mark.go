package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"hillset/engine/check"
)

// mark is the sign of a verdict, the same as in the drawing: a filled square
// beyond limits, an open circle within, a dashed diamond not checked.
type mark struct {
	widget.BaseWidget
	side    float32
	verdict check.Verdict
	none    bool // nothing to show
	square  *canvas.Rectangle
	circle  *canvas.Circle
	dashes  [8]*canvas.Line
}

func newMark(side float32) *mark {
	m := &mark{side: side, square: canvas.NewRectangle(nil), circle: canvas.NewCircle(nil)}
	for i := range m.dashes {
		m.dashes[i] = canvas.NewLine(nil)
	}
	m.ExtendBaseWidget(m)
	return m
}

// set shows a verdict.
func (m *mark) set(v check.Verdict) {
	if m.none || m.verdict != v {
		m.none, m.verdict = false, v
		m.Refresh()
	}
}

// clear shows nothing.
func (m *mark) clear() {
	if !m.none {
		m.none = true
		m.Refresh()
	}
}

// MinSize is the square of the sign.
func (m *mark) MinSize() fyne.Size { return fyne.NewSquareSize(m.side) }

// CreateRenderer is called by the toolkit.
func (m *mark) CreateRenderer() fyne.WidgetRenderer {
	r := &markRenderer{m}
	r.style()
	return r
}

type markRenderer struct{ m *mark }

func (r *markRenderer) MinSize() fyne.Size { return r.m.MinSize() }
func (r *markRenderer) Destroy()           {}
func (r *markRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.m.square, r.m.circle}
	for _, d := range r.m.dashes {
		out = append(out, d)
	}
	return out
}

func (r *markRenderer) Layout(s fyne.Size) {
	m, k := r.m, r.m.side
	at := fyne.NewPos((s.Width-k)/2, (s.Height-k)/2)
	in := k * 0.1
	m.square.Move(at.AddXY(in, in))
	m.square.Resize(fyne.NewSquareSize(k - 2*in))
	m.circle.Move(at.AddXY(in, in))
	m.circle.Resize(fyne.NewSquareSize(k - 2*in))
	corners := [5]fyne.Position{at.AddXY(k/2, 0), at.AddXY(k, k/2), at.AddXY(k/2, k), at.AddXY(0, k/2), at.AddXY(k/2, 0)}
	for i := range 4 {
		a, d := corners[i], corners[i+1].Subtract(corners[i])
		for j, t := range []float32{0, 0.62} {
			l := m.dashes[2*i+j]
			l.Position1 = a.AddXY(d.X*t, d.Y*t)
			l.Position2 = a.AddXY(d.X*(t+0.38), d.Y*(t+0.38))
		}
	}
}

func (r *markRenderer) style() {
	m := r.m
	stroke := m.side / 8
	colour := verdictColour(m.verdict)
	m.square.FillColor = theme.Color(colour)
	m.square.Hidden = m.none || m.verdict != check.Beyond
	m.circle.StrokeColor, m.circle.StrokeWidth = theme.Color(colour), stroke
	m.circle.Hidden = m.none || m.verdict != check.Within
	for _, d := range m.dashes {
		d.StrokeColor, d.StrokeWidth = theme.Color(colour), stroke
		d.Hidden = m.none || m.verdict != check.NotChecked
	}
}

func (r *markRenderer) Refresh() {
	r.style()
	r.Layout(r.m.Size())
	canvas.Refresh(r.m)
}

// verdictColour is the colour that goes with a verdict.
func verdictColour(v check.Verdict) fyne.ThemeColorName {
	switch v {
	case check.Beyond:
		return theme.ColorNameError
	case check.Within:
		return theme.ColorNameSuccess
	}
	return theme.ColorNamePlaceHolder
}
