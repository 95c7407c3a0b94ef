package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// chip is a small button that can stay pressed. A pressed one has a bar below
// and bold letters besides its colour.
type chip struct {
	widget.BaseWidget
	text string
	on   bool
	off  bool // cannot be pressed now
	tap  func()
	seen func() // the chip has the keys: bring it into sight

	hovered, focused bool
	ground           *canvas.Rectangle
	bar              *canvas.Rectangle
	label            *canvas.Text
}

func newChip(text string, tap func()) *chip {
	c := &chip{text: text, tap: tap, ground: canvas.NewRectangle(nil), bar: canvas.NewRectangle(nil), label: canvas.NewText(text, nil)}
	c.label.Alignment = fyne.TextAlignCenter
	c.ground.CornerRadius = 2
	c.ExtendBaseWidget(c)
	return c
}

var (
	_ fyne.Tappable     = (*chip)(nil)
	_ fyne.Focusable    = (*chip)(nil)
	_ desktop.Hoverable = (*chip)(nil)
)

// press shows the chip as pressed or not.
func (c *chip) press(on bool) {
	if c.on != on {
		c.on = on
		c.Refresh()
	}
}

// enable lets the chip be pressed, or not.
func (c *chip) enable(yes bool) {
	if c.off == yes {
		c.off = !yes
		c.Refresh()
	}
}

// Tapped takes the keys, so that what was being typed elsewhere is handed
// over first, and does what the chip is for.
func (c *chip) Tapped(*fyne.PointEvent) {
	if cv := fyne.CurrentApp().Driver().CanvasForObject(c); cv != nil {
		cv.Focus(nil)
	}
	if !c.off && c.tap != nil {
		c.tap()
	}
}

// FocusGained and the rest make the chip reachable by keys.
func (c *chip) FocusGained() { c.focused = true; c.Refresh(); tell(c.seen) }

// FocusLost takes the frame away.
func (c *chip) FocusLost() { c.focused = false; c.Refresh() }

// TypedRune does nothing: letters belong to the drawing.
func (c *chip) TypedRune(rune) {}

// TypedKey presses the chip by Space or Enter.
func (c *chip) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if !c.off && c.tap != nil {
			c.tap()
		}
	}
}

// MouseIn lights the chip up.
func (c *chip) MouseIn(*desktop.MouseEvent) { c.hovered = true; c.Refresh() }

// MouseMoved is part of following the pointer.
func (c *chip) MouseMoved(*desktop.MouseEvent) {}

// MouseOut puts it back.
func (c *chip) MouseOut() { c.hovered = false; c.Refresh() }

// Sizes of a chip, in units.
const (
	chipPadX = 7
	chipPadY = 4
	chipBar  = 3
)

// MinSize has room for the bold text, so that pressing changes nothing.
func (c *chip) MinSize() fyne.Size {
	s := fyne.MeasureText(c.text, theme.TextSize(), fyne.TextStyle{Bold: true})
	return fyne.NewSize(s.Width+2*chipPadX, s.Height+2*chipPadY)
}

// CreateRenderer is called by the toolkit.
func (c *chip) CreateRenderer() fyne.WidgetRenderer {
	r := &chipRenderer{c}
	r.style()
	return r
}

type chipRenderer struct{ c *chip }

func (r *chipRenderer) Layout(s fyne.Size) {
	c := r.c
	c.ground.Resize(s)
	c.bar.Resize(fyne.NewSize(s.Width-4, chipBar))
	c.bar.Move(fyne.NewPos(2, s.Height-chipBar))
	h := c.label.MinSize().Height
	c.label.Resize(fyne.NewSize(s.Width, h))
	c.label.Move(fyne.NewPos(0, (s.Height-h)/2-0.5))
}

func (r *chipRenderer) MinSize() fyne.Size { return r.c.MinSize() }
func (r *chipRenderer) Destroy()           {}
func (r *chipRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.c.ground, r.c.bar, r.c.label}
}

func (r *chipRenderer) style() {
	c := r.c
	c.label.Text, c.label.TextSize, c.label.TextStyle.Bold = c.text, theme.TextSize(), c.on
	c.label.Color, c.ground.FillColor = theme.Color(theme.ColorNameForeground), theme.Color(theme.ColorNameButton)
	switch {
	case c.off:
		c.label.Color = theme.Color(theme.ColorNameDisabled)
	case c.hovered, c.on:
		c.ground.FillColor = theme.Color(theme.ColorNameHover)
	}
	c.bar.FillColor = theme.Color(theme.ColorNamePrimary)
	c.bar.Hidden = !c.on
	c.ground.StrokeWidth, c.ground.StrokeColor = 0, nil
	if c.focused {
		c.ground.StrokeWidth, c.ground.StrokeColor = 2, theme.Color(theme.ColorNamePrimary)
	}
}

func (r *chipRenderer) Refresh() {
	r.style()
	r.Layout(r.c.Size())
	canvas.Refresh(r.c)
}
