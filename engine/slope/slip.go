package slope

import (
	"errors"
	"math"

	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
	"hillset/geom"
)

// Slip is a line along which the ground may slide: the lower arc of a circle
// from A to B, or Line where that is given. B may lie below the surface, at the
// foot of a crack that stands upright above it.
type Slip struct {
	A, B geom.Vec
	// Half is half the angle that the arc spans, rad; 0 for a straight line.
	Half float64
	Line geom.Polyline
	// Water is how high water stands in the crack over B, m.
	Water float64
}

// straight is the half angle below which an arc is a line.
const straight = 1e-6

// round tells an arc from a line.
func (s *Slip) round() bool { return s.Line == nil && s.Half > straight }

// points are the corners of a slip line that is not round.
func (s *Slip) points() geom.Polyline {
	if s.Line != nil {
		return s.Line
	}
	return geom.Polyline{s.A, s.B}
}

// Circle is the centre and the radius of an arc, m; ok is false for a line.
func (s *Slip) Circle() (centre geom.Vec, r float64, ok bool) {
	if !s.round() {
		return centre, 0, false
	}
	chord := s.B.Sub(s.A)
	l := chord.Len()
	r = l / (2 * math.Sin(s.Half))
	up := geom.Vec{-chord[1] / l, chord[0] / l}
	return s.A.Add(s.B).Mul(0.5).Add(up.Mul(r * math.Cos(s.Half))), r, true
}

// Points draws the slip line with n pieces, from left to right.
func (s *Slip) Points(n int) geom.Polyline {
	c, r, ok := s.Circle()
	if !ok {
		return append(geom.Polyline(nil), s.points()...)
	}
	a0, a1 := angleAt(c, s.A), angleAt(c, s.B)
	out := make(geom.Polyline, 0, n+1)
	for i := range n + 1 {
		out = append(out, on(c, r, a0+(a1-a0)*float64(i)/float64(n)))
	}
	out[0], out[n] = s.A, s.B
	return out
}

// angleAt is the slope of an arc at one of its points, rad.
func angleAt(c, v geom.Vec) float64 { return math.Atan2(v[0]-c[0], c[1]-v[1]) }

// on is the point of an arc where it has a slope.
func on(c geom.Vec, r, a float64) geom.Vec {
	s, k := math.Sincos(a)
	return geom.Vec{c[0] + r*s, c[1] - r*k}
}

// Mirror is the same line with x turned round: what was B is A then.
func (s Slip) Mirror() Slip {
	m := Slip{A: flip(s.B), B: flip(s.A), Half: s.Half, Water: s.Water}
	for i := len(s.Line) - 1; i >= 0; i-- {
		m.Line = append(m.Line, flip(s.Line[i]))
	}
	return m
}

func (s *Slip) check() error {
	if s.Line != nil {
		if err := s.Line.Validate(); err != nil {
			return err
		}
	} else if err := limit.First(limit.Finite("a.x", s.A[0], quantity.Length), limit.Finite("a.z", s.A[1], quantity.Length),
		limit.Finite("b.z", s.B[1], quantity.Length), limit.AtLeast("b.x", s.B[0], s.A[0]+least, quantity.Length)); err != nil {
		return err
	}
	chord := s.B.Sub(s.A)
	most := rightUp
	if s.round() { // the lower arc, nowhere steeper than upright
		most -= math.Abs(math.Atan2(chord[1], chord[0])) - 1e-9
	}
	return limit.First(limit.Within("half", s.Half, 0, most, quantity.Angle), limit.Within("water", s.Water, 0, 1e3, quantity.Length))
}

// touching is how near an arc comes to a corner of the surface to end there, m.
const touching = 5e-3

// ErrMissed says that a circle does not go through the ground.
var ErrMissed = errors.New("the circle does not cut the ground")

// CircleAt is the slip of the circle with that centre and radius, m, through the
// ground: of several arcs the longest. An arc that touches a corner of the
// surface ends there. With a crack, m deep, it ends to the right where it is that
// far below the surface.
func (g *Ground) CircleAt(centre geom.Vec, r, crack, water float64) (Slip, error) {
	if err := limit.First(limit.Finite("centre.x", centre[0], quantity.Length), limit.Finite("centre.z", centre[1], quantity.Length),
		limit.Positive("r", r, quantity.Length), limit.Within("crack", crack, 0, 2*r, quantity.Length), limit.Within("water", water, 0, crack, quantity.Length)); err != nil {
		return Slip{}, err
	}
	var best, now Slip
	open := false
	end := func(v geom.Vec) {
		now.B = v
		if open && now.B[0]-now.A[0] > best.B[0]-best.A[0] {
			best = now
		}
		open = false
	}
	top := g.Surface()
	for i := 0; i+1 < len(top); i++ {
		for _, v := range cuts(top[i], top[i+1], centre, r) {
			switch {
			case v.under && !open:
				now, open = Slip{A: v.at}, true
			case !v.under && open:
				end(v.at)
			}
		}
	}
	if open {
		end(top[len(top)-1]) // leaves at the edge of the section
	}
	if best.B[0] <= best.A[0] {
		return Slip{}, ErrMissed
	}
	if crack > 0 {
		if err := g.shorten(&best, centre, r, crack); err != nil {
			return Slip{}, err
		}
	}
	best.Water = water
	best.Half = (angleAt(centre, best.B) - angleAt(centre, best.A)) / 2
	return best, nil
}

// cut is a point of the surface; under tells whether the arc runs below the
// surface to the right of it.
type cut struct {
	at    geom.Vec
	under bool
}

// cuts are the points at which an arc goes through a piece of the surface, and
// its ends, from left to right.
func cuts(a, b, c geom.Vec, r float64) (out []cut) {
	below := func(x, z float64) bool {
		d := x - c[0]
		return math.Abs(d) < r && c[1]-math.Sqrt(r*r-d*d) < z
	}
	if b[0]-a[0] <= least {
		return nil
	}
	xs := append(append([]float64{a[0]}, meets(a, b, c, r)...), b[0])
	e := edge{a, b}
	for i := 0; i+1 < len(xs); i++ {
		mid := (xs[i] + xs[i+1]) / 2
		at := geom.Vec{xs[i], e.at(xs[i])}
		under := below(mid, e.at(mid))
		if i == 0 && under && math.Abs(at.Sub(c).Len()-r) < touching {
			out = append(out, cut{at, false}) // a corner that the arc touches ends it
		}
		out = append(out, cut{at, under})
	}
	return out
}

// meets is where the lower arc of a circle crosses the piece from a to b, inside
// of it, rising.
func meets(a, b, c geom.Vec, r float64) (xs []float64) {
	d, f := b.Sub(a), a.Sub(c)
	p, q, s := d.Dot(d), f.Dot(d), f.Dot(f)-r*r
	disc := q*q - p*s
	if disc <= 0 {
		return nil
	}
	root := math.Sqrt(disc)
	for _, t := range [2]float64{(-q - root) / p, (-q + root) / p} {
		x := a[0] + t*d[0]
		if t > 0 && t < 1 && a[1]+t*d[1] < c[1] && x > a[0]+least && x < b[0]-least {
			xs = append(xs, x)
		}
	}
	return xs
}

// shorten ends an arc where it is as deep below the surface as the crack.
func (g *Ground) shorten(s *Slip, c geom.Vec, r, crack float64) error {
	deep := func(x float64) float64 {
		col := &g.columns[g.columnAt(x)]
		d := x - c[0]
		return col.top(col.share(x)) - c[1] + math.Sqrt(math.Max(0, r*r-d*d)) - crack
	}
	lo, hi := s.B[0], s.B[0]
	for step := (s.B[0] - s.A[0]) / 400; lo > s.A[0]+step && deep(lo) < 0; lo -= step {
		hi = lo
	}
	if deep(lo) < 0 {
		return &limit.Error{Field: "crack", Value: crack, Lo: 0, Hi: deep((s.A[0]+s.B[0])/2) + crack, Kind: quantity.Length, Why: "the arc is nowhere so deep"}
	}
	for range 60 {
		mid := (lo + hi) / 2
		if deep(mid) < 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	d := lo - c[0]
	s.B = geom.Vec{lo, c[1] - math.Sqrt(r*r-d*d)}
	return nil
}
