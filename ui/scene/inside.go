package scene

import (
	"math"

	"hillset/engine/model"
	"hillset/geom"
)

// nominalBar is the side of a bar whose row is not in the table, m.
const nominalBar = 0.08

// bar is depth and width of a row of the bar table.
func (b *builder) barSize(id string) (h, w float64) {
	if b.o.Bars != nil {
		if row, ok := b.o.Bars(id); ok && row.H > 0 && row.B > 0 {
			return row.H, row.B
		}
	}
	return nominalBar, nominalBar
}

// strengthening draws the bars inside the box. A section along the box shows
// the frames one behind the other with the bars that join them, a section
// across it shows one frame.
func (b *builder) strengthening() {
	p := b.project()
	if p == nil {
		return
	}
	if b.v.Long == (p.Box.Orientation != model.Broadside) {
		b.barsAlong(&p.Strengthening)
	} else {
		b.barsAcross(&p.Strengthening)
	}
}

// bars draws outlines of bars: cut ones full, those behind the plane open.
func (b *builder) bars(tag string, cut bool, rs ...geom.Rect) {
	p := Path{Layer: BoxLayer, Tag: "inside:" + tag, Closed: true, Fill: Room, Stroke: Thin, Width: wHair}
	if cut {
		p.Fill = Steel
	}
	in := b.inner()
	for _, r := range rs {
		if r = overlap(r, in); !r.Empty() {
			p.Parts = append(p.Parts, geom.Polyline(r.ToRing()))
		}
	}
	b.add(p)
}

func span(x0, z0, x1, z1 float64) geom.Rect {
	return geom.Rect{Min: geom.Vec{x0, z0}, Max: geom.Vec{x1, z1}}
}

// barsAlong: posts behind the plane, beams and ties cut, wales and purlins
// along, the wales of the blind end cut at the back.
func (b *builder) barsAlong(s *model.Strengthening) {
	in := b.inner()
	for _, w := range s.Wales {
		_, h := b.barSize(w.Section) // its depth stands square to the wall
		z := b.overRail(w.Height)
		b.bars("wale", false, span(in.Min[0], z-h/2, in.Max[0], z+h/2))
	}
	roof := in.Max[1]
	if s.Ribs.Purlins > 0 && s.Ribs.RoofBeam != "" {
		h, _ := b.barSize(s.Ribs.Purlin)
		b.bars("purlin", false, span(in.Min[0], roof-h, in.Max[0], roof))
	}
	_, post := b.barSize(s.Ribs.Post)
	beam, beamW := b.barOrNone(s.Ribs.RoofBeam)
	tie, tieW := b.barOrNone(s.Ribs.FloorTie)
	for _, x := range b.ribPlaces(s.Ribs.Spacing) {
		b.bars("post", false, span(x-post/2, in.Min[1]+tie, x+post/2, roof-beam))
		b.bars("beam", true, span(x-beamW/2, roof-beam, x+beamW/2, roof))
		b.bars("tie", true, span(x-tieW/2, in.Min[1], x+tieW/2, in.Min[1]+tie))
		for _, t := range s.Ribs.Struts {
			h, w := b.barSize(t.Section)
			z := b.overRail(t.Height)
			b.bars("strut", true, span(x-w/2, z-h/2, x+w/2, z+h/2))
		}
	}
	for _, w := range s.BackWales {
		d, h := b.barSize(w.Section)
		z := b.overRail(w.Height)
		b.bars("back-wale", true, span(in.Max[0]-d, z-h/2, in.Max[0], z+h/2))
	}
}

// ribPlaces are the ribs between the ends of the box: as many equal bays as
// come nearest to the spacing, as package assess counts them.
func (b *builder) ribPlaces(spacing float64) []float64 {
	const most = 200 // bays that can still be told apart
	if !(spacing > 0) {
		return nil
	}
	from, l := b.v.Box.Min[0], b.v.Box.W()
	bays := int(math.Min(most, math.Max(1, math.Round(l/spacing))))
	var out []float64
	for i := 1; i < bays; i++ {
		out = append(out, from+l*float64(i)/float64(bays))
	}
	return out
}

// barsAcross: one frame behind the plane, purlins and wales cut.
func (b *builder) barsAcross(s *model.Strengthening) {
	in := b.inner()
	if s.Ribs.Spacing > 0 {
		b.rib(&s.Ribs)
	}
	for _, w := range s.Wales {
		d, h := b.barSize(w.Section)
		z := b.overRail(w.Height)
		b.bars("wale", true, span(in.Min[0], z-h/2, in.Min[0]+d, z+h/2), span(in.Max[0]-d, z-h/2, in.Max[0], z+h/2))
	}
	if s.Ribs.RoofBeam == "" {
		return // nothing carries purlins
	}
	h, w := b.barSize(s.Ribs.Purlin)
	for k := range s.Ribs.Purlins {
		x := in.Min[0] + in.W()*float64(k+1)/float64(s.Ribs.Purlins+1)
		b.bars("purlin", true, span(x-w/2, in.Max[1]-h, x+w/2, in.Max[1]))
	}
}

// rib is one set of bars across the room: posts, and beam, tie and struts as
// far as there are any; joints that turn freely have the sign of a hinge.
func (b *builder) rib(r *model.Ribs) {
	in := b.inner()
	post, _ := b.barSize(r.Post)
	beam, _ := b.barOrNone(r.RoofBeam)
	tie, _ := b.barOrNone(r.FloorTie)
	lo, hi := in.Min[1]+tie, in.Max[1]-beam
	b.bars("post", false, span(in.Min[0], lo, in.Min[0]+post, hi), span(in.Max[0]-post, lo, in.Max[0], hi))
	b.bars("beam", false, span(in.Min[0], hi, in.Max[0], in.Max[1]))
	b.bars("tie", false, span(in.Min[0], in.Min[1], in.Max[0], lo))
	var hinges []float64
	for _, t := range r.Struts {
		h, _ := b.barSize(t.Section)
		z := b.overRail(t.Height)
		b.bars("strut", false, span(in.Min[0]+post, z-h/2, in.Max[0]-post, z+h/2))
		hinges = append(hinges, z)
	}
	for _, z := range hinges {
		b.hinge(geom.Vec{in.Min[0] + post, z}, geom.Vec{in.Max[0] - post, z})
	}
	if !r.Rigid() {
		for _, z := range []float64{lo, hi} {
			b.hinge(geom.Vec{in.Min[0] + post/2, z}, geom.Vec{in.Max[0] - post/2, z})
		}
	}
}

// hinge is the sign of a joint that turns freely: an open circle.
func (b *builder) hinge(at ...geom.Vec) {
	const size = 0.7 // mm
	p := Path{Layer: BoxLayer, Tag: "inside:hinge", Closed: true, Fill: Paper, Stroke: Ink, Width: wThin}
	for _, c := range at {
		p.Parts = append(p.Parts, circle(c, size*b.mm, 14))
	}
	b.add(p)
}

// overRail is the level of a height above the bottom rail.
func (b *builder) overRail(h float64) float64 { return b.v.Box.Min[1] + b.o.Shell.Floor + h }

// barOrNone is barSize of a bar that may be left out.
func (b *builder) barOrNone(id string) (h, w float64) {
	if id == "" {
		return 0, 0
	}
	return b.barSize(id)
}
