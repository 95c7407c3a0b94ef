package units

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Fill puts values in place of {0}, {1} and so on of a text. A number without
// a value is shown as None.
func Fill(text string, qs []quantity.Q, sys System) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, "{")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		inside, after, closed := strings.Cut(rest, "}")
		i, err := strconv.Atoi(inside)
		switch {
		case !closed || err != nil:
			b.WriteString("{")
			text = rest
		case i < 0 || i >= len(qs):
			b.WriteString(None)
			text = after
		default:
			b.WriteString(FormatQ(qs[i], sys))
			text = after
		}
	}
}

// FormatLine shows one step of a working: the formula in symbols, the same
// with values in place of symbols, and the result. Values whose symbol does
// not stand in the formula follow behind.
func FormatLine(l check.Line, sys System) string {
	left, right, equation := strings.Cut(l.Formula, "=")
	if !equation {
		right = l.Formula
	}
	filled, used := substitute(right, l.Terms, sys)
	var parts []string
	if f := strings.TrimSpace(l.Formula); f != "" {
		parts = append(parts, f)
	}
	if len(used) > 0 {
		parts = append(parts, strings.TrimSpace(filled))
	}
	parts = append(parts, FormatQ(l.Result, sys))
	out := strings.Join(parts, " = ")
	if name := l.Result.Sym; name != "" && strings.TrimSpace(left) != name && (equation || l.Formula == "") {
		out = name + ": " + out
	}
	var rest []string
	for _, q := range l.Terms {
		if !used[q.Sym] {
			rest = append(rest, named(q, sys))
		}
	}
	if len(rest) > 0 {
		out += "; with " + strings.Join(rest, ", ")
	}
	return out
}

func named(q quantity.Q, sys System) string {
	if q.Sym == "" {
		return FormatQ(q, sys)
	}
	return q.Sym + " = " + FormatQ(q, sys)
}

// substitute puts the values of the terms in place of their symbols. Symbols
// are whole names: K0 is not found in K0β.
func substitute(formula string, terms []quantity.Q, sys System) (string, map[string]bool) {
	used := map[string]bool{}
	var b strings.Builder
	runes := []rune(formula)
	for i := 0; i < len(runes); {
		if !unicode.IsLetter(runes[i]) {
			b.WriteRune(runes[i])
			i++
			continue
		}
		j := i + 1
		for j < len(runes) && inName(runes[j]) {
			j++
		}
		name := string(runes[i:j])
		b.WriteString(name)
		for _, q := range terms {
			if q.Sym == name {
				used[name] = true
				s := b.String()
				b.Reset()
				b.WriteString(strings.TrimSuffix(s, name) + value(q, sys))
				break
			}
		}
		i = j
	}
	return b.String(), used
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
	if !p.Ranged {
		s := p.Value + " " + p.Text
		if p.Allowed != "" {
			s += " (allowed: " + p.Allowed + ")"
		}
		return s
	}
	return fmt.Sprintf("%s %s (allowed: %s to %s)", show(p.Num, p.Kind, sys), p.Text, show(p.Min, p.Kind, sys), show(p.Max, p.Kind, sys))
}

func show(v float64, kind quantity.Kind, sys System) string {
	if s := Entry(v, kind, sys); s != "" {
		return s
	}
	return None
}
