package main

import (
	"fmt"
	"math"
	"strings"
	"text/tabwriter"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// list is an assessment as a table for reading.
func list(r *assess.Result, sys units.System, all bool) string {
	var b strings.Builder
	p := r.Project
	fmt.Fprintf(&b, "%s\n", p.Title)
	if p.Invented {
		b.WriteString("Invented demonstration data\n")
	}
	b.WriteString(headline(r))
	b.WriteString("\n")
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "RATIO\tVERDICT\tPART\tCHECK\tDEMAND\tCAPACITY\tSTAGE\tAT")
	for i := range r.Checks {
		if c := &r.Checks[i]; c.Verdict() != check.NotChecked {
			fmt.Fprintln(w, strings.Join(row(c, p, sys), "\t"))
		}
	}
	w.Flush()
	b.WriteString(missing(r, sys))
	for _, a := range []assess.Answer{r.Depth, r.WaterUp} {
		if a.Question != "" {
			fmt.Fprintf(&b, "\n%s %s", a.Question, sheet.AnswerWords(r, a, sys))
		}
	}
	b.WriteString("\n")
	b.WriteString(climateText(r, sys))
	if all {
		b.WriteString(workings(r, sys))
	}
	b.WriteString("\nA licensed engineer and the code in force decide.\n")
	return trimmed(b.String())
}

// trimmed drops the blanks that a table leaves at the ends of lines.
func trimmed(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}

func headline(r *assess.Result) string {
	n := map[check.Verdict]int{}
	for i := range r.Checks {
		n[r.Checks[i].Verdict()]++
	}
	s := fmt.Sprintf("%d beyond limits, %d within limits, %d not checked\n", n[check.Beyond], n[check.Within], n[check.NotChecked])
	if g := r.Governing(); g != nil {
		s += fmt.Sprintf("Governing: %s: %s, ratio %s\n", sheet.Called(g.Part, g.Title), g.Verdict(), ratio(g.Worst()))
	}
	return s
}

// row is one line of the table.
func row(c *check.Check, p *model.Project, sys units.System) []string {
	at := ""
	if c.HasStation {
		at = units.Format(c.Station, quantity.Length, sys)
	}
	return []string{ratio(c.Worst()), c.Verdict().String(), c.Part, c.Title,
		units.FormatQ(c.Demand, sys), units.FormatQ(c.Capacity, sys), stageName(p, c.Stage), at}
}

// ratio is demand over capacity as text; without any capacity it has no number.
func ratio(v float64) string {
	if math.IsInf(v, 1) {
		return "unbounded"
	}
	return fmt.Sprintf("%.2f", v)
}

func stageName(p *model.Project, id string) string {
	for _, s := range p.Stages {
		if s.ID == id {
			return s.Name
		}
	}
	return id
}

// missing lists what was not checked and what the input keeps from being
// computed.
func missing(r *assess.Result, sys units.System) string {
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	for i := range r.Checks {
		if c := &r.Checks[i]; c.Verdict() == check.NotChecked {
			fmt.Fprintf(w, "%s\t%s\t%s\n", c.Part, c.Title, sheet.Unmade(c, sys))
		}
	}
	for _, p := range r.Blocks {
		fmt.Fprintf(w, "%s\t%s\t%s\n", p.Field, "input", units.FormatProblem(p, sys))
	}
	w.Flush()
	if b.Len() == 0 {
		return ""
	}
	return "\nNot checked\n" + b.String()
}

// climateText says what was worked out of frost, warmth and air, where anything
// of it is given.
func climateText(r *assess.Result, sys units.System) string {
	if !sheet.ClimateGiven(r.Project) {
		return ""
	}
	var b strings.Builder
	for i, p := range sheet.ClimateWords(r, tables.Default(), sys) {
		if i == 0 {
			b.WriteString("\n" + sheet.ClimateTitle + "\n")
		}
		for _, line := range p.Lines {
			fmt.Fprintf(&b, "%s: %s\n", p.Title, line)
		}
	}
	return b.String()
}

// workings shows how each check was worked out.
func workings(r *assess.Result, sys units.System) string {
	var b strings.Builder
	for i := range r.Checks {
		c := &r.Checks[i]
		how := ratio(c.Worst())
		if c.Verdict() == check.NotChecked {
			if len(c.Working) == 0 {
				continue
			}
			how = sheet.Unmade(c, sys)
		}
		fmt.Fprintf(&b, "\n%s, %s: %s (%s)\n", c.Part, c.Title, c.Verdict(), how)
		for _, l := range c.Working {
			fmt.Fprintf(&b, "  %s: %s\n", units.Say(l.Text, sys), units.FormatLine(l, sys))
		}
		for _, a := range units.SayAll(c.Assumptions, sys) {
			fmt.Fprintf(&b, "  assumed: %s\n", a)
		}
		note(&b, "method", c.Method)
		note(&b, "source", units.Say(c.Source, sys))
		note(&b, "holds", units.Say(c.Validity, sys))
		note(&b, "remedy", units.Fill(c.Remedy, c.RemedyQ, sys))
	}
	for _, a := range units.SayAll(r.Assumed, sys) {
		b.WriteString("\nassumed throughout: " + a)
	}
	return b.String() + "\n"
}

func note(b *strings.Builder, name, text string) {
	if text != "" {
		fmt.Fprintf(b, "  %s: %s\n", name, text)
	}
}
