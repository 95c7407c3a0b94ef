package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// pageButtons are the buttons that choose the page, in working order.
func (w *Window) pageButtons() fyne.CanvasObject {
	grid := container.NewGridWithColumns(5)
	for _, pg := range w.pages {
		in := pg.about()
		in.button = newChip(in.name, func() { w.openPage(in.key) })
		grid.Add(in.button)
	}
	return container.New(&inset{6, 4}, grid)
}

// aliases are other names of pages on the command line.
var aliases = map[string]string{"inside": "strength", "strengthening": "strength", "brace": "strength", "ground": "hill", "soils": "soil", "sheets": "sheet", "air": "climate", "frost": "climate"}

// openPage shows a page by its key; false when there is none.
func (w *Window) openPage(key string) bool {
	if a, ok := aliases[key]; ok {
		key = a
	}
	for _, pg := range w.pages {
		if pg.about().key != key {
			continue
		}
		w.page = pg
		for _, other := range w.pages {
			other.about().button.press(other == pg)
		}
		w.side.Objects = []fyne.CanvasObject{pg.object()}
		pg.show(w)
		w.side.Refresh()
		pg.relay()
		return true
	}
	return false
}

// reveal brings the field with these words beside it into sight and gives it
// the keys.
func (w *Window) reveal(words string) {
	pg, ok := w.page.(*page)
	if !ok {
		return
	}
	for _, r := range pg.rows {
		o := controlOf(r, words)
		if o == nil {
			continue
		}
		const above = 60 // what stands before it is seen too
		pg.scroll.ScrollToOffset(fyne.NewPos(0, max(0, min(r.object().Position().Y-above, pg.scroll.Content.Size().Height-pg.scroll.Size().Height))))
		if f, ok := o.(fyne.Focusable); ok {
			w.win.Canvas().Focus(f)
		}
		return
	}
}

// showPage brings the page in front up to the desk.
func (w *Window) showPage() {
	if w.page != nil {
		w.page.show(w)
	}
}

// relay puts the parts of the page in front in place again.
func (w *Window) relay() {
	if w.page != nil {
		w.page.relay()
	}
}
