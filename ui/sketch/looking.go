package sketch

import (
	"math"

	"fyne.io/fyne/v2"

	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/scene"
)

// fitMargin is the share of the board kept free round a drawing without
// dimensions.
const fitMargin = 0.12

// Fit shows the whole section; when it is shown so already, the works alone.
// From then on that is kept in the window when the board changes its size.
func (b *Board) Fit() {
	if !b.camSet {
		b.toWorks = !b.toWorks
	}
	b.camSet = false
	b.fit()
	b.Redraw()
}

// Share of the board that dimensions and titles may take when it is fitted.
const (
	padMostX = 0.18
	padMostY = 0.34
)

func (b *Board) fit() {
	s := b.Size()
	if b.view != nil {
		// The margins that the drawing wants for its dimensions, mm of paper,
		// as far as they leave most of the board to the section.
		content := scene.Window(b.view, math.Inf(1))
		outer := scene.Window(b.view, 1)
		mm := unitsPerMM * b.letters
		padX := math.Min((outer.W()-content.W())*mm, padMostX*float64(s.Width))
		padY := math.Min((outer.H()-content.H())*mm, padMostY*float64(s.Height))
		if w, ok := works(b.view); ok && b.toWorks != (b.kind == CrossSection) {
			content = w
		}
		if c, ok := fitted(content, s, padX, padY); ok {
			b.cam = c
			return
		}
	}
	b.fitSite(s)
}

// works is the room of box and cut, with a strip of the hill round them; false
// before there are any.
func works(v *section.View) (geom.Rect, bool) {
	if !v.HasBox && len(v.CutLine) == 0 {
		return geom.Rect{}, false
	}
	r := geom.Rect{Min: geom.Vec{v.Box.Min[0], v.Formation}, Max: v.Box.Max}
	corners := []geom.Vec{v.Toe, v.Crest}
	for _, b := range v.Batters {
		corners = append(corners, b.Foot, b.Top)
	}
	for _, c := range corners {
		r = r.Union(geom.Rect{Min: c.Sub(geom.Vec{hillStrip, hillStrip}), Max: c.Add(geom.Vec{hillStrip, hillStrip})})
	}
	return r.Union(v.Box.Expand(hillStrip)), true
}

// hillStrip is how much of the hill is shown round the works, m.
const hillStrip = 1.0

// fitSite shows what there is of a site without a section.
func (b *Board) fitSite(s fyne.Size) {
	r, ok := siteBounds(b.src.Project())
	if !ok || b.kind != LongSection || r.Min == r.Max {
		at := geom.Vec{}
		if ok {
			at = r.Min
		}
		// Nothing is drawn yet: room for a small site round the zero point.
		r = geom.Rect{Min: at.Sub(geom.Vec{2, 4}), Max: at.Add(geom.Vec{22, 8})}
	}
	if c, ok := fitted(r, s, fitMargin*float64(s.Width), fitMargin*float64(s.Height)); ok {
		b.cam = c
	}
}

// ready says whether the board has a camera to look through.
func (b *Board) ready() bool { return b.cam.scale > 0 }

// zoomStep is one step of a key or a button.
const zoomStep = 1.25

// ZoomIn and ZoomOut change the scale about the middle of the board.
func (b *Board) ZoomIn() { b.zoom(b.middle(), zoomStep) }

// ZoomOut is the reverse of ZoomIn.
func (b *Board) ZoomOut() { b.zoom(b.middle(), 1/zoomStep) }

func (b *Board) middle() fyne.Position {
	return fyne.NewPos(b.Size().Width/2, b.Size().Height/2)
}

func (b *Board) zoom(at fyne.Position, f float64) {
	if !b.ready() {
		return
	}
	b.cam, b.camSet = b.cam.zoomed(at, f), true
	b.repaint()
	b.overlay.place()
}

// Pan moves the paper, in units of the toolkit.
func (b *Board) Pan(dx, dy float32) {
	if !b.ready() {
		return
	}
	b.cam, b.camSet = b.cam.panned(float64(dx), float64(dy)), true
	b.moved()
}

// Scale is the number of units of the toolkit per metre of the section.
func (b *Board) Scale() float64 { return b.cam.scale }

// Wheel steps: a notch is 25 units on some systems and 10 on others, and a
// fast turn may come as one event of thousands. One event changes the scale by
// no more than wheelMost.
const (
	wheelUnit = 160.0 // units that change the scale by e
	wheelMost = 1.35
)

// Scrolled zooms about the pointer; with Shift it moves the paper along, with
// Ctrl up and down.
func (b *Board) Scrolled(e *fyne.ScrollEvent) {
	if !b.ready() {
		return
	}
	switch held := b.modifiers(); {
	case held&fyne.KeyModifierShift != 0:
		b.Pan(e.Scrolled.DX+e.Scrolled.DY, 0)
	case held&fyne.KeyModifierControl != 0:
		b.Pan(0, e.Scrolled.DY)
	case e.Scrolled.DY == 0:
		b.Pan(e.Scrolled.DX, 0)
	default:
		f := math.Exp(float64(e.Scrolled.DY) / wheelUnit)
		b.zoom(e.Position, math.Min(wheelMost, math.Max(1/wheelMost, f)))
	}
}
