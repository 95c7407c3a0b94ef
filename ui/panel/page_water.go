package panel

import (
	"fmt"
	"strings"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// waterPage is what is known of the groundwater, and what keeps it away.
func (w *Window) waterPage() *page {
	return newPage("water", "3 Water", "The two levels are those of the water table in the hill as found, before anything is dug, at the back of the box. Ticked “Compute”, the flow to cut, box and drains is worked out from them; else water stands level at them in every stage that has water.", func(p *model.Project) []row {
		rows := []row{
			w.tick("Compute the water from the hill as found", func(p *model.Project) *bool { return &p.Site.Water.Computed }),
			w.optional("Design high water", "the highest level that the box is to bear", quantity.Length, func(p *model.Project) **float64 { return &p.Site.Water.DesignHigh }).asLevel(),
			w.optional("Seasonal water", "the ordinary level of the wet season", quantity.Length, func(p *model.Project) **float64 { return &p.Site.Water.Seasonal }).asLevel(),
			w.remark(waterAtBox),
		}
		rows = append(rows, when(computedWater,
			w.words("Without a seasonal level the highest observed levels are taken for it. High water needs its level: what was seen is no design level."),
			w.num("Rain that reaches the water, a year", "", quantity.Thickness, func(p *model.Project) *float64 { return &p.Site.Water.Recharge }).in(mm))...)
		rows = append(rows, w.remark(func(p *model.Project, sys units.System) string {
			return strings.Join(sheet.MoistWords(p, w.tables, sys), " ")
		}),
			head("Observed water"), w.waterTable())
		rows = append(rows, w.drainRows()...)
		rows = append(rows, w.sumpRows()...)
		rows = append(rows, w.swaleRows()...)
		return append(rows, w.coatRows(p)...)
	}).listing(func(p *model.Project) string { return count(len(p.Defence.Layers)) })
}

// computedWater tells whether the water is to be computed.
func computedWater(p *model.Project) bool { return p.Site.Water.Computed }

// waterAtBox says where the levels stand on the box.
func waterAtBox(p *model.Project, sys units.System) string {
	h := p.Site.Water.DesignHigh
	if h == nil {
		return "The underside of the box lies at level " + units.FormatLevel(p.Box.Level, sys) + ". Where the hole stays dry even in spring, give a level below that; measure in a dug hole, and ask who farms there."
	}
	where := "As given, "
	if p.Site.Water.Computed {
		where = "In the hill as found, before the works draw it down, "
	}
	d := *h - p.Box.Level
	if d <= 0 {
		return where + "high water stays " + units.Format(-d, quantity.Length, sys) + " below the underside of the box."
	}
	return where + "high water stands " + units.Format(d, quantity.Length, sys) + " above the underside of the box."
}

// waterRow is the table of observed levels.
type waterRow struct {
	*labelled
	entry *commitEntry
}

func (r *waterRow) show(p *model.Project, sys units.System) {
	if r.entry.show(waterText(p.Site.Water.Observed, sys)) {
		r.say("")
	}
}

func (w *Window) waterTable() *waterRow {
	r := &waterRow{}
	r.entry = newCommitLines(func(text string) {
		pts, err := readWater(text, w.desk.Units())
		if err != nil {
			r.say(w.explain(err))
			return
		}
		keptWater(pts, w.desk.Project().Site.Water.Observed, w.desk.Units())
		if r.commit(func(p *model.Project) error { p.Site.Water.Observed = pts; return nil }) {
			r.entry.taken()
			r.show(w.desk.Project(), w.desk.Units())
		}
	})
	r.entry.SetMinRowsVisible(5)
	r.labelled = w.stacked("Type observed water", "One a line: distance; level; season; note. Or click with the tool Water (W).", r.entry)
	r.entry.back = func() { r.say("") }
	return r
}

// keptWater is kept for observed levels.
func keptWater(typed, before []model.WaterPoint, sys units.System) {
	var a, b []model.Vec
	for _, q := range typed {
		a = append(a, q.Pos)
	}
	for _, q := range before {
		b = append(b, q.Pos)
	}
	for i, v := range kept(a, b, sys) {
		typed[i].Pos = v
	}
}

// waterText writes observed levels as the table shows them.
func waterText(pts []model.WaterPoint, sys units.System) string {
	var b strings.Builder
	for _, q := range pts {
		cells := []string{surveyed(q.Pos[0], sys), surveyed(q.Pos[1], sys), q.Season, q.Note}
		b.WriteString(strings.TrimRight(strings.Join(cells, "; "), "; ") + "\n")
	}
	return b.String()
}

// readWater reads the table back. Cells are parted by semicolons or tabs.
func readWater(text string, sys units.System) ([]model.WaterPoint, error) {
	var out []model.WaterPoint
	for i, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		cells := strings.Split(strings.ReplaceAll(line, "\t", ";"), ";")
		if len(cells) < 2 {
			return nil, fmt.Errorf("line %d: %q: part distance and level by a semicolon or a tab", i+1, strings.TrimSpace(line))
		}
		if len(cells) > 4 {
			return nil, fmt.Errorf("line %d: %d cells, at most distance; level; season; note", i+1, len(cells))
		}
		var q model.WaterPoint
		for k := range q.Pos {
			v, err := units.Parse(quantity.Length, strings.TrimSpace(cells[k]), sys)
			if err != nil {
				return nil, fmt.Errorf("line %d: %w", i+1, err)
			}
			q.Pos[k] = v
		}
		for k, c := range cells[2:] {
			*[]*string{&q.Season, &q.Note}[k] = strings.TrimSpace(c)
		}
		out = append(out, q)
	}
	return out, nil
}
