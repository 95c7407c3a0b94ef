package sketch

import (
	"image"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"hillset/geom"
	"hillset/ui/scene"
)

// Draft lays a scene out for a sheet of width by height mm of paper, its lower
// left corner at the origin.
type Draft func(width, height float64) (*scene.Scene, error)

// Chart shows a scene that fills it, for looking at only. It is laid out anew
// when the size changes.
type Chart struct {
	widget.BaseWidget
	draft   Draft
	palette scene.Palette
	letters float64
	least   fyne.Size

	raster *canvas.Raster
	pic    picture
	built  bool
	forW   float64 // mm that the scene was laid out for
	forH   float64
	// zoom is how much larger than the chart the sheet is.
	zoom float64
	// left and up are how far the sheet is moved out of sight, units.
	left, up float64
}

// NewChart makes a chart of what draft lays out, at least as large as least.
func NewChart(draft Draft, p scene.Palette, letters float64, least fyne.Size) *Chart {
	c := &Chart{}
	c.start(draft, p, letters, least)
	c.ExtendBaseWidget(c)
	return c
}

func (c *Chart) start(draft Draft, p scene.Palette, letters float64, least fyne.Size) {
	c.draft, c.palette, c.letters, c.least, c.zoom = draft, p, letters, least, 1
	c.raster = canvas.NewRaster(c.generate)
}

// Redraw lays the scene out anew, after what it shows has changed.
func (c *Chart) Redraw() {
	c.built = false
	c.raster.Refresh()
}

// SetPalette changes the colours.
func (c *Chart) SetPalette(p scene.Palette) {
	c.palette = p
	c.Redraw()
}

// SetLetters changes the scale of letters and signs.
func (c *Chart) SetLetters(k float64) {
	c.letters = k
	c.Redraw()
}

// Scene is what is shown; nil before the first picture and where nothing could
// be laid out.
func (c *Chart) Scene() *scene.Scene {
	c.build()
	return c.pic.scene
}

// mm is how many mm of paper a length of the screen is.
func (c *Chart) mm(units float64) float64 { return units / (unitsPerMM * c.letters) }

// build lays the scene out for the size it is shown at.
func (c *Chart) build() {
	w, h := c.mm(float64(c.Size().Width)*c.zoom), c.mm(float64(c.Size().Height)*c.zoom)
	if c.built && w == c.forW && h == c.forH || !(w > 0) || !(h > 0) {
		return
	}
	s, err := c.draft(w, h)
	if err != nil {
		s = excuse(err.Error(), w, h)
	}
	c.built, c.forW, c.forH = true, w, h
	c.pic.scene, c.pic.fresh = s, false
}

// excuse is a sheet that says why there is no drawing.
func excuse(text string, w, h float64) *scene.Scene {
	const mmPerM = 1000
	s := &bare{Scene: scene.Scene{MMPerM: mmPerM}, mm: 1.0 / mmPerM}
	lines := wrap(strings.ToUpper(text[:min(1, len(text))])+text[min(1, len(text)):], max(bareLeast, int(w/bareLetter)))
	at := geom.Vec{w / 2 * s.mm, (h/2 + float64(len(lines)-1)*bareText) * s.mm}
	for _, line := range lines {
		s.label(scene.Label{Layer: scene.Frame, Tag: "missing", At: at, Text: line, Height: bareText, Anchor: scene.Anchor{H: 0.5, V: 0.5}, Role: scene.Ink})
		at[1] -= 2 * bareText * s.mm
	}
	return &s.Scene
}

// generate is called by the toolkit with the size in pixels.
func (c *Chart) generate(w, h int) image.Image {
	width := float64(c.raster.Size().Width)
	if w <= 0 || h <= 0 || width <= 0 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 0), max(h, 0)))
	}
	c.build()
	if c.pic.scene == nil {
		return image.NewRGBA(image.Rect(0, 0, w, h))
	}
	c.pic.palette = c.palette
	return c.pic.draw(w, h, c.frame(float64(w)/width))
}

// frame says where the sheet lies; ppu is pixels per unit.
func (c *Chart) frame(ppu float64) Frame {
	px := unitsPerMM * c.letters * ppu
	top := float64(c.Size().Height)*c.zoom - c.up
	return Frame{Scale: c.pic.scene.MMPerM * px, Left: math.Round(c.left * ppu), Top: math.Round(top * ppu), PxPerMM: px}
}

// keepIn leaves no empty paper beside the sheet.
func (c *Chart) keepIn() {
	s := c.Size()
	c.left = math.Max(0, math.Min(c.left, float64(s.Width)*(c.zoom-1)))
	c.up = math.Max(0, math.Min(c.up, float64(s.Height)*(c.zoom-1)))
}

// Resize keeps the sheet in place.
func (c *Chart) Resize(s fyne.Size) {
	if s == c.Size() {
		return
	}
	c.BaseWidget.Resize(s)
	c.keepIn()
}

// MinSize is the least at which it can be read.
func (c *Chart) MinSize() fyne.Size { return c.least }

// CreateRenderer is called by the toolkit.
func (c *Chart) CreateRenderer() fyne.WidgetRenderer { return &chartRenderer{c} }

type chartRenderer struct{ c *Chart }

func (r *chartRenderer) Layout(s fyne.Size)           { r.c.raster.Resize(s) }
func (r *chartRenderer) MinSize() fyne.Size           { return r.c.least }
func (r *chartRenderer) Refresh()                     { r.c.Redraw() }
func (r *chartRenderer) Destroy()                     {}
func (r *chartRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.c.raster} }
