package sheet

import (
	"fmt"
	"math"
	"strings"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/ui/units"
)

// answers is the three questions of the head line and what was found.
func (c *content) answers() table {
	t := table{tag: "answers", title: "Three questions", least: 1, cols: []column{{flex: true}, {flex: true}}}
	t.rows = append(t.rows, []cell{{text: "What gives way first, and when?"}, {text: c.first(), bold: true}})
	for _, a := range []assess.Answer{c.r.Depth, c.r.WaterUp} {
		if a.Question != "" {
			t.rows = append(t.rows, []cell{{text: a.Question}, {text: AnswerWords(c.r, a, c.o.Units), bold: true}})
		}
	}
	return t
}

// burial is the table of how high each soil may stand against the walls.
func (c *content) burial() table {
	const title = "How high each soil may stand against the bare sheet"
	rows, err := assess.BurialTable(c.p, tables.Default())
	if err != nil {
		return paragraphs("burial", title, []string{"not worked out: " + units.Say(err.Error(), c.o.Units)})
	}
	t := table{tag: "burial", title: title, least: together, foot: BurialNote, cols: []column{
		{head: "Soil", flex: true}, {head: "Drained", right: true}, {head: "Flooded", right: true}, {head: "On the roof", right: true},
	}}
	for _, r := range rows {
		name := r.Name
		if r.Class == strings.ToUpper(r.Class) {
			name += " (" + r.Class + ")"
		}
		t.rows = append(t.rows, []cell{{text: name}, {text: BurialWords(r.Drained, r.WholeDrained, c.o.Units)},
			{text: BurialWords(r.Flooded, r.WholeFlooded, c.o.Units)}, {text: BurialWords(r.RoofCover, false, c.o.Units)}})
	}
	return t
}

// BurialNote says what the table of burials holds for.
const BurialNote = "The bare sheet alone, level fill at rest, no compaction, surcharge or slope; rails, sliding and flotation are not in it, and what is built in is not counted: on site less holds. " +
	"The saying that a box may be buried 4 to 6 ft holds only where the height shown is more."

// BurialWords writes a height of the table of burials; NaN is a soil that is
// not allowed as backfill.
func BurialWords(h float64, whole bool, sys units.System) string {
	switch {
	case math.IsNaN(h):
		return "not allowed"
	case whole:
		return "whole wall, " + units.Format(h, quantity.Length, sys)
	}
	return units.Format(h, quantity.Length, sys)
}

// first says which check governs.
func (c *content) first() string {
	g := c.r.Governing()
	if g == nil {
		return "not checked"
	}
	s := fmt.Sprintf("%s: %s, ratio %s", upperFirst(Called(g.Part, g.Title)), g.Verdict(), FormatRatio(g.Worst()))
	if g.Stage != "" {
		s += ", at: " + c.stageName(g.Stage)
	}
	return s
}

// AnswerWords says what was found for one of the two questions that are
// solved: the value with what it measures, and what gives way beyond it; or
// why there is no value.
func AnswerWords(r *assess.Result, a assess.Answer, sys units.System) string {
	switch {
	case a.Why != "":
		return "not solved: " + units.Say(a.Why, sys)
	case a.None:
		return "not at all as drawn; what stops it: " + governs(r, a)
	case !a.Solved || !finite(a.Value):
		return "not solved"
	case a.AtLeast:
		return measure(r, a, sys) + ", the most that was tried"
	}
	return measure(r, a, sys) + "; beyond that: " + governs(r, a)
}

// measure says what the value of an answer measures: cover on the roof, fill
// beside the walls below it, or water above the underside of the box.
func measure(r *assess.Result, a assess.Answer, sys units.System) string {
	v := units.Format(math.Abs(a.Value), quantity.Length, sys)
	switch {
	case a.Kind == "water" && r.Project != nil:
		return v + " above the underside, level " + units.FormatLevel(r.Project.Box.Level+a.Value, sys)
	case a.Kind == "water":
		return v + " above the underside"
	case a.Value < 0:
		return "no cover, and fill beside it no higher than " + v + " below the roof"
	}
	return "cover of " + v
}

// governs names the check that sets the limit of an answer.
func governs(r *assess.Result, a assess.Answer) string {
	for i := range r.Checks {
		if k := &r.Checks[i]; k.ID == a.Governs {
			return Called(k.Part, k.Title) + unmade(a.Unmade)
		}
	}
	return a.Governs + unmade(a.Unmade)
}

// unmade says of a check that sets a limit that it is not made beyond it.
func unmade(yes bool) string {
	if yes {
		return ", which can no longer be checked"
	}
	return ""
}
