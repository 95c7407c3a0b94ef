package panel

import (
	"slices"
	"strconv"

	"fyne.io/fyne/v2"

	"hillset/engine/model"
	"hillset/ui/units"
)

// options lists what a choice offers: what is stored and how it is called.
type options func(p *model.Project) (ids, names []string)

// choice is a row with a list to choose from.
type choice struct {
	*labelled
	sel     *picker
	options options
	ids     []string
	get     func(p *model.Project) string
	set     func(p *model.Project, id string) error
	about   func(p *model.Project) string
	busy    bool
}

func (r *choice) show(p *model.Project, _ units.System) {
	r.busy = true
	defer func() { r.busy = false }()
	ids, names := r.options(p)
	r.ids = ids
	if !slices.Equal(r.sel.Options, names) {
		r.sel.SetOptions(names)
	}
	if i := slices.Index(ids, r.get(p)); i < 0 {
		if r.sel.Selected != "" {
			r.sel.ClearSelected()
		}
	} else if r.sel.Selected != names[i] {
		r.sel.SetSelected(names[i])
	}
	if r.about != nil {
		r.tell(r.about(p))
	}
}

func (r *choice) chosen(name string) {
	i := slices.Index(r.sel.Options, name)
	if r.busy || i < 0 || i >= len(r.ids) {
		return
	}
	id := r.ids[i]
	if !r.commit(func(p *model.Project) error { return r.set(p, id) }) {
		r.show(r.w.desk.Project(), r.w.desk.Units())
	}
}

// choose makes a choice row over any way of storing it.
func (w *Window) choose(label, help string, o options, get func(p *model.Project) string, set func(p *model.Project, id string) error) *choice {
	r := &choice{options: o, get: get, set: set}
	r.sel = newPicker(r.chosen)
	r.sel.PlaceHolder = "choose…"
	r.labelled = w.newLabelled(label, help, textShare(label), r.sel)
	return r
}

// pick makes a choice row for a text of the project.
func (w *Window) pick(label, help string, o options, ref func(p *model.Project) *string) *choice {
	return w.choose(label, help, o,
		func(p *model.Project) string { return *ref(p) },
		func(p *model.Project, id string) error { *ref(p) = id; return nil })
}

// whole makes a choice row for a small whole number.
func (w *Window) whole(label string, lo, hi int, ref func(p *model.Project) *int) *choice {
	var ids []string
	for i := lo; i <= hi; i++ {
		ids = append(ids, strconv.Itoa(i))
	}
	return w.choose(label, "", func(*model.Project) (a, b []string) { return ids, ids },
		func(p *model.Project) string { return strconv.Itoa(*ref(p)) },
		func(p *model.Project, id string) error {
			n, err := strconv.Atoi(id)
			if err == nil {
				*ref(p) = n
			}
			return err
		})
}

// called gives one of what a choice offers another name.
func (r *choice) called(id, name string) *choice {
	offered := r.options
	r.options = func(p *model.Project) ([]string, []string) {
		ids, names := offered(p)
		names = slices.Clone(names)
		if i := slices.Index(ids, id); i >= 0 {
			names[i] = name
		}
		return ids, names
	}
	return r
}

// fixed makes an option list of pairs id, name.
func fixed(pairs ...string) options {
	var ids, names []string
	for i := 0; i+1 < len(pairs); i += 2 {
		ids, names = append(ids, pairs[i]), append(names, pairs[i+1])
	}
	return func(*model.Project) ([]string, []string) { return ids, names }
}

// toggle is a row with a tick.
type toggle struct {
	condition
	w     *Window
	label string
	box   *tickBox
	get   func(p *model.Project) bool
	set   func(p *model.Project, on bool)
	busy  bool
}

func (r *toggle) object() fyne.CanvasObject { return r.box }

func (r *toggle) show(p *model.Project, _ units.System) {
	r.busy = true
	defer func() { r.busy = false }()
	if on := r.get(p); on != r.box.Checked {
		r.box.SetChecked(on)
	}
}

func (r *toggle) ticked(on bool) {
	if r.busy {
		return
	}
	err := r.w.desk.Edit(r.label, "", func(p *model.Project) error { r.set(p, on); return nil })
	if err != nil {
		r.w.problem(r.w.explain(err))
		r.show(r.w.desk.Project(), 0)
	}
}

// tick makes a row with a tick for a truth of the project.
func (w *Window) tick(label string, ref func(p *model.Project) *bool) *toggle {
	return w.tickBy(label, func(p *model.Project) bool { return *ref(p) }, func(p *model.Project, on bool) { *ref(p) = on })
}

// tickBy is the same over any way of storing it.
func (w *Window) tickBy(label string, get func(p *model.Project) bool, set func(p *model.Project, on bool)) *toggle {
	r := &toggle{w: w, label: label, get: get, set: set}
	r.box = newTickBox(label, r.ticked)
	w.followFocus(r.box)
	return r
}
