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
	if most <= 0 {
		return
	}
	unit := 1.0 // kPa per reader's unit
	if b.o.Units == units.US {
		unit = psfInKPa
	}
	perMM := b.o.PressureMMPerKPa
	if perMM == 0 {
		room := math.Min(deepest, 0.45*b.v.Box.H()*b.o.MMPerM)
		need := most / unit / room // reader's units per mm at least
		step := oneTwoFive(need)
		for _, up := range []float64{1, 2, 2.5, 5, 10} {
			if s := oneTwoFive(step * up * (1 + 1e-9)); s >= need*(1-1e-9) {
				step = s
				break
			}
		}
		perMM = 1 / (step * unit)
	}
	b.kPa = perMM * b.mm
	b.scaleNote(fmt.Sprintf("pressure 1 mm = %.4g %s", 1/perMM/unit, units.Unit(quantity.Pressure, b.o.Units)))
}

// psfInKPa is one pound-force per square foot in kPa (exact by definition).
const psfInKPa = 0.45359237 * 9.80665 / 1000 / (0.3048 * 0.3048)

// pressures draws the pressure on the walls.
func (b *builder) pressures() {
	if !b.show(Pressures) {
		return
	}
	loads, roofs := b.loads(), b.roofs()
	b.scalePressure(loads, roofs)
	if b.kPa == 0 {
		return
	}
	for _, l := range loads {
		b.wall(l)
	}
	b.roofLoads(roofs)
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
	most, most0 := 0.0, 0.0
	for _, r := range d {
		total, wet = append(total, at(r, r.Total)), append(wet, at(r, r.U))
		most, most0 = math.Max(most, r.Total), math.Max(most0, r.U)
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
	b.wallValues(l, x, dir)
	b.thrust(l, x, dir, most)
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
// where they jump.
func (b *builder) wallValues(l assess.Load, x, dir float64) {
	d := l.Diagram
	write := func(i int, v float64) {
		r := d[i]
		if r.Total < nothing {
			return
		}
		t := label(Pressures, "pressure:value", b.write(r.Total, quantity.Pressure))
		t.Role = Pressure
		t.Anchor = Anchor{H: (1 - dir) / 2, V: v}
		p := geom.Vec{x + dir*(r.Total*b.kPa+1.2*b.mm), r.Level + (0.5-v)*2*b.mm}
		b.put(t, p, p.Add(geom.Vec{dir * 3 * b.mm, 0}), p.Add(geom.Vec{dir * 7 * b.mm, 0}))
	}
	write(len(d)-1, 0)
	write(0, 1)
	worst := 0
	for i := range d {
		if d[i].Total > d[worst].Total {
			worst = i
		}
	}
	if worst != 0 && worst != len(d)-1 {
		write(worst, 0.5)
	}
	const jump = 0.05 // share of the greatest value below which a step is not worth a text
	for i := 1; i < len(d); i++ {
		if d[i].Level == d[i-1].Level && math.Abs(d[i].Total-d[i-1].Total) > jump*d[worst].Total {
			write(i-1, 0)
			write(i, 1)
		}
	}
}

// thrust is the resultant, an arrow through the diagram to the wall.
func (b *builder) thrust(l assess.Load, x, dir, most float64) {
	if !(l.Thrust > 0) || math.IsNaN(l.Level) {
		return
	}
	tail := geom.Vec{x + dir*(most*b.kPa+5*b.mm), l.Level}
	tip := geom.Vec{x + dir*0.4*b.mm, l.Level}
	b.stroke(Pressures, "thrust", Pressure, wHeavy, nil, tail, tip.Add(geom.Vec{dir * 3 * b.mm, 0}))
	b.arrowhead(Pressures, "thrust", Pressure, tip, geom.Vec{-dir, 0}, 4)
	t := label(Pressures, "thrust", b.write(l.Thrust, quantity.LineLoad)+" at "+b.level(l.Level))
	t.Role, t.Bold = Pressure, true
	t.Anchor = Anchor{H: (1 - dir) / 2, V: 0.5}
	p := tail.Add(geom.Vec{dir * 1.5 * b.mm, 0})
	up := geom.Vec{0, 4 * b.mm}
	b.must(t, p, p.Add(up), p.Sub(up), p.Add(up.Mul(2)), p.Sub(up.Mul(2)), p.Add(geom.Vec{dir * 12 * b.mm, 0}))
}

// roofLoads draws the load on the roof as a diagram standing on it.
func (b *builder) roofLoads(rs []assess.RoofLoad) {
	if !slices.ContainsFunc(rs, func(r assess.RoofLoad) bool { return r.Total >= nothing }) {
		return
	}
	box := b.v.Box
	roof := box.Max[1]
	var top geom.Polyline
	for _, r := range rs {
		x := math.Min(math.Max(r.Station, box.Min[0]), box.Max[0])
		top = append(top, geom.Vec{x, roof + r.Total*b.kPa})
	}
	if len(rs) == 1 {
		z := top[0][1]
		top = geom.Polyline{{box.Min[0], z}, {box.Max[0], z}}
	}
	area := append(geom.Polyline{{top[0][0], roof}}, top...)
	area = append(area, geom.Vec{top[len(top)-1][0], roof})
	b.add(Path{Layer: Pressures, Tag: "pressure:roof", Parts: []geom.Polyline{area}, Closed: true, Fill: PressTint, Stroke: Pressure, Width: wMid})
	b.at.closedChain(area, true)
	b.roofArrows(top, roof)
	b.roofValues(rs, top)
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
	write := func(at geom.Vec, r assess.RoofLoad, h float64) {
		if r.Total < nothing {
			return
		}
		t := label(Pressures, "pressure:roof-value", "roof "+b.write(r.Total, quantity.Pressure))
		t.Role = Pressure
		t.Anchor = Anchor{H: h, V: 0}
		p := at.Add(geom.Vec{0, 1.2 * b.mm})
		b.put(t, p, p.Add(geom.Vec{0, 4 * b.mm}), p.Add(geom.Vec{0, 8 * b.mm}))
	}
	if len(rs) == 1 {
		write(top[0].Add(top[1]).Mul(0.5), rs[0], 0.5)
		return
	}
	last := len(rs) - 1
	write(top[worst], rs[worst], float64(worst)/float64(last))
	if worst != 0 {
		write(top[0], rs[0], 0)
	}
	if worst != last {
		write(top[last], rs[last], 1)
	}
}
