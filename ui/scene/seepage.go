package scene

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
	"hillset/engine/seepage"
	"hillset/geom"
)

// seepage draws what the computed water does in the ground: the mesh, lines of
// equal head, flow lines. All lie under the works, which cover them.
func (b *builder) seepage() {
	if b.wet == nil || b.wet.fault != nil {
		return
	}
	f, drops := b.wet.flow()
	if f == nil {
		return
	}
	if b.show(Mesh) {
		b.mesh(f.Mesh)
	}
	if b.show(Heads) {
		b.heads(f)
	}
	if b.show(Flow) {
		b.flowLines(drops())
	}
}

// mesh draws every edge of the triangles once.
func (b *builder) mesh(m *seepage.Mesh) {
	path := Path{Layer: Mesh, Tag: "mesh", Stroke: HatchSoil, Width: wHair}
	type edge struct{ p, q int32 }
	inner := make(map[edge]bool, 2*len(m.Tris))
	for i := range m.Tris {
		t := &m.Tris[i]
		for c := range 3 {
			p, q := t.N[c], t.N[(c+1)%3]
			if inner[edge{q, p}] { // drawn with the neighbour
				continue
			}
			inner[edge{p, q}] = true
			if s, ok := clipSegment(geom.Segment{A: m.Nodes[p], B: m.Nodes[q]}, b.land); ok {
				path.Parts = append(path.Parts, b.ink.chain(s.A, s.B))
			}
		}
	}
	b.add(path)
}

// headStep is the round distance between the lines of equal head, m: about a
// dozen of them over the heads of the section.
func (b *builder) headStep(lo, hi float64) float64 {
	const lines = 12
	unit := b.unitLength()
	need := (hi - lo) / lines / unit
	if !(need > 0) {
		return 0
	}
	step := oneTwoFive(need)
	for _, up := range []float64{2, 2.5, 5, 10} {
		if step >= need*(1-1e-9) {
			break
		}
		step = oneTwoFive(oneTwoFive(need) * up * (1 + 1e-9))
	}
	return step * unit
}

// headLine is one line of equal head.
type headLine struct {
	head  float64
	parts []geom.Polyline
}

// heads draws the lines of equal head.
func (b *builder) heads(f *seepage.Flow) {
	const least = 0.02 // m between lines: less is still water
	lo, hi, ok := f.Wet()
	if !ok || hi-lo < least {
		return
	}
	b.headGap = b.headStep(lo, hi)
	path := Path{Layer: Heads, Tag: "heads", Stroke: Ink, Width: wThin, Dash: dashShort}
	for i := math.Ceil(lo / b.headGap); i*b.headGap < hi; i++ {
		line := headLine{head: i * b.headGap, parts: b.inLand(f.Contour(i * b.headGap))}
		if len(line.parts) > 0 {
			b.headLines = append(b.headLines, line)
			path.Parts = append(path.Parts, line.parts...)
		}
	}
	b.add(path)
}

// headTexts writes its head on each line that has room for it.
func (b *builder) headTexts() {
	const room = 12.0 // mm of line that a text asks for
	for _, h := range b.headLines {
		var best geom.Polyline
		for _, p := range h.parts {
			if best == nil || p.Length() > best.Length() {
				best = p
			}
		}
		if best.Length() < room*b.mm {
			continue
		}
		l := label(Heads, "head", b.level(h.head))
		l.Anchor = Anchor{H: 0.5, V: 0.5}
		var spots []geom.Vec
		for _, share := range []float64{0.5, 0.3, 0.7, 0.15, 0.85} {
			if at := partWay(best, share); !b.v.HasBox || !b.v.Box.Contains(at) {
				spots = append(spots, at)
			}
		}
		b.must(l, spots...)
	}
}

// partWay is the place at a share of the length of a line.
func partWay(line geom.Polyline, share float64) geom.Vec {
	left := share * line.Length()
	for i := 1; i < len(line); i++ {
		d := line[i].Sub(line[i-1])
		if l := d.Len(); l > 0 && left <= l {
			return line[i-1].Add(d.Mul(left / l))
		} else {
			left -= l
		}
	}
	return line[len(line)-1]
}

// flowLines draws the ways of drops with arrow heads along them.
func (b *builder) flowLines(drops []seepage.Path) {
	lines := Path{Layer: Flow, Tag: "flow", Stroke: WaterLine, Width: wNarrow}
	tips := Path{Layer: Flow, Tag: "flow:arrows", Closed: true, Fill: WaterLine}
	for _, d := range drops {
		b.flowShare = d.Share
		for _, p := range clipLine(d.Line, b.land) {
			lines.Parts = append(lines.Parts, p)
			b.tips(&tips, p)
		}
	}
	b.add(lines)
	b.add(tips)
}

// tips sets arrow heads at even distances along a flow line.
func (b *builder) tips(path *Path, line geom.Polyline) {
	const every, long, half = 26.0, 2.4, 0.55 // mm
	next := every * 0.5 * b.mm
	for i := 1; i < len(line); i++ {
		d := line[i].Sub(line[i-1])
		l := d.Len()
		for ; next <= l && l > 0; next += every * b.mm {
			u := d.Mul(1 / l)
			tip := line[i-1].Add(u.Mul(next))
			tail, n := tip.Sub(u.Mul(long*b.mm)), geom.LeftNormal(u).Mul(half*b.mm)
			if b.land.Contains(tip) && b.land.Contains(tail) {
				path.Parts = append(path.Parts, b.ink.chain(tip, tail.Add(n), tail.Sub(n)))
			}
		}
		next -= l
	}
}

// seepageNotes states what the lines stand for and where they were computed.
func (b *builder) seepageNotes() {
	if b.wet == nil || b.wet.fault != nil {
		return
	}
	var layer Layer
	text := ""
	add := func(l Layer, s string) {
		if text != "" {
			text += "; "
		}
		layer, text = l, text+s
	}
	if b.flowShare > 0 {
		add(Flow, "between flow lines "+b.write(b.flowShare, quantity.Seep))
	}
	if b.headGap > 0 {
		add(Heads, "heads every "+b.length(b.headGap))
	}
	f, _ := b.wet.flow()
	if b.show(Mesh) && f != nil {
		add(Mesh, fmt.Sprintf("mesh of %d points", len(f.Mesh.Nodes)))
	}
	if text == "" {
		return
	}
	const off = 0.1 // m, from where it no longer is the same section
	if s := b.wet.state(); s != nil && !b.v.Long && math.Abs(s.View.Station-b.v.Station) > off {
		text += "; of the section at " + b.length(s.View.Station)
	}
	l := label(layer, "seepage:note", text)
	l.Role = WaterLine
	foot, win := b.foot(), b.at.win
	top := geom.Vec{win.Min[0] + inset*b.mm, win.Max[1] - (axisTop+b.captionMore())*b.mm}
	b.must(l, foot.Add(geom.Vec{0, 8 * b.mm}), foot.Add(geom.Vec{0, 12.5 * b.mm}), top, top.Sub(geom.Vec{0, 5 * b.mm}),
		geom.Vec{win.Center()[0], top[1]}, foot.Add(geom.Vec{0, 17 * b.mm}))
}
