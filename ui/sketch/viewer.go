package sketch

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"hillset/ui/scene"
)

var (
	_ fyne.Draggable     = (*Viewer)(nil)
	_ fyne.Scrollable    = (*Viewer)(nil)
	_ desktop.Cursorable = (*Viewer)(nil)
)

// Viewer is a chart that can be zoomed. Zoomed in, the scene is laid out for a
// larger sheet, so that there is more room between the letters.
type Viewer struct{ Chart }

// NewViewer makes a viewer of what draft lays out, at least as large as least.
func NewViewer(draft Draft, p scene.Palette, letters float64, least fyne.Size) *Viewer {
	v := &Viewer{}
	v.start(draft, p, letters, least)
	v.ExtendBaseWidget(v)
	return v
}

// zoomMost is how far one can zoom in.
const zoomMost = 6

func (v *Viewer) zoomAt(at fyne.Position, f float64) {
	z := math.Max(1, math.Min(zoomMost, v.zoom*f))
	f = z / v.zoom
	v.left = (v.left+float64(at.X))*f - float64(at.X)
	v.up = (v.up+float64(at.Y))*f - float64(at.Y)
	v.zoom = z
	v.keepIn()
	v.raster.Refresh()
}

func (v *Viewer) middle() fyne.Position {
	return fyne.NewPos(v.Size().Width/2, v.Size().Height/2)
}

// viewerStep is what a key or a button zooms by.
const viewerStep = 1.3

// ZoomIn and ZoomOut zoom about the middle; Fit shows all.
func (v *Viewer) ZoomIn() { v.zoomAt(v.middle(), viewerStep) }

// ZoomOut shows more.
func (v *Viewer) ZoomOut() { v.zoomAt(v.middle(), 1/viewerStep) }

// Fit shows all.
func (v *Viewer) Fit() { v.zoomAt(v.middle(), 1/v.zoom) }

// Scrolled zooms about the pointer.
func (v *Viewer) Scrolled(e *fyne.ScrollEvent) {
	f := math.Exp(float64(e.Scrolled.DY) / wheelUnit)
	v.zoomAt(e.Position, math.Min(wheelMost, math.Max(1/wheelMost, f)))
}

// Dragged moves the paper.
func (v *Viewer) Dragged(e *fyne.DragEvent) {
	v.left -= float64(e.Dragged.DX)
	v.up -= float64(e.Dragged.DY)
	v.keepIn()
	v.raster.Refresh()
}

// DragEnd has nothing to end.
func (v *Viewer) DragEnd() {}

// Cursor is the ordinary one.
func (v *Viewer) Cursor() desktop.Cursor { return desktop.DefaultCursor }
