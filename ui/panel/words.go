package panel

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"hillset/engine/quantity"
	"hillset/ui/units"
)

// lowerFirst begins a text with a small letter, unless a name of capitals
// stands there.
func lowerFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if second, _ := utf8.DecodeRuneInString(s[n:]); n == 0 || unicode.IsUpper(second) {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}

// numbered puts its number in the list before a name.
func numbered(i int, name string) string { return fmt.Sprintf("%d  %s", i+1, name) }

// fmtIndex names a thing of a list by its number.
func fmtIndex(what string, i int) string { return fmt.Sprintf("%s %d", what, i+1) }

// count writes how many there are, for telling lists apart.
func count(n int) string { return fmt.Sprint(n) }

// plural writes a number with its noun.
func plural(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// sixteenth is the finest part of an inch that a tape shows, m.
const sixteenth = 0.0254 / 16

// brief shows a value for a field without the decimals that only a conversion
// of units made: US lengths to 1/16 in, others to three decimals of the shown
// unit and small ones to four digits. Leaving the field as it is keeps the
// exact value.
func brief(v float64, kind quantity.Kind, sys units.System) string {
	if kind == quantity.Length && sys == units.US {
		if r := math.Round(v/sixteenth) * sixteenth; math.Abs(r) >= 16*sixteenth {
			return units.Entry(r, kind, sys)
		}
	}
	return decimal(v, kind, sys)
}

// decimal is brief without feet and inches, unless the value is just so: levels
// are read off a staff in decimals.
func decimal(v float64, kind quantity.Kind, sys units.System) string {
	zero, _ := units.Parse(kind, "0", sys)
	one, err := units.Parse(kind, "1", sys)
	size := one - zero
	full := units.Entry(v, kind, sys)
	if err != nil || v == zero || v == 0 || kind == quantity.Slope && v < 1e-3 {
		return full
	}
	n := (v - zero) / size
	k := 1e3
	if a := math.Abs(n); a < 1 {
		k = math.Pow10(3 - int(math.Floor(math.Log10(a))))
	}
	if short := units.Entry(zero+math.Round(n*k)/k*size, kind, sys); len(short) < len(full) {
		return short
	}
	return full
}

func equal(a, b []string) bool { return slices.Equal(a, b) }

func baseName(path string) string { return filepath.Base(path) }

// freeID is a name made from base that is not taken.
func freeID(base string, taken func(id string) bool) string {
	base = strings.ToLower(strings.ReplaceAll(base, " ", "-"))
	id := base
	for i := 2; taken(id); i++ {
		id = fmt.Sprintf("%s-%d", base, i)
	}
	return id
}
