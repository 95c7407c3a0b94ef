package scene

import (
	"math"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/geom"
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
	tick, _ := b.o.tick()
	f.perSI = tick / (roundUp(most/unit/room*tick) * unit)
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
