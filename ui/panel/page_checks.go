package panel

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"hillset/engine/check"
)

// checksPage lists all checks, the worst first, and shows the whole working of
// the one that is chosen.
type checksPage struct {
	pageInfo
	w      *Window
	list   *checkList
	checks []check.Check
	chosen string // id and part of the check whose working is shown
	body   *fyne.Container
	scroll *container.Scroll
	box    *fyne.Container
	drawn  string // what the working shows, so that it is not made twice
	late   *time.Timer
}

func (w *Window) checksPage() *checksPage {
	pg := &checksPage{pageInfo: pageInfo{key: "checks", name: "9 Checks"}, w: w}
	pg.list = newCheckList(pg)
	pg.body = container.New(&column{gap: 5})
	pg.scroll = container.NewVScroll(container.New(&barRoom{}, pg.body))
	split := container.NewVSplit(pg.list, container.New(&scrolled{pg.scroll}, pg.scroll))
	split.SetOffset(0.48)
	pg.box = container.NewStack(split)
	return pg
}

func (pg *checksPage) about() *pageInfo            { return &pg.pageInfo }
func (pg *checksPage) object() fyne.CanvasObject   { return pg.box }
func (pg *checksPage) scroller() *container.Scroll { return pg.scroll }
func (pg *checksPage) relay()                      { pg.list.Refresh(); relayScroll(pg.scroll) }

// checkKey tells a check from the others of a result.
func checkKey(c *check.Check) string { return c.ID + "\x00" + c.Part }

// show brings the list up to the last result.
func (pg *checksPage) show(w *Window) {
	pg.checks = nil
	if r := w.desk.Result(); r != nil {
		pg.checks = r.Checks
	}
	pg.list.Refresh()
	at := pg.at()
	if at < 0 {
		pg.chosen = ""
	}
	pg.list.mark(pg.looked(at))
	if at < 0 && len(pg.checks) > 0 {
		at = 0
	}
	pg.working(at)
}

// looked is the place of the chosen check while its stage and station are
// those that are looked at, else -1: then another press leads back to it.
func (pg *checksPage) looked(at int) int {
	if at < 0 {
		return -1
	}
	c, d := &pg.checks[at], pg.w.desk
	if c.Stage != "" && c.Stage != d.StageID() || c.HasStation && c.Station != d.Station() {
		return -1
	}
	return at
}

// at is the place of the chosen check, -1 for none.
func (pg *checksPage) at() int {
	for i := range pg.checks {
		if checkKey(&pg.checks[i]) == pg.chosen {
			return i
		}
	}
	return -1
}

// working shows how a check was worked out.
func (pg *checksPage) working(at int) {
	text := ""
	var objs []fyne.CanvasObject
	if at < 0 {
		objs = []fyne.CanvasObject{newFlow("Nothing is checked yet. The strip on top says what to do next.")}
	} else {
		parts := pg.w.checkParts(&pg.checks[at])
		text = plain(parts)
		mend := pg.w.mendRow(&pg.checks[at])
		for _, p := range parts {
			if p.head && p.text == workingHead && mend != nil {
				objs = append(objs, mend)
			}
			objs = append(objs, p.object())
		}
		objs = append(objs, container.New(&wrapped{gap: 4}, newChip("Copy this as text", func() { pg.w.copyText(text) })))
		for _, o := range objs {
			pg.w.followFocus(o)
		}
	}
	if text != "" && text == pg.drawn {
		return
	}
	pg.drawn = text
	pg.body.Objects = objs
	relayScroll(pg.scroll)
}

// take shows a check: its working, its part in the sections, its stage and
// station.
func (pg *checksPage) take(i int) {
	if i < 0 || i >= len(pg.checks) {
		return
	}
	c := pg.checks[i]
	pg.chosen = checkKey(&c)
	pg.working(i)
	pg.scroll.ScrollToTop()
	w := pg.w
	w.markPart(c.Part)
	if c.Stage != "" && c.Stage != w.desk.StageID() {
		if err := w.desk.SetStage(c.Stage); err != nil {
			w.problem(w.explain(err))
		}
	}
	if c.HasStation {
		w.setStation(c.Station)
	}
}

// showCheck opens the page at a check.
func (w *Window) showCheck(c *check.Check) {
	key := checkKey(c)
	w.openPage("checks")
	pg := w.page.(*checksPage)
	for i := range pg.checks {
		if checkKey(&pg.checks[i]) == key {
			pg.take(i)
			pg.list.mark(i)
			pg.list.ScrollTo(i)
		}
	}
}

// pace is the least time between two refreshes of the list while something is
// dragged.
const pace = 120 * time.Millisecond

// resultReady brings the page of checks up to the desk, not too often.
func (w *Window) resultReady() {
	if p, ok := w.page.(*workedPage); ok {
		p.resultReady()
		return
	}
	if p, ok := w.page.(*page); ok && p.live {
		p.show(w)
		return
	}
	pg, ok := w.page.(*checksPage)
	if !ok || pg.late != nil {
		return
	}
	pg.late = time.AfterFunc(pace, func() {
		w.post(func() {
			pg.late = nil
			if w.page == sidePage(pg) {
				pg.show(w)
			}
		})
	})
}
