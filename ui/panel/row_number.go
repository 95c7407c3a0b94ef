package panel

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

// number is a row for a quantity. stored times size is the SI value: some
// fields of the file are held in mm, kg or degrees, as they are written on a
// plate or a gauge.
type number struct {
	*labelled
	entry *commitEntry
	kind  quantity.Kind
	size  float64
	blank string // what an empty field (0 in the file) means; "" where 0 is a value
	ref   func(p *model.Project) *float64
	opt   func(p *model.Project) **float64           // instead of ref: a value that may be missing
	table func(p *model.Project) *map[string]float64 // instead of ref: the value of key, which may be missing
	key   string
	after func(p *model.Project)        // what else a typed value changes
	about func(p *model.Project) string // help that follows the project
	level bool                          // a level over the datum
	// hidden keeps back a value that is not the user's where his own is asked for.
	hidden func(p *model.Project) bool
	unit   units.System
}

// get is the SI value; ok is false where there is none.
func (n *number) get(p *model.Project) (v float64, ok bool) {
	if n.table != nil {
		v, ok = (*n.table(p))[n.key]
		return v * n.size, ok
	}
	if n.opt != nil {
		if q := *n.opt(p); q != nil {
			return *q * n.size, true
		}
		return 0, false
	}
	if n.hidden != nil && n.hidden(p) {
		return 0, false
	}
	v = *n.ref(p)
	return v * n.size, v != 0 || n.blank == ""
}

// set stores an SI value, or none.
func (n *number) set(p *model.Project, v float64, has bool) {
	switch {
	case n.table != nil:
		setEntry(n.table(p), n.key, v/n.size, has)
	case n.opt == nil:
		*n.ref(p) = v / n.size
	case !has:
		*n.opt(p) = nil
	default:
		v /= n.size
		*n.opt(p) = &v
	}
	if n.after != nil {
		n.after(p)
	}
}

func (n *number) show(p *model.Project, sys units.System) {
	n.unit = sys
	v, ok := n.get(p)
	text := ""
	switch {
	case ok && math.IsNaN(v):
		text = units.None
	case ok && n.level:
		text = decimal(v, n.kind, sys)
	case ok:
		text = brief(v, n.kind, sys)
	}
	if n.entry.show(text) {
		n.say("")
	}
	if n.about != nil {
		n.tell(n.about(p))
	} else {
		n.tell(units.Say(n.word, sys))
	}
}

// take reads what was typed and changes the project.
func (n *number) take(text string) {
	text = strings.TrimSpace(text)
	v, has := 0.0, true
	if text == "" && (n.opt != nil || n.table != nil || n.blank != "") {
		has = false
	} else {
		var err error
		if v, err = units.Parse(n.kind, text, n.unit); err != nil {
			n.say(n.w.explain(err))
			return
		}
	}
	if n.commit(func(p *model.Project) error { n.set(p, v, has); return nil }) {
		n.entry.taken()
		n.show(n.w.desk.Project(), n.unit)
	}
}

// num makes a number row.
func (w *Window) num(label, help string, kind quantity.Kind, ref func(p *model.Project) *float64) *number {
	n := &number{kind: kind, size: 1, ref: ref}
	n.entry = newCommitEntry(n.take)
	n.labelled = w.newLabelled(label, help, numberShare, n.entry)
	n.entry.back = func() { n.say("") }
	return n
}

// then says what else a typed value changes.
func (n *number) then(f func(p *model.Project)) *number { n.after = f; return n }

// in sets the size of the stored unit in SI.
func (n *number) in(size float64) *number { n.size = size; return n }

// asLevel says that the value is a level over the datum.
func (n *number) asLevel() *number { n.level = true; return n }

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

// setEntry stores a value in a table, or takes it out; a table without entries
// is none.
func setEntry(m *map[string]float64, key string, v float64, has bool) {
	if !has {
		delete(*m, key)
		if len(*m) == 0 {
			*m = nil
		}
		return
	}
	if *m == nil {
		*m = map[string]float64{}
	}
	(*m)[key] = v
}

// keyed makes a number row for a value of a table of the project; blank says
// what a missing one means.
func (w *Window) keyed(label, blank string, kind quantity.Kind, key string, table func(p *model.Project) *map[string]float64) *number {
	n := w.num(label, "", kind, nil)
	n.table, n.key = table, key
	n.entry.SetPlaceHolder(blank)
	return n
}

// text is a row for a text of the project.
type text struct {
	*labelled
	entry *commitEntry
	ref   func(p *model.Project) *string
}

func (r *text) show(p *model.Project, _ units.System) {
	if r.entry.show(*r.ref(p)) {
		r.say("")
	}
}

func (r *text) take(s string) {
	if r.commit(func(p *model.Project) error { *r.ref(p) = s; return nil }) {
		r.entry.taken()
	}
}

// text makes a row for a line of text.
func (w *Window) text(label, help string, ref func(p *model.Project) *string) *text {
	r := &text{ref: ref}
	r.entry = newCommitEntry(r.take)
	r.labelled = w.newLabelled(label, help, textShare(label), r.entry)
	r.entry.back = func() { r.say("") }
	return r
}

// notes makes a row for several lines of text.
func (w *Window) notes(label, help string, lines int, ref func(p *model.Project) *string) *text {
	r := &text{ref: ref}
	r.entry = newCommitLines(r.take)
	r.entry.Wrapping = fyne.TextWrapWord
	r.entry.SetMinRowsVisible(lines)
	r.labelled = w.stacked(label, help, r.entry)
	r.entry.back = func() { r.say("") }
	return r
}
