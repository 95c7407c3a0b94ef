package sheet

import (
	"math"
	"strings"

	"hillset/engine/check"
	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// Parts of the sheets of the water.
const (
	waterPart    = 0.54 // of a sheet's height for the section, at most
	sectionShare = 0.66 // of a sheet's width, beside the grading chart
	chartShare   = 0.55 // height of the grading chart over its width, elsewhere
)

// water draws the sheets of the water after sheet n: the long section with
// what was computed, and the tables. It gives the number of the last one.
func (d *document) water(b *board, n int) int {
	s := d.c.o.Structure
	if s == nil || s.Water == nil {
		return n
	}
	n++
	f := d.fresh(b, n)
	tables := d.c.waterTables(s.Water)
	switch {
	case d.size.Large:
		upper := f
		upper.h = waterPart*f.h - gutter/2
		if d.c.o.Landscape { // section and chart side by side
			upper.w = sectionShare*f.w - gutter/2
		}
		used := d.waterSection(b, upper)
		if d.c.o.Landscape {
			used = max(used, leastGrading)
			d.gradingChart(b, box{upper.right() + gutter, f.y, f.w - upper.w - gutter, used - gutter})
		}
		f = f.under(used)
		left, right := f, f
		left.w = 0.5*f.w - gutter/2
		right.x, right.w = f.x+0.5*f.w+gutter/2, 0.5*f.w-gutter/2
		if !d.c.o.Landscape {
			chart := right
			chart.h = chartShare * right.w
			d.gradingChart(b, chart)
			right.y, right.h = right.y+chart.h+gutter, right.h-chart.h-gutter
		}
		if tables, _ = flow(b, left, tables, capLeast, f.h); len(tables) > 0 {
			tables, _ = flow(b, right, tables, capLeast, f.h)
		}
	default:
		most := math.Min(0.45*f.h, chartShare*f.w)
		if f = f.under(d.waterSection(b, f)); f.h < leastGrading {
			n++
			f = d.fresh(b, n)
		}
		chart := f
		chart.h = math.Min(most, f.h)
		d.gradingChart(b, chart)
		f.y, f.h = f.y+chart.h+gutter, f.h-chart.h-gutter
		tables, _ = flow(b, f, tables, capLeast, f.h)
	}
	return d.furtherTables(b, n, tables)
}

// furtherTables draws tables that are left over on sheets of their own after
// sheet n, and gives the number of the last one.
func (d *document) furtherTables(b *board, n int, tables queue) int {
	for len(tables) > 0 && b.err == nil {
		n++
		f := d.fresh(b, n)
		if d.size.Large {
			half := f
			half.w = 0.5*f.w - gutter/2
			if tables, _ = flow(b, half, tables, d.furtherCap, half.h); len(tables) > 0 {
				half.x = f.x + 0.5*f.w + gutter/2
				tables, _ = flow(b, half, tables, d.furtherCap, half.h)
			}
			continue
		}
		tables, _ = flow(b, f, tables, d.furtherCap, f.h)
	}
	return n
}

// waterLayers are those of the section of the water.
var waterLayers = map[scene.Layer]bool{
	scene.Ground: true, scene.Fills: true, scene.BoxLayer: true, scene.Water: true, scene.Callouts: true, scene.Frame: true, scene.Flow: true, scene.Heads: true,
}

// Ground shown round box and cut in the section of the water, m.
const (
	waterBelow = 2.5
	waterAbove = 0.6
)

// waterBesides is what is shown beside them, m: the most that does not make the
// drawing smaller.
var waterBesides = []float64{3.5, 2, 1, 0.2}

// waterLand is the part of the section that is shown: box and cut with the
// ground round them.
func waterLand(v *section.View, beside float64) geom.Rect {
	lo, hi := v.Box.Min[0]-beside, math.Max(v.Crest[0], v.Box.Max[0])+beside
	lo, hi = math.Max(lo, v.Ground[0][0]), math.Min(hi, v.Ground[len(v.Ground)-1][0])
	top := v.Box.Max[1]
	if z, ok := v.Ground.At(hi); ok {
		top = math.Max(top, z)
	}
	return geom.Rect{Min: geom.Vec{lo, v.Formation - waterBelow}, Max: geom.Vec{hi, top + waterAbove}}
}

// waterRoom is the room round that section for notes, mm.
var waterRoom = Room{Left: 18, Right: 18, Top: 9, Bottom: 14}

// waterScale is the largest standard scale at which a field holds the section of
// the water, and the ground that is shown at it.
func (d *document) waterScale(v *section.View, f box) (best Scale, land geom.Rect, ok bool) {
	for _, beside := range waterBesides {
		l := waterLand(v, beside)
		s, fits := LargestScale(d.c.feet(), l.W(), l.H(), f.w-waterRoom.Left-waterRoom.Right, f.h-waterRoom.Top-waterRoom.Bottom)
		if fits && (!ok || s.Den < best.Den) {
			best, land, ok = s, l, true
		}
	}
	return best, land, ok
}

// waterSection draws the long section with the water at the largest standard
// scale that its field holds, and gives the height used.
func (d *document) waterSection(b *board, f box) (used float64) {
	w, top := d.c.o.Structure.Water, f.y
	f = heading(b, "water", "The water: table, flow lines and heads as computed, finished stage with the highest water behind the box", f)
	if w.View == nil {
		d.excuse(b, "water", "no finished stage has water that could be computed", f)
		return f.y - top + 2*leading*capBody
	}
	scale, land, ok := d.waterScale(w.View, f)
	if !ok {
		d.excuse(b, "water", "the field is too small", f)
		return f.bottom() - top
	}
	k := scale.MMPerM()
	sc, err := scene.Build(w.View, d.c.r, scene.Options{MMPerM: k, Units: d.c.o.Units, Project: d.c.p, Show: waterLayers, Land: land, Clip: waterRoom.round(land, k)})
	if err != nil {
		d.excuse(b, "water", err.Error(), f)
		return f.bottom() - top
	}
	fig, err := newFigure(without(sc, "caption"), k)
	if err != nil {
		d.excuse(b, "water", err.Error(), f)
		return f.bottom() - top
	}
	fig.draw(b, f.x-fig.ext.x, f.y-fig.ext.y)
	text := b.clean(under("Long section, stage “"+d.c.stageName(w.View.Stage.ID)+"”", scale.Name))
	b.text("water:scale", style{cap: capBody, ink: black}, f.x, f.y+fig.ext.h+2*capBody, fitted(style{cap: capBody}, text, f.w))
	return f.y - top + fig.ext.h + 2*capBody + gutter
}

// under is what is left of a field below a height.
func (b box) under(h float64) box { return box{b.x, b.y + h, b.w, max(0, b.h-h)} }

// leastGrading is the height of a grading chart with its heading that still reads
// well, mm.
const leastGrading = 80.0

// gradingChart draws the gradings with what is missing below them.
func (d *document) gradingChart(b *board, f box) {
	g := d.c.o.Structure.Water.Gradings
	f = heading(b, "grading", "Grading of ground, fill and stone; filter band, openings", f)
	s := style{cap: capLeast, ink: black}
	var lines []string
	for _, note := range g.Notes {
		lines = append(lines, breakLines(s, b.clean(units.Say(note, d.c.o.Units)), f.w)...)
	}
	c := f
	c.h -= float64(len(lines))*leading*capLeast + capLeast
	if len(g.Lines) > 0 {
		sc, err := scene.BuildGrading(g, scene.CurveOptions{Width: c.w, Height: c.h, Units: d.c.o.Units})
		if err != nil {
			d.excuse(b, "grading", err.Error(), c)
		} else {
			b.lay(sc, c)
		}
	} else {
		c.h = 0
	}
	for i, line := range lines {
		b.text("grading:notes", s, f.x, c.bottom()+capLeast*(1+leading*float64(i))+capLeast/2, line)
	}
}

// waterTables are the tables of the sheets of the water.
func (c *content) waterTables(w *Water) queue {
	out := queue{c.scenarios(w), c.drainTable(w)}
	for i, p := range w.Words {
		t := paragraphs("water-words", p.Title, p.Lines)
		if i == 0 {
			t.title = "Computed: " + lowerFirst(p.Title)
		}
		out = append(out, t)
	}
	return append(out, c.waterChecks(), c.waterUnchecked())
}

// scenarios is the table of what happens when drains fail.
func (c *content) scenarios(w *Water) table {
	if len(w.Scenarios) == 0 {
		return paragraphs("scenarios", "When the drains fail", []string{"Not worked out: " + w.Why + "."})
	}
	t := table{tag: "scenarios", title: "When the drains fail", least: 2, foot: ScenarioHeld}
	for i, head := range ScenarioHeads {
		t.cols = append(t.cols, column{head: head, flex: i == 0 || i == 1 || i == 3})
	}
	for i := range w.Scenarios {
		var row []cell
		for _, text := range ScenarioCells(&w.Scenarios[i], c.r, c.o.Units) {
			row = append(row, cell{text: text})
		}
		t.rows = append(t.rows, row)
	}
	return t
}

// drainTable is the drain schedule.
func (c *content) drainTable(w *Water) table {
	if len(w.Drain) == 0 {
		return paragraphs("drains", "Drain schedule", []string{"No drain is planned."})
	}
	t := table{tag: "drains", title: "Drain schedule", least: 2, cols: []column{{head: "Item"}, {head: "Size", flex: true}}}
	for _, r := range w.Drain {
		t.rows = append(t.rows, []cell{{text: r[0]}, {text: r[1]}})
	}
	return t
}

// waterChecks are the checks of drains and filters with their working.
func (c *content) waterChecks() table {
	var lines []string
	for _, k := range WaterChecks(c.r) {
		if k.Verdict() == check.NotChecked {
			continue
		}
		lines = append(lines, c.workedLine(k))
	}
	if len(lines) == 0 {
		lines = []string{"None was made."}
	}
	return paragraphs("water-checks", "Checks of drains, filter and outlet", lines)
}

// workedLine is a check with its working in one paragraph.
func (c *content) workedLine(k *check.Check) string {
	text := k.Title + ": ratio " + FormatRatio(k.Worst()) + ", " + k.Verdict().String() + ". " + upperFirst(units.Say(k.Source, c.o.Units)) + "."
	for _, l := range k.Working {
		text += " " + l.Text + ": " + c.show(l.Result.Val, l.Result.Kind) + ";"
	}
	return strings.TrimRight(text, ";.") + "."
}

// waterUnchecked lists the checks of drains that were not made, with the
// reason.
func (c *content) waterUnchecked() table {
	var lines []string
	for _, k := range WaterChecks(c.r) {
		if k.Verdict() == check.NotChecked {
			lines = append(lines, k.Title+": "+Unmade(k, c.o.Units)+".")
		}
	}
	lines = append(lines, "How soils and cloths clog over the years, frozen outlets, burst pipes, water that runs along the outside of pipes: look at the outlet after every storm.")
	return paragraphs("water-unchecked", "Of the water, not checked", lines)
}
