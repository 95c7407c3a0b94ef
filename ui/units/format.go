package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hillset/engine/quantity"
)

// Minus is the minus sign of all numbers shown; a hyphen is too short to be
// seen on paper.
const Minus = "−"

// None is shown for a value that is not a number.
const None = "—"

// larger holds units taken when the ordinary number would grow long: from the
// given SI value on.
var larger = map[quantity.Kind][2]struct {
	from float64
	unit unit
}{
	quantity.Force:      {{1e5, unit{"MN", 1e3, 2}}, {10 * kip, unit{"kip", kip, 1}}},
	quantity.LineLoad:   {{1e5, unit{"MN/m", 1e3, 2}}, {10 * kip / foot, unit{"kip/ft", kip / foot, 1}}},
	quantity.Moment:     {{1e5, unit{"MNm", 1e3, 2}}, {100 * kip * foot, unit{"kip-ft", kip * foot, 1}}},
	quantity.LineMoment: {{1e5, unit{"MNm/m", 1e3, 2}}, {100 * kip, unit{"kip-ft/ft", kip, 1}}},
	quantity.Mass:       {{10, unit{"t", 1, 2}}, {math.Inf(1), unit{}}},
	quantity.Flow:       {{1e-3, unit{"L/s", 1e-3, 2}}, {math.Inf(1), unit{}}},
	quantity.Duration:   {{2 * hour, unit{"h", hour, 1}}, {2 * hour, unit{"h", hour, 1}}},
	quantity.Power:      {{1e4, unit{"kW", 1e3, 1}}, {1e4, unit{"kW", 1e3, 1}}},
	quantity.Energy:     {{1e4, unit{"kWh", 1e3, 1}}, {1e4, unit{"kWh", 1e3, 1}}},
}

// Format shows a value of a kind, given in SI, with its unit in the system:
// with the usual decimals, and with more where a small value would vanish.
// US lengths are in feet and inches to half an inch. NaN and Inf are shown as
// None.
func Format(val float64, kind quantity.Kind, sys System) string {
	if math.IsNaN(val) || math.IsInf(val, 0) {
		return None
	}
	switch {
	case kind == quantity.Length && sys == US:
		return feetInches(val, 2)
	case kind == quantity.Slope:
		return trim(decimals(val, 2, 6)) + ":1"
	case kind == quantity.None:
		return pure(val)
	}
	u := of(kind, sys)
	if kind == quantity.Permeability {
		return attach(pure(val/u.size), u.name) // between clay and stone lie ten powers of ten
	}
	if l, ok := larger[kind]; ok && math.Abs(val) >= l[sys].from {
		u = l[sys].unit
	}
	most := 6
	switch kind {
	case quantity.Length:
		most = 3 // nobody sets out to less than a millimetre
	case quantity.Temperature:
		most = u.digits // its zero is a mark on a scale, not nothing
	}
	return attach(decimals((val-zeroOf(kind, sys))/u.size, u.digits, most), u.name)
}

// FormatQ is Format for a quantity.
func FormatQ(q quantity.Q, sys System) string { return Format(q.Val, q.Kind, sys) }

// FormatLevel shows a level, m: to 0.01 m or 0.01 ft, never in inches, as
// levels are read off a staff.
func FormatLevel(val float64, sys System) string {
	if math.IsNaN(val) || math.IsInf(val, 0) {
		return None
	}
	u := of(quantity.Length, sys)
	return attach(minus(strconv.FormatFloat(val/u.size, 'f', 2, 64)), u.name)
}

// Number shows a pure number with the given decimals and a true minus.
func Number(val float64, digits int) string {
	if math.IsNaN(val) || math.IsInf(val, 0) {
		return None
	}
	return minus(strconv.FormatFloat(val, 'f', digits, 64))
}

// attach puts a unit behind a number.
func attach(number, unit string) string {
	if unit == "" || unit == "°" {
		return number + unit
	}
	return number + " " + unit
}

// minus gives a formatted number its true minus, and none to what is shown as
// zero.
func minus(s string) string {
	if !strings.HasPrefix(s, "-") {
		return s
	}
	if strings.Trim(s, "-0.") == "" {
		return s[1:]
	}
	return Minus + s[1:]
}

// decimals shows v with n decimals, or with as many, up to most, as two leading
// digits need.
func decimals(v float64, n, most int) string {
	if a := math.Abs(v); a > 0 && a < 10*math.Pow10(-n) {
		n = min(most, max(n, 1-int(math.Floor(math.Log10(a)))))
	}
	return minus(strconv.FormatFloat(v, 'f', n, 64))
}

// trim drops the zeros at the end of a decimal number.
func trim(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}

// pure shows a number without a unit with four digits.
func pure(v float64) string {
	if a := math.Abs(v); a != 0 && (a < 1e-4 || a >= 1e7) {
		return scientific(v)
	}
	s := strconv.FormatFloat(v, 'f', max(0, 3-int(math.Floor(math.Log10(math.Max(math.Abs(v), 1e-4))))), 64)
	return minus(trim(s))
}

var superscript = strings.NewReplacer("0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹", "-", "⁻")

// scientific shows v as 1.0×10⁻⁷.
func scientific(v float64) string {
	mantissa, exp, _ := strings.Cut(strconv.FormatFloat(v, 'e', 1, 64), "e")
	n, err := strconv.Atoi(exp)
	if err != nil {
		panic("units: exponent " + exp)
	}
	return minus(mantissa) + "×10" + superscript.Replace(strconv.Itoa(n))
}

// feetInches shows a length in feet and inches to 1/parts of an inch. Below
// 3/4 in it shows hundredths of an inch, as a fraction would hide the value.
func feetInches(val float64, parts int) string {
	in := math.Abs(val) / inch
	if in < 0.75 {
		return minus(sign(val)+strconv.FormatFloat(in, 'f', 2, 64)) + `"`
	}
	n := int64(math.Round(in * float64(parts)))
	ft, rest := n/int64(12*parts), n%int64(12*parts)
	inches := strconv.FormatInt(rest/int64(parts), 10)
	if over, under := rest%int64(parts), int64(parts); over != 0 {
		for over%2 == 0 {
			over, under = over/2, under/2
		}
		inches = mixedNumber(rest/int64(parts), over, under)
	}
	if ft == 0 {
		return minus(sign(val) + inches + `"`)
	}
	return minus(fmt.Sprintf(`%s%d'-%s"`, sign(val), ft, inches))
}

func sign(v float64) string {
	if v < 0 {
		return "-"
	}
	return ""
}

// mixedNumber writes whole inches and a fraction; halves, quarters and eighths
// have signs of their own.
func mixedNumber(whole, over, under int64) string {
	signs := map[[2]int64]string{{1, 2}: "½", {1, 4}: "¼", {3, 4}: "¾", {1, 8}: "⅛", {3, 8}: "⅜", {5, 8}: "⅝", {7, 8}: "⅞"}
	if s, ok := signs[[2]int64{over, under}]; ok {
		if whole == 0 {
			return s
		}
		return strconv.FormatInt(whole, 10) + s
	}
	if whole == 0 {
		return fmt.Sprintf("%d/%d", over, under)
	}
	return fmt.Sprintf("%d %d/%d", whole, over, under)
}
