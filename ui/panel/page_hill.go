package panel

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2/widget"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

// hillPage is the site: the ground line as drawn or typed, the bench mark.
func (w *Window) hillPage() *page {
	return newPage("hill", "1 Hill", "Draw the ground with the tool above, or type it here: x runs into the hill.", func(*model.Project) []row {
		return []row{
			w.text("Project", "", func(p *model.Project) *string { return &p.Title }),
			head("Ground line"),
			w.lineTable("Ground line", "distance and level, one point a line; paste from a spreadsheet works", func(p *model.Project) *[]model.Vec { return &p.Site.Ground }),
			buttons(
				widget.NewButton("Shots: slope distance and angle…", w.shotsDialog),
				widget.NewButton("Import CSV…", w.importGround),
			),
			w.num("Cross slope", "rise per metre to the right, looking into the hill", quantity.Gradient, func(p *model.Project) *float64 { return &p.Site.CrossSlope }),
			head("Bench mark"),
			w.text("Description", "", func(p *model.Project) *string { return &p.Site.Benchmark.Description }),
			w.num("Its distance", "", quantity.Length, func(p *model.Project) *float64 { return &p.Site.Benchmark.Pos[0] }),
			w.num("Its level", "", quantity.Length, func(p *model.Project) *float64 { return &p.Site.Benchmark.Pos[1] }),
			head("Climate"),
			w.num("Ground snow", "", quantity.Pressure, func(p *model.Project) *float64 { return &p.Site.Climate.GroundSnow }),
			w.num("Frost depth", "", quantity.Length, func(p *model.Project) *float64 { return &p.Site.Climate.FrostDepth }),
			w.num("Earthquake kh", "share of gravity; acts in stages with earthquake", quantity.None, func(p *model.Project) *float64 { return &p.Site.Climate.Kh }),
		}
	})
}

// lineRow is a polyline as a typed table: one point a line.
type lineRow struct {
	labelled
	entry *commitEntry
	ref   func(p *model.Project) *[]model.Vec
}

func (r *lineRow) show(p *model.Project, sys units.System) { r.entry.show(lineText(*r.ref(p), sys)) }

// lineText writes points as the table shows them.
func lineText(pts []model.Vec, sys units.System) string {
	var b strings.Builder
	for _, q := range pts {
		fmt.Fprintf(&b, "%s\t%s\n", units.Entry(q[0], quantity.Length, sys), units.Entry(q[1], quantity.Length, sys))
	}
	return b.String()
}

// lineTable makes the table of a polyline.
func (w *Window) lineTable(label, help string, ref func(p *model.Project) *[]model.Vec) *lineRow {
	r := &lineRow{ref: ref}
	r.entry = newCommitLines(func(text string) {
		pts, err := w.readPoints(text)
		if err == nil {
			err = w.desk.Edit("Type "+strings.ToLower(label), "", func(p *model.Project) error { *ref(p) = pts; return nil })
		}
		if err != nil {
			r.say(w.explain(err))
			return
		}
		r.say("")
		r.entry.shown = "\x00"
		r.show(w.desk.Project(), w.desk.Units())
	})
	r.entry.SetMinRowsVisible(7)
	r.labelled = stacked(help, r.entry)
	return r
}
