package panel

import (
	"fmt"
	"os"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/survey"
	"hillset/ui/units"
)

// forms are the ways of measuring that the dialog reads, with what stands in
// the columns.
var forms = []struct {
	name, columns string
	form          survey.Form
	chained       bool
	eye           bool // heights of instrument and target count
}{
	{"Distance and level", "distance, level; a name may stand before them", survey.DistanceLevel, false, false},
	{"Slope distance and angle, from point to point", "slope distance, angle (or a column headed grade)", survey.SlopeShots, true, false},
	{"Slope distance and angle, all from one place", "slope distance, angle (or a column headed grade)", survey.SlopeShots, false, true},
	{"Stadia: three hairs and an angle", "upper, middle, lower hair, angle", survey.StadiaSights, false, true},
	{"Level book with distances", "with headings: point, distance, BS, IS, FS", survey.LevelBook, false, false},
}

// surveying is the dialog in which measurements become the ground line.
type surveying struct {
	w          *Window
	form       *widget.Select
	decimal    *widget.Select
	start      [4]*field // distance, level, instrument, target or last level
	labels     [4]*flow
	text       *field
	columns    *flow
	result     *flow
	mend       *chip
	use        *reply
	mending    []survey.Offer
	offer      survey.Offer
	points     []model.Vec
	dialog     *dialog.CustomDialog
	body       *fyne.Container
	suppressed bool
}

// shotsDialog opens the dialog for shots that are typed or pasted.
func (w *Window) shotsDialog() { w.surveyDialog(1, "") }

// importGround asks for a file of points.
func (w *Window) importGround() {
	w.askPath("Import points", "Import", w.folder()+string(os.PathSeparator), false, w.importFile)
}

// importFile shows what is read from a file before it is used.
func (w *Window) importFile(path string) {
	data, err := os.ReadFile(path)
	if err != nil {
		w.failed("This file was not read", err)
		return
	}
	w.surveyDialog(0, string(data))
}

func (w *Window) surveyDialog(form int, text string) {
	s := &surveying{w: w, text: w.newField(true), columns: newFlow("").caption(), result: newFlow("")}
	s.text.Wrapping = fyne.TextWrapOff
	s.text.SetText(text)
	s.text.OnChanged = func(string) { s.mending = nil; s.read() }
	var names []string
	for _, f := range forms {
		names = append(names, f.name)
	}
	s.form = widget.NewSelect(names, func(string) { s.mending = nil; s.read() })
	s.decimal = widget.NewSelect([]string{"Decimals: found by itself", "Decimals: point, 1.93", "Decimals: comma, 1,93"}, func(string) { s.read() })
	s.mend = newChip("", func() { s.mending = append(s.mending, s.offer); s.read() })
	s.use = w.newReply("Use as the ground line", true, s.take)
	s.suppressed = true
	s.form.SetSelectedIndex(form)
	s.decimal.SetSelectedIndex(0)
	s.suppressed = false
	s.lay()
	s.dialog.SetButtons([]fyne.CanvasObject{s.use, w.newReply("Back", false, func() { s.dialog.Hide() })})
	s.read()
	s.dialog.Resize(w.win.Canvas().Size().SubtractWidthHeight(240, 120))
	w.surveyed = s
	w.present(s.dialog)
	w.win.Canvas().Focus(s.text)
}

func (s *surveying) lay() {
	var heads []fyne.CanvasObject
	p := s.w.desk.Project()
	first := model.Vec{}
	if len(p.Site.Ground) > 0 {
		first = p.Site.Ground[0]
	}
	sys := s.w.desk.Units()
	for i, v := range []string{units.Entry(first[0], quantity.Length, sys), units.Entry(first[1], quantity.Length, sys), "", ""} {
		s.start[i] = s.w.newField(false)
		s.start[i].SetText(v)
		s.start[i].OnChanged = func(string) { s.read() }
		s.labels[i] = newFlow("").caption()
		heads = append(heads, container.New(&column{gap: 1}, s.labels[i], s.start[i]))
	}
	top := container.New(&column{gap: 5},
		container.New(&shares{of: []float32{0.62, 0.38}, gap: 8}, s.form, s.decimal), s.columns,
		container.New(&shares{of: []float32{1, 1, 1, 1}, gap: 6}, heads...))
	right := container.NewBorder(nil, s.mend, nil, nil, container.NewVScroll(container.New(&column{}, s.result)))
	s.body = container.NewBorder(top, nil, nil, nil, container.New(&shares{of: []float32{1, 1}, gap: 8}, s.text, right))
	s.dialog = dialog.NewCustomWithoutButtons("Measured points", s.body, s.w.win)
}

// read understands what stands in the dialog and shows it.
func (s *surveying) read() {
	if s.suppressed || s.dialog == nil {
		return
	}
	s.names()
	pts, note, err := s.reduce()
	s.points = nil
	if err == nil {
		s.points, s.offer, err = groundOf(pts)
	}
	s.mend.Hidden = err == nil || s.offer == survey.NoOffer
	s.mend.text = offerWords(s.offer)
	s.mend.Refresh()
	if strings.TrimSpace(s.text.Text) == "" {
		s.use.Disable()
		s.mend.Hide()
		s.result.colour = "foreground"
		s.result.set("Type or paste what was measured on the left, one point a line. What is understood stands here before it is used.")
	} else if err != nil {
		s.use.Disable()
		s.result.colour = "error"
		s.result.set(s.w.explain(err))
	} else {
		s.use.Enable()
		s.result.colour = "foreground"
		s.result.set(note + pointWords(s.points, s.w.desk.Units()))
	}
	s.result.Refresh()
	s.body.Refresh()
}

// names says what the columns and the four fields are for the chosen form.
func (s *surveying) names() {
	f := forms[s.form.SelectedIndex()]
	s.columns.set("Columns: " + f.columns + ". Units of both systems are read; a bare number is in " + units.Unit(quantity.Length, s.w.desk.Units()) + ".")
	third, fourth := "", ""
	switch {
	case f.form == survey.LevelBook:
		third = "Known level of the last point (may be empty)"
	case f.eye:
		third, fourth = "Height of the instrument", "Height of the mark"
	}
	if f.form == survey.StadiaSights {
		fourth = ""
	}
	for i, name := range []string{"Distance of the start", "Level of the start", third, fourth} {
		s.labels[i].set(name)
		hide := name == "" || f.form == survey.DistanceLevel || f.form == survey.LevelBook && i == 0
		s.labels[i].Hidden, s.start[i].Hidden = hide, hide
	}
}

// value reads one of the four fields; an empty one is 0.
func (s *surveying) value(i int) (v float64, given bool, err error) {
	text := strings.TrimSpace(s.start[i].Text)
	if s.start[i].Hidden || text == "" {
		return 0, false, nil
	}
	if v, err = units.Parse(quantity.Length, text, s.w.desk.Units()); err != nil {
		return 0, false, fmt.Errorf("%s: %w", lowerFirst(s.labels[i].text), err)
	}
	return v, true, nil
}

// reduce turns the text into points; note says what was found on the way.
func (s *surveying) reduce() (pts []survey.Point, note string, err error) {
	f := forms[s.form.SelectedIndex()]
	t, err := survey.Read(s.text.Text, survey.Options{Form: f.form, Decimal: survey.Decimal(s.decimal.SelectedIndex()), Read: s.w.readCell})
	if err != nil {
		return nil, "", err
	}
	var v [4]float64
	var has bool
	for i := range v {
		given := false
		if v[i], given, err = s.value(i); err != nil {
			return nil, "", err
		}
		if i == 2 {
			has = given
		}
	}
	if f.form == survey.LevelBook {
		pts, note, err = s.book(t, v[1], v[2], has)
	} else {
		pts, err = t.Ground(survey.Start{At: model.Vec{v[0], v[1]}, Eye: v[2], Target: v[3], Chained: f.chained}, survey.Ordinary)
	}
	for _, o := range s.mending {
		pts = survey.Apply(pts, o)
	}
	return pts, note, err
}

// book reduces a level book and spreads the misclosure when the last level is
// known.
func (s *surveying) book(t *survey.Table, first, last float64, known bool) (pts []survey.Point, note string, err error) {
	b, err := survey.Reduce(first, t.Readings())
	if err != nil {
		return nil, "", err
	}
	levels := make([]float64, len(b.Rows))
	for i, r := range b.Rows {
		levels[i] = r.Level
	}
	if known {
		levels = b.AdjustBySetups(last)
		note = fmt.Sprintf("Misclosure %s over %s, spread evenly.\n", units.Format(b.Misclosure(last), quantity.Thickness, s.w.desk.Units()), plural(b.Setups, "set-up", "set-ups"))
	}
	pts, err = t.BookPoints(levels)
	return pts, note, err
}

// pointWords lists points as they will be used.
func pointWords(pts []model.Vec, sys units.System) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s understood: distance and level\n", plural(len(pts), "point", "points"))
	for _, p := range pts {
		fmt.Fprintf(&b, "%s   %s\n", units.Format(p[0], quantity.Length, sys), units.FormatLevel(p[1], sys))
	}
	return b.String()
}

// take puts the points in the project.
func (s *surveying) take() {
	pts := s.points
	if len(pts) == 0 {
		return
	}
	if s.w.edit("Measured ground line", func(p *model.Project) error { p.Site.Ground = pts; return nil }) {
		s.dialog.Hide()
		s.w.long.Fit()
	}
}
