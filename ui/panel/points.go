package panel

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2/container"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/survey"
	"hillset/ui/units"
)

// readCell reads the cells of a pasted table in the reader's units.
func (w *Window) readCell(kind quantity.Kind, text string) (float64, error) {
	return units.Parse(kind, text, w.desk.Units())
}

// readPoints reads a table of distance and level. An empty text is no line.
// Where points are out of order or stand twice the offer says what could be
// done about it.
func (w *Window) readPoints(text string, do survey.Offer) (pts []model.Vec, offer survey.Offer, err error) {
	if strings.TrimSpace(text) == "" {
		return nil, survey.NoOffer, nil
	}
	t, err := survey.Read(text, survey.Options{Form: survey.DistanceLevel, Read: w.readCell})
	if err != nil {
		return nil, survey.NoOffer, err
	}
	return groundOf(survey.Apply(t.Points(), do))
}

// groundOf makes a line of points, or says what is wrong with the first one
// that is.
func groundOf(found []survey.Point) (pts []model.Vec, offer survey.Offer, err error) {
	pts, issues := survey.GroundLine(found)
	if len(issues) == 0 {
		return pts, survey.NoOffer, nil
	}
	first := issues[0]
	text := first.Value + ": " + first.Text
	if len(issues) > 1 {
		text += fmt.Sprintf(" (and %d more)", len(issues)-1)
	}
	return nil, first.Offer, errors.New(text)
}

// offerWords is what stands on the button of an offer.
func offerWords(o survey.Offer) string {
	switch o {
	case survey.SortPoints:
		return "Put them in order of distance"
	case survey.DropRepeats:
		return "Keep one of each"
	}
	return ""
}

// lineRow is a polyline as a typed table: one point a line.
type lineRow struct {
	*labelled
	entry *commitEntry
	mend  *chip
	offer survey.Offer
	ref   func(p *model.Project) *[]model.Vec
}

func (r *lineRow) show(p *model.Project, sys units.System) {
	if r.entry.show(lineText(*r.ref(p), sys)) {
		r.say("")
		r.mend.Hide()
	}
}

// lineText writes points as the table shows them.
func lineText(pts []model.Vec, sys units.System) string {
	var b strings.Builder
	for _, q := range pts {
		b.WriteString(pointText(q, sys) + "\n")
	}
	return b.String()
}

// pointText is one line of the table. Feet stand in decimals there, as on a
// staff.
func pointText(q model.Vec, sys units.System) string {
	return surveyed(q[0], sys) + "\t" + surveyed(q[1], sys)
}

// surveyed writes a distance or level to 1 mm or 0.001 ft.
func surveyed(v float64, sys units.System) string {
	size, err := units.Parse(quantity.Length, "1", sys)
	if err != nil {
		panic("panel: a bare 1 is no length: " + err.Error())
	}
	s := strconv.FormatFloat(v/size, 'f', 3, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".") + " " + units.Unit(quantity.Length, sys)
}

// kept puts the exact points of before in place of those that were typed just
// as they are shown, so that a table loses nothing of the lines that nobody
// touched.
func kept(typed, before []model.Vec, sys units.System) []model.Vec {
	exact := map[string]model.Vec{}
	for _, q := range before {
		exact[pointText(q, sys)] = q
	}
	for i, q := range typed {
		if e, ok := exact[pointText(q, sys)]; ok {
			typed[i] = e
		}
	}
	return typed
}

// take reads the table, mending it as asked, and puts it in the project.
func (r *lineRow) take(text string, mending survey.Offer) {
	pts, offer, err := r.w.readPoints(text, mending)
	if err != nil {
		r.offer = offer
		r.mend.text = offerWords(offer)
		r.mend.Hidden = offer == survey.NoOffer
		r.mend.Refresh()
		r.say(r.w.explain(err))
		r.w.relay()
		return
	}
	r.mend.Hide()
	pts = kept(pts, *r.ref(r.w.desk.Project()), r.w.desk.Units())
	if r.commit(func(p *model.Project) error { *r.ref(p) = pts; return nil }) {
		r.entry.taken()
		r.show(r.w.desk.Project(), r.w.desk.Units())
	}
}

// lineTable makes the table of a polyline, lines rows high.
func (w *Window) lineTable(label, help string, lines int, ref func(p *model.Project) *[]model.Vec) *lineRow {
	r := &lineRow{ref: ref}
	r.entry = newCommitLines(func(text string) { r.take(text, survey.NoOffer) })
	r.entry.SetMinRowsVisible(lines)
	r.mend = newChip("", func() { r.take(r.entry.Text, r.offer) })
	r.mend.Hide()
	r.labelled = w.stacked("Type "+lowerFirst(label), help, container.New(&column{gap: 2}, w.guarded(r.entry), r.mend))
	r.entry.back = func() { r.say(""); r.mend.Hide() }
	return r
}
