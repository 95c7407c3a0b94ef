package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"hillset/engine/model"
)

// sidePage is one page beside the drawing.
type sidePage interface {
	about() *pageInfo
	object() fyne.CanvasObject
	// show brings the page up to the desk.
	show(w *Window)
	// relay puts its parts in place again after one changed its height.
	relay()
	// scroller is what its parts are scrolled in.
	scroller() *container.Scroll
}

// pageInfo is how a page is called: its name for the command line, in the grid
// of buttons and in the menu.
type pageInfo struct {
	key, name string
	button    *chip
}

// page is a page of rows. The rows are made anew when sig, which tells what
// the page lists, changes; otherwise they only show new values.
type page struct {
	pageInfo
	help string // what the page is for
	sig  func(p *model.Project) string
	make func(p *model.Project) []row

	live bool // it shows results as well

	rows   []row
	made   string
	isMade bool
	body   *fyne.Container
	scroll *container.Scroll
	box    *fyne.Container
}

func newPage(key, name, help string, make func(p *model.Project) []row) *page {
	pg := &page{pageInfo: pageInfo{key: key, name: name}, help: help, make: make}
	pg.body = container.New(&column{gap: 4})
	pg.scroll = container.NewVScroll(container.New(&barRoom{}, pg.body))
	pg.box = container.New(&scrolled{pg.scroll}, pg.scroll)
	return pg
}

// listing sets what makes the page's rows change.
func (pg *page) listing(sig func(p *model.Project) string) *page { pg.sig = sig; return pg }

func (pg *page) about() *pageInfo            { return &pg.pageInfo }
func (pg *page) object() fyne.CanvasObject   { return pg.box }
func (pg *page) scroller() *container.Scroll { return pg.scroll }

// show brings the page up to the project.
func (pg *page) show(w *Window) {
	p, sys := w.desk.Project(), w.desk.Units()
	sig := ""
	if pg.sig != nil {
		sig = pg.sig(p)
	}
	fresh := !pg.isMade || sig != pg.made
	if fresh {
		for _, r := range pg.rows {
			if d, ok := r.(interface{ die() }); ok {
				d.die()
			}
		}
		pg.rows = pg.make(p)
		pg.made, pg.isMade = sig, true
		objs := []fyne.CanvasObject{newFlow(pg.help).caption()}
		for _, r := range pg.rows {
			objs = append(objs, r.object())
		}
		pg.body.Objects = objs
	}
	for _, r := range pg.rows {
		r.show(p, sys)
	}
	if arrange(pg.rows, p) || fresh {
		pg.relay()
	}
}

func (pg *page) relay() { relayScroll(pg.scroll) }

// relayScroll lays out what a scroller holds at its width, so that it knows
// how tall that is.
func relayScroll(s *container.Scroll) {
	width := s.Size().Width
	if width <= 0 {
		return
	}
	c := s.Content.(*fyne.Container)
	c.Resize(fyne.NewSize(width, c.MinSize().Height))
	c.Refresh()
	c.Resize(fyne.NewSize(width, c.MinSize().Height))
	s.Refresh()
}

// scrolled lays a scroller out so that its content knows its width first.
type scrolled struct{ s *container.Scroll }

// MinSize leaves room for a few rows.
func (l *scrolled) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(100, 100) }

// Layout gives the scroller everything.
func (l *scrolled) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	objs[0].Resize(size)
	relayScroll(l.s)
}

// scrollBar is the room that the bar of a scroller takes from its content.
const scrollBar = 10

// barRoom keeps the right edge of what is scrolled free of the bar.
type barRoom struct{}

// MinSize is that of the content.
func (barRoom) MinSize(objs []fyne.CanvasObject) fyne.Size {
	return objs[0].MinSize().AddWidthHeight(scrollBar, 8)
}

// Layout leaves room on the right.
func (barRoom) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	objs[0].Resize(size.SubtractWidthHeight(scrollBar, 8))
	objs[0].Move(fyne.NewPos(0, 0))
}
