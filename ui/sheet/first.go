package sheet

import (
	"slices"

	"hillset/geom"
)

// firstSheet is the first sheet with everything in its place.
type firstSheet struct {
	fig    *arrangement
	at     geom.Vec // corner of the figures
	title  titleBlock
	tbox   box
	cap    float64 // height of letters of the tables
	placed []placed
	left   []*piece // for the further sheets
	legend table
	score  score
}

// score ranks first sheets of the same scale: the greater is the better one,
// compared from the first number on.
type score [3]float64

func (s score) better(o score) bool { return slices.Compare(s[:], o[:]) > 0 }

// queues are the tables for the further sheets: those that take the whole
// width, and the others.
func (f *firstSheet) queues() (wide, narrow queue) {
	rank := func(p *piece) int { return slices.Index(tableOrder, p.tag()) }
	left := slices.Clone(f.left)
	slices.SortStableFunc(left, func(p, q *piece) int { return rank(p) - rank(q) })
	for _, p := range left {
		if t := p.tag(); t == "checks" || t == "unchecked" {
			wide = append(wide, p.forms[0])
		} else {
			narrow = append(narrow, p.forms[0])
		}
	}
	return wide, narrow
}

// tableOrder is the order of the tables on further sheets, by their tags.
var tableOrder = []string{"checks", "unchecked", "levels", "legend", "earthworks", "burial", "cautions", "answers", "assumed", "remarks", "notes"}

func (f *firstSheet) draw(b *board, sheets int) {
	f.title.numbered(sheets).draw(b, f.tbox)
	f.fig.draw(b, f.at[0], f.at[1])
	for _, p := range f.placed {
		p.draw(b, f.cap)
	}
}
