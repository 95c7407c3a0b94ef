package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"hillset/engine/assess"
	"hillset/engine/tables"
	"hillset/engine/version"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

func scenariosCommand(args []string, out, errs io.Writer) int {
	q := askReport("scenarios", out, errs)
	p, err := q.open(args)
	if err != nil {
		return q.fail(err)
	}
	list, err := assess.Scenarios(context.Background(), p, tables.Default())
	if err != nil {
		return q.fail(err)
	}
	data := func() any { return scenariosReport(p.Title, p.Invented, list, q.system) }
	if q.json {
		return q.answer(data, nil) // the table alone asks for the checks
	}
	r, err := assess.Run(context.Background(), p, tables.Default())
	if err != nil {
		return q.fail(err)
	}
	return q.answer(data, func() string { return scenariosList(r, list, q.system) })
}

// scenariosList is the table for reading.
func scenariosList(r *assess.Result, list []assess.Scenario, sys units.System) string {
	var b strings.Builder
	head(&b, r.Project)
	b.WriteString("\n")
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, strings.ToUpper(strings.Join(sheet.ScenarioHeads, "\t"))+"\tDRAINS TAKE")
	for i := range list {
		s := &list[i]
		fmt.Fprintln(w, strings.Join(sheet.ScenarioCells(s, r, sys), "\t")+"\t"+sheet.PerHour(s.Inflow, sys))
	}
	if err := w.Flush(); err != nil {
		panic("hillsetcalc: writing to a string failed: " + err.Error())
	}
	for _, s := range list {
		if s.Why != "" {
			fmt.Fprintf(&b, "\n%s: %s.\n", s.Name, units.Say(s.Why, sys))
		}
	}
	b.WriteString("\n" + sheet.ScenarioHeld + "\nA licensed engineer and the code in force decide.\n")
	return trimmed(b.String())
}

// The JSON report of the scenarios. Numbers are SI; what is not known, or never
// comes, is null, and says which.
type scenariosJSON struct {
	Program   string         `json:"program"`
	Title     string         `json:"title"`
	Invented  bool           `json:"invented"`
	Scenarios []scenarioJSON `json:"scenarios"`
}

type scenarioJSON struct {
	ID        string   `json:"id"`
	Name      string   `json:"name"`
	Level     *float64 `json:"water_level_m"`
	Above     *float64 `json:"water_above_underside_m"`
	Float     *float64 `json:"flotation_ratio"`
	Worst     *float64 `json:"worst_ratio"`
	Unbounded bool     `json:"unbounded"`
	Check     string   `json:"check"`
	Part      string   `json:"part"`
	Inflow    *float64 `json:"drains_take_m3_s"`
	Hours     *float64 `json:"hours_to_act"`
	Soonest   *float64 `json:"soonest_hours_to_act"`
	Never     bool     `json:"never_reaches_the_box"`
	Why       string   `json:"why"`
}

func scenariosReport(title string, invented bool, list []assess.Scenario, sys units.System) scenariosJSON {
	out := scenariosJSON{Program: version.Text, Title: title, Invented: invented, Scenarios: []scenarioJSON{}}
	for _, s := range list {
		out.Scenarios = append(out.Scenarios, scenarioJSON{s.ID, s.Name, number(s.Level), number(s.Above), number(s.Float), number(s.Worst),
			math.IsInf(s.Worst, 1), s.Check, s.Part, number(s.Inflow), number(s.Hours), number(s.Soonest), math.IsInf(s.Hours, 1), units.Say(s.Why, sys)})
	}
	return out
}
