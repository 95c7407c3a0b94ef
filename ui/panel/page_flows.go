package panel

import (
	"context"

	"fyne.io/fyne/v2"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/ui/scene"
	"hillset/ui/sheet"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

// flowsPage says what was computed of the water, in words with numbers, and
// leads to the checks of the drains.
func (w *Window) flowsPage() *workedPage {
	pg := newWorkedPage(w, "flows", "13 Flows", "Where the water stands and where it goes: computed from the ground, the permeability of each soil on page 2, and the levels and drains on page 3.")
	var parts []sheet.WaterPart
	var grades scene.Gradings
	var of *assess.Result
	pg.clear = func() { parts, grades, of = nil, scene.Gradings{}, nil }
	pg.work = func(ctx context.Context, r *assess.Result, show func(func())) error {
		g := scene.GradingsOf(r.Project, serviceView(r), w.tables)
		if err := ctx.Err(); err != nil {
			return err
		}
		show(func() { of, grades = r, g })
		return nil
	}
	pg.says = func() string { return "Water and drains of this project" }
	pg.make = func() []fyne.CanvasObject {
		if of == nil {
			return nil
		}
		parts = sheet.WaterWords(of, w.tables, w.desk.Units())
		var out []fyne.CanvasObject
		for _, p := range parts {
			objs := []fyne.CanvasObject{newFlow(p.Title).strong()}
			for _, line := range p.Lines {
				objs = append(objs, newFlow(line))
			}
			out = append(out, card(objs...))
		}
		out = append(out, w.scheduleCard(of)...)
		out = append(out, w.checkList("Checks of drains, filter, outlet and sump", sheet.WaterChecks(of))...)
		return append(out, w.gradingCard(grades))
	}
	return pg
}

// serviceView is the long section of the last stage in which the box stands;
// nil where there is none.
func serviceView(r *assess.Result) *section.View {
	var out *section.View
	for _, v := range r.Views {
		if v != nil && v.HasBox && v.Stage.Kind == model.StageService {
			out = v
		}
	}
	return out
}

// scheduleCard says what is built to take the water away.
func (w *Window) scheduleCard(r *assess.Result) []fyne.CanvasObject {
	rows := sheet.DrainSchedule(r, w.tables, w.desk.Units())
	if len(rows) == 0 {
		return nil
	}
	objs := []fyne.CanvasObject{newFlow("Drain and outlet").strong()}
	for _, s := range rows {
		objs = append(objs, newFlow(s[0]+": "+s[1]+"."))
	}
	return []fyne.CanvasObject{card(objs...)}
}

// checkList lists checks, each of which leads to its working; nothing where
// there is none.
func (w *Window) checkList(title string, list []*check.Check) []fyne.CanvasObject {
	if len(list) == 0 {
		return nil
	}
	objs := []fyne.CanvasObject{newFlow(title).strong(), newFlow("Press one for its working on page 9.").caption()}
	for _, c := range list {
		line := newPressLine(func() { w.showCheck(c) })
		words := c.Verdict().String()
		if c.Verdict() != check.NotChecked {
			words += ", ratio " + ratioText(c)
		} else if c.Missing != "" {
			words += ": " + sheet.Unmade(c, w.desk.Units())
		}
		line.set(c.Title, words, false)
		objs = append(objs, line)
	}
	return []fyne.CanvasObject{card(objs...)}
}

// gradingCard shows the gradings, and what is missing for them.
func (w *Window) gradingCard(g scene.Gradings) fyne.CanvasObject {
	objs := []fyne.CanvasObject{newFlow("Grading of ground, fill and stone").strong()}
	if len(g.Lines) > 0 {
		objs = append(objs, newFlow("A filter for the ground lies between the two dashed lines. Stone outside them needs a cloth, or sand between.").caption(),
			sketch.NewChart(func(width, height float64) (*scene.Scene, error) {
				return scene.BuildGrading(g, scene.CurveOptions{Width: width, Height: height, Units: w.desk.Units()})
			}, w.look.palette, float64(w.set.Letters), fyne.NewSize(120, chartHeight*letters())))
	}
	for _, note := range g.Notes {
		objs = append(objs, newFlow(units.Say(note, w.desk.Units())).caption())
	}
	return card(objs...)
}
