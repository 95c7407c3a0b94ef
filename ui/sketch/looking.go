package sketch

import (
	"math"

	"fyne.io/fyne/v2"

	"hillset/geom"
	"hillset/ui/scene"
)

// fitMargin is the share of the board kept free round a drawing without
// dimensions.
const fitMargin = 0.12

// Fit shows the whole section. From then on it is kept in the window when the
// board changes its size.
func (b *Board) Fit() {
	b.camSet = false
	b.fit()
	b.Redraw()
}

func (b *Board) fit() {
	s := b.Size()
	if b.view != nil {
		// The margins that the drawing wants for its dimensions, mm of paper,
		// as far as they leave most of the board to the section.
		content := scene.Window(b.view, math.Inf(1))
		outer := scene.Window(b.view, 1)
		mm := unitsPerMM * b.letters
		padX := math.Min((outer.W()-content.W())*mm, 0.45*float64(s.Width))
		padY := math.Min((outer.H()-content.H())*mm, 0.45*float64(s.Height))
		if c, ok := fitted(content, s, padX, padY); ok {
			b.cam = c
			return
		}
	}
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
