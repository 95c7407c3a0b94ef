package scene

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/check"
	"hillset/geom"
)

// verdict is what the checks of one part come to.
type verdict struct {
	part    string
	worst   *check.Check // the largest ratio; nil where nothing was checked
	missing int          // checks that were not made
}

// Parts that the long section shows one behind the other.
const (
	sideWalls = "side walls"
	topRails  = "top rails"
)

// together names what a part is drawn with in the long section.
func together(part string) string {
	switch part {
	case "left side wall", "right side wall":
		return sideWalls
	case "left top rail", "right top rail":
		return topRails
	}
	return part
}

// gather sums the checks up by part, in the order of the result.
func gather(cs []check.Check, long bool) []verdict {
	var out []verdict
	at := map[string]int{}
	for i := range cs {
		c := &cs[i]
		part := c.Part
		if long {
			part = together(part)
		}
		k, ok := at[part]
		if !ok {
			k = len(out)
			at[part] = k
			out = append(out, verdict{part: part})
		}
		v := &out[k]
		if c.Verdict() == check.NotChecked {
			v.missing++
		} else if v.worst == nil || c.Worst() > v.worst.Worst() {
			v.worst = c
		}
	}
	return out
}

// words are what is written beside the mark.
func (v verdict) words() string {
	if v.worst == nil {
		return "not checked"
	}
	r := v.worst.Worst()
	text := fmt.Sprintf("within %.2f", r)
	switch {
	case math.IsInf(r, 1):
		text = "beyond, nothing holds it"
	case r > 1:
		text = fmt.Sprintf("beyond %.2f×", ceil2(r))
	}
	if v.missing > 0 && r <= 1 {
		text += fmt.Sprintf(", %d not checked", v.missing)
	}
	return text
}

// ceil2 keeps a ratio just beyond 1 from being written as 1.00.
func ceil2(r float64) float64 { return math.Ceil(r*100-1e-9) / 100 }

// spot is where a part is seen in a section.
type spot struct {
	at   geom.Vec
	h    float64         // side of the mark on which the text stands: 0 right, 1 left
	line []geom.Polyline // the part itself, for the selection
	also []geom.Vec      // other places for the mark
}

// markSize is half the size of a verdict mark, mm.
const markSize = 1.3

// verdicts puts a mark and its words at every part that the section shows:
// first all the marks, so that no text takes the place of one.
func (b *builder) verdicts() {
	if b.r == nil {
		return
	}
	type placed struct {
		v verdict
		s spot
	}
	var todo []placed
	vs := gather(b.r.Checks, b.v.Long)
	spots := b.spots(vs)
	for _, v := range vs {
		s, ok := spots[v.part]
		if !ok || !b.at.win.Contains(s.at) {
			continue
		}
		if v.part == b.sel() && len(s.line) > 0 {
			b.add(Path{Layer: BoxLayer, Tag: "selected:" + v.part, Parts: s.line, Stroke: Selection, Width: 1.4})
		}
		if !b.show(Verdicts) {
			continue
		}
		if at, ok := b.freeMark(s); ok {
			s.at = at
			b.verdictMark(v, at)
			todo = append(todo, placed{v, s})
			continue
		}
		b.lost = append(b.lost, v.part+": "+v.words())
	}
	for _, p := range todo {
		b.verdictText(p.v, p.s)
	}
}

// sel is the selected part as this section names it.
func (b *builder) sel() string {
	if b.v.Long {
		return together(b.o.Selected)
	}
	return b.o.Selected
}

// role is the colour of a verdict.
func (v verdict) role() Role {
	switch {
	case v.worst == nil:
		return UnknownMark
	case v.worst.Verdict() == check.Beyond:
		return BeyondMark
	}
	return WithinMark
}

// freeMark is the first free place for the mark of a part: one of its own
// places, or a step beside the first.
func (b *builder) freeMark(s spot) (geom.Vec, bool) {
	const step = 3.6 // mm
	tries := append([]geom.Vec{s.at}, s.also...)
	for _, d := range []geom.Vec{{0, 1}, {0, -1}, {1, 0}, {-1, 0}, {0, 2}, {0, -2}, {2, 1}, {-2, 1}, {2, -1}, {-2, -1}} {
		tries = append(tries, s.at.Add(d.Mul(step*b.mm)))
	}
	for _, at := range tries {
		if b.at.free(markRoom(at, b.mm)) {
			return at, true
		}
	}
	return s.at, false
}

// markRoom is what a mark takes.
func markRoom(at geom.Vec, mm float64) obox {
	return newBox(at, 0, 1.25*markSize*mm, 1.25*markSize*mm)
}

// verdictMark draws the sign: a filled square beyond limits, an open circle
// within, a dashed diamond not checked.
func (b *builder) verdictMark(v verdict, c geom.Vec) {
	k := markSize * b.mm
	p := Path{Layer: Verdicts, Tag: "verdict:" + v.part, Closed: true, Fill: Paper, Stroke: v.role(), Width: wMid}
	shape := circle(c, k, 20)
	switch v.role() {
	case UnknownMark:
		p.Dash, shape = []float64{0.7, 0.5}, circle(c, 1.25*k, 4)
	case BeyondMark:
		p.Fill, shape = BeyondMark, geom.Polyline(geom.Rect{Min: c.Sub(geom.Vec{k, k}), Max: c.Add(geom.Vec{k, k})}.ToRing())
	}
	p.Parts = []geom.Polyline{shape}
	b.at.take(markRoom(c, b.mm))
	b.add(p)
}

// verdictText writes the words beside the mark, or with a leader.
func (b *builder) verdictText(v verdict, s spot) {
	l := label(Verdicts, "verdict:"+v.part, v.part+": "+v.words())
	l.Role, l.Bold = v.role(), v.role() == BeyondMark
	if b.beside(l, s) {
		return
	}
	short := l
	short.Text = v.words()
	if len(s.line) > 0 && b.beside(short, s) {
		return
	}
	b.callout(l, s.at, markSize+0.3)
}

// beside sets the text next to its mark where it covers no line.
func (b *builder) beside(l Label, s spot) bool {
	for _, h := range []float64{s.h, 1 - s.h} {
		l.Anchor = Anchor{H: h, V: 0.5}
		l.At = geom.Vec{s.at[0] + (1-2*h)*(markSize+1.2)*b.mm, s.at[1]}
		room := labelBox(&l, b.o.MMPerM, clearance)
		if b.at.crossed(room) == 0 && b.at.free(room) {
			b.keep(l)
			return true
		}
	}
	return false
}

// spots finds the places of the parts that the section shows.
func (b *builder) spots(vs []verdict) map[string]spot {
	out := map[string]spot{}
	if b.v.HasBox && b.v.Long {
		out = b.longSpots(vs)
	} else if b.v.HasBox {
		out = b.crossSpots(vs)
	}
	if b.v.CutHeight > 0 {
		s := spot{h: 1, line: []geom.Polyline{{b.v.Toe, b.v.Crest}}}
		for _, share := range []float64{0.35, 0.5, 0.2, 0.65, 0.8} {
			s.also = append(s.also, b.v.Toe.Add(b.v.Crest.Sub(b.v.Toe).Mul(share)))
		}
		s.at = s.also[0]
		out["cut face"] = s
	}
	return out
}

// ends are the faces of the box as lines.
func (b *builder) ends() (left, right, roof, floor []geom.Polyline) {
	c := rectBox(b.v.Box).corners()
	return []geom.Polyline{{c[0], c[3]}}, []geom.Polyline{{c[1], c[2]}}, []geom.Polyline{{c[3], c[2]}}, []geom.Polyline{{c[0], c[1]}}
}

// The list of verdicts under the roof, mm: distance of the rows (a line of
// text with its clearance), distance from roof and walls, and what is kept
// for the floor.
const (
	listPitch = 4.8
	listOff   = 2.8
	listFloor = 3.4
)

// listed is a place in the list: row i, at the left of the room (side -1) or
// its right (side 1).
func (b *builder) listed(side float64, i int) geom.Vec {
	in := b.inner()
	return geom.Vec{in.Center()[0] + side*(in.W()/2-listOff*b.mm), in.Max[1] - b.listTop() - listPitch*float64(i)*b.mm}
}

// listTop is how far the first row is below the roof sheet, m: clear of the
// corner castings.
func (b *builder) listTop() float64 {
	return max(listOff*b.mm, b.o.Shell.CastH-b.o.Shell.Roof+(1.25*markSize+0.3)*b.mm)
}

// row gives the parts of the list their rows. Where the room is too low for
// all, the worst are kept and the others reported.
func (b *builder) row(order []string, vs []verdict) map[string]int {
	most := 1 + int(((b.inner().H()-b.listTop())*b.o.MMPerM-listOff-listFloor)/listPitch)
	kept := map[string]bool{}
	for _, v := range vs { // the worst come first
		if !slices.Contains(order, v.part) {
			continue
		}
		if kept[v.part] = len(kept) < most; !kept[v.part] && b.show(Verdicts) {
			b.lost = append(b.lost, v.part+": "+v.words())
		}
	}
	out := map[string]int{}
	for _, part := range order {
		if kept[part] {
			out[part] = len(out)
		}
	}
	return out
}

// commonSpots are the places that both sections share.
func (b *builder) commonSpots() map[string]spot {
	box, in := b.v.Box, b.inner()
	_, _, _, floor := b.ends()
	return map[string]spot{
		"bottom rails": {at: geom.Vec{in.Min[0] + 0.45*in.W(), in.Min[1] + 3.2*b.mm}, line: floor},
		"pads":         {at: geom.Vec{box.Max[0] - 3*b.mm, (box.Min[1] + b.v.Formation) / 2}, line: floor},
	}
}

// longSpots are the places in the long section: what is seen behind the plane
// of the section is listed at the left of the room.
func (b *builder) longSpots(vs []verdict) map[string]spot {
	_, right, roof, _ := b.ends()
	out := b.commonSpots()
	for part, i := range b.row([]string{"roof", sideWalls, topRails, "box", "ribs", "wales"}, vs) {
		out[part] = spot{at: b.listed(-1, i)}
	}
	if s, ok := out["roof"]; ok {
		out["roof"] = spot{at: s.at, line: roof}
	}
	out["back header"] = spot{at: b.listed(1, 1), h: 1, line: roof}
	out["back wall"] = spot{at: b.listed(1, 3), h: 1, line: right}
	return out
}

// crossSpots are the places in the cross section, one to a row.
func (b *builder) crossSpots(vs []verdict) map[string]spot {
	left, right, roof, _ := b.ends()
	out := b.commonSpots()
	lines := map[string][]geom.Polyline{"roof": roof, "left top rail": left, "right top rail": right, "left side wall": left, "right side wall": right}
	order := []string{"roof", "left top rail", "right top rail", "left side wall", "right side wall", "box", "ribs", "wales"}
	for part, i := range b.row(order, vs) {
		side, h := -1.0, 0.0
		if part == "right top rail" || part == "right side wall" {
			side, h = 1, 1
		}
		out[part] = spot{at: b.listed(side, i), h: h, line: lines[part]}
	}
	return out
}
