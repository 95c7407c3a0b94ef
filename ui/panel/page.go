package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"hillset/engine/model"
)

// page is one page of the side panel. Its rows are made anew when sig, which
// tells what the page lists, changes; otherwise they only show new values.
type page struct {
	key, name string
	help      string // what the page is for, in one line
	sig       func(p *model.Project) string
	make      func(p *model.Project) []row

	rows   []row
	made   string
	isMade bool
	body   *fyne.Container
	scroll *container.Scroll
}

func newPage(key, name, help string, make func(p *model.Project) []row) *page {
	pg := &page{key: key, name: name, help: help, make: make}
	pg.body = container.NewVBox()
	pg.scroll = container.NewVScroll(pg.body)
	return pg
}

// listing sets what makes the page's rows change.
func (pg *page) listing(sig func(p *model.Project) string) *page { pg.sig = sig; return pg }

// show brings the page up to the project.
func (pg *page) show(w *Window) {
	p := w.desk.Project()
	sig := ""
	if pg.sig != nil {
		sig = pg.sig(p)
	}
	if !pg.isMade || sig != pg.made {
		pg.rows = pg.make(p)
		pg.made, pg.isMade = sig, true
		lead := widget.NewLabel(pg.help)
		lead.Wrapping = fyne.TextWrapWord
		lead.Importance = widget.LowImportance
		objs := []fyne.CanvasObject{lead}
		for _, r := range pg.rows {
			objs = append(objs, r.object())
		}
		pg.body.Objects = objs
	}
	for _, r := range pg.rows {
		r.show(p, w.desk.Units())
	}
	pg.body.Refresh()
}
