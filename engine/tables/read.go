package tables

import (
	"encoding/csv"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"
)

// row is one row of a table while it is read. The first fault found is kept;
// what is read after it is worthless.
type row struct {
	file string
	line int // in the file, header is 1
	cols map[string]int
	used map[string]bool
	cell []string
	err  error
}

// text reads a cell that may not be empty.
func (r *row) text(col string) string {
	s := r.raw(col)
	if s == "" {
		r.fail(col, s, "is empty")
	}
	return s
}

// oneOf reads a cell that must be one of the words given.
func (r *row) oneOf(col string, words ...string) string {
	s := r.raw(col)
	if !slices.Contains(words, s) {
		r.fail(col, s, "is none of "+strings.Join(words, ", "))
	}
	return s
}

// num reads a number between lo and hi, both in the unit of the column, and
// gives it multiplied by unit.
func (r *row) num(col string, unit, lo, hi float64) float64 {
	s := r.raw(col)
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		r.fail(col, s, "is not a number")
		return 0
	}
	if v < lo || v > hi {
		r.fail(col, s, fmt.Sprintf("is outside %g to %g", lo, hi))
	}
	return v * unit
}

// source reads the two columns that every table has.
func (r *row) source() Source {
	return Source{
		Text: r.text("source"),
		Mark: Mark(r.oneOf("mark", string(Verified), string(SecondHand), string(Derived), string(Memory), string(Practice))),
	}
}

func (r *row) raw(col string) string {
	i, ok := r.cols[col]
	if !ok {
		r.fail(col, "", "is missing from the header")
		return ""
	}
	r.used[col] = true
	return strings.TrimSpace(r.cell[i])
}

func (r *row) fail(col, value, why string) {
	if r.err == nil {
		r.err = fmt.Errorf("tables: %s line %d, column %s = %q %s", r.file, r.line, col, value, why)
	}
}

// list is a table whose rows have names: in the order of the file, and by name.
type list[T any] struct {
	ids []string
	by  map[string]T
}

func (l *list[T]) get(id string) (T, bool) {
	v, ok := l.by[id]
	return v, ok
}

// all gives the rows in the order of the file.
func (l *list[T]) all() []T {
	out := make([]T, len(l.ids))
	for i, id := range l.ids {
		out[i] = l.by[id]
	}
	return out
}

// readList reads a table whose rows are named by the column key.
func readList[T any](files fs.FS, file, key string, parse func(*row) T) (list[T], error) {
	l := list[T]{by: map[string]T{}}
	err := readRows(files, file, func(r *row) {
		id := r.text(key)
		if _, ok := l.by[id]; ok {
			r.fail(key, id, "is there twice")
			return
		}
		l.by[id] = parse(r)
		l.ids = append(l.ids, id)
	})
	return l, err
}

// readRows reads a table and hands every row to parse. A table without rows,
// a column that is never read and a faulty cell are errors.
func readRows(files fs.FS, file string, parse func(*row)) error {
	f, err := files.Open(file)
	if err != nil {
		return fmt.Errorf("tables: %w", err)
	}
	defer f.Close()
	cr := csv.NewReader(f)
	rows, err := cr.ReadAll()
	if err != nil {
		return fmt.Errorf("tables: %s: %w", file, err)
	}
	if len(rows) < 2 {
		return fmt.Errorf("tables: %s has no rows", file)
	}
	cols, err := header(file, rows[0])
	if err != nil {
		return err
	}
	used := map[string]bool{}
	for i, cells := range rows[1:] {
		r := &row{file: file, line: i + 2, cols: cols, used: used, cell: cells}
		parse(r)
		if r.err != nil {
			return r.err
		}
	}
	for _, name := range rows[0] {
		if !used[name] {
			return fmt.Errorf("tables: %s: column %s is not known", file, name)
		}
	}
	return nil
}

func header(file string, names []string) (map[string]int, error) {
	cols := make(map[string]int, len(names))
	for i, name := range names {
		if _, ok := cols[name]; ok {
			return nil, fmt.Errorf("tables: %s: column %s is there twice", file, name)
		}
		cols[name] = i
	}
	return cols, nil
}
