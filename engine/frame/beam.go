package frame

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
)

// piece is a stretch of a beam with a linear load: shear, moment, EI·slope and
// EI·deflection at its start, x from there.
type piece struct {
	s0, d      float64 // start and length
	p, g       float64 // load at the start and its gradient
	v, m, t, w float64
}

func (c piece) shear(x float64) float64  { return c.v - x*(c.p+x*c.g/2) }
func (c piece) moment(x float64) float64 { return c.m + x*(c.v-x*(c.p/2+x*c.g/6)) }
func (c piece) slope(x float64) float64 {
	return c.t - x*(c.m+x*(c.v/2-x*(c.p/6+x*c.g/24)))
}
func (c piece) defl(x float64) float64 {
	return c.w + x*(c.t-x*(c.m/2+x*(c.v/6-x*(c.p/24+x*c.g/120))))
}

// Extremes are the largest forces in a span.
type Extremes struct {
	MMax float64 // moment of largest absolute value, with its sign, kNm
	SMax float64 // where it is, m
	MPos float64 // largest moment (0 or more unless negative throughout)
	SPos float64
	MNeg float64 // least moment
	SNeg float64
	VMax float64 // largest absolute shear, kN
}

// Beam is a span between two supports with the exact shear, moment, slope and
// deflection along it. Deflection is measured from the line through its ends.
type Beam struct {
	L      float64 // m
	EI     float64 // kNm2
	Ra, Rb float64 // what the span presses on its start and its end, kN
	Extremes
	pieces []piece
}

// Simple is a span of length l and stiffness ei, pinned at both ends, under a
// piecewise linear load. Loads over part of the span and of either sign are
// allowed; without load everything is zero.
func Simple(l float64, load Load, ei float64) (Beam, error) {
	return Span(l, load, ei, 0, 0)
}

// Span is a span with the moments ma and mb at its ends (positive with tension
// on the face).
func Span(l float64, load Load, ei, ma, mb float64) (Beam, error) {
	if err := load.Check(l); err != nil {
		return Beam{}, err
	}
	for _, err := range []error{
		quantity.Range("stiffness EI", ei, 1e-9, 1e15),
		quantity.Range("end moment", ma, -1e12, 1e12),
		quantity.Range("end moment", mb, -1e12, 1e12),
	} {
		if err != nil {
			return Beam{}, err
		}
	}
	return span(l, load, ei, ma, mb, nil), nil
}

// mostPieces is the most pieces that a load cuts a span into.
func mostPieces(load Load) int { return len(load) + 1 }

// span is Span on values already checked. The pieces go into room where there
// is enough of it.
func span(l float64, load Load, ei, ma, mb float64, room []piece) Beam {
	if len(load) == 0 {
		return idle(l, ei, ma, mb, room)
	}
	b := pinned(l, load, ei, ma, mb, room)
	b.findMoments()
	return b
}

// idle is span without load: one piece with a straight line of moments.
func idle(l, ei, ma, mb float64, room []piece) Beam {
	v := (mb - ma) / l
	c := piece{d: l, v: v, m: ma, t: l * (ma/2 + v*l/6)}
	return Beam{L: l, EI: ei, Ra: v, Rb: -v, Extremes: straight(l, ma, mb), pieces: append(room[:0], c)}
}

// straight are the extremes of a straight line of moments: they are at its
// ends.
func straight(l, ma, mb float64) Extremes {
	e := Extremes{MPos: ma, MNeg: ma, VMax: math.Abs((mb - ma) / l)}
	if mb > ma {
		e.MPos, e.SPos = mb, l
	}
	if mb < ma {
		e.MNeg, e.SNeg = mb, l
	}
	e.largest()
	return e
}

// SpanExtremes are the extremes of Span without the lines along it. The load and
// the moments at the ends are not checked.
func SpanExtremes(l float64, load Load, ma, mb float64) Extremes {
	if len(load) == 0 {
		return straight(l, ma, mb)
	}
	ra, _ := onSupports(l, load, ma, mb)
	e := Extremes{MPos: ma, MNeg: ma, VMax: math.Abs(ra)}
	c := piece{v: ra, m: ma}
	load.stretches(l, func(to, p, g float64) {
		c.d, c.p, c.g = to-c.s0, p, g
		if !(c.d > 0) {
			return
		}
		v, m := c.shear(c.d), c.moment(c.d)
		e.along(&c, m, v)
		c.s0, c.v, c.m = to, v, m
	})
	e.largest()
	return e
}

// pinned is span without the extremes of the moment.
func pinned(l float64, load Load, ei, ma, mb float64, room []piece) Beam {
	b := Beam{L: l, EI: ei, pieces: room[:0]}
	if n := mostPieces(load); cap(room) < n {
		b.pieces = make([]piece, 0, n)
	}
	b.Ra, b.Rb = onSupports(l, load, ma, mb)
	b.build(load, ma)
	return b
}

// onSupports is what a span presses on its start and its end.
func onSupports(l float64, load Load, ma, mb float64) (ra, rb float64) {
	total, first := 0.0, 0.0
	for k := 1; k < len(load); k++ {
		p, q := &load[k-1], &load[k]
		d := q.S - p.S
		total += d * (p.P + q.P) / 2
		first += d * (p.P*(2*p.S+q.S) + q.P*(p.S+2*q.S)) / 6
	}
	rb = first/l - (mb-ma)/l
	return total - rb, rb
}

// stretches cuts a span into stretches of linear load, one after the other: each
// ends at a place, with a load at its start and its gradient. Some may be empty.
func (ld Load) stretches(l float64, add func(to, p, g float64)) {
	for k := 1; k < len(ld); k++ {
		p, q := &ld[k-1], &ld[k]
		if q.S == p.S {
			continue
		}
		add(min(p.S, l), 0, 0)
		add(min(q.S, l), p.P, (q.P-p.P)/(q.S-p.S))
	}
	add(l, 0, 0)
}

// build cuts the span into pieces and integrates along them, then turns the
// line so that both ends lie on it.
func (b *Beam) build(load Load, ma float64) {
	c := piece{v: b.Ra, m: ma}
	load.stretches(b.L, func(to, p, g float64) {
		c.d, c.p, c.g = to-c.s0, p, g
		if !(c.d > 0) {
			return
		}
		b.pieces = append(b.pieces, c)
		c = piece{s0: to, v: c.shear(c.d), m: c.moment(c.d), t: c.slope(c.d), w: c.defl(c.d)}
	})
	turn := -c.w / b.L
	for k := range b.pieces {
		b.pieces[k].t += turn
		b.pieces[k].w += turn * b.pieces[k].s0
	}
}

// findMoments looks for the extremes of the moment: at the ends of the pieces
// and where the shear, a quadratic, is zero. One piece ends as the next starts.
func (b *Beam) findMoments() {
	first, last := &b.pieces[0], len(b.pieces)-1
	b.Extremes = Extremes{MPos: first.m, MNeg: first.m, VMax: math.Abs(first.v)}
	for k := range b.pieces {
		c := &b.pieces[k]
		if k < last {
			b.along(c, b.pieces[k+1].m, b.pieces[k+1].v)
		} else {
			b.along(c, c.moment(c.d), c.shear(c.d))
		}
	}
	b.largest()
}

// along takes in a piece behind its start, which ends with the moment m and the
// shear v.
func (e *Extremes) along(c *piece, m, v float64) {
	e.see(m, c.s0+c.d, v)
	if c.p == 0 && c.g == 0 || c.v*v > 0 && c.oneWay() {
		return // the shear runs from one to the other without a turn
	}
	zeros, n := roots(-c.g/2, -c.p, c.v)
	for _, x := range zeros[:n] {
		if x > 0 && x < c.d {
			e.see(c.moment(x), c.s0+x, c.shear(x))
		}
	}
	if x := -c.p / c.g; c.g != 0 && x > 0 && x < c.d {
		e.see(c.moment(x), c.s0+x, c.shear(x))
	}
}

// oneWay tells whether the load of a piece presses one way all along.
func (c *piece) oneWay() bool {
	end := c.p + c.g*c.d
	return c.p >= 0 && end >= 0 || c.p <= 0 && end <= 0
}

// see takes in the moment and the shear at a place.
func (e *Extremes) see(m, s, v float64) {
	if m > e.MPos {
		e.MPos, e.SPos = m, s
	}
	if m < e.MNeg {
		e.MNeg, e.SNeg = m, s
	}
	e.VMax = max(e.VMax, math.Abs(v))
}

// largest picks the larger of the two extremes of the moment.
func (e *Extremes) largest() {
	e.MMax, e.SMax = e.MPos, e.SPos
	if -e.MNeg > e.MPos {
		e.MMax, e.SMax = e.MNeg, e.SNeg
	}
}

// roots gives the n real roots of a·x² + b·x + c, without cancellation.
func roots(a, b, c float64) (x [2]float64, n int) {
	disc := b*b - 4*a*c
	if disc < 0 || (a == 0 && b == 0) {
		return x, 0
	}
	q := -(b + math.Copysign(math.Sqrt(disc), b)) / 2
	switch {
	case a == 0:
		return [2]float64{-c / b}, 1
	case q == 0:
		return x, 1
	}
	return [2]float64{q / a, c / q}, 2
}

// at finds the piece that holds s.
func (b *Beam) at(s float64) (*piece, float64) {
	if !(s >= -placeTol*b.L && s <= b.L*(1+placeTol)) {
		panic(fmt.Sprintf("frame: place %g on a span of %g", s, b.L))
	}
	low, high := 0, len(b.pieces)-1 // the last one that starts before s
	for low < high {
		if mid := (low + high + 1) / 2; s > b.pieces[mid].s0 {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return &b.pieces[low], s - b.pieces[low].s0
}

// At is the shear, kN, and the moment, kNm, at s.
func (b *Beam) At(s float64) (v, m float64) {
	c, x := b.at(s)
	return c.shear(x), c.moment(x)
}

// M is the moment at s, kNm. It panics when s is off the span, as do V and W.
func (b *Beam) M(s float64) float64 { c, x := b.at(s); return c.moment(x) }

// V is the shear at s, kN: the slope of the moment.
func (b *Beam) V(s float64) float64 { c, x := b.at(s); return c.shear(x) }

// W is the deflection at s from the line through the ends, m.
func (b *Beam) W(s float64) float64 { c, x := b.at(s); return c.defl(x) / b.EI }

// sagParts is the number of parts of a piece searched for a level tangent.
// The slope is a quartic in each piece and changes sign at most four times.
const sagParts = 8

// Sag is the deflection of largest absolute value, with its sign, and where it
// is, m.
func (b *Beam) Sag() (w, s float64) {
	low, high := b.reach(0, 0)
	if -low.W > high.W {
		return low.W, low.S
	}
	return high.W, high.S
}

// Place is a deflection W, m, and where it is, m.
type Place struct{ W, S float64 }

// reach is the least and the largest deflection of the span with its ends moved
// by a and e.
func (b *Beam) reach(a, e float64) (low, high Place) {
	turn := (e - a) / b.L
	low, high = Place{W: a}, Place{W: a}
	see := func(w, s float64) {
		if w < low.W {
			low = Place{w, s}
		}
		if w > high.W {
			high = Place{w, s}
		}
	}
	for _, c := range b.pieces {
		c.t += b.EI * turn
		c.w += b.EI * (a + turn*c.s0)
		x0, t0, parts := 0.0, c.t, c.searched(b.L)
		if parts == 0 {
			see(c.defl(c.d)/b.EI, c.s0+c.d)
			continue
		}
		for k := 1; k <= parts; k++ {
			x1 := c.d * float64(k) / float64(parts)
			t1 := c.slope(x1)
			if (t0 < 0) != (t1 < 0) {
				x := level(&c, x0, x1, t0, t1)
				see(c.defl(x)/b.EI, c.s0+x)
			}
			x0, t0 = x1, t1
		}
		see(c.defl(c.d)/b.EI, c.s0+c.d)
	}
	return low, high
}

// searched is the number of parts of a piece, of a span l, that are searched for
// a level tangent; 0 where there is none.
func (c *piece) searched(l float64) int {
	if sagParts*c.d < l {
		return 1 // a short piece: two level tangents in it differ by nothing
	}
	swing := c.swing()
	if swing == 0 {
		return 1
	}
	if end := c.slope(c.d); c.t > swing && end > swing || c.t < -swing && end < -swing {
		return 0
	}
	return sagParts
}

// swing bounds how far the slope of a piece leaves what lies between its slopes
// at the ends: 0 where the moment surely keeps its sign and the slope turns one
// way only, +Inf where nothing is known. Under a load that presses one way the
// line of moments lies on one side of its chord, so that on the other side of
// nought it is no larger than at the ends.
func (c *piece) swing() float64 {
	end := c.moment(c.d)
	switch load := c.p + c.p + c.g*c.d; {
	case !c.oneWay():
		return math.Inf(1)
	case load <= 0 && c.m <= 0 && end <= 0:
		return 0
	case load >= 0:
		return c.d * max(0, -c.m, -end)
	}
	return c.d * max(0, c.m, end)
}

// stepTol is the share of a piece that a step of Newton's need not exceed to be
// the last: the next one would be its square.
const stepTol = 1e-6

// level finds the level tangent between x0 and x1, where the slopes are t0 and
// t1 of unlike signs, by Newton's steps, by halving where they lead out. The
// deflection is flat there, so 1e-9 of the piece is beyond what rounding can
// show.
func level(c *piece, x0, x1, t0, t1 float64) float64 {
	x := x0 + (x1-x0)*t0/(t0-t1)
	for range 60 {
		t := c.slope(x)
		if (t < 0) == (t0 < 0) {
			x0 = x
		} else {
			x1 = x
		}
		next := (x0 + x1) / 2
		if m := c.moment(x); m != 0 { // the slope falls by the moment
			if n := x + t/m; n > x0 && n < x1 {
				if math.Abs(n-x) <= stepTol*c.d {
					return n
				}
				next = n
			}
		}
		if math.Abs(next-x) <= 1e-9*c.d {
			return next
		}
		x = next
	}
	return x
}
