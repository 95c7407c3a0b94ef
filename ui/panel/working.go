package panel

import (
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// part is one paragraph of a working: a heading, or words below one.
type part struct {
	head   bool
	text   string
	source string // small words below
}

// object shows a paragraph.
func (p part) object() fyne.CanvasObject {
	f := newFlow(p.text)
	if p.head {
		f.strong()
		return container.New(&inset{0, 2}, f)
	}
	if p.source == "" {
		return f
	}
	return container.New(&column{gap: 1}, f, newFlow(p.source).caption())
}

// plain writes paragraphs as text.
func plain(parts []part) string {
	var b strings.Builder
	for _, p := range parts {
		if p.head && b.Len() > 0 {
			b.WriteString("\n")
		}
		b.WriteString(p.text + "\n")
		if p.source != "" {
			b.WriteString("    " + p.source + "\n")
		}
	}
	return b.String()
}

// workingHead stands over the steps of a working.
const workingHead = "Working"

// checkParts writes the whole of a check: verdict, numbers, remedy, working,
// assumptions, validity, source.
func (w *Window) checkParts(c *check.Check) []part {
	sys := w.desk.Units()
	out := []part{{head: true, text: sentence(c.Part) + ": " + lowerFirst(c.Title)}}
	say := func(text string) { out = append(out, part{text: text}) }
	if c.Verdict() == check.NotChecked {
		say("Not checked. What is missing: " + sheet.Unmade(c, sys))
		return append(append(out, stepParts(c, sys)...), w.sourceParts(c)...)
	}
	say(sentence(c.Verdict().String()) + ": " + timesLimit(c.Worst()) + w.where(c) + ".")
	if both := bothRatios(c); both != "" {
		say(both)
	}
	if c.Rule {
		say("A rule is met or not met: how closely it is met is no margin of strength.")
	}
	say("Asked: " + named(c.Demand, sys) + "\nThere is: " + named(c.Capacity, sys))
	if c.Remedy != "" {
		out = append(out, part{head: true, text: "What would bring it within limits"}, part{text: full(units.Fill(c.Remedy, c.RemedyQ, sys))})
	}
	out = append(out, stepParts(c, sys)...)
	if len(c.Assumptions) > 0 {
		out = append(out, part{head: true, text: "Taken for granted"})
		for _, a := range c.Assumptions {
			say("• " + full(units.Say(a, sys)))
		}
	}
	return append(out, w.sourceParts(c)...)
}

// stepParts are the steps of the working; none where it has none.
func stepParts(c *check.Check, sys units.System) []part {
	if len(c.Working) == 0 {
		return nil
	}
	out := []part{{head: true, text: workingHead}}
	for _, l := range c.Working {
		out = append(out, part{text: workingText(l, sys), source: units.Say(l.Source, sys)})
	}
	return out
}

// full makes a sentence of words that may lack their capital or their stop.
func full(s string) string {
	s = sentence(s)
	if s != "" && !strings.ContainsAny(s[len(s)-1:], ".!?") {
		s += "."
	}
	return s
}

// workingText is one step with its words before it.
func workingText(l check.Line, sys units.System) string {
	s := strings.Join(units.LineSteps(l, sys), "\n")
	if l.Text == "" {
		return s
	}
	return sentence(strings.TrimRight(units.Say(l.Text, sys), ": ")) + ":\n" + s
}

// sourceParts say where a method holds and where it comes from.
func (w *Window) sourceParts(c *check.Check) []part {
	var out []part
	if c.Validity != "" {
		out = append(out, part{head: true, text: "Where it holds"}, part{text: units.Say(c.Validity, w.desk.Units())})
	}
	if c.Method != "" || c.Source != "" {
		out = append(out, part{head: true, text: "Method and source"}, part{text: c.Method, source: units.Say(c.Source, w.desk.Units())})
	}
	return out
}

// bothRatios says the ratios of both ways of reckoning where there are two,
// with the load cases that gave them.
func bothRatios(c *check.Check) string {
	asd, lrfd := inCase(c.Case), inCase(c.CaseLRFD)
	if math.IsNaN(c.Ratio) || math.IsNaN(c.RatioLRFD) {
		if one := strings.TrimPrefix(asd+lrfd, " "); one != "" {
			return sentence(one) + "."
		}
		return ""
	}
	return fmt.Sprintf("By allowable stress %s%s, by load and resistance factors %s%s; the larger decides.", ratioNumber(c.Ratio), asd, ratioNumber(c.RatioLRFD), lrfd)
}

// inCase names a load case after a ratio.
func inCase(name string) string {
	if name == "" {
		return ""
	}
	return " in the load case " + name
}

// named writes a value with its symbol.
func named(q quantity.Q, sys units.System) string {
	if q.Sym == "" {
		return units.FormatQ(q, sys)
	}
	return q.Sym + " = " + units.FormatQ(q, sys)
}

// copyText puts a text on the clipboard.
func (w *Window) copyText(text string) {
	w.app.Clipboard().SetContent(text)
	w.status.say("Copied as text.")
}
