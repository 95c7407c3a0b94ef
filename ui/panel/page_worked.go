package panel

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/ui/units"
)

// workedPage is a page whose content is worked out beside the window, from the
// last result, while the page is in front and the project rests.
type workedPage struct {
	pageInfo
	w     *Window
	note  *flow // how far the work is
	copy  *chip
	cards *fyne.Container
	box   *fyne.Container
	bar   *container.Scroll

	run   errand
	of    *model.Project // that the work is, or was, about
	in    units.System   // that it is, or was, done in, where round sizes count
	round bool           // the work looks for round sizes, and is done anew in other units
	got   int            // how many pieces have come
	far   string         // how far the work is, where it tells
	done  bool
	err   error
	drawn string // what the cards show, so that they are not made twice
	clear func()
	work  func(ctx context.Context, r *assess.Result, show func(func())) error
	make  func() []fyne.CanvasObject
	says  func() string // once the work is done
}

func newWorkedPage(w *Window, key, name, help string) *workedPage {
	pg := &workedPage{pageInfo: pageInfo{key: key, name: name}, w: w, run: errand{w: w}, note: newFlow("").strong(), cards: container.New(&column{gap: 6})}
	pg.copy = newChip("Copy all as text", func() { w.copyText(pg.text()) })
	w.followFocus(pg.copy)
	body := container.New(&column{gap: 6}, newFlow(help).caption(), pg.note, container.New(&wrapped{gap: 4}, pg.copy), pg.cards)
	pg.bar = container.NewVScroll(container.New(&barRoom{}, body))
	pg.box = container.New(&scrolled{pg.bar}, pg.bar)
	return pg
}

func (pg *workedPage) about() *pageInfo            { return &pg.pageInfo }
func (pg *workedPage) object() fyne.CanvasObject   { return pg.box }
func (pg *workedPage) scroller() *container.Scroll { return pg.bar }
func (pg *workedPage) relay()                      { relayScroll(pg.bar) }

// rested is the result that the work can begin with: that of the project as it
// is, with the answers of the header.
func (w *Window) rested() *assess.Result {
	r := w.desk.Result()
	if r == nil || !w.desk.Fresh() || w.desk.Err() != nil {
		return nil
	}
	if r.Depth.Question == "" && len(r.Checks) > 0 {
		return nil
	}
	return r
}

// inUnits is a result whose project is shown in the units sys: the one that was
// run may have been shown in others.
func inUnits(r *assess.Result, sys units.System) *assess.Result {
	c, p := *r, r.Project.Clone()
	p.Display.Units = sys.String()
	c.Project = p
	return &c
}

// changed ends the work for a project that is no longer on the desk.
func (pg *workedPage) changed() {
	if pg.of != nil && !pg.w.desk.Fresh() {
		pg.run.drop()
		pg.of, pg.got, pg.far, pg.done, pg.err = nil, 0, "", false, nil
		pg.clear()
	}
}

// show brings the page up to the desk, and has the work done where that is
// still to do.
func (pg *workedPage) show(w *Window) {
	sys := w.desk.Units()
	if r := w.rested(); r != nil && (r.Project != pg.of || pg.round && pg.in != sys) {
		pg.of, pg.in, pg.got, pg.far, pg.done, pg.err = r.Project, sys, 0, "", false, nil
		pg.clear()
		r = inUnits(r, sys)
		pg.run.begin(settling, func(ctx context.Context, show func(func())) error {
			err := pg.work(ctx, r, func(f func()) {
				show(func() { f(); pg.got++; pg.refresh() })
			})
			if err == nil {
				show(func() { pg.done = true; pg.refresh() })
			}
			return err
		}, func(err error) { pg.err = err; pg.refresh() })
	}
	pg.draw()
}

// refresh draws what has come, where the page is in front.
func (pg *workedPage) refresh() {
	if pg.w.page == sidePage(pg) {
		pg.draw()
	}
}

// resultReady brings the page up to a new result.
func (pg *workedPage) resultReady() { pg.show(pg.w) }

// draw makes the cards anew where they show something else now.
func (pg *workedPage) draw() {
	w := pg.w
	sig := fmt.Sprint(pg.of != nil, pg.got, pg.done, pg.err, w.desk.Units(), w.set.Look, w.set.Letters, w.rested() == nil)
	if pg.of != nil {
		sig += fmt.Sprintf("%p", pg.of)
	}
	if sig == pg.drawn {
		return
	}
	pg.drawn = sig
	pg.note.set(pg.state())
	pg.note.paint(theme.ColorNameForeground)
	if pg.err != nil {
		pg.note.paint(theme.ColorNameError)
	}
	pg.cards.Objects = pg.make()
	for _, o := range pg.cards.Objects {
		w.followFocus(o)
	}
	pg.relay()
}

// state says how far the work is.
func (pg *workedPage) state() string {
	switch {
	case pg.err != nil:
		return "Not worked out: " + pg.w.explain(pg.err)
	case pg.w.desk.Err() != nil:
		return "Not worked out: " + pg.w.explain(pg.w.desk.Err())
	case !pg.done && pg.far != "":
		return sentence(computing) + " " + pg.far
	case !pg.done:
		return sentence(computing)
	}
	return pg.says()
}

// text is all that the page says, without its charts.
func (pg *workedPage) text() string {
	var b strings.Builder
	b.WriteString(pg.name + "\n" + pg.state() + "\n")
	for _, o := range pg.cards.Objects {
		b.WriteString("\n" + said(o))
	}
	return b.String()
}

// said is what the paragraphs of a card say.
func said(o fyne.CanvasObject) string {
	switch o := o.(type) {
	case *flow:
		return o.text + "\n"
	case *fyne.Container:
		s := ""
		for _, part := range o.Objects {
			s += said(part)
		}
		return s
	}
	return ""
}

// card is a block of a page: what belongs together, with a rule below it.
func card(objs ...fyne.CanvasObject) fyne.CanvasObject {
	return container.New(&column{gap: 3}, append(objs, rule())...)
}
