package units

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"
)

// plainer turns the many signs that keyboards, spreadsheets and word
// processors put for the same thing into one.
var plainer = strings.NewReplacer(
	"−", "-", "–", "-", "—", "-", "‐", "-", "‑", "-",
	"′", "'", "’", "'", "‘", "'", "`", "'", "´", "'",
	"″", `"`, "“", `"`, "”", `"`, "''", `"`,
	"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ",
	"¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⁄", "/", "²", "2", "³", "3", "⁴", "4", "·", "-", "⋅", "-", "º", "°", "⁰", "°",
)

// power is a power of ten as Format shows it.
var power = regexp.MustCompile("×10(⁻?[⁰¹²³⁴-⁹]+)")

var lowered = strings.NewReplacer("⁻", "-", "⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9")

// plain writes powers of ten as e-7 and everything else in plain signs.
func plain(text string) string {
	text = power.ReplaceAllStringFunc(text, func(s string) string {
		return "e" + lowered.Replace(strings.TrimPrefix(s, "×10"))
	})
	return plainer.Replace(plainer.Replace(text)) // twice: two curly marks make '' and that makes "
}

// scanner reads numbers and words from a typed text.
type scanner struct {
	s   string
	pos int
}

func newScanner(text string) *scanner {
	return &scanner{s: strings.ToLower(strings.TrimSpace(plain(text)))}
}

func (c *scanner) rest() string { return strings.TrimSpace(c.s[c.pos:]) }
func (c *scanner) done() bool   { return c.rest() == "" }

func (c *scanner) space() {
	for c.pos < len(c.s) && c.s[c.pos] == ' ' {
		c.pos++
	}
}

// take moves over one of the given bytes.
func (c *scanner) take(set string) (byte, bool) {
	c.space()
	if c.pos < len(c.s) && strings.IndexByte(set, c.s[c.pos]) >= 0 {
		c.pos++
		return c.s[c.pos-1], true
	}
	return 0, false
}

// sign reads a leading sign.
func (c *scanner) sign() float64 {
	if b, ok := c.take("+-"); ok && b == '-' {
		return -1
	}
	return 1
}

func digit(b byte) bool { return b >= '0' && b <= '9' }

// run is the length of the digits, points and commas from i on.
func (c *scanner) run(i int, set string) int {
	n := 0
	for i+n < len(c.s) && (digit(c.s[i+n]) || strings.IndexByte(set, c.s[i+n]) >= 0) {
		n++
	}
	return n
}

// num is a number as typed.
type num struct {
	val   float64
	whole bool // no point, comma or fraction
	// dashed is true for "6-1/2", which may be six and a half or six feet and
	// half an inch.
	dashed bool
}

// number reads an unsigned number: 1.93, 1,93, .5, 3/8, 1 1/2, 1-1/2, 1e-6.
func (c *scanner) number() (num, string) {
	c.space()
	start := c.pos
	n := c.run(c.pos, ".,")
	if n == 0 {
		return num{}, "a number is missing"
	}
	c.pos += n
	c.groups(start)
	if c.pos < len(c.s) && c.s[c.pos] == '/' && c.run(c.pos+1, "") > 0 {
		return c.fraction(start)
	}
	c.exponent()
	val, why := decimal(c.s[start:c.pos])
	out := num{val: val, whole: !strings.ContainsAny(c.s[start:c.pos], ".,e")}
	if why != "" || !out.whole {
		return out, why
	}
	return c.mixed(out)
}

// groups takes in groups of three digits behind spaces: 12 500.
func (c *scanner) groups(start int) {
	if c.pos-start > 3 || c.run(start, "") != c.pos-start {
		return
	}
	for c.pos+4 <= len(c.s) && c.s[c.pos] == ' ' && c.run(c.pos+1, "") == 3 && !strings.HasPrefix(c.s[c.pos+4:], "/") {
		c.pos += 4
	}
}

func (c *scanner) exponent() {
	i := c.pos
	if i >= len(c.s) || c.s[i] != 'e' {
		return
	}
	i++
	if i < len(c.s) && (c.s[i] == '-' || c.s[i] == '+') {
		i++
	}
	if n := c.run(i, ""); n > 0 {
		c.pos = i + n
	}
}

// fraction reads the rest of a/b.
func (c *scanner) fraction(start int) (num, string) {
	over := c.s[start:c.pos]
	c.pos++
	n := c.run(c.pos, "")
	under := c.s[c.pos : c.pos+n]
	c.pos += n
	a, err1 := strconv.ParseFloat(over, 64)
	b, err2 := strconv.ParseFloat(under, 64)
	if err1 != nil || err2 != nil || b == 0 {
		return num{}, over + "/" + under + " is no fraction"
	}
	return num{val: a / b}, ""
}

// mixed adds the fraction of 1 1/2 or 1-1/2 to a whole number.
func (c *scanner) mixed(whole num) (num, string) {
	i := c.pos
	for i < len(c.s) && c.s[i] == ' ' {
		i++
	}
	dashed := i < len(c.s) && c.s[i] == '-'
	if dashed {
		i++
	} else if i == c.pos {
		return whole, ""
	}
	n := c.run(i, "")
	if n == 0 || i+n >= len(c.s) || c.s[i+n] != '/' || c.run(i+n+1, "") == 0 {
		return whole, ""
	}
	c.pos = i + n
	f, why := c.fraction(i)
	return num{val: whole.val + f.val, dashed: dashed}, why
}

// decimal reads digits with points and commas. Of two different signs the last
// one is the decimal one; a lone comma with exactly three digits behind it and
// a group before it could be either, so it is refused.
func decimal(s string) (float64, string) {
	s = strings.ReplaceAll(s, " ", "")
	head, exp, _ := strings.Cut(s, "e")
	dots, commas := strings.Count(head, "."), strings.Count(head, ",")
	lastDot, lastComma := strings.LastIndexByte(head, '.'), strings.LastIndexByte(head, ',')
	switch {
	case dots > 1 && commas > 1, dots > 1 && commas == 0:
		return 0, s + " has too many points"
	case dots == 1 && commas > 0 && lastDot > lastComma: // 1,234.5
		if !grouped(head[:lastDot], ",") {
			return 0, s + " has a comma in an odd place"
		}
		head = strings.ReplaceAll(head, ",", "")
	case dots > 0 && commas == 1: // 1.234,5
		if lastComma < lastDot || !grouped(head[:lastComma], ".") {
			return 0, s + " has a point in an odd place"
		}
		head = strings.ReplaceAll(strings.ReplaceAll(head, ".", ""), ",", ".")
	case commas > 1: // 1,234,567
		if !grouped(head, ",") {
			return 0, s + " has a comma in an odd place"
		}
		head = strings.ReplaceAll(head, ",", "")
	case commas == 1:
		if len(head)-lastComma == 4 && lastComma > 0 && lastComma <= 3 && head[0] != '0' {
			return 0, s + " may be " + strings.Replace(s, ",", "", 1) + " or " + strings.Replace(s, ",", ".", 1) + ": write it without the comma or with a point"
		}
		head = strings.Replace(head, ",", ".", 1)
	}
	if exp != "" {
		head += "e" + exp
	}
	f, err := strconv.ParseFloat(head, 64)
	if err != nil {
		return 0, s + " is not a number"
	}
	return f, ""
}

// grouped tells whether the digits of s stand in groups of three.
func grouped(s, sep string) bool {
	parts := strings.Split(s, sep)
	for i, p := range parts {
		if i == 0 && (len(p) == 0 || len(p) > 3) || i > 0 && len(p) != 3 || strings.ContainsAny(p, ".,") {
			return false
		}
	}
	return true
}

// unit reads the name of a unit: a foot or inch mark, or everything up to the
// next digit that does not belong to the name, as the 2 of m2 does.
func (c *scanner) unit() string {
	c.space()
	start := c.pos
	if c.pos < len(c.s) && (c.s[c.pos] == '\'' || c.s[c.pos] == '"') {
		c.pos++
		return c.s[start:c.pos]
	}
	for c.pos < len(c.s) {
		r := rune(c.s[c.pos])
		inName := unicode.IsLetter(r) || r == '/' || r == '^' || r == '%' || r >= 0x80 ||
			r == '-' && c.pos > start && c.pos+1 < len(c.s) && unicode.IsLetter(rune(c.s[c.pos+1])) ||
			digit(c.s[c.pos]) && c.pos > start && unicode.IsLetter(rune(c.s[c.pos-1])) ||
			digit(c.s[c.pos]) && c.pos > start && c.s[c.pos-1] == '^'
		if !inName {
			break
		}
		c.pos++
	}
	return strings.ReplaceAll(c.s[start:c.pos], "^", "")
}
