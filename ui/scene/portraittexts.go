package scene

import (
	"fmt"
	"math"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/geom"
	"hillset/ui/face"
)

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
	tick, called := b.o.tick()
	for k, what := range [2]string{"sheets", "bars"} {
		if f := b.bent[k]; f.perSI > 0 && b.show(MomentLines) {
			b.portraitNote(MomentLines, Bending, "moment of "+what+" "+called+" = "+b.write(tick*b.mm/f.perSI, f.kind))
		}
		if f := b.thick[k]; f.perSI > 0 && b.show(ThrustLines) {
			b.portraitNote(ThrustLines, Squeeze, "thrust of "+what+" "+called+" wide = "+b.write(tick/f.perSI, f.kind))
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
