// Package frame solves beams and plane frames: exact statics of a span under
// loads that vary piecewise linearly, beams over several supports, and a
// stiffness solver for frames with sway, releases, springs and second-order
// effects.
//
// Units are m, kN and rad; everything may also be read per metre of wall.
// A member runs from its start to its end; its face is the side to the left
// of that direction (local +y). A positive load pushes towards the face, a
// positive deflection goes that way, and a positive moment puts tension on it.
// For a wall walked with the room on the left, that is: pressure inward,
// moment positive with tension inside.
package frame

import (
	"fmt"
	"math"
	"sort"

	"hillset/engine/quantity"
)

// LoadPoint is the intensity P at the place S along a member.
type LoadPoint struct {
	S float64 // m from the start
	P float64 // kN/m
}

// Load is a line load, linear between neighbouring points and zero outside
// them. S must not fall; a repeated S is a jump.
type Load []LoadPoint

// Uniform is the load p over the whole length l.
func Uniform(p, l float64) Load { return Load{{0, p}, {l, p}} }

// Linear is the load that goes from p0 at the start to p1 at the length l.
func Linear(p0, p1, l float64) Load { return Load{{0, p0}, {l, p1}} }

// placeTol is how far a load point may stand outside its member, as a share of
// the length: what rounding of levels can leave.
const placeTol = 1e-9

// maxIntensity bounds loads to what cannot overflow further on, kN/m.
const maxIntensity = 1e9

// Check refuses loads that are not finite, whose places fall, or that stand
// outside a member of length l.
func (ld Load) Check(l float64) error {
	if err := quantity.Range("length L", l, 1e-3, 1e4); err != nil {
		return err
	}
	last := math.Inf(-1)
	for k, p := range ld {
		lo, hi := max(last, -placeTol*l), l*(1+placeTol)
		if !(p.S >= lo && p.S <= hi) {
			return quantity.Range(fmt.Sprintf("place of load point %d", k), p.S, lo, hi)
		}
		if !(math.Abs(p.P) <= maxIntensity) {
			return quantity.Range(fmt.Sprintf("intensity of load point %d", k), p.P, -maxIntensity, maxIntensity)
		}
		last = p.S
	}
	return nil
}

// Scale multiplies the load by k.
func (ld Load) Scale(k float64) Load {
	out := make(Load, len(ld))
	for i, p := range ld {
		out[i] = LoadPoint{p.S, p.P * k}
	}
	return out
}

// Total is the resultant, and at is where it acts, m from the start (NaN where
// the resultant is zero).
func (ld Load) Total() (total, at float64) {
	first := 0.0
	for k := 1; k < len(ld); k++ {
		a, b := ld[k-1], ld[k]
		d := b.S - a.S
		total += d * (a.P + b.P) / 2
		first += d * (a.P*(2*a.S+b.S) + b.P*(a.S+2*b.S)) / 6
	}
	if total == 0 {
		return 0, math.NaN()
	}
	return total, first / total
}

// At is the intensity just before and just after s.
func (ld Load) At(s float64) (before, after float64) {
	return ld.from(s, -1), ld.from(s, 1)
}

// from is the intensity at s seen from the side d (-1 before, 1 after).
func (ld Load) from(s float64, d int) float64 {
	for k := 1; k < len(ld); k++ {
		a, b := ld[k-1], ld[k]
		if b.S == a.S || s < a.S || s > b.S || (s == a.S && d < 0) || (s == b.S && d > 0) {
			continue
		}
		return a.P + (b.P-a.P)*(s-a.S)/(b.S-a.S)
	}
	return 0
}

// Clip is the part of the load between s0 and s1, measured from s0.
func (ld Load) Clip(s0, s1 float64) Load { return ld.clip(nil, s0, s1) }

// clip adds the points of Clip to out, which holds nothing of another load.
func (ld Load) clip(out Load, s0, s1 float64) Load {
	for k := 1; k < len(ld); k++ {
		a, b := ld[k-1], ld[k]
		lo, hi := max(a.S, s0), min(b.S, s1)
		if hi <= lo {
			continue
		}
		slope := (b.P - a.P) / (b.S - a.S)
		from, to := LoadPoint{lo - s0, a.P + slope*(lo-a.S)}, LoadPoint{hi - s0, b.P - slope*(b.S-hi)}
		if n := len(out); n == 0 || out[n-1] != from {
			out = append(out, from)
		}
		out = append(out, to)
	}
	return out
}

// Add is the sum of the loads.
func Add(loads ...Load) Load {
	var some []Load
	count := 0
	for _, ld := range loads {
		if len(ld) > 0 {
			some = append(some, ld)
			count += len(ld)
		}
	}
	if out, ok := addAlike(some); ok {
		return out
	}
	places := make([]float64, 0, count)
	for _, ld := range some {
		for _, p := range ld {
			places = append(places, p.S)
		}
	}
	sort.Float64s(places)
	var out Load
	for k := 1; k < len(places); k++ {
		a, b := places[k-1], places[k]
		if a == b {
			continue
		}
		pa, pb := 0.0, 0.0
		for _, ld := range some {
			pa += ld.from(a, 1)
			pb += ld.from(b, -1)
		}
		out = append(out, LoadPoint{a, pa}, LoadPoint{b, pb})
	}
	return out
}

// addAlike adds loads that have the same places, the common case.
func addAlike(loads []Load) (Load, bool) {
	if len(loads) == 0 {
		return nil, true
	}
	out := loads[0].Scale(1)
	for _, ld := range loads[1:] {
		if len(ld) != len(out) {
			return nil, false
		}
		for k, p := range ld {
			if p.S != out[k].S {
				return nil, false
			}
			out[k].P += p.P
		}
	}
	return out, true
}

// Plus is the sum of ld and k times o. It may change ld: where the places are
// the same the sum is made in its memory, and so is the first load added to an
// emptied one (ld[:0]).
func (ld Load) Plus(o Load, k float64) Load {
	if len(ld) == 0 {
		for _, p := range o {
			ld = append(ld, LoadPoint{p.S, p.P * k})
		}
		return ld
	}
	for i, p := range o {
		if len(o) != len(ld) || p.S != ld[i].S {
			return Add(ld, o.Scale(k))
		}
	}
	for i, p := range o {
		ld[i].P += p.P * k
	}
	return ld
}

// Turned is the load seen from the other end of a member of length l.
func (ld Load) Turned(l float64) Load {
	out := make(Load, len(ld))
	for k, p := range ld {
		out[len(ld)-1-k] = LoadPoint{l - p.S, p.P}
	}
	return out
}
