package sketch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/scene"
)

// overlay is the few objects that lie over the drawing and change while the
// pointer moves: handles, the mark where a point is drawn to, the lines that
// follow the pointer and the numbers beside it. Objects are used again, never
// thrown away.
type overlay struct {
	b       *Board
	objects []fyne.CanvasObject
	marks   []*canvas.Rectangle
	lines   []*canvas.Line
	used    int // lines in use
	ring    *canvas.Circle
	focus   *canvas.Rectangle
	note    note
}

// Sizes of the signs, in units.
const (
	ringSide  = 15
	lineWidth = 1.5
)

func newOverlay(b *Board) *overlay {
	o := &overlay{b: b, ring: canvas.NewCircle(nil), focus: canvas.NewRectangle(nil)}
	o.ring.StrokeWidth, o.focus.StrokeWidth = 2, 2
	o.note.make()
	o.collect()
	o.restyle()
	return o
}

// collect lists the objects from the lowest to the topmost.
func (o *overlay) collect() {
	o.objects = o.objects[:0]
	o.objects = append(o.objects, o.focus)
	for _, l := range o.lines {
		o.objects = append(o.objects, l)
	}
	for _, m := range o.marks {
		o.objects = append(o.objects, m)
	}
	o.objects = append(o.objects, o.ring)
	o.objects = append(o.objects, o.note.objects()...)
	if e := o.b.entry; e != nil {
		o.objects = append(o.objects, e.box)
	}
}

// restyle takes the colours of the board.
func (o *overlay) restyle() {
	pal := o.b.palette
	o.ring.StrokeColor = pal[scene.Selection]
	o.focus.StrokeColor = pal[scene.Selection]
	o.note.style(pal)
}

// place puts everything where it belongs now.
func (o *overlay) place() {
	b := o.b
	if !b.ready() {
		return
	}
	o.used = 0
	o.placeFocus()
	o.placeMarks()
	o.placePointer()
	for _, l := range o.lines[o.used:] {
		l.Hide()
	}
	if b.entry != nil {
		b.entry.place()
	}
	canvas.Refresh(o.ring)
}

func (o *overlay) placeFocus() {
	if !o.b.focused {
		o.focus.Hide()
		return
	}
	o.focus.Show()
	o.focus.Move(fyne.NewPos(1, 1))
	o.focus.Resize(o.b.Size().SubtractWidthHeight(2, 2))
}

func (b *Board) within(at fyne.Position) bool {
	s := b.Size()
	return at.X >= 0 && at.Y >= 0 && at.X <= s.Width && at.Y <= s.Height
}

// line draws one straight line between two points of the section, cut to the
// board.
func (o *overlay) line(a, c geom.Vec) {
	b := o.b
	win := b.cam.window(b.Size())
	t0, t1, ok := clipSegment(a, c, win)
	if !ok || a == c {
		return
	}
	d := c.Sub(a)
	p, q := b.cam.position(a.Add(d.Mul(t0))), b.cam.position(a.Add(d.Mul(t1)))
	if p == q {
		return
	}
	o.stroke(p, q, scene.Selection, lineWidth)
}

// stroke draws one straight line between two places of the board.
func (o *overlay) stroke(p, q fyne.Position, role scene.Role, width float32) {
	if o.used == len(o.lines) {
		o.lines = append(o.lines, canvas.NewLine(nil))
		o.collect()
	}
	l := o.lines[o.used]
	o.used++
	l.StrokeColor, l.StrokeWidth = o.b.palette[role], width
	l.Position1, l.Position2 = p, q
	l.Show()
	l.Refresh()
}

// placePointer shows what goes on at the pointer: the drag in hand, the next
// point of a line, or the numbers of what is selected or pointed at.
func (o *overlay) placePointer() {
	b := o.b
	o.ring.Hide()
	o.note.hide()
	switch {
	case b.drag != nil && !b.drag.pan:
		o.showDrag()
	case b.tool.draws() && b.inside && b.drag == nil:
		o.showNext()
	default:
		o.showSelected()
	}
}

func (o *overlay) showDrag() {
	b := o.b
	h := b.handle(b.drag.handle.ID)
	if h == nil {
		if h = &b.drag.handle; h.body {
			o.showBoxOutline()
		}
	}
	for _, g := range b.drag.guides {
		o.line(g, h.At)
	}
	if b.drag.why != "" {
		o.ringAt(b.cam.position(h.At))
	}
	o.note.show(b, b.pointer, b.readout(h, b.drag.why, b.drag.stop), b.drag.stop != "")
}

// showBoxOutline stands in for the box while the section cannot be drawn.
func (o *overlay) showBoxOutline() {
	p := o.b.src.Project()
	box, err := section.BoxOf(p, tables.Default())
	if err != nil {
		return
	}
	a := geom.Vec{p.Box.Front, p.Box.Level}
	c := a.Add(geom.Vec{section.Depth(p, box), box.H})
	o.line(a, geom.Vec{c[0], a[1]})
	o.line(geom.Vec{c[0], a[1]}, c)
	o.line(c, geom.Vec{a[0], c[1]})
	o.line(geom.Vec{a[0], c[1]}, a)
}

// showNext shows where the next point of a line would go, with the lines to
// its neighbours.
func (o *overlay) showNext() {
	b := o.b
	if h := b.hit(b.pointer); h != nil && h.Axis == Free && !h.body {
		o.note.show(b, b.pointer, b.readout(h, "", ""), false)
		return
	}
	s := b.snapAt(b.drawnPath(), Free, b.cam.point(b.pointer), b.modifiers(), true)
	before, after := b.neighbours(s.At[0])
	for _, q := range []*geom.Vec{before, after} {
		if q != nil {
			o.line(*q, s.At)
		}
	}
	for _, g := range s.Guides {
		o.line(g, s.At)
	}
	o.ringAt(b.cam.position(s.At))
	o.note.show(b, b.pointer, b.nextReadout(s, before), false)
}

func (o *overlay) ringAt(at fyne.Position) {
	o.ring.Resize(fyne.NewSize(ringSide, ringSide))
	o.ring.Move(fyne.NewPos(at.X-ringSide/2, at.Y-ringSide/2))
	o.ring.Show()
}

// showSelected writes the numbers of the selected handle beside it, or those
// of the one under the pointer.
func (o *overlay) showSelected() {
	b := o.b
	id := b.hover
	if id == "" || b.drag != nil {
		id = b.selected
	}
	if h := b.handle(id); h != nil && b.entry == nil {
		o.note.show(b, b.cam.position(h.At), b.readout(h, "", ""), false)
	}
}

// newPlate is the ground under the panel for typing, in the colours of the
// widgets that stand on it.
func newPlate() *canvas.Rectangle {
	r := canvas.NewRectangle(theme.Color(theme.ColorNameOverlayBackground))
	r.StrokeColor, r.StrokeWidth, r.CornerRadius = theme.Color(theme.ColorNamePrimary), 1.5, 3
	return r
}

// canvasRefresh makes the toolkit look at the list of objects again.
func (b *Board) canvasRefresh() { canvas.Refresh(b) }
