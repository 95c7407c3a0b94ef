package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

// row is one line of a page: a value of the project with its label.
type row interface {
	object() fyne.CanvasObject
	show(p *model.Project, sys units.System)
}

// labelled is a row with its label, its control, a word of help and a line for
// what is wrong.
type labelled struct {
	condition
	w     *Window
	label string
	box   *fyne.Container
	help  *flow
	word  string // of help, with its values
	fault *flow
	dead  bool // the page has other rows now; what is still typed here counts for nothing
}

// Parts of a row's width that the label takes: of a number, and of a text or a
// list, where it takes no more than its words need.
const (
	numberShare = 0.55
	leastShare  = 0.28
	mostShare   = 0.45
)

// textShare is the part for a label beside a text or a list.
func textShare(label string) float32 {
	const gap = 12
	row := letters() * (sideWidth - 2*6 - scrollBar)
	w := fyne.MeasureText(label, theme.TextSize(), fyne.TextStyle{}).Width + gap
	return min(mostShare, max(leastShare, w/row))
}

func (w *Window) newLabelled(label, help string, share float32, control fyne.CanvasObject) *labelled {
	l := &labelled{w: w, label: label, word: help, help: newFlow(units.Say(help, w.desk.Units())).caption(), fault: newFlow("").strong()}
	l.fault.colour = theme.ColorNameError
	w.followFocus(control)
	line := container.New(&halves{share: share}, newFlow(label), w.guarded(control))
	l.box = container.New(&column{gap: 1}, line, l.fault, l.help)
	return l
}

// stacked is a row whose control takes the whole width, with its help above.
func (w *Window) stacked(label, help string, control fyne.CanvasObject) *labelled {
	l := &labelled{w: w, label: label, help: newFlow(help).caption(), fault: newFlow("").strong()}
	l.fault.colour = theme.ColorNameError
	w.followFocus(control)
	l.box = container.New(&column{gap: 1}, l.help, w.guarded(control), l.fault)
	return l
}

func (l *labelled) object() fyne.CanvasObject { return l.box }
func (l *labelled) die()                      { l.dead = true }

// say shows what is wrong with the value, or clears it.
func (l *labelled) say(text string) {
	if l.fault.set(text) {
		l.w.relay()
	}
}

// tell changes the word of help.
func (l *labelled) tell(text string) {
	if l.help.set(text) {
		l.w.relay()
	}
}

// commit changes the project, and says so beside the value when that cannot
// be.
func (l *labelled) commit(change func(*model.Project) error) bool {
	if l.dead {
		return false
	}
	err := l.w.desk.Edit(l.label, "", change)
	if err != nil {
		l.say(l.w.explain(err))
		return false
	}
	l.say("")
	return true
}

// like writes a value into a word of help.
func like(v float64, kind quantity.Kind) string { return quantity.Brief.Text(v, kind) }

// heading is a row without a value.
type heading struct {
	condition
	box fyne.CanvasObject
}

func (h *heading) object() fyne.CanvasObject         { return h.box }
func (h *heading) show(*model.Project, units.System) {}

func head(text string) row {
	return &heading{box: container.New(&inset{0, 5}, newFlow(text).strong())}
}

// note is a row of plain words, made from the project.
type note struct {
	condition
	w    *Window
	flow *flow
	text func(p *model.Project, sys units.System) string
}

func (n *note) object() fyne.CanvasObject { return n.flow }
func (n *note) show(p *model.Project, sys units.System) {
	if n.flow.set(n.text(p, sys)) {
		n.w.relay()
	}
}

func (w *Window) remark(text func(p *model.Project, sys units.System) string) row {
	f := newFlow("").caption()
	f.colour = theme.ColorNameForeground
	return &note{w: w, flow: f, text: text}
}

// words is a remark that never changes.
func (w *Window) words(text string) row {
	return w.remark(func(*model.Project, units.System) string { return text })
}

// act is a row of buttons.
type act struct {
	condition
	box *fyne.Container
}

func (a *act) object() fyne.CanvasObject         { return a.box }
func (a *act) show(*model.Project, units.System) {}

func buttons(bs ...fyne.CanvasObject) row {
	return &act{box: container.New(&wrapped{gap: 4}, bs...)}
}
