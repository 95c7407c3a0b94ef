package sketch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"hillset/engine/model"
	"hillset/geom"
)

// entryPanel types the numbers of a handle, beside it on the board.
type entryPanel struct {
	b      *Board
	id     string
	fields []*valueEntry
	shown  []string // texts as they were offered: only what is changed is read
	fault  *widget.Label
	box    *fyne.Container
}

// valueEntry is a line of text that knows Escape and hands Tab on to the next
// one of the same panel.
type valueEntry struct {
	widget.Entry
	escape func()
	tab    func()
}

func newValueEntry(text string, submit func(string), escape, tab func()) *valueEntry {
	e := &valueEntry{escape: escape, tab: tab}
	e.ExtendBaseWidget(e)
	e.SetText(text)
	e.OnSubmitted = submit
	return e
}

// TypedKey gives Escape and Tab to the panel.
func (e *valueEntry) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyEscape:
		e.escape()
	case fyne.KeyTab:
		e.tab()
	default:
		e.Entry.TypedKey(k)
	}
}

// AcceptsTab keeps Tab within the panel.
func (e *valueEntry) AcceptsTab() bool { return true }

// openEntry lets a value be typed for the selected handle; first, when it is
// not empty, is what was typed already.
func (b *Board) openEntry(first string) {
	h := b.handle(b.selected)
	if h == nil {
		return
	}
	b.closeEntry()
	p := &entryPanel{b: b, id: h.ID, fault: widget.NewLabel("")}
	p.fault.Wrapping = fyne.TextWrapWord
	p.fault.Hide()
	rows := container.NewVBox(widget.NewLabelWithStyle(h.Label, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
	for i, v := range h.Values {
		text := b.src.Entry(v.Now, v.Kind)
		p.shown = append(p.shown, text)
		if i == 0 && first != "" {
			text = first
		}
		e := newValueEntry(text, func(string) { p.submit() }, b.dropEntry, p.next)
		p.fields = append(p.fields, e)
		if v.Label != h.Label {
			rows.Add(widget.NewLabel(v.Label))
		}
		rows.Add(e)
	}
	rows.Add(p.fault)
	p.box = container.NewStack(newPlate(), container.NewPadded(rows))
	b.entry = p
	b.overlay.collect()
	b.overlay.place()
	b.canvasRefresh()
	p.focusOn(0, first == "")
}

// focusOn gives the keys to one of the lines.
func (p *entryPanel) focusOn(i int, all bool) {
	e := p.fields[i]
	if a := fyne.CurrentApp(); a != nil {
		if c := a.Driver().CanvasForObject(p.b); c != nil {
			c.Focus(e)
		}
	}
	if all {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
		return
	}
	e.CursorColumn = len([]rune(e.Text))
	e.Refresh()
}

// next goes from one line to the one after.
func (p *entryPanel) next() {
	for i, e := range p.fields {
		if e.focused() {
			p.focusOn((i+1)%len(p.fields), true)
			return
		}
	}
}

func (e *valueEntry) focused() bool {
	a := fyne.CurrentApp()
	if a == nil {
		return false
	}
	c := a.Driver().CanvasForObject(e)
	return c != nil && c.Focused() == e
}

// submit reads what was changed and puts it in the project; what cannot be
// read or stored is told and stays to be corrected.
func (p *entryPanel) submit() {
	b := p.b
	h := b.handle(p.id)
	if h == nil {
		b.dropEntry()
		return
	}
	vals := make([]float64, len(h.Values))
	for i, v := range h.Values {
		vals[i] = v.Now
		if p.fields[i].Text == p.shown[i] {
			continue
		}
		var err error
		if vals[i], err = b.src.Parse(p.fields[i].Text, v.Kind); err != nil {
			p.tell(err)
			return
		}
	}
	held := *h
	err := b.src.Edit("Set "+lower(h.Label), "", func(pr *model.Project) error {
		if held.move != nil {
			return held.Apply(pr, geom.Vec{vals[0], vals[1]})
		}
		return held.Values[0].Set(pr, vals[0])
	})
	if err != nil {
		p.tell(err)
		return
	}
	b.problem(nil)
	b.dropEntry()
	b.ModelChanged()
	b.status()
}

// tell shows what is wrong in the panel and hands it on.
func (p *entryPanel) tell(err error) {
	p.b.problem(err)
	p.fault.SetText(p.b.src.Explain(err))
	p.fault.Show()
	p.place()
}

// place puts the panel beside its handle, within the board.
func (p *entryPanel) place() {
	b := p.b
	size := p.box.MinSize().Max(fyne.NewSize(190, 0))
	pos := fyne.NewPos(b.Size().Width/2, b.Size().Height/2)
	if h := b.handle(p.id); h != nil {
		pos = b.cam.position(h.At).AddXY(noteOffset, noteOffset)
	}
	pos.X = max(0, min(pos.X, b.Size().Width-size.Width))
	pos.Y = max(0, min(pos.Y, b.Size().Height-size.Height))
	p.box.Resize(size)
	p.box.Move(pos)
}

// Typing says whether a value is being typed on the board.
func (b *Board) Typing() bool { return b.entry != nil }

// closeEntry takes the panel away; what was typed in it is dropped.
func (b *Board) closeEntry() {
	if b.entry == nil {
		return
	}
	b.entry = nil
	b.overlay.collect()
	b.overlay.place()
	b.canvasRefresh()
}

// dropEntry takes the panel away and gives the keys back to the board.
func (b *Board) dropEntry() {
	b.closeEntry()
	b.focused = false
	b.takeFocus()
}
