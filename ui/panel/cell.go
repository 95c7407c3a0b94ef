package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// cell is a part of the strip on top that leads somewhere when it is pressed:
// by the pointer, or by Enter or Space when it has the keys.
type cell struct {
	widget.BaseWidget
	content          fyne.CanvasObject
	ground           *canvas.Rectangle
	tap              func()
	hovered, focused bool
}

func newCell(content fyne.CanvasObject, tap func()) *cell {
	c := &cell{content: content, tap: tap, ground: canvas.NewRectangle(nil)}
	c.ground.CornerRadius = 2
	c.ExtendBaseWidget(c)
	return c
}

var (
	_ fyne.Tappable     = (*cell)(nil)
	_ fyne.Focusable    = (*cell)(nil)
	_ desktop.Hoverable = (*cell)(nil)
)

// Tapped takes the keys, so that what was being typed elsewhere is handed over
// first, and leads on.
func (c *cell) Tapped(*fyne.PointEvent) {
	if cv := fyne.CurrentApp().Driver().CanvasForObject(c); cv != nil {
		cv.Focus(nil)
	}
	c.tap()
}

// FocusGained and the rest make the cell reachable by keys.
func (c *cell) FocusGained() { c.focused = true; c.Refresh() }

// FocusLost takes the frame away.
func (c *cell) FocusLost() { c.focused = false; c.Refresh() }

// TypedRune does nothing.
func (c *cell) TypedRune(rune) {}

// TypedKey presses by Space or Enter.
func (c *cell) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		c.tap()
	}
}

// MouseIn lights the cell up.
func (c *cell) MouseIn(*desktop.MouseEvent) { c.hovered = true; c.Refresh() }

// MouseMoved is part of following the pointer.
func (c *cell) MouseMoved(*desktop.MouseEvent) {}

// MouseOut puts it back.
func (c *cell) MouseOut() { c.hovered = false; c.Refresh() }

// MinSize is that of what is in the cell.
func (c *cell) MinSize() fyne.Size { return c.content.MinSize() }

// CreateRenderer is called by the toolkit.
func (c *cell) CreateRenderer() fyne.WidgetRenderer {
	r := &cellRenderer{c}
	r.style()
	return r
}

type cellRenderer struct{ c *cell }

// cellEdge is how far the ground of a cell reaches beyond what is in it.
const cellEdge = 4

func (r *cellRenderer) Layout(s fyne.Size) {
	r.c.ground.Move(fyne.NewPos(-cellEdge, -cellEdge/2))
	r.c.ground.Resize(s.AddWidthHeight(2*cellEdge, cellEdge))
	r.c.content.Resize(s)
}

func (r *cellRenderer) MinSize() fyne.Size { return r.c.content.MinSize() }
func (r *cellRenderer) Destroy()           {}
func (r *cellRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.c.ground, r.c.content}
}

func (r *cellRenderer) style() {
	g := r.c.ground
	g.FillColor, g.StrokeWidth, g.StrokeColor = nil, 0, nil
	if r.c.hovered {
		g.FillColor = theme.Color(theme.ColorNameInputBackground)
	}
	if r.c.focused {
		g.StrokeWidth, g.StrokeColor = 2, theme.Color(theme.ColorNamePrimary)
	}
}

func (r *cellRenderer) Refresh() {
	r.style()
	r.Layout(r.c.Size())
	r.c.ground.Refresh()
	r.c.content.Refresh()
}
