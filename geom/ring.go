package geom

import "math"

// SignedArea is the area (m2) by the shoelace formula, positive for an
// anticlockwise ring, 0 for fewer than three points, NaN when a coordinate is
// not finite (clipping and Centroid refuse such a ring). Coordinates are taken
// from the first point, so that a far datum costs no digits.
func (r Ring) SignedArea() float64 {
	var sum float64
	for i := 2; i < len(r); i++ {
		sum += Cross(r[i-1].Sub(r[0]), r[i].Sub(r[0]))
	}
	return sum / 2
}

// Area is the area (m2) without sign.
func (r Ring) Area() float64 { return math.Abs(r.SignedArea()) }

// Centroid is the centre of area. ok is false for a ring without area (less
// than TolLength times its length) or with coordinates that are not finite.
func (r Ring) Centroid() (c Vec, ok bool) {
	a, m := r.moment()
	if !finite(a) || math.Abs(a) <= TolLength*r.Length() {
		return Vec{}, false
	}
	return r[0].Add(m.Mul(1 / a)), true
}

// moment is the signed area and its first moment about the first point.
func (r Ring) moment() (area float64, m Vec) {
	for i := 2; i < len(r); i++ {
		p, q := r[i-1].Sub(r[0]), r[i].Sub(r[0])
		c := Cross(p, q) / 2
		area += c
		m = m.Add(p.Add(q).Mul(c / 3))
	}
	return area, m
}

// Length is the perimeter (m).
func (r Ring) Length() float64 {
	if len(r) < 2 {
		return 0
	}
	return Polyline(r).Length() + dist(r[len(r)-1], r[0])
}

// Bounds is the smallest rectangle round the ring; see Polyline.Bounds.
func (r Ring) Bounds() Rect { return boundsOf(r) }

// Contains reports whether v lies inside by the even-odd rule. A point within
// TolLength of the boundary counts as inside. NaN is never inside.
func (r Ring) Contains(v Vec) bool {
	if len(r) < 3 || !FiniteVec(v) {
		return false
	}
	return r.OnBoundary(v) || r.crossings(v)
}

// OnBoundary reports whether v lies within TolLength of an edge.
func (r Ring) OnBoundary(v Vec) bool {
	for i := range r {
		a, b := r[i], r[(i+1)%len(r)]
		if !boxesMeet(a, b, v, v) {
			continue
		}
		if _, _, d := nearestOn(a, b, v); d <= TolLength {
			return true
		}
	}
	return false
}

// crossings is the even-odd test with a ray to +x; half-open edges count a
// vertex on the ray once.
func (r Ring) crossings(v Vec) (in bool) {
	for i := range r {
		a, b := r[i], r[(i+1)%len(r)]
		if (a[1] > v[1]) == (b[1] > v[1]) {
			continue
		}
		if v[0] < a[0]+(b[0]-a[0])*((v[1]-a[1])/(b[1]-a[1])) {
			in = !in
		}
	}
	return in
}

// Reversed is a copy that runs the other way, from the same first point.
func (r Ring) Reversed() Ring {
	out := make(Ring, len(r))
	for i, v := range r {
		out[(len(r)-i)%len(r)] = v
	}
	return out
}

// Oriented is r if it runs anticlockwise (ccw true) or clockwise (false), else
// its reverse. A ring without area is returned as it is.
func (r Ring) Oriented(ccw bool) Ring {
	if a := r.SignedArea(); a != 0 && (a > 0) != ccw {
		return r.Reversed()
	}
	return r
}

// IsSimple reports whether the ring has three points or more, all finite, no
// edge of no length, and no two edges that touch except neighbours at their
// common point.
func (r Ring) IsSimple() bool {
	n := len(r)
	if n < 3 {
		return false
	}
	for i := range r {
		if !FiniteVec(r[i]) || dist(r[i], r[(i+1)%n]) <= TolLength {
			return false
		}
	}
	for i := range r {
		for j := i + 1; j < n; j++ {
			if r.edgesClash(i, j) {
				return false
			}
		}
	}
	return true
}

func (r Ring) edgesClash(i, j int) bool {
	n := len(r)
	a, b, c, d := r[i], r[(i+1)%n], r[j], r[(j+1)%n]
	switch {
	case j == i+1: // share b == c: clash only when the second folds back
		return foldsBack(a, b, d)
	case (j+1)%n == i: // share d == a
		return foldsBack(c, d, b)
	}
	_, _, hits := segSeg(a, b, c, d)
	return hits > 0
}

// foldsBack reports whether the path a-b-c returns along itself.
func foldsBack(a, b, c Vec) bool {
	_, _, d1 := nearestOn(a, b, c)
	_, _, d2 := nearestOn(b, c, a)
	return d1 <= TolLength || d2 <= TolLength
}

// Translate is a copy moved by d.
func (r Ring) Translate(d Vec) Ring { return Ring(Polyline(r).Translate(d)) }

// Closed is the ring as a chain whose last point repeats the first.
func (r Ring) Closed() Polyline {
	if len(r) == 0 {
		return nil
	}
	return append(append(make(Polyline, 0, len(r)+1), r...), r[0])
}
