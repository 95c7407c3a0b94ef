package survey

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"hillset/engine/model"
)

// Point is one reduced point of the ground.
type Point struct {
	Name string
	X, Z float64 // m
	Row  int     // row of the table it came from, from 1; 0 when it is typed
}

// Offer is what could be done about an Issue. Nothing is done unasked.
type Offer int

// The offers.
const (
	NoOffer     Offer = iota
	SortPoints        // put the points in the order of their distance
	DropRepeats       // keep the first of points at the same place
)

// Issue is a problem of a row of points with what could be done about it.
type Issue struct {
	model.Problem
	Offer Offer
}

// samePlace is the distance below which two points are the same one, m: finer
// than anybody reads a tape.
const samePlace = 1e-3

// GroundLine makes a ground line of reduced points. It does so only when their
// distances increase from point to point; otherwise it returns no line and
// says what is wrong with which points: points out of order (offer: SortPoints),
// the same point twice (offer: DropRepeats), two levels at one distance (no
// offer, as only the surveyor knows which is right), and numbers that are none.
func GroundLine(pts []Point) ([]model.Vec, []Issue) {
	var issues []Issue
	for i, p := range pts {
		if is, ok := issueAt(pts, i); ok {
			is.Field = fmt.Sprintf("site.ground[%d]", i)
			if p.Row > 0 {
				is.Text = fmt.Sprintf("row %d: %s", p.Row, is.Text)
			}
			is.Hard = true
			issues = append(issues, is)
		}
	}
	if len(pts) < 2 {
		issues = append(issues, Issue{Problem: model.Problem{Field: "site.ground", Value: fmt.Sprintf("%d points", len(pts)),
			Allowed: "2 points or more", Text: "are not a line"}})
	}
	if len(issues) > 0 {
		return nil, issues
	}
	line := make([]model.Vec, len(pts))
	for i, p := range pts {
		line[i] = model.Vec{p.X, p.Z}
	}
	return line, nil
}

// issueAt finds what is wrong with point i in its place.
func issueAt(pts []Point, i int) (Issue, bool) {
	p := pts[i]
	value := fmt.Sprintf("(%s, %s)", length(p.X), length(p.Z))
	if v := p.X + p.Z; math.IsNaN(v) || math.IsInf(v, 0) {
		return Issue{Problem: model.Problem{Value: value, Allowed: "numbers", Text: "is not a point"}}, true
	}
	if i == 0 || p.X > pts[i-1].X {
		return Issue{}, false
	}
	q := pts[i-1]
	pr := model.Problem{Value: value, Allowed: "a distance of more than " + length(q.X)}
	dx, dz := math.Abs(p.X-q.X), math.Abs(p.Z-q.Z)
	switch {
	case dx <= samePlace && dz <= samePlace:
		pr.Text = "repeats the point before it"
		return Issue{pr, DropRepeats}, true
	case dx == 0:
		pr.Text = "stands at the same distance as a point of level " + length(q.Z)
		return Issue{pr, NoOffer}, true
	}
	pr.Text = "lies before the point in front of it"
	return Issue{pr, SortPoints}, true
}

// Apply does what an Offer says and returns new points. The line may need
// another look by GroundLine: sorting can bring repeats together.
func Apply(pts []Point, o Offer) []Point {
	out := slices.Clone(pts)
	switch o {
	case SortPoints:
		slices.SortStableFunc(out, func(a, b Point) int { return cmp.Compare(a.X, b.X) })
	case DropRepeats:
		out = slices.CompactFunc(out, func(a, b Point) bool {
			return math.Abs(a.X-b.X) <= samePlace && math.Abs(a.Z-b.Z) <= samePlace
		})
	}
	return out
}
