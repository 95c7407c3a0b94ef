package survey

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"hillset/engine/quantity"
)

// CellReader turns the text of one cell, with a unit when the heading or the
// cell names one, into the SI value of a kind. A bare number is in the unit
// that the reader of the screen uses, so this function comes from there.
type CellReader func(kind quantity.Kind, text string) (float64, error)

// Options say how a pasted text is to be read.
type Options struct {
	Form      Form
	Separator rune    // 0 finds tab, semicolon, comma or spaces by itself
	Decimal   Decimal // AutoDecimal finds it by itself
	Read      CellReader
}

// Row is one row of a table. Values that were left empty are nil.
type Row struct {
	Line   int // line of the text, from 1
	Name   string
	Values map[Role]*float64
}

// Table is a text that was understood.
type Table struct {
	Form      Form
	Separator rune
	Comma     bool // decimals stand behind a comma
	Columns   []Column
	Rows      []Row
}

// CellError is a cell that cannot be read.
type CellError struct {
	Line    int // line of the text, from 1
	Column  int // from 1
	Heading string
	Value   string
	Err     error
}

func (e *CellError) Error() string {
	return fmt.Sprintf("row %d, column %d (%s): %q: %v", e.Line, e.Column, e.Heading, e.Value, e.Err)
}

func (e *CellError) Unwrap() error { return e.Err }

// Limits of a pasted text.
const (
	maxPaste  = 4 << 20 // bytes: a whole theodolite memory has less
	maxRows   = 5000
	maxFaults = 20 // cells named in one error
)

// Read understands a text pasted from a spreadsheet or read from a CSV file.
// Every row counts or is an error; only empty rows and those that begin with #
// are passed over. The error joins a *CellError for each cell that cannot be
// read, up to 20 of them.
func Read(text string, o Options) (*Table, error) {
	if o.Read == nil {
		panic("survey: Options.Read is nil")
	}
	if len(text) > maxPaste {
		return nil, fmt.Errorf("the text is longer than %d MB", maxPaste>>20)
	}
	t := &Table{Form: o.Form, Separator: o.Separator}
	if t.Separator == 0 {
		t.Separator = separator(text)
	}
	recs, err := records(text, t.Separator)
	if err != nil {
		return nil, err
	}
	if len(recs) == 0 {
		return nil, errors.New("the text has no rows")
	}
	if len(recs) > maxRows {
		return nil, fmt.Errorf("the text has %d rows, more than %d", len(recs), maxRows)
	}
	body, err := t.columns(recs)
	if err != nil {
		return nil, err
	}
	if t.Comma, err = o.Decimal.comma(body); err != nil {
		return nil, err
	}
	if err := t.fill(body, o.Read); err != nil {
		return nil, err
	}
	return t, nil
}

// separator finds what parts the cells: the strongest sign that occurs.
func separator(text string) rune {
	for _, r := range "\t;," {
		if strings.ContainsRune(text, r) {
			return r
		}
	}
	return ' '
}

// record is one row of cells with its line.
type record struct {
	line  int
	cells []string
}

func records(text string, sep rune) ([]record, error) {
	text = strings.TrimPrefix(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text), "\ufeff")
	if sep == ' ' {
		return spaced(text), nil
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.Comment, r.LazyQuotes, r.FieldsPerRecord = sep, '#', true, -1
	var out []record
	for {
		cells, err := r.Read()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, fmt.Errorf("the text is no table: %w", err)
		}
		line, _ := r.FieldPos(0)
		out = appendRecord(out, line, cells)
	}
}

func spaced(text string) (out []record) {
	for i, l := range strings.Split(text, "\n") {
		if !strings.HasPrefix(l, "#") {
			out = appendRecord(out, i+1, strings.Fields(l))
		}
	}
	return out
}

// appendRecord adds a row that is not empty, without the empty cells at its end.
func appendRecord(out []record, line int, cells []string) []record {
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	for len(cells) > 0 && cells[len(cells)-1] == "" {
		cells = cells[:len(cells)-1]
	}
	if len(cells) == 0 {
		return out
	}
	return append(out, record{line, cells})
}

// numeric tells a number, with or without unit, from a word.
func numeric(cell string) bool {
	c := strings.TrimLeft(cell, "+-−–., ")
	return c != "" && c[0] >= '0' && c[0] <= '9'
}

// columns finds the columns by the headings, or by their order when there are
// none, and returns the rows of values.
func (t *Table) columns(recs []record) ([]record, error) {
	l := layouts[t.Form]
	first := recs[0].cells
	if slices.ContainsFunc(first, numeric) {
		return recs, t.byOrder(recs, l)
	}
	for _, c := range first {
		t.Columns = append(t.Columns, heading(c))
	}
	recs = recs[1:]
	if len(recs) > 0 && !slices.ContainsFunc(recs[0].cells, numeric) {
		t.unitRow(recs[0].cells)
		recs = recs[1:]
	}
	return recs, t.complete(l)
}

// unitRow takes the units from a row under the headings.
func (t *Table) unitRow(cells []string) {
	for i, c := range cells {
		if i < len(t.Columns) && c != "" {
			t.Columns[i].Unit = strings.Trim(c, "()[]{} ")
		}
	}
}

// complete checks that the headings name what the form needs, once each.
func (t *Table) complete(l layout) error {
	count := map[Role]int{}
	var names []string
	for i, c := range t.Columns {
		if c.Role != NameCol && !l.wants(c.Role) {
			t.Columns[i].Role = Ignored
		}
		count[t.Columns[i].Role]++
		names = append(names, fmt.Sprintf("%q", c.Heading))
	}
	one := len(l.oneOf) == 0
	for _, r := range l.oneOf {
		one = one || count[r] > 0
	}
	var missing []string
	for _, r := range l.need {
		if count[r] == 0 {
			missing = append(missing, string(r))
		}
	}
	if !one {
		missing = append(missing, fmt.Sprintf("%s or %s", l.oneOf[0], l.oneOf[1]))
	}
	if len(missing) > 0 {
		return fmt.Errorf("no column for %s among the headings %s", strings.Join(missing, ", "), strings.Join(names, ", "))
	}
	for r, n := range count {
		if n > 1 && r != Ignored {
			return fmt.Errorf("%d columns for %s among the headings %s", n, r, strings.Join(names, ", "))
		}
	}
	if count[Angle] > 0 && count[Grade] > 0 {
		return fmt.Errorf("both an angle and a grade among the headings %s: take one out", strings.Join(names, ", "))
	}
	return nil
}

// byOrder takes the columns in the usual order. One more may stand before them:
// the name of the point.
func (t *Table) byOrder(recs []record, l layout) error {
	most := 0
	for _, r := range recs {
		most = max(most, len(r.cells))
	}
	var roles []Role
	switch most {
	case len(l.order):
		roles = l.order
	case len(l.order) + 1:
		roles = append([]Role{NameCol}, l.order...)
	default:
		var names []string
		for _, r := range l.order {
			names = append(names, string(r))
		}
		return fmt.Errorf("%d columns without headings: expected %s, with a name before them or not", most, strings.Join(names, ", "))
	}
	for _, r := range roles {
		t.Columns = append(t.Columns, Column{Role: r})
	}
	return nil
}

// fill reads the cells.
func (t *Table) fill(body []record, read CellReader) error {
	l := layouts[t.Form]
	var faults []error
	for _, rec := range body {
		row := Row{Line: rec.line, Values: map[Role]*float64{}}
		if len(rec.cells) > len(t.Columns) {
			faults = append(faults, fmt.Errorf("row %d: %d cells in a table of %d columns", rec.line, len(rec.cells), len(t.Columns)))
		}
		for i, c := range t.Columns {
			cell := ""
			if i < len(rec.cells) {
				cell = rec.cells[i]
			}
			switch {
			case c.Role == NameCol:
				row.Name = cell
			case c.Role == Ignored, cell == "" && slices.Contains(l.optional, c.Role):
			default:
				v, err := t.cell(cell, c, read)
				if err != nil {
					faults = append(faults, &CellError{rec.line, i + 1, c.name(), cell, err})
					continue
				}
				row.Values[c.Role] = &v
			}
		}
		t.Rows = append(t.Rows, row)
	}
	if n := len(faults); n > maxFaults {
		faults = append(faults[:maxFaults], fmt.Errorf("and %d more", n-maxFaults))
	}
	if len(t.Rows) == 0 {
		return errors.New("there are headings but no rows")
	}
	return errors.Join(faults...)
}

func (c Column) name() string {
	if c.Heading != "" {
		return c.Heading
	}
	return string(c.Role)
}

func (t *Table) cell(cell string, c Column, read CellReader) (float64, error) {
	if cell == "" {
		return 0, errors.New("is empty")
	}
	text := pointed(cell, t.Comma)
	if c.Unit != "" && bare(text) {
		text += " " + c.Unit
	}
	return read(kindOf(c.Role), text)
}
