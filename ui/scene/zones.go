package scene

import (
	"math"
	"slices"

	"hillset/engine/section"
	"hillset/geom"
)

// maxHatch caps the segments of all hatches of a scene, so that neither the
// screen nor the file drowns in them.
const maxHatch = 2000

// body is all the zones of one material, drawn and named as one.
type body struct {
	section.Zone
	layer Layer
	pat   *pattern
	area  float64 // mm² on paper that is seen
	thick float64 // mean thickness on paper, mm
}

// bodies gathers the zones of a list by material, and cuts them to the window.
func (b *builder) bodies(layer Layer, zones []section.Zone) []body {
	var out []body
	for _, z := range zones {
		i := slices.IndexFunc(out, func(o body) bool {
			return o.Kind == z.Kind && o.Soil == z.Soil && o.Name == z.Name && o.Hatch == z.Hatch
		})
		if i < 0 {
			i = len(out)
			out = append(out, body{Zone: section.Zone{Kind: z.Kind, Name: z.Name, Soil: z.Soil, Hatch: z.Hatch}, layer: layer})
		}
		out[i].Region = append(out[i].Region, clipRegion(z.Region, b.land)...)
	}
	per := b.o.MMPerM
	for i := range out {
		o := &out[i]
		o.pat = hatchOf(&o.Zone)
		rim := 0.0
		for _, p := range o.Region {
			o.area += p.Area() * per * per
			rim += p.Outer.Length() * per
		}
		if rim > 0 {
			o.thick = 2 * o.area / rim
		}
	}
	return slices.DeleteFunc(out, func(o body) bool { return o.area <= 0 })
}

// all are the bodies in drawing order.
func (b *builder) all() []body {
	var out []body
	if b.show(Ground) {
		out = append(out, b.bodies(Ground, b.v.Strata)...)
	}
	if b.show(Fills) {
		out = append(out, b.bodies(Fills, slices.Concat(b.v.Fill, b.trenches()))...)
		out = append(out, b.bodies(Fills, b.v.Bedding)...)
		out = append(out, b.bodies(Fills, b.outsideZones())...)
	}
	return out
}

// zones draws the materials: ground colour, hatch, outline.
func (b *builder) zones() {
	b.mats = b.all()
	spread := b.spread()
	for i := range b.mats {
		z := &b.mats[i]
		b.tint(z)
		b.hatch(z, spread[z.layer])
	}
	for i := range b.mats {
		b.rim(&b.mats[i])
	}
}

// spread is how far the rows of each layer are pulled apart to keep the cap.
// What is built keeps its hatch as long as possible; the ground gives way.
func (b *builder) spread() map[Layer]float64 {
	cost := map[Layer]float64{}
	for i := range b.mats {
		cost[b.mats[i].layer] += b.mats[i].cost()
	}
	const most, built = 0.92 * maxHatch, 0.6 * maxHatch
	fills := math.Max(1, cost[Fills]/built)
	ground := math.Max(1, cost[Ground]/(most-math.Min(cost[Fills], built)))
	return map[Layer]float64{Fills: stepped(math.Sqrt(fills)), Ground: stepped(math.Sqrt(ground))}
}

// stepped goes up to the next half power of two, so that a hatch does not swim
// while the window moves.
func stepped(v float64) float64 { return math.Exp2(math.Ceil(2*math.Log2(v)) / 2) }

func (z *body) tag() string { return "zone:" + string(z.Kind) + ":" + z.Name }

// shrink is how much smaller the signs are drawn in a thin body.
// They are let out of their rows so far that each level of a thin body still
// meets one row.
func (z *body) shrink() float64 {
	const least = 0.3
	return min(1, max(least, z.thick/(z.pat.row+2*z.pat.tall())))
}

// cost estimates the hatch segments of the body.
func (z *body) cost() float64 {
	n := 0
	for _, s := range z.pat.signs {
		n += s.cost
	}
	k := z.shrink()
	return z.area / (z.pat.row * z.pat.step * k * k) * float64(n) / float64(len(z.pat.signs))
}

func (b *builder) tint(z *body) {
	p := Path{Layer: z.layer, Tag: z.tag(), Closed: true, Fill: z.pat.tint}
	for _, poly := range z.Region {
		p.Parts = append(p.Parts, geom.Polyline(poly.Outer))
		for _, h := range poly.Holes {
			p.Parts = append(p.Parts, geom.Polyline(h))
		}
	}
	b.add(p)
}

// hatch lays the signs of a body. Rows stand at whole multiples of their
// distance, so that a hatch does not swim when an edge is dragged.
func (b *builder) hatch(z *body, spread float64) {
	const thinnest = 0.8 // mm: below this a body keeps only its colour and outline
	if z.thick < thinnest {
		return
	}
	k := z.shrink()
	row, step := z.pat.row*k*spread*b.mm, z.pat.step*k*spread*b.mm
	tall := z.pat.tall()
	b.scan.load(z.Region, 0)
	path := Path{Layer: z.layer, Tag: "hatch:" + z.Name, Stroke: z.pat.ink, Width: z.pat.width}
	first := int(math.Ceil(b.scan.lo / row))
	for i := first; float64(i)*row < b.scan.hi && b.left > 0; i++ {
		across := float64(i) * row
		b.spans = b.scan.within(b.spans, across, tall*k*b.mm)
		for j := 0; j+1 < len(b.spans); j += 2 {
			b.fillRow(&path, z.pat, i, across, b.spans[j], b.spans[j+1], step, k*b.mm)
		}
	}
	b.add(path)
}

// fillRow sets the signs of one row between two places along it.
func (b *builder) fillRow(path *Path, pat *pattern, i int, across, from, to, step, size float64) {
	shift := step / 2 * float64(i&1)
	for n := int(math.Floor((from - shift) / step)); b.left > 0; n++ {
		along := float64(n)*step + shift
		if along > to {
			return
		}
		along += pat.shake * step * stray(i, n)
		s := &pat.signs[mod(n+i, len(pat.signs))]
		if along-s.hw*size < from || along+s.hw*size > to {
			continue
		}
		b.left -= s.cost
		for _, p := range s.parts {
			c := b.ink.chain(p...)
			for q := range c {
				c[q] = geom.Vec{along + c[q][0]*size, across + c[q][1]*size}
			}
			path.Parts = append(path.Parts, c)
		}
	}
}

func mod(a, n int) int { return (a%n + n) % n }

// stray is a fixed pseudo-random number between -1 and 1 for a place in the
// grid (the finaliser of MurmurHash3), the same on every run and machine.
func stray(i, n int) float64 {
	h := uint32(int32(i))*0x85ebca6b ^ uint32(int32(n))*0xc2b2ae35
	h ^= h >> 16
	h *= 0x85ebca6b
	h ^= h >> 13
	h *= 0xc2b2ae35
	h ^= h >> 16
	return float64(h)/float64(math.MaxUint32)*2 - 1
}

// rim draws the outline of a body, but neither where the window cuts it nor
// where it only joins itself, nor along the ground, which is drawn on its own.
func (b *builder) rim(z *body) {
	width, role := wNarrow, HatchFill
	if z.layer == Ground {
		role = HatchSoil
	}
	if z.Hatch == "membrane" {
		width, role = wHeavy, Ink
	}
	parts := b.edges(z.Region)
	for _, p := range parts {
		b.at.chain(p)
	}
	b.add(Path{Layer: z.layer, Tag: "rim:" + z.Name, Parts: parts, Stroke: role, Width: width})
}

// upEdge is an upright edge, from low to high.
type upEdge struct{ x, lo, hi float64 }

// edges are the true outlines of a region made of slabs side by side: upright
// edges that two slabs share cancel.
func (b *builder) edges(r geom.Region) []geom.Polyline {
	var out []geom.Polyline
	var ups []upEdge
	for _, p := range r {
		out, ups = b.ringEdges(out, ups, p.Outer)
		for _, h := range p.Holes {
			out, ups = b.ringEdges(out, ups, h)
		}
	}
	slices.SortFunc(ups, func(a, c upEdge) int {
		switch {
		case a.x < c.x-geom.TolTouch:
			return -1
		case a.x > c.x+geom.TolTouch:
			return 1
		}
		return 0
	})
	for len(ups) > 0 {
		n := 1
		for n < len(ups) && ups[n].x-ups[0].x < geom.TolTouch {
			n++
		}
		out = b.odd(out, ups[:n])
		ups = ups[n:]
	}
	return out
}

// ringEdges sorts the edges of a ring into chains and upright edges, and
// leaves out those on the rim of the window.
func (b *builder) ringEdges(out []geom.Polyline, ups []upEdge, r geom.Ring) ([]geom.Polyline, []upEdge) {
	var run geom.Polyline
	flush := func() {
		if len(run) > 1 {
			out = append(out, run)
		}
		run = nil
	}
	for i, p := range r {
		q := r[(i+1)%len(r)]
		switch {
		case b.onRim(p, q):
			flush()
		case math.Abs(p[0]-q[0]) < geom.TolTouch:
			flush()
			ups = append(ups, upEdge{p[0], math.Min(p[1], q[1]), math.Max(p[1], q[1])})
		default:
			if run == nil {
				run = append(make(geom.Polyline, 0, 8), p)
			}
			run = append(run, q)
		}
	}
	flush()
	return out, ups
}

// onRim tells whether an edge lies on the rim of the drawn ground.
func (b *builder) onRim(p, q geom.Vec) bool {
	for axis := range 2 {
		for _, v := range [2]float64{b.land.Min[axis], b.land.Max[axis]} {
			if math.Abs(p[axis]-v) < geom.TolTouch && math.Abs(q[axis]-v) < geom.TolTouch {
				return true
			}
		}
	}
	return false
}

// odd keeps the stretches of upright edges at one x that an odd number covers.
func (b *builder) odd(out []geom.Polyline, ups []upEdge) []geom.Polyline {
	var cuts []float64
	for _, u := range ups {
		cuts = append(cuts, u.lo, u.hi)
	}
	slices.Sort(cuts)
	for i := 1; i < len(cuts); i++ {
		mid, n := (cuts[i-1]+cuts[i])/2, 0
		for _, u := range ups {
			if u.lo < mid && mid < u.hi {
				n++
			}
		}
		if n%2 == 1 && cuts[i]-cuts[i-1] > geom.TolTouch {
			out = append(out, b.ink.chain(geom.Vec{ups[0].x, cuts[i-1]}, geom.Vec{ups[0].x, cuts[i]}))
		}
	}
	return out
}
