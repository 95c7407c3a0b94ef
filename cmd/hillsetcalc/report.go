package main

import (
	"math"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/version"
	"hillset/ui/sheet"
	"hillset/ui/units"
)

// The JSON report. Numbers are SI; a number that does not exist is null.
type reportJSON struct {
	Program  string        `json:"program"`
	Title    string        `json:"title"`
	Invented bool          `json:"invented"`
	Beyond   int           `json:"beyond_limits"`
	Within   int           `json:"within_limits"`
	Not      int           `json:"not_checked"`
	Checks   []checkJSON   `json:"checks"` // worst first, then rules that are met; those not checked last
	Problems []problemJSON `json:"problems"`
	Answers  []answerJSON  `json:"answers"`
	Assumed  []string      `json:"assumed"`
}

type checkJSON struct {
	ID          string     `json:"id"`
	Part        string     `json:"part"`
	Title       string     `json:"title"`
	Verdict     string     `json:"verdict"`
	Rule        bool       `json:"rule,omitempty"` // met or not met
	Stage       string     `json:"stage"`
	Station     *float64   `json:"station"` // m
	Ratio       *float64   `json:"ratio"`   // allowable stress
	RatioLRFD   *float64   `json:"ratio_lrfd"`
	NoCapacity  bool       `json:"no_capacity"`
	Demand      *valueJSON `json:"demand"`
	Capacity    *valueJSON `json:"capacity"`
	Missing     string     `json:"missing,omitempty"`
	Method      string     `json:"method,omitempty"`
	Source      string     `json:"source,omitempty"`
	Validity    string     `json:"validity,omitempty"`
	Remedy      string     `json:"remedy,omitempty"`
	Assumptions []string   `json:"assumptions,omitempty"`
}

type valueJSON struct {
	Symbol string   `json:"symbol"`
	SI     *float64 `json:"si"`
	Text   string   `json:"text"` // in the reader's units
}

type problemJSON struct {
	Field string `json:"field"`
	Text  string `json:"text"`
}

type answerJSON struct {
	Question string   `json:"question"`
	Kind     string   `json:"kind"`
	Value    *float64 `json:"value"` // m
	Solved   bool     `json:"solved"`
	AtLeast  bool     `json:"at_least"`
	None     bool     `json:"none"`
	Governs  string   `json:"governs,omitempty"`
	Text     string   `json:"text"`
}

func report(r *assess.Result, sys units.System) reportJSON {
	out := reportJSON{
		Program: version.Text, Title: r.Project.Title, Invented: r.Project.Invented,
		Checks: []checkJSON{}, Problems: []problemJSON{}, Answers: []answerJSON{}, Assumed: units.SayAll(r.Assumed, sys),
	}
	for i := range r.Checks {
		c := &r.Checks[i]
		switch c.Verdict() {
		case check.Beyond:
			out.Beyond++
		case check.Within:
			out.Within++
		default:
			out.Not++
		}
		out.Checks = append(out.Checks, checkOf(c, sys))
	}
	for _, p := range r.Blocks {
		out.Problems = append(out.Problems, problemJSON{p.Field, units.FormatProblem(p, sys)})
	}
	for _, a := range []assess.Answer{r.Depth, r.WaterUp} {
		if a.Question != "" {
			out.Answers = append(out.Answers, answerJSON{a.Question, a.Kind, number(a.Value), a.Solved, a.AtLeast, a.None, a.Governs, sheet.AnswerWords(r, a, sys)})
		}
	}
	return out
}

func checkOf(c *check.Check, sys units.System) checkJSON {
	j := checkJSON{
		ID: c.ID, Part: c.Part, Title: c.Title, Verdict: c.Verdict().String(), Stage: c.Stage,
		Ratio: number(c.Ratio), RatioLRFD: number(c.RatioLRFD), NoCapacity: math.IsInf(c.Worst(), 1),
		Missing: units.Fill(c.Missing, c.MissingQ, sys), Method: c.Method, Source: units.Say(c.Source, sys), Validity: units.Say(c.Validity, sys),
		Remedy: units.Fill(c.Remedy, c.RemedyQ, sys), Assumptions: units.SayAll(c.Assumptions, sys),
	}
	if c.HasStation {
		j.Station = number(c.Station)
	}
	switch {
	case c.Verdict() != check.NotChecked:
		j.Demand, j.Capacity = valueOf(c.Demand, sys), valueOf(c.Capacity, sys)
	case sheet.Asked(c):
		j.Demand = valueOf(c.Demand, sys)
	}
	return j
}

func valueOf(q quantity.Q, sys units.System) *valueJSON {
	return &valueJSON{Symbol: q.Sym, SI: number(q.Val), Text: units.FormatQ(q, sys)}
}

// number is nil where JSON has no number to write.
func number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}
