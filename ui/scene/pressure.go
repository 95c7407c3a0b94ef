package scene

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/assess"
	"hillset/engine/earth"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/face"
	"hillset/ui/units"
)

// deepest is how deep the largest pressure diagram may be on paper, mm.
const deepest = 25.0

// nothing is a pressure too small to be written, kPa: it would read 0.0.
const nothing = 0.05

// loads are those of the stage on the faces that this section cuts, one per
// face: the one nearest to the station.
func (b *builder) loads() []assess.Load {
	if b.r == nil || !b.v.HasBox {
		return nil
	}
	faces := []section.Face{section.Left, section.Right}
	if b.v.Long {
		faces = []section.Face{section.Front, section.Back}
	}
	var out []assess.Load
	for _, f := range faces {
		best := -1
		for i, l := range b.r.Loads {
			if l.Stage != b.v.Stage.ID || l.Face != f || len(l.Diagram) == 0 {
				continue
			}
			if best < 0 || !b.v.Long && math.Abs(l.Station-b.v.Station) < math.Abs(b.r.Loads[best].Station-b.v.Station) {
				best = i
			}
		}
		if best >= 0 {
			out = append(out, b.r.Loads[best])
		}
	}
	return out
}

// roofs are the roof loads that this section shows, in order of station.
func (b *builder) roofs() []assess.RoofLoad {
	if b.r == nil || !b.v.HasBox {
		return nil
	}
	var out []assess.RoofLoad
	for _, l := range b.r.Roofs {
		if l.Stage == b.v.Stage.ID {
			out = append(out, l)
		}
	}
	if b.v.Long || len(out) == 0 {
		return sortRoofs(out)
	}
	best := out[0]
	for _, l := range out {
		if math.Abs(l.Station-b.v.Station) < math.Abs(best.Station-b.v.Station) {
			best = l
		}
	}
	return []assess.RoofLoad{best}
}

// scalePressure chooses the scale of the diagrams and states it.
func (b *builder) scalePressure(loads []assess.Load, roofs []assess.RoofLoad) {
	most := 0.0
	for _, l := range loads {
		for _, row := range l.Diagram {
			most = math.Max(most, row.Total)
		}
	}
	for _, r := range roofs {
		most = math.Max(most, r.Total)
	}
	_, up := meanOf(b.uplift())
	if most = math.Max(most, up); most <= 0 {
		return
	}
	unit := 1.0 // kPa per reader's unit
	if b.o.Units == units.US {
		unit = psfInKPa
	}
	perMM := b.o.PressureMMPerKPa
	tick, called := b.o.tick()
	if perMM == 0 {
		room := math.Min(deepest, 0.45*b.v.Box.H()*b.o.MMPerM)
		need := most / unit / room * tick // reader's units per tick at least
		step := oneTwoFive(need)
		for _, up := range []float64{1, 2, 2.5, 5, 10} {
			if s := oneTwoFive(step * up * (1 + 1e-9)); s >= need*(1-1e-9) {
				step = s
				break
			}
		}
		perMM = tick / (step * unit)
	}
	b.kPa = perMM * b.mm
	b.kPaNote = fmt.Sprintf("pressure %s = %.4g %s", called, tick/perMM/unit, units.Unit(quantity.Pressure, b.o.Units))
}

// psfInKPa is one pound-force per square foot in kPa (exact by definition).
const psfInKPa = 0.45359237 * 9.80665 / 1000 / (0.3048 * 0.3048)

// pressures draws the pressure on walls and roof; pressureTexts says how much.
func (b *builder) pressures(loads []assess.Load, roofs []assess.RoofLoad) {
	if !b.show(Pressures) {
		return
	}
	b.scalePressure(loads, roofs)
	if b.kPa == 0 {
		return
	}
	for _, l := range loads {
		b.wall(l)
		b.thrust(l)
	}
	b.roofLoads(roofs)
	b.upliftDiagram()
}

// pressureTexts writes the thrusts, the pressures, and the scale of the
// diagrams.
func (b *builder) pressureTexts(loads []assess.Load, roofs []assess.RoofLoad) {
	if !b.show(Pressures) || b.kPa == 0 {
		return
	}
	b.scaleNote(b.kPaNote)
	for _, l := range loads {
		b.thrustText(l)
	}
	if worth(roofs) {
		b.roofValues(roofs, b.roofTop(roofs))
	}
	for _, l := range loads {
		b.wallValues(l)
	}
}

// wallOf gives the place of a wall and the way out of the box.
func (b *builder) wallOf(f section.Face) (x, dir float64) {
	if f == section.Front || f == section.Left {
		return b.v.Box.Min[0], -1
	}
	return b.v.Box.Max[0], 1
}

// wall draws one diagram: the water part at the wall, the total as outline.
func (b *builder) wall(l assess.Load) {
	x, dir := b.wallOf(l.Face)
	d := l.Diagram
	at := func(r earth.Row, p float64) geom.Vec { return geom.Vec{x + dir*p*b.kPa, r.Level} }
	total, wet := geom.Polyline{{x, d[0].Level}}, geom.Polyline{{x, d[0].Level}}
	most0 := 0.0
	for _, r := range d {
		total, wet = append(total, at(r, r.Total)), append(wet, at(r, r.U))
		most0 = math.Max(most0, r.U)
	}
	foot := geom.Vec{x, d[len(d)-1].Level}
	total, wet = append(total, foot), append(wet, foot)
	tag := "pressure:" + string(l.Face)
	b.add(Path{Layer: Pressures, Tag: tag, Parts: []geom.Polyline{total}, Closed: true, Fill: PressTint})
	if most0 > 0 {
		b.waterPart(tag, wet)
	}
	b.add(Path{Layer: Pressures, Tag: tag, Parts: []geom.Polyline{total}, Closed: true, Stroke: Pressure, Width: wMid})
	b.at.closedChain(total, true)
	if r := geom.Ring(total).Bounds(); !r.Empty() {
		b.at.areas = append(b.at.areas, rectBox(r))
	}
}

// waterPart is hatched level, with a chain line round it.
func (b *builder) waterPart(tag string, wet geom.Polyline) {
	region := geom.Ring(wet).ToRegion()
	b.add(Path{Layer: Pressures, Tag: tag + ":water", Parts: []geom.Polyline{wet}, Closed: true, Fill: WaterTint})
	p := Path{Layer: Pressures, Tag: tag + ":water-hatch", Stroke: WaterLine, Width: wHair}
	row := 1.4 * b.mm
	b.scan.load(region, 0)
	for i := math.Ceil(b.scan.lo / row); i*row < b.scan.hi; i++ {
		h := b.scan.cut(i * row)
		for j := 0; j+1 < len(h); j += 2 {
			p.Parts = append(p.Parts, b.ink.chain(geom.Vec{h[j], i * row}, geom.Vec{h[j+1], i * row}))
		}
	}
	b.add(p)
	b.add(Path{Layer: Pressures, Tag: tag + ":water", Parts: []geom.Polyline{wet}, Closed: true, Stroke: WaterLine, Width: wNarrow, Dash: dashShort})
}

// wallValues writes the pressures at the key levels: foot, greatest, top, and
// where they jump by an amount that is worth a text, as far as these stand so
// far apart that each text is beside its level.
func (b *builder) wallValues(l assess.Load) {
	d := l.Diagram
	worst := 0
	for i := range d {
		if d[i].Total > d[worst].Total {
			worst = i
		}
	}
	last := len(d) - 1
	var written []float64
	write := func(i int, v float64) {
		const apart = 8.0 // mm: two lines of text with some room
		for _, z := range written {
			if math.Abs(z-d[i].Level) < apart*b.mm {
				return
			}
		}
		written = append(written, d[i].Level)
		b.wallValue(l, d[i], v)
	}
	write(last, 0)
	write(0, 1)
	write(worst, 0.5)
	const jump = 0.05 // share of the greatest value
	for i := 1; i < len(d); i++ {
		if d[i].Level == d[i-1].Level && math.Abs(d[i].Total-d[i-1].Total) > jump*d[worst].Total {
			big := i
			if d[i-1].Total > d[i].Total {
				big = i - 1
			}
			write(big, 0.5)
		}
	}
}

// wallValue writes one pressure beside the diagram; v is where its text stands
// on its level.
func (b *builder) wallValue(l assess.Load, r earth.Row, v float64) {
	x, dir := b.wallOf(l.Face)
	edge := geom.Vec{x + dir*r.Total*b.kPa, r.Level}
	if r.Total < nothing || !b.seen(edge) {
		return
	}
	t := label(Pressures, "pressure:value", b.write(r.Total, quantity.Pressure))
	t.Role = Pressure
	t.Anchor = Anchor{H: (1 - dir) / 2, V: v}
	p := edge.Add(geom.Vec{dir * 1.2 * b.mm, (0.5 - v) * 2 * b.mm})
	if !b.putClear(t, p, p.Add(geom.Vec{dir * 3 * b.mm, 0}), p.Add(geom.Vec{dir * 7 * b.mm, 0})) {
		b.callout(t, edge, 0)
	}
}

// thrustEnds are the tip and the tail of the resultant; false where there is
// none.
func (b *builder) thrustEnds(l assess.Load) (tip, tail geom.Vec, ok bool) {
	if !(l.Thrust > 0) || math.IsNaN(l.Level) {
		return tip, tail, false
	}
	x, dir := b.wallOf(l.Face)
	most := 0.0
	for _, r := range l.Diagram {
		most = math.Max(most, r.Total)
	}
	return geom.Vec{x + dir*0.4*b.mm, l.Level}, geom.Vec{x + dir*(most*b.kPa+5*b.mm), l.Level}, true
}

// thrust is the resultant, an arrow through the diagram to the wall.
func (b *builder) thrust(l assess.Load) {
	tip, tail, ok := b.thrustEnds(l)
	if !ok {
		return
	}
	_, dir := b.wallOf(l.Face)
	b.stroke(Pressures, "thrust", Pressure, wHeavy, nil, tail, tip.Add(geom.Vec{dir * 3 * b.mm, 0}))
	b.arrowhead(Pressures, "thrust", Pressure, tip, geom.Vec{-dir, 0}, 4)
}

// thrustText stands beside the tail of the arrow, where it covers neither
// lines nor the diagram; else it is led there.
func (b *builder) thrustText(l assess.Load) {
	_, tail, ok := b.thrustEnds(l)
	if !ok || !b.at.win.Contains(tail) {
		return
	}
	_, dir := b.wallOf(l.Face)
	t := label(Pressures, "thrust", b.write(l.Thrust, quantity.LineLoad)+" at "+b.level(l.Level))
	t.Role, t.Bold = Pressure, true
	t.Anchor = Anchor{H: (1 - dir) / 2, V: 0.5}
	t.Text, _ = face.Clean(t.Text)
	t.At = tail.Add(geom.Vec{dir * 1.5 * b.mm, 0})
	room := labelBox(&t, b.o.MMPerM, clearance)
	if b.at.free(room) && b.at.crossed(room) <= 1 && count(b.at.spots, room) == 0 {
		b.keep(t)
		return
	}
	b.callout(t, tail, 0.4)
}

// worth tells whether any of the loads would be written as more than 0.
func worth(rs []assess.RoofLoad) bool {
	return slices.ContainsFunc(rs, func(r assess.RoofLoad) bool { return r.Total >= nothing })
}

// roofTop is the upper edge of the diagram on the roof.
func (b *builder) roofTop(rs []assess.RoofLoad) geom.Polyline {
	box := b.v.Box
	var top geom.Polyline
	for _, r := range rs {
		x := math.Min(math.Max(r.Station, box.Min[0]), box.Max[0])
		top = append(top, geom.Vec{x, box.Max[1] + r.Total*b.kPa})
	}
	if len(rs) == 1 {
		z := top[0][1]
		top = geom.Polyline{{box.Min[0], z}, {box.Max[0], z}}
	}
	return top
}

// roofLoads draws the load on the roof as a diagram standing on it.
func (b *builder) roofLoads(rs []assess.RoofLoad) {
	if !worth(rs) {
		return
	}
	top, roof := b.roofTop(rs), b.v.Box.Max[1]
	area := append(geom.Polyline{{top[0][0], roof}}, top...)
	area = append(area, geom.Vec{top[len(top)-1][0], roof})
	b.add(Path{Layer: Pressures, Tag: "pressure:roof", Parts: []geom.Polyline{area}, Closed: true, Fill: PressTint, Stroke: Pressure, Width: wMid})
	b.at.closedChain(area, true)
	if r := geom.Ring(area).Bounds(); !r.Empty() {
		b.at.areas = append(b.at.areas, rectBox(r))
	}
	b.roofArrows(top, roof)
}

// roofArrows point down inside the diagram.
func (b *builder) roofArrows(top geom.Polyline, roof float64) {
	const every, head = 9.0, 1.8 // mm
	from, to := top[0][0], top[len(top)-1][0]
	n := math.Max(1, math.Floor((to-from)/(every*b.mm)))
	shafts := Path{Layer: Pressures, Tag: "pressure:roof-arrows", Stroke: Pressure, Width: wThin}
	heads := Path{Layer: Pressures, Tag: "pressure:roof-arrows", Closed: true, Fill: Pressure}
	for i := 0.5; i < n; i++ {
		x := from + (to-from)*i/n
		z, ok := top.At(x)
		if !ok || z-roof < (head+0.8)*b.mm {
			continue
		}
		tip := roof + 0.4*b.mm
		shafts.Parts = append(shafts.Parts, b.ink.chain(geom.Vec{x, z}, geom.Vec{x, tip + head*b.mm}))
		w := 0.32 * b.mm
		heads.Parts = append(heads.Parts, b.ink.chain(geom.Vec{x, tip}, geom.Vec{x + w, tip + head*b.mm}, geom.Vec{x - w, tip + head*b.mm}))
	}
	b.add(shafts)
	b.add(heads)
}

// roofValues writes the total at the ends and at the greatest.
func (b *builder) roofValues(rs []assess.RoofLoad, top geom.Polyline) {
	worst := 0
	for i := range rs {
		if rs[i].Total > rs[worst].Total {
			worst = i
		}
	}
	most := ""
	write := func(at geom.Vec, r assess.RoofLoad, h float64) {
		text := "roof " + b.write(r.Total, quantity.Pressure)
		if r.Total < nothing || !b.seen(at) || text == most {
			return
		}
		t := label(Pressures, "pressure:roof-value", text)
		t.Role = Pressure
		t.Anchor = Anchor{H: h, V: 0}
		p := at.Add(geom.Vec{0, 1.2 * b.mm})
		if !b.put(t, p, p.Add(geom.Vec{0, 4 * b.mm})) {
			b.callout(t, at, 0)
		}
	}
	if len(rs) == 1 {
		write(top[0].Add(top[1]).Mul(0.5), rs[0], 0.5)
		return
	}
	last := len(rs) - 1
	write(top[worst], rs[worst], float64(worst)/float64(last))
	most = "roof " + b.write(rs[worst].Total, quantity.Pressure)
	if worst != 0 {
		write(top[0], rs[0], 0)
	}
	if worst != last {
		write(top[last], rs[last], 1)
	}
}
