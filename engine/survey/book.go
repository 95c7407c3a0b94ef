package survey

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
)

// Reading is one row of a level book. What was not read is nil. A change point
// has a foresight from the old set-up and a backsight from the new one. A
// staff held upside down, as under a bridge, is read negative.
type Reading struct {
	Name       string
	BS, IS, FS *float64 // m
}

// Levelled is one row of a reduced book.
type Levelled struct {
	Name  string
	Level float64 // m
	// Diff is the rise (+) or fall (−) from the row before; 0 in the first.
	Diff float64
	// HI is the level of the line of sight from which the row was read; NaN in
	// the first row, which is known and not read from anywhere.
	HI    float64
	Setup int  // number of the set-up from which it was read, from 1; 0 in the first row
	Turn  bool // a change point or the end
}

// Book is a reduced level book with its sums. The arithmetic is in order when
// SumBS − SumFS, Rises − Falls and last − first level agree; they are compared when it is made.
type Book struct {
	Rows         []Levelled
	SumBS, SumFS float64 // m
	Rises, Falls float64 // m, both positive
	Setups       int
}

// Reduce works a level book from a known first level by the height of the
// instrument: HI = level + BS, level = HI − reading. The first row has the
// first backsight, the last a foresight. A row that does not fit is an error
// that names it, from 1.
func Reduce(first float64, rows []Reading) (*Book, error) {
	if err := bookForm(first, rows); err != nil {
		return nil, err
	}
	b := &Book{Rows: []Levelled{{Name: rows[0].Name, Level: first, HI: math.NaN()}}, SumBS: *rows[0].BS, Setups: 1}
	hi, prev := first+*rows[0].BS, *rows[0].BS
	for _, r := range rows[1:] {
		read := r.IS
		if r.FS != nil {
			read = r.FS
		}
		row := Levelled{Name: r.Name, Level: hi - *read, Diff: prev - *read, HI: hi, Setup: b.Setups, Turn: r.FS != nil}
		b.Rises += math.Max(0, row.Diff)
		b.Falls += math.Max(0, -row.Diff)
		prev = *read
		if r.FS != nil {
			b.SumFS += *r.FS
		}
		if r.BS != nil {
			b.SumBS += *r.BS
			b.Setups++
			hi, prev = row.Level+*r.BS, *r.BS
		}
		b.Rows = append(b.Rows, row)
	}
	b.check()
	return b, nil
}

// ReduceByRise works the same book by rise and fall: each level is the one
// before it and the difference of two readings of one set-up. It is the second
// way, by which a book is proved.
func ReduceByRise(first float64, rows []Reading) (*Book, error) {
	b, err := Reduce(first, rows)
	if err != nil {
		return nil, err
	}
	level := first
	for i := 1; i < len(b.Rows); i++ {
		level += b.Rows[i].Diff
		b.Rows[i].Level = level
	}
	b.check()
	return b, nil
}

// bookForm checks which readings stand in which row, and their size.
func bookForm(first float64, rows []Reading) error {
	if math.IsNaN(first) || math.IsInf(first, 0) {
		return bad("first_level", first, quantity.Length, "a number", "is no level")
	}
	if len(rows) < 2 {
		return fmt.Errorf("a level book has at least a backsight and a foresight, this one has %d rows", len(rows))
	}
	for i, r := range rows {
		if why := r.misplaced(i == 0, i == len(rows)-1); why != "" {
			return fmt.Errorf("row %d (%s): %s", i+1, r.Name, why)
		}
		if err := r.onStaff(); err != nil {
			return fmt.Errorf("row %d (%s): %w", i+1, r.Name, err)
		}
	}
	return nil
}

// onStaff checks that each reading can be one of a staff, upright or not.
func (r Reading) onStaff() error {
	for i, v := range []*float64{r.BS, r.IS, r.FS} {
		if v != nil && !(math.Abs(*v) <= MaxStaff) {
			return bad([]string{"BS", "IS", "FS"}[i], *v, quantity.Length, quantity.Between(-MaxStaff, MaxStaff, quantity.Length), "is no reading of a staff")
		}
	}
	return nil
}

// misplaced says why the readings of a row cannot stand there.
func (r Reading) misplaced(first, last bool) string {
	bs, is, fs := r.BS != nil, r.IS != nil, r.FS != nil
	switch {
	case first && (!bs || is || fs):
		return "the first row has a backsight and nothing else"
	case first:
		return ""
	case last && (!fs || bs || is):
		return "the last row has a foresight and nothing else"
	case is && (bs || fs):
		return "an intermediate sight stands alone"
	case bs && !fs:
		return "a backsight needs the foresight from the set-up before"
	case fs && !bs && !last:
		return "after this foresight the level was moved, so a backsight to the same point is needed"
	case !is && !fs:
		return "nothing was read"
	}
	return ""
}

// sumTol is the rounding of adding a few thousand readings of up to 10 m.
const sumTol = 1e-9

// check compares the three sums of the book.
func (b *Book) check() {
	d := b.Rows[len(b.Rows)-1].Level - b.Rows[0].Level
	tol := sumTol * math.Max(1, math.Abs(b.Rows[0].Level))
	if math.Abs(b.SumBS-b.SumFS-d) > tol || math.Abs(b.Rises-b.Falls-d) > tol {
		panic(fmt.Sprintf("survey: the sums of a level book differ: %g, %g, %g", b.SumBS-b.SumFS, b.Rises-b.Falls, d))
	}
}

// TwoPeg is the error of a level's line of sight (m) over the distance between
// two pegs: readings a1, b1 from half way, a2, b2 from beside the first peg.
// e = (a2 − b2) − (a1 − b1); 1 mm in 20 m is usable (common practice).
func TwoPeg(a1, b1, a2, b2 float64) float64 { return (a2 - b2) - (a1 - b1) }
