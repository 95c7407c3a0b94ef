package scene

import (
	"math"

	"hillset/engine/section"
	"hillset/geom"
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

// heart is a point well inside a body: the middle of its largest level span
// by width and height together; room is the height there.
func (b *builder) heart(z *body) (geom.Vec, float64) {
	const lines = 9
	best, score, height := geom.Vec{}, -1.0, 0.0
	b.scan.load(z.Region, quarter)
	lo, hi := b.scan.lo, b.scan.hi
	for i := range lines * 3 {
		across := lo + (hi-lo)*(float64(i)+0.5)/(lines*3)
		h := b.scan.cut(across)
		for j := 0; j+1 < len(h); j += 2 {
			tall := h[j+1] - h[j]
			x := -across
			edge := math.Min(x-b.land.Min[0], b.land.Max[0]-x)
			s := math.Min(tall, 2*edge)
			if s > score {
				best, score, height = geom.Vec{x, (h[j] + h[j+1]) / 2}, s, tall
			}
		}
	}
	return best, height
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
	costLine   = 7.0 // per line that the text covers
	costCross  = 2.0 // per line that the leader crosses
	costEarth  = 9.0 // text over earth instead of in the air
	costUneven = 1.5 // leader that is nearly level or upright
)

// callout places a text near a target with a leader: the cheapest of rings of
// places round it. gap keeps the leader off the sign at the target, mm.
func (b *builder) callout(l Label, target geom.Vec, gap float64) bool {
	if !b.show(l.Layer) || !b.at.win.Contains(target) {
		return true
	}
	best, lead, low := l, geom.Segment{}, math.Inf(1)
	for _, r := range []float64{5, 8, 11, 15, 20, 26, 33, 41, 50, 60, 72, 86, 102} {
		if r >= low {
			break
		}
		for k := range 20 {
			a := math.Pi/2 + math.Pi/10*float64((k+1)/2)*float64(1-2*(k%2))
			if c, s, ok := b.tryCallout(&l, target, r, a, gap, low); ok {
				best, lead, low = l, s, c
			}
		}
	}
	if math.IsInf(low, 1) {
		b.lost = append(b.lost, l.Text)
		return false
	}
	b.leader(l.Layer, lead, gap == 0)
	b.keep(best)
	return true
}

// tryCallout sets l at distance r mm in direction a and gives its cost, when
// that place is free and cheaper than limit.
func (b *builder) tryCallout(l *Label, target geom.Vec, r, a, gap, limit float64) (float64, geom.Segment, bool) {
	sin, cos := math.Sincos(a)
	at := target.Add(geom.Vec{cos * r * b.mm, sin * r * b.mm})
	try := *l
	try.At = at
	try.Anchor = Anchor{H: 0.5 - 0.5*sign3(cos), V: 0.5}
	if try.Anchor.H == 0.5 {
		try.Anchor.V = 0.5 - 0.5*sign3(sin)
	}
	room := labelBox(&try, b.o.MMPerM, clearance)
	end := at.Sub(geom.Vec{sign3(cos) * 0.8 * b.mm, 0})
	lead := geom.Segment{A: target.Add(geom.Vec{cos, sin}.Mul(gap * b.mm)), B: end}
	cost := r
	if !b.inAir(room) {
		cost += costEarth
	}
	if math.Abs(cos) < 0.2 || math.Abs(sin) < 0.2 {
		cost += costUneven
	}
	if cost >= limit || !b.at.free(room) || !b.at.clearPath(lead) {
		return 0, lead, false
	}
	cost += costLine*float64(b.at.crossed(room)) + costCross*float64(b.at.linesAlong(lead))
	if cost >= limit {
		return 0, lead, false
	}
	l.At, l.Anchor = try.At, try.Anchor
	return cost, lead, true
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
