package scene

import (
	"math"

	"hillset/engine/quantity"
	"hillset/geom"
)

// liftPlaces is how often the uplift is read along the floor.
const liftPlaces = 25

// uplift is the computed pressure under the floor: pairs of place and kPa; none
// where no water presses there.
func (b *builder) uplift() [][2]float64 {
	if b.wet == nil || b.wet.near == nil || !b.v.HasBox {
		return nil
	}
	if !b.lifted {
		b.lifted = true
		b.lift = b.wet.near.Floor(liftPlaces)
		if b.wet.beyond != nil {
			for i, q := range b.wet.beyond.Floor(liftPlaces) {
				b.lift[i][1] += b.wet.share * (q[1] - b.lift[i][1])
			}
		}
		if mean, most := meanOf(b.lift); most < nothing || mean <= 0 {
			b.lift = nil
		}
	}
	return b.lift
}

// meanOf is the mean and the greatest of pressures at even distances.
func meanOf(lift [][2]float64) (mean, most float64) {
	for i, q := range lift {
		w := 1.0
		if i == 0 || i == len(lift)-1 {
			w = 0.5
		}
		mean += w * q[1] / float64(len(lift)-1)
		most = math.Max(most, q[1])
	}
	return mean, most
}

// upliftDiagram hangs the pressure on the underside of the box.
func (b *builder) upliftDiagram() {
	lift := b.uplift()
	if len(lift) == 0 {
		return
	}
	box := b.v.Box
	foot := box.Min[1]
	at := func(i int) geom.Vec {
		x := box.Min[0] + box.W()*float64(i)/float64(len(lift)-1)
		return geom.Vec{x, foot - lift[i][1]*b.kPa}
	}
	area := geom.Polyline{{box.Min[0], foot}}
	for i := range lift {
		area = append(area, at(i))
	}
	area = append(area, geom.Vec{box.Max[0], foot})
	b.waterPart("uplift", area)
	b.at.closedChain(area, true)
	if r := geom.Ring(area).Bounds(); !r.Empty() {
		b.at.areas = append(b.at.areas, rectBox(r))
	}
	b.upArrows(area[1:len(area)-1], foot)
}

// upArrows point up at the floor inside the diagram.
func (b *builder) upArrows(line geom.Polyline, foot float64) {
	const every, head, half = 9.0, 1.8, 0.32 // mm
	from, to := line[0][0], line[len(line)-1][0]
	n := math.Max(1, math.Floor((to-from)/(every*b.mm)))
	shafts := Path{Layer: Pressures, Tag: "uplift:arrows", Stroke: WaterLine, Width: wThin}
	heads := Path{Layer: Pressures, Tag: "uplift:arrows", Closed: true, Fill: WaterLine}
	for i := 0.5; i < n; i++ {
		x := from + (to-from)*i/n
		z, ok := line.At(x)
		if !ok || foot-z < (head+0.8)*b.mm {
			continue
		}
		tip := foot - 0.4*b.mm
		shafts.Parts = append(shafts.Parts, b.ink.chain(geom.Vec{x, z}, geom.Vec{x, tip - head*b.mm}))
		w := half * b.mm
		heads.Parts = append(heads.Parts, b.ink.chain(geom.Vec{x, tip}, geom.Vec{x + w, tip - head*b.mm}, geom.Vec{x - w, tip - head*b.mm}))
	}
	b.add(shafts)
	b.add(heads)
}

// upliftText writes the uplift at its greatest, its mean, and the mean that the
// checks take where that is another.
func (b *builder) upliftText() {
	if !b.show(Pressures) || b.wet == nil || b.wet.near == nil || !b.v.HasBox {
		return
	}
	const gammaW = 9.81 // kN/m3
	lift := b.uplift()
	mean, most := meanOf(lift)
	text := ""
	if len(lift) > 0 {
		text = "uplift to " + b.write(most, quantity.Pressure) + ", mean " + b.write(mean, quantity.Pressure)
	}
	rise := b.wet.wet.Lift().Mean
	if math.Abs(gammaW*rise-mean) >= nothing && len(b.wet.wet.Cross) > 0 {
		if text == "" {
			text = "uplift: "
		} else {
			text += "; "
		}
		text += "checks take a mean of " + b.write(gammaW*rise, quantity.Pressure)
	}
	if text == "" {
		return
	}
	worst := 0
	for i := range lift {
		if lift[i][1] > lift[worst][1] {
			worst = i
		}
	}
	at := geom.Vec{b.v.Box.Center()[0], b.v.Box.Min[1]}
	if len(lift) > 0 && b.kPa > 0 {
		x := b.v.Box.Min[0] + b.v.Box.W()*float64(worst)/float64(len(lift)-1)
		at = geom.Vec{x, b.v.Box.Min[1] - lift[worst][1]*b.kPa*0.6}
	}
	l := label(Pressures, "uplift", text)
	l.Role = WaterLine
	b.callout(l, at, 0)
}
