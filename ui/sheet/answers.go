package sheet

import (
	"fmt"
	"math"

	"hillset/engine/assess"
	"hillset/engine/quantity"
)

// answers is the three questions of the head line and what was found.
func (c *content) answers() table {
	t := table{tag: "answers", title: "Three questions", least: 1, cols: []column{{flex: true}, {flex: true}}}
	t.rows = append(t.rows, []cell{{text: "What gives way first, and when?"}, {text: c.first(), bold: true}})
	for _, a := range []assess.Answer{c.r.Depth, c.r.WaterUp} {
		if a.Question != "" {
			t.rows = append(t.rows, []cell{{text: a.Question}, {text: c.answer(a), bold: true}})
		}
	}
	return t
}

// first says which check governs.
func (c *content) first() string {
	g := c.r.Governing()
	if g == nil {
		return "not checked"
	}
	s := fmt.Sprintf("%s: %s, %s, ratio %s", g.Part, g.Title, g.Verdict(), ratio(g.Worst()))
	if g.Stage != "" {
		s += ", at: " + c.stageName(g.Stage)
	}
	return s
}

// answer puts a solved answer into words.
func (c *content) answer(a assess.Answer) string {
	switch {
	case a.Why != "":
		return "not solved: " + a.Why
	case a.None:
		return "not at all as drawn; what stops it: " + c.governs(a)
	case !a.Solved || !finite(a.Value):
		return "not solved"
	}
	s := c.measure(a)
	if a.AtLeast {
		return s + ", the most that was tried"
	}
	return s + "; beyond that: " + c.governs(a)
}

// measure says what the value of an answer measures: cover on the roof, fill
// beside the walls below it, or water above the underside of the box.
func (c *content) measure(a assess.Answer) string {
	switch v := c.show(math.Abs(a.Value), quantity.Length); {
	case a.Kind == "water":
		return v + " above the underside, level " + c.level(c.p.Box.Level+a.Value)
	case a.Value < 0:
		return "no cover, and fill beside it no higher than " + v + " below the roof"
	default:
		return "cover of " + v
	}
}

// governs names the check that sets the limit of an answer.
func (c *content) governs(a assess.Answer) string {
	for i := range c.r.Checks {
		if k := &c.r.Checks[i]; k.ID == a.Governs {
			return k.Part + ", " + k.Title
		}
	}
	return a.Governs
}
