package geom

import (
	"fmt"
	"math"
	"sort"
)

// Validate reports why p cannot serve as a line over distance: fewer than two
// points, a coordinate that is not finite, or an x that does not increase. The
// error names the index (from 0) and the values.
func (p Polyline) Validate() error {
	if len(p) < 2 {
		return fmt.Errorf("line has %d points, needs at least 2", len(p))
	}
	for i, v := range p {
		if !FiniteVec(v) {
			return fmt.Errorf("point %d (%g, %g) is not finite", i, v[0], v[1])
		}
		if i > 0 && v[0] <= p[i-1][0] {
			return fmt.Errorf("point %d: x %g must be greater than x %g of point %d", i, v[0], p[i-1][0], i-1)
		}
	}
	return nil
}

// At is the level of the line at distance x (m), by linear interpolation. p
// must be valid. ok is false outside the line's range (no extrapolation), for
// a line without points, for NaN, and where the level is not finite.
func (p Polyline) At(x float64) (z float64, ok bool) {
	i, ok := p.segment(x)
	if !ok {
		return 0, false
	}
	if z = p.on(i, x); !finite(z) {
		return 0, false
	}
	return z, true
}

// SlopeAt is dz/dx of the line at x, positive uphill with growing x. At an
// inner vertex it is the slope of the piece to the right, at the last point
// that of the piece to the left. ok is false where At has none.
func (p Polyline) SlopeAt(x float64) (slope float64, ok bool) {
	i, ok := p.segment(x)
	if !ok {
		return 0, false
	}
	a, b := p[i], p[i+1]
	if slope = (b[1] - a[1]) / (b[0] - a[0]); !finite(slope) {
		return 0, false
	}
	return slope, true
}

// segment is the index of the piece that holds x.
func (p Polyline) segment(x float64) (int, bool) {
	n := len(p)
	if n < 2 || !(x >= p[0][0] && x <= p[n-1][0]) {
		return 0, false
	}
	i := sort.Search(n, func(i int) bool { return p[i][0] > x }) - 1
	return min(i, n-2), true
}

// on is the level of piece i at x; exact at both of its ends.
func (p Polyline) on(i int, x float64) float64 {
	a, b := p[i], p[i+1]
	if x == b[0] {
		return b[1]
	}
	return a[1] + (b[1]-a[1])*((x-a[0])/(b[0]-a[0]))
}

// Bounds is the smallest rectangle round the points; the zero Rect for none,
// or when a coordinate is not finite.
func (p Polyline) Bounds() Rect { return boundsOf(p) }

// Length is the sum of the pieces' lengths (m); 0 for fewer than two points,
// NaN or infinite if a coordinate is.
func (p Polyline) Length() float64 {
	var l float64
	for i := 1; i < len(p); i++ {
		l += dist(p[i-1], p[i])
	}
	return l
}

// ClipX is the part of the line between x0 and x1, ends interpolated, in new
// memory. It is nil when the two share no range of positive width, an argument
// is NaN or p is not valid.
func (p Polyline) ClipX(x0, x1 float64) Polyline {
	n := len(p)
	if p.Validate() != nil {
		return nil
	}
	x0, x1 = math.Max(x0, p[0][0]), math.Min(x1, p[n-1][0])
	if !(x1 > x0) {
		return nil
	}
	i, _ := p.segment(x0)
	out := Polyline{{x0, p.on(i, x0)}}
	for i++; i < n && p[i][0] < x1; i++ {
		out = append(out, p[i])
	}
	return append(out, Vec{x1, p.on(i-1, x1)})
}

// Insert is a copy of p with v added at its place by x; a point whose x is
// within TolLength of v's is replaced. It fails on a v that is not finite.
func (p Polyline) Insert(v Vec) (Polyline, error) {
	if !FiniteVec(v) {
		return nil, fmt.Errorf("point (%g, %g) is not finite", v[0], v[1])
	}
	i := sort.Search(len(p), func(i int) bool { return p[i][0] >= v[0]-TolLength })
	out := make(Polyline, 0, len(p)+1)
	out = append(append(out, p[:i]...), v)
	if i < len(p) && p[i][0] <= v[0]+TolLength {
		i++
	}
	return append(out, p[i:]...), nil
}

// Simplify is a copy of p without the points that lie within tol (m) of the
// line through the points kept (Ramer 1972, Douglas and Peucker 1973). The
// ends are always kept; tol < 0 or NaN, or a point that is not finite, keeps
// all.
func (p Polyline) Simplify(tol float64) Polyline {
	if len(p) < 3 || !(tol >= 0) || !allFinite(p) {
		return append(Polyline(nil), p...)
	}
	keep := make([]bool, len(p))
	keep[0], keep[len(p)-1] = true, true
	p.mark(keep, 0, len(p)-1, tol)
	var out Polyline
	for i, k := range keep {
		if k {
			out = append(out, p[i])
		}
	}
	return out
}

func (p Polyline) mark(keep []bool, lo, hi int, tol float64) {
	far, at := tol, -1
	for i := lo + 1; i < hi; i++ {
		_, _, d := nearestOn(p[lo], p[hi], p[i])
		if d > far {
			far, at = d, i
		}
	}
	if at < 0 {
		return
	}
	keep[at] = true
	p.mark(keep, lo, at, tol)
	p.mark(keep, at, hi, tol)
}

// Nearest is the point of the line closest to q: on the piece from point
// index to index+1 at parameter t in 0..1, at distance d (m). A single point
// is its own nearest with index 0. For no finite points, or a q that is not finite,
// index is -1 and d is +Inf.
func (p Polyline) Nearest(q Vec) (index int, t float64, at Vec, d float64) {
	index, d = -1, math.Inf(1)
	if !FiniteVec(q) {
		return index, 0, Vec{}, d
	}
	if len(p) == 1 && FiniteVec(p[0]) {
		return 0, 0, p[0], dist(p[0], q)
	}
	for i := 1; i < len(p); i++ {
		ti, pi, di := nearestOn(p[i-1], p[i], q)
		if di < d {
			index, t, at, d = i-1, ti, pi, di
		}
	}
	return index, t, at, d
}

// nearestOn is the point of segment ab closest to q.
func nearestOn(a, b, q Vec) (t float64, at Vec, d float64) {
	ab := b.Sub(a)
	if l2 := ab.Dot(ab); l2 > 0 {
		t = math.Min(1, math.Max(0, q.Sub(a).Dot(ab)/l2))
	}
	at = lerp(a, b, t)
	return t, at, dist(at, q)
}

// Reversed is a copy with the points in the other order.
func (p Polyline) Reversed() Polyline {
	out := make(Polyline, len(p))
	for i, v := range p {
		out[len(p)-1-i] = v
	}
	return out
}

// Translate is a copy moved by d.
func (p Polyline) Translate(d Vec) Polyline {
	out := make(Polyline, len(p))
	for i, v := range p {
		out[i] = v.Add(d)
	}
	return out
}
