package scene

import (
	"fmt"
	"math"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/face"
	"hillset/ui/units"
)

// panelTicks are distances along the foot of a panel, with which end is which.
func (b *builder) panelTicks(p *sheetPanel) {
	const least, tick = 13.0, 1.2 // mm
	unit := b.unitLength()
	step := roundUp(least*b.mm/unit) * unit
	ticks := Path{Layer: PanelLayer, Tag: "panel:ticks", Stroke: Thin, Width: wThin}
	for i := 0.0; i*step <= p.Length*(1+1e-9); i++ {
		x := p.at[0] + i*step
		ticks.Parts = append(ticks.Parts, b.ink.chain(geom.Vec{x, p.at[1]}, geom.Vec{x, p.at[1] - tick*b.mm}))
		l := label(PanelLayer, "panel:ticks", fmt.Sprintf("%.6g", i*step/unit))
		if i == 0 {
			l.Text = startOf(p.Face) + " 0"
		}
		l.Height, l.Anchor = 2, Anchor{H: 0.5, V: 1}
		if i == 0 {
			l.Anchor.H = 0
		}
		if i > 0 && (i+1)*step > p.Length*(1+1e-9) {
			l.Text += " " + units.Unit(quantity.Length, b.o.Units)
		}
		b.put(l, geom.Vec{x, p.at[1] - (tick+0.8)*b.mm})
	}
	b.add(ticks)
}

// startOf is where the distances of a panel are counted from.
func startOf(f section.Face) string {
	switch f {
	case assess.LeftWing:
		return "far end"
	case assess.RightWing:
		return "box"
	}
	if f == section.Back || f == section.Front || f == assess.BackSkin {
		return "left"
	}
	return "front"
}

// roundUp is the least of 1, 2, 5 times a power of ten that is not below v.
func roundUp(v float64) float64 {
	s := oneTwoFive(v)
	for _, up := range []float64{1, 2, 2.5, 5} {
		if r := oneTwoFive(s * up * (1 + 1e-9)); r >= v*(1-1e-9) {
			return r
		}
	}
	return 10 * s
}

// panelTexts writes the values of the bars and then those of the sheets: a bar
// is too thin to give way.
func (b *builder) panelTexts(p *sheetPanel) {
	all := worstBay(p.bays)
	for _, g := range barGroups(p.bays) {
		b.barText(p, g)
	}
	for i := len(p.bays) - 1; i >= 0; i-- { // the worst first
		w := &p.bays[i]
		if w.Bar || b.bayText(p, w) || w != all || w.Ratio <= 1 {
			continue
		}
		l := bayLabel(w, ratioText(w.Ratio))
		b.callout(l, p.rect(w).Center(), 0.3)
	}
}

// barGroups gathers the bays of each bar and gives its worst.
func barGroups(bays []assess.Bay) []*assess.Bay {
	type bar struct {
		part     string
		low, at  float64
		vertical bool
	}
	var order []bar
	worst := map[bar]*assess.Bay{}
	for i := range bays {
		w := &bays[i]
		if !w.Bar {
			continue
		}
		k := bar{part: w.Part, low: w.Low}
		if w.High-w.Low > w.To-w.From && w.High-w.Low > 1 {
			k.at, k.vertical = w.From, true
		}
		old := worst[k]
		if old == nil {
			order = append(order, k)
		}
		if old == nil || bayWeight(w) > bayWeight(old) {
			worst[k] = w
		}
	}
	out := make([]*assess.Bay, len(order))
	for i, k := range order {
		out[i] = worst[k]
	}
	return out
}

// bayLabel is the text of a bay.
func bayLabel(w *assess.Bay, text string) Label {
	l := label(PanelLayer, "bay:"+w.Part, text)
	l.Anchor = Anchor{H: 0.5, V: 0.5}
	switch useOf(w.Ratio) {
	case useOver:
		l.Role, l.Bold = BeyondMark, true
	case useNone:
		l.Role = UnknownMark
	}
	return l
}

// barText writes the worst value of a bar on it, with its name where there is
// room.
func (b *builder) barText(p *sheetPanel, w *assess.Bay) {
	r := p.rect(w)
	value := ratioText(w.Ratio)
	l := bayLabel(w, value)
	l.Height = 2.2
	if r.H() > r.W() && r.H() > 1 { // upright: along its foot
		var spots []geom.Vec
		for _, share := range []float64{0.12, 0.88, 0.2, 0.8, 0.3, 0.7} {
			spots = append(spots, geom.Vec{r.Center()[0], r.Min[1] + share*r.H()})
		}
		b.put(l, spots...)
		return
	}
	mid := r.Center()
	var spots []geom.Vec
	for _, d := range []float64{0, 10, -10, 20, -20, 30, -30} {
		if x := mid[0] + d*b.mm; x > p.at[0] && x < p.at[0]+p.Length {
			spots = append(spots, geom.Vec{x, mid[1]})
		}
	}
	if _, tail, ok := cut2(w.Part); ok {
		long := l
		long.Text = tail + " " + value
		if face.Width(long.Text, long.Height, long.Bold)*b.mm < 0.6*p.Length && b.putIn(long, p, spots) {
			return
		}
	}
	b.putIn(l, p, spots)
}

// putIn puts a text at one of the spots, moved into the panel where it would
// reach out at its sides.
func (b *builder) putIn(l Label, p *sheetPanel, spots []geom.Vec) bool {
	half := (face.Width(l.Text, l.Height, l.Bold)/2 + clearance) * b.mm
	lo, hi := p.at[0]+half, p.at[0]+p.Length-half
	if lo > hi {
		return false
	}
	moved := make([]geom.Vec, len(spots))
	for i, s := range spots {
		moved[i] = geom.Vec{math.Min(math.Max(s[0], lo), hi), s[1]}
	}
	return b.put(l, moved...)
}

// bayText writes the value of a bay of sheet inside it, where it fits.
func (b *builder) bayText(p *sheetPanel, w *assess.Bay) bool {
	r := p.rect(w)
	text := ratioText(w.Ratio)
	if math.IsNaN(w.Ratio) {
		text = "?"
	}
	l := bayLabel(w, text)
	for l.Height > 1.8 && (face.Width(l.Text, l.Height, l.Bold)+2*clearance)*b.mm > r.W() {
		l.Height -= 0.1
	}
	if (face.Width(l.Text, l.Height, l.Bold)+2*clearance)*b.mm > r.W() {
		return false
	}
	for _, share := range []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.9, 0.1} {
		l.At = geom.Vec{r.Center()[0], r.Min[1] + share*r.H()}
		room := labelBox(&l, b.o.MMPerM, clearance)
		if room.around.Min[1] >= r.Min[1] && room.around.Max[1] <= r.Max[1] && b.at.free(room) {
			b.keep(l)
			return true
		}
	}
	return false
}

// Measures of the legend, mm.
const (
	keyBox  = 6.0
	keyHigh = 4.0
	keyGap  = 4.0
)

// keyTexts are what the legend says, beginning with the limit.
func keyTexts() []string {
	out := []string{"demand over strength; the limit is 1.00"}
	for u := range uses {
		out = append(out, u.words())
	}
	return out
}

// keyWidth is the room of one entry of the legend, mm.
func keyWidth(i int, text string) float64 {
	w := face.Width(text, hNote, false) + keyGap
	if i > 0 {
		w += keyBox + 1.5
	}
	return w
}

// keyRows is the number of rows that the legend takes in a width, mm.
func keyRows(width float64) int {
	x, rows := 0.0, 1
	for i, text := range keyTexts() {
		w := keyWidth(i, text)
		if x > 0 && x+w-keyGap > width {
			x, rows = 0, rows+1
		}
		x += w
	}
	return rows
}

// panelLegend is written along the foot of the drawing.
func (b *builder) panelLegend() {
	width := b.at.win.W()*b.o.MMPerM - 2*panelSide
	x, y := 0.0, panelKey*float64(keyRows(width))-panelKey/2
	for i, text := range keyTexts() {
		w := keyWidth(i, text)
		if x > 0 && x+w-keyGap > width {
			x, y = 0, y-panelKey
		}
		at := geom.Vec{(panelSide + x) * b.mm, y * b.mm}
		if i > 0 {
			u := use(i - 1)
			r := geom.Rect{Min: at.Sub(geom.Vec{0, keyHigh / 2 * b.mm}), Max: at.Add(geom.Vec{keyBox * b.mm, keyHigh / 2 * b.mm})}
			ring := []geom.Polyline{geom.Polyline(r.ToRing())}
			b.add(Path{Layer: PanelLayer, Tag: "legend", Parts: ring, Closed: true, Fill: u.role()})
			b.left = max(b.left, 60) // the legend is never without its signs
			b.useHatch("legend", u, r)
			b.add(Path{Layer: PanelLayer, Tag: "legend", Parts: ring, Closed: true, Stroke: Thin, Width: wThin})
			b.at.take(rectBox(r))
			at[0] += (keyBox + 1.5) * b.mm
		}
		l := label(PanelLayer, "legend", text)
		l.Anchor = Anchor{V: 0.5}
		b.must(l, at)
		x += w
	}
}
