package scene

import (
	"math"

	"hillset/engine/model"
	"hillset/geom"
)

// waterRuns are the stretches of the level that is taken to stand at this
// stage.
func (b *builder) waterRuns() []geom.Polyline {
	if z := b.v.Water; b.show(Water) && !math.IsNaN(z) && z > b.land.Min[1] && z < b.land.Max[1] {
		return b.underGround(z)
	}
	return nil
}

// water draws the level: through the ground, from surface to surface, up to
// the walls of the box.
func (b *builder) water() {
	for _, p := range b.waterRuns() {
		b.stroke(Water, "water", WaterLine, wMid, dashChain, p[0], p[1])
	}
}

// waterText names the level on its longest stretch.
func (b *builder) waterText() {
	var longest geom.Polyline
	for _, p := range b.waterRuns() {
		if longest == nil || p[1][0]-p[0][0] > longest[1][0]-longest[0][0] {
			longest = p
		}
	}
	if longest == nil {
		return
	}
	z := b.v.Water
	const narrow = 110.0 // mm: in a smaller window the stage says which level
	text := "water " + b.level(z)
	switch wide := b.at.win.W() >= narrow*b.mm; {
	case wide && b.v.Stage.Water == model.WaterHigh:
		text += " (design high)"
	case wide && b.v.Stage.Water == model.WaterSeasonal:
		text += " (seasonal)"
	}
	l := label(Water, "water", text)
	l.Role = WaterLine
	from, to := longest[0][0], longest[1][0]
	for _, share := range []float64{0.9, 0.7, 0.5, 0.3, 0.1} {
		at := geom.Vec{from + share*(to-from), z}
		if !b.at.free(waterRoom(at, b.mm)) {
			continue
		}
		l.Anchor = Anchor{H: share, V: 0}
		up := geom.Vec{at[0] + (0.5-share)*8*b.mm, z + 4*b.mm}
		if !b.put(l, up, up.Add(geom.Vec{0, 5 * b.mm}), geom.Vec{at[0], z - 7*b.mm}) {
			continue
		}
		b.waterSign(at)
		return
	}
	at := geom.Vec{(from + to) / 2, z}
	if b.at.free(waterRoom(at, b.mm)) {
		b.waterSign(at)
	}
	b.callout(l, at, 2.8)
}

// observations marks what was seen of the water, and the bench mark.
func (b *builder) observations() {
	p := b.project()
	if !b.v.Long || p == nil {
		return
	}
	if bm := p.Site.Benchmark; b.show(Levels) && bm.Description != "" {
		b.mark("benchmark", "bench mark", bm.Pos, false, false)
	}
	if !b.show(Water) {
		return
	}
	for _, w := range p.Site.Water.Observed {
		b.observed(w)
	}
}

// underGround gives the stretches at level z that lie in earth.
func (b *builder) underGround(z float64) []geom.Polyline {
	xs := []float64{b.land.Min[0], b.land.Max[0]}
	f := b.v.Finish
	for i := 1; i < len(f); i++ {
		if x, ok := meets(f[i-1], f[i], geom.Vec{b.land.Min[0], z}, geom.Vec{b.land.Max[0], z}); ok {
			xs = append(xs, x)
		}
	}
	if b.v.HasBox {
		xs = append(xs, b.v.Box.Min[0], b.v.Box.Max[0])
	}
	return b.runs(xs, func(mid float64) bool {
		top, ok := f.At(mid)
		at := geom.Vec{mid, z}
		return ok && top > z && !(b.v.HasBox && b.v.Box.Contains(at))
	}, z)
}

// runs joins the stretches between the places xs whose middles pass.
func (b *builder) runs(xs []float64, pass func(mid float64) bool, z float64) []geom.Polyline {
	sortFloats(xs)
	var out []geom.Polyline
	for i := 1; i < len(xs); i++ {
		if xs[i]-xs[i-1] < geom.TolTouch || xs[i-1] < b.land.Min[0] || xs[i] > b.land.Max[0] || !pass((xs[i]+xs[i-1])/2) {
			continue
		}
		if n := len(out); n > 0 && math.Abs(out[n-1][1][0]-xs[i-1]) < geom.TolTouch {
			out[n-1][1][0] = xs[i]
			continue
		}
		out = append(out, geom.Polyline{{xs[i-1], z}, {xs[i], z}})
	}
	return out
}

// waterSign is the inverted triangle on the line with three strokes below.
func (b *builder) waterSign(at geom.Vec) {
	w, h := 1.5*b.mm, 2.6*b.mm
	b.sign(Path{Layer: Water, Tag: "water:sign", Closed: true, Fill: Paper, Stroke: WaterLine, Width: wMid,
		Parts: []geom.Polyline{{at, at.Add(geom.Vec{w, h}), at.Add(geom.Vec{-w, h})}}})
	p := Path{Layer: Water, Tag: "water:sign", Stroke: WaterLine, Width: wNarrow}
	for i, half := range []float64{1.6, 1.0, 0.5} {
		y := at[1] - (0.8+0.8*float64(i))*b.mm
		p.Parts = append(p.Parts, b.ink.chain(geom.Vec{at[0] - half*b.mm, y}, geom.Vec{at[0] + half*b.mm, y}))
	}
	b.sign(p)
	b.at.take(waterRoom(at, b.mm))
}

// waterRoom is what the sign of a water level takes.
func waterRoom(at geom.Vec, mm float64) obox {
	return rectBox(geom.Rect{Min: at.Sub(geom.Vec{1.5 * mm, 2.6 * mm}), Max: at.Add(geom.Vec{1.5 * mm, 2.6 * mm})})
}

// observed marks one measured level with its season, unless the box stands
// there by now.
func (b *builder) observed(w model.WaterPoint) {
	if !b.seen(w.Pos) || !b.land.Contains(w.Pos) || b.v.HasBox && b.v.Box.Contains(w.Pos) {
		return
	}
	b.waterSign(w.Pos)
	text := "observed " + b.level(w.Pos[1])
	if w.Season != "" {
		text += ", " + w.Season
	}
	text += b.missOf(w)
	l := label(Water, "water:observed", text)
	l.Role = WaterLine
	b.callout(l, w.Pos, 2.4)
}
