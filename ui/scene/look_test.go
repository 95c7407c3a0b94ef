package scene

import (
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/image/vector"

	"hillset/geom"
	"hillset/ui/face"
	"hillset/ui/units"
)

var lookDir = flag.String("look", "", "folder to write pictures of the test scenes to")

// raster is a plain sink for looking at scenes.
type raster struct {
	img *image.RGBA
	t   Transform // px
	mm  float64   // px per mm
	pal Palette
}

func (r *raster) fill(rings []geom.Polyline, c color.RGBA) {
	var all geom.Polyline
	for _, ring := range rings {
		all = append(all, ring...)
	}
	if len(all) == 0 {
		return
	}
	b := all.Bounds()
	at := image.Rect(int(b.Min[0])-1, int(b.Min[1])-1, int(b.Max[0])+2, int(b.Max[1])+2)
	z := vector.NewRasterizer(at.Dx(), at.Dy())
	o := geom.Vec{float64(at.Min.X), float64(at.Min.Y)}
	for _, ring := range rings {
		for i, p := range ring {
			if p = p.Sub(o); i == 0 {
				z.MoveTo(float32(p[0]), float32(p[1]))
			} else {
				z.LineTo(float32(p[0]), float32(p[1]))
			}
		}
		z.ClosePath()
	}
	z.Draw(r.img, at, image.NewUniform(c), image.Point{})
}

// Path fills and strokes; strokes are quads with square joints, drawn one by
// one as the rasteriser adds winding numbers.
func (r *raster) Path(p *Path) error {
	px := make([]geom.Polyline, len(p.Parts))
	for i, c := range p.Parts {
		for _, v := range c {
			px[i] = append(px[i], r.t.To(v))
		}
	}
	if p.Fill != "" {
		c, ok := r.pal[p.Fill]
		if !ok {
			return fmt.Errorf("no colour for %q", p.Fill)
		}
		r.fill(px, c)
	}
	if p.Stroke == "" {
		return nil
	}
	c, ok := r.pal[p.Stroke]
	if !ok {
		return fmt.Errorf("no colour for %q", p.Stroke)
	}
	w := math.Max(p.Width*r.mm, 1)
	var quads []geom.Polyline
	for _, chain := range px {
		if p.Closed {
			chain = append(chain, chain[0])
		}
		for _, s := range dashes(chain, p.Dash, r.mm) {
			u, ok := geom.Unit(s.B.Sub(s.A))
			if !ok {
				continue
			}
			n := geom.LeftNormal(u).Mul(w / 2)
			quads = append(quads, geom.Polyline{s.A.Add(n), s.B.Add(n), s.B.Sub(n), s.A.Sub(n)})
		}
	}
	for _, q := range quads {
		r.fill([]geom.Polyline{q}, c)
	}
	return nil
}

func dashes(c geom.Polyline, pattern []float64, mm float64) []geom.Segment {
	var out []geom.Segment
	at, k := 0.0, 0
	for i := 1; i < len(c); i++ {
		a, b := c[i-1], c[i]
		if pattern == nil {
			out = append(out, geom.Segment{A: a, B: b})
			continue
		}
		l := b.Sub(a).Len()
		for d := 0.0; d < l; {
			step := math.Min(pattern[k%len(pattern)]*mm-at, l-d)
			if k%2 == 0 {
				out = append(out, geom.Segment{A: a.Add(b.Sub(a).Mul(d / l)), B: a.Add(b.Sub(a).Mul((d + step) / l))})
			}
			d += step
			at += step
			if at >= pattern[k%len(pattern)]*mm-1e-9 {
				at, k = 0, k+1
			}
		}
	}
	return out
}

func (r *raster) Label(l *Label) error {
	c, ok := r.pal[l.Role]
	if !ok {
		return fmt.Errorf("no colour for %q", l.Role)
	}
	if l.Halo {
		k := LabelCorners(l, r.t.Scale/r.mm)
		r.fill([]geom.Polyline{{r.t.To(k[0]), r.t.To(k[1]), r.t.To(k[2]), r.t.To(k[3])}}, r.pal[Paper])
	}
	em := l.Height / face.CapPerEm * r.mm
	sin, cos := math.Sincos(l.Angle)
	x := -l.Anchor.H * face.Width(l.Text, l.Height, l.Bold) * r.mm
	y := -l.Anchor.V * l.Height * r.mm
	o := r.t.To(l.At)
	var rings []geom.Polyline
	for _, g := range l.Text {
		for _, contour := range face.Outline(g, l.Bold) {
			var ring geom.Polyline
			for _, p := range contour.Flatten(0.01) {
				px, py := x+p[0]*em, y+p[1]*em
				ring = append(ring, geom.Vec{o[0] + px*cos - py*sin, o[1] - px*sin - py*cos})
			}
			rings = append(rings, ring)
		}
		x += face.Advance(g, l.Bold) * em
	}
	r.fill(rings, c)
	return nil
}

// paint draws a scene at px pixels per mm of paper.
func paint(s *Scene, look Look, px float64) (*image.RGBA, error) {
	b := s.Bounds.Expand(4 / s.MMPerM)
	scale := s.MMPerM * px
	r := &raster{img: image.NewRGBA(image.Rect(0, 0, int(b.W()*scale), int(b.H()*scale))), t: Fit(b, scale, geom.Vec{}), mm: px, pal: Colours(look)}
	draw.Draw(r.img, r.img.Bounds(), image.NewUniform(r.pal[Paper]), image.Point{}, draw.Src)
	return r.img, Replay(s, r)
}

// TestLook draws every test scene in every look, and checks that something is
// on each; with -look it keeps the pictures.
func TestLook(t *testing.T) {
	for name, v := range named() {
		for _, look := range Looks() {
			o := Options{MMPerM: 20, Soils: soils, Units: units.Metric, Selected: "roof"}
			if look == Daylight {
				o.Units, o.MMPerM = units.US, 12.5
			}
			if look == Dark {
				o.MMPerM = 40
			}
			if look == Print {
				o.MMPerM = 10
			}
			s, err := Build(v, result(), o)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			for _, text := range s.Lost {
				t.Logf("%s %s: no place for %q", name, look, text)
			}
			img, err := paint(s, look, 4)
			if err != nil {
				t.Fatalf("%s %s: %v", name, look, err)
			}
			if n := inked(img); n < 0.03 {
				t.Errorf("%s %s: only %.1f %% of the picture is drawn on", name, look, 100*n)
			}
			if *lookDir != "" {
				keep(t, img, fmt.Sprintf("%s-%s.png", name, look))
			}
		}
	}
}

func inked(img *image.RGBA) float64 {
	paper, n := img.RGBAAt(0, 0), 0
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if img.RGBAAt(x, y) != paper {
				n++
			}
		}
	}
	return float64(n) / float64(b.Dx()*b.Dy())
}

func keep(t *testing.T, img image.Image, name string) {
	f, err := os.Create(filepath.Join(*lookDir, name))
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}
