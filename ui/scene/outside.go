package scene

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/geom"
)

// Kinds of zones that this room adds to those of the view.
const (
	cavityZone section.ZoneKind = "cavity"
	slabZone   section.ZoneKind = "roof slab"
	doorZone   section.ZoneKind = "earth against the doors"
)

// Sizes drawn where no table has them, m.
const (
	nominalStudB, nominalStudD = 0.038, 0.14
	nominalPly                 = 0.018
	nominalPad                 = 0.3
)

// alongBox tells whether this section runs along the box.
func (b *builder) alongside() bool {
	p := b.project()
	return p != nil && b.v.Long == (p.Box.Orientation != model.Broadside)
}

// walls are the walls of the box that this section cuts and that skins stand
// outside of, with the way out.
func (b *builder) skinned() map[section.Face]float64 {
	if b.v.Long {
		return map[section.Face]float64{section.Back: 1}
	}
	return map[section.Face]float64{section.Left: -1, section.Right: 1}
}

// outsideZones are the materials outside the box that the view does not hold:
// the filling of the cavity, the slab over the roof, earth against the doors.
func (b *builder) outsideZones() []section.Zone {
	p := b.project()
	if p == nil || !b.v.HasBox {
		return nil
	}
	var out []section.Zone
	zone := func(kind section.ZoneKind, name, soil, hatch string, r geom.Rect) {
		if !r.Empty() {
			out = append(out, section.Zone{Kind: kind, Name: name, Soil: soil, Hatch: hatch, Region: geom.Ring(r.ToRing()).ToRegion()})
		}
	}
	box, s := b.v.Box, &p.Strengthening
	if w := s.Cavity.Width; w > 0 {
		name, hatch := "concrete skin", "CONCRETE"
		if s.Cavity.Fill != model.ConcreteFill {
			name, hatch = "cavity: pea gravel", "PEA-GRAVEL"
		}
		for _, f := range []section.Face{section.Left, section.Back, section.Right} {
			if dir, ok := b.skinned()[f]; ok {
				x, _ := b.wallOf(f)
				zone(cavityZone, name, "", hatch, sorted(x, box.Min[1], x+dir*w, box.Max[1]))
			}
		}
	}
	if t := s.RoofSlab.Thickness; t > 0 && s.RoofSlab.CrossBeam == "" {
		reach := 0.0
		if !b.alongside() {
			reach = s.RoofSlab.Gap + b.postWidth()
		}
		zone(slabZone, "roof slab", "", "CONCRETE", span(box.Min[0]-reach, box.Max[1], box.Max[0]+reach, box.Max[1]+t))
	}
	if h := p.Box.DoorFill; h > 0 && b.v.Doors {
		r := geom.Ring{{box.Min[0], box.Min[1]}, {box.Min[0], box.Min[1] + h}, {box.Min[0] - 1.5*h, box.Min[1]}}
		out = append(out, section.Zone{Kind: doorZone, Name: "earth against the doors", Region: r.ToRegion()})
	}
	return out
}

// sorted is a rectangle between two corners in any order.
func sorted(x0, z0, x1, z1 float64) geom.Rect {
	return span(math.Min(x0, x1), math.Min(z0, z1), math.Max(x0, x1), math.Max(z0, z1))
}

// postWidth is the width of a post of the roof on posts.
func (b *builder) postWidth() float64 {
	_, w := b.barSize(b.project().Strengthening.RoofSlab.Post)
	return w
}

// outside draws the bars outside the box: studs with their plywood, and the
// roof on posts.
func (b *builder) outside() {
	p := b.project()
	if p == nil || !b.v.HasBox || !b.show(BoxLayer) {
		return
	}
	if p.Strengthening.Stud.Spacing > 0 {
		b.studs(&p.Strengthening)
	}
	if p.Strengthening.RoofSlab.Given() {
		if b.alongside() {
			b.ownRoofAlong(&p.Strengthening.RoofSlab)
		} else {
			b.ownRoofAcross(&p.Strengthening.RoofSlab)
		}
	}
}

// beam draws outlines outside the box: cut ones full, those behind the plane
// open, those that earth hides dashed.
func (b *builder) beam(tag string, cut, hidden bool, rs ...geom.Rect) {
	p := Path{Layer: BoxLayer, Tag: "outside:" + tag, Closed: true, Fill: Room, Stroke: Ink, Width: wThin}
	switch {
	case cut:
		p.Fill = Steel
	case hidden:
		p.Fill, p.Dash = "", dashShort
	}
	for _, r := range rs {
		if r = overlap(r, b.at.win); !r.Empty() {
			p.Parts = append(p.Parts, geom.Polyline(r.ToRing()))
			b.at.closedChain(geom.Polyline(r.ToRing()), true)
		}
	}
	b.add(p)
}

// studs are upright outside the walls that the section cuts, between the
// rails, with the plywood as a heavy line outside. A section along the box
// shows those of the long wall behind it as hidden lines.
func (b *builder) studs(s *model.Strengthening) {
	box := b.v.Box
	w, d := b.studSize(s)
	low, high := box.Min[1]+b.o.Shell.Floor, box.Max[1]-b.o.Shell.Roof
	for _, f := range []section.Face{section.Left, section.Back, section.Right} {
		dir, ok := b.skinned()[f]
		if !ok {
			continue
		}
		x, _ := b.wallOf(f)
		x += dir * s.Cavity.Width
		b.beam("stud", false, false, sorted(x, low, x+dir*d, high))
		b.stroke(BoxLayer, "outside:plywood", Ink, wHeavy, nil, geom.Vec{x + dir*(d+nominalPly/2), box.Min[1]}, geom.Vec{x + dir*(d+nominalPly/2), high})
	}
	const apart = 3.0 // mm: closer studs run into one
	if !b.alongside() || s.Stud.Spacing*b.o.MMPerM < apart {
		return
	}
	p := Path{Layer: BoxLayer, Tag: "outside:stud-behind", Stroke: Thin, Width: wHair, Dash: dashShort}
	in := b.inner()
	for x := in.Min[0] + s.Stud.Spacing/2; x < in.Max[0]; x += s.Stud.Spacing {
		for _, side := range []float64{x - w/2, x + w/2} {
			p.Parts = append(p.Parts, b.ink.chain(geom.Vec{side, in.Min[1]}, geom.Vec{side, in.Max[1]}))
		}
	}
	b.add(p)
}

// ownRoofAcross: a post, an edge beam cut and a pad on either side, and a cross
// beam with its deck where there is no slab.
func (b *builder) ownRoofAcross(s *model.RoofSlab) {
	box := b.v.Box
	postH, post := b.barSize(s.Post)
	edgeH, edge := b.barSize(s.EdgeBeam)
	for _, side := range []float64{-1, 1} {
		x := box.Max[0] + s.Gap + post/2
		if side < 0 {
			x = box.Min[0] - s.Gap - post/2
		}
		b.beam("roof-post", false, false, span(x-postH/2, b.v.Formation, x+postH/2, box.Max[1]-edgeH))
		b.beam("edge-beam", true, false, span(x-edge/2, box.Max[1]-edgeH, x+edge/2, box.Max[1]))
		b.roofPad(x, s)
	}
	if s.CrossBeam == "" {
		return
	}
	h, _ := b.barSize(s.CrossBeam)
	from, to := box.Min[0]-s.Gap-post, box.Max[0]+s.Gap+post
	b.beam("cross-beam", false, false, span(from, box.Max[1], to, box.Max[1]+h))
	z := box.Max[1] + h + nominalPly/2
	b.stroke(BoxLayer, "outside:deck", Ink, wHeavy, nil, geom.Vec{from, z}, geom.Vec{to, z})
}

// ownRoofAlong: the posts beside the box hidden behind it, the edge beam over
// them, cross beams cut.
func (b *builder) ownRoofAlong(s *model.RoofSlab) {
	box := b.v.Box
	_, post := b.barSize(s.Post)
	edgeH, _ := b.barSize(s.EdgeBeam)
	n := 1
	if s.Spacing > 0 {
		const most = 200
		n = int(math.Min(most, math.Max(1, math.Ceil(box.W()/s.Spacing-1e-9))))
	}
	for i := range n + 1 {
		x := box.Min[0] + post/2 + (box.W()-post)*float64(i)/float64(n)
		b.beam("roof-post", false, true, span(x-post/2, b.v.Formation, x+post/2, box.Max[1]-edgeH))
		b.roofPad(x, s)
	}
	b.beam("edge-beam", false, true, span(box.Min[0], box.Max[1]-edgeH, box.Max[0], box.Max[1]))
	if s.CrossBeam == "" || !(s.CrossSpacing > 0) || s.CrossSpacing*b.o.MMPerM < 1 {
		return
	}
	h, w := b.barSize(s.CrossBeam)
	var rs []geom.Rect
	for x := box.Min[0] + w/2; x < box.Max[0]; x += s.CrossSpacing {
		rs = append(rs, span(x-w/2, box.Max[1], x+w/2, box.Max[1]+h))
	}
	b.beam("cross-beam", true, false, rs...)
	z := box.Max[1] + h + nominalPly/2
	b.stroke(BoxLayer, "outside:deck", Ink, wHeavy, nil, geom.Vec{box.Min[0], z}, geom.Vec{box.Max[0], z})
}

// roofPad is the pad below a post; its thickness is not given.
func (b *builder) roofPad(x float64, s *model.RoofSlab) {
	if s.Footing > 0 {
		b.beam("roof-pad", false, true, span(x-s.Footing/2, b.v.Formation-nominalPad, x+s.Footing/2, b.v.Formation))
	}
}
