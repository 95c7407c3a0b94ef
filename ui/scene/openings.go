package scene

import (
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
)

// openings draws what is cut out of the walls: where the plane of the section
// runs through it as a gap in the wall with its frame cut, else as it is seen
// behind the plane.
func (b *builder) openings() {
	p := b.project()
	if p == nil {
		return
	}
	for i := range p.Box.Openings {
		o := &p.Box.Openings[i]
		if o.Wall == string(section.Roof) {
			b.roofOpening(o)
		} else {
			b.wallOpening(o, section.Face(o.Wall))
		}
	}
}

// wallOpening is one in an upright wall. The side walls are seen in the long
// section, the blind end in the cross section.
func (b *builder) wallOpening(o *model.Opening, f section.Face) {
	low := b.v.Box.Min[1] + b.o.Shell.Floor + o.Sill
	seen := f == section.Back
	if b.v.Long {
		seen = !seen
	}
	if seen {
		from := b.v.Box.Min[0] + o.From
		b.openingSeen(o, span(from, low, from+o.Width, low+o.Height), f == section.Left)
		return
	}
	at := 0.5 * b.acrossOf() // the plane of the long section, from the left
	if !b.v.Long {
		at = b.v.Station - b.project().Box.Front
	}
	if at < o.From || at > o.From+o.Width {
		return
	}
	x, dir := b.wallOf(f)
	b.openingCut(o, sorted(x, low, x-dir*b.o.Shell.Wall, low+o.Height), false)
}

// acrossOf is the extent of the box along the contour, m, which the long
// section does not show: that of the panels of the result; 0 without any.
func (b *builder) acrossOf() float64 {
	if b.r == nil {
		return 0
	}
	for _, q := range b.r.Panels {
		if q.Face == section.Back {
			return q.Length
		}
	}
	return 0
}

// roofOpening is one in the roof, measured from the front along the box and
// from the left across it.
func (b *builder) roofOpening(o *model.Opening) {
	r := b.v.Box
	from, width, at, lo, hi := o.From, o.Width, 0.0, 0.0, 0.0
	if b.v.Long {
		at, lo, hi = 0.5*b.acrossOf(), o.Sill, o.Sill+o.Height
	} else {
		at, lo, hi = b.v.Station-b.project().Box.Front, o.From, o.From+o.Width
		from, width = o.Sill, o.Height
	}
	if at < lo || at > hi {
		return
	}
	x := r.Min[0] + from
	b.openingCut(o, span(x, r.Max[1]-b.o.Shell.Roof, x+width, r.Max[1]), true)
}

// openingSeen is an opening in elevation, hidden lines where its wall is in
// front of the plane.
func (b *builder) openingSeen(o *model.Opening, r geom.Rect, hidden bool) {
	if r = overlap(r, b.inner()); r.Empty() {
		return
	}
	p := Path{Layer: BoxLayer, Tag: "opening:" + o.ID, Parts: []geom.Polyline{geom.Polyline(r.ToRing())}, Closed: true, Stroke: Ink, Width: wNarrow}
	if hidden {
		p.Dash = dashShort
	}
	if o.Framed {
		h, _ := b.barSize(o.Bar)
		p.Parts = append(p.Parts, geom.Polyline(r.Expand(h).ToRing()))
	}
	b.add(p)
	b.add(Path{Layer: BoxLayer, Tag: "opening:" + o.ID, Stroke: Thin, Width: wHair, Dash: p.Dash,
		Parts: []geom.Polyline{{r.Min, r.Max}, {{r.Min[0], r.Max[1]}, {r.Max[0], r.Min[1]}}}})
}

// openingCut is an opening that the plane runs through, with the frame at its
// two ends.
func (b *builder) openingCut(o *model.Opening, r geom.Rect, level bool) {
	if r = overlap(r, b.v.Box); r.Empty() {
		return
	}
	ring := []geom.Polyline{geom.Polyline(r.ToRing())}
	b.add(Path{Layer: BoxLayer, Tag: "opening:" + o.ID, Parts: ring, Closed: true, Fill: Paper, Stroke: Ink, Width: wThin})
	if !o.Framed {
		return
	}
	h, _ := b.barSize(o.Bar)
	ends := []geom.Rect{span(r.Min[0], r.Min[1]-h, r.Max[0], r.Min[1]), span(r.Min[0], r.Max[1], r.Max[0], r.Max[1]+h)}
	if level {
		ends = []geom.Rect{span(r.Min[0]-h, r.Min[1], r.Min[0], r.Max[1]), span(r.Max[0], r.Min[1], r.Max[0]+h, r.Max[1])}
	}
	p := Path{Layer: BoxLayer, Tag: "opening:" + o.ID + ":frame", Closed: true, Fill: Steel}
	for _, e := range ends {
		if e = overlap(e, b.v.Box); !e.Empty() {
			p.Parts = append(p.Parts, geom.Polyline(e.ToRing()))
		}
	}
	b.add(p)
}
