package panel

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"hillset/engine/check"
	"hillset/ui/units"
)

// checkList is the list of checks; the arrow keys go through it and show each.
type checkList struct {
	widget.List
	page    *checksPage
	at      int
	marking bool
}

func newCheckList(pg *checksPage) *checkList {
	l := &checkList{page: pg, at: -1}
	l.Length = func() int { return len(pg.checks) }
	l.CreateItem = func() fyne.CanvasObject { return newCheckItem() }
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		if i < len(pg.checks) {
			o.(*checkItem).set(&pg.checks[i])
		}
	}
	l.OnSelected = func(i widget.ListItemID) {
		if l.marking {
			return
		}
		l.at = i
		pg.take(i)
	}
	l.ExtendBaseWidget(l)
	return l
}

// mark shows an item as chosen without doing anything else.
func (l *checkList) mark(i int) {
	l.marking = true
	defer func() { l.marking = false }()
	if i == l.at && i >= 0 {
		return
	}
	l.at = i
	if i < 0 {
		l.UnselectAll()
		return
	}
	l.Select(i)
}

// TypedKey goes through the list by the arrow keys.
func (l *checkList) TypedKey(e *fyne.KeyEvent) {
	n := len(l.page.checks)
	to := l.at
	switch e.Name {
	case fyne.KeyDown:
		to++
	case fyne.KeyUp:
		to--
	case fyne.KeyHome:
		to = 0
	case fyne.KeyEnd:
		to = n - 1
	case fyne.KeyPageDown, fyne.KeyPageUp:
		by := 0.8 * l.page.scroll.Size().Height // a part of the working stays
		if e.Name == fyne.KeyPageUp {
			by = -by
		}
		scrollBy(l.page.scroll, by)
		return
	default:
		return
	}
	if to >= 0 && to < n {
		l.Select(to)
	}
}

// checkItem is one line of the list: the sign, the part and its ratio, below
// them the title and the verdict.
type checkItem struct {
	widget.BaseWidget
	sign                        *mark
	part, ratio, title, verdict *canvas.Text
	c                           *check.Check
}

func newCheckItem() *checkItem {
	it := &checkItem{sign: newMark(14), part: canvas.NewText("", nil), ratio: canvas.NewText("", nil), title: canvas.NewText("", nil), verdict: canvas.NewText("", nil)}
	it.part.TextStyle.Bold, it.ratio.TextStyle.Bold = true, true
	it.ExtendBaseWidget(it)
	return it
}

func (it *checkItem) set(c *check.Check) {
	it.c = c
	it.Refresh()
}

// Sizes of an item, in units.
const (
	itemPad   = 3
	itemSign  = 22
	itemRight = 12 // free of the bar of the scroller
)

// MinSize is two lines high.
func (it *checkItem) MinSize() fyne.Size {
	h := fyne.MeasureText("Ag", theme.TextSize(), fyne.TextStyle{Bold: true}).Height
	k := fyne.MeasureText("Ag", theme.CaptionTextSize(), fyne.TextStyle{}).Height
	return fyne.NewSize(80, h+k+2*itemPad)
}

// CreateRenderer is called by the toolkit.
func (it *checkItem) CreateRenderer() fyne.WidgetRenderer { return &checkItemRenderer{it} }

type checkItemRenderer struct{ it *checkItem }

func (r *checkItemRenderer) MinSize() fyne.Size { return r.it.MinSize() }
func (r *checkItemRenderer) Destroy()           {}
func (r *checkItemRenderer) Objects() []fyne.CanvasObject {
	it := r.it
	return []fyne.CanvasObject{it.sign, it.part, it.ratio, it.title, it.verdict}
}

func (r *checkItemRenderer) Layout(s fyne.Size) {
	it := r.it
	if it.c == nil {
		return
	}
	it.sign.Resize(fyne.NewSquareSize(14))
	it.sign.Move(fyne.NewPos(4, (s.Height-14)/2))
	row := func(left, right *canvas.Text, full string, y float32) float32 {
		rm := right.MinSize()
		right.Move(fyne.NewPos(s.Width-rm.Width-itemRight, y))
		right.Resize(rm)
		left.Text = fitted(full, s.Width-itemSign-rm.Width-itemRight-2*itemPad, left.TextSize, left.TextStyle)
		left.Move(fyne.NewPos(itemSign, y))
		left.Resize(left.MinSize())
		left.Refresh()
		right.Refresh()
		return y + left.MinSize().Height
	}
	y := row(it.part, it.ratio, sentence(it.c.Part), itemPad-1)
	row(it.title, it.verdict, it.c.Title, y)
}

func (r *checkItemRenderer) Refresh() {
	it := r.it
	if it.c == nil {
		return
	}
	v := it.c.Verdict()
	it.sign.set(v)
	ink, quiet := theme.Color(theme.ColorNameForeground), theme.Color(theme.ColorNamePlaceHolder)
	it.part.Color, it.part.TextSize = ink, theme.TextSize()
	it.ratio.Color, it.ratio.TextSize, it.ratio.Text = ink, theme.TextSize(), ratioText(it.c)
	it.title.Color, it.title.TextSize = quiet, theme.CaptionTextSize()
	it.verdict.Color, it.verdict.TextSize, it.verdict.Text = theme.Color(verdictColour(v)), theme.CaptionTextSize(), v.String()
	r.Layout(it.Size())
	canvas.Refresh(it)
}

// ratioText is the ratio as the list shows it.
func ratioText(c *check.Check) string {
	r := c.Worst()
	switch {
	case c.Verdict() == check.NotChecked:
		return units.None
	case math.IsInf(r, 1):
		return "none left"
	}
	return ratioNumber(r)
}
