package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/ui/units"
)

// stageBar is the row below the drawing: which stage of the work is shown, and
// where the cross section is taken.
type stageBar struct {
	w           *Window
	sel         *widget.Select
	back, forth *chip
	slide       *widget.Slider
	entry       *commitEntry
	box         *fyne.Container
	busy        bool
}

func newStageBar(w *Window) *stageBar {
	s := &stageBar{w: w}
	s.back, s.forth = newChip("‹ Before", func() { w.stepStage(-1) }), newChip("After ›", func() { w.stepStage(1) })
	s.sel = widget.NewSelect(nil, func(string) {
		if !s.busy {
			w.lookAt(s.sel.SelectedIndex())
		}
	})
	s.slide = widget.NewSlider(0, 1)
	s.slide.Step = 0.01
	s.slide.OnChanged = func(v float64) {
		if !s.busy {
			w.setStation(v)
		}
	}
	s.entry = newCommitEntry(func(text string) {
		x, err := units.Parse(quantity.Length, text, w.desk.Units())
		if err != nil {
			w.problem(w.explain(err))
			return
		}
		s.entry.taken()
		w.problem("")
		w.setStation(x)
	})
	stage := container.NewBorder(nil, nil, container.NewHBox(widget.NewLabel("Stage"), s.back), s.forth, s.sel)
	at := container.NewBorder(nil, nil, widget.NewLabel("Cross section at"), container.New(&exactly{96}, s.entry), s.slide)
	s.box = container.New(&inset{6, 3}, container.New(&shares{of: []float32{0.55, 0.45}, gap: 12}, stage, at))
	return s
}

func (s *stageBar) object() fyne.CanvasObject { return s.box }

// show brings the row up to the desk.
func (s *stageBar) show() {
	s.busy = true
	defer func() { s.busy = false }()
	d := s.w.desk
	p := d.Project()
	names, at := stageNames(p), s.w.stageIndex()
	if !equal(s.sel.Options, names) {
		s.sel.SetOptions(names)
	}
	if at >= 0 && s.sel.SelectedIndex() != at {
		s.sel.SetSelectedIndex(at)
	}
	s.back.enable(at > 0)
	s.forth.enable(at >= 0 && at < len(names)-1)
	if lo, hi := s.w.stationRange(); lo != s.slide.Min || hi != s.slide.Max {
		s.slide.Min, s.slide.Max = lo, hi
		s.slide.Refresh()
	}
	s.w.station = d.Station()
	if x := d.Station(); x != s.slide.Value {
		s.slide.SetValue(x)
	}
	s.entry.show(units.Format(d.Station(), quantity.Length, d.Units()))
}

// stageNames lists the stages as they are called, with their numbers, so that
// no two are alike.
func stageNames(p *model.Project) []string {
	out := make([]string, len(p.Stages))
	for i, st := range p.Stages {
		out[i] = numbered(i, st.Name)
	}
	return out
}

// stageIndex is the place of the stage that is looked at, -1 for none.
func (w *Window) stageIndex() int {
	id := w.desk.StageID()
	for i, st := range w.desk.Project().Stages {
		if st.ID == id {
			return i
		}
	}
	return -1
}

// lookAt shows the stage at a place of the list; outside of it nothing
// changes.
func (w *Window) lookAt(i int) {
	st := w.desk.Project().Stages
	if i < 0 || i >= len(st) {
		return
	}
	if err := w.desk.SetStage(st[i].ID); err != nil {
		w.problem(w.explain(err))
	}
}

func (w *Window) stepStage(d int) { w.lookAt(w.stageIndex() + d) }

// setStation moves the cross section.
func (w *Window) setStation(x float64) {
	if err := w.desk.SetStation(x); err != nil {
		w.problem(w.explain(err))
	}
}

// stationRange is where the slider goes: along the box, with a step beyond at
// both ends.
func (w *Window) stationRange() (lo, hi float64) {
	const beyond = 1.0
	p := w.desk.Project()
	lo, hi = p.Box.Front-beyond, p.Box.Front+2*beyond
	if b, err := section.BoxOf(p, w.tables); err == nil {
		hi = p.Box.Front + section.Depth(p, b) + beyond
	}
	if g := p.Site.Ground; len(g) > 1 {
		lo, hi = max(lo, g[0][0]), min(hi, g[len(g)-1][0])
	}
	if hi <= lo {
		hi = lo + beyond
	}
	return lo, hi
}
