package scene

import (
	"math"

	"hillset/geom"
)

// levels marks the levels that the works are set out by. Existing ground has
// an open triangle, what is to be built a filled one.
func (b *builder) levels() {
	if !b.show(Levels) {
		return
	}
	v := b.v
	if v.HasBox {
		in := b.inner()
		b.levelOn("floor", "floor", geom.Vec{in.Min[0], v.Box.Min[1]}, geom.Vec{in.Max[0], v.Box.Min[1]}, in.Min[1]-v.Box.Min[1], true)
		b.levelOn("roof", "roof", geom.Vec{in.Max[0], v.Box.Max[1]}, geom.Vec{in.Min[0], v.Box.Max[1]}, in.Max[1]-v.Box.Max[1], true)
	}
	if lo, hi, ok := b.formationEnds(); ok {
		b.formationLevel(lo, hi)
	}
}

// surfaces marks the finished surface and the crest of the cut.
func (b *builder) surfaces() {
	if !b.show(Levels) {
		return
	}
	if b.v.HasBox && b.v.Stage.Cover {
		b.surfaceLevel()
	}
	if b.v.CutHeight > 0 {
		b.mark("crest", "crest", b.v.Crest, false, false)
	}
}

// formationLevel stands where the floor of the cut is not under the box.
func (b *builder) formationLevel(lo, hi float64) {
	z := b.v.Formation
	if b.v.HasBox {
		if b.v.Box.Min[0]-lo > hi-b.v.Box.Max[0] {
			hi = b.v.Box.Min[0]
		} else {
			lo = b.v.Box.Max[0]
		}
	}
	b.levelOn("formation", "formation", geom.Vec{lo, z}, geom.Vec{hi, z}, 0, true)
}

// surfaceLevel marks the finished surface at both edges of the box in the
// long section, over the box in the cross section.
func (b *builder) surfaceLevel() {
	const in = 1e-3 // off the corner, where the surface drops to the ground
	v := b.v
	if v.Long {
		for _, x := range []float64{v.Box.Min[0] + in, v.Box.Max[0] - in} {
			if z, ok := b.finishAt(x); ok {
				b.mark("surface", "surface", geom.Vec{x, z}, true, false)
			}
		}
		return
	}
	for _, share := range []float64{0.5, 0.2, 0.8, 0.05, 0.95} {
		x := v.Box.Min[0] + share*v.Box.W()
		if z, ok := b.finishAt(x); ok && b.tryMark("surface", "surface", geom.Vec{x, z}, z, true, false) {
			return
		}
	}
	x := v.Box.Center()[0]
	if z, ok := b.finishAt(x); ok {
		b.callout(label(Levels, "level:surface", "surface "+b.level(z)), geom.Vec{x, z}, 0)
	}
}

// levelOn marks a level somewhere along a line from p to q. lift moves the
// sign off the line, to the inside of the floor or the roof: it still gives
// the level of the line.
func (b *builder) levelOn(tag, name string, p, q geom.Vec, lift float64, proposed bool) {
	const narrow = 48.0 // mm: in a smaller room the verdicts have their place
	l := label(Levels, "level:"+tag, name+" "+b.level(p[1]))
	if lift != 0 && math.Abs(q[0]-p[0]) < narrow*b.mm {
		b.calloutAny(l, 0, geom.Vec{b.v.Box.Max[0], p[1]}, geom.Vec{b.v.Box.Min[0], p[1]})
		return
	}
	for _, t := range []float64{0.12, 0.3, 0.5, 0.7, 0.85, 0.2, 0.4, 0.6} {
		at := p.Add(q.Sub(p).Mul(t))
		if b.tryMark(tag, name, at.Add(geom.Vec{0, lift}), at[1], proposed, lift < 0) {
			return
		}
	}
	b.calloutAny(l, 0, p.Add(q).Mul(0.5), q, p)
}

// mark puts a level sign at a point, or beside it.
func (b *builder) mark(tag, name string, at geom.Vec, proposed, below bool) {
	if !b.seen(at) {
		return
	}
	if !b.tryMark(tag, name, at, at[1], proposed, below) {
		l := label(Levels, "level:"+tag, name+" "+b.level(at[1]))
		b.callout(l, at, 0)
	}
}

// tryMark draws triangle and text when both find room: above the point, or
// below it for the underside of a roof.
func (b *builder) tryMark(tag, name string, at geom.Vec, level float64, proposed, below bool) bool {
	const half, tall = 1.4, 2.4 // mm
	way := 1.0
	if below {
		way = -1
	}
	tri := geom.Polyline{at, at.Add(geom.Vec{half * b.mm, way * tall * b.mm}), at.Add(geom.Vec{-half * b.mm, way * tall * b.mm})}
	room := rectBox(geom.Ring(tri).Bounds())
	if !b.at.free(room) {
		return false
	}
	l := label(Levels, "level:"+tag, name+" "+b.level(level))
	right := geom.Vec{at[0] + (half+1)*b.mm, at[1] + way*tall*0.6*b.mm}
	left := geom.Vec{at[0] - (half+1)*b.mm, right[1]}
	over := geom.Vec{at[0], at[1] + way*(tall+2.6)*b.mm}
	for _, c := range []struct {
		at geom.Vec
		h  float64
	}{{right, 0}, {left, 1}, {over, 0.5}} {
		l.Anchor = Anchor{H: c.h, V: 0.5}
		if !b.put(l, c.at) {
			continue
		}
		p := Path{Layer: Levels, Tag: "level:" + tag, Parts: []geom.Polyline{tri}, Closed: true, Stroke: Ink, Width: wThin, Fill: Paper}
		if proposed {
			p.Fill = Ink
		}
		b.at.take(room)
		b.sign(p)
		return true
	}
	return false
}
