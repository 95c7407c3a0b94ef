package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// statusLine is the line at the foot of the window: what can be done now, or
// what stands in the way, or what was just done; and the place of the pointer.
type statusLine struct {
	text    *flow
	at      *flow
	box     *fyne.Container
	helping string
	wrong   string
}

// placeWidth is the room for the place of the pointer, in units.
const placeWidth = 210

func newStatusLine() *statusLine {
	s := &statusLine{text: newFlow("").atMost(2), at: newFlow("").atMost(1)}
	s.box = container.New(&inset{6, 2}, container.NewBorder(nil, nil, nil, container.New(&exactly{placeWidth}, s.at), container.New(&linesHigh{s.text, 2}, s.text)))
	return s
}

// linesHigh keeps the height of n lines, whatever is written in them.
type linesHigh struct {
	f *flow
	n int
}

// MinSize is n lines.
func (l *linesHigh) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(60, l.f.pitch()*float32(l.n))
}

// Layout gives the text everything.
func (l *linesHigh) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	objs[0].Resize(size)
	objs[0].Move(fyne.NewPos(0, 0))
}

func (s *statusLine) object() fyne.CanvasObject { return s.box }

// pointer shows where the pointer is; "" when it is over no section.
func (s *statusLine) pointer(text string) { s.at.set(text) }

// help shows what can be done now.
func (s *statusLine) help(text string) {
	s.helping = text
	if s.wrong == "" {
		s.put(text, theme.ColorNameForeground, false)
	}
}

// say shows what was just done, until something else happens.
func (s *statusLine) say(text string) {
	s.wrong = ""
	s.put(text, theme.ColorNameForeground, true)
}

// problem shows what stands in the way, until it is gone.
func (s *statusLine) problem(text string) {
	was := s.wrong
	s.wrong = text
	switch {
	case text != "":
		s.put("! "+text, theme.ColorNameError, true)
	case was != "":
		s.put(s.helping, theme.ColorNameForeground, false)
	}
}

func (s *statusLine) put(text string, colour fyne.ThemeColorName, bold bool) {
	s.text.style.Bold = bold
	s.text.colour = colour
	s.text.text = text
	s.text.lay()
	s.text.Refresh()
}
