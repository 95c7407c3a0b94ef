package sketch

import (
	"math"

	"hillset/geom"
	"hillset/ui/face"
	"hillset/ui/scene"
)

// Clear ground round the letters of a label with a halo, in capital heights.
const (
	haloSide = 0.30
	haloTop  = 0.35
	haloFoot = 0.38 // room for descenders
)

// textBox is a line of text laid out in pixels: the baseline starts at origin
// and runs along u; v points up from it. Both have the length of a capital.
type textBox struct {
	text   string
	bold   bool
	width  float64 // capital heights
	origin geom.Vec
	u, v   geom.Vec
}

// layout places a label whose point stands at p, in pixels; capital is the
// height of a capital in pixels.
func layout(l *scene.Label, p geom.Vec, capital float64) textBox {
	sin, cos := math.Sincos(l.Angle)
	t := textBox{text: l.Text, bold: l.Bold}
	t.u = geom.Vec{cos * capital, -sin * capital}
	t.v = geom.Vec{-sin * capital, -cos * capital}
	t.width = face.Width(l.Text, 1, l.Bold)
	t.origin = p.Sub(t.u.Mul(l.Anchor.H * t.width)).Sub(t.v.Mul(l.Anchor.V))
	if l.Angle == 0 {
		// Level text sits on whole pixels: its feet stay sharp.
		t.origin[1] = math.Round(t.origin[1])
	}
	return t
}

// at gives the pixel of the point a along and b above the baseline.
func (t *textBox) at(a, b float64) geom.Vec {
	return geom.Vec{
		t.origin[0] + t.u[0]*a + t.v[0]*b,
		t.origin[1] + t.u[1]*a + t.v[1]*b,
	}
}

// plate is the ground that a halo clears.
func (t *textBox) plate() [4]geom.Vec {
	return [4]geom.Vec{
		t.at(-haloSide, -haloFoot), t.at(t.width+haloSide, -haloFoot),
		t.at(t.width+haloSide, 1+haloTop), t.at(-haloSide, 1+haloTop),
	}
}

// add puts the letters into the coverage.
func (t *textBox) add(cov *coverage, from letters) {
	pen := 0.0
	for _, r := range t.text {
		g := from.get(r, t.bold)
		for _, ring := range g.rings {
			last := ring[len(ring)-1]
			prev := t.at(pen+last[0], last[1])
			for _, q := range ring {
				p := t.at(pen+q[0], q[1])
				cov.line(prev[0], prev[1], p[0], p[1])
				prev = p
			}
		}
		pen += g.advance
	}
}
