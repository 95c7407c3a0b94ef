package scene

import (
	"math"

	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/face"
)

// callouts names every material: inside it where the name fits, else beside
// it with a leader.
func (b *builder) callouts() {
	if !b.show(Callouts) {
		return
	}
	for i := range b.mats {
		z := &b.mats[i]
		l := label(Callouts, "name:"+string(z.Kind), b.nameOf(z))
		if z.layer == Ground {
			l.Height = 3
		}
		at, room := b.heart(z)
		if room > 3*hNote*b.mm && b.inside(l, z, at) {
			continue
		}
		b.callout(l, at, 0)
	}
	b.rockCallout()
	b.wingCallout()
	b.skinCallouts()
	b.outletCallout()
}

// nameOf is the name of a material with its soil class.
func (b *builder) nameOf(z *body) string {
	name, class := z.Name, ""
	if z.Soil != "" && b.o.Soils != nil {
		if s, ok := b.o.Soils(z.Soil); ok {
			name, class = s.Name, s.USCS
		}
	}
	if name == "" {
		name = string(z.Kind)
	}
	switch z.Kind {
	case section.Backfill:
		name = "backfill: " + name
	case section.Rock:
		name = "drain rock: " + name
	case section.Bed:
		name = "bed: " + name
	case section.Cap:
		name = "cap: " + name
	}
	if class != "" && class == upper(class) {
		name += " (" + class + ")"
	}
	return name
}

// upper tells group symbols, which are capitals, from names of materials.
func upper(s string) string {
	out := []byte(s)
	for i, c := range out {
		if c >= 'a' && c <= 'z' {
			out[i] = c - 'a' + 'A'
		}
	}
	return string(out)
}

// heart is a point well inside a body, the middle of a place that is both
// tall and wide; room is the height there.
func (b *builder) heart(z *body) (at geom.Vec, room float64) {
	const lines = 24
	score := -1.0
	b.scan.load(z.Region, quarter)
	b.upright.load(z.Region, 0)
	lo, hi := b.scan.lo, b.scan.hi
	for i := range lines {
		across := lo + (hi-lo)*(float64(i)+0.5)/lines
		h := b.scan.cut(across)
		for j := 0; j+1 < len(h); j += 2 {
			mid, tall := geom.Vec{-across, (h[j] + h[j+1]) / 2}, h[j+1]-h[j]
			from, to, ok := spanAt(b.upright.cut(mid[1]), mid[0])
			if !ok {
				continue
			}
			if s := min(tall, (to-from)/2.5) + 0.02*tall; s > score {
				at, score, room = geom.Vec{(from + to) / 2, mid[1]}, s, tall
			}
		}
	}
	return at, room
}

// spanAt is the interval that holds x.
func spanAt(h []float64, x float64) (from, to float64, ok bool) {
	for j := 0; j+1 < len(h); j += 2 {
		if h[j] <= x && x <= h[j+1] {
			return h[j], h[j+1], true
		}
	}
	return 0, 0, false
}

// inside tries to set a name within its material near a point.
func (b *builder) inside(l Label, z *body, at geom.Vec) bool {
	l.Anchor = Anchor{H: 0.5, V: 0.5}
	var spots []geom.Vec
	for _, dx := range []float64{0, 10, -10, 20, -20, 35, -35} {
		for _, dz := range []float64{0, 4, -4, 8, -8} {
			spots = append(spots, at.Add(geom.Vec{dx * b.mm, dz * b.mm}))
		}
	}
	best, fewest := -1, 0
	for i, s := range spots {
		l.At = s
		room := labelBox(&l, b.o.MMPerM, clearance)
		if !holds(z.Region, room) || !b.at.free(room) {
			continue
		}
		n := b.at.crossed(room)
		if best < 0 || n < fewest {
			best, fewest = i, n
		}
		if n == 0 {
			break
		}
	}
	if best < 0 || fewest > 1 {
		return false
	}
	return b.put(l, spots[best])
}

// holds tells whether the corners and the middle of a box lie in a region.
func holds(r geom.Region, o obox) bool {
	for _, c := range o.corners() {
		if !r.Contains(c) {
			return false
		}
	}
	return r.Contains(o.c)
}

// Costs of a place for a text with leader, in mm of leader.
const (
	costLine   = 7.0  // per line that the text covers
	costCross  = 2.0  // per line that the leader crosses
	costEarth  = 9.0  // text over earth instead of in the air
	costLeader = 14.0 // per leader that the leader crosses
	costRoom   = 60.0 // over the box, unless it is a verdict
	costArea   = 10.0 // over a pressure diagram
	costSpot   = 30.0 // over a place to be kept clear
	costUneven = 1.5  // leader that is nearly level or upright
	costInside = 20.0 // leader through the box or along its walls
)

// ringsAt are the distances at which a place for a text is sought, mm.
var ringsAt = []float64{5, 8, 11, 15, 20, 26, 33, 41, 50, 60}

// costMost is where a place is worth less than none: a leader across half the
// sheet hides more than it tells.
const costMost = 75.0

// wish is a text that looks for a place beside its target.
type wish struct {
	l      Label
	target geom.Vec
	gap    float64 // the leader starts this far from the target, mm
	found  bool
	cost   float64 // of the best place so far
	lead   geom.Segment
	best   Label
	width  float64 // of the text, mm
}

// callout places a text near a target with a leader: the cheapest of rings of
// places round it, or of the slots along the sides of the window. gap keeps
// the leader off the sign at the target, mm.
func (b *builder) callout(l Label, target geom.Vec, gap float64) bool {
	return b.calloutAny(l, gap, target)
}

// calloutAny is callout to whichever of the targets is reached best.
func (b *builder) calloutAny(l Label, gap float64, targets ...geom.Vec) bool {
	if !b.show(l.Layer) {
		return true
	}
	l.Text, _ = face.Clean(l.Text)
	w := wish{l: l, gap: gap, cost: costMost, width: face.Width(l.Text, l.Height, l.Bold)}
	seen := false
	for _, t := range targets {
		if b.seen(t) {
			seen = true
			w.target = t
			b.rings(&w)
			b.slots(&w)
		}
	}
	if !w.found {
		if seen {
			b.lost = append(b.lost, l.Text)
		}
		return !seen
	}
	b.leader(l.Layer, w.lead, gap == 0)
	b.keep(w.best)
	return true
}

// rings tries the places round the target, the nearest first.
func (b *builder) rings(w *wish) {
	for _, r := range ringsAt {
		if r >= w.cost {
			break
		}
		for k := range 24 {
			a := math.Pi/2 + math.Pi/12*float64((k+1)/2)*float64(1-2*(k%2))
			sin, cos := math.Sincos(a)
			h := Anchor{H: 0.5 - 0.5*sign3(cos), V: 0.5}
			if h.H == 0.5 {
				h.V = 0.5 - 0.5*sign3(sin)
			}
			b.try(w, w.target.Add(geom.Vec{cos * r * b.mm, sin * r * b.mm}), h)
		}
	}
}

// slots tries the lists of places at both sides of the window, for drawings
// so small or so full that nothing is free near by.
func (b *builder) slots(w *wish) {
	const pitch = 4.6 // mm
	win := b.at.win
	for _, h := range []float64{0, 1} {
		x := win.Min[0] + inset*b.mm
		if h == 1 {
			x = win.Max[0] - inset*b.mm
		}
		for z := win.Max[1] - inset*b.mm; z > win.Min[1]; z -= pitch * b.mm {
			at := geom.Vec{x, z}
			if at.Sub(w.target).Len()*b.o.MMPerM*0.5 > w.cost {
				continue
			}
			b.try(w, at, Anchor{H: h, V: 0.5})
		}
	}
}

// try gives the text of a wish the place at with anchor a, when that place is
// free and cheaper than the best so far.
func (b *builder) try(w *wish, at geom.Vec, a Anchor) {
	w.l.At, w.l.Anchor = at, a
	room := boxOfWidth(&w.l, w.width, b.o.MMPerM, clearance)
	end := at
	switch { // the leader meets the text at the side that faces the target
	case a.H == 0.5:
	case w.target[0] < room.around.Min[0]:
		end = geom.Vec{room.around.Min[0], room.c[1]}
	case w.target[0] > room.around.Max[0]:
		end = geom.Vec{room.around.Max[0], room.c[1]}
	default:
		return
	}
	way, ok := geom.Unit(end.Sub(w.target))
	if !ok {
		return
	}
	// The costs in the order of their price, to leave off as soon as a better
	// place is known.
	cost := end.Sub(w.target).Len() * b.o.MMPerM
	if math.Abs(way[0]) < 0.2 || math.Abs(way[1]) < 0.2 {
		cost += costUneven
	}
	if cost >= w.cost {
		return
	}
	if cost += b.roomCost(w.l.Layer, room); cost >= w.cost || !b.at.free(room) {
		return
	}
	lead := geom.Segment{A: w.target.Add(way.Mul(w.gap * b.mm)), B: end}
	if w.l.Layer != Verdicts && b.v.HasBox && b.alongBox(lead) {
		cost += costInside
	}
	if cost += costLine * float64(b.at.crossed(room)); cost >= w.cost || !b.at.clearPath(lead) {
		return
	}
	cost += costCross*float64(b.at.linesAlong(lead)) + costLeader*float64(b.at.leadersAcross(lead))
	if cost < w.cost {
		w.found, w.cost, w.lead, w.best = true, cost, lead, w.l
	}
}

// roomCost is what the ground under a text costs.
func (b *builder) roomCost(layer Layer, room obox) float64 {
	cost := costArea*float64(count(b.at.areas, room)) + costSpot*float64(count(b.at.spots, room))
	if !b.inAir(room) {
		cost += costEarth
	}
	if layer != Verdicts && b.v.HasBox && !apart(b.v.Box, room.around) {
		cost += costRoom
	}
	return cost
}

// alongBox tells whether a leader runs through the box or on its walls.
func (b *builder) alongBox(lead geom.Segment) bool {
	const wall, most = 0.5, 4.0 // mm
	in, ok := clipSegment(lead, b.v.Box.Expand(wall*b.mm))
	return ok && in.B.Sub(in.A).Len() > most*b.mm
}

// sign3 is -1, 0 or 1; nearly upright counts as 0.
func sign3(v float64) float64 {
	switch {
	case v > 0.25:
		return 1
	case v < -0.25:
		return -1
	}
	return 0
}

// inAir tells whether a box stands wholly above the surface and off the box.
func (b *builder) inAir(o obox) bool {
	for _, x := range []float64{o.around.Min[0], o.c[0], o.around.Max[0]} {
		if z, ok := b.v.Finish.At(x); ok && z > o.around.Min[1] && o.around.Max[1] > b.land.Min[1] {
			return false
		}
	}
	return true
}

// leader draws the line, with a dot where it starts in a material.
func (b *builder) leader(layer Layer, s geom.Segment, dot bool) {
	b.at.leaders = append(b.at.leaders, s)
	b.add(Path{Layer: layer, Tag: "leader", Parts: []geom.Polyline{b.ink.chain(s.A, s.B)}, Stroke: Thin, Width: wThin})
	if dot {
		b.add(Path{Layer: layer, Tag: "leader:dot", Parts: []geom.Polyline{circle(s.A, 0.5*b.mm, 10)}, Closed: true, Fill: Thin})
	}
}
