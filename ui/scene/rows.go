package scene

import (
	"math"
	"slices"

	"hillset/geom"
)

// scanner cuts a region into rows in one direction: the even-odd intervals
// along straight lines, from which hatches are laid. Rows are counted from
// the origin of the section, so that a hatch stays with the ground when the
// window moves.
type scanner struct {
	u, n  geom.Vec // along the rows, and across them
	edges [][2]geom.Vec
	lo    float64 // least and greatest distance across
	hi    float64
	hits  []float64
}

// load takes the rings of a region, turned so that rows are level.
func (s *scanner) load(r geom.Region, angle float64) {
	sin, cos := math.Sincos(angle)
	s.u, s.n = geom.Vec{cos, sin}, geom.Vec{-sin, cos}
	s.edges = s.edges[:0]
	s.lo, s.hi = math.Inf(1), math.Inf(-1)
	for _, p := range r {
		s.ring(p.Outer)
		for _, h := range p.Holes {
			s.ring(h)
		}
	}
}

func (s *scanner) ring(r geom.Ring) {
	for i, p := range r {
		q := r[(i+1)%len(r)]
		a := geom.Vec{p.Dot(s.u), p.Dot(s.n)}
		s.edges = append(s.edges, [2]geom.Vec{a, {q.Dot(s.u), q.Dot(s.n)}})
		s.lo, s.hi = math.Min(s.lo, a[1]), math.Max(s.hi, a[1])
	}
}

// cut gives the intervals at distance c across, as pairs of distances along.
// The result is only good until the next cut.
func (s *scanner) cut(c float64) []float64 {
	s.hits = s.hits[:0]
	for _, e := range s.edges {
		a, b := e[0], e[1]
		if (a[1] > c) != (b[1] > c) {
			s.hits = append(s.hits, a[0]+(b[0]-a[0])*(c-a[1])/(b[1]-a[1]))
		}
	}
	slices.Sort(s.hits)
	s.hits = mend(s.hits)
	return s.hits
}

// mend joins intervals that touch: polygons of one material side by side.
func mend(h []float64) []float64 {
	out := h[:0]
	for i, v := range h {
		if n := len(out); n > 0 && n%2 == 0 && i%2 == 0 && v-out[n-1] < geom.TolTouch {
			out = out[:n-1]
			continue
		}
		out = append(out, v)
	}
	return out
}

// within appends the intervals of a band of half height h round c: where all
// three of its middle line and its edges lie inside.
func (s *scanner) within(out []float64, c, h float64) []float64 {
	out = append(out[:0], s.cut(c)...)
	if h > 0 {
		out = narrow(out, s.cut(c-h))
		out = narrow(out, s.cut(c+h))
	}
	return out
}

// narrow keeps what two lists of disjoint ascending intervals share.
func narrow(a, b []float64) []float64 {
	var out []float64
	for i, j := 0, 0; i+1 < len(a) && j+1 < len(b); {
		lo, hi := math.Max(a[i], b[j]), math.Min(a[i+1], b[j+1])
		if lo < hi {
			out = append(out, lo, hi)
		}
		if a[i+1] < b[j+1] {
			i += 2
		} else {
			j += 2
		}
	}
	return out
}

// clipRing cuts a ring to a rectangle (Sutherland and Hodgman 1974). Parts
// that fall apart stay joined along the edge, which does no harm to a fill.
func clipRing(in geom.Ring, r geom.Rect) geom.Ring {
	out := in
	for side := range 4 {
		axis, keepAbove := side%2, side < 2
		limit := r.Max[axis]
		if keepAbove {
			limit = r.Min[axis]
		}
		out = clipSide(out, axis, limit, keepAbove)
	}
	return out
}

func clipSide(in geom.Ring, axis int, limit float64, above bool) geom.Ring {
	inside := func(p geom.Vec) bool { return p[axis] == limit || (p[axis] > limit) == above }
	all := true
	for _, p := range in {
		all = all && inside(p)
	}
	if all {
		return in
	}
	out := make(geom.Ring, 0, len(in)+4)
	for i, p := range in {
		q := in[(i+1)%len(in)]
		if inside(p) {
			out = append(out, p)
		}
		if inside(p) != inside(q) {
			t := (limit - p[axis]) / (q[axis] - p[axis])
			m := p.Add(q.Sub(p).Mul(t))
			m[axis] = limit
			out = append(out, m)
		}
	}
	return out
}

// clipRegion cuts every ring of a region to a rectangle, for filling.
func clipRegion(in geom.Region, r geom.Rect) geom.Region {
	out := make(geom.Region, 0, len(in))
	for _, p := range in {
		c := geom.Polygon{Outer: clipRing(p.Outer, r)}
		if len(c.Outer) < 3 {
			continue
		}
		for _, h := range p.Holes {
			if k := clipRing(h, r); len(k) >= 3 {
				c.Holes = append(c.Holes, k)
			}
		}
		out = append(out, c)
	}
	return out
}

// clipSegment cuts a segment to a rectangle (Liang and Barsky 1984).
func clipSegment(s geom.Segment, r geom.Rect) (geom.Segment, bool) {
	t0, t1 := 0.0, 1.0
	d := s.B.Sub(s.A)
	for axis := range 2 {
		c, h := (r.Min[axis]+r.Max[axis])/2, (r.Max[axis]-r.Min[axis])/2
		a := s.A[axis] - c
		if d[axis] == 0 {
			if math.Abs(a) > h {
				return s, false
			}
			continue
		}
		lo, hi := (-h-a)/d[axis], (h-a)/d[axis]
		t0, t1 = math.Max(t0, math.Min(lo, hi)), math.Min(t1, math.Max(lo, hi))
	}
	if t0 >= t1 {
		return s, false
	}
	return geom.Segment{A: s.A.Add(d.Mul(t0)), B: s.A.Add(d.Mul(t1))}, true
}

// clipLine cuts a chain to a rectangle; it may fall into several.
func clipLine(in geom.Polyline, r geom.Rect) []geom.Polyline {
	var out []geom.Polyline
	var run geom.Polyline
	for i := 1; i < len(in); i++ {
		s, ok := clipSegment(geom.Segment{A: in[i-1], B: in[i]}, r)
		if !ok {
			continue
		}
		if len(run) == 0 || run[len(run)-1] != s.A {
			if len(run) > 1 {
				out = append(out, run)
			}
			run = geom.Polyline{s.A}
		}
		run = append(run, s.B)
	}
	if len(run) > 1 {
		out = append(out, run)
	}
	return out
}
