package geom

import (
	"fmt"
	"math"
	"slices"
)

// MitreLimit is the largest ratio of a mitred corner's reach to the offset
// distance. 4 keeps a mitre at every corner blunter than 29 degrees, which
// covers the batters and kerbs of a section; a sharper one is cut square at
// the offset distance from the corner, so that nowhere the offset comes nearer
// than asked.
const MitreLimit = 4

// corner appends the joint of an outward corner at p: between the offset lines
// with unit normals n1, n2 and unit directions t1, t2, at distance d > 0 along
// the normals.
func corner(out []Vec, p, n1, n2, t1, t2 Vec, d float64) []Vec {
	c := n1.Dot(n2) // cosine of the turn
	// Reach of the mitre is d/cos(turn/2), and cos2(turn/2) = (1+c)/2.
	if h := (1 + c) / 2; h*MitreLimit*MitreLimit >= 1 {
		return append(out, p.Add(n1.Add(n2).Mul(d/(2*h))))
	}
	k := math.Tan(math.Acos(math.Max(-1, c)) / 4)
	return append(out, p.Add(n1.Add(t1.Mul(k)).Mul(d)), p.Add(n2.Sub(t2.Mul(k)).Mul(d)))
}

// OffsetRing is the region inside the ring moved outward by d (m), inward for
// d < 0; whatever way the ring runs. See OffsetRegion.
func OffsetRing(r Ring, d float64) (Region, error) { return OffsetRegion(r.ToRegion(), d) }

// OffsetRegion moves every boundary outward by d (m), inward for d < 0, so that
// holes shrink as the outside grows. Corners are mitred up to MitreLimit.
// Parts that meet are joined; what vanishes is left out, nil if all does. The
// result lies on the SnapGrid. Errors are those of Union, and a d that is not
// finite.
//
// A boundary moved out covers the region, a strip along every edge and a wedge
// at every outward corner; moved in, it loses them. Both are the points round
// which the raw offset curve winds positively if inward corners run through
// the corner itself, for then the curve's winding number is the region's plus
// (or less) one for every strip and wedge.
func OffsetRegion(r Region, d float64) (Region, error) {
	if !finite(d) {
		return nil, fmt.Errorf("offset %g is not finite", d)
	}
	clean, err := UnionAll(r)
	if err != nil || d == 0 {
		return clean, err
	}
	var c clipper
	for _, p := range clean {
		for _, ring := range p.Rings() {
			if err := c.addChain(0, offsetCurve(ring, d), false); err != nil {
				return nil, fmt.Errorf("offset by %g: %w", d, err)
			}
		}
	}
	if err := c.node(); err != nil {
		return nil, err
	}
	c.sweep()
	return c.collect(func(in, _ bool) bool { return in }), nil
}

// offsetCurve is the raw curve of a ring with its inside on the left, d to the
// right of it.
func offsetCurve(r Ring, d float64) Ring {
	n := len(r)
	out := make([]Vec, 0, 3*n)
	for i, p := range r {
		t1, _ := Unit(p.Sub(r[(i+n-1)%n]))
		t2, _ := Unit(r[(i+1)%n].Sub(p))
		n1, n2 := Vec{t1[1], -t1[0]}, Vec{t2[1], -t2[0]}
		if Cross(t1, t2)*d > 0 {
			side := math.Copysign(1, d)
			out = corner(out, p, n1.Mul(side), n2.Mul(side), t1, t2, math.Abs(d))
			continue
		}
		out = append(out, p.Add(n1.Mul(d)), p, p.Add(n2.Mul(d)))
	}
	return out
}

// OffsetPolyline is the line moved by d (m) to its left, to its right for
// d < 0 (a ground line drawn to the right moves up for d > 0). Corners are
// mitred up to MitreLimit; loops, and ends that would come nearer to the line
// than |d|, are removed. If the offset falls apart its longest part is given.
// It is nil when nothing remains, and for input that is not finite or has no
// length; for d = 0 it is a copy.
func OffsetPolyline(line Polyline, d float64) Polyline {
	line = distinct(line)
	if len(line) < 2 || !finite(d) || !allFinite(line) {
		return nil
	}
	if d == 0 {
		return line
	}
	if d < 0 {
		out := OffsetPolyline(line.Reversed(), -d)
		slices.Reverse(out)
		return out
	}
	raw := offsetChain(line, d)
	return longest(validPieces(raw, line, d))
}

// distinct is a copy without points that repeat their predecessor.
func distinct(p Polyline) Polyline {
	var out Polyline
	for _, v := range p {
		if n := len(out); n == 0 || !(dist(out[n-1], v) <= TolLength) {
			out = append(out, v)
		}
	}
	return out
}

// offsetChain is the raw chain d > 0 to the left, loops included.
func offsetChain(line Polyline, d float64) Polyline {
	var out []Vec
	var t1 Vec
	for i := 1; i < len(line); i++ {
		p := line[i-1]
		t2, _ := Unit(line[i].Sub(p))
		n1, n2 := LeftNormal(t1), LeftNormal(t2)
		switch {
		case i == 1:
			out = append(out, p.Add(n2.Mul(d)))
		case Cross(t1, t2) < 0 || t1.Dot(t2) < 0 && Cross(t1, t2) == 0:
			out = corner(out, p, n1, n2, t1, t2, d)
		default:
			out = append(out, p.Add(n1.Mul(d)), p.Add(n2.Mul(d)))
		}
		t1 = t2
	}
	return distinct(append(out, line[len(line)-1].Add(LeftNormal(t1).Mul(d))))
}

// validPieces cuts the raw chain where it meets itself or passes an end of the
// line at distance d, and keeps the pieces that are no nearer than d.
func validPieces(raw, line Polyline, d float64) []Segment {
	tol := offsetTol(d)
	var out []Segment
	var ts []float64
	for i := 1; i < len(raw); i++ {
		ts = append(ts[:0], 0, 1)
		for j := 1; j < len(raw); j++ {
			if j != i {
				ts = appendHits(ts, raw[i-1], raw[i], raw[j-1], raw[j])
			}
		}
		ts = circleCuts(ts, raw[i-1], raw[i], line[0], d)
		ts = circleCuts(ts, raw[i-1], raw[i], line[len(line)-1], d)
		slices.Sort(ts)
		for k := 1; k < len(ts); k++ {
			s := Segment{lerp(raw[i-1], raw[i], ts[k-1]), lerp(raw[i-1], raw[i], ts[k])}
			if dist(s.A, s.B) <= TolLength {
				continue
			}
			if _, _, _, far := line.Nearest(lerp(s.A, s.B, 0.5)); far >= d-tol {
				out = append(out, s)
			}
		}
	}
	return out
}

// offsetTol is how far a point at distance d may be computed short of it.
func offsetTol(d float64) float64 { return TolLength + TolRel*1e3*d }

// circleCuts adds the parameters where ab meets the circle of radius d at c.
func circleCuts(ts []float64, a, b, c Vec, d float64) []float64 {
	e, w := b.Sub(a), a.Sub(c)
	ee, ew := e.Dot(e), e.Dot(w)
	disc := ew*ew - ee*(w.Dot(w)-d*d)
	if !(disc > 0) {
		return ts
	}
	q := math.Sqrt(disc)
	for _, t := range [2]float64{(-ew - q) / ee, (-ew + q) / ee} {
		if t > 0 && t < 1 {
			ts = append(ts, t)
		}
	}
	return ts
}

// longest joins the pieces into chains and gives the longest. Where several
// pieces leave a point the last goes on, for the others are loops.
func longest(pieces []Segment) Polyline {
	var best Polyline
	used := make([]bool, len(pieces))
	for i := range pieces {
		if used[i] {
			continue
		}
		chain := Polyline{pieces[i].A}
		for k := i; k >= 0; k = successor(pieces, k) {
			used[k] = true
			chain = append(chain, pieces[k].B)
		}
		if chain.Length() > best.Length() {
			best = chain
		}
	}
	return dropCollinear(distinct(best))
}

func successor(pieces []Segment, k int) int {
	for j := len(pieces) - 1; j > k; j-- {
		if dist(pieces[j].A, pieces[k].B) <= 10*TolLength {
			return j
		}
	}
	return -1
}
