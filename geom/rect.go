package geom

import "math"

// boundsOf is the rectangle round points; zero for none or for NaN and Inf.
func boundsOf(vs []Vec) Rect {
	if len(vs) == 0 {
		return Rect{}
	}
	r := Rect{vs[0], vs[0]}
	for _, v := range vs {
		if !FiniteVec(v) {
			return Rect{}
		}
		for k := range 2 {
			r.Min[k], r.Max[k] = math.Min(r.Min[k], v[k]), math.Max(r.Max[k], v[k])
		}
	}
	return r
}

// W is the width (m); 0 for an empty rectangle.
func (r Rect) W() float64 { return r.span(0) }

// H is the height (m); 0 for an empty rectangle.
func (r Rect) H() float64 { return r.span(1) }

func (r Rect) span(k int) float64 {
	if r.Empty() {
		return 0
	}
	return r.Max[k] - r.Min[k]
}

// Empty reports whether r holds no more than one point: inverted, with NaN,
// or without both width and height. A rectangle round a level line has width
// and is not empty.
func (r Rect) Empty() bool {
	w, h := r.Max[0]-r.Min[0], r.Max[1]-r.Min[1]
	return !(w >= 0 && h >= 0 && w+h > 0)
}

// Center is the middle of the rectangle.
func (r Rect) Center() Vec { return lerp(r.Min, r.Max, 0.5) }

// Contains reports whether v lies in r or on its edge.
func (r Rect) Contains(v Vec) bool {
	return !r.Empty() && v[0] >= r.Min[0] && v[0] <= r.Max[0] && v[1] >= r.Min[1] && v[1] <= r.Max[1]
}

// Union is the smallest rectangle round both; an empty one adds nothing.
func (r Rect) Union(o Rect) Rect {
	switch {
	case o.Empty():
		return r
	case r.Empty():
		return o
	}
	return boundsOf([]Vec{r.Min, r.Max, o.Min, o.Max})
}

// Expand is r with every edge moved outward by d (m), inward for d < 0. It is
// the zero Rect when nothing remains or r is empty.
func (r Rect) Expand(d float64) Rect {
	if r.Empty() {
		return Rect{}
	}
	out := Rect{r.Min.Sub(Vec{d, d}), r.Max.Add(Vec{d, d})}
	if out.Empty() {
		return Rect{}
	}
	return out
}

// Overlaps reports whether the two share a point, edges included.
func (r Rect) Overlaps(o Rect) bool {
	return !r.Empty() && !o.Empty() &&
		r.Min[0] <= o.Max[0] && o.Min[0] <= r.Max[0] && r.Min[1] <= o.Max[1] && o.Min[1] <= r.Max[1]
}

// ToRing is the rectangle as an anticlockwise ring from its lower left corner;
// nil when r has no area.
func (r Rect) ToRing() Ring {
	if r.W() <= 0 || r.H() <= 0 {
		return nil
	}
	return Ring{r.Min, {r.Max[0], r.Min[1]}, r.Max, {r.Min[0], r.Max[1]}}
}

// ToRegion is the rectangle as a region; nil when r has no area.
func (r Rect) ToRegion() Region {
	ring := r.ToRing()
	if ring == nil {
		return nil
	}
	return Region{{Outer: ring}}
}
