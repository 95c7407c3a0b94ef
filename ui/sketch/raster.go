package sketch

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"sync"

	"hillset/geom"
	"hillset/ui/scene"
)

// Frame says where a scene lies on an image: pixel = (x*Scale - Left,
// Top - z*Scale).
type Frame struct {
	Scale     float64 // pixels per metre
	Left, Top float64 // pixels
	PxPerMM   float64 // pixels per millimetre of paper: line widths, letters
}

// Pixel gives the pixel of a point of the section.
func (f Frame) Pixel(p geom.Vec) geom.Vec {
	return geom.Vec{p[0]*f.Scale - f.Left, f.Top - p[1]*f.Scale}
}

// Painter draws scenes into images. It keeps its buffers from one picture to
// the next and must not be used by two goroutines at once.
type Painter struct {
	strips []strip
}

// strip draws the part of a scene that falls on some rows of the image.
type strip struct {
	cov coverage
	ink ink
	pen pen
	abc letters
	pts []geom.Vec
	off []int // where each part of the path ends in pts
}

// Paint draws the scene on the whole image.
func (p *Painter) Paint(img *image.RGBA, s *scene.Scene, f Frame, pal scene.Palette) {
	p.PaintWithin(img, img.Rect, s, f, pal)
}

// stripRows is how many rows are worth a goroutine of their own.
const stripRows = 200

// PaintWithin draws the part of the scene that falls on the window win of the
// image; pixels outside of it keep their colour. The pixels inside come out
// the same whatever the window is.
func (p *Painter) PaintWithin(img *image.RGBA, win image.Rectangle, s *scene.Scene, f Frame, pal scene.Palette) {
	win = win.Intersect(img.Rect)
	if win.Empty() {
		return
	}
	if win.Dy() < stripRows {
		p.need(1)
		p.strips[0].paint(img, win, s, f, pal)
		return
	}
	p.need(3)
	mid := win.Min.Y + win.Dy()/2
	upper, lower := win, win
	upper.Max.Y, lower.Min.Y = mid, mid
	var done sync.WaitGroup
	done.Add(1)
	go func() {
		defer done.Done()
		p.strips[1].paint(img, upper, s, f, pal)
	}()
	p.strips[2].paint(img, lower, s, f, pal)
	done.Wait()
}

func (p *Painter) need(n int) {
	for len(p.strips) < n {
		p.strips = append(p.strips, strip{abc: letters{}})
	}
}

func (t *strip) paint(img *image.RGBA, win image.Rectangle, s *scene.Scene, f Frame, pal scene.Palette) {
	t.cov.reset(win)
	t.ink.img = img
	draw.Draw(img, win, image.NewUniform(pal[scene.Paper]), image.Point{}, draw.Src)
	if s == nil {
		return
	}
	for i := range s.Items {
		switch it := &s.Items[i]; {
		case it.Path != nil:
			t.path(it.Path, f, pal)
		case it.Label != nil:
			t.label(it.Label, f, pal)
		}
	}
}

// window is the box of pixels the strip draws on, widened by m.
func (t *strip) window(m float64) geom.Rect {
	w := t.cov.win
	return geom.Rect{
		Min: geom.Vec{float64(w.Min.X) - m, float64(w.Min.Y) - m},
		Max: geom.Vec{float64(w.Max.X) + m, float64(w.Max.Y) + m},
	}
}

func (t *strip) path(p *scene.Path, f Frame, pal scene.Palette) {
	width := math.Max(1, p.Width*f.PxPerMM)
	if p.Stroke == "" {
		width = 0
	}
	if !t.load(p, f, t.window(width*miterLimit)) {
		return
	}
	if p.Fill != "" && p.Closed {
		t.eachPart(t.outline)
		t.ink.set(colour(pal, p.Fill))
		t.cov.sweep(&t.ink, evenOdd)
	}
	if p.Stroke == "" {
		return
	}
	t.pen.use(&t.cov, width, dashes(p.Dash, f.PxPerMM))
	t.eachPart(func(pts []geom.Vec) {
		snapLevel(pts, p.Closed, width)
		t.pen.chain(pts, p.Closed)
	})
	t.ink.set(colour(pal, p.Stroke))
	t.cov.sweep(&t.ink, nonZero)
}

// load turns the parts of a path that may be seen in the window into pixels;
// false where there are none. A part with a coordinate that is not finite is
// never seen.
func (t *strip) load(p *scene.Path, f Frame, win geom.Rect) bool {
	t.pts, t.off = t.pts[:0], t.off[:0]
	for _, part := range p.Parts {
		start := len(t.pts)
		for _, q := range part {
			t.pts = append(t.pts, f.Pixel(q))
		}
		b, ok := boundsOf(t.pts[start:])
		if !ok || apart(b, win) {
			t.pts = t.pts[:start]
			continue
		}
		t.off = append(t.off, len(t.pts))
	}
	return len(t.off) > 0
}

func (t *strip) eachPart(do func([]geom.Vec)) {
	start := 0
	for _, end := range t.off {
		do(t.pts[start:end])
		start = end
	}
}

// outline adds a ring to the coverage.
func (t *strip) outline(ring []geom.Vec) {
	prev := ring[len(ring)-1]
	for _, p := range ring {
		t.cov.line(prev[0], prev[1], p[0], p[1])
		prev = p
	}
}

func (t *strip) label(l *scene.Label, f Frame, pal scene.Palette) {
	p := f.Pixel(l.At)
	if l.Text == "" || math.IsNaN(p[0]+p[1]) || math.IsInf(p[0]+p[1], 0) {
		return
	}
	box := layout(l, p, l.Height*f.PxPerMM)
	plate := box.plate()
	if b, ok := boundsOf(plate[:]); !ok || apart(b, t.window(0)) {
		return
	}
	if l.Halo {
		t.outline(plate[:])
		t.ink.set(pal[scene.Paper])
		t.cov.sweep(&t.ink, nonZero)
	}
	box.add(&t.cov, t.abc)
	t.ink.set(colour(pal, l.Role))
	t.cov.sweep(&t.ink, nonZero)
}

// dashes gives the lengths of a dash pattern in pixels; nil for a full line.
func dashes(mm []float64, pxPerMM float64) []float64 {
	if len(mm) == 0 {
		return nil
	}
	out := make([]float64, 0, 2*len(mm))
	for _, d := range mm {
		out = append(out, math.Max(0, d*pxPerMM))
	}
	if len(mm)%2 == 1 {
		out = append(out, out...) // an odd list alternates on the next round
	}
	return out
}

// tieBreak keeps points that lie midway between two pixels from going one way
// or the other by the rounding of their position.
const tieBreak = 1e-6

// snapLevel moves level and upright pieces of a chain so that a line of the
// given width has its edges on whole pixels: it is sharp instead of grey.
func snapLevel(pts []geom.Vec, closed bool, width float64) {
	shift := 0.0
	if int(math.Round(width))%2 == 1 {
		shift = 0.5
	}
	n := len(pts)
	for i := range pts {
		j := i + 1
		if j == n {
			if !closed {
				return
			}
			j = 0
		}
		for k := 0; k < 2; k++ {
			if pts[i][k] == pts[j][k] && pts[i] != pts[j] {
				v := math.Floor(pts[i][k]-shift+0.5+tieBreak) + shift
				pts[i][k], pts[j][k] = v, v
			}
		}
	}
}

// colour is the colour of a role; a role that the palette lacks is drawn in
// ink, so that nothing of the drawing goes missing.
func colour(pal scene.Palette, r scene.Role) color.RGBA {
	if c, ok := pal[r]; ok {
		return c
	}
	return pal[scene.Ink]
}
