package face

import (
	"math"

	"golang.org/x/image/font/sfnt"

	"hillset/geom"
)

// Segment is one piece of a contour, from the end of the piece before to To.
// A Curve is a quadratic Bézier with the control point Ctrl.
type Segment struct {
	Ctrl, To geom.Vec
	Curve    bool
}

// Contour is one closed outline of a glyph in em, with the origin on the
// baseline at the pen, x to the right and y up. Contours are filled by the
// nonzero winding rule, as TrueType asks; holes run the other way round.
type Contour struct {
	Start geom.Vec
	Segs  []Segment
}

// Outline gives the contours of r; a space has none. A rune that the typeface
// lacks gives those of the Replacement. The result is shared: it must not be
// changed.
func Outline(r rune, bold bool) []Contour {
	w := pick(bold)
	g := w.glyph(r, true)
	if g.index == 0 {
		g = w.glyph(Replacement, true)
	}
	return g.contours
}

// contours turns a glyph as the font gives it (y down) into contours (y up).
func (w *weight) contours(segs sfnt.Segments) []Contour {
	var out []Contour
	at := func(s sfnt.Segment, i int) geom.Vec {
		return geom.Vec{w.em(s.Args[i].X), -w.em(s.Args[i].Y)}
	}
	for _, s := range segs {
		if s.Op == sfnt.SegmentOpMoveTo {
			out = append(out, Contour{Start: at(s, 0)})
			continue
		}
		c := &out[len(out)-1]
		switch s.Op {
		case sfnt.SegmentOpLineTo:
			c.Segs = append(c.Segs, Segment{To: at(s, 0)})
		case sfnt.SegmentOpQuadTo:
			c.Segs = append(c.Segs, Segment{Ctrl: at(s, 0), To: at(s, 1), Curve: true})
		default:
			panic("face: cubic outline in a TrueType font")
		}
	}
	return out
}

// Flatten turns a contour into a ring whose sides stray from the curve by no
// more than tol em. A tol that is not above 0 is a fault of the caller and
// panics.
func (c Contour) Flatten(tol float64) geom.Ring {
	if !(tol > 0) {
		panic("face: tolerance must be above 0")
	}
	ring := geom.Ring{c.Start}
	at := c.Start
	for _, s := range c.Segs {
		if s.Curve {
			ring = appendCurve(ring, at, s.Ctrl, s.To, tol)
		}
		ring = append(ring, s.To)
		at = s.To
	}
	if n := len(ring); n > 1 && ring[n-1] == ring[0] {
		ring = ring[:n-1]
	}
	return ring
}

// appendCurve adds the inner points of a quadratic Bézier. A chord over 1/n of
// the parameter strays by |a - 2c + b| / (4 n²) from the curve.
func appendCurve(ring geom.Ring, a, c, b geom.Vec, tol float64) geom.Ring {
	bend := a.Sub(c.Mul(2)).Add(b).Len()
	n := int(math.Ceil(math.Sqrt(bend / (4 * tol))))
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		p := a.Mul((1 - t) * (1 - t)).Add(c.Mul(2 * t * (1 - t))).Add(b.Mul(t * t))
		ring = append(ring, p)
	}
	return ring
}
