package sketch

import (
	"math"

	"hillset/geom"
)

// Target is something a point can be drawn to, with the reason shown to the
// user.
type Target struct {
	Why string
	// Kind decides what is held: both coordinates, one of them or a line.
	Kind TargetKind
	At   geom.Vec // the point; its level or its distance alone may count
	B    geom.Vec // far end of a LineTarget that starts at At
	Weak bool     // reaches half as far: there are many of its kind
}

// reach is how far the target draws, m.
func (t *Target) reach(tol float64) float64 {
	if t.Weak {
		return tol / 2
	}
	return tol
}

// TargetKind says what of a target holds a point.
type TargetKind int

// The kinds, the strongest first.
const (
	PointTarget TargetKind = iota // both coordinates
	LevelTarget                   // the level
	PlumbTarget                   // the distance along the section
	LineTarget                    // anywhere on the line from At to B
)

// SnapInput is what decides where a point goes.
type SnapInput struct {
	At      geom.Vec
	Axis    Axis    // what of the point is free
	Tol     float64 // how far a target reaches, m
	Grid    float64 // round step of both coordinates, m; 0 for none
	Targets []Target
	Off     bool // the user holds snapping off
}

// Snapped is where a point went, and why.
type Snapped struct {
	At  geom.Vec
	Why string // empty where nothing held it
	// Guides are targets whose level or distance holds the point from afar.
	Guides []geom.Vec
}

// Snap draws a point to the nearest target within reach: first to points, then
// to levels and distances, then to lines, last to the grid. A coordinate that
// the axis holds fast is never changed.
func Snap(in SnapInput) Snapped {
	out := Snapped{At: in.At}
	if in.Off {
		out.At = tidy(out.At, [2]bool{!in.free(0), !in.free(1)})
		return out
	}
	if in.Axis == Free {
		if t, ok := nearestPoint(in); ok {
			return Snapped{At: t.At, Why: t.Why}
		}
	}
	var held [2]bool
	for k, kind := range [2]TargetKind{PlumbTarget, LevelTarget} {
		if !in.free(k) {
			held[k] = true
			continue
		}
		if t, ok := nearestAlong(in, k, kind); ok {
			out.At[k], held[k] = t.At[k], true
			out.Guides = append(out.Guides, t.At)
			out.Why = also(out.Why, t.Why)
		}
	}
	if at, why, ok := onLine(in, out.At, held); ok {
		out.At, out.Why = at, also(out.Why, why)
		return out
	}
	return toGrid(in, out, held)
}

// free says whether coordinate k may change.
func (in *SnapInput) free(k int) bool {
	return in.Axis == Free || k == 0 && in.Axis == Horizontal || k == 1 && in.Axis == Vertical
}

func also(a, b string) string {
	if a == "" {
		return b
	}
	return a + ", " + b
}

func nearestPoint(in SnapInput) (Target, bool) {
	best, found := in.Tol, false
	var out Target
	for _, t := range in.Targets {
		if d := t.At.Sub(in.At).Len(); t.Kind == PointTarget && d <= best {
			best, out, found = d, t, true
		}
	}
	return out, found
}

// nearestAlong is the target that holds coordinate k: one of the given kind or
// a point, which can be met in one coordinate too.
func nearestAlong(in SnapInput, k int, kind TargetKind) (Target, bool) {
	best, found := in.Tol, false
	var out Target
	for _, t := range in.Targets {
		if t.Kind != kind && (t.Kind != PointTarget || in.Axis == Free) {
			continue
		}
		d := math.Abs(t.At[k] - in.At[k])
		if d <= t.reach(in.Tol) && (d < best || d == best && !found) {
			best, out, found = d, t, true
		}
	}
	return out, found
}

// onLine moves the coordinate that is still free onto the nearest line.
func onLine(in SnapInput, at geom.Vec, held [2]bool) (geom.Vec, string, bool) {
	best, found := in.Tol, false
	out, why := at, ""
	for _, t := range in.Targets {
		if t.Kind != LineTarget {
			continue
		}
		q, ok := meet(t, at, held)
		if !ok {
			continue
		}
		if d := q.Sub(in.At).Len(); d <= best && d <= t.reach(in.Tol) {
			best, out, why, found = d, q, t.Why, true
		}
	}
	return out, why, found
}

// meet is the point of a line nearest to at that keeps what is held.
func meet(t Target, at geom.Vec, held [2]bool) (geom.Vec, bool) {
	d := t.B.Sub(t.At)
	var s float64
	switch {
	case held[0] && held[1] || d.Len() == 0:
		return at, false
	case held[0]:
		s = (at[0] - t.At[0]) / d[0]
	case held[1]:
		s = (at[1] - t.At[1]) / d[1]
	default:
		s = at.Sub(t.At).Dot(d) / d.Dot(d)
	}
	if !(s >= 0 && s <= 1) {
		return at, false
	}
	return t.At.Add(d.Mul(s)), true
}

func toGrid(in SnapInput, out Snapped, held [2]bool) Snapped {
	out.At = tidy(out.At, held)
	if in.Grid <= 0 {
		return out
	}
	moved := false
	for k := 0; k < 2; k++ {
		if held[k] {
			continue
		}
		r := round(out.At[k], in.Grid)
		if math.Abs(r-out.At[k]) <= in.Tol {
			out.At[k], moved = r, true
		}
	}
	if moved {
		out.Why = also(out.Why, "grid")
	}
	return out
}

// fine is the step to which places of the pointer are stored, m: a tenth of a
// millimetre, so that the file holds short numbers.
const fine = 1e-4

// tidy rounds the coordinates that are not held to the fine step.
func tidy(at geom.Vec, held [2]bool) geom.Vec {
	for k := range at {
		if !held[k] {
			at[k] = round(at[k], fine)
		}
	}
	return at
}

// round takes v to a multiple of step, written with as few decimals as the
// step needs (0.6, not 0.6000000000000001).
func round(v, step float64) float64 {
	const digits = 1e9
	r := math.Round(math.Round(v/step)*step*digits) / digits
	return r + 0 // turns -0 into 0
}
