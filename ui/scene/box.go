package scene

import (
	"hillset/geom"
)

// box draws the container: outline, inside, floor build-up, corner castings.
func (b *builder) box() {
	if !b.v.HasBox || !b.show(BoxLayer) {
		return
	}
	out, in := b.v.Box, b.inner()
	ring := func(r geom.Rect) geom.Polyline { return geom.Polyline(r.ToRing()) }
	b.add(Path{Layer: BoxLayer, Tag: "box:shell", Parts: []geom.Polyline{ring(out)}, Closed: true, Fill: Concrete})
	b.add(Path{Layer: BoxLayer, Tag: "box:room", Parts: []geom.Polyline{ring(in)}, Closed: true, Fill: Room, Stroke: Steel, Width: wNarrow})
	b.outside()
	b.strengthening()
	b.openings()
	if b.v.Doors {
		b.doors(in)
	}
	for _, c := range b.castings() {
		b.at.take(rectBox(c))
		b.add(Path{Layer: BoxLayer, Tag: "box:casting", Parts: []geom.Polyline{ring(c)}, Closed: true, Fill: Steel})
	}
	b.add(Path{Layer: BoxLayer, Tag: "box", Parts: []geom.Polyline{ring(out)}, Closed: true, Stroke: Steel, Width: wHeavy})
	b.at.closedChain(ring(out), true)
	b.at.closedChain(ring(in), true)
}

// inner is the clear inside of the box.
func (b *builder) inner() geom.Rect {
	s, r := b.o.Shell, b.v.Box
	r.Min = r.Min.Add(geom.Vec{s.Wall, s.Floor})
	r.Max = r.Max.Sub(geom.Vec{s.Wall, s.Roof})
	return r
}

// castings are the corner castings as the section shows them.
func (b *builder) castings() []geom.Rect {
	s, r := b.o.Shell, b.v.Box
	w := s.CastW
	if r.W() > longSide {
		w = s.CastL
	}
	var out []geom.Rect
	for _, x := range []float64{r.Min[0], r.Max[0] - w} {
		for _, z := range []float64{r.Min[1], r.Max[1] - s.CastH} {
			out = append(out, geom.Rect{Min: geom.Vec{x, z}, Max: geom.Vec{x + w, z + s.CastH}})
		}
	}
	return out
}

// longSide parts the long side of a box from the short one: every freight
// container is 8 ft (2.438 m) wide and at least 2.9 m long.
const longSide = 2.6

// doors marks the door end: the wall gives way to two leaves, drawn shut with
// the hinge sign of elevations.
func (b *builder) doors(in geom.Rect) {
	out := b.v.Box
	leaf := geom.Rect{Min: geom.Vec{out.Min[0], in.Min[1]}, Max: geom.Vec{in.Min[0], in.Max[1]}}
	b.add(Path{Layer: BoxLayer, Tag: "box:doors", Parts: []geom.Polyline{geom.Polyline(leaf.ToRing())}, Closed: true,
		Fill: Paper, Stroke: Steel, Width: wNarrow, Dash: dashShort})
	l := label(BoxLayer, "doors", "doors")
	l.Angle, l.Anchor = quarter, Anchor{H: 0.5, V: 0}
	mid := leaf.Center()
	if !b.seen(mid) {
		return
	}
	x := out.Min[0] - 1.5*b.mm
	step := geom.Vec{0, out.H() / 5}
	b.must(l, geom.Vec{x, mid[1]}, geom.Vec{x, mid[1]}.Add(step), geom.Vec{x, mid[1]}.Sub(step))
}
