package sketch

import (
	"fmt"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"hillset/engine/model"
	"hillset/geom"
)

// Reaches of the pointer, in units of the toolkit: wide enough for gloves on a
// trackpad.
const (
	hitReach  = 11
	snapReach = 9
	dragStart = 3 // less is a click
)

// doubleClick is the longest time between the two clicks of a double one.
const doubleClick = 400 * time.Millisecond

// drag is one press of the pointer, from down to up.
type drag struct {
	handle Handle // what is moved; its ID is empty while the paper is moved
	pan    bool
	merge  string        // names the step of undo
	grab   geom.Vec      // from the pointer to the handle
	from   geom.Vec      // where the handle stood
	start  fyne.Position // of the pointer
	last   fyne.Position
	moved  bool           // beyond a click
	edited bool           // something was changed
	before *model.Project // as it was when the pointer went down
	why    string
	guides []geom.Vec
	stop   string // why it cannot go further
}

// MouseDown starts whatever the tool does.
func (b *Board) MouseDown(e *desktop.MouseEvent) {
	b.takeFocus()
	b.closeEntry()
	if b.drag != nil || !b.ready() {
		return
	}
	b.pointer = e.Position
	if e.Button != desktop.MouseButtonPrimary || b.space || b.tool == PanTool {
		b.startPan(e.Position)
		return
	}
	b.press(e.Position, e.Modifier)
	b.overlay.place()
}

func (b *Board) startPan(at fyne.Position) {
	b.drag = &drag{pan: true, start: at, last: at}
}

// takeFocus asks for the keys: a click does not bring them by itself.
func (b *Board) takeFocus() {
	if a := fyne.CurrentApp(); a != nil {
		if c := a.Driver().CanvasForObject(b); c != nil && !b.focused {
			c.Focus(b)
		}
	}
}

// press does what the tool does where the pointer went down.
func (b *Board) press(at fyne.Position, held fyne.KeyModifier) {
	h := b.hit(at)
	switch b.tool {
	case DrawGround, DrawStratum, AddWater:
		if h == nil || h.Axis != Free || h.body {
			h = b.addPoint(at, held)
		}
	case PlaceBox:
		h = b.boxAt(at)
	case Select:
		if h == nil {
			b.choose("")
			b.startPan(at)
			return
		}
	}
	if h != nil {
		b.hold(h, at)
	}
}

// hold takes hold of a handle.
func (b *Board) hold(h *Handle, at fyne.Position) {
	b.choose(h.ID)
	d := b.drag
	if d == nil {
		d = &drag{merge: b.newGesture(h.ID), before: b.src.Project()}
	}
	d.handle, d.start, d.last, d.from = *h, at, at, h.At
	d.grab = h.At.Sub(b.cam.point(at))
	b.drag = d
}

// newGesture names a step of undo that no other edit falls into.
func (b *Board) newGesture(id string) string {
	b.gesture++
	return fmt.Sprintf("board%d:%s#%d", b.kind, id, b.gesture)
}

// hit is the handle under the pointer: the nearest, and of those that stand in
// one place the one that is selected, else the last listed; else the box when
// the pointer is in it.
func (b *Board) hit(at fyne.Position) *Handle {
	var best *Handle
	least := float64(hitReach)
	for i := range b.handles {
		h := &b.handles[i]
		d := distance(at, b.cam.position(h.At))
		if d < least || d == least && best != nil && best.ID != b.selected {
			best, least = h, d
		}
	}
	if best == nil && b.view != nil && b.view.HasBox && inside(b.cam.point(at), b.view.Box) {
		for i := range b.handles {
			if b.handles[i].body {
				return &b.handles[i]
			}
		}
	}
	return best
}

func distance(a, b fyne.Position) float64 {
	return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))
}

// Dragged follows the pointer while a button is down.
func (b *Board) Dragged(e *fyne.DragEvent) { b.follow(e.Position) }

// MouseMoved follows the pointer: the buttons other than the first move the
// paper without a Dragged event.
func (b *Board) MouseMoved(e *desktop.MouseEvent) {
	b.pointer, b.inside = e.Position, true
	b.tellPointer()
	if b.drag != nil {
		if e.Button == 0 {
			b.finish() // the button went up outside of the window
		} else {
			b.follow(e.Position)
		}
		return
	}
	id := ""
	if h := b.hit(e.Position); h != nil {
		id = h.ID
	}
	if near := b.nearNow(); id != b.hover || near != b.nearby || b.tool.draws() {
		b.hover, b.nearby = id, near
		b.overlay.place()
	}
}

// draws says whether the tool shows where the next point would go.
func (t Tool) draws() bool {
	return t == DrawGround || t == DrawStratum || t == AddWater
}

// MouseIn follows the pointer.
func (b *Board) MouseIn(e *desktop.MouseEvent) {
	b.pointer, b.inside = e.Position, true
}

// MouseOut takes the marks under the pointer away.
func (b *Board) MouseOut() {
	b.inside, b.hover, b.nearby = false, "", 0
	b.tellPointer()
	b.overlay.place()
}

func (b *Board) tellPointer() {
	if b.opts.OnPointer != nil && b.ready() {
		b.opts.OnPointer(b.cam.point(b.pointer), b.inside)
	}
}

// follow moves what is held to the pointer.
func (b *Board) follow(at fyne.Position) {
	d := b.drag
	b.pointer = at
	b.tellPointer()
	if d == nil {
		return
	}
	if !d.moved && distance(at, d.start) < dragStart {
		return
	}
	d.moved = true
	if d.pan {
		b.Pan(at.X-d.last.X, at.Y-d.last.Y)
		d.last = at
		return
	}
	d.last = at
	b.dragTo(b.cam.point(at).Add(d.grab), b.modifiers())
	b.overlay.place()
}

// dragTo moves the handle in hand to a place, drawn to what is near.
func (b *Board) dragTo(to geom.Vec, held fyne.KeyModifier) {
	d := b.drag
	h := b.handle(d.handle.ID)
	if h == nil {
		h = &d.handle
	}
	if held&fyne.KeyModifierShift != 0 && h.Axis == Free {
		to = locked(d.from, to)
	}
	v, why, guides, isValue, err := b.aim(h, to, held)
	d.why, d.guides, d.stop = why, guides, ""
	if err == nil {
		change := b.changeTo(h, v, isValue)
		before := b.src.Project()
		if err = b.src.Edit("Move "+lower(h.Label), d.merge, change); err == nil && b.src.Project() != before {
			d.edited = true
			b.follows()
		}
	}
	b.problem(err)
	if err != nil {
		d.stop = b.src.Explain(err)
	}
	b.status()
}

// locked keeps a place level or plumb with from, whichever is nearer.
func locked(from, to geom.Vec) geom.Vec {
	if math.Abs(to[0]-from[0]) >= math.Abs(to[1]-from[1]) {
		to[1] = from[1]
	} else {
		to[0] = from[0]
	}
	return to
}

// MouseUp ends what MouseDown began. When the pointer was dragged DragEnd
// follows; whichever comes first ends the step.
func (b *Board) MouseUp(e *desktop.MouseEvent) {
	d := b.drag
	b.finish()
	if d == nil || d.moved || d.edited || d.handle.ID == "" {
		return
	}
	now := time.Now()
	if d.handle.ID == b.clicked && now.Sub(b.clickedAt) < doubleClick {
		b.clicked = ""
		b.openEntry("")
		return
	}
	b.clicked, b.clickedAt = d.handle.ID, now
}

// DragEnd ends what MouseDown began.
func (b *Board) DragEnd() { b.finish() }

// finish closes the step of undo, once.
func (b *Board) finish() {
	d := b.drag
	if d == nil {
		return
	}
	b.drag = nil
	if d.edited {
		b.src.EndGesture()
	}
	if b.src.Project() != b.project {
		b.reload() // a step that came to nothing brings the old snapshot back
	}
	b.settle()
	b.status()
	b.overlay.place()
}

// cancel ends what is going on and restores what it changed.
func (b *Board) cancel() bool {
	d := b.drag
	if d == nil {
		return false
	}
	b.drag = nil
	if d.edited {
		// Put back under the same name, the step comes to nothing and leaves
		// no trace in the list of steps.
		err := b.src.Edit("Take back", d.merge, func(p *model.Project) error {
			*p = *d.before.Clone()
			return nil
		})
		if err != nil {
			panic("sketch: a project that was there is refused: " + err.Error())
		}
		b.src.EndGesture()
		b.ModelChanged()
	}
	b.problem(nil)
	b.settle()
	b.overlay.place()
	return true
}

// Cursor tells by its form what can be done under the pointer.
func (b *Board) Cursor() desktop.Cursor {
	if b.drag != nil && b.drag.pan || b.tool == PanTool || b.space {
		return desktop.PointerCursor
	}
	h := b.handle(b.hover)
	if b.drag != nil {
		h = &b.drag.handle
	}
	switch {
	case h != nil && h.Axis == Horizontal:
		return desktop.HResizeCursor
	case h != nil && h.Axis == Vertical:
		return desktop.VResizeCursor
	case h != nil:
		return desktop.PointerCursor
	case b.tool.draws() || b.tool == PlaceBox:
		return desktop.CrosshairCursor
	}
	return desktop.DefaultCursor
}
