package panel

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/engine/water"
	"hillset/geom"
	"hillset/ui/desk"
	"hillset/ui/scene"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

// Window is the window of the program with the project on its desk. All its
// methods belong to the goroutine of the user interface.
type Window struct {
	app    fyne.App
	win    fyne.Window
	desk   *desk.Desk
	tables *tables.Set
	post   func(func())
	places places
	set    settings

	look   *look
	long   *sketch.Board
	cross  *sketch.Board
	active *sketch.Board // the board that the keys go to
	layers map[scene.Layer]bool

	sections *sectionViews

	header *header
	tools  *toolRow
	stages *stageBar
	status *statusLine
	pages  []sidePage
	page   sidePage
	side   *fyne.Container // holds the page
	menus  *menus

	drawing   [2]errand // what the steel does, in each section
	export    exporting
	bury      burials
	modals    []modal    // dialogs that are open
	pathAsked modal      // the last dialog that asked for a path
	surveyed  *surveying // the last dialog of measurements
	carrying  bool       // a tool goes over to the other board
	marked    string     // part marked in the sections

	station float64 // that the cross section was drawn at last
}

// places are the folders that the window keeps things in; empty keeps none.
type places struct{ config, autosave string }

// Width of the pages beside the drawing, in units: a share of a wide window.
const (
	sideWidth = 346
	sideMost  = 470
	sideShare = 0.245
)

// newWindow makes the window over a fresh desk. post runs a function on the
// goroutine of the user interface.
func newWindow(a fyne.App, at places, set settings, post func(func())) *Window {
	w := &Window{app: a, tables: tables.Default(), post: post, places: at, set: set}
	w.desk = desk.New(desk.Options{
		Assess: func(ctx context.Context, p *model.Project) (*assess.Result, error) {
			return assess.Run(ctx, p, w.tables)
		},
		Line: func(ctx context.Context, p *model.Project, st model.Stage) (*water.Field, error) {
			if !p.Site.Water.Computed || model.FirstHard(p.Validate()) != nil {
				return nil, nil
			}
			return water.OneStage(ctx, p, w.tables, st)
		},
		Hillside:    func(ctx context.Context, r *assess.Result) error { return assess.Hillside(ctx, r, w.tables) },
		Answers:     func(ctx context.Context, r *assess.Result) error { return assess.Answers(ctx, r, w.tables) },
		Post:        post,
		AutosaveDir: at.autosave,
		ConfigDir:   at.config,
	})
	w.look = newLook(w.set.Look, w.set.Letters)
	a.Settings().SetTheme(w.look)
	w.win = a.NewWindow("Hillset")
	w.layers = allLayers()
	w.build()
	w.desk.Listen(w.hear)
	w.follow()
	return w
}

// build makes everything that is in the window.
func (w *Window) build() {
	w.status = newStatusLine()
	w.drawing = [2]errand{{w: w}, {w: w}}
	w.long = w.newBoard(sketch.LongSection)
	w.cross = w.newBoard(sketch.CrossSection)
	w.active = w.long
	w.header = newHeader(w)
	w.tools = newToolRow(w)
	w.stages = newStageBar(w)
	w.export = newExporting(w)
	w.pages = []sidePage{w.hillPage(), w.soilPage(), w.waterPage(), w.boxPage(), w.cutPage(), w.fillPage(),
		w.strengthPage(), w.stagesPage(), w.checksPage(), w.sheetPage(), w.limitsPage(), w.advicePage(), w.flowsPage(), w.scenariosPage(), w.climatePage()}
	w.side = container.NewStack()
	w.sections = newSectionViews(w)
	middle := container.NewBorder(w.tools.object(), w.stages.object(), nil, nil, w.sections.box)
	side := container.NewBorder(nil, nil, rule(), nil, container.NewBorder(w.pageButtons(), nil, nil, nil, container.New(&inset{6, 4}, w.side)))
	w.win.SetContent(container.NewBorder(
		container.NewBorder(nil, rule(), nil, nil, w.header.object()),
		container.NewBorder(rule(), nil, nil, nil, w.status.object()),
		nil, nil, container.New(&besides{}, middle, side)))
	w.win.SetPadded(false)
	w.menus = newMenus(w)
	w.keys()
	w.openPage("hill")
	w.showSections(w.set.Sections)
}

// rule is a thin line between two parts of the window.
func rule() fyne.CanvasObject { return widget.NewSeparator() }

func (w *Window) newBoard(kind sketch.Kind) *sketch.Board {
	var b *sketch.Board
	b = sketch.NewBoard(w.desk, kind, sketch.Options{
		Palette: w.look.palette,
		Letters: float64(w.set.Letters),
		OnStatus: func(text string) {
			if b == nil || w.carrying {
				return
			}
			w.active = b
			w.status.help(text)
		},
		OnProblem:     func(text string) { w.problem(text) },
		OnLetter:      func(r rune) { w.steelLetter(r) },
		OnToolChanged: func(t sketch.Tool) { w.toolChanged(b, t) },
		OnPointer:     func(at geom.Vec, inside bool) { w.status.pointer(w.placeWords(kind, at, inside)) },
	})
	return b
}

// placeWords says where the pointer is in a section.
func (w *Window) placeWords(kind sketch.Kind, at geom.Vec, inside bool) string {
	if !inside {
		return ""
	}
	level := ", level " + units.FormatLevel(at[1], w.desk.Units())
	switch {
	case kind == sketch.LongSection:
		return w.length(at[0]) + " into the hill" + level
	case at[0] < 0:
		return w.length(-at[0]) + " left" + level
	}
	return w.length(at[0]) + " right" + level
}

// hear follows the desk.
func (w *Window) hear(e desk.Event) {
	switch e.Kind {
	case desk.ModelChanged:
		w.header.waiting()
		for _, pg := range w.pages {
			if p, ok := pg.(*workedPage); ok {
				p.changed()
			}
		}
		w.showPage()
	case desk.ViewChanged:
		w.portraits()
		w.panelsChanged() // another unit, perhaps
		w.stages.show()
		w.header.show()
		w.tools.show()
		w.showPage()
	case desk.ResultReady:
		w.header.show()
		w.followStation()
		w.portraits()
		w.panelsChanged()
		w.resultReady()
	case desk.FileChanged:
		w.menus.recent()
	}
	if e.Err != nil {
		w.problem(w.explain(e.Err))
	}
	w.menus.soon()
	w.title()
}

// followStation moves the cross section to the middle of the box when nobody
// has chosen another place: the first result knows where that is.
func (w *Window) followStation() {
	if x := w.desk.Station(); x != w.station {
		w.station = x
		w.cross.ModelChanged()
		w.stages.show()
	}
}

// follow shows everything as the desk has it.
func (w *Window) follow() {
	w.header.show()
	w.tools.show()
	w.stages.show()
	w.showPage()
	w.title()
	w.status.help(w.active.Help())
}

// title names the file, with a mark when it holds something else.
func (w *Window) title() {
	name := w.desk.Project().Title
	if p := w.desk.Path(); p != "" {
		name = baseName(p)
	}
	if w.desk.Dirty() {
		name = "* " + name + " (not saved)"
	}
	if t := name + " - Hillset"; t != w.win.Title() {
		w.win.SetTitle(t)
	}
}

// edit changes the project from a button.
func (w *Window) edit(what string, change func(*model.Project) error) bool {
	err := w.desk.Edit(what, "", change)
	if err != nil {
		w.problem(w.explain(err))
		return false
	}
	w.problem("")
	w.status.say(what)
	return true
}

// problem shows what stands in the way; "" when nothing does.
func (w *Window) problem(text string) { w.status.problem(text) }

// explain says an error in the reader's units.
func (w *Window) explain(err error) string {
	var p model.Problem
	if errors.As(err, &p) {
		return sentence(w.problemText(p))
	}
	return sentence(units.Say(err.Error(), w.desk.Units()))
}

// problemText names the field in words and says what is wrong with it.
func (w *Window) problemText(p model.Problem) string {
	return fieldName(p.Field) + ": " + units.FormatProblem(p, w.desk.Units())
}

// setLook changes the colours of everything.
func (w *Window) setLook(name scene.Look) {
	w.set.Look = name
	w.restyle()
}

// setLetters changes the size of letters; it stays between small and large.
func (w *Window) setLetters(k float32) {
	w.set.Letters = min(2, max(0.8, k))
	w.restyle()
}

func (w *Window) restyle() {
	w.look = newLook(w.set.Look, w.set.Letters)
	w.app.Settings().SetTheme(w.look)
	for _, b := range []*sketch.Board{w.long, w.cross} {
		b.SetPalette(w.look.palette)
		b.SetLetters(float64(w.set.Letters))
	}
	w.sections.panels.SetPalette(w.look.palette)
	w.sections.panels.SetLetters(float64(w.set.Letters))
	w.win.Content().Refresh()
	w.tools.show()
	w.page.show(w)
	w.page.relay()
	w.keepSettings()
}

// settle hands over what is being typed, before something is done with the
// project.
func (w *Window) settle() {
	if e, ok := w.win.Canvas().Focused().(*commitEntry); ok {
		e.hand()
	}
}

// markPart draws a part of the box as selected in both sections.
func (w *Window) markPart(part string) {
	w.marked = part
	w.long.Mark(part)
	w.cross.Mark(part)
	w.panelsChanged()
}
