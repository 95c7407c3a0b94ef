package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"hillset/engine/assess"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

// NotPriced stands where an item has no price in the price list.
const NotPriced = "not priced"

// CurveWords says the answer of a curve in words; second is what its parts
// alone would allow, "" where that is the same.
func CurveWords(c *assess.Curve, r *assess.Result, sys units.System) (first, second string) {
	first = answerOf(c, &c.Answer, r, sys)
	if same := answerOf(c, &c.PartsOnly, r, sys); same != first && c.PartsOnly.Why == "" && c.Answer.Why == "" {
		second = "Of the parts alone, without floating, sliding, tipping and sinking: " + lowerFirst(same)
	}
	return first, second
}

// ChartOf is a curve for a chart beside which the words stand, and in a sentence
// the reasons why some of its values gave no ratio: each once, of those that
// differ only in a number the first; "" where all gave one.
func ChartOf(c *assess.Curve) (bare assess.Curve, gaps string) {
	bare = *c
	bare.Question, bare.Answer.Why = "", ""
	bare.Points = slices.Clone(c.Points)
	seen := map[string]bool{}
	var whys []string
	for i := range bare.Points {
		p := &bare.Points[i]
		if kind := withoutNumbers(units.Say(p.Why, units.Metric)); kind != "" && math.IsNaN(p.Ratio) && !seen[kind] {
			seen[kind] = true
			whys = append(whys, strings.TrimSuffix(p.Why, "."))
		}
		p.Why = ""
	}
	if len(whys) == 0 {
		return bare, ""
	}
	return bare, "Not worked out for some values: " + strings.Join(whys, "; ") + "."
}

// withoutNumbers is a text without its numbers.
func withoutNumbers(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return -1
		}
		return r
	}, s)
}

// answerOf writes one answer.
func answerOf(c *assess.Curve, a *assess.CurveAnswer, r *assess.Result, sys units.System) string {
	value := func(v float64) string { return units.Format(v, c.Kind, sys) }
	stop := checkCalled(r, a.Governs, a.Part) + unmade(a.Unmade)
	switch {
	case a.None && a.Why != "":
		s := "No value does: " + stop + " is beyond its limits whatever this is."
		if !math.IsNaN(a.Alone) {
			s += " The rest would allow " + value(a.Alone) + "."
		}
		return s
	case a.None:
		return "None of the values tried does. What stops it: " + stop + "."
	case math.IsNaN(a.Value):
		return "Not solved: " + units.Say(a.Why, sys) + "."
	case a.AtLeast && c.ID == "distance":
		return "As near as " + value(a.Value) + ", the nearest that was tried."
	case a.AtLeast:
		return "At least " + value(a.Value) + ", the most that was tried."
	case c.ID == "distance":
		return "Not nearer than " + value(a.Value) + ". Nearer, what gives way: " + stop + "."
	}
	return "Up to " + value(a.Value) + ". Beyond, what gives way: " + stop + "."
}

// Called names a check by its part and title in words that can stand within a
// sentence. The part is left out where the title begins with it.
func Called(part, title string) string {
	title = lowerFirst(title)
	if namesPart(title, part) {
		return title
	}
	return part + ", " + title
}

// namesPart tells whether a title begins with the name of the part, of many or
// of one of them.
func namesPart(title, part string) bool {
	rest, ok := strings.CutPrefix(title, strings.TrimSuffix(part, "s"))
	rest = strings.TrimPrefix(rest, "s")
	return ok && part != "" && (rest == "" || rest[0] == ' ' || rest[0] == ',')
}

// checkCalled names a check by its part and title.
func checkCalled(r *assess.Result, id, part string) string {
	if r != nil {
		for i := range r.Checks {
			if c := &r.Checks[i]; c.ID == id {
				title := lowerFirst(c.Title)
				if namesPart(title, part) {
					return title
				}
				return part + " (" + title + ")"
			}
		}
	}
	return part + " (" + id + ")"
}

// upperFirst begins a text with a capital.
func upperFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// ChangeWords says what a change does to an assessment: the largest ratio and
// how many checks are beyond limits or could not be made, before and after.
func ChangeWords(before, after assess.Score, sys units.System) string {
	if after.Blocked != "" {
		return "cannot be computed: " + units.Say(after.Blocked, sys)
	}
	s := fmt.Sprintf("Largest ratio %s → %s; checks beyond limits %d → %d", FormatRatio(before.Worst), FormatRatio(after.Worst), before.Beyond, after.Beyond)
	if before.Missing != after.Missing {
		s += fmt.Sprintf("; not made %d → %d", before.Missing, after.Missing)
	}
	return s + "."
}

// RestWords says what becomes, with a change, of the checks that it was not tried
// for. Empty where they were not made.
func RestWords(r *assess.Rest) string {
	switch {
	case r == nil || r.Made == 0:
		return ""
	case len(r.Beyond) == 0:
		return "Hillside, drains, frost and air were run with it too: nothing of theirs that was checked is beyond its limits."
	}
	var each []string
	for _, c := range r.Beyond {
		each = append(each, fmt.Sprintf("%s, %s", Called(c.Part, c.Title), FormatRatio(c.Worst())))
	}
	return "No change was tried for hillside, drains, frost and air. Run with it, beyond limits there: " + strings.Join(each, "; ") + "."
}

// FormatRatio writes a ratio with two decimals, rounded up where it is beyond the
// limit, as at the marks of the drawing: what is just beyond is not shown as at
// it.
func FormatRatio(r float64) string {
	if r > 1 && !math.IsInf(r, 1) {
		r = math.Ceil(r*100-1e-9) / 100
	}
	return ratio(r)
}

// lowerFirst begins a text with a small letter, unless a name of capitals
// stands there.
func lowerFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if second, _ := utf8.DecodeRuneInString(s[n:]); n == 0 || unicode.IsUpper(second) {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}

// AddsWords says what a take-off adds: weight and price.
func AddsWords(t *assess.Takeoff, sys units.System) string {
	if len(t.Items) == 0 {
		return "Adds nothing that is bought."
	}
	return "Adds " + units.Format(t.Mass, quantity.Mass, sys) + "; " + PriceWords(t) + "."
}

// PriceWords says the price of a take-off, or which items lack one.
func PriceWords(t *assess.Takeoff) string {
	if math.IsNaN(t.Price) {
		var names []string
		for _, key := range t.Unpriced {
			names = append(names, PriceName(key))
		}
		return NotPriced + ": " + strings.Join(names, ", ")
	}
	return "price " + Money(t.Price)
}

// PriceName is what a price is for: its key without the unit it goes by.
func PriceName(key string) string {
	i := strings.LastIndexByte(key, ' ')
	if _, ok := itemKinds[key[i+1:]]; ok && i > 0 {
		return key[:i]
	}
	return key
}

// itemKinds are the units that items go by.
var itemKinds = map[string]quantity.Kind{"kg": quantity.Mass, "t": quantity.Mass, "m": quantity.Length, "m2": quantity.Area, "m3": quantity.Volume}

// Money writes a price in the user's own currency, which has no name here.
func Money(v float64) string {
	if math.IsNaN(v) {
		return NotPriced
	}
	return units.Number(v, 2)
}

// ItemWords says how much of an item there is.
func ItemWords(it *assess.Item, sys units.System) string {
	kind, ok := itemKinds[it.Unit]
	if !ok {
		return units.Number(it.Quantity, 0)
	}
	v := it.Quantity
	if it.Unit == "kg" {
		v /= 1000
	}
	return units.Format(v, kind, sys)
}
