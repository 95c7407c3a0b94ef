package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/engine/version"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

func curvesCommand(args []string, out, errs io.Writer) int {
	var only string
	q := askReport("curves", out, errs)
	q.flags.StringVar(&only, "only", "", "")
	p, err := q.open(args)
	if err != nil {
		return q.fail(err)
	}
	r, err := assess.Run(context.Background(), p, tables.Default())
	if err != nil {
		return q.fail(err)
	}
	curves, err := askCurves(r, only)
	if err != nil {
		return q.fail(err)
	}
	return q.answer(func() any { return curvesReport(r, curves, q.system) }, func() string { return curvesList(r, curves, q.system) })
}

// askCurves answers all questions, or one by its id.
func askCurves(r *assess.Result, only string) ([]assess.Curve, error) {
	if only == "" {
		return assess.Curves(context.Background(), r, tables.Default())
	}
	c, err := assess.CurveOf(context.Background(), r, tables.Default(), only)
	if err != nil {
		return nil, fmt.Errorf("--only: %w", err)
	}
	return []assess.Curve{c}, nil
}

// curvesList is the answers with their points for reading.
func curvesList(r *assess.Result, curves []assess.Curve, sys units.System) string {
	var b strings.Builder
	head(&b, r.Project)
	fmt.Fprintf(&b, "%s\n", assess.CurvesCount)
	for i := range curves {
		c := &curves[i]
		first, second := sheet.CurveWords(c, r, sys)
		fmt.Fprintf(&b, "\n%s %s\n", c.Question, first)
		if second != "" {
			fmt.Fprintf(&b, "%s\n", second)
		}
		if len(c.Points) == 0 {
			continue
		}
		fmt.Fprintf(&b, "%s\n", units.Say(c.Held, sys))
		w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
		fmt.Fprintf(w, "%s\tRATIO\tCHECK\tPART\tPARTS ALONE\tCHECK\tPART\n", strings.ToUpper(c.Axis))
		last := ""
		for _, p := range c.Points {
			value := units.Format(p.V, c.Kind, sys)
			if p.V == c.Now {
				value += " as drawn"
			}
			if p.Why != "" {
				fmt.Fprintf(w, "%s\tnot worked out\t\t\t\t\t%s\n", value, units.Say(p.Why, sys))
				continue
			}
			line := strings.Join([]string{value, ratioOrNone(p.Ratio), p.Governs, p.Part, ratioOrNone(p.Parts), p.PartsGoverns, p.PartsOne}, "\t")
			if line != last { // close to the limit values are nearer together than they are written
				fmt.Fprintln(w, line)
			}
			last = line
		}
		w.Flush()
	}
	b.WriteString("\nA licensed engineer and the code in force decide.\n")
	return trimmed(b.String())
}

// head names the project.
func head(b *strings.Builder, p *model.Project) {
	fmt.Fprintf(b, "%s\n", p.Title)
	if p.Invented {
		b.WriteString("Invented demonstration data\n")
	}
}

// ratioOrNone is a ratio as text; none where no check is touched.
func ratioOrNone(v float64) string {
	if math.IsNaN(v) {
		return "none"
	}
	return ratio(v)
}

// The JSON report of the curves. Numbers are SI; a number that does not exist is
// null, and a ratio without any resistance is unbounded.
type curvesJSON struct {
	Program  string      `json:"program"`
	Title    string      `json:"title"`
	Invented bool        `json:"invented"`
	Curves   []curveJSON `json:"curves"`
}

type curveJSON struct {
	ID        string          `json:"id"`
	Question  string          `json:"question"`
	Axis      string          `json:"axis"`
	Now       *float64        `json:"now"`
	Answer    curveAnswerJSON `json:"answer"`
	PartsOnly curveAnswerJSON `json:"parts_only"`
	Text      string          `json:"text"`
	Held      string          `json:"held"`
	Points    []pointJSON     `json:"points"`
}

type curveAnswerJSON struct {
	Value   *float64 `json:"value"`
	AtLeast bool     `json:"at_least"`
	None    bool     `json:"none"`
	Alone   *float64 `json:"alone"`
	Governs string   `json:"governs,omitempty"`
	Part    string   `json:"part,omitempty"`
	Why     string   `json:"why,omitempty"`
}

type pointJSON struct {
	Value     float64  `json:"value"`
	Ratio     *float64 `json:"ratio"`
	Unbounded bool     `json:"unbounded"`
	Governs   string   `json:"governs,omitempty"`
	Part      string   `json:"part,omitempty"`
	Parts     *float64 `json:"parts_ratio"`
	PartsBy   string   `json:"parts_governs,omitempty"`
	Why       string   `json:"why,omitempty"`
}

func curvesReport(r *assess.Result, curves []assess.Curve, sys units.System) curvesJSON {
	out := curvesJSON{Program: version.Text, Title: r.Project.Title, Invented: r.Project.Invented, Curves: []curveJSON{}}
	answer := func(a assess.CurveAnswer) curveAnswerJSON {
		return curveAnswerJSON{number(a.Value), a.AtLeast, a.None, number(a.Alone), a.Governs, a.Part, units.Say(a.Why, sys)}
	}
	for i := range curves {
		c := &curves[i]
		first, second := sheet.CurveWords(c, r, sys)
		j := curveJSON{ID: c.ID, Question: c.Question, Axis: c.Axis, Now: number(c.Now), Answer: answer(c.Answer), PartsOnly: answer(c.PartsOnly),
			Text: strings.TrimSpace(first + " " + second), Held: units.Say(c.Held, sys), Points: []pointJSON{}}
		for _, p := range c.Points {
			j.Points = append(j.Points, pointJSON{p.V, number(p.Ratio), math.IsInf(p.Ratio, 1), p.Governs, p.Part, number(p.Parts), p.PartsGoverns, units.Say(p.Why, sys)})
		}
		out.Curves = append(out.Curves, j)
	}
	return out
}
