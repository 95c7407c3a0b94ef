package assess

import (
	"errors"
	"math"
	"strings"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	"hillset/engine/model"
	"hillset/engine/quantity"
)

// asProblem makes a problem of any error of the engine, in words and without
// the path of a value. Those that carry no field of the project are shown as
// they are.
func asProblem(err error) model.Problem {
	var pr model.Problem
	var e *limit.Error
	switch {
	case errors.As(err, &pr):
		return pr
	case errors.As(err, &e):
		return refused(e)
	}
	return model.Problem{Field: "project", Value: "", Text: err.Error()}
}

// refused is the problem of a value outside the range of a formula. A pure
// number that has a reason is not shown: the reason says what matters of it.
func refused(e *limit.Error) model.Problem {
	name := "the " + e.Field[strings.LastIndex(e.Field, ".")+1:]
	pr := model.Problem{Field: "project", Kind: e.Kind, Num: e.Value, Min: e.Lo, Max: e.Hi, Ranged: e.Why == "" || e.Kind != quantity.None}
	switch {
	case e.Why == "":
		pr.Text = name + " is outside what the formula holds for"
	case strings.HasPrefix(e.Why, "must "):
		pr.Text = name + " " + e.Why
	case strings.HasPrefix(e.Why, "the ") || strings.HasPrefix(e.Why, "no ") || strings.HasPrefix(e.Why, "a "):
		pr.Text = e.Why
	default:
		pr.Text = name + ": " + e.Why
	}
	return pr
}

// Words says an error of the engine in words, without the path of a value. Where
// the words are of the value alone, it is named and shown. Values stand in the
// words as quantity.Text.
func Words(err error) string {
	pr := asProblem(err)
	text, value, allowed := pr.Text, pr.Value, pr.Allowed
	if pr.Ranged && value != "" {
		value, allowed = quantity.Typed.Text(pr.Num, pr.Kind), quantity.Between(pr.Min, pr.Max, pr.Kind)
	}
	if strings.HasPrefix(text, "is ") || strings.HasPrefix(text, "not ") {
		name := pr.Field[strings.LastIndex(pr.Field, ".")+1:]
		text = strings.TrimSpace(strings.ReplaceAll(name, "_", " ") + " " + value + " " + text)
	}
	if allowed != "" {
		text += " (allowed: " + allowed + ")"
	}
	return text
}

// faultWords says an error after a lead, with its values as {0} and so on.
func faultWords(lead string, err error) (string, []quantity.Q) {
	pr := asProblem(err)
	text := lead + pr.Text
	if !pr.Ranged {
		return text, nil
	}
	q := []quantity.Q{quantity.Of("", pr.Num, pr.Kind), quantity.Of("", pr.Min, pr.Kind), quantity.Of("", pr.Max, pr.Kind)}
	switch {
	case math.IsInf(pr.Min, -1) && math.IsInf(pr.Max, 1):
		return text + ": {0}", q
	case math.IsInf(pr.Min, -1):
		return text + ": {0} (allowed: up to {2})", q
	case math.IsInf(pr.Max, 1):
		return text + ": {0} (allowed: from {1} up)", q
	}
	return text + ": {0} (allowed: {1} to {2})", q
}

// faulty is a check that could not be made because of an error.
func faulty(id, title, part, lead string, err error) check.Check {
	why, q := faultWords(lead, err)
	c := check.Unchecked(id, title, part, why)
	c.MissingQ = q
	return c
}

// fault offers a check that could not be made because of an error.
func (w *worstOf) fault(s slot, title, stage, lead string, err error) {
	w.add(candidate{slot: s, stage: stage, ratio: math.NaN(),
		write: func() (check.Check, error) { return faulty(s.id, title, s.part, lead, err), nil }})
}
