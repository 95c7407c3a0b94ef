package box

import (
	"math"

	"hillset/engine/frame"
	"hillset/engine/quantity"
)

// Across is a metre of a roof on posts that spans one way between two edge
// beams, pinned on both.
type Across struct {
	Span float64 // m
	// Even are the loads spread evenly, kPa: dead load, live load and snow.
	Even Effects
	// Wheels are live loads as they lie across the span, kPa.
	Wheels frame.Load
}

// AcrossResult is what comes out of such a strip; forces are those of a metre.
type AcrossResult struct {
	M, V         Pair  // kNm/m; kN/m, also what an edge beam gets
	MCase, VCase Cases // combinations that gave them
}

// Solve takes the largest effects of all combinations; wheels are put on
// together with the even load, as the two bend most in different places.
func (a Across) Solve() (AcrossResult, error) {
	var r AcrossResult
	for _, err := range []error{
		quantity.Within("span across the roof", a.Span, 0.5, 8, quantity.Length),
		quantity.Range("dead load on the roof on posts", a.Even.D, 0, 1e4),
		quantity.Range("live load on the roof on posts", a.Even.L, 0, 1e4),
		quantity.Range("snow on the roof on posts", a.Even.S, 0, 1e3),
	} {
		if err != nil {
			return r, err
		}
	}
	wheels, err := frame.Simple(a.Span, a.Wheels, 1)
	if err != nil {
		return r, err
	}
	edge := math.Max(wheels.Ra, wheels.Rb)
	for k, combos := range [2][]Combo{Allowable, Strength} {
		for _, c := range combos {
			q := c.Of(a.Even)
			m, v := q*a.Span*a.Span/8, q*a.Span/2+c.L*edge
			if c.L > 0 && len(a.Wheels) > 0 {
				b, err := frame.Simple(a.Span, frame.Add(frame.Uniform(q, a.Span), a.Wheels.Scale(c.L)), 1)
				if err != nil {
					return r, err
				}
				m = b.MMax
			}
			if k == 0 {
				keep(&r.M.ASD, &r.MCase.ASD, m, c.Name)
				keep(&r.V.ASD, &r.VCase.ASD, v, c.Name)
				continue
			}
			keep(&r.M.LRFD, &r.MCase.LRFD, m, c.Name)
			keep(&r.V.LRFD, &r.VCase.LRFD, v, c.Name)
		}
	}
	return r, nil
}

// keep takes a larger effect with the name of its combination.
func keep(most *float64, name *string, v float64, of string) {
	if *name == "" || v > *most {
		*most, *name = v, of
	}
}

// AsLine is the even load that bends and shears a beam across at least as much
// as the strip does, kPa.
func (r *AcrossResult) AsLine(span float64) Pair {
	return Pair{math.Max(8*r.M.ASD/(span*span), 2*r.V.ASD/span), math.Max(8*r.M.LRFD/(span*span), 2*r.V.LRFD/span)}
}
