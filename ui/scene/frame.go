package scene

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/geom"
	"hillset/ui/face"
	"hillset/ui/units"
)

// inset is how far frame signs stay from the edge of the window, mm.
const inset = 3.0

// frame draws what belongs to the sheet: caption, arrow, axis, scale bar.
func (b *builder) frame() {
	if !b.show(Frame) {
		return
	}
	win := b.at.win
	top := geom.Vec{win.Min[0] + inset*b.mm, win.Max[1] - (inset+hTitle)*b.mm}
	l := label(Frame, "caption", b.caption())
	l.Height, l.Bold = hTitle, true
	b.must(l, top)
	b.wayArrow(top.Sub(geom.Vec{0, 9 * b.mm}))
	b.axis()
	b.scaleBar(geom.Vec{win.Min[0] + (inset+2)*b.mm, win.Min[1] + (inset+2)*b.mm})
}

// wayArrow tells which way the section looks.
func (b *builder) wayArrow(at geom.Vec) {
	if !b.v.Long {
		b.must(label(Frame, "way", "looking into the hill"), at)
		return
	}
	mid := at.Add(geom.Vec{0, 1.2 * b.mm})
	b.stroke(Frame, "downhill", Ink, wMid, nil, mid.Add(geom.Vec{3 * b.mm, 0}), mid.Add(geom.Vec{11 * b.mm, 0}))
	b.arrowhead(Frame, "downhill", Ink, mid, geom.Vec{-1, 0}, 4)
	b.must(label(Frame, "downhill", "downhill"), at.Add(geom.Vec{13 * b.mm, 0}))
}

// unitLength is one unit of the reader, m.
func (b *builder) unitLength() float64 {
	if b.o.Units == units.US {
		return 0.3048
	}
	return 1
}

// axis is the level axis at the left, with round levels.
func (b *builder) axis() {
	x := b.land.Min[0] - 6*b.mm
	if x-20*b.mm < b.at.win.Min[0] {
		x = b.at.win.Min[0] + 20*b.mm
	}
	lo, hi := b.land.Min[1], b.land.Max[1]
	if lo >= hi {
		return
	}
	unit := b.unitLength()
	step := oneTwoFive(8*b.mm/unit*2.001) * unit
	b.stroke(Frame, "axis", Thin, wThin, nil, geom.Vec{x, lo}, geom.Vec{x, hi})
	ticks := Path{Layer: Frame, Tag: "axis", Stroke: Thin, Width: wThin}
	for i := math.Ceil(lo / step); i*step <= hi; i++ {
		z := i * step
		ticks.Parts = append(ticks.Parts, b.ink.chain(geom.Vec{x - 1.5*b.mm, z}, geom.Vec{x + 1.5*b.mm, z}))
		l := label(Frame, "axis", b.level(z))
		l.Anchor = Anchor{H: 1, V: 0.5}
		b.put(l, geom.Vec{x - 2.2*b.mm, z})
	}
	b.add(ticks)
}

// scaleBar is a bar of round divisions in the reader's units, each wide enough
// for its number.
func (b *builder) scaleBar(at geom.Vec) {
	const least, most, high = 10.0, 64.0, 1.6 // mm: division, bar, height
	unit := b.unitLength()
	div := oneTwoFive(least * b.mm / unit)
	for _, up := range []float64{2, 2.5, 5, 10} {
		if div*unit >= least*b.mm {
			break
		}
		div = oneTwoFive(oneTwoFive(least*b.mm/unit) * up * (1 + 1e-9))
	}
	n, w := 4, div*unit
	if 4*w > most*b.mm {
		n = 2
	}
	for i := range n {
		r := geom.Rect{Min: at.Add(geom.Vec{float64(i) * w, 0}), Max: at.Add(geom.Vec{float64(i+1) * w, high * b.mm})}
		p := Path{Layer: Frame, Tag: "scalebar", Parts: []geom.Polyline{geom.Polyline(r.ToRing())}, Closed: true, Stroke: Ink, Width: wThin, Fill: Ink}
		if i%2 == 1 {
			p.Fill = Paper
		}
		b.add(p)
	}
	end := at.Add(geom.Vec{float64(n) * w, 0})
	b.at.take(rectBox(geom.Rect{Min: at, Max: end.Add(geom.Vec{0, high * b.mm})}))
	for i := range n + 1 {
		number := fmt.Sprintf("%.6g", float64(i)*div)
		l := label(Frame, "scalebar", number)
		l.Anchor = Anchor{H: 0.5, V: 0}
		if i == n { // the number stands over its mark, the unit behind it
			l.Text += " " + units.Unit(quantity.Length, b.o.Units)
			l.Anchor.H = face.Width(number, hNote, false) / 2 / face.Width(l.Text, hNote, false)
		}
		b.must(l, at.Add(geom.Vec{float64(i) * w, (high + 1.4) * b.mm}))
	}
	b.bar = end.Add(geom.Vec{14 * b.mm, 0})
}

// scaleNote states the scale of the pressure diagrams beside the scale bar.
func (b *builder) scaleNote(text string) {
	at := b.at.win.Min.Add(geom.Vec{(inset + 2) * b.mm, (inset + 2) * b.mm})
	if b.show(Frame) {
		at = b.bar
	}
	l := label(Pressures, "pressure:scale", text)
	l.Role = Pressure
	b.must(l, at, at.Add(geom.Vec{0, 5 * b.mm}), at.Add(geom.Vec{20 * b.mm, 0}))
}

func sortFloats(v []float64) { slices.Sort(v) }

func sortRoofs(rs []assess.RoofLoad) []assess.RoofLoad {
	slices.SortStableFunc(rs, func(a, c assess.RoofLoad) int {
		switch {
		case a.Station < c.Station:
			return -1
		case a.Station > c.Station:
			return 1
		}
		return 0
	})
	return rs
}
