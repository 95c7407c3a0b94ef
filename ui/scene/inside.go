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
		h, _ := b.barSize(w.Section)
		z := b.v.Box.Min[1] + b.o.Shell.Floor + w.Height
		b.bars("wale", false, span(in.Min[0], z-h/2, in.Max[0], z+h/2))
	}
	roof := in.Max[1]
	if n := s.Ribs.Purlins; n > 0 {
		h, _ := b.barSize(s.Ribs.Purlin)
		b.bars("purlin", false, span(in.Min[0], roof-h, in.Max[0], roof))
	}
	_, post := b.barSize(s.Ribs.Post)
	beam, beamW := b.barSize(s.Ribs.RoofBeam)
	tie, tieW := b.barSize(s.Ribs.FloorTie)
	for _, x := range b.ribPlaces(s.Ribs.Spacing) {
		b.bars("post", false, span(x-post/2, in.Min[1]+tie, x+post/2, roof-beam))
		b.bars("beam", true, span(x-beamW/2, roof-beam, x+beamW/2, roof))
		b.bars("tie", true, span(x-tieW/2, in.Min[1], x+tieW/2, in.Min[1]+tie))
	}
	for _, w := range s.BackWales {
		h, d := b.barSize(w.Section)
		z := b.v.Box.Min[1] + b.o.Shell.Floor + w.Height
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
		post, _ := b.barSize(s.Ribs.Post)
		beam, _ := b.barSize(s.Ribs.RoofBeam)
		tie, _ := b.barSize(s.Ribs.FloorTie)
		lo, hi := in.Min[1]+tie, in.Max[1]-beam
		b.bars("post", false, span(in.Min[0], lo, in.Min[0]+post, hi), span(in.Max[0]-post, lo, in.Max[0], hi))
		b.bars("beam", false, span(in.Min[0], hi, in.Max[0], in.Max[1]))
		b.bars("tie", false, span(in.Min[0], in.Min[1], in.Max[0], lo))
	}
	for _, w := range s.Wales {
		h, d := b.barSize(w.Section)
		z := b.v.Box.Min[1] + b.o.Shell.Floor + w.Height
		b.bars("wale", true, span(in.Min[0], z-h/2, in.Min[0]+d, z+h/2), span(in.Max[0]-d, z-h/2, in.Max[0], z+h/2))
	}
	h, w := b.barSize(s.Ribs.Purlin)
	for k := range s.Ribs.Purlins {
		x := in.Min[0] + in.W()*float64(k+1)/float64(s.Ribs.Purlins+1)
		b.bars("purlin", true, span(x-w/2, in.Max[1]-h, x+w/2, in.Max[1]))
	}
}
