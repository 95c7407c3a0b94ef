package sketch

import (
	"math"

	"hillset/geom"
)

// miterLimit is how far the point of a join may reach, in half widths; longer
// ones are cut off. 4 leaves corners down to 29 degrees pointed.
const miterLimit = 4

// pen turns chains, in pixels, into outlines. Every piece of the outline has
// the same sense, so that the pieces join up under the non-zero rule.
type pen struct {
	cov   *coverage
	half  float64   // half the width, pixels
	dash  []float64 // pixels on, off, ...; nil for a full line
	cycle float64   // length of one round of the dashes
	clip  geom.Rect // nothing outside of it can touch the window
}

// use sets width, dashes and window of the pen.
func (s *pen) use(cov *coverage, width float64, dash []float64) {
	s.cov, s.half, s.dash = cov, width/2, dash
	s.cycle = 0
	for _, d := range dash {
		s.cycle += d
	}
	if s.cycle <= 0 {
		s.dash = nil
	}
	m := s.half*miterLimit + 1
	s.clip = geom.Rect{
		Min: geom.Vec{float64(cov.win.Min.X) - m, float64(cov.win.Min.Y) - m},
		Max: geom.Vec{float64(cov.win.Max.X) + m, float64(cov.win.Max.Y) + m},
	}
}

// chain adds one chain.
func (s *pen) chain(pts []geom.Vec, closed bool) {
	if s.dash != nil {
		s.dashed(pts, closed)
		return
	}
	n := len(pts)
	legs := n - 1
	if closed {
		legs = n
	}
	var first, prev geom.Vec // directions
	have, haveFirst := false, false
	for i := 0; i < legs; i++ {
		a, b := pts[i], pts[(i+1)%n]
		u, ok := unit(a, b)
		if !ok {
			continue
		}
		s.leg(a, b, u)
		if have {
			s.join(a, prev, u)
		}
		if !haveFirst {
			first, haveFirst = u, true
		}
		prev, have = u, true
	}
	if closed && have {
		s.join(pts[0], prev, first)
	}
}

// unit is the direction from a to b; false where they are the same.
func unit(a, b geom.Vec) (geom.Vec, bool) {
	dx, dy := b[0]-a[0], b[1]-a[1]
	l := math.Sqrt(dx*dx + dy*dy)
	if l == 0 || math.IsInf(l, 0) || math.IsNaN(l) {
		return geom.Vec{}, false
	}
	return geom.Vec{dx / l, dy / l}, true
}

// leg adds the rectangle along one straight piece, cut to the window.
func (s *pen) leg(a, b, u geom.Vec) {
	t0, t1, ok := clipSegment(a, b, s.clip)
	if !ok {
		return
	}
	d := b.Sub(a)
	p, q := a.Add(d.Mul(t0)), a.Add(d.Mul(t1))
	nx, ny := -u[1]*s.half, u[0]*s.half
	c := s.cov
	c.line(p[0]+nx, p[1]+ny, q[0]+nx, q[1]+ny)
	c.line(q[0]+nx, q[1]+ny, q[0]-nx, q[1]-ny)
	c.line(q[0]-nx, q[1]-ny, p[0]-nx, p[1]-ny)
	c.line(p[0]-nx, p[1]-ny, p[0]+nx, p[1]+ny)
}

// join fills the gap on the outer side of a corner at p between the directions
// u and v: pointed up to the miter limit, cut off beyond it.
func (s *pen) join(p, u, v geom.Vec) {
	if !inside(p, s.clip) {
		return
	}
	cross := u[0]*v[1] - u[1]*v[0]
	dot := u[0]*v[0] + u[1]*v[1]
	if math.Abs(cross) < 1e-9 && dot > 0 {
		return // straight on
	}
	side := s.half
	if cross > 0 {
		side = -s.half
	}
	a := geom.Vec{p[0] - u[1]*side, p[1] + u[0]*side}
	b := geom.Vec{p[0] - v[1]*side, p[1] + v[0]*side}
	tip := a
	// The tip lies 1/cos(half the turn) half widths from p.
	if cos2 := (1 + dot) / 2; cos2*miterLimit*miterLimit >= 1 {
		m := a.Add(b).Sub(p.Mul(2))
		tip = p.Add(m.Mul(1 / (2 * cos2)))
	}
	if cross > 0 {
		s.quad(p, b, tip, a)
	} else {
		s.quad(p, a, tip, b)
	}
}

// quad adds a four-cornered piece in the sense in which it is given.
func (s *pen) quad(a, b, c, d geom.Vec) {
	s.cov.line(a[0], a[1], b[0], b[1])
	s.cov.line(b[0], b[1], c[0], c[1])
	s.cov.line(c[0], c[1], d[0], d[1])
	s.cov.line(d[0], d[1], a[0], a[1])
}

// dashed adds the dashes of a chain. What lies outside the window only moves
// the pattern on, whatever its length.
func (s *pen) dashed(pts []geom.Vec, closed bool) {
	n := len(pts)
	legs := n - 1
	if closed {
		legs = n
	}
	at := 0.0 // distance along the chain
	for i := 0; i < legs; i++ {
		a, b := pts[i], pts[(i+1)%n]
		u, ok := unit(a, b)
		if !ok {
			continue
		}
		length := b.Sub(a).Len()
		if t0, t1, in := clipSegment(a, b, s.clip); in {
			s.dashLeg(a, u, t0*length, t1*length, at)
		}
		at += length
	}
}

// dashLeg adds the dashes of one straight piece from a in direction u, between
// the distances d0 and d1 from a; at is the distance of a along the chain.
func (s *pen) dashLeg(a, u geom.Vec, d0, d1, at float64) {
	phase := math.Mod(at+d0, s.cycle)
	k := 0
	for phase >= s.dash[k] {
		phase -= s.dash[k]
		k = (k + 1) % len(s.dash)
	}
	for d := d0; d < d1; {
		end := math.Min(d1, d+s.dash[k]-phase)
		if k%2 == 0 && end > d {
			s.leg(a.Add(u.Mul(d)), a.Add(u.Mul(end)), u)
		}
		if end == d && s.dash[k]-phase > 0 {
			return // the step is below what the position can resolve
		}
		d, phase = end, 0
		k = (k + 1) % len(s.dash)
	}
}
