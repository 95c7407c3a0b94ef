package survey

import (
	"errors"
	"regexp"
	"strings"
)

// Decimal is the sign before the decimals.
type Decimal int

// The choices.
const (
	AutoDecimal  Decimal = iota // found from the table as a whole
	DecimalPoint                // 1.93, and a comma parts thousands
	DecimalComma                // 1,93, and a point parts thousands
)

// A number whose comma or point can only be the decimal sign: other than three
// digits behind it, nothing or 0 or more than three digits before it, or the
// other sign before it.
var (
	surePoint = regexp.MustCompile(`\.(\d{1,2}|\d{4,})?(\D|$)|(^|\D)0?\.\d|\d{4,}\.|,\d{3}\.`)
	sureComma = regexp.MustCompile(`,(\d{1,2}|\d{4,})?(\D|$)|(^|\D)0?,\d|\d{4,},|\.\d{3},`)
)

// comma decides for the table as a whole, as one sheet is written in one way.
// A table in which every comma could part thousands as well is an error that
// asks for the choice: a guess would be wrong by a factor of a thousand.
func (d Decimal) comma(body []record) (bool, error) {
	if d != AutoDecimal {
		return d == DecimalComma, nil
	}
	var point, comma, open bool
	for _, r := range body {
		for _, c := range r.cells {
			if !numeric(c) {
				continue
			}
			point = point || surePoint.MatchString(c)
			comma = comma || sureComma.MatchString(c)
			open = open || strings.Contains(c, ",")
		}
	}
	switch {
	case point && comma:
		return false, errors.New("the table has decimals behind points and behind commas: choose one")
	case comma:
		return true, nil
	case open && !point:
		return false, errors.New("the commas may be decimal signs or part thousands: choose which")
	}
	return false, nil
}

// pointed writes the number of a cell with a decimal point and without signs
// between thousands.
func pointed(cell string, comma bool) string {
	if !numeric(cell) {
		return cell
	}
	if comma {
		return strings.ReplaceAll(strings.ReplaceAll(cell, ".", ""), ",", ".")
	}
	return strings.ReplaceAll(cell, ",", "")
}

var onlyNumber = regexp.MustCompile(`^[+\-−–]? ?[0-9.]+(e[+\-]?[0-9]+)?$`)

// bare tells whether a cell is a number and nothing else.
func bare(cell string) bool { return onlyNumber.MatchString(strings.ToLower(cell)) }
