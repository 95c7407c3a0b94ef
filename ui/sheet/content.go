package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// content is what the tables of a sheet are made from.
type content struct {
	p           *model.Project
	r           *assess.Result
	long, cross *section.View
	o           Options
	marks       map[string]zoneSample // samples for the legend, by tag
}

// show writes a value in the reader's units.
func (c *content) show(v float64, kind quantity.Kind) string {
	if math.IsNaN(v) {
		return "–"
	}
	return units.Format(v, kind, c.o.Units)
}

// feet tells whether the sheet is for readers of feet and inches.
func (c *content) feet() bool { return c.o.Units == units.US }

func (c *content) level(z float64) string { return units.FormatLevel(z, c.o.Units) }

// stageName is the name of a stage by its id.
func (c *content) stageName(id string) string {
	for _, s := range c.p.Stages {
		if s.ID == id && s.Name != "" {
			return s.Name
		}
	}
	return id
}

// onRoof is how far inside the edges of the roof the surface over it is read:
// at the very edge it may drop to the ground in front, m.
const onRoof = 0.02

// levels is the table of levels: existing ones in brackets.
func (c *content) levels() table {
	t := table{tag: "levels", title: "Levels (existing in brackets)", least: together, cols: []column{
		{head: "Point", flex: true}, {head: "Level", right: true}, {head: "Above formation", right: true},
	}}
	base := c.long.Formation
	add := func(name string, z float64, existing bool) {
		if !finite(z) {
			return
		}
		text := c.level(z)
		if existing {
			text = "[" + text + "]"
		}
		t.rows = append(t.rows, []cell{{text: name}, {text: text}, {text: c.level(z - base)}})
	}
	add("Bench mark", c.p.Site.Benchmark.Pos[1], true)
	if c.long.CutLine != nil {
		add("Formation", base, false)
		add("Foot of the back face", c.long.Toe[1], false)
		add("Crest of the back face", c.long.Crest[1], true)
	}
	if c.long.HasBox {
		b := c.long.Box
		add("Underside of the box", b.Min[1], false)
		add("Roof of the box", b.Max[1], false)
		c.addFinish(add, "Finished surface, front edge of roof", b.Min[0]+onRoof)
		c.addFinish(add, "Finished surface, back edge of roof", b.Max[0]-onRoof)
	}
	if w := c.p.Site.Water.Seasonal; w != nil {
		add("Seasonal water", *w, true)
	}
	if w := c.p.Site.Water.DesignHigh; w != nil {
		add("Design high water", *w, true)
	}
	for _, w := range c.p.Site.Water.Observed {
		name := "Water observed"
		if w.Season != "" {
			name += ", " + w.Season
		}
		add(name, w.Pos[1], true)
	}
	return t
}

func (c *content) addFinish(add func(string, float64, bool), name string, x float64) {
	if z, ok := c.long.Finish.At(x); ok {
		add(name, z, false)
	}
}

// earthworks is the table of cut and fill dimensions.
func (c *content) earthworks() table {
	t := table{tag: "earthworks", title: "Cut and fill", least: together, cols: []column{
		{head: "Dimension", flex: true}, {head: "Value", right: true},
	}}
	add := func(name, value string) {
		if value != "" {
			t.rows = append(t.rows, []cell{{text: name}, {text: value}})
		}
	}
	if c.long.CutLine != nil {
		add("Height of the back face", c.show(c.long.CutHeight, quantity.Length))
		add("Batter of the back face, H:V", c.batters(c.long.Batters))
		add("Batter of the side faces, H:V", c.batters(c.cross.Batters))
		add("Working space behind the box", c.show(c.p.Cut.WorkBack, quantity.Length))
		add("Working space each side", c.show(c.p.Cut.WorkSide, quantity.Length))
		add("Crest behind the box", c.crest())
		add("Cut in the long section", c.show(c.long.Excavated.Area(), quantity.Area))
		add("Cut in the cross section", c.show(c.cross.Excavated.Area(), quantity.Area))
	}
	if len(c.long.Fill)+len(c.cross.Fill) > 0 {
		add("Fill in the long section", c.show(area(c.long.Fill), quantity.Area))
		add("Fill in the cross section", c.show(area(c.cross.Fill), quantity.Area))
	}
	add("Cover on the roof, front edge", c.cover(c.long.Box.Min[0]+onRoof))
	add("Cover on the roof, back edge", c.cover(c.long.Box.Max[0]-onRoof))
	if h := c.p.Fill.LiftHeight; h > 0 {
		add("Height of one lift of fill", c.show(h, quantity.Length))
		add("Greatest lead of one side", c.show(c.p.Fill.MaxAhead, quantity.Length))
	}
	return t
}

// batters lists the slopes of faces from the foot up, without repetition.
func (c *content) batters(faces []section.Batter) string {
	out, last := "", ""
	for _, f := range faces {
		s := c.show(f.N, quantity.Slope)
		if s == last {
			continue
		}
		if out != "" {
			out += ", "
		}
		out, last = out+s, s
	}
	return out
}

func (c *content) crest() string {
	if !c.long.HasBox {
		return ""
	}
	return c.show(c.long.Crest[0]-c.long.Box.Max[0], quantity.Length)
}

// cover is the depth of what lies on the roof at x; empty when nothing does.
func (c *content) cover(x float64) string {
	if z, ok := c.long.Finish.At(x); ok && c.long.HasBox && z > c.long.Box.Max[1] {
		return c.show(z-c.long.Box.Max[1], quantity.Length)
	}
	return ""
}

func area(zones []section.Zone) float64 {
	sum := 0.0
	for _, z := range zones {
		sum += z.Region.Area()
	}
	return sum
}

// checks is the summary of the checks made, the governing one first.
func (c *content) checks() table {
	cases := false // named by any check
	for i := range c.r.Checks {
		cases = cases || caseOf(&c.r.Checks[i]) != ""
	}
	t := table{tag: "checks", title: "Checks: demand over capacity, the limit is 1.00; the largest ratio first, rules that are met last", least: 2, cols: []column{
		{head: "Part", flex: true}, {head: "Check", flex: true}, {head: "Worst stage", flex: true},
		{head: "Demand", right: true}, {head: "Capacity", right: true}, {head: "Ratio", right: true}, {head: "Verdict"},
	}}
	for i := range c.r.Checks {
		k := &c.r.Checks[i]
		if k.Verdict() == check.NotChecked {
			continue
		}
		beyond := k.Verdict() == check.Beyond
		row := []cell{
			{text: k.Part, bold: beyond}, {text: k.Title, bold: beyond}, {text: c.stageName(k.Stage)},
			{text: c.value(k.Demand)}, {text: c.value(k.Capacity)},
			{text: FormatRatio(k.Worst()), bold: beyond}, {text: k.Verdict().String(), bold: beyond},
		}
		if cases {
			row = slices.Insert(row, 3, cell{text: caseOf(k)})
		}
		t.rows = append(t.rows, row)
	}
	if cases {
		t.cols = slices.Insert(t.cols, 3, column{head: "Load case", flex: true})
	}
	if len(t.rows) == 0 {
		return paragraphs("checks", "Checks", []string{"No check could be made; see what is missing."})
	}
	return t
}

// keys is the list of the verdicts by the numbers at the marks of the drawing,
// in two columns and in one.
func (c *content) keys() (pairs, single table) {
	list := scene.KeysOf(c.r.Checks)
	single = table{tag: "keys", title: "Verdicts, by the numbers at the marks", least: together, cols: []column{
		{head: "No.", right: true}, {head: "Part", flex: true}, {head: "Verdict"},
	}}
	var cells [][]cell
	for i, k := range list {
		bold := k.Worst.Verdict() == check.Beyond
		cells = append(cells, []cell{{text: strconv.Itoa(i + 1), bold: bold}, {text: k.Part, bold: bold}, {text: k.Words, bold: bold}})
	}
	single.rows = cells
	pairs = single
	pairs.cols = append(slices.Clip(single.cols), single.cols...)
	half := (len(cells) + 1) / 2
	pairs.rows = make([][]cell, half)
	for i := range pairs.rows {
		right := make([]cell, len(single.cols))
		if half+i < len(cells) {
			right = cells[half+i]
		}
		pairs.rows[i] = append(slices.Clip(cells[i]), right...)
	}
	return pairs, single
}

// caseOf names the load case of the larger ratio of a check.
func caseOf(k *check.Check) string {
	if k.Case == "" || k.CaseLRFD != "" && k.RatioLRFD > k.Ratio {
		return k.CaseLRFD
	}
	return k.Case
}

func (c *content) value(q quantity.Q) string { return c.show(q.Val, q.Kind) }

func ratio(r float64) string {
	switch {
	case math.IsNaN(r):
		return "–"
	case math.IsInf(r, 1):
		return "no capacity"
	case r >= 1000:
		return "over 1000"
	}
	return fmt.Sprintf("%.2f", r)
}

// unchecked lists the checks that were not made, and why.
func (c *content) unchecked() table {
	t := table{tag: "unchecked", title: "Not checked", least: 2, cols: []column{
		{head: "Part", flex: true}, {head: "Check", flex: true}, {head: "What is missing", flex: true},
	}}
	for i := range c.r.Checks {
		if k := &c.r.Checks[i]; k.Verdict() == check.NotChecked {
			t.rows = append(t.rows, []cell{{text: k.Part}, {text: k.Title}, {text: Unmade(k, c.o.Units)}})
		}
	}
	for _, b := range c.r.Blocks {
		t.rows = append(t.rows, []cell{{text: b.Field}, {text: "input"}, {text: units.FormatProblem(b, c.o.Units)}})
	}
	return t
}

// assumed lists what was taken for granted throughout.
func (c *content) assumed() table {
	return paragraphs("assumed", "What was assumed", units.SayAll(c.r.Assumed, c.o.Units))
}

// cautions are what every sheet says, whatever the result.
func (c *content) cautions() table {
	texts := []string{
		"Call before you dig: every buried service is located and marked.",
		"A competent person inspects the cut daily, and after rain, frost or movement.",
		"Nobody goes between the box and the cut: it is a trench until it is filled.",
		"Fill both sides evenly, in lifts no higher than stated, without heavy plant beside the walls.",
		"Stop at cracks along the crest, a bulging foot, new seepage or movement of a wall.",
		"The local code and a licensed engineer decide. Confirm the soil values on site.",
	}
	if n := c.countUnchecked(); n > 0 {
		texts = append(texts, fmt.Sprintf("%d %s not made: see the list of what was not checked.", n, plural(n, "check was", "checks were")))
	}
	return paragraphs("cautions", "Before and during the work", texts)
}

// remarks are the project's own words.
func (c *content) remarks() table {
	var texts []string
	if c.p.Sheet.Notes != "" {
		texts = append(texts, c.p.Sheet.Notes)
	}
	return paragraphs("remarks", "Notes", texts)
}

func (c *content) countUnchecked() int { return len(c.unchecked().rows) }

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
