package scene

import (
	"math"

	"hillset/engine/section"
	"hillset/geom"
)

// slopes writes run and rise on the faces of the cut, horizontal first, as
// excavation rules write them.
func (b *builder) slopes() {
	if !b.show(Slopes) {
		return
	}
	for _, s := range joinBatters(b.v.Batters) {
		if s.Top.Sub(s.Foot).Len() > 7*b.mm {
			b.batter(s)
		}
	}
}

// joinBatters makes one piece of neighbours of the same slope.
func joinBatters(in []section.Batter) []section.Batter {
	var out []section.Batter
	for _, s := range in {
		if n := len(out); n > 0 && math.Abs(out[n-1].N-s.N) < sameLevel && out[n-1].Top.Sub(s.Foot).Len() < sameLevel {
			out[n-1].Top = s.Top
			continue
		}
		out = append(out, s)
	}
	return out
}

// batter draws the triangle of run and rise on the open side of a face, and
// its text beside it.
func (b *builder) batter(s section.Batter) {
	run := s.Top.Sub(s.Foot)
	u, ok := geom.Unit(run)
	if !ok {
		return
	}
	out := geom.LeftNormal(u)
	if run[0] < 0 {
		out = out.Mul(-1)
	}
	side := math.Copysign(1, out[0])
	if run[0] == 0 {
		side = -1
	}
	l := label(Slopes, "batter", b.slope(s.N))
	l.Anchor = Anchor{H: (1 - side) / 2, V: 0.5}
	for _, put := range []func(Label, ...geom.Vec) bool{b.putClear, b.put} {
		for _, t := range []float64{0.6, 0.45, 0.75, 0.3, 0.88} {
			p := s.Foot.Add(run.Mul(t)).Add(out.Mul(0.9 * b.mm))
			tri := b.slopeSign(p, u, side)
			room := rectBox(tri.Bounds())
			spot := geom.Vec{tri[1][0] + side*1.2*b.mm, (tri[0][1] + tri[2][1]) / 2}
			if !b.at.free(room) || !put(l, spot) {
				continue
			}
			b.at.take(room)
			b.add(Path{Layer: Slopes, Tag: "batter", Parts: []geom.Polyline{geom.Polyline(tri)}, Closed: true, Fill: Paper, Stroke: Ink, Width: wThin})
			return
		}
	}
	mid := s.Foot.Add(run.Mul(0.5))
	b.callout(l, mid, 0)
}

// slopeSign is the right-angled triangle with its long side along the face:
// foot, right angle, top.
func (b *builder) slopeSign(foot, u geom.Vec, side float64) geom.Ring {
	const size = 5.0 // mm along the face
	top := foot.Add(u.Mul(size * b.mm))
	corner := geom.Vec{foot[0], top[1]}
	if math.Abs(u[0]) < 1e-3 { // an upright face: a plain tick
		corner = geom.Vec{foot[0] + side*0.8*b.mm, top[1]}
	}
	return geom.Ring{foot, corner, top}
}
