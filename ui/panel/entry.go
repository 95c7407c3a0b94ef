package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// commitEntry is a field for typed values: it hands over what was typed when
// Enter is pressed or the field is left, and takes it back with Esc. What
// could not be taken stays in the field until it is corrected.
type commitEntry struct {
	widget.Entry
	shown   string // text last shown from the model
	commit  func(text string)
	back    func() // Esc was pressed
	focused bool
	seen    func()            // the field has the keys: bring it into sight
	guard   fyne.CanvasObject // lies over the field while it has not the keys; may be nil
}

func newCommitEntry(commit func(string)) *commitEntry {
	e := &commitEntry{commit: commit}
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { e.hand() }
	return e
}

// newCommitLines is the same for several lines; Enter makes a new line there
// and leaving the field or Shift+Enter hands it over.
func newCommitLines(commit func(string)) *commitEntry {
	e := newCommitEntry(commit)
	e.MultiLine = true
	e.Wrapping = fyne.TextWrapOff
	return e
}

// show puts the model's value in the field, unless something else is being
// typed there or waits to be corrected. It is true when the field changed.
func (e *commitEntry) show(text string) bool {
	dirty, same := e.dirty(), text == e.shown
	e.shown = text
	if dirty && (same || e.focused) || e.Text == text {
		return false
	}
	e.SetText(text)
	return true
}

// dirty tells whether the text is not what the model holds.
func (e *commitEntry) dirty() bool { return e.Text != e.shown }

// taken says that the model now holds what was typed.
func (e *commitEntry) taken() { e.shown = e.Text }

// hand gives the text over if it was changed.
func (e *commitEntry) hand() {
	if e.dirty() {
		e.commit(e.Text)
	}
}

// FocusGained remembers that somebody is typing.
func (e *commitEntry) FocusGained() {
	e.focused = true
	if e.guard != nil {
		e.guard.Hide()
	}
	e.Entry.FocusGained()
	tell(e.seen)
}

// FocusLost hands over what was typed.
func (e *commitEntry) FocusLost() {
	e.focused = false
	if e.guard != nil {
		e.guard.Show()
	}
	e.Entry.FocusLost()
	e.hand()
}

// TypedKey takes Esc as "leave it as it was".
func (e *commitEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name != fyne.KeyEscape {
		e.Entry.TypedKey(k)
		return
	}
	e.SetText(e.shown)
	if e.back != nil {
		e.back()
	}
}
