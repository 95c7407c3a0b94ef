package sketch

import (
	"math"

	"fyne.io/fyne/v2"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/scene"
)

// fitMargin is the share of the board kept free round a drawing without
// dimensions.
const fitMargin = 0.12

// Fit shows the works so that they fill the board; when they are shown so
// already, the whole section. From then on that is kept in the window when the
// board changes its size.
func (b *Board) Fit() {
	if !b.camSet {
		b.toWhole = !b.toWhole
	}
	b.camSet = false
	b.fit()
	b.Redraw()
}

// Room kept beside a fitted section for axis, caption and dimensions, mm, and
// the share of the board that it may take each way.
const (
	padLeft, padRight = 18.0, 4.0
	padTop, padBottom = 50.0, 40.0
	padMostX          = 0.25
	padMostY          = 0.45
)

func (b *Board) fit() {
	s := b.Size()
	if b.view == nil {
		b.natural = false
		b.fitSite(s)
		return
	}
	b.natural, b.fitAt = isNatural(b.view), b.view.Station
	content := scene.Window(b.view, math.Inf(1))
	if w, ok := b.works(); ok && !b.toWhole {
		content = w
	}
	mm := unitsPerMM * b.letters
	kx := math.Min(1, padMostX*float64(s.Width)/((padLeft+padRight)*mm))
	ky := math.Min(1, padMostY*float64(s.Height)/((padTop+padBottom)*mm))
	c, ok := fitted(content, s, kx*(padLeft+padRight)*mm, ky*(padTop+padBottom)*mm)
	if !ok {
		b.fitSite(s)
		return
	}
	// What is left over above and below goes to texts and dimensions.
	free := float64(s.Height) - content.H()*c.scale
	b.cam = c.panned(kx*(padLeft-padRight)*mm/2, free*(padTop/(padTop+padBottom)-0.5))
}

func isNatural(v *section.View) bool { return v.Stage.Kind == model.StageNatural }

// Land shown beside and below the works when they are fitted, m. Across the
// slope it is only assumed.
const (
	landLong  = 1.5
	landCross = 0.6
	landUnder = 0.8
)

// works is the room of cut and box at all stages, so that the drawing stands
// still when the stage changes, with a strip of the hill round them. There is
// none while the hill is looked at as it was found.
func (b *Board) works() (geom.Rect, bool) {
	if isNatural(b.view) {
		return geom.Rect{}, false
	}
	p := b.src.Project()
	r := b.view.Box
	var tops []geom.Polyline
	beside := landCross
	if b.kind == LongSection {
		beside = landLong
		r = r.Union(geom.Rect{Min: geom.Vec{b.view.Box.Min[0] - p.Cut.Apron, b.view.Formation}, Max: b.view.Box.Max})
	}
	for _, v := range b.allStages(p) {
		r = r.Union(v.Excavated.Bounds())
		if v.HasBox {
			r = r.Union(v.Box)
		}
		tops = append(tops, v.Ground, v.Finish)
	}
	if r.Empty() {
		return geom.Rect{}, false
	}
	r.Min, r.Max = r.Min.Sub(geom.Vec{beside, landUnder}), r.Max.Add(geom.Vec{beside, 0})
	for _, l := range tops {
		for _, q := range l.ClipX(r.Min[0], r.Max[0]) {
			r.Max[1] = math.Max(r.Max[1], q[1])
		}
	}
	return r, true
}

// allStages are the sections like the one shown, at all stages that can be
// drawn.
func (b *Board) allStages(p *model.Project) []*section.View {
	out := []*section.View{b.view}
	plan, err := section.NewPlan(p, tables.Default())
	if err != nil {
		return out
	}
	cut, err := plan.Long()
	if err == nil && b.kind == CrossSection {
		cut, err = plan.Cross(b.view.Station)
	}
	if err != nil {
		return out
	}
	for _, st := range p.Stages {
		if v, err := cut.At(st); err == nil {
			out = append(out, v)
		}
	}
	return out
}

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
