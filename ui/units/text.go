package units

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Fill puts values in place of {0}, {1} and so on of a text, and writes those
// that the text holds itself (quantity.Text). A number without a value is shown
// as None.
func Fill(text string, qs []quantity.Q, sys System) string {
	return quantity.Replace(text, func(inside string) (string, bool) {
		if q, m, ok := quantity.Read(inside); ok {
			return written(q, m, sys), true
		}
		i, err := strconv.Atoi(inside)
		switch {
		case err != nil:
			return "", false
		case i < 0 || i >= len(qs):
			return None, true
		}
		return FormatQ(qs[i], sys), true
	})
}

// Say writes a text of the engine with the values that it holds.
func Say(text string, sys System) string { return Fill(text, nil, sys) }

// SayAll is Say for each of some texts.
func SayAll(texts []string, sys System) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = Say(t, sys)
	}
	return out
}

// written shows a value of a text in its manner.
func written(q quantity.Q, m quantity.Manner, sys System) string {
	switch m {
	case quantity.Brief:
		if feet := math.Round(q.Val / foot); q.Kind == quantity.Length && sys == US && feet > 0 && math.Abs(q.Val-feet*foot) < 1e-9 {
			return strconv.FormatFloat(feet, 'f', -1, 64) + " ft"
		}
		number, unit, _ := strings.Cut(FormatQ(q, sys), " ")
		return attach(trim(number), unit)
	case quantity.Typed:
		return typed(q.Val, q.Kind, sys)
	case quantity.Floor:
		return bound(q.Val, q.Kind, sys, math.Floor)
	case quantity.Ceil:
		return bound(q.Val, q.Kind, sys, math.Ceil)
	case quantity.Level:
		return FormatLevel(q.Val, sys)
	}
	return FormatQ(q, sys)
}

// longFilled is how many letters a formula with its values may have: a longer
// one cannot be read at a glance, and the values are listed instead.
const longFilled = 72

// FormatLine shows one step of a working in one line.
func FormatLine(l check.Line, sys System) string {
	var b strings.Builder
	for i, s := range LineSteps(l, sys) {
		switch {
		case i > 0 && strings.HasPrefix(s, "= "):
			b.WriteString(" ")
		case i > 0:
			b.WriteString("; ")
		}
		b.WriteString(s)
	}
	return b.String()
}

// LineSteps shows one step of a working in short lines: the formula in
// symbols; the same with values in place of all symbols, where that can be
// read, else the values one after the other; the result.
func LineSteps(l check.Line, sys System) []string {
	formula := Say(strings.TrimSpace(l.Formula), sys)
	left, right, equation := strings.Cut(formula, "=")
	left = strings.TrimSpace(left)
	filled, used, whole := substitute(right, l.Terms, sys)
	filled = strings.TrimSpace(filled)
	var out []string
	if formula != "" && formula != l.Result.Sym {
		out = append(out, formula)
	}
	if equation && whole && len([]rune(filled)) <= longFilled {
		out = append(out, "= "+filled)
	} else {
		used = nil
	}
	if where := values(l.Terms, used, sys); where != "" {
		out = append(out, "where "+where)
	}
	name := l.Result.Sym
	if used != nil && len(out) == 2 && (name == "" || name == left) {
		return append(out, "= "+FormatQ(l.Result, sys))
	}
	if name == "" && equation && oneName(left) {
		name = left
	}
	return append(out, named(quantity.Q{Sym: name, Val: l.Result.Val, Kind: l.Result.Kind}, sys))
}

// values lists the terms that are not used yet.
func values(terms []quantity.Q, used map[string]bool, sys System) string {
	var out []string
	for _, q := range terms {
		if !used[q.Sym] {
			out = append(out, named(q, sys))
		}
	}
	return strings.Join(out, ", ")
}

// oneName tells whether a text is the name of one quantity.
func oneName(s string) bool {
	for i, r := range s {
		if i == 0 && !unicode.IsLetter(r) || !inName(r) {
			return false
		}
	}
	return s != ""
}

func named(q quantity.Q, sys System) string {
	if q.Sym == "" {
		return FormatQ(q, sys)
	}
	return q.Sym + " = " + FormatQ(q, sys)
}

// functions are the names in formulas that stand for no quantity.
var functions = map[string]bool{"sin": true, "cos": true, "tan": true, "sec": true, "exp": true, "ln": true, "π": true}

// substitute puts the values of the terms in place of their symbols. Symbols
// are whole names, K0 is not found in K0β, and the longest one counts: tan δ
// before δ. whole tells that nothing is left that needs a value.
func substitute(formula string, terms []quantity.Q, sys System) (filled string, used map[string]bool, whole bool) {
	used, whole = map[string]bool{}, !strings.ContainsAny(formula, "≥≤;→∫,=")
	var b strings.Builder
	runes := []rune(formula)
	for i := 0; i < len(runes); {
		if !unicode.IsLetter(runes[i]) {
			b.WriteRune(runes[i])
			i++
			continue
		}
		if q, n := symbolAt(runes[i:], terms); n > 0 {
			used[q.Sym] = true
			b.WriteString(value(q, sys))
			i += n
			continue
		}
		j := i + 1
		for j < len(runes) && inName(runes[j]) {
			j++
		}
		name := string(runes[i:j])
		whole = whole && functions[name]
		b.WriteString(name)
		i = j
	}
	return b.String(), used, whole && len(used) > 0
}

// symbolAt finds the longest symbol of a term that a text begins with, and how
// many letters it has; 0 for none.
func symbolAt(text []rune, terms []quantity.Q) (found quantity.Q, n int) {
	for _, q := range terms {
		s := []rune(q.Sym)
		if len(s) <= n || len(s) > len(text) || string(text[:len(s)]) != q.Sym {
			continue
		}
		if len(s) == len(text) || !inName(text[len(s)]) {
			found, n = q, len(s)
		}
	}
	return found, n
}

// inName tells whether r goes on with a symbol: letters, digits, primes, low
// lines and lowered digits do, raised ones are powers.
func inName(r rune) bool {
	return unicode.IsLetter(r) || r >= '0' && r <= '9' || r == '\'' || r == '′' || r == '_' || r >= '₀' && r <= '₎' || r == ','
}

// value shows a term inside a formula, in brackets where it has a unit or a
// sign.
func value(q quantity.Q, sys System) string {
	s := FormatQ(q, sys)
	if strings.ContainsAny(s, " '\"°:") || strings.HasPrefix(s, Minus) {
		return "(" + s + ")"
	}
	return s
}

// FormatProblem says a problem of the input in the reader's units, without the
// path of the field, which only a file knows.
func FormatProblem(p model.Problem, sys System) string {
	missing := unsaid(p)
	p.Value, p.Text, p.Allowed = Say(p.Value, sys), Say(p.Text, sys), Say(p.Allowed, sys)
	if !p.Ranged {
		s := problemWords(p, missing)
		if p.Allowed != "" && !missing {
			s += " (allowed: " + p.Allowed + ")"
		}
		return s
	}
	says := typed(p.Num, p.Kind, sys) + " " + p.Text
	if ownSubject(p.Text) {
		says = p.Text + ": " + typed(p.Num, p.Kind, sys)
	}
	return fmt.Sprintf("%s (allowed: %s)", says, allowed(p, sys))
}

// FormatError says an error in the reader's units; a problem of the input with
// the path of its field.
func FormatError(err error, sys System) string {
	var p model.Problem
	text := err.Error()
	if errors.As(err, &p) {
		text = strings.Replace(text, p.Error(), fieldProblem(p, sys), 1)
	}
	return Say(text, sys)
}

// fieldProblem is Problem.Error in the reader's units.
func fieldProblem(p model.Problem, sys System) string {
	if p.Ranged {
		p.Value, p.Allowed = typed(p.Num, p.Kind, sys), allowed(p, sys)
	}
	s := p.Field + " = " + p.Value + ": " + p.Text
	if p.Allowed != "" {
		s += " (allowed: " + p.Allowed + ")"
	}
	return Say(s, sys)
}

// allowed is the range of a problem in words; an end without a limit is left out.
func allowed(p model.Problem, sys System) string {
	lo, hi := bound(p.Min, p.Kind, sys, math.Ceil), bound(p.Max, p.Kind, sys, math.Floor)
	switch {
	case math.IsInf(p.Min, -1) && math.IsInf(p.Max, 1):
		return "a number"
	case math.IsInf(p.Min, -1):
		return "up to " + hi
	case math.IsInf(p.Max, 1):
		return "from " + lo + " up"
	}
	return lo + " to " + hi
}

// unsaid tells whether a value is only missing: what may stand there is then
// no help.
func unsaid(p model.Problem) bool {
	if q, _, ok := quantity.Read(strings.Trim(p.Value, "{}")); ok {
		return q.Val == 0
	}
	return p.Value == "" || p.Value == `""` || p.Value == "none" || strings.HasPrefix(p.Value, "0 ")
}

// problemWords puts a value and what is wrong with it in one sentence. A value
// that is only missing is not named, and a text with a subject of its own
// stands before the value.
func problemWords(p model.Problem, missing bool) string {
	switch own := ownSubject(p.Text); {
	case own && missing:
		return p.Text
	case own:
		return p.Text + ": " + p.Value
	case missing:
		return strings.TrimPrefix(p.Text, "is ")
	}
	return p.Value + " " + p.Text
}

// ownSubject tells whether a text is a sentence without the value before it.
func ownSubject(text string) bool {
	subject, _, _ := strings.Cut(text, " ")
	return subject == "the" || subject == "no" || subject == "a"
}

// longBound is from how many letters on a bound is shown rounded.
const longBound = 9

// bound shows an end of a range. One that is no round number in the reader's
// units is rounded into the range, so that it can be typed.
func bound(v float64, kind quantity.Kind, sys System, into func(float64) float64) string {
	s := show(v, kind, sys)
	if len([]rune(s)) < longBound {
		return s
	}
	for _, step := range boundSteps(kind, sys) {
		if r := into(v/step) * step; math.Abs(r-v) <= boundLoss*math.Abs(v) {
			return show(r, kind, sys)
		}
	}
	return s
}

// boundLoss is how much of a bound may be lost by rounding it.
const boundLoss = 0.05

// boundSteps are what a bound is rounded to, the coarsest first: a whole inch,
// then a sixteenth; else the last digit that is shown.
func boundSteps(kind quantity.Kind, sys System) []float64 {
	switch {
	case kind == quantity.Length && sys == US:
		return []float64{inch, inch / entryParts}
	case kind == quantity.Temperature:
		return nil // its zero is no zero of the unit shown
	}
	u := of(kind, sys)
	return []float64{u.size * math.Pow10(-u.digits)}
}

// typed shows a value that somebody typed, though it may have been in other
// units: a length that is no round one is then shown to a sixteenth of an inch.
func typed(v float64, kind quantity.Kind, sys System) string {
	s := show(v, kind, sys)
	if kind == quantity.Length && sys == US && len([]rune(s)) >= longBound && strings.HasSuffix(s, "ft") {
		return feetInches(v, entryParts)
	}
	return s
}

func show(v float64, kind quantity.Kind, sys System) string {
	if s := Entry(v, kind, sys); s != "" {
		return s
	}
	return None
}
