package panel

import (
	"fmt"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// The depths of the saying that a box may be buried 4 to 6 ft, m.
const (
	fourFeet = 4 * 0.3048
	sixFeet  = 6 * 0.3048
)

// burialSaying is what the table is there to answer.
const burialSaying = "People say that burying 4 to 6 ft is fine. It holds only in the soils and with the water where the height shown is more; roof cover is another matter: see the last column. The bare sheet alone is looked at: bracing, rails, sliding, flotation, compaction and slope are not in this table."

// burials is the table of how high each soil may stand, worked out beside the
// window for the project that it names.
type burials struct {
	of    *model.Project
	rows  []assess.Burial
	err   error
	timer *time.Timer
}

// settling is how long a change must rest before the table is worked out.
const settling = 150 * time.Millisecond

// burySoon has the table worked out for the project as it is, when the page
// that shows it is in front.
func (w *Window) burySoon() {
	if w.page == nil || w.page.about().key != "fill" || w.bury.of == w.desk.Project() {
		return
	}
	if w.bury.timer != nil {
		w.bury.timer.Stop()
	}
	w.bury.timer = time.AfterFunc(settling, func() { w.post(w.buryNow) })
}

// buryNow works the table out on a goroutine of its own. An answer that comes
// after another change is dropped: that change has called for its own.
func (w *Window) buryNow() {
	p := w.desk.Project()
	go func() {
		rows, err := buriedIn(func() ([]assess.Burial, error) { return assess.BurialTable(p, w.tables) })
		w.post(func() {
			if w.desk.Project() != p {
				return
			}
			w.bury.of, w.bury.rows, w.bury.err = p, rows, err
			if w.page != nil && w.page.about().key == "fill" {
				w.showPage()
			}
		})
	}()
}

// buriedIn turns a fault of the calculation into an error, so that no work is
// lost.
func buriedIn(f func() ([]assess.Burial, error)) (rows []assess.Burial, err error) {
	defer func() {
		if v := recover(); v != nil {
			err = fmt.Errorf("fault in the calculation: %v", v)
		}
	}()
	return f()
}

// burialRow shows the table.
type burialRow struct {
	w     *Window
	box   *fyne.Container
	note  *flow
	lines [][4]*flow
	table *fyne.Container
}

// burialTable makes the table of how high each soil may stand.
func (w *Window) burialTable() row {
	r := &burialRow{w: w, note: newFlow(""), table: container.New(&column{gap: 3})}
	head := r.line()
	for i, s := range []string{"Soil", "Drained", "Flooded", "On the roof"} {
		head[i].strong().set(s)
	}
	saying, small := newFlow(burialSaying), newFlow("Level fill at rest, no compaction, load or slope: on site less holds.").caption()
	r.box = container.New(&column{gap: 4}, saying, r.note, r.table, small)
	return r
}

// line adds a line of four cells to the table.
func (r *burialRow) line() [4]*flow {
	var l [4]*flow
	var objs []fyne.CanvasObject
	for i := range l {
		l[i] = newFlow("").sized(theme.SizeNameCaptionText)
		objs = append(objs, l[i])
	}
	r.table.Add(container.New(&shares{of: []float32{0.34, 0.22, 0.22, 0.22}, gap: 5}, objs...))
	return l
}

func (r *burialRow) object() fyne.CanvasObject { return r.box }

func (r *burialRow) show(_ *model.Project, sys units.System) {
	r.w.burySoon()
	b := &r.w.bury
	changed := r.note.set(r.words(sys))
	if hide := b.err != nil; hide == r.table.Visible() {
		r.table.Hidden, changed = hide, true
	}
	if b.err == nil {
		for len(r.lines) < len(b.rows) {
			r.lines = append(r.lines, r.line())
			changed = true
		}
		for i, s := range b.rows {
			for k, text := range []string{s.Name, buried(s.Drained, s.WholeDrained, sys), buried(s.Flooded, s.WholeFlooded, sys), sheet.BurialWords(s.RoofCover, false, sys)} {
				changed = r.lines[i][k].set(text) || changed
			}
		}
	}
	if changed {
		r.w.relay()
	}
}

// words say what the table is of, or why there is none.
func (r *burialRow) words(sys units.System) string {
	b := &r.w.bury
	switch {
	case b.of == nil:
		return sentence(computing)
	case b.err != nil:
		return "Not worked out: " + r.w.explain(b.err)
	}
	says := "Height of fill above the foot of the wall at which the side sheet, as built, reaches its limit."
	if sys == units.Metric {
		says += " 4 ft is " + units.Format(fourFeet, quantity.Length, sys) + ", 6 ft is " + units.Format(sixFeet, quantity.Length, sys) + "."
	}
	return says
}

// buried writes a height with what it says of the saying.
func buried(h float64, whole bool, sys units.System) string {
	s := sheet.BurialWords(h, whole, sys)
	switch {
	case math.IsNaN(h):
		return s
	case h >= sixFeet:
		return s + "\nholds 6 ft"
	case h >= fourFeet:
		return s + "\nholds 4 ft"
	}
	return s + "\nnot 4 ft"
}
