package sketch

import (
	"image"
	"image/draw"
	"math"
	"time"

	"fyne.io/fyne/v2"

	"hillset/geom"
	"hillset/ui/scene"
)

// unitsPerMM is how many units of the toolkit a millimetre of paper takes on
// the screen at a letter scale of 1: 96 units to the inch.
const unitsPerMM = 96 / 25.4

// idle is how long the pointer rests before a picture that was shifted is
// drawn anew.
const idle = 60 * time.Millisecond

// picture is the last image of a board and what it was painted from.
type picture struct {
	img     *image.RGBA
	frame   Frame
	scene   *scene.Scene
	painter Painter
	palette scene.Palette
	fresh   bool // shows its scene; false after a change of anything but the place
}

// frameFor places the camera on whole pixels, so that a shifted picture is the
// same as one painted anew. ppu is pixels per unit.
func frameFor(c camera, ppu, letters float64) Frame {
	return Frame{Scale: c.scale * ppu, Left: math.Round(c.left * ppu), Top: math.Round(c.top * ppu), PxPerMM: unitsPerMM * letters * ppu}
}

// draw brings the picture up to date for an image of w by h pixels.
func (p *picture) draw(w, h int, f Frame) *image.RGBA {
	if p.img == nil || p.img.Rect.Dx() != w || p.img.Rect.Dy() != h {
		p.img = image.NewRGBA(image.Rect(0, 0, w, h))
		p.fresh = false
	}
	dx, dy := p.frame.Left-f.Left, f.Top-p.frame.Top
	if p.fresh && f.Scale == p.frame.Scale && f.PxPerMM == p.frame.PxPerMM && math.Abs(dx) < float64(w) && math.Abs(dy) < float64(h) {
		p.frame = f
		p.shift(int(dx), int(dy))
		return p.img
	}
	p.frame = f
	p.painter.Paint(p.img, p.scene, f, p.palette)
	p.fresh = true
	return p.img
}

// shift moves the picture and paints the strips that come into view.
func (p *picture) shift(dx, dy int) {
	if dx == 0 && dy == 0 {
		return
	}
	r := p.img.Rect
	scroll(p.img, dx, dy)
	if dx != 0 {
		side := r
		if dx > 0 {
			side.Max.X = dx
		} else {
			side.Min.X = r.Max.X + dx
		}
		p.painter.PaintWithin(p.img, side, p.scene, p.frame, p.palette)
	}
	if dy != 0 {
		side := r
		if dy > 0 {
			side.Max.Y = dy
		} else {
			side.Min.Y = r.Max.Y + dy
		}
		p.painter.PaintWithin(p.img, side, p.scene, p.frame, p.palette)
	}
}

// scroll moves the pixels of an image within it; image/draw copes with the
// overlap.
func scroll(img *image.RGBA, dx, dy int) {
	draw.Draw(img, img.Rect.Add(image.Pt(dx, dy)), img, img.Rect.Min, draw.Src)
}

// generate is called by the toolkit once per frame in which the drawing
// changed, with the size in pixels.
func (b *Board) generate(w, h int) image.Image {
	width := float64(b.raster.Size().Width)
	if w <= 0 || h <= 0 || width <= 0 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 0), max(h, 0)))
	}
	ppu := float64(w) / width
	b.build()
	b.pic.palette = b.palette
	return b.pic.draw(w, h, frameFor(b.cam, ppu, b.letters))
}

// build makes the scene anew when the model, the scale or the window asks for
// it. While the paper is being moved the old scene serves until the pointer
// rests or a good part of the picture has come in from outside.
func (b *Board) build() {
	win := b.cam.window(b.Size())
	mmPerM := b.cam.scale / (unitsPerMM * b.letters)
	same := b.built && b.builtAt == mmPerM
	if same && (b.builtFor == win || b.panning && !strayed(b.builtFor, win)) {
		return
	}
	s, err := b.sceneFor(mmPerM, win)
	if err != nil {
		b.problem(err)
		return
	}
	b.built, b.builtAt, b.builtFor = true, mmPerM, win
	b.pic.scene, b.pic.fresh = s, false
}

// strayed says whether more than a quarter of the window lies outside what the
// scene was built for.
func strayed(for_, win geom.Rect) bool {
	dx := math.Abs(win.Min[0]-for_.Min[0]) / (for_.Max[0] - for_.Min[0])
	dy := math.Abs(win.Min[1]-for_.Min[1]) / (for_.Max[1] - for_.Min[1])
	return !(dx < 0.25 && dy < 0.25)
}

func (b *Board) sceneFor(mmPerM float64, win geom.Rect) (*scene.Scene, error) {
	if b.view == nil {
		return bareScene(b.src, b.kind, mmPerM, win, b.bareText()), nil
	}
	return b.src.Scene(b.view, mmPerM, win)
}

// bareText says in the drawing itself what is missing.
func (b *Board) bareText() string {
	switch {
	case b.kind == LongSection && len(b.src.Project().Site.Ground) == 0:
		return "Draw the hill first: press G and click along the ground, from downhill to uphill. Or type its points on page 1 at the right."
	case b.viewErr != nil:
		return b.src.Explain(b.viewErr)
	}
	return ""
}

// repaint asks for the drawing to be shown anew at the next frame.
func (b *Board) repaint() { b.raster.Refresh() }

// moved notes that the paper was moved: the picture is shifted at once and
// drawn anew when the pointer rests.
func (b *Board) moved() {
	b.panning = true
	b.moves++
	n := b.moves
	b.after(idle, func() {
		if n == b.moves && b.drag == nil {
			b.settle()
		}
	})
	b.repaint()
	b.overlay.place()
}

// settle draws a shifted picture anew.
func (b *Board) settle() {
	if b.panning {
		b.panning = false
		b.repaint()
	}
}

// afterOnUI runs f on the goroutine of the user interface after a while.
func afterOnUI(d time.Duration, f func()) {
	time.AfterFunc(d, func() { fyne.Do(f) })
}
