package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/engine/version"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

func adviseCommand(args []string, out, errs io.Writer) int {
	q := askReport("advise", out, errs)
	p, err := q.open(args)
	if err != nil {
		return q.fail(err)
	}
	p.Display.Units = q.system.String() // in which what is advised is round
	r, err := assess.Run(context.Background(), p, tables.Default())
	if err != nil {
		return q.fail(err)
	}
	if made(r) == 0 || len(r.Blocks) > 0 {
		if s := statusOf(r, q.system, errs); s == statusInput {
			return s
		}
		b := r.Blocks[0]
		return q.fail(fmt.Errorf("nothing can be tried: %s: %s", b.Field, units.FormatProblem(b, q.system)))
	}
	remedies, err := assess.Advise(context.Background(), r, tables.Default(), nil)
	if err != nil {
		return q.fail(err)
	}
	return q.answer(func() any { return adviceReport(r, remedies, q.system) }, func() string { return adviceList(r, remedies, q.system) })
}

// adviceList is the remedies for reading.
func adviceList(r *assess.Result, remedies []assess.Remedy, sys units.System) string {
	var b strings.Builder
	head(&b, r.Project)
	s := assess.ScoreOf(r)
	fmt.Fprintf(&b, "As drawn: %d beyond limits, %d not made\n", s.Beyond, s.Missing)
	if len(remedies) == 0 {
		b.WriteString("\nNothing was found to try: ")
		if s.Beyond == 0 && s.Missing == 0 {
			b.WriteString("every check that was made is within limits.\n")
		} else {
			b.WriteString("no change brings a check beyond limits nearer to them.\n")
		}
	}
	for i := range remedies {
		m := &remedies[i]
		fmt.Fprintf(&b, "\n%d. ", i+1)
		if len(m.Steps) == 0 {
			b.WriteString(units.Fill(m.Text, m.Q, sys) + "\n")
		} else {
			b.WriteString("All of:\n")
			before := m.Before
			for k, st := range m.Steps {
				fmt.Fprintf(&b, "   %d. %s\n      %s\n", k+1, units.Fill(st.Text, st.Q, sys), sheet.ChangeWords(before, st.After, sys))
				before = st.After
			}
			b.WriteString("   In all:\n")
		}
		fmt.Fprintf(&b, "   %s\n   Helps: %s.\n", sheet.ChangeWords(m.Before, m.After, sys), strings.Join(m.For, ", "))
		if len(m.Fails) > 0 {
			fmt.Fprintf(&b, "   Brings beyond limits, or can no longer be made: %s.\n", strings.Join(m.Fails, ", "))
		}
		if rest := sheet.RestWords(m.Rest); rest != "" {
			fmt.Fprintf(&b, "   %s\n", rest)
		}
		fmt.Fprintf(&b, "   %s\n", sheet.AddsWords(&m.Adds, sys))
		for k := range m.Adds.Items {
			it := &m.Adds.Items[k]
			fmt.Fprintf(&b, "     %s: %s, %s\n", units.Say(it.Text, sys), sheet.ItemWords(it, sys), sheet.Money(it.Price))
		}
	}
	b.WriteString("\nEach change was tried by the full assessment. The water level, the soils of the hill and the snow are not changed.\nA licensed engineer and the code in force decide.\n")
	return trimmed(b.String())
}

// The JSON report of the advice. Numbers are SI; a price that is not known is
// null.
type adviceJSON struct {
	Program  string       `json:"program"`
	Title    string       `json:"title"`
	Invented bool         `json:"invented"`
	AsDrawn  scoreJSON    `json:"as_drawn"`
	Remedies []remedyJSON `json:"remedies"`
}

type remedyJSON struct {
	ID       string      `json:"id"`
	Text     string      `json:"text"`
	Values   []valueJSON `json:"values"`
	Helps    []string    `json:"helps"`
	Breaks   []string    `json:"breaks"`
	After    scoreJSON   `json:"after"`
	Steps    []stepJSON  `json:"steps"`
	Items    []itemJSON  `json:"adds"`
	Mass     float64     `json:"mass_t"`
	Price    *float64    `json:"price"`
	Unpriced []string    `json:"unpriced"`
	Rest     *restJSON   `json:"rest,omitempty"` // with the first remedy only
}

// restJSON is what becomes of the checks that no change is tried for.
type restJSON struct {
	Made   int             `json:"made"`
	Beyond []restCheckJSON `json:"beyond_limits"`
}

type restCheckJSON struct {
	ID        string   `json:"id"`
	Part      string   `json:"part"`
	Ratio     *float64 `json:"ratio"`
	Unbounded bool     `json:"unbounded"`
}

type stepJSON struct {
	Text  string    `json:"text"`
	After scoreJSON `json:"after"`
}

type scoreJSON struct {
	Beyond    int      `json:"beyond_limits"`
	Missing   int      `json:"not_made"`
	Worst     *float64 `json:"worst_ratio"`
	Unbounded bool     `json:"unbounded"`
	Governs   string   `json:"governs"`
	Part      string   `json:"part"`
	Excess    float64  `json:"excess"`
}

type itemJSON struct {
	Key      string   `json:"key"`
	Text     string   `json:"text"`
	Count    int      `json:"count"`
	Length   float64  `json:"length_m"`
	Quantity float64  `json:"quantity"`
	Unit     string   `json:"unit"`
	Mass     float64  `json:"mass_t"`
	Price    *float64 `json:"price"`
}

func scoreOf(s assess.Score) scoreJSON {
	return scoreJSON{s.Beyond, s.Missing, number(s.Worst), math.IsInf(s.Worst, 1), s.Governs, s.Part, s.Excess}
}

func adviceReport(r *assess.Result, remedies []assess.Remedy, sys units.System) adviceJSON {
	out := adviceJSON{Program: version.Text, Title: r.Project.Title, Invented: r.Project.Invented, AsDrawn: scoreOf(assess.ScoreOf(r)), Remedies: []remedyJSON{}}
	for i := range remedies {
		m := &remedies[i]
		j := remedyJSON{ID: m.ID, Text: units.Fill(m.Text, m.Q, sys), Values: valuesOf(m.Q, sys), Helps: m.For, Breaks: append([]string{}, m.Fails...),
			After: scoreOf(m.After), Steps: []stepJSON{}, Items: []itemJSON{}, Mass: m.Adds.Mass, Price: number(m.Adds.Price), Unpriced: append([]string{}, m.Adds.Unpriced...)}
		for _, st := range m.Steps {
			j.Steps = append(j.Steps, stepJSON{units.Fill(st.Text, st.Q, sys), scoreOf(st.After)})
		}
		if m.Rest != nil {
			j.Rest = &restJSON{m.Rest.Made, []restCheckJSON{}}
			for _, c := range m.Rest.Beyond {
				j.Rest.Beyond = append(j.Rest.Beyond, restCheckJSON{c.ID, c.Part, number(c.Worst()), math.IsInf(c.Worst(), 1)})
			}
		}
		for _, it := range m.Adds.Items {
			j.Items = append(j.Items, itemJSON{it.Key, units.Say(it.Text, sys), it.Count, it.Length, it.Quantity, it.Unit, it.Mass, number(it.Price)})
		}
		out.Remedies = append(out.Remedies, j)
	}
	return out
}

func valuesOf(qs []quantity.Q, sys units.System) []valueJSON {
	out := []valueJSON{}
	for _, q := range qs {
		out = append(out, *valueOf(q, sys))
	}
	return out
}
