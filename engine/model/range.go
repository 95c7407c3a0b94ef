package model

import (
	"fmt"
	"math"
	"regexp"
	"strconv"

	"hillset/engine/quantity"
)

// Range is what one number of the file may be. Min and Max are in the unit in
// which the file holds the number; Scale turns it into the SI unit of Kind.
type Range struct {
	Min, Max float64
	// Zero is true where 0 stands for "none" or "not known" below Min.
	Zero  bool
	Unit  string // unit in the file, e.g. "kPa"
	Kind  quantity.Kind
	Scale float64
}

// contains tells whether v is allowed; NaN never is.
func (r *Range) contains(v float64) bool {
	return v >= r.Min && v <= r.Max || r.Zero && v == 0
}

// String says the range in words, e.g. "0 or 100 to 1000 MPa".
func (r *Range) String() string {
	s := fmt.Sprintf("%s to %s", number(r.Min), number(r.Max))
	if r.Zero && r.Min > 0 {
		s = "0 or " + s
	}
	if r.Unit != "" {
		s += " " + r.Unit
	}
	return s
}

// number writes a value of a message with as many digits as it needs.
func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// withUnit writes a value of a message with the unit of its range.
func (r *Range) withUnit(v float64) string {
	if r.Unit == "" {
		return number(v)
	}
	return number(v) + " " + r.Unit
}

// said is String in the reader's units.
func (r *Range) said() string {
	s := quantity.Between(r.Min*r.Scale, r.Max*r.Scale, r.Kind)
	if r.Zero && r.Min > 0 {
		s = "0 or " + s
	}
	return s
}

// problem is a number outside the range, which keeps nothing from being stored.
func (r *Range) problem(field string, v float64, text string) Problem {
	return Problem{Field: field, Value: r.withUnit(v), Allowed: r.String(), Text: text,
		Ranged: true, Kind: r.Kind, Num: v * r.Scale, Min: r.Min * r.Scale, Max: r.Max * r.Scale}
}

// metre writes a length of a message, m.
func metre(v float64) string { return quantity.Typed.Text(v, quantity.Length) }

var index = regexp.MustCompile(`\[[0-9]*\]`)

// RangeOf gives the allowed range of the number at a path such as
// "site.soils[2].phi". ok is false where there is no number at such a path;
// members of tables are named with a dot and a star: "prices.*". For a list of
// points it is the range of x; that of z is under the path with ".z" behind it.
func RangeOf(path string) (r Range, ok bool) {
	p, ok := ranges[index.ReplaceAllString(path, "[]")]
	if !ok {
		return Range{}, false
	}
	return *p, true
}

// Makers of ranges by the unit that the file holds.
func metres(lo, hi float64) *Range { return &Range{lo, hi, false, "m", quantity.Length, 1} }
func millimetres(lo, hi float64) *Range {
	return &Range{lo, hi, false, "mm", quantity.Thickness, 1e-3}
}
func kilograms(lo, hi float64) *Range { return &Range{lo, hi, false, "kg", quantity.Mass, 1e-3} }
func degrees(lo, hi float64) *Range {
	return &Range{lo, hi, false, "degrees", quantity.Angle, math.Pi / 180}
}
func kiloPa(lo, hi float64) *Range { return &Range{lo, hi, false, "kPa", quantity.Pressure, 1} }
func megaPa(lo, hi float64) *Range { return &Range{lo, hi, false, "MPa", quantity.Stress, 1e3} }
func kNm3(lo, hi float64) *Range   { return &Range{lo, hi, false, "kN/m3", quantity.UnitWeight, 1} }
func run(lo, hi float64) *Range    { return &Range{lo, hi, false, "H:V", quantity.Slope, 1} }
func rise(lo, hi float64) *Range   { return &Range{lo, hi, false, "m per m", quantity.Gradient, 1} }
func plain(lo, hi float64) *Range  { return &Range{lo, hi, false, "", quantity.None, 1} }
func hours(lo, hi float64) *Range  { return &Range{lo, hi, false, "h", quantity.Hours, 1} }
func years(lo, hi float64) *Range  { return &Range{lo, hi, false, "years", quantity.Years, 1} }
func celsius(lo, hi float64) *Range {
	return &Range{lo, hi, false, "degrees C", quantity.Temperature, 1}
}
func share(lo, hi float64) *Range  { return &Range{lo, hi, false, "share", quantity.Share, 1} }
func grains(lo, hi float64) *Range { return &Range{lo, hi, false, "mm", quantity.Grain, 1} }
func in(unit string, k quantity.Kind, scale, lo, hi float64) *Range {
	return &Range{lo, hi, false, unit, k, scale}
}

// or0 also allows 0 for "none" or "not known".
func (r *Range) or0() *Range {
	r.Zero = true
	return r
}
