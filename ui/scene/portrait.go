package scene

import (
	"fmt"
	"math"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/geom"
	"hillset/ui/face"
	"hillset/ui/units"
)

// How far the lines of a portrait reach on paper, mm.
const (
	mostMoved = 8.0 // the largest movement is about this
	mostBent  = 13.0
	sheetBent = 8.0 // moments of sheets where bars stand in front of them
	mostThick = 2.4 // the largest thrust
	leastLine = 0.25
)

// figure is the scale of one kind of line.
type figure struct {
	perSI float64 // m of the section per unit, or mm of width for thrusts
	kind  quantity.Kind
}

// portraitOf is the portrait that belongs to this view, nil for none: one of
// another stage or station shows another box.
func (b *builder) portraitOf() *assess.Portrait {
	p := b.o.Portrait
	if p == nil || !b.v.HasBox || p.Stage != b.v.Stage.ID || b.v.Long != math.IsNaN(p.Station) {
		return nil
	}
	const same = 1e-3 // m
	if !b.v.Long && math.Abs(p.Station-b.v.Station) > same {
		return nil
	}
	return p
}

// portrait draws what the steel does: thrusts, moments, then the deformed
// shape over them.
func (b *builder) portrait() {
	p := b.portraitOf()
	if p == nil {
		return
	}
	b.scalePortrait(p)
	for i := range p.Members {
		b.thrustLine(&p.Members[i])
	}
	for i := range p.Members {
		b.momentLine(&p.Members[i])
	}
	for i := range p.Members {
		b.movedLine(&p.Members[i])
	}
}

// scalePortrait chooses the scales, each of the series 1-2-5 in the reader's
// units: sheets and bars have units of their own.
func (b *builder) scalePortrait(p *assess.Portrait) {
	var move float64
	var m, n [2]float64
	bars := false
	for i := range p.Members {
		d := &p.Members[i]
		k := kindOf(d)
		bars = bars || !d.PerMetre
		for j := range d.Axis {
			move = math.Max(move, d.Move[j].Len())
			m[k], n[k] = math.Max(m[k], math.Abs(d.M[j])), math.Max(n[k], math.Abs(d.N[j]))
		}
	}
	b.moveScale = 0
	if move > 1e-7 {
		b.moveScale = oneTwoFive(mostMoved * b.mm / move)
	}
	deep := [2]float64{mostBent, mostBent}
	if bars {
		deep[0] = sheetBent
	}
	for k, kinds := range [2][2]quantity.Kind{{quantity.LineMoment, quantity.LineLoad}, {quantity.Moment, quantity.Force}} {
		b.bent[k] = b.figureOf(m[k], deep[k], kinds[0])
		b.bent[k].perSI *= b.mm
		b.thick[k] = b.figureOf(n[k], mostThick, kinds[1])
	}
}

// kindOf is 0 for sheets and 1 for bars.
func kindOf(d *assess.Drawn) int {
	if d.PerMetre {
		return 0
	}
	return 1
}

// figureOf is the scale, mm per SI unit, at which a largest value takes at most
// room mm; 0 without value.
func (b *builder) figureOf(most, room float64, kind quantity.Kind) figure {
	f := figure{kind: kind}
	unit, err := units.Parse(kind, "1", b.o.Units)
	if err != nil || most < 1e-6 {
		return f
	}
	f.perSI = 1 / (roundUp(most/unit/room) * unit)
	return f
}

// worthDrawing tells whether a member has anything worth drawing of its kind.
func worthDrawing(vs []float64, f figure, mm float64) bool {
	const least = 0.15 // mm
	for _, v := range vs {
		if math.Abs(v)*f.perSI > least*mm {
			return true
		}
	}
	return false
}

// momentLine is the diagram on the tension side: outline, and strokes square
// to the member as the hatch that tells it from everything else.
func (b *builder) momentLine(d *assess.Drawn) {
	f := b.bent[kindOf(d)]
	if !b.show(MomentLines) || !worthDrawing(d.M, f, b.mm) {
		return
	}
	tag := "moment:" + d.Part
	edge := make(geom.Polyline, len(d.Axis))
	strokes := Path{Layer: MomentLines, Tag: tag + ":strokes", Stroke: Bending, Width: wHair}
	for i, at := range d.Axis {
		edge[i] = at.Add(d.Inside.Mul(d.M[i] * f.perSI))
		if i%2 == 0 && edge[i].Sub(at).Len() > 0.5*b.mm {
			strokes.Parts = append(strokes.Parts, b.ink.chain(at, edge[i]))
		}
	}
	area := append(geom.Polyline{}, d.Axis...)
	for i := len(edge) - 1; i >= 0; i-- {
		area = append(area, edge[i])
	}
	if !d.PerMetre {
		b.add(Path{Layer: MomentLines, Tag: tag, Parts: []geom.Polyline{area}, Closed: true, Fill: BendTint})
	}
	b.add(strokes)
	line := append(append(geom.Polyline{d.Axis[0]}, edge...), d.Axis[len(d.Axis)-1])
	width := wMid
	if d.PerMetre {
		width = wThin
	}
	b.add(Path{Layer: MomentLines, Tag: tag, Parts: []geom.Polyline{line}, Stroke: Bending, Width: width})
	b.at.chain(thin(line))
	if r := geom.Ring(area).Bounds(); !r.Empty() {
		b.at.areas = append(b.at.areas, rectBox(r))
	}
}

// thrustLine is a line along the member, the thicker the larger the thrust;
// dashed where the member is pulled.
func (b *builder) thrustLine(d *assess.Drawn) {
	f := b.thick[kindOf(d)]
	if !b.show(ThrustLines) || f.perSI == 0 {
		return
	}
	for i := 0; i < len(d.Axis); {
		to := i + 1
		for to < len(d.Axis) && math.Abs(d.N[to]-d.N[i]) <= 1e-6*math.Abs(d.N[i]) {
			to++
		}
		if width := math.Abs(d.N[i]) * f.perSI; width > 0.05 && to-i > 1 {
			p := Path{Layer: ThrustLines, Tag: "thrust:" + d.Part, Parts: []geom.Polyline{append(geom.Polyline{}, d.Axis[i:to]...)},
				Stroke: Squeeze, Width: math.Max(leastLine, width)}
			if d.N[i] < 0 {
				p.Dash = dashShort
			}
			b.add(p)
			b.at.line(d.Axis[i], d.Axis[to-1])
		}
		i = to
	}
}

// movedLine is the member where it comes to lie, with its movements drawn
// larger.
func (b *builder) movedLine(d *assess.Drawn) {
	if !b.show(Deformed) || b.moveScale == 0 {
		return
	}
	line := make(geom.Polyline, len(d.Axis))
	moved := false
	for i, at := range d.Axis {
		line[i] = at.Add(d.Move[i].Mul(b.moveScale))
		moved = moved || d.Move[i].Len()*b.moveScale > 0.1*b.mm
	}
	if !moved {
		return
	}
	p := Path{Layer: Deformed, Tag: "moved:" + d.Part, Parts: []geom.Polyline{line}, Stroke: Bent, Width: wGround, Dash: dashLong}
	if d.Beyond {
		p.Dash = dashChain
	}
	b.add(p)
	b.at.chain(thin(line))
}

// portraitTexts writes the largest values of every member and the scales.
func (b *builder) portraitTexts() {
	p := b.portraitOf()
	if p == nil {
		return
	}
	b.portraitNotes(p)
	for i := range p.Members {
		b.momentValues(&p.Members[i])
	}
	for i := range p.Members {
		b.thrustValue(&p.Members[i])
		b.moveValue(&p.Members[i])
	}
}

// momentValues are written at the largest moment on either side.
func (b *builder) momentValues(d *assess.Drawn) {
	f := b.bent[kindOf(d)]
	if !b.show(MomentLines) || !worthDrawing(d.M, f, b.mm) {
		return
	}
	hi, lo := 0, 0
	for i := range d.M {
		if d.M[i] > d.M[hi] {
			hi = i
		}
		if d.M[i] < d.M[lo] {
			lo = i
		}
	}
	most := math.Max(d.M[hi], -d.M[lo])
	for _, i := range []int{hi, lo} {
		if a := math.Abs(d.M[i]); a < 0.25*most || a*f.perSI < 1.2*b.mm || i == lo && d.M[i] >= 0 || i == hi && d.M[i] <= 0 {
			continue
		}
		tip := d.Axis[i].Add(d.Inside.Mul(d.M[i] * f.perSI))
		way := d.Inside.Mul(math.Copysign(1, d.M[i]))
		b.valueAt(MomentLines, "moment:value", Bending, b.write(math.Abs(d.M[i]), f.kind), tip, way)
	}
}

// thrustValue is written in the middle of the member.
func (b *builder) thrustValue(d *assess.Drawn) {
	f := b.thick[kindOf(d)]
	if !b.show(ThrustLines) || f.perSI == 0 || len(d.N) == 0 {
		return
	}
	i := len(d.N) / 2
	if math.Abs(d.N[i])*f.perSI < 0.1 {
		return
	}
	word := "push "
	if d.N[i] < 0 {
		word = "pull "
	}
	t := label(ThrustLines, "thrust:value", word+b.write(math.Abs(d.N[i]), f.kind))
	t.Role = Squeeze
	from, way := d.Axis[0], d.Axis[len(d.Axis)-1].Sub(d.Axis[0])
	for _, share := range []float64{0.5, 0.3, 0.7} {
		for _, side := range []float64{1, -1} {
			if at := from.Add(way.Mul(share)); !b.seen(at) || b.besideLine(t, at, d.Inside.Mul(side)) {
				return
			}
		}
	}
	b.lost = append(b.lost, t.Text)
}

// moveValue is written where the member moves most.
func (b *builder) moveValue(d *assess.Drawn) {
	if !b.show(Deformed) || b.moveScale == 0 {
		return
	}
	k := 0
	for i := range d.Move {
		if d.Move[i].Len() > d.Move[k].Len() {
			k = i
		}
	}
	way, ok := geom.Unit(d.Move[k])
	if !ok || d.Move[k].Len()*b.moveScale < 1.2*b.mm {
		return
	}
	text := b.write(d.Move[k].Len(), quantity.Thickness)
	if d.Beyond {
		text = "more than " + text
	}
	b.valueAt(Deformed, "moved:value", Bent, text, d.Axis[k].Add(d.Move[k].Mul(b.moveScale)), way)
}

// valueAt writes a value beside a point, away along a direction, or leads it
// there.
func (b *builder) valueAt(layer Layer, tag string, role Role, text string, at, way geom.Vec) {
	t := label(layer, tag, text)
	t.Role = role
	if b.seen(at) && !b.besideLine(t, at, way) {
		t.Height = hValue
		b.callout(t, at, 0.3)
	}
}

// hValue is the height of the values along members, mm.
const hValue = 2.2

// besideLine sets a value beside a point, away along a direction, where it
// covers few lines.
func (b *builder) besideLine(t Label, at, way geom.Vec) bool {
	t.Height, t.Anchor = hValue, Anchor{H: 0.5 - 0.5*sign3(way[0]), V: 0.5 - 0.5*sign3(way[1])}
	t.Text, _ = face.Clean(t.Text)
	side := geom.LeftNormal(way)
	width := face.Width(t.Text, t.Height, t.Bold)
	best, fewest := t, mostLines+1
	for _, away := range []float64{1.2, 3.4, 6} {
		for _, off := range []float64{0, 4, -4, 8, -8, 13, -13} {
			t.At = at.Add(way.Mul(away * b.mm)).Add(side.Mul(off * b.mm))
			r := boxOfWidth(&t, width, b.o.MMPerM, clearance)
			if !b.at.free(r) {
				continue
			}
			if n := b.at.crossed(r) + count(b.at.spots, r); n < fewest {
				best, fewest = t, n
			}
			if fewest == 0 {
				b.keep(best)
				return true
			}
		}
	}
	if fewest <= mostLines {
		b.keep(best)
	}
	return fewest <= mostLines
}

// mostLines is how many lines a value may cover before it is led to its place
// instead: leaders among so many lines cost time and hide more than they tell.
const mostLines = 2

// thin is every few points of a chain, ends included: what texts keep off need
// not be as smooth as what is drawn.
func thin(c geom.Polyline) geom.Polyline {
	const every = 4
	out := make(geom.Polyline, 0, len(c)/every+2)
	for i := 0; i < len(c)-1; i += every {
		out = append(out, c[i])
	}
	return append(out, c[len(c)-1])
}

// portraitNotes state the scales and what a line cannot show.
func (b *builder) portraitNotes(p *assess.Portrait) {
	if len(p.Members) == 0 {
		return
	}
	if b.moveScale > 0 && b.show(Deformed) {
		text := fmt.Sprintf("movement drawn %.6g times", b.moveScale)
		if b.moveScale == 1 {
			text = "movement drawn to the scale of the section"
		}
		for i := range p.Members {
			if p.Members[i].Beyond {
				text += "; beyond limits it is larger than drawn"
				break
			}
		}
		b.portraitNote(Deformed, Bent, text)
	}
	for k, what := range [2]string{"sheets", "bars"} {
		if f := b.bent[k]; f.perSI > 0 && b.show(MomentLines) {
			b.portraitNote(MomentLines, Bending, "moment of "+what+" 1 mm = "+b.write(b.mm/f.perSI, f.kind))
		}
		if f := b.thick[k]; f.perSI > 0 && b.show(ThrustLines) {
			b.portraitNote(ThrustLines, Squeeze, "thrust of "+what+" 1 mm wide = "+b.write(1/f.perSI, f.kind))
		}
	}
}

// portraitNote writes a scale at the foot of the drawing.
func (b *builder) portraitNote(layer Layer, role Role, text string) {
	from := b.foot()
	if b.show(Frame) {
		from = b.bar
	}
	l := label(layer, "portrait:scale", text)
	l.Role, l.Height = role, hValue
	var spots []geom.Vec
	for _, x := range []float64{0, 30, 60, 90, 120} {
		for y := range 6 {
			spots = append(spots, from.Add(geom.Vec{x * b.mm, float64(y) * 4.4 * b.mm}))
		}
	}
	b.must(l, spots...)
}
