package panel

import (
	"strings"

	"fyne.io/fyne/v2"

	"hillset/ui/desk"
	"hillset/ui/sketch"
)

// Desk is the desk of the window.
func (w *Window) Desk() *desk.Desk { return w.desk }

// Board is one of the two sections.
func (w *Window) Board(kind sketch.Kind) *sketch.Board {
	if kind == sketch.CrossSection {
		return w.cross
	}
	return w.long
}

// Panels is the box folded flat.
func (w *Window) Panels() *sketch.Viewer { return w.sections.panels }

// PageSays is what the page in front says, where it is worked out beside the
// window; "" for any other.
func (w *Window) PageSays() string {
	if pg, ok := w.page.(*workedPage); ok {
		return pg.text()
	}
	return ""
}

// Title is what the title bar says.
func (w *Window) Title() string { return w.win.Title() }

// Said is what the status line says.
func (w *Window) Said() string { return w.status.text.text }

// Verdict is what the strip on top says first.
func (w *Window) Verdict() string { return w.header.verdict.text }

// Control finds what can be pressed or typed in, by the words on it or beside
// it: a tool, a page, a field or a button of the page in front. It is nil when
// there is none.
func (w *Window) Control(words string) fyne.CanvasObject {
	for _, c := range w.tools.tools {
		if strings.HasPrefix(c.text, words) {
			return c
		}
	}
	for _, pg := range w.pages {
		if strings.HasSuffix(pg.about().name, words) {
			return pg.about().button
		}
	}
	for _, s := range shownWays {
		if s.name == words {
			return w.tools.shown[s.of]
		}
	}
	if pg, ok := w.page.(*workedPage); ok {
		return buttonIn(pg.cards, words)
	}
	if pg, ok := w.page.(*page); ok {
		for _, r := range pg.rows {
			if o := controlOf(r, words); o != nil {
				return o
			}
		}
	}
	return nil
}

// buttonIn is the first button of a tree with these words.
func buttonIn(tree *fyne.Container, words string) fyne.CanvasObject {
	for _, o := range tree.Objects {
		switch o := o.(type) {
		case *button:
			if o.Text == words {
				return o
			}
		case *fyne.Container:
			if b := buttonIn(o, words); b != nil {
				return b
			}
		}
	}
	return nil
}

// controlOf is the control of a row when the words stand beside it.
func controlOf(r row, words string) fyne.CanvasObject {
	switch r := r.(type) {
	case *number:
		if r.label == words {
			return r.entry
		}
	case *text:
		if r.label == words {
			return r.entry
		}
	case *choice:
		if r.label == words {
			return r.sel
		}
	case *act:
		for _, o := range r.box.Objects {
			if b, ok := o.(*button); ok && b.Text == words {
				return o
			}
		}
	}
	return nil
}
