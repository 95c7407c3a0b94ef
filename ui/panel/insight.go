package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// The controls of the pages come into sight when they get the keys: a scroller
// of the toolkit stays where it is when Tab leads out of it.

// picker is a list to choose from.
type picker struct {
	widget.Select
	seen func()
}

func newPicker(changed func(string)) *picker {
	p := &picker{}
	p.OnChanged = changed
	p.ExtendBaseWidget(p)
	return p
}

// FocusGained brings the list into sight.
func (p *picker) FocusGained() {
	p.Select.FocusGained()
	tell(p.seen)
}

// tickBox is a tick with its words.
type tickBox struct {
	widget.Check
	seen func()
}

func newTickBox(words string, changed func(bool)) *tickBox {
	b := &tickBox{}
	b.Text, b.OnChanged = words, changed
	b.ExtendBaseWidget(b)
	return b
}

// FocusGained brings the tick into sight.
func (b *tickBox) FocusGained() {
	b.Check.FocusGained()
	tell(b.seen)
}

// button is a button of a page; Enter presses it as Space does.
type button struct {
	widget.Button
	seen func()
}

func (w *Window) button(words string, f func()) *button {
	b := &button{}
	b.Text, b.OnTapped = words, f
	b.ExtendBaseWidget(b)
	b.seen = func() { w.inSight(b) }
	return b
}

// FocusGained brings the button into sight.
func (b *button) FocusGained() {
	b.Button.FocusGained()
	tell(b.seen)
}

// TypedKey adds Enter.
func (b *button) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter {
		b.Tapped(nil)
		return
	}
	b.Button.TypedKey(k)
}

func tell(f func()) {
	if f != nil {
		f()
	}
}

// followFocus has a control of a page come into sight when it gets the keys.
func (w *Window) followFocus(o fyne.CanvasObject) {
	f := func() { w.inSight(o) }
	switch o := o.(type) {
	case *commitEntry:
		o.seen = f
	case *picker:
		o.seen = f
	case *tickBox:
		o.seen = f
	case *chip:
		o.seen = f
	case *pressLine:
		o.seen = f
	case *fyne.Container:
		for _, part := range o.Objects {
			w.followFocus(part)
		}
	}
}

// inSight scrolls the page in front so that the middle of one of its controls
// can be seen.
func (w *Window) inSight(o fyne.CanvasObject) {
	if w.page == nil {
		return
	}
	s, d := w.page.scroller(), fyne.CurrentApp().Driver()
	if d.CanvasForObject(o) == nil {
		return
	}
	const room = 30 // for the words round the control
	top := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(s).Y
	middle, end := top+o.Size().Height/2, s.Size().Height
	switch {
	case middle < 0:
		scrollBy(s, top-room)
	case middle > end:
		scrollBy(s, top+min(o.Size().Height, end-2*room)+room-end)
	}
}

// scrollBy moves what is in a scroller, as far as there is something.
func scrollBy(s *container.Scroll, dy float32) {
	most := max(0, s.Content.Size().Height-s.Size().Height)
	s.ScrollToOffset(fyne.NewPos(0, max(0, min(most, s.Offset.Y+dy))))
}

// enterPage gives the keys to the first control of the page in front.
func (w *Window) enterPage() {
	if w.page == nil {
		return
	}
	if f := firstFocusable(w.page.object()); f != nil {
		w.win.Canvas().Focus(f)
	}
}

// firstFocusable is the first thing in a tree that can have the keys.
func firstFocusable(o fyne.CanvasObject) fyne.Focusable {
	if !o.Visible() {
		return nil
	}
	if f, ok := o.(fyne.Focusable); ok {
		if d, ok := o.(fyne.Disableable); !ok || !d.Disabled() {
			return f
		}
	}
	var parts []fyne.CanvasObject
	switch o := o.(type) {
	case *fyne.Container:
		parts = o.Objects
	case *container.Scroll:
		parts = []fyne.CanvasObject{o.Content}
	case *container.Split:
		parts = []fyne.CanvasObject{o.Leading, o.Trailing}
	}
	for _, part := range parts {
		if f := firstFocusable(part); f != nil {
			return f
		}
	}
	return nil
}
