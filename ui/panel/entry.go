package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// commitEntry is a field for typed values: it hands over what was typed when
// Enter is pressed or the field is left, and takes it back with Esc.
type commitEntry struct {
	widget.Entry
	shown   string // text last shown from the model
	commit  func(text string)
	focused bool
}

func newCommitEntry(commit func(string)) *commitEntry {
	e := &commitEntry{commit: commit}
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { e.hand() }
	return e
}

// newCommitLines is the same for several lines; Enter makes a new line there.
func newCommitLines(commit func(string)) *commitEntry {
	e := newCommitEntry(commit)
	e.MultiLine = true
	e.OnSubmitted = nil
	return e
}

// show puts the model's value in the field unless somebody is typing in it.
func (e *commitEntry) show(text string) {
	if e.focused && e.Text != e.shown {
		e.shown = text
		return
	}
	e.shown = text
	if e.Text != text {
		e.SetText(text)
	}
}

// hand gives the text over if it was changed.
func (e *commitEntry) hand() {
	if e.Text != e.shown {
		e.commit(e.Text)
	}
}

// FocusGained remembers that somebody is typing.
func (e *commitEntry) FocusGained() {
	e.focused = true
	e.Entry.FocusGained()
}

// FocusLost hands over what was typed.
func (e *commitEntry) FocusLost() {
	e.focused = false
	e.Entry.FocusLost()
	e.hand()
}

// TypedKey takes Esc as "leave it as it was".
func (e *commitEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.SetText(e.shown)
		return
	}
	e.Entry.TypedKey(k)
}
