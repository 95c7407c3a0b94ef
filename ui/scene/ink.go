package scene

import (
	"math"

	"hillset/geom"
	"hillset/ui/face"
)

// arena hands out short chains from large blocks: a hatch has thousands.
type arena struct{ free []geom.Vec }

const arenaBlock = 4096

func (a *arena) chain(pts ...geom.Vec) geom.Polyline {
	if len(a.free) < len(pts) {
		a.free = make([]geom.Vec, max(arenaBlock, len(pts)))
	}
	c := a.free[:len(pts):len(pts)]
	a.free = a.free[len(pts):]
	copy(c, pts)
	return c
}

// add puts a path on the list unless its layer is hidden or it has no parts.
func (b *builder) add(p Path) {
	if !b.show(p.Layer) || len(p.Parts) == 0 {
		return
	}
	kept := p
	b.paths = append(b.paths, &kept)
}

// sign is add for what lies over lines that are drawn later.
func (b *builder) sign(p Path) {
	if !b.show(p.Layer) || len(p.Parts) == 0 {
		return
	}
	kept := p
	b.top = append(b.top, &kept)
}

// stroke draws an open line and makes texts avoid it.
func (b *builder) stroke(layer Layer, tag string, role Role, width float64, dash []float64, pts ...geom.Vec) {
	if !b.show(layer) {
		return
	}
	c := b.ink.chain(pts...)
	b.at.chain(c)
	b.add(Path{Layer: layer, Tag: tag, Parts: []geom.Polyline{c}, Stroke: role, Width: width, Dash: dash})
}

// solid fills a small shape, such as an arrowhead, and keeps texts off it.
func (b *builder) solid(layer Layer, tag string, role Role, pts ...geom.Vec) {
	if !b.show(layer) {
		return
	}
	c := b.ink.chain(pts...)
	b.at.take(rectBox(geom.Ring(c).Bounds()))
	b.add(Path{Layer: layer, Tag: tag, Parts: []geom.Polyline{c}, Closed: true, Fill: role})
}

// arrowhead is a filled head with its tip at tip, pointing along dir.
func (b *builder) arrowhead(layer Layer, tag string, role Role, tip, dir geom.Vec, length float64) {
	u, ok := geom.Unit(dir)
	if !ok {
		return
	}
	n := geom.LeftNormal(u).Mul(length * 0.17 * b.mm)
	tail := tip.Sub(u.Mul(length * b.mm))
	b.solid(layer, tag, role, tip, tail.Add(n), tail.Sub(n))
}

// label makes a text with halo in the ink colour.
func label(layer Layer, tag, text string) Label {
	return Label{Layer: layer, Tag: tag, Text: text, Height: hNote, Role: Ink, Halo: true}
}

// clearance is the ground kept free round a text, mm on paper.
const clearance = 0.5

// put places a text at the best of the given points: the first that is free
// and crosses no line, else the free one that crosses the fewest. It reports
// whether one was free.
func (b *builder) put(l Label, spots ...geom.Vec) bool {
	if !b.show(l.Layer) || l.Text == "" {
		return true
	}
	l.Text, _ = face.Clean(l.Text)
	best, found, fewest := l, false, 0
	for _, at := range spots {
		l.At = at
		room := labelBox(&l, b.o.MMPerM, clearance)
		if !b.at.free(room) {
			continue
		}
		n := b.at.crossed(room) + count(b.at.areas, room) + 3*count(b.at.spots, room)
		if !found || n < fewest {
			best, found, fewest = l, true, n
		}
		if n == 0 {
			break
		}
	}
	if found {
		b.keep(best)
	}
	return found
}

// putClear is put at those points only where the text covers no place that is
// to be kept clear.
func (b *builder) putClear(l Label, spots ...geom.Vec) bool {
	var clear []geom.Vec
	for _, at := range spots {
		l.At = at
		if count(b.at.spots, labelBox(&l, b.o.MMPerM, clearance)) == 0 {
			clear = append(clear, at)
		}
	}
	return b.put(l, clear...)
}

// keep puts a text on the list where it stands.
func (b *builder) keep(l Label) {
	kept := l
	b.text = append(b.text, &kept)
	b.at.take(labelBox(&kept, b.o.MMPerM, clearance))
}

// must is put for texts that the reader is told of when they find no place.
func (b *builder) must(l Label, spots ...geom.Vec) {
	if !b.put(l, spots...) {
		b.lost = append(b.lost, l.Text)
	}
}

// avoid takes in the places that texts are to leave clear.
func (b *builder) avoid() {
	const half = 1.5 // mm: half a handle and a little room
	for _, p := range b.o.Avoid {
		if b.at.win.Contains(p) {
			b.at.spots = append(b.at.spots, newBox(p, 0, half*b.mm, half*b.mm))
		}
	}
}

// circle is a ring of n points.
func circle(c geom.Vec, r float64, n int) geom.Polyline {
	out := make(geom.Polyline, n)
	for i := range out {
		s, k := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = geom.Vec{c[0] + r*k, c[1] + r*s}
	}
	return out
}
