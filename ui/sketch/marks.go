package sketch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"hillset/ui/scene"
)

// look is how much of a handle is drawn: little while it is only there, more
// near the pointer, most when it is selected. Whatever is drawn, the reach of
// the pointer is the same.
type look struct {
	side   float32 // of the square of a free point
	half   float32 // half the arrow of a handle of one axis
	head   float32 // of that arrow
	stroke float32
}

// Looks of handles, in units.
var (
	quietLook    = look{side: 6.5, half: 6, head: 2.5, stroke: 1.2}
	nearLook     = look{side: 10, half: 9, head: 3.5, stroke: 1.6}
	selectedLook = look{side: 12, half: 10, head: 4, stroke: 1.8}
)

// nearReach is how close the pointer comes for a handle to be drawn in full.
const nearReach = 40

// placeMarks shows the handles that are in the window. Free points are small
// squares; handles of one axis are double arrows along it, so that the form
// says how they move; water levels have their triangle.
func (o *overlay) placeMarks() {
	b, n := o.b, 0
	clear := b.axisStrip()
	for i := range b.handles {
		h := &b.handles[i]
		at := b.cam.position(h.At)
		if !b.within(at) || !o.shown(h) {
			continue
		}
		k, loud := o.lookOf(h, at)
		if !loud && at.X < clear {
			continue // the level axis is kept clear; the pointer brings it out
		}
		if n == len(o.marks) {
			o.marks = append(o.marks, canvas.NewRectangle(nil))
			o.collect()
		}
		o.mark(o.marks[n], h, at, k)
		n++
	}
	for _, m := range o.marks[n:] {
		m.Hide()
	}
}

// axisStrip is how far the level axis reaches from the left of the board, in
// units; 0 where it stands free beside the ground.
func (b *Board) axisStrip() float32 {
	if b.pic.scene == nil {
		b.build()
	}
	s := b.pic.scene
	if s == nil || s.Axis.Empty() {
		return 0
	}
	return float32((s.Axis.Max[0] - b.builtFor.Min[0]) * b.builtAt * unitsPerMM * b.letters)
}

// lookOf is how a handle is drawn now; loud when it is more than just there.
func (o *overlay) lookOf(h *Handle, at fyne.Position) (k look, loud bool) {
	b := o.b
	switch {
	case h.ID == b.selected:
		return selectedLook, true
	case h.ID == b.hover || b.inside && distance(at, b.pointer) < nearReach:
		return nearLook, true
	}
	return quietLook, false
}

// nearNow tells which handles are near the pointer: a change means that they
// are to be drawn anew.
func (b *Board) nearNow() uint64 {
	var set uint64
	for i := range b.handles {
		if distance(b.cam.position(b.handles[i].At), b.pointer) < nearReach {
			set |= 1 << (i % 64)
			set = set<<1 | set>>63
		}
	}
	return set
}

// shown says whether a handle is of use to the tool in hand.
func (o *overlay) shown(h *Handle) bool {
	b := o.b
	switch b.tool {
	case DrawGround, DrawStratum, AddWater:
		return h.Axis == Free && !h.body
	case PlaceBox:
		return h.body
	case PanTool:
		return h.ID == b.selected
	}
	return true
}

// mark draws one handle. The rectangle is the square of a free point, and the
// plate under the others when they are selected.
func (o *overlay) mark(m *canvas.Rectangle, h *Handle, at fyne.Position, k look) {
	pal := o.b.palette
	selected := h.ID == o.b.selected
	w, tall := k.side, k.side
	m.FillColor, m.StrokeColor, m.StrokeWidth = pal[scene.Paper], pal[scene.Selection], k.stroke
	if selected {
		m.FillColor, m.StrokeColor = pal[scene.Selection], pal[scene.Ink]
	}
	if h.Axis == Free {
		m.Resize(fyne.NewSize(w, tall))
		m.Move(fyne.NewPos(at.X-w/2, at.Y-tall/2))
		m.Show()
		return
	}
	m.Hide()
	ink := scene.Selection
	if selected {
		ink = scene.Ink
	}
	if h.level {
		o.levelMark(at, k, ink)
		return
	}
	along := fyne.NewDelta(1, 0)
	if h.Axis == Vertical {
		along = fyne.NewDelta(0, 1)
	}
	o.arrow(at, along, k, ink)
}

// step goes a units along and c across a direction.
func step(at fyne.Position, along fyne.Delta, a, c float32) fyne.Position {
	return at.AddXY(along.DX*a-along.DY*c, along.DY*a+along.DX*c)
}

// arrow is a double arrow over a strip of paper that parts it from the hatch.
func (o *overlay) arrow(at fyne.Position, along fyne.Delta, k look, ink scene.Role) {
	p, q := step(at, along, -k.half, 0), step(at, along, k.half, 0)
	o.stroke(step(at, along, -k.half-1, 0), step(at, along, k.half+1, 0), scene.Paper, 2*k.head+1)
	o.stroke(p, q, ink, k.stroke)
	for _, side := range [2]float32{-1, 1} {
		o.stroke(p, step(p, along, k.head, side*k.head), ink, k.stroke)
		o.stroke(q, step(q, along, -k.head, side*k.head), ink, k.stroke)
	}
}

// levelMark is a short tick with the triangle of water levels on it.
func (o *overlay) levelMark(at fyne.Position, k look, ink scene.Role) {
	half, tall := 0.75*k.half, 1.2*k.half
	left, right := at.AddXY(-half, -tall), at.AddXY(half, -tall)
	o.stroke(at.AddXY(0, -tall), at, scene.Paper, half)
	o.stroke(at.AddXY(-k.half, 0), at.AddXY(k.half, 0), ink, k.stroke)
	o.stroke(at, left, ink, k.stroke)
	o.stroke(at, right, ink, k.stroke)
	o.stroke(left, right, ink, k.stroke)
}
