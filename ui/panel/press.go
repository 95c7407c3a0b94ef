package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// pressLine is a name with a line of words below it, the whole of which can be
// pressed. The chosen one has a bar at its left and bold letters.
type pressLine struct {
	widget.BaseWidget
	name, words *flow
	chosen      bool
	focused     bool
	tap         func()
	seen        func() // the line has the keys: bring it into sight
	bar, ground *canvas.Rectangle
}

func newPressLine(tap func()) *pressLine {
	l := &pressLine{name: newFlow("").atMost(1), words: newFlow("").caption().atMost(2), tap: tap,
		bar: canvas.NewRectangle(nil), ground: canvas.NewRectangle(nil)}
	l.ExtendBaseWidget(l)
	return l
}

func (l *pressLine) set(name, words string, chosen bool) {
	l.name.style.Bold = chosen
	l.name.set(name)
	l.words.set(words)
	if l.chosen != chosen {
		l.chosen = chosen
		l.Refresh()
	}
}

// Tapped does what the line is for.
func (l *pressLine) Tapped(*fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(l); c != nil {
		c.Focus(nil)
	}
	l.tap()
}

// FocusGained and the rest make the line reachable by keys.
func (l *pressLine) FocusGained() { l.focused = true; l.Refresh(); tell(l.seen) }

// FocusLost takes the frame away.
func (l *pressLine) FocusLost() { l.focused = false; l.Refresh() }

// TypedRune does nothing.
func (l *pressLine) TypedRune(rune) {}

// TypedKey presses by Space or Enter.
func (l *pressLine) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		l.tap()
	}
}

// Sizes of the line, in units.
const (
	pressBar = 4
	pressPad = 3
)

// MinSize has room for both lines at the present width.
func (l *pressLine) MinSize() fyne.Size {
	return fyne.NewSize(60, l.name.pitch()+l.words.MinSize().Height+2*pressPad)
}

// CreateRenderer is called by the toolkit.
func (l *pressLine) CreateRenderer() fyne.WidgetRenderer {
	r := &pressRenderer{l}
	r.style()
	return r
}

type pressRenderer struct{ l *pressLine }

func (r *pressRenderer) MinSize() fyne.Size { return r.l.MinSize() }
func (r *pressRenderer) Destroy()           {}
func (r *pressRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.l.ground, r.l.bar, r.l.name, r.l.words}
}

func (r *pressRenderer) Layout(s fyne.Size) {
	l := r.l
	l.ground.Resize(s)
	l.bar.Resize(fyne.NewSize(pressBar, s.Height))
	x := float32(pressBar + 4)
	l.name.Move(fyne.NewPos(x, pressPad))
	l.name.Resize(fyne.NewSize(s.Width-x, l.name.pitch()))
	l.words.Move(fyne.NewPos(x, pressPad+l.name.pitch()))
	l.words.Resize(fyne.NewSize(s.Width-x, s.Height-l.name.pitch()-2*pressPad))
}

func (r *pressRenderer) style() {
	l := r.l
	l.bar.FillColor, l.bar.Hidden = theme.Color(theme.ColorNamePrimary), !l.chosen
	l.ground.FillColor = nil
	if l.chosen {
		l.ground.FillColor = theme.Color(theme.ColorNameButton)
	}
	l.ground.StrokeWidth, l.ground.StrokeColor = 0, nil
	if l.focused {
		l.ground.StrokeWidth, l.ground.StrokeColor = 2, theme.Color(theme.ColorNamePrimary)
	}
}

func (r *pressRenderer) Refresh() {
	r.style()
	r.Layout(r.l.Size())
	canvas.Refresh(r.l)
}
