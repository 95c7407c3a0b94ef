package scene

import (
	"math"
	"slices"

	"hillset/geom"
)

// spots finds the places of the parts that the section shows.
func (b *builder) spots(vs []verdict) map[string]spot {
	out := map[string]spot{}
	if b.v.HasBox && b.v.Long {
		out = b.longSpots(vs)
	} else if b.v.HasBox {
		out = b.crossSpots(vs)
	}
	if b.v.HasBox {
		b.addedSpots(out)
		b.wingSpots(out)
	}
	b.cutSpots(out)
	b.slipSpots(out)
	return out
}

// ends are the faces of the box as lines.
func (b *builder) ends() (left, right, roof, floor []geom.Polyline) {
	c := rectBox(b.v.Box).corners()
	return []geom.Polyline{{c[0], c[3]}}, []geom.Polyline{{c[1], c[2]}}, []geom.Polyline{{c[3], c[2]}}, []geom.Polyline{{c[0], c[1]}}
}

// The list of verdicts under the roof, mm: distance of the rows (a line of
// text with its clearance) and distance from roof and walls.
const (
	listPitch = 4.8
	listOff   = 2.8
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

// rowsOf gives the parts of the list that are there their rows, from the top.
func rowsOf(order []string, vs []verdict) map[string]int {
	out := map[string]int{}
	for _, part := range order {
		if slices.ContainsFunc(vs, func(v verdict) bool { return v.part == part }) {
			out[part] = len(out)
		}
	}
	return out
}

// within is a place in the room by its shares of width and height.
func (b *builder) within(x, z float64) geom.Vec {
	in := b.inner()
	pad := (1.25*markSize + 0.4) * b.mm
	in = in.Expand(-math.Min(pad, math.Min(in.W(), in.H())/2))
	return geom.Vec{in.Min[0] + x*in.W(), in.Min[1] + z*in.H()}
}

// commonSpots are the places that both sections share.
func (b *builder) commonSpots() map[string]spot {
	box, in := b.v.Box, b.inner()
	_, _, _, floor := b.ends()
	return map[string]spot{
		"bottom rails": {at: geom.Vec{in.Min[0] + 0.45*in.W(), in.Min[1] + 3.2*b.mm}, line: floor},
		"rock bed":     {at: geom.Vec{box.Min[0] + 3*b.mm, (box.Min[1] + b.v.Formation) / 2}, line: floor},
		"pads":         {at: geom.Vec{box.Max[0] - 3*b.mm, (box.Min[1] + b.v.Formation) / 2}, line: floor},
	}
}

// hiddenSpots are the places of what lies under and beside the box, in the long
// section alone: the cross section is full there.
func (b *builder) hiddenSpots(out map[string]spot) {
	box := b.v.Box
	_, _, _, floor := b.ends()
	for part, s := range map[string]spot{
		"concrete of the pads": {at: geom.Vec{box.Min[0] + 0.3*box.W(), (box.Min[1] + b.v.Formation) / 2}, line: floor},
		"corner castings":      {at: geom.Vec{box.Min[0] + b.o.Shell.CastH/2, box.Min[1] + b.o.Shell.CastH/2}},
		"gap beside the box":   {at: geom.Vec{box.Max[0] + b.gapBeside()/2, box.Min[1] + 0.35*box.H()}},
	} {
		out[part] = s
	}
}

// gapBeside is the width of the gap between the box and the foot of the cut behind
// it, m; 0 where nothing is cut.
func (b *builder) gapBeside() float64 {
	if !(b.v.CutHeight > 0) {
		return 0
	}
	return math.Max(0, b.v.Toe[0]-b.v.Box.Max[0])
}

// longSpots are the places in the long section: what is seen behind the plane
// of the section is listed at the left of the room.
func (b *builder) longSpots(vs []verdict) map[string]spot {
	_, right, roof, _ := b.ends()
	out := b.commonSpots()
	b.hiddenSpots(out)
	if b.roomy() {
		for part, i := range rowsOf([]string{"roof", sideWalls, topRails, "box", "ribs", "wales", insideSteel}, vs) {
			out[part] = spot{at: b.listed(-1, i)}
		}
		out["back header"] = spot{at: b.listed(1, 1), h: 1}
		out["back wall"] = spot{at: b.listed(1, 3), h: 1}
	} else {
		for part, at := range map[string]geom.Vec{"roof": {0.5, 1}, topRails: {0.25, 1}, "box": {0.4, 0.5}, sideWalls: {0.15, 0.5},
			"ribs": {0.65, 0.5}, "wales": {0.65, 0.15}, "back header": {0.85, 1}, "back wall": {1, 0.5}, insideSteel: {0.4, 0.15}} {
			out[part] = spot{at: b.within(at[0], at[1])}
		}
	}
	for part, line := range map[string][]geom.Polyline{"roof": roof, "back header": roof, "back wall": right} {
		if s, ok := out[part]; ok {
			s.line = line
			out[part] = s
		}
	}
	return out
}

// crossSpots are the places in the cross section, one to a row where the words
// stand beside them.
func (b *builder) crossSpots(vs []verdict) map[string]spot {
	left, right, roof, _ := b.ends()
	out := b.commonSpots()
	lines := map[string][]geom.Polyline{"roof": roof, "left top rail": left, "right top rail": right, "left side wall": left, "right side wall": right}
	if !b.roomy() {
		for part, at := range map[string]geom.Vec{"roof": {0.5, 1}, "left top rail": {0, 1}, "right top rail": {1, 1}, "left side wall": {0, 0.6},
			"right side wall": {1, 0.6}, "box": {0.5, 0.6}, "ribs": {0.25, 0.3}, insideSteel: {0.5, 0.15}, "wales": {0.75, 0.3}} {
			out[part] = spot{at: b.within(at[0], at[1]), line: lines[part]}
		}
		return out
	}
	order := []string{"roof", "left top rail", "right top rail", "left side wall", "right side wall", "box", "ribs", "wales", insideSteel}
	for part, i := range rowsOf(order, vs) {
		side, h := -1.0, 0.0
		if part == "right top rail" || part == "right side wall" {
			side, h = 1, 1
		}
		out[part] = spot{at: b.listed(side, i), h: h, line: lines[part]}
	}
	return out
}
