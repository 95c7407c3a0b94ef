package panel

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

// row is one line of a page: a value of the project with its label.
type row interface {
	object() fyne.CanvasObject
	show(p *model.Project, sys units.System)
}

// labelled is a row with its label, its control and a line for what is wrong.
type labelled struct {
	box   *fyne.Container
	fault *widget.Label
}

func newLabelled(label, help string, control fyne.CanvasObject) labelled {
	l := labelled{fault: widget.NewLabel("")}
	l.fault.Wrapping = fyne.TextWrapWord
	l.fault.Importance = widget.DangerImportance
	l.fault.Hide()
	name := widget.NewLabel(label)
	name.Wrapping = fyne.TextWrapWord
	line := container.New(&halves{share: 0.54}, name, control)
	items := []fyne.CanvasObject{line, l.fault}
	if help != "" {
		h := widget.NewLabel(help)
		h.Wrapping = fyne.TextWrapWord
		h.SizeName = "caption"
		h.Importance = widget.LowImportance
		items = append(items, h)
	}
	l.box = container.New(tight{}, items...)
	return l
}

func (l labelled) object() fyne.CanvasObject { return l.box }

// say shows what is wrong with the value, or clears it.
func (l labelled) say(text string) {
	if text == l.fault.Text {
		return
	}
	l.fault.SetText(text)
	if text == "" {
		l.fault.Hide()
	} else {
		l.fault.Show()
	}
	l.box.Refresh()
}

// number is a row for a quantity. stored times size is the SI value: some
// fields of the file are held in mm, kg or degrees, as they are written on a
// plate or a gauge.
type number struct {
	labelled
	entry *commitEntry
	kind  quantity.Kind
	size  float64
	blank string // what an empty field (0 in the file) means; "" where 0 is a value
	level bool   // a level on the local datum
	ref   func(p *model.Project) *float64
	opt   func(p *model.Project) **float64 // instead of ref: a value that may be missing
	unit  units.System
}

// get is the SI value; ok is false where there is none.
func (n *number) get(p *model.Project) (v float64, ok bool) {
	if n.opt != nil {
		if q := *n.opt(p); q != nil {
			return *q * n.size, true
		}
		return 0, false
	}
	v = *n.ref(p)
	return v * n.size, v != 0 || n.blank == ""
}

// set stores an SI value, or none.
func (n *number) set(p *model.Project, v float64, has bool) {
	if n.opt != nil {
		if !has {
			*n.opt(p) = nil
			return
		}
		w := v / n.size
		*n.opt(p) = &w
		return
	}
	*n.ref(p) = v / n.size
}

func (n *number) show(p *model.Project, sys units.System) {
	n.unit = sys
	v, ok := n.get(p)
	switch {
	case !ok:
		n.entry.show("")
	case math.IsNaN(v):
		n.entry.show("—")
	default:
		n.entry.show(units.Entry(v, n.kind, sys))
	}
}

// commit reads what was typed and changes the project.
func (n *number) commit(w *Window, label, text string) {
	text = strings.TrimSpace(text)
	if text == "" && (n.opt != nil || n.blank != "") {
		n.store(w, label, 0, false)
		return
	}
	v, err := units.Parse(n.kind, text, n.unit)
	if err != nil {
		n.say(err.Error())
		return
	}
	n.store(w, label, v, true)
}

func (n *number) store(w *Window, label string, v float64, has bool) {
	err := w.desk.Edit(label, "", func(p *model.Project) error { n.set(p, v, has); return nil })
	if err != nil {
		n.say(w.explain(err))
		return
	}
	n.say("")
	n.entry.shown = "\x00" // whatever the model holds now is to be shown
	n.show(w.desk.Project(), n.unit)
}

// num makes a number row.
func (w *Window) num(label, help string, kind quantity.Kind, ref func(p *model.Project) *float64) *number {
	n := &number{kind: kind, size: 1, ref: ref}
	n.entry = newCommitEntry(func(text string) { n.commit(w, label, text) })
	n.labelled = newLabelled(label, help, n.entry)
	return n
}

// in sets the size of the stored unit in SI.
func (n *number) in(size float64) *number { n.size = size; return n }

// or says what an empty field means.
func (n *number) or(blank string) *number {
	n.blank = blank
	n.entry.SetPlaceHolder(blank)
	return n
}

// optional makes a number row for a value that may be missing.
func (w *Window) optional(label, help string, kind quantity.Kind, opt func(p *model.Project) **float64) *number {
	n := w.num(label, help, kind, nil)
	n.opt = opt
	n.entry.SetPlaceHolder("not given")
	return n
}

// words is a row for text.
type words struct {
	labelled
	entry *commitEntry
	ref   func(p *model.Project) *string
}

func (r *words) show(p *model.Project, _ units.System) { r.entry.show(*r.ref(p)) }

func (w *Window) text(label, help string, ref func(p *model.Project) *string) *words {
	r := &words{ref: ref}
	r.entry = newCommitEntry(func(text string) {
		err := w.desk.Edit(label, "", func(p *model.Project) error { *ref(p) = text; return nil })
		if err != nil {
			r.say(w.explain(err))
			return
		}
		r.say("")
		r.entry.shown = text
	})
	r.labelled = newLabelled(label, help, r.entry)
	return r
}

// choice is a row with a list to choose from.
type choice struct {
	labelled
	sel     *widget.Select
	options func(p *model.Project) (ids, names []string)
	ids     []string
	ref     func(p *model.Project) *string
	busy    bool
}

func (r *choice) show(p *model.Project, _ units.System) {
	ids, names := r.options(p)
	r.busy = true
	defer func() { r.busy = false }()
	r.ids = ids
	if !slices.Equal(r.sel.Options, names) {
		r.sel.SetOptions(names)
	}
	if i := slices.Index(ids, *r.ref(p)); i >= 0 {
		if r.sel.SelectedIndex() != i {
			r.sel.SetSelectedIndex(i)
		}
		return
	}
	r.sel.ClearSelected()
}

func (w *Window) pick(label, help string, options func(p *model.Project) (ids, names []string), ref func(p *model.Project) *string) *choice {
	r := &choice{options: options, ref: ref}
	r.sel = widget.NewSelect(nil, func(string) {
		i := r.sel.SelectedIndex()
		if r.busy || i < 0 || i >= len(r.ids) {
			return
		}
		id := r.ids[i]
		if err := w.desk.Edit(label, "", func(p *model.Project) error { *ref(p) = id; return nil }); err != nil {
			r.say(w.explain(err))
			return
		}
		r.say("")
	})
	r.labelled = newLabelled(label, help, r.sel)
	return r
}

// fixed makes an option list of pairs id, name.
func fixed(pairs ...string) func(*model.Project) (ids, names []string) {
	var ids, names []string
	for i := 0; i+1 < len(pairs); i += 2 {
		ids, names = append(ids, pairs[i]), append(names, pairs[i+1])
	}
	return func(*model.Project) ([]string, []string) { return ids, names }
}

// toggle is a row with a tick.
type toggle struct {
	box  *widget.Check
	ref  func(p *model.Project) *bool
	busy bool
}

func (r *toggle) object() fyne.CanvasObject { return r.box }

func (r *toggle) show(p *model.Project, _ units.System) {
	r.busy = true
	r.box.SetChecked(*r.ref(p))
	r.busy = false
}

func (w *Window) tick(label string, ref func(p *model.Project) *bool) *toggle {
	r := &toggle{ref: ref}
	r.box = widget.NewCheck(label, func(on bool) {
		if r.busy {
			return
		}
		if err := w.desk.Edit(label, "", func(p *model.Project) error { *ref(p) = on; return nil }); err != nil {
			w.problem(w.explain(err))
		}
	})
	return r
}

// heading is a row without a value.
type heading struct{ label *widget.Label }

func (h heading) object() fyne.CanvasObject               { return h.label }
func (h heading) show(*model.Project, units.System)       {}
func head(text string) heading {
	l := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	return heading{l}
}

// note is a row of plain words, computed from the project.
type note struct {
	label *widget.Label
	text  func(p *model.Project, sys units.System) string
}

func (n note) object() fyne.CanvasObject { return n.label }
func (n note) show(p *model.Project, sys units.System) {
	if t := n.text(p, sys); t != n.label.Text {
		n.label.SetText(t)
	}
}

func remark(text func(p *model.Project, sys units.System) string) note {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	l.SizeName = "caption"
	return note{l, text}
}

// act is a row with buttons.
type act struct{ box *fyne.Container }

func (a act) object() fyne.CanvasObject         { return a.box }
func (a act) show(*model.Project, units.System) {}

func buttons(bs ...fyne.CanvasObject) act { return act{container.NewGridWithColumns(len(bs), bs...)} }

// stacked is a row whose control takes the whole width, with its help above.
func stacked(help string, control fyne.CanvasObject) labelled {
	l := labelled{fault: widget.NewLabel("")}
	l.fault.Wrapping = fyne.TextWrapWord
	l.fault.Importance = widget.DangerImportance
	l.fault.Hide()
	h := widget.NewLabel(help)
	h.Wrapping = fyne.TextWrapWord
	h.SizeName = "caption"
	h.Importance = widget.LowImportance
	l.box = container.New(tight{}, h, control, l.fault)
	return l
}

// whole is a row for a small whole number, chosen from a list.
func (w *Window) whole(label string, lo, hi int, ref func(p *model.Project) *int) row {
	var ids []string
	for i := lo; i <= hi; i++ {
		ids = append(ids, strconv.Itoa(i))
	}
	r := &integer{ref: ref}
	r.sel = widget.NewSelect(ids, func(s string) {
		n, err := strconv.Atoi(s)
		if r.busy || err != nil {
			return
		}
		if err := w.desk.Edit(label, "", func(p *model.Project) error { *ref(p) = n; return nil }); err != nil {
			r.say(w.explain(err))
			return
		}
		r.say("")
	})
	r.labelled = newLabelled(label, "", r.sel)
	return r
}

type integer struct {
	labelled
	sel  *widget.Select
	ref  func(p *model.Project) *int
	busy bool
}

func (r *integer) show(p *model.Project, _ units.System) {
	r.busy = true
	r.sel.SetSelected(strconv.Itoa(*r.ref(p)))
	r.busy = false
}
