package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// wheelGuard lies over a field that has not the keys and gives the wheel to the
// page: the toolkit's field would keep it, even where it has nothing to scroll.
// All else goes through to the field.
type wheelGuard struct {
	widget.BaseWidget
	w *Window
}

var _ fyne.Scrollable = (*wheelGuard)(nil)

// guarded lays a guard over a field; other controls stay as they are.
func (w *Window) guarded(control fyne.CanvasObject) fyne.CanvasObject {
	e, ok := control.(*commitEntry)
	if !ok {
		return control
	}
	g := &wheelGuard{w: w}
	g.ExtendBaseWidget(g)
	e.guard = g
	return container.NewStack(e, g)
}

// Scrolled moves the page in front.
func (g *wheelGuard) Scrolled(e *fyne.ScrollEvent) {
	if g.w.page != nil {
		g.w.page.scroller().Scrolled(e)
	}
}

// CreateRenderer is called by the toolkit: there is nothing to see.
func (g *wheelGuard) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(nil))
}
