package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// modal is a dialog over the window.
type modal interface {
	Show()
	Hide()
	SetOnClosed(func())
}

// present shows a dialog. While one is open the menus and the keys of the
// drawing do nothing, and Esc closes the topmost.
func (w *Window) present(d modal) {
	w.modals = append(w.modals, d)
	d.SetOnClosed(func() {
		w.modals = slices.DeleteFunc(w.modals, func(m modal) bool { return m == d })
	})
	d.Show()
}

// asking tells whether a dialog is open.
func (w *Window) asking() bool { return len(w.modals) > 0 }

// dismiss closes the topmost dialog.
func (w *Window) dismiss() {
	if n := len(w.modals); n > 0 {
		w.modals[n-1].Hide()
	}
}

// unless does nothing while a dialog is open.
func (w *Window) unless(f func()) func() {
	return func() {
		if !w.asking() {
			f()
		}
	}
}

// keys sends what nobody else has the keys for to the board used last.
func (w *Window) keys() {
	c := w.win.Canvas()
	c.SetOnTypedKey(func(k *fyne.KeyEvent) {
		switch {
		case w.asking() && k.Name == fyne.KeyEscape:
			w.dismiss()
		case !w.asking() && k.Name != fyne.KeyTab && w.set.Sections != panelsOnly:
			w.active.TypedKey(k)
		}
	})
	c.SetOnTypedRune(func(r rune) {
		switch {
		case w.asking():
		case w.set.Sections == panelsOnly:
			w.panelsLetter(r)
		default:
			w.active.TypedRune(r)
		}
	})
}

// field is a field of a dialog: Esc closes the dialog.
type field struct {
	widget.Entry
	escape func()
}

func (w *Window) newField(lines bool) *field {
	f := &field{escape: w.dismiss}
	f.MultiLine = lines
	f.ExtendBaseWidget(f)
	return f
}

// TypedKey takes Esc for the dialog.
func (f *field) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		f.escape()
		return
	}
	f.Entry.TypedKey(k)
}

// reply is a button of a dialog: Enter presses it, Esc closes the dialog.
type reply struct {
	widget.Button
	escape func()
}

func (w *Window) newReply(text string, first bool, f func()) *reply {
	r := &reply{escape: w.dismiss}
	r.Text, r.OnTapped = text, f
	if first {
		r.Importance = widget.HighImportance
	}
	r.ExtendBaseWidget(r)
	return r
}

// TypedKey adds Enter and Esc.
func (r *reply) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyEscape:
		r.escape()
	case fyne.KeyReturn, fyne.KeyEnter:
		r.Tapped(nil)
	default:
		r.Button.TypedKey(k)
	}
}
