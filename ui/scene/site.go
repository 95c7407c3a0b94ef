package scene

import (
	"math"

	"hillset/geom"
)

// rockLine draws where rock was met or is taken to lie, where it is not dug
// away: a heavy line with small wedges below.
func (b *builder) rockLine() {
	line := b.rock()
	if len(line) < 2 || !b.show(Ground) {
		return
	}
	_, under := splitGround(line, b.v.CutLine)
	if top := geom.Lower(line, b.v.CutLine); len(top) > 1 {
		under, _ = splitGround(line, top)
	}
	for _, p := range b.inLand(under) {
		b.at.chain(p)
		b.add(Path{Layer: Ground, Tag: "rock", Parts: []geom.Polyline{p}, Stroke: Ink, Width: wHeavy})
		b.wedges(p)
	}
}

// rock is the rock line of this section; across the slope it falls as the
// ground does.
func (b *builder) rock() geom.Polyline {
	p := b.project()
	if p == nil || len(p.Site.Rock) < 2 {
		return nil
	}
	line := geom.Polyline(p.Site.Rock)
	if b.v.Long {
		return line
	}
	z, ok := line.At(b.v.Station)
	if !ok {
		return nil
	}
	from, to := b.v.Ground[0][0], b.v.Ground[len(b.v.Ground)-1][0]
	return geom.Polyline{{from, z + p.Site.CrossSlope*from}, {to, z + p.Site.CrossSlope*to}}
}

// wedges hang under a rock line.
func (b *builder) wedges(line geom.Polyline) {
	const every, half, deep = 5.0, 0.9, 1.8 // mm
	path := Path{Layer: Ground, Tag: "rock:ticks", Stroke: Ink, Width: wNarrow}
	at := (math.Floor(line[0][0]/(every*b.mm)) + 0.5) * every * b.mm
	for ; at < line[len(line)-1][0]; at += every * b.mm {
		l, okL := line.At(at - half*b.mm)
		r, okR := line.At(at + half*b.mm)
		tip := geom.Vec{at, (l+r)/2 - deep*b.mm}
		if okL && okR && b.land.Contains(tip) {
			path.Parts = append(path.Parts, b.ink.chain(geom.Vec{at - half*b.mm, l}, tip, geom.Vec{at + half*b.mm, r}))
		}
	}
	b.add(path)
}

// rockCallout names the longest piece of the rock line that is seen.
func (b *builder) rockCallout() {
	var best geom.Polyline
	for _, p := range b.paths {
		if p.Tag == "rock" && (best == nil || p.Parts[0].Bounds().W() > best.Bounds().W()) {
			best = p.Parts[0]
		}
	}
	if best == nil {
		return
	}
	x := best.Bounds().Center()[0]
	if z, ok := best.At(x); ok {
		b.callout(label(Callouts, "name:rock", "rock"), geom.Vec{x, z}, 0)
	}
}
