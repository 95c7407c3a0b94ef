package panel

import (
	"context"
	"math"
	"strings"
	"unicode"

	"hillset/engine/assess"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

// anyLines tells whether a layer of what the steel does is shown.
func (w *Window) anyLines() bool {
	for _, l := range steelLines {
		if w.layers[l.of] {
			return true
		}
	}
	return false
}

// portraits has what the steel does worked out for the stage and station looked
// at, beside the window, where a layer shows it. The newest question takes the
// place of the older ones.
func (w *Window) portraits() {
	for i, b := range []*sketch.Board{w.long, w.cross} {
		kind := sketch.Kind(i)
		hidden := w.set.Sections == panelsOnly || kind == sketch.LongSection && w.set.Sections == crossOnly || kind == sketch.CrossSection && w.set.Sections == longOnly
		if !w.anyLines() || hidden {
			w.drawing[i].drop()
			b.SetPortrait(nil)
			continue
		}
		if r := w.desk.Result(); r == nil || len(r.Blocks) > 0 {
			continue // the strip on top says what is missing
		}
		w.portrait(i, b)
	}
}

// helpAgain puts the ordinary help back once no such layer is shown.
func (w *Window) helpAgain() {
	if !w.anyLines() {
		w.status.help(w.active.Help())
	}
}

// portrait works out one of the two.
func (w *Window) portrait(i int, b *sketch.Board) {
	p, stage, station := w.desk.Project(), w.desk.StageID(), w.desk.Station()
	w.drawing[i].begin(0, func(_ context.Context, show func(func())) error {
		got, err := assess.Shape(p, w.tables, stage, station, sketch.Kind(i) == sketch.LongSection)
		if err == nil {
			show(func() { b.SetPortrait(got); w.leftOut(got) })
		}
		return err
	}, func(err error) {
		b.SetPortrait(nil)
		w.status.help("No lines of the steel here: " + w.explain(err))
	})
}

// leftOut says which parts have no lines, once.
func (w *Window) leftOut(p *assess.Portrait) {
	if len(p.Out) == 0 {
		return
	}
	where := "cross section"
	if math.IsNaN(p.Station) {
		where = "long section"
	}
	w.status.help("Not drawn in the " + where + ": " + strings.Join(units.SayAll(p.Out, w.desk.Units()), "; ") + ".")
}

// steelLetter shows or hides a layer of what the steel does by its letter; it
// is true when the letter is one.
func (w *Window) steelLetter(r rune) bool {
	for _, l := range steelLines {
		if l.key == unicode.ToLower(r) {
			c := w.tools.lines[l.of]
			c.SetChecked(!c.Checked)
			return true
		}
	}
	return false
}

// panelsLetter is what letters do while the panels are shown: they zoom, or
// lead back to the sections with a tool.
func (w *Window) panelsLetter(r rune) {
	switch r {
	case 'f', 'F':
		w.inView().Fit()
		return
	case '+', '=':
		w.inView().ZoomIn()
		return
	case '-':
		w.inView().ZoomOut()
		return
	}
	for _, t := range sketch.Tools() {
		if t.Key() == unicode.ToLower(r) {
			w.takeTool(t)
		}
	}
}
