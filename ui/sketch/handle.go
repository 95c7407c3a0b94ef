package sketch

import (
	"fmt"
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/geom"
)

// Axis says which way a handle can be moved.
type Axis int

// The ways.
const (
	Free       Axis = iota // anywhere in the section
	Horizontal             // along the section only
	Vertical               // up and down only
)

// Value is one number that a handle stands for. Numbers are SI.
type Value struct {
	Label string
	Kind  quantity.Kind
	Now   float64
	set   func(p *model.Project, v float64) error
}

// Set stores v in the project.
func (v Value) Set(p *model.Project, val float64) error {
	if math.IsNaN(val) || math.IsInf(val, 0) {
		return model.Problem{Field: v.Label, Value: fmt.Sprint(val), Allowed: "a finite number", Text: "is not a number", Hard: true}
	}
	return v.set(p, val)
}

// Handle is something of the drawing that can be taken hold of: moved by
// pointer or keys, typed, sometimes removed.
type Handle struct {
	ID    string // path of what it changes, e.g. "site.ground[3]"
	Label string // in words, e.g. "Ground point 4"
	At    geom.Vec
	Axis  Axis
	// Values are the numbers shown while it is moved and offered for typing.
	Values []Value
	// value gives the number that a place stands for, for handles of one
	// number; nil for handles of a free point.
	value func(to geom.Vec) (float64, error)
	// reach is how far the handle moves per unit of its number, m.
	reach float64
	// move puts a free point in its place.
	move   func(p *model.Project, to geom.Vec) error
	remove func(p *model.Project) error
	level  bool // a level: shown with a short line through it
	body   bool // the box: its whole area takes hold of it
}

// Apply moves the handle to a place: one along its axis, whatever the other
// coordinate of to is. The error is a model.Problem where the place cannot be.
func (h *Handle) Apply(p *model.Project, to geom.Vec) error {
	if math.IsNaN(to[0]+to[1]) || math.IsInf(to[0]+to[1], 0) {
		return model.Problem{Field: h.ID, Value: fmt.Sprint(to), Allowed: "a place in the section", Text: "is not a place", Hard: true}
	}
	to = h.along(to)
	if h.value == nil {
		return h.move(p, to)
	}
	v, err := h.value(to)
	if err != nil {
		return err
	}
	return h.Values[0].Set(p, v)
}

// along takes the part of a place that the axis of the handle leaves free.
func (h *Handle) along(to geom.Vec) geom.Vec {
	switch h.Axis {
	case Horizontal:
		to[1] = h.At[1]
	case Vertical:
		to[0] = h.At[0]
	}
	return to
}

// Removable says whether the handle can be deleted.
func (h *Handle) Removable() bool { return h.remove != nil }

// Remove deletes what the handle stands for.
func (h *Handle) Remove(p *model.Project) error {
	if h.remove == nil {
		return model.Problem{Field: h.ID, Value: h.Label, Allowed: "points of lines and observed water levels", Text: "cannot be removed"}
	}
	return h.remove(p)
}

// step is the round step of a number, in its SI unit; grid is that of lengths.
func (h *Handle) step(grid float64) float64 {
	switch h.Values[0].Kind {
	case quantity.Slope:
		return 0.25 // batters are spoken of in quarters
	case quantity.Gradient:
		return 0.01
	}
	return grid
}

// scalar makes a handle of one number that is stored where field points.
func scalar(id, label string, at geom.Vec, axis Axis, kind quantity.Kind, now float64,
	field func(*model.Project) *float64, value func(geom.Vec) (float64, error)) Handle {
	return Handle{ID: id, Label: label, At: at, Axis: axis, value: value, reach: 1,
		Values: []Value{{Label: label, Kind: kind, Now: now,
			set: func(p *model.Project, v float64) error { *field(p) = v; return nil }}}}
}

// length is the common case of a scalar: a distance that is sign times the
// offset of the handle from base along its axis.
func length(id, label string, at geom.Vec, axis Axis, base, sign, now float64, field func(*model.Project) *float64) Handle {
	k := 0
	if axis == Vertical {
		k = 1
	}
	return scalar(id, label, at, axis, quantity.Length, now, field, func(to geom.Vec) (float64, error) {
		return sign * (to[k] - base), nil
	})
}

// pointValues are the two numbers of a free point.
func pointValues(at geom.Vec, move func(*model.Project, geom.Vec) error) []Value {
	return []Value{
		{Label: "Distance", Kind: quantity.Length, Now: at[0], set: func(p *model.Project, v float64) error { return move(p, geom.Vec{v, at[1]}) }},
		{Label: "Level", Kind: quantity.Length, Now: at[1], set: func(p *model.Project, v float64) error { return move(p, geom.Vec{at[0], v}) }},
	}
}

// runOverRise is the H:V of a face from foot to top; dir is +1 where it runs
// to the right.
func runOverRise(field string, foot, top geom.Vec, dir float64) (float64, error) {
	rise := top[1] - foot[1]
	if rise < minRise {
		return 0, model.Problem{Field: field, Value: "rise " + quantity.Text(rise, quantity.Length),
			Allowed: "at least " + quantity.Ceil.Text(minRise, quantity.Length), Text: "the face has no height here"}
	}
	n := dir * (top[0] - foot[0]) / rise
	if n < 0 {
		return 0, model.Problem{Field: field, Value: fmt.Sprintf("%.2f H:V", n), Allowed: "0 (upright) or more",
			Text: "the face would overhang"}
	}
	return n, nil
}

// minRise is the least height over which a slope is measured, m: below a
// centimetre the pointer decides nothing.
const minRise = 0.01
