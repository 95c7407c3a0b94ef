package scene

import (
	"math"

	"hillset/geom"
	"hillset/ui/face"
)

// Room that a line of text takes above the capital and below the baseline, as
// a share of the capital height: accents and descenders of the typeface.
const (
	riseShare = 0.16
	dropShare = 0.30
)

// obox is a rectangle turned by any angle, with the upright box round it for
// quick refusals.
type obox struct {
	c      geom.Vec // centre
	u      geom.Vec // unit vector along the width
	hw, hh float64  // half width and height
	around geom.Rect
}

func newBox(c geom.Vec, angle, hw, hh float64) obox {
	b := obox{c: c, u: geom.Vec{1, 0}, hw: hw, hh: hh}
	if angle != 0 {
		b.u = geom.Vec{math.Cos(angle), math.Sin(angle)}
	}
	ex := math.Abs(b.u[0])*hw + math.Abs(b.u[1])*hh
	ey := math.Abs(b.u[1])*hw + math.Abs(b.u[0])*hh
	b.around = geom.Rect{Min: geom.Vec{c[0] - ex, c[1] - ey}, Max: geom.Vec{c[0] + ex, c[1] + ey}}
	return b
}

func rectBox(r geom.Rect) obox {
	return newBox(r.Center(), 0, r.W()/2, r.H()/2)
}

// labelBox is the room of a label, in metres, with pad mm of clear ground.
func labelBox(l *Label, mmPerM, pad float64) obox {
	return boxOfWidth(l, face.Width(l.Text, l.Height, l.Bold), mmPerM, pad)
}

// boxOfWidth is labelBox for a text whose width, mm, is known already.
func boxOfWidth(l *Label, width, mmPerM, pad float64) obox {
	w := width / mmPerM
	h := l.Height / mmPerM
	lo, hi := -h*dropShare, h*(1+riseShare)
	cx, cy := w*(0.5-l.Anchor.H), (lo+hi)/2-h*l.Anchor.V
	u := geom.Vec{1, 0}
	if l.Angle != 0 {
		u = geom.Vec{math.Cos(l.Angle), math.Sin(l.Angle)}
	}
	c := geom.Vec{l.At[0] + cx*u[0] - cy*u[1], l.At[1] + cx*u[1] + cy*u[0]}
	p := pad / mmPerM
	return newBox(c, l.Angle, w/2+p, (hi-lo)/2+p)
}

// LabelCorners are the corners of the room that a label takes, in metres, from
// the lower left anticlockwise as the text reads: what a halo must cover.
func LabelCorners(l *Label, mmPerM float64) [4]geom.Vec {
	return labelBox(l, mmPerM, 0).corners()
}

func (b obox) corners() [4]geom.Vec {
	n := geom.LeftNormal(b.u)
	w, h := b.u.Mul(b.hw), n.Mul(b.hh)
	return [4]geom.Vec{b.c.Sub(w).Sub(h), b.c.Add(w).Sub(h), b.c.Add(w).Add(h), b.c.Sub(w).Add(h)}
}

// overlaps is the separating-axis test (Gottschalk, Lin, Manocha 1996) in the
// plane; boxes that only touch do not overlap.
func (b obox) overlaps(o obox) bool {
	if !apart(b.around, o.around) {
		return b.along(o, b.u) && b.along(o, geom.LeftNormal(b.u)) && b.along(o, o.u) && b.along(o, geom.LeftNormal(o.u))
	}
	return false
}

func apart(a, b geom.Rect) bool {
	return a.Max[0] <= b.Min[0] || b.Max[0] <= a.Min[0] || a.Max[1] <= b.Min[1] || b.Max[1] <= a.Min[1]
}

// along tells whether the shadows of the two boxes on axis d overlap.
func (b obox) along(o obox, d geom.Vec) bool {
	gap := math.Abs(b.c.Sub(o.c).Dot(d))
	return gap < b.reach(d)+o.reach(d)
}

func (b obox) reach(d geom.Vec) float64 {
	return b.hw*math.Abs(b.u.Dot(d)) + b.hh*math.Abs(geom.LeftNormal(b.u).Dot(d))
}

// cuts tells whether the segment runs through the inside of the box.
func (b obox) cuts(s geom.Segment) bool {
	if max(s.A[0], s.B[0]) <= b.around.Min[0] || min(s.A[0], s.B[0]) >= b.around.Max[0] ||
		max(s.A[1], s.B[1]) <= b.around.Min[1] || min(s.A[1], s.B[1]) >= b.around.Max[1] {
		return false
	}
	n := geom.LeftNormal(b.u)
	a, e := s.A.Sub(b.c), s.B.Sub(b.c)
	t0, t1 := 0.0, 1.0
	return slab(a.Dot(b.u), e.Dot(b.u), b.hw, &t0, &t1) && slab(a.Dot(n), e.Dot(n), b.hh, &t0, &t1) && t0 < t1
}

// holds tells whether a point lies in the box.
func (b obox) holds(p geom.Vec) bool {
	d := p.Sub(b.c)
	return math.Abs(d.Dot(b.u)) <= b.hw && math.Abs(d.Dot(geom.LeftNormal(b.u))) <= b.hh
}

// slab narrows the parameters of a segment to where it lies within half of 0.
func slab(a, b, half float64, t0, t1 *float64) bool {
	d := b - a
	if d == 0 {
		return math.Abs(a) < half
	}
	lo, hi := (-half-a)/d, (half-a)/d
	if lo > hi {
		lo, hi = hi, lo
	}
	*t0, *t1 = max(*t0, lo), min(*t1, hi)
	return *t0 < *t1
}

// crosses tells whether two segments cross inside both.
func crosses(a, b geom.Segment) bool {
	if max(a.A[0], a.B[0]) < min(b.A[0], b.B[0]) || max(b.A[0], b.B[0]) < min(a.A[0], a.B[0]) ||
		max(a.A[1], a.B[1]) < min(b.A[1], b.B[1]) || max(b.A[1], b.B[1]) < min(a.A[1], a.B[1]) {
		return false
	}
	d, e := a.B.Sub(a.A), b.B.Sub(b.A)
	return geom.Cross(d, b.A.Sub(a.A))*geom.Cross(d, b.B.Sub(a.A)) < 0 &&
		geom.Cross(e, a.A.Sub(b.A))*geom.Cross(e, a.B.Sub(b.A)) < 0
}

// placer keeps what is taken on the sheet. Texts, signs and arrowheads are
// hard: nothing is put over them. Lines are soft: crossing one costs.
type placer struct {
	win     geom.Rect
	hard    []obox
	lines   []geom.Segment
	leaders []geom.Segment // crossed by no text
	areas   []obox         // better left clear: pressure diagrams
	spots   []obox         // better left clear: handles
}

// count is the number of boxes that overlap b.
func count(of []obox, b obox) int {
	n := 0
	for i := range of {
		if b.overlaps(of[i]) {
			n++
		}
	}
	return n
}

// inside tells whether the whole box lies in the window.
func (p *placer) inside(b obox) bool {
	return b.around.Min[0] >= p.win.Min[0] && b.around.Max[0] <= p.win.Max[0] &&
		b.around.Min[1] >= p.win.Min[1] && b.around.Max[1] <= p.win.Max[1]
}

// free tells whether a text may stand in b.
func (p *placer) free(b obox) bool {
	if !p.inside(b) {
		return false
	}
	for i := range p.hard {
		if b.overlaps(p.hard[i]) {
			return false
		}
	}
	for _, s := range p.leaders {
		if b.cuts(s) {
			return false
		}
	}
	return true
}

// clearPath tells whether a leader may run along s without passing a text or
// a sign. The sign that it starts from is no obstacle.
func (p *placer) clearPath(s geom.Segment) bool {
	for i := range p.hard {
		if p.hard[i].cuts(s) && !p.hard[i].holds(s.A) {
			return false
		}
	}
	return true
}

// clearLine tells whether a line passes no text and no sign but those that
// either of its ends stands in: ticks that it shares.
func (p *placer) clearLine(s geom.Segment) bool {
	for i := range p.hard {
		if b := &p.hard[i]; b.cuts(s) && !b.holds(s.A) && !b.holds(s.B) {
			return false
		}
	}
	return true
}

// leadersAcross counts the leaders that s crosses.
func (p *placer) leadersAcross(s geom.Segment) int {
	n := 0
	for _, o := range p.leaders {
		if crosses(s, o) {
			n++
		}
	}
	return n
}

// crossed counts the lines that run through b.
func (p *placer) crossed(b obox) int {
	n := 0
	for i := range p.lines {
		if b.cuts(p.lines[i]) {
			n++
		}
	}
	return n
}

// linesAlong counts the lines that s crosses.
func (p *placer) linesAlong(s geom.Segment) int {
	n := 0
	for i := range p.lines {
		if crosses(s, p.lines[i]) {
			n++
		}
	}
	return n
}

func (p *placer) take(b obox)           { p.hard = append(p.hard, b) }
func (p *placer) line(a, b geom.Vec)    { p.lines = append(p.lines, geom.Segment{A: a, B: b}) }
func (p *placer) chain(c geom.Polyline) { p.closedChain(c, false) }

func (p *placer) closedChain(c geom.Polyline, closed bool) {
	for i := 1; i < len(c); i++ {
		p.line(c[i-1], c[i])
	}
	if n := len(c); closed && n > 2 {
		p.line(c[n-1], c[0])
	}
}
