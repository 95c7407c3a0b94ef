package panel

import (
	"context"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// scenariosPage says what water does when the drains fail, one case after the
// other.
func (w *Window) scenariosPage() *workedPage {
	pg := newWorkedPage(w, "scenarios", "14 What if", "What the water does to the finished box when its drains work, half work, are blocked, when the pump is dead, and when the water is high. "+sheet.ScenarioHeld)
	var found []assess.Scenario
	var of *assess.Result
	pg.clear = func() { found, of = nil, nil }
	pg.work = func(ctx context.Context, r *assess.Result, show func(func())) error {
		list, err := assess.Scenarios(ctx, r.Project, w.tables)
		if err == nil {
			show(func() { of, found = r, list })
		}
		return err
	}
	pg.says = func() string { return plural(len(found), "case worked out", "cases worked out") }
	pg.make = func() []fyne.CanvasObject {
		var out []fyne.CanvasObject
		if len(found) > 0 {
			out = append(out, w.scenarioTable(found, of))
		}
		for i := range found {
			out = append(out, w.scenarioCard(i, &found[i], of))
		}
		return out
	}
	return pg
}

// scenarioTable sets the cases side by side: water, worst ratio and time.
func (w *Window) scenarioTable(found []assess.Scenario, r *assess.Result) fyne.CanvasObject {
	table := container.New(&column{gap: 3})
	line := func(bold bool, texts ...string) {
		var objs []fyne.CanvasObject
		for _, text := range texts {
			f := newFlow(text).sized(theme.SizeNameCaptionText)
			if bold {
				f = f.strong()
			}
			objs = append(objs, f)
		}
		table.Add(container.New(&shares{of: []float32{0.32, 0.27, 0.19, 0.22}, gap: 5}, objs...))
	}
	heads := sheet.ScenarioHeads
	line(true, heads[0], heads[1], heads[3], heads[4])
	for i := range found {
		s := &found[i]
		cells := sheet.ScenarioCells(s, r, w.desk.Units())
		worst := "not checked"
		if !math.IsNaN(s.Worst) {
			worst = sheet.FormatRatio(s.Worst)
			if s.Worst > 1 {
				worst += ", beyond"
			}
		}
		line(false, cells[0], cells[1], worst, cells[4])
	}
	return card(table)
}

// scenarioCard shows one case; its worst check leads to page 9 where the
// project itself has it.
func (w *Window) scenarioCard(i int, s *assess.Scenario, r *assess.Result) fyne.CanvasObject {
	cells := sheet.ScenarioCells(s, r, w.desk.Units())
	title := newFlow(numbered(i, cells[0])).strong()
	if s.Worst > 1 {
		title.colour = verdictColour(check.Beyond)
	}
	objs := []fyne.CanvasObject{title}
	for k, head := range sheet.ScenarioHeads[1:] {
		text := head + ": " + cells[k+1]
		if head == "Worst ratio" && s.Worst > 1 {
			text += " – beyond limits"
		}
		objs = append(objs, newFlow(text+"."))
	}
	if s.Inflow > 0 {
		objs = append(objs, newFlow("The drains take "+sheet.PerHour(s.Inflow, w.desk.Units())+"."))
	}
	if s.Why != "" {
		objs = append(objs, newFlow(sentence(units.Say(s.Why, w.desk.Units()))+".").caption())
	}
	if k := slices.IndexFunc(r.Checks, func(c check.Check) bool { return c.ID == s.Check && c.Part == s.Part }); s.Check != "" && k >= 0 {
		c := &r.Checks[k]
		objs = append(objs, buttons(newChip("As drawn, on page 9", func() { w.showCheck(c) })).object())
	}
	return card(objs...)
}
