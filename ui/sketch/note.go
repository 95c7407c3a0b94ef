package sketch

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"hillset/engine/quantity"
	"hillset/geom"
	"hillset/ui/scene"
)

// noteLines is the most lines that a note has.
const noteLines = 5

// Sizes of a note, in units.
const (
	noteText   = 13
	noteLine   = 18
	notePad    = 6
	noteOffset = 16 // from the pointer
	noteColumn = 44 // letters of a line before it is broken
)

// note is a few lines of text on a plate beside the pointer.
type note struct {
	plate *canvas.Rectangle
	texts [noteLines]*canvas.Text
}

func (n *note) make() {
	n.plate = canvas.NewRectangle(nil)
	n.plate.CornerRadius, n.plate.StrokeWidth = 3, 1
	for i := range n.texts {
		n.texts[i] = canvas.NewText("", nil)
		n.texts[i].TextSize = noteText
	}
	n.hide()
}

func (n *note) objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{n.plate}
	for _, t := range n.texts {
		out = append(out, t)
	}
	return out
}

func (n *note) style(pal scene.Palette) {
	n.plate.FillColor, n.plate.StrokeColor = pal[scene.Paper], pal[scene.Thin]
	for _, t := range n.texts {
		t.Color = pal[scene.Ink]
	}
}

func (n *note) hide() {
	n.plate.Hide()
	for _, t := range n.texts {
		t.Hide()
	}
}

// show puts the lines beside a place of the board, on the side where they fit.
// A warning has a frame in the colour of what is beyond limits.
func (n *note) show(b *Board, at fyne.Position, lines []string, warning bool) {
	w := float32(0)
	if len(lines) > noteLines {
		lines = lines[:noteLines]
	}
	for i, line := range lines {
		t := n.texts[i]
		if t.Text != line {
			t.Text = line
			t.Refresh()
		}
		t.TextStyle.Bold = i == 0
		w = max(w, fyne.MeasureText(line, noteText, t.TextStyle).Width)
	}
	size := fyne.NewSize(w+2*notePad, float32(len(lines))*noteLine+notePad)
	pos := fyne.NewPos(at.X+noteOffset, at.Y+noteOffset)
	if pos.X+size.Width > b.Size().Width {
		pos.X = at.X - noteOffset - size.Width
	}
	if pos.Y+size.Height > b.Size().Height {
		pos.Y = at.Y - noteOffset - size.Height
	}
	pos.X, pos.Y = max(0, pos.X), max(0, pos.Y)
	n.plate.StrokeColor, n.plate.StrokeWidth = b.palette[scene.Thin], 1
	if warning {
		n.plate.StrokeColor, n.plate.StrokeWidth = b.palette[scene.BeyondMark], 2
	}
	n.plate.Resize(size)
	n.plate.Move(pos)
	n.plate.Show()
	for i, t := range n.texts {
		if i >= len(lines) {
			t.Hide()
			continue
		}
		t.Move(fyne.NewPos(pos.X+notePad, pos.Y+notePad/2+float32(i)*noteLine))
		t.Show()
	}
}

// readout is what is written beside a handle: its name, its numbers, why it
// was drawn to its place, what stops it.
func (b *Board) readout(h *Handle, why, stop string) []string {
	lines := []string{h.Label}
	for _, v := range h.Values {
		text := b.src.Format(v.Now, v.Kind)
		if v.Label != h.Label {
			text = v.Label + " " + text
		}
		lines = append(lines, text)
	}
	if why != "" {
		lines = append(lines, "Snap: "+why)
	}
	if stop != "" {
		lines = append(lines, wrap(stop, noteColumn)...)
	}
	return lines
}

// nextReadout is what is written beside the place of the next point.
func (b *Board) nextReadout(s Snapped, before *geom.Vec) []string {
	lines := []string{"Distance " + b.src.Format(s.At[0], quantity.Length) + ", level " + b.src.Format(s.At[1], quantity.Length)}
	if before != nil {
		d := s.At.Sub(*before)
		lines = append(lines, "Rise "+b.src.Format(d[1], quantity.Length)+" in "+b.src.Format(d[0], quantity.Length)+
			", slope "+b.src.Format(d[1]/d[0], quantity.Gradient))
	}
	if s.Why != "" {
		lines = append(lines, "Snap: "+s.Why)
	}
	return lines
}

// neighbours are the points of the line in hand on both sides of x, nil where
// there is none.
func (b *Board) neighbours(x float64) (before, after *geom.Vec) {
	path := b.drawnPath()
	if path == "" || b.tool == AddWater {
		return nil, nil
	}
	for i := range b.handles {
		h := &b.handles[i]
		if !strings.HasPrefix(h.ID, path) {
			continue
		}
		if h.At[0] < x && (before == nil || h.At[0] > before[0]) {
			before = &h.At
		}
		if h.At[0] > x && (after == nil || h.At[0] < after[0]) {
			after = &h.At
		}
	}
	return before, after
}

// wrap breaks a text into lines of at most n letters where there are spaces.
func wrap(text string, n int) []string {
	var lines []string
	line, length := "", 0
	for _, word := range strings.Fields(text) {
		l := len([]rune(word))
		if length > 0 && length+1+l > n {
			lines = append(lines, line)
			line, length = "", 0
		}
		if length > 0 {
			line, length = line+" ", length+1
		}
		line, length = line+word, length+l
	}
	if length > 0 {
		lines = append(lines, line)
	}
	return lines
}
