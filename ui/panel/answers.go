package panel

import (
	"math"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// waitsForNext answers while something is still missing.
const waitsForNext = "Not known before all is given: see “Next” at the left"

// answerWords says a solved answer in the reader's units.
func (w *Window) answerWords(a *assess.Answer, r *assess.Result) string {
	switch {
	case r.Governing() == nil:
		return "Not known yet"
	case a.Question == "":
		return computing
	case a.Why != "" && len(r.Blocks) > 0:
		return waitsForNext
	case a.Why != "":
		return "Not solved: " + units.Say(a.Why, w.desk.Units())
	}
	then := w.thenWords(a, r)
	if a.Kind == "water" {
		return w.waterWords(a, then)
	}
	return w.depthWords(a, then)
}

// thenWords names what gives way beyond the answer.
func (w *Window) thenWords(a *assess.Answer, r *assess.Result) string {
	lost := ""
	if a.Unmade {
		lost = ", which can no longer be checked"
	}
	for i := range r.Checks {
		if c := &r.Checks[i]; c.ID == a.Governs {
			return sheet.Called(c.Part, c.Title) + lost
		}
	}
	return a.Governs + lost
}

func (w *Window) length(m float64) string { return units.Format(m, quantity.Length, w.desk.Units()) }

// depthWords says how deep: the answer is the cover on the roof, below zero
// the fill beside the walls.
func (w *Window) depthWords(a *assess.Answer, then string) string {
	v := a.Value
	switch {
	case a.None || math.IsNaN(v):
		return "Not at all as drawn. What stops it: " + then
	case a.AtLeast:
		return "Cover up to " + w.length(v) + ", the most that is tried"
	case v < 0:
		return "No cover. Fill beside it must stay " + w.length(-v) + " below the roof; beyond: " + then
	}
	return "Cover up to " + w.length(v) + "; beyond: " + then
}

// waterWords says how high: the answer is measured from the underside of the
// corner castings.
func (w *Window) waterWords(a *assess.Answer, then string) string {
	v := a.Value
	level := func() string {
		return w.length(v) + " above the underside, level " + units.FormatLevel(w.desk.Project().Box.Level+v, w.desk.Units())
	}
	switch {
	case a.None || math.IsNaN(v):
		return "Not even to the underside as drawn. What stops it: " + then
	case a.AtLeast:
		return "Up to the finished surface: " + level()
	}
	return sentence(level()) + "; beyond: " + then
}
