package sketch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"hillset/geom"
)

// FocusGained shows that the keys go to the board.
func (b *Board) FocusGained() {
	b.focused = true
	b.status()
	b.overlay.place()
}

// FocusLost ends what the keys were doing.
func (b *Board) FocusLost() {
	b.focused, b.space = false, false
	b.endNudge()
	b.overlay.place()
}

// AcceptsTab keeps Tab for going through the handles; F6 goes on to what comes
// after the board.
func (b *Board) AcceptsTab() bool { return true }

// KeyDown notes that the space bar is held.
func (b *Board) KeyDown(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace {
		b.space = true
	}
}

// KeyUp lets the space bar go and ends a run of arrow keys: one press, however
// long, is one step of undo.
func (b *Board) KeyUp(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace:
		b.space = false
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
		b.endNudge()
	}
}

func (b *Board) endNudge() {
	if b.nudging != "" {
		b.nudging = ""
		b.src.EndGesture()
	}
}

// arrows gives the direction of an arrow key, z up.
var arrows = map[fyne.KeyName]geom.Vec{
	fyne.KeyLeft: {-1, 0}, fyne.KeyRight: {1, 0}, fyne.KeyUp: {0, 1}, fyne.KeyDown: {0, -1},
}

// TypedKey does what the named keys do.
func (b *Board) TypedKey(e *fyne.KeyEvent) {
	if dir, ok := arrows[e.Name]; ok {
		b.arrow(dir)
		return
	}
	switch e.Name {
	case fyne.KeyTab:
		b.cycle(b.modifiers()&fyne.KeyModifierShift != 0)
	case fyne.KeyHome:
		b.chooseAt(0)
	case fyne.KeyEnd:
		b.chooseAt(len(b.handles) - 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		b.enter()
	case fyne.KeyEscape:
		b.escape()
	case fyne.KeyDelete:
		b.deleteSelected()
	case fyne.KeyBackspace:
		b.backspace()
	case fyne.KeyPageUp:
		b.ZoomIn()
	case fyne.KeyPageDown:
		b.ZoomOut()
	case fyne.KeyF6:
		b.leave()
	}
}

// TypedRune chooses tools by their letters, zooms, fits, and starts typing a
// value with its first digit.
func (b *Board) TypedRune(r rune) {
	for _, t := range Tools() {
		if r == t.Key() || r == t.Key()-'a'+'A' {
			b.SetTool(t)
			return
		}
	}
	switch {
	case r == 'f' || r == 'F':
		b.Fit()
	case r == '+' || r == '=':
		b.ZoomIn()
	case r == '-' && b.selected == "":
		b.ZoomOut()
	case r >= '0' && r <= '9' || r == '.' || r == '-':
		b.openEntry(string(r))
	case b.opts.OnLetter != nil:
		b.opts.OnLetter(r)
	}
}

// TypedShortcut undoes and redoes while the board has the keys.
func (b *Board) TypedShortcut(s fyne.Shortcut) {
	switch s := s.(type) {
	case *fyne.ShortcutUndo:
		b.undo()
	case *fyne.ShortcutRedo:
		b.redo()
	case *desktop.CustomShortcut:
		if s.KeyName == fyne.KeyZ && s.Modifier&fyne.KeyModifierShift != 0 {
			b.redo()
		}
	}
}

func (b *Board) undo() {
	if b.cancel() {
		return // the drag in hand is what is taken back
	}
	b.endNudge()
	b.src.Undo()
	b.ModelChanged()
}

func (b *Board) redo() {
	b.endNudge()
	b.src.Redo()
	b.ModelChanged()
}

// panStep is how far an arrow key moves the paper, units.
const panStep = 40

// arrow nudges the selected handle, or moves the paper when none is selected.
func (b *Board) arrow(dir geom.Vec) {
	shift := b.modifiers()&fyne.KeyModifierShift != 0
	h := b.handle(b.selected)
	if h == nil {
		b.Pan(float32(-dir[0]*panStep), float32(dir[1]*panStep))
		return
	}
	_, step := b.src.Steps()
	if shift {
		step *= 10
	}
	to := h.along(tidy(h.At.Add(dir.Mul(step)), [2]bool{dir[0] == 0, dir[1] == 0}))
	if to == h.At {
		return // the handle does not move that way
	}
	if b.nudging != h.ID {
		b.endNudge()
		b.nudging, b.nudge = h.ID, b.newGesture(h.ID)
	}
	held := *h
	b.edit("Move "+lower(h.Label), b.nudge, b.changeTo(&held, to, false))
	b.status()
}

// cycle goes to the next handle, or to the one before.
func (b *Board) cycle(back bool) {
	at := -1
	for i := range b.handles {
		if b.handles[i].ID == b.selected {
			at = i
		}
	}
	n := len(b.handles)
	switch {
	case n == 0:
	case back && at <= 0:
		b.chooseAt(n - 1)
	case back:
		b.chooseAt(at - 1)
	default:
		b.chooseAt((at + 1) % n)
	}
}

// chooseAt selects a handle by its place in the list and brings it into view.
func (b *Board) chooseAt(i int) {
	if i < 0 || i >= len(b.handles) {
		return
	}
	b.endNudge()
	h := &b.handles[i]
	b.choose(h.ID)
	b.reveal(h.At)
	b.overlay.place()
}

// reveal moves the paper so that a point is in the window.
func (b *Board) reveal(p geom.Vec) {
	const edge = 20
	at, s := b.cam.position(p), b.Size()
	off := func(v, size float32) float32 {
		return max(0, edge-v) + min(0, size-edge-v)
	}
	if dx, dy := off(at.X, s.Width), off(at.Y, s.Height); b.ready() && (dx != 0 || dy != 0) {
		b.Pan(dx, dy)
	}
}

// enter ends a drawing tool, or types a value for the selected handle.
func (b *Board) enter() {
	if b.tool != Select {
		b.SetTool(Select)
		return
	}
	b.openEntry("")
}

// escape takes back the drag in hand; else ends the tool; else lets go of the
// selection.
func (b *Board) escape() {
	switch {
	case b.cancel():
	case b.tool != Select:
		b.SetTool(Select)
	default:
		b.choose("")
		b.problem(nil)
		b.overlay.place()
	}
}

// deleteSelected removes the selected point.
func (b *Board) deleteSelected() {
	h := b.handle(b.selected)
	if h == nil {
		return
	}
	held := *h
	if b.edit("Remove "+lower(h.Label), "", held.Remove) {
		b.overlay.place()
	}
}

// backspace takes back the last point of the line that is being drawn; with
// Select it removes like Delete.
func (b *Board) backspace() {
	i, at := b.lastDrawn()
	if i < 0 {
		if b.tool == Select {
			b.deleteSelected()
		}
		return
	}
	h := b.handles[i]
	if b.edit("Take back "+lower(h.Label), "", h.Remove) {
		if before := i - 1; at > 0 {
			b.chooseAt(before)
		}
	}
}

// leave gives the keys to what comes after the board.
func (b *Board) leave() {
	if a := fyne.CurrentApp(); a != nil {
		if c := a.Driver().CanvasForObject(b); c != nil {
			c.FocusNext()
		}
	}
}
