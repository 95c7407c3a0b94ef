package survey

import (
	"fmt"

	"hillset/engine/model"
)

// form panics when a table is asked for what it is not.
func (t *Table) form(f Form) {
	if t.Form != f {
		panic(fmt.Sprintf("survey: a table of form %d was asked for form %d", t.Form, f))
	}
}

// Points gives the points of a DistanceLevel table in the order of its rows.
func (t *Table) Points() []Point {
	t.form(DistanceLevel)
	out := make([]Point, len(t.Rows))
	for i, r := range t.Rows {
		out[i] = Point{Name: r.Name, X: *r.Values[Distance], Z: *r.Values[Level], Row: r.Line}
	}
	return out
}

// Shots gives the shots of a SlopeShots table; a grade is turned into its
// angle.
func (t *Table) Shots() []Shot {
	t.form(SlopeShots)
	out := make([]Shot, len(t.Rows))
	for i, r := range t.Rows {
		out[i].Slope = *r.Values[SlopeDist]
		if a := r.Values[Angle]; a != nil {
			out[i].Angle = *a
		} else {
			out[i].Angle = GradeAngle(*r.Values[Grade])
		}
	}
	return out
}

// Sights gives the sights of a StadiaSights table.
func (t *Table) Sights() []StadiaShot {
	t.form(StadiaSights)
	out := make([]StadiaShot, len(t.Rows))
	for i, r := range t.Rows {
		out[i] = StadiaShot{Upper: *r.Values[UpperHair], Mid: *r.Values[MidHair], Lower: *r.Values[LowerHair], Angle: *r.Values[Angle]}
	}
	return out
}

// Readings gives the rows of a LevelBook table.
func (t *Table) Readings() []Reading {
	t.form(LevelBook)
	out := make([]Reading, len(t.Rows))
	for i, r := range t.Rows {
		out[i] = Reading{Name: r.Name, BS: r.Values[Backsight], IS: r.Values[Between], FS: r.Values[Foresight]}
	}
	return out
}

// BookPoints gives the ground points of a LevelBook table: the rows that have
// a distance, each with its level from levels, which has one for every row
// (those of the reduced book or of its adjustment). Rows without a distance,
// such as bench marks, are no ground points.
func (t *Table) BookPoints(levels []float64) ([]Point, error) {
	t.form(LevelBook)
	if len(levels) != len(t.Rows) {
		return nil, fmt.Errorf("%d levels for %d rows", len(levels), len(t.Rows))
	}
	var out []Point
	for i, r := range t.Rows {
		if d := r.Values[Distance]; d != nil {
			out = append(out, Point{Name: r.Name, X: *d, Z: levels[i], Row: r.Line})
		}
	}
	return out, nil
}

// Start says where shots and sights begin.
type Start struct {
	At     model.Vec // distance and level of the ground there, m
	Eye    float64   // height of the instrument over the ground, m
	Target float64   // height of the mark sighted over the ground, m
	// Chained is true when each shot starts where the one before it ended.
	Chained bool
}

// Ground reduces a DistanceLevel, SlopeShots or StadiaSights table to points.
// The numbers of rows are kept, so that an Issue can name them.
func (t *Table) Ground(s Start, scope Telescope) (pts []Point, err error) {
	switch t.Form {
	case DistanceLevel:
		return t.Points(), nil
	case SlopeShots:
		if s.Chained {
			pts, err = Chain(s.At, t.Shots())
		} else {
			pts, err = Fan(s.At, s.Eye, s.Target, t.Shots())
		}
	case StadiaSights:
		pts, err = scope.Points(s.At, s.Eye, t.Sights())
	default:
		return nil, fmt.Errorf("a level book needs its first level: reduce it first")
	}
	if err != nil {
		return nil, err
	}
	for i, r := range t.Rows {
		pts[i+1].Name, pts[i+1].Row = r.Name, r.Line
	}
	return pts, nil
}
