package scene

import (
	"math"

	"hillset/geom"
)

// sameLevel is how close finished and existing ground must be to be the same
// line, m: a millimetre, less than the width of the line on any sheet.
const sameLevel = 1e-3

// groundLines draws the existing ground, the finished surface and the cut.
func (b *builder) groundLines() {
	if !b.show(Ground) {
		return
	}
	b.excavated()
	kept, altered := splitGround(b.v.Ground, b.v.Finish)
	for _, p := range b.inLand(kept) {
		b.at.chain(p)
		b.add(Path{Layer: Ground, Tag: "ground", Parts: []geom.Polyline{p}, Stroke: Earth, Width: wGround})
		b.ticks(p)
	}
	for _, p := range b.inLand(altered) {
		b.at.chain(p)
		b.add(Path{Layer: Ground, Tag: "ground:altered", Parts: []geom.Polyline{p}, Stroke: Earth, Width: wGround, Dash: dashLong})
	}
	if len(b.v.CutLine) > 0 {
		b.cutOutline()
	}
	if len(altered) > 0 {
		b.finishLine()
	}
}

// excavated tints what is dug away and still open.
func (b *builder) excavated() {
	if b.v.HasBox {
		return
	}
	for _, p := range clipRegion(b.v.Excavated, b.land) {
		b.add(Path{Layer: Ground, Tag: "excavated", Parts: []geom.Polyline{geom.Polyline(p.Outer)}, Closed: true, Fill: Dug})
	}
}

// inLand cuts chains to the window of the ground.
func (b *builder) inLand(chains []geom.Polyline) []geom.Polyline {
	var out []geom.Polyline
	for _, c := range chains {
		out = append(out, clipLine(c, b.land.Expand(wGround*b.mm))...)
	}
	return out
}

// cutOutline draws the edge of the excavation, where it lies below the ground
// as found.
func (b *builder) cutOutline() {
	_, dug := splitGround(b.v.CutLine, b.v.Ground)
	for _, p := range b.inLand(dug) {
		b.at.chain(p)
		b.add(Path{Layer: Ground, Tag: "cut", Parts: []geom.Polyline{p}, Stroke: Ink, Width: wHeavy})
	}
}

// finishLine draws the new surface where it departs from the ground as found
// and from the open cut.
func (b *builder) finishLine() {
	_, fresh := splitGround(b.v.Finish, b.v.Ground)
	for _, c := range fresh {
		parts := []geom.Polyline{c}
		if len(b.v.CutLine) > 0 {
			_, parts = splitGround(c, b.v.CutLine)
		}
		for _, p := range b.inLand(parts) {
			b.at.chain(p)
			b.add(Path{Layer: Fills, Tag: "finish", Parts: []geom.Polyline{p}, Stroke: Ink, Width: wGround})
		}
	}
}

// splitGround parts line a into where it runs with line b and where it does
// not. Pieces where b says nothing count as running alone.
func splitGround(a, o geom.Polyline) (same, apart []geom.Polyline) {
	var run geom.Polyline
	state := -1
	flush := func() {
		if len(run) > 1 {
			if state == 1 {
				same = append(same, run)
			} else {
				apart = append(apart, run)
			}
		}
	}
	for i := 1; i < len(a); i++ {
		for _, s := range splitPiece(a[i-1], a[i], o) {
			mid := s.A.Add(s.B).Mul(0.5)
			z, ok := o.At(mid[0])
			now := 0
			if ok && math.Abs(z-mid[1]) < sameLevel {
				now = 1
			}
			if now != state {
				flush()
				run, state = geom.Polyline{s.A}, now
			}
			run = append(run, s.B)
		}
	}
	flush()
	return same, apart
}

// splitPiece cuts the piece from p to q at the corners of o over it and where
// it crosses o.
func splitPiece(p, q geom.Vec, o geom.Polyline) []geom.Segment {
	out := make([]geom.Segment, 0, 4)
	at := p
	step := func(x float64) {
		if x <= at[0]+geom.TolTouch || x >= q[0]-geom.TolTouch {
			return
		}
		m := p.Add(q.Sub(p).Mul((x - p[0]) / (q[0] - p[0])))
		out = append(out, geom.Segment{A: at, B: m})
		at = m
	}
	for i, c := range o {
		if i > 0 && c[0] > p[0] && o[i-1][0] < q[0] {
			if x, ok := meets(p, q, o[i-1], c); ok {
				step(x)
			}
		}
		step(c[0])
	}
	return append(out, geom.Segment{A: at, B: q})
}

// meets is the x where two pieces cross.
func meets(p, q, r, s geom.Vec) (float64, bool) {
	d, e := q.Sub(p), s.Sub(r)
	den := geom.Cross(d, e)
	if den == 0 {
		return 0, false
	}
	t, u := geom.Cross(r.Sub(p), e)/den, geom.Cross(r.Sub(p), d)/den
	return p[0] + t*d[0], t > 0 && t < 1 && u > 0 && u < 1
}

// ticks hang groups of slanting strokes under a ground line: the mark of
// natural ground.
func (b *builder) ticks(line geom.Polyline) {
	const every, n, gap, l = 26.0, 4, 1.1, 2.2 // mm
	path := Path{Layer: Ground, Tag: "ground:ticks", Stroke: Earth, Width: wNarrow}
	at := (math.Floor(line[0][0]/(every*b.mm)) + 0.5) * every * b.mm
	for ; at < line[len(line)-1][0]; at += every * b.mm {
		for i := range n {
			x := at + float64(i)*gap*b.mm
			z, ok := line.At(x)
			foot := geom.Vec{x - l*0.7*b.mm, z - l*0.7*b.mm}
			if ok && b.land.Contains(foot) {
				path.Parts = append(path.Parts, b.ink.chain(geom.Vec{x, z}, foot))
			}
		}
	}
	b.add(path)
}
