package panel

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// advicePage lists changes that were tried, the best first; one press makes
// one.
func (w *Window) advicePage() *workedPage {
	pg := newWorkedPage(w, "advice", "12 Advice", "What would help. Each change was made on a copy of the project and run through the whole assessment; what is shown came out of that. Undo takes it back.")
	var remedies []assess.Remedy
	pg.round, pg.clear = true, func() { remedies = nil }
	pg.work = func(ctx context.Context, r *assess.Result, show func(func())) error {
		found, err := assess.Advise(ctx, r, w.tables, func(n int) {
			show(func() { pg.far = plural(n, "change tried", "changes tried") + " so far" })
		})
		if err == nil {
			show(func() { remedies = found })
		}
		return err
	}
	pg.says = func() string { return w.adviceState(len(remedies)) }
	pg.make = func() []fyne.CanvasObject {
		var out []fyne.CanvasObject
		for i := range remedies {
			out = append(out, w.remedyCard(i, &remedies[i]))
		}
		return out
	}
	return pg
}

// adviceState says what was found, or why nothing was.
func (w *Window) adviceState(n int) string {
	r := w.desk.Result()
	switch g := r.Governing(); {
	case n > 0:
		return plural(n, "change that helps, tried", "changes that help, all tried; the best first")
	case g == nil || len(r.Blocks) > 0:
		return "No advice before all is given: the strip on top says what is missing."
	case g.Worst() <= 1:
		return "Nothing that was checked is beyond its limits."
	case assess.ScoreOf(r).Beyond == 0:
		return "Only hillside, drains, frost or air are beyond limits: no change is tried for them. Page 9 says what each needs."
	}
	return "Nothing that was tried helps. What was tried: bars inside, skins and a roof outside, less cover, other bedding, a flatter cut."
}

// remedyCard shows one change with what came of it.
func (w *Window) remedyCard(i int, m *assess.Remedy) fyne.CanvasObject {
	sys := w.desk.Units()
	words := units.Fill(m.Text, m.Q, sys)
	title := words
	if len(m.Steps) > 0 {
		title = fmt.Sprintf("All of these %d changes", len(m.Steps))
	}
	objs := []fyne.CanvasObject{newFlow(numbered(i, title)).strong(),
		newFlow(sheet.ChangeWords(m.Before, m.After, sys)), newFlow(sheet.AddsWords(&m.Adds, sys))}
	if len(m.Fails) > 0 {
		objs = append(objs, newFlow("It brings beyond limits: "+strings.Join(w.checkTitles(m.Fails), ", ")+"."))
	}
	if rest := sheet.RestWords(m.Rest); rest != "" {
		objs = append(objs, newFlow(rest))
	}
	objs = append(objs, container.New(&wrapped{gap: 4}, w.button("Do it", func() { w.takeAdvice(words, m) })))
	for k, s := range m.Steps {
		objs = append(objs, newFlow(fmt.Sprintf("%d. %s", k+1, units.Fill(s.Text, s.Q, sys))),
			newFlow(fmt.Sprintf("then largest ratio %s, %d beyond", sheet.FormatRatio(s.After.Worst), s.After.Beyond)).caption())
	}
	if items := itemLines(&m.Adds, sys); items != "" {
		objs = append(objs, newFlow(items).caption())
	}
	return card(objs...)
}

// itemLines lists what a change adds, one item a line.
func itemLines(t *assess.Takeoff, sys units.System) string {
	var out []string
	for i := range t.Items {
		it := &t.Items[i]
		out = append(out, units.Say(it.Text, sys)+": "+sheet.ItemWords(it, sys))
	}
	return strings.Join(out, "\n")
}

// checkTitles names checks by their titles.
func (w *Window) checkTitles(ids []string) []string {
	var out []string
	for _, id := range ids {
		title := id
		if r := w.desk.Result(); r != nil {
			for i := range r.Checks {
				if r.Checks[i].ID == id {
					title = lowerFirst(r.Checks[i].Title)
				}
			}
		}
		out = append(out, title)
	}
	return out
}

// stepName is how long the name of an undo step may be: it stands in a menu.
const stepName = 70

// takeAdvice makes a change as one step that can be undone.
func (w *Window) takeAdvice(words string, m *assess.Remedy) {
	name := []rune(strings.TrimSuffix(words, "."))
	if len(name) > stepName {
		name = append([]rune(strings.TrimRight(string(name[:stepName-1]), " ,;")), '…')
	}
	w.edit(string(name), func(p *model.Project) error { m.Apply(p); return nil })
}
