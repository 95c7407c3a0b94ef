package scene

import (
	"math"
	"slices"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/water"
	"hillset/geom"
)

// pipes are the drain pipes in this section: at the foot of the drain rock,
// and uphill in a trench of its own.
func (b *builder) pipes() []section.Pipe {
	p := b.project()
	if p == nil {
		return nil
	}
	return append(b.v.Pipes(p), b.v.Interceptor(p)...)
}

// trenches are the stone round the pipes, of the same make as the drain rock.
func (b *builder) trenches() []section.Zone {
	ps := b.pipes()
	if len(ps) == 0 {
		return nil
	}
	z := section.Zone{Kind: section.Rock, Soil: b.project().Fill.RockSoil, Name: "drain rock"}
	if i := slices.IndexFunc(b.v.Fill, func(o section.Zone) bool { return o.Kind == section.Rock }); i >= 0 {
		z.Name, z.Soil, z.Hatch = b.v.Fill[i].Name, b.v.Fill[i].Soil, b.v.Fill[i].Hatch
	}
	out := make([]section.Zone, len(ps))
	for i, p := range ps {
		out[i] = z
		out[i].Region = water.Trench(b.v, p).ToRegion()
	}
	return out
}

// drain draws the pipes, and how far up the trench of one uphill is filled.
func (b *builder) drain() {
	if !b.show(Fills) {
		return
	}
	for _, p := range b.pipes() {
		r := b.pipeRadius(p)
		if p.Top > 0 {
			b.filledTrench(water.Trench(b.v, p))
		}
		if !b.land.Contains(p.At) {
			continue
		}
		b.at.areas = append(b.at.areas, newBox(p.At, 0, r, r))
		b.sign(Path{Layer: Fills, Tag: "drain", Parts: []geom.Polyline{circle(p.At, r, 16)}, Closed: true, Fill: Paper, Stroke: Ink, Width: wNarrow})
	}
}

// pipeRadius is that of a pipe, or the least that can still be seen.
func (b *builder) pipeRadius(p section.Pipe) float64 {
	const least = 0.7 // mm
	return max(p.Bore/2, least*b.mm)
}

// filledTrench draws the walls of a trench over its stone up to the ground:
// soil put back.
func (b *builder) filledTrench(stone geom.Rect) {
	path := Path{Layer: Fills, Tag: "trench", Stroke: HatchFill, Width: wNarrow, Dash: dashShort}
	for _, x := range [2]float64{stone.Min[0], stone.Max[0]} {
		top, ok := b.v.Ground.At(x)
		if !ok || top <= stone.Max[1] {
			continue
		}
		path.Parts = append(path.Parts, clipLine(geom.Polyline{{x, stone.Max[1]}, {x, top}}, b.land)...)
	}
	b.add(path)
}

// takes is what each pipe of the view takes by its name, m3/s per m of pipe;
// false where none is computed.
func (b *builder) takes(name string) (float64, bool) {
	of := func(s *water.State) (float64, bool) {
		i := slices.Index(s.Names, name)
		if i < 0 {
			return 0, false
		}
		return s.Sums.Drains[i], true
	}
	if b.wet == nil || b.wet.near == nil {
		return 0, false
	}
	q, ok := of(b.wet.near)
	if b.wet.beyond != nil {
		if r, also := of(b.wet.beyond); also {
			q += b.wet.share * (r - q)
		}
	}
	return q, ok
}

// drainTexts says what each drain takes and how high the water stands there,
// and what comes into the open pit.
func (b *builder) drainTexts() {
	if b.show(Fills) {
		for i, p := range b.pipes() {
			if b.land.Contains(p.At) {
				b.drainText(p, i)
			}
		}
	}
	b.pitText()
}

// drainText names one pipe; where nothing is computed, all in one.
func (b *builder) drainText(p section.Pipe, i int) {
	gap := b.pipeRadius(p)*b.o.MMPerM + 0.2
	q, computed := b.takes(p.Name)
	name := "drain"
	if p.Top > 0 {
		name = "interceptor"
	}
	if !computed || !b.show(Water) {
		if i == 0 || p.Top > 0 {
			text := name
			if pr := b.project(); pr == nil || !pr.Site.Water.Computed {
				text += ", not computed"
			}
			b.callout(label(Callouts, "name:drain", text), p.At, gap)
		}
		return
	}
	text := name + " takes " + b.write(q, quantity.Seep)
	switch {
	case b.v.Stage.Blocked:
		text = name + " blocked, takes nothing"
	case q < leastSeep:
		text = name + " dry, takes nothing"
	}
	if z, ok := b.wet.at(p.At[0]); ok && z > p.At[1]-p.Bore {
		text += ", water " + b.level(z)
	}
	l := label(Water, "water:drain", text)
	l.Role = WaterLine
	b.callout(l, p.At, gap)
}

// leastSeep is a seepage too small to be written, m2/s: 0.05 litres an hour per
// metre would read 0.1.
const leastSeep = 0.05e-3 / 3600

// pitText says what comes into the open cut.
func (b *builder) pitText() {
	k := b.v.Stage.Kind
	if b.wet == nil || b.wet.near == nil || !b.show(Water) || k != model.StageCut && k != model.StageSet && k != model.StageBackfill {
		return
	}
	q := b.wet.near.Sums.Within
	if b.wet.beyond != nil {
		q += b.wet.share * (b.wet.beyond.Sums.Within - q)
	}
	text := "into the pit " + b.write(q, quantity.Seep)
	if q < leastSeep {
		text = "no water comes into the pit"
	}
	lo, hi, ok := b.formationEnds()
	if !ok {
		return
	}
	x := hi - math.Min(0.3, (hi-lo)/4)
	l := label(Water, "water:pit", text)
	l.Role = WaterLine
	b.callout(l, geom.Vec{x, b.v.Formation}, 0)
}
