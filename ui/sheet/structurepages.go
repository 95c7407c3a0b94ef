package sheet

import (
	"fmt"
	"math"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// Parts of the sheets of the structure.
const (
	headingH  = 8.0  // of a heading with the air below it, mm
	panelPart = 0.52 // of a large sheet's height for the panels
	wingPart  = 0.58 // the same where wing walls are among them: they take a row of their own
)

// structure draws the sheets of the structure from number n on: the box folded
// flat, the section with what the steel does beside the kit, and the charts.
func (d *document) structure(b *board, n int) {
	s := d.c.o.Structure
	if s == nil {
		return
	}
	f := d.fresh(b, n)
	if d.size.Large {
		part := panelPart
		if d.c.p.Wings.Courses > 0 {
			part = wingPart
		}
		upper := f
		upper.h = part*f.h - gutter/2
		d.panels(b, upper)
		f.y, f.h = f.y+part*f.h+gutter/2, f.h-part*f.h-gutter/2
	} else {
		d.panels(b, f)
		n++
		f = d.fresh(b, n)
	}
	left := d.steel(b, f)
	for ; len(left) > 0 && b.err == nil; left, _ = flow(b, f, left, d.furtherCap, f.h) {
		n++
		f = d.fresh(b, n)
	}
	d.climate(b, d.water(b, d.charts(b, n)))
}

// fresh begins a further sheet with its number and gives its field.
func (d *document) fresh(b *board, n int) box {
	w, h := d.size.page(d.c.o.Landscape)
	d.begin(b, w, h)
	in := d.inner()
	d.strip(b, box{in.x, in.bottom() - stripH, in.w, stripH}, n)
	in.h -= stripH + gutter/2
	return in
}

// heading writes the heading of a field, in smaller letters where it would not
// fit in one line, and gives what is below it.
func heading(b *board, tag, text string, f box) box {
	s := style{cap: capHead, bold: true, ink: black}
	text = b.clean(text)
	if s.width(text) > f.w {
		s.cap = capBody
	}
	h := headingH - leading*s.cap
	for i, line := range breakLines(s, text, f.w) {
		b.text(tag+":title", s, f.x, f.y+s.cap*(1+leading*float64(i)), line)
		h += leading * s.cap
	}
	f.y, f.h = f.y+h, f.h-h
	return f
}

// lay puts a scene that was laid out for a field into it; lower left corners
// meet.
func (b *board) lay(sc *scene.Scene, f box) {
	fig := &figure{sc: sc, k: sc.MMPerM}
	fig.draw(b, f.x, f.bottom())
}

// panels draws the box folded flat.
func (d *document) panels(b *board, f box) {
	f = heading(b, "panels", "The box folded flat: demand over strength of every bay, the worst of all stages", f)
	sc, err := scene.BuildPanels(d.c.r, scene.PanelOptions{Width: f.w, Height: f.h, Units: d.c.o.Units})
	if err != nil {
		d.excuse(b, "panels", err.Error(), f)
		return
	}
	b.lay(sc, f)
}

// excuse says in a field why it is empty.
func (d *document) excuse(b *board, tag, why string, f box) {
	s := style{cap: capBody, ink: black}
	for i, line := range breakLines(s, b.clean("Not drawn: "+units.Say(why, d.c.o.Units)), f.w) {
		b.text(tag+":why", s, f.x, f.y+capBody*(1+leading*float64(i)), line)
	}
}

// steel draws the section with what the steel does, and beside or below it the
// kit; it gives what of the kit found no room.
func (d *document) steel(b *board, f box) queue {
	kit := queue{d.c.kit()}
	if d.c.o.Structure.Portrait != nil {
		kit = append(kit, d.c.leftOut())
	}
	drawing, rest := f, f
	if f.w > f.h {
		drawing.w = 0.5*f.w - gutter/2
		rest.x, rest.w = f.x+0.5*f.w+gutter/2, 0.5*f.w-gutter/2
	} else {
		drawing.h = 0.55*f.h - gutter/2
		rest.y, rest.h = f.y+0.55*f.h+gutter/2, 0.45*f.h-gutter/2
	}
	d.steelSection(b, drawing)
	left, _ := flow(b, rest, kit, d.furtherCap, rest.h)
	return left
}

// Ground shown round the box in the section of the steel, m, and the layers
// drawn.
const aroundBox = 0.5

var steelLayers = map[scene.Layer]bool{
	scene.BoxLayer: true, scene.Deformed: true, scene.MomentLines: true,
}

// steelSection draws the cross section of the governing stage with deformed
// shape and moments at the largest standard scale that its field holds.
func (d *document) steelSection(b *board, f box) {
	s := d.c.o.Structure
	title := "What the steel does: movement and moments, where the worst check is worst"
	if s.Portrait == nil {
		d.excuse(b, "steel", s.Why, heading(b, "steel", title, f))
		return
	}
	f = heading(b, "steel", title, f)
	land := geom.Rect{Min: s.View.Box.Min.Sub(geom.Vec{aroundBox, aroundBox}), Max: s.View.Box.Max.Add(geom.Vec{aroundBox, aroundBox})}
	scale, ok := LargestScale(d.c.feet(), land.W(), land.H(), f.w-steelRoom.Left-steelRoom.Right, f.h-steelRoom.Top-steelRoom.Bottom)
	if !ok {
		d.excuse(b, "steel", "the field is too small", f)
		return
	}
	k := scale.MMPerM()
	clip := steelRoom.round(land, k)
	sc, err := scene.Build(s.View, d.c.r, scene.Options{MMPerM: k, Units: d.c.o.Units, Project: d.c.p, Bars: tables.Default().Bar,
		Show: steelLayers, Land: land, Clip: clip, Portrait: s.Portrait})
	if err != nil {
		d.excuse(b, "steel", err.Error(), f)
		return
	}
	fig, err := newFigure(without(sc, "caption", "scalebar"), k)
	if err != nil {
		d.excuse(b, "steel", err.Error(), f)
		return
	}
	fig.draw(b, f.x-fig.ext.x, f.y-fig.ext.y)
	b.text("steel:scale", style{cap: capBody, ink: black}, f.x, f.y+fig.ext.h+2*capBody, fitted(style{cap: capBody}, b.clean(under(fmt.Sprintf("Cross section at %s, stage “%s”", d.c.show(s.Portrait.Station, quantity.Length), d.c.stageName(s.Portrait.Stage)), scale.Name)), f.w))
}

// steelRoom is the room round that section for values and notes, mm.
var steelRoom = Room{Left: 22, Right: 22, Top: 12, Bottom: 26}

// leftOut lists what has no lines in that section.
func (c *content) leftOut() table {
	return paragraphs("steel-out", "Not drawn in that section", units.SayAll(c.o.Structure.Portrait.Out, c.o.Units))
}

// kit is the take-off of what is built in.
func (c *content) kit() table {
	t := table{tag: "kit", title: "Take-off: what is bought to set, strengthen and cover the box", least: 2, cols: []column{
		{head: "Item", flex: true}, {head: "Pieces", right: true}, {head: "Length", right: true}, {head: "Quantity", right: true}, {head: "Weight", right: true}, {head: "Price", right: true},
	}}
	k := &c.r.Kit
	for i := range k.Items {
		it := &k.Items[i]
		row := []cell{{text: upperFirst(units.Say(it.Text, c.o.Units))}, {text: "–"}, {text: "–"}, {text: ItemWords(it, c.o.Units)}, {text: "–"}, {text: Money(it.Price)}}
		if it.Count != 0 {
			row[1].text = fmt.Sprint(it.Count)
		}
		if it.Length != 0 {
			row[2].text = c.show(it.Length, quantity.Length)
		}
		if it.Mass != 0 {
			row[4].text = c.show(it.Mass, quantity.Mass)
		}
		t.rows = append(t.rows, row)
	}
	if len(t.rows) == 0 {
		return paragraphs("kit", "Take-off", []string{"Nothing is listed."})
	}
	t.rows = append(t.rows, []cell{{text: "All", bold: true}, {}, {}, {}, {text: c.show(k.Mass, quantity.Mass), bold: true}, {text: Money(k.Price), bold: true}})
	t.foot = "Net quantities, without waste; the price list of the project is the user's."
	if math.IsNaN(k.Price) {
		t.foot += " No price is given for: " + PriceWords(k)[len(NotPriced)+2:] + "."
	}
	return t
}

// Heights of a chart without its words, mm: the least that reads well, and the
// most.
const (
	leastChart = 46.0
	mostChart  = 84.0
)

// charts draws the solved answers in rows, as many to a sheet as can be read; n
// is the number of the sheet before, and given back is that of the last.
func (d *document) charts(b *board, n int) int {
	cols := 1
	switch {
	case d.size.Large && d.c.o.Landscape:
		cols = 3
	case d.size.Large || d.c.o.Landscape:
		cols = 2
	}
	curves := d.c.o.Structure.Curves
	for len(curves) > 0 && b.err == nil {
		n++
		f := heading(b, "charts", "How far each thing may go, the rest kept as drawn", d.fresh(b, n))
		s := style{cap: capLeast, ink: black}
		for _, line := range breakLines(s, assess.CurvesCount, f.w) {
			b.text("charts:note", s, f.x, f.y, line)
			f.y, f.h = f.y+leading*capLeast, f.h-leading*capLeast
		}
		f.y, f.h = f.y+capLeast, f.h-capLeast
		curves = d.chartRows(b, f, cols, curves)
	}
	return n
}

// chartRows draws as many rows of charts as a field holds, at least one, and
// gives the curves that are left.
func (d *document) chartRows(b *board, f box, cols int, curves []assess.Curve) []assess.Curve {
	w := (f.w - float64(cols-1)*gutter) / float64(cols)
	var words []float64 // the height of a row but for its charts
	used := 0.0
	for at := 0; at < len(curves); at += cols {
		h := 0.0
		for i := at; i < min(at+cols, len(curves)); i++ {
			h = max(h, d.chartWords(b, &curves[i], w).height())
		}
		if len(words) > 0 && used+h+leastChart > f.h {
			break
		}
		words, used = append(words, h), used+h+leastChart+gutter
	}
	chart := min(leastChart+max(0, f.h+gutter-used)/float64(len(words)), mostChart)
	for row, h := range words {
		for k := range cols {
			if i := row*cols + k; i < len(curves) {
				d.chart(b, &curves[i], box{f.x + float64(k)*(w+gutter), f.y, w, h + chart})
			}
		}
		f.y += h + chart + gutter
	}
	return curves[min(len(words)*cols, len(curves)):]
}

// chartText is what stands over and below a chart: the question in a line or
// more, and what is said of the answer.
type chartText struct {
	question, lines []string
	head            style
}

// chartHeadGap is between the question and its chart, mm.
const chartHeadGap = 3.0

// height is the height of all of it, mm.
func (t *chartText) height() float64 { return t.over() + t.below() }

func (t *chartText) over() float64 {
	return t.head.cap*(1+leading*float64(len(t.question)-1)) + chartHeadGap
}

func (t *chartText) below() float64 { return capLeast * (1 + leading*float64(len(t.lines))) }

// chartWords breaks the words of an answer to a width.
func (d *document) chartWords(b *board, c *assess.Curve, w float64) *chartText {
	first, second := CurveWords(c, d.c.r, d.c.o.Units)
	_, gaps := ChartOf(c)
	t := &chartText{head: style{cap: capBody * headShare, bold: true, ink: black}}
	t.question = breakLines(t.head, b.clean(c.Question), w)
	for _, text := range []string{first, second, units.Say(gaps, d.c.o.Units), units.Say(c.Held, d.c.o.Units)} {
		if text != "" {
			t.lines = append(t.lines, breakLines(style{cap: capLeast}, b.clean(text), w)...)
		}
	}
	return t
}

// chart draws one answer with its words below it.
func (d *document) chart(b *board, c *assess.Curve, f box) {
	t := d.chartWords(b, c, f.w)
	for i, line := range t.question {
		b.text("chart:title", t.head, f.x, f.y+t.head.cap*(1+leading*float64(i)), line)
	}
	g := box{f.x, f.y + t.over(), f.w, f.h - t.height()}
	bare, _ := ChartOf(c)
	sc, err := scene.BuildCurve(bare, scene.CurveOptions{Width: g.w, Height: g.h, Units: d.c.o.Units})
	if err != nil {
		d.excuse(b, "chart", err.Error(), g)
	} else {
		b.lay(sc, g)
	}
	for i, line := range t.lines {
		b.text("chart:words", style{cap: capLeast, ink: black}, f.x, g.bottom()+capLeast*(1+leading*float64(i))+capLeast/2, line)
	}
}
