package scene

import (
	"fmt"
	"math"
	"slices"
	"strings"

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
	whole := true
	for i, text := range b.captionLines() {
		l := label(Frame, "caption", text)
		l.Height, l.Bold = hTitle, true
		if i > 0 {
			top[1] -= captionPitch * b.mm
		}
		whole = b.put(l, top) && whole
	}
	if !whole {
		b.lost = append(b.lost, b.caption())
	}
	b.wayArrow(top.Sub(geom.Vec{0, 9 * b.mm}))
	b.axis()
	if b.o.CountLost {
		b.at.take(rectBox(b.lostRoom()))
	}
	b.scaleBar(b.foot())
}

// captionPitch is from line to line of a caption, mm.
const captionPitch = 6.2

// captionLines breaks the caption at the colon where the window is narrow.
func (b *builder) captionLines() []string {
	text := b.caption()
	text, _ = face.Clean(text)
	if face.Width(text, hTitle, true)+2*inset <= b.at.win.W()*b.o.MMPerM {
		return []string{text}
	}
	if head, tail, ok := strings.Cut(text, ": "); ok {
		return []string{head + ":", tail}
	}
	return []string{text}
}

// captionMore is how much lower a broken caption reaches, mm.
func (b *builder) captionMore() float64 {
	return captionPitch * float64(len(b.captionLines())-1)
}

// foot is the lower left corner of the scale bar.
func (b *builder) foot() geom.Vec {
	at := b.at.win.Min.Add(geom.Vec{(inset + 2) * b.mm, (inset + 2) * b.mm})
	if b.o.CountLost {
		at[1] += footLine * b.mm
	}
	return at
}

// axisLow is the level down to which axis and verdicts may stand: above the scale
// bar and its numbers.
func (b *builder) axisLow() float64 {
	z := b.at.win.Min[1] + axisFoot*b.mm
	if b.o.CountLost {
		z += footLine * b.mm
	}
	return z
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

// Measures of the level axis, mm.
const (
	axisOff  = 6.0 // from the ground, where there is room
	axisTick = 1.5 // half a tick
	axisGap  = 0.7 // between tick and text
	axisEnd  = 1.0 // kept free round the strip
	axisTop  = 22.0
	axisFoot = 14.0 // kept for caption and scale bar where the axis goes through the whole window
)

// axisText is a level of the axis: whole units without decimals.
func (b *builder) axisText(z, step float64) string {
	t := b.level(z)
	if step >= b.unitLength()*(1-1e-9) {
		t = strings.Replace(t, ".00 ", " ", 1)
	}
	return t
}

// axisSteps are the levels of the axis from lo to hi.
func (b *builder) axisSteps() (first, step, lo, hi float64) {
	unit := b.unitLength()
	step = oneTwoFive(8*b.mm/unit*2.001) * unit
	lo = max(b.land.Min[1], b.axisLow())
	hi = min(b.land.Max[1], b.at.win.Max[1]-(axisTop+b.captionMore())*b.mm)
	// The list of verdicts takes the upper part, but no level of the box.
	if list := b.listHead() - listPitch*float64(b.listRows())*b.mm; b.v.HasBox {
		hi = min(hi, max(list, b.v.Box.Max[1]))
	}
	return math.Ceil(lo/step) * step, step, lo, hi
}

// layStrip finds the place of the level axis: left of the ground, or at the
// left of the window; then the ground is cut off beside it, so that nothing
// stands in the strip.
func (b *builder) layStrip() {
	const narrow = 60.0 // mm: a smaller window has no room for an axis
	first, step, lo, hi := b.axisSteps()
	if !b.show(Frame) || !(lo < hi) || b.at.win.W() < narrow*b.mm {
		return
	}
	text := 0.0
	for _, z := range []float64{first, math.Floor(hi/step) * step} {
		text = max(text, face.Width(b.axisText(z, step), hNote, false))
	}
	left := (axisTick + axisGap + text + axisEnd) * b.mm
	b.axisX = max(b.land.Min[0]-axisOff*b.mm, b.at.win.Min[0]+left)
	right := b.axisX + (axisTick+axisEnd)*b.mm
	b.strip = geom.Rect{Min: geom.Vec{b.axisX - left, lo}, Max: geom.Vec{right, hi}}
	b.at.take(rectBox(b.strip))
	if right > b.land.Min[0] {
		b.land = overlap(b.land, geom.Rect{Min: geom.Vec{right, b.land.Min[1]}, Max: b.land.Max})
	}
}

// axis is the level axis at the left, with round levels, on clear ground.
func (b *builder) axis() {
	if b.strip.Empty() {
		return
	}
	if b.v.HasBox && b.v.Box.Min[0]-deepest*b.mm < b.strip.Max[0] {
		clear := geom.Rect{Min: b.at.win.Min, Max: geom.Vec{b.strip.Max[0], b.at.win.Max[1]}}
		b.add(Path{Layer: Frame, Tag: "axis:ground", Parts: []geom.Polyline{geom.Polyline(clear.ToRing())}, Closed: true, Fill: Paper})
	}
	x := b.axisX
	first, step, _, _ := b.axisSteps()
	lo, hi := b.strip.Min[1], b.strip.Max[1]
	b.stroke(Frame, "axis", Thin, wThin, nil, geom.Vec{x, lo}, geom.Vec{x, hi})
	ticks := Path{Layer: Frame, Tag: "axis", Stroke: Thin, Width: wThin}
	for i := 0.0; first+i*step <= hi; i++ {
		z := first + i*step
		ticks.Parts = append(ticks.Parts, b.ink.chain(geom.Vec{x - axisTick*b.mm, z}, geom.Vec{x + axisTick*b.mm, z}))
		l := label(Frame, "axis", b.axisText(z, step))
		l.Anchor = Anchor{H: 1, V: 0.5}
		l.At = geom.Vec{x - (axisTick+axisGap)*b.mm, z}
		if b.at.inside(labelBox(&l, b.o.MMPerM, clearance)) {
			b.keep(l)
		}
	}
	b.add(ticks)
}

// seen tells whether a point is in the window and not behind the level axis.
func (b *builder) seen(p geom.Vec) bool {
	return b.at.win.Contains(p) && (b.strip.Empty() || p[0] >= b.strip.Max[0] || b.strip.Max[0] <= b.land.Min[0]-b.mm)
}

// advice writes what to do next: in the middle between caption and ground,
// else in the middle of the window.
func (b *builder) advice() {
	const pitch = 6.2 // mm
	win := b.at.win
	mid := win.Center()
	low := win.Min[1]
	for _, p := range clipLine(b.v.Finish, win) {
		low = max(low, p.Bounds().Max[1])
	}
	if high := win.Max[1] - axisTop*b.mm; high-low > pitch*b.mm*float64(len(b.o.Advice)+1) {
		mid[1] = (high + low) / 2
	}
	for i, text := range b.o.Advice {
		l := label(Frame, "advice", text)
		l.Height, l.Anchor = 3, Anchor{H: 0.5, V: 0.5}
		b.must(l, mid.Add(geom.Vec{0, (float64(len(b.o.Advice)-1)/2 - float64(i)) * pitch * b.mm}))
	}
}

// footLine is the height of the line that counts what is hidden, mm.
const footLine = 4.5

// lostRoom keeps the foot of the window for the line that counts what is
// hidden.
func (b *builder) lostRoom() geom.Rect {
	win := b.at.win
	return geom.Rect{Min: win.Min, Max: geom.Vec{win.Max[0], win.Min[1] + (inset+footLine)*b.mm}}
}

// countLost says how many texts found no place.
func (b *builder) countLost() {
	n := len(b.lost)
	if !b.o.CountLost || n == 0 {
		return
	}
	text := fmt.Sprintf("%d texts hidden at this scale: zoom in", n)
	if n == 1 {
		text = "1 text hidden at this scale: zoom in"
	}
	l := label(Frame, "lost", text)
	l.At = b.at.win.Min.Add(geom.Vec{(inset + 2) * b.mm, inset * b.mm})
	if b.at.inside(labelBox(&l, b.o.MMPerM, clearance)) {
		b.text = append(b.text, &l)
	}
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
	at := b.foot()
	if b.show(Frame) {
		at = b.bar
	}
	l := label(Pressures, "pressure:scale", text)
	l.Role = Pressure
	b.must(l, at, at.Add(geom.Vec{0, 5 * b.mm}), at.Add(geom.Vec{20 * b.mm, 0}), b.foot().Add(geom.Vec{0, 8 * b.mm}))
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
