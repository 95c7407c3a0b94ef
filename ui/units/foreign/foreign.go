// Package foreign finds units in a text that its reader did not ask for: metres
// in a project in feet, and the other way round. It is for tests.
package foreign

import (
	"regexp"
	"slices"
	"strings"

	"hillset/ui/units"
)

// number stands before a unit: its last digit, a fraction, or the letters of a
// value that has none.
const number = `[0-9½¼¾⅛⅜⅝⅞]`

// end stands behind a unit.
const end = `(?:[^\pL\pN²³⁴/·"'’]|[/·][^\pL]|$)`

// Units that one of the systems alone writes. Grains are in mm in both, vapour
// pressures in Pa, air and its moisture by the gram.
var patterns = map[units.System]*regexp.Regexp{
	units.US: regexp.MustCompile(number + `[ \x{a0}](m|mm|cm|km|m²|m³|m2|m3|cm²|cm³|cm⁴|cm²/m|cm³/m|cm⁴/m|kPa|MPa|kN|MN|kNm|MNm|kN/m|MN/m|kNm/m|kN/m²|kN/m³|kN/m3|kNm²/m|kg|t|L|L/s|L/min|L/h|L/min/m|L/h/m|m/s|mm/h|°C|K|°C·days|W/mK|W/K|W/m²K|m²K/W|MJ/m³|kg/h|g/m²/day)` + end +
		`|` + start + `(kPa|MPa|kN|kNm|kN/m|kN/m³|L/min|L/s|W/mK|[Mm]etres?|[Mm]illimetres?|[Ll]itres?|m³|°C)` + end),
	units.Metric: regexp.MustCompile(number + `[ \x{a0}](ft|ft²|ft³|in²|in³|in⁴|yd³|psf|psi|ksi|pcf|lb|lbs|kip|kips|lb/ft|kip/ft|ft-lb|kip-ft|ft-lb/ft|kip-ft/ft|gpm|gph|gpm/ft|gph/ft|cfm|ft/s|ft/day|in/h|°F|°F·days|lb/h|g/ft²/day)` + end +
		`|` + number + `("|'| in(?:[^\pL\pN ]|$| [^\pL]))` + `|` + start + `(psf|psi|ksi|pcf|gpm|cfm|[Ff]eet|[Ii]nch|[Ii]nches|yd³|°F)` + end),
}

const start = `(?:^|[^\pL\pN/·-])`

// allowed are texts that name a unit in either system: what is called by a size,
// what is quoted, and how to type.
var allowed = []*regexp.Regexp{
	regexp.MustCompile(`[(=]\s?[\d.]+ mm\b`), regexp.MustCompile(`^[\d.]+ mm$`), regexp.MustCompile(`(finer than|opening) [\d.]+ mm\b`), // grains, written by their kind
	regexp.MustCompile(`(4 to |4 ft / |\bholds |\bnot |\b)[46] (ft|FT)\b`), // the saying that is put to the test
	regexp.MustCompile(`Metres or feet`),
	regexp.MustCompile(`(Corrugated|Smooth) plastic, \d+ mm`), // where the name is cut off
	regexp.MustCompile(`nominal 1 in \(`),
	regexp.MustCompile(`Ti and Td in °C there`), // the constants of that formula
}

// In lists the units of the other system that a text holds, each with what
// stands round it. names are further texts that may hold them: sources, and names
// of things.
func In(text string, sys units.System, names ...string) []string {
	names = slices.Clone(names)
	slices.SortFunc(names, func(a, b string) int { return len(b) - len(a) }) // one may be part of another
	for _, n := range names {
		if n != "" {
			text = strings.ReplaceAll(text, n, "…")
		}
	}
	for _, a := range allowed {
		text = a.ReplaceAllString(text, "…")
	}
	var out []string
	for _, at := range patterns[sys].FindAllStringIndex(text, -1) {
		out = append(out, around(text, at[0], at[1]))
	}
	return out
}

// around is a place of a text with some letters on both sides.
func around(text string, from, to int) string {
	const room = 60
	before, after := []rune(text[:from]), []rune(text[to:])
	return string(before[max(0, len(before)-room):]) + "»" + text[from:to] + "«" + string(after[:min(len(after), room)])
}
