package geom

import "math"

// sample is a station at which two lines are compared: every vertex of either
// and every crossing, so that between neighbours both are straight and their
// difference keeps its sign.
type sample struct{ x, a, b float64 }

// compare merges the stations of two monotone lines over their common range
// within x0..x1. It is nil when a line is invalid or no width is shared.
func compare(a, b Polyline, x0, x1 float64) []sample {
	if a.Validate() != nil || b.Validate() != nil {
		return nil
	}
	x0 = math.Max(x0, math.Max(a[0][0], b[0][0]))
	x1 = math.Min(x1, math.Min(a[len(a)-1][0], b[len(b)-1][0]))
	if !(x1 > x0) {
		return nil
	}
	i, _ := a.segment(x0)
	j, _ := b.segment(x0)
	out := make([]sample, 1, len(a)+len(b)+4)
	out[0] = sample{x0, a.on(i, x0), b.on(j, x0)}
	for x := x0; x < x1; {
		x = math.Min(x1, math.Min(a[i+1][0], b[j+1][0]))
		out = appendCrossed(out, sample{x, a.on(i, x), b.on(j, x)})
		if x == a[i+1][0] {
			i++
		}
		if x == b[j+1][0] {
			j++
		}
	}
	return out
}

// appendCrossed adds s, and before it the crossing if the lines change sides.
func appendCrossed(out []sample, s sample) []sample {
	p := out[len(out)-1]
	d0, d1 := p.a-p.b, s.a-s.b
	if (d0 < 0 && d1 > 0) || (d0 > 0 && d1 < 0) {
		t := d0 / (d0 - d1)
		x, z := p.x+(s.x-p.x)*t, p.a+(s.a-p.a)*t
		if x > p.x && x < s.x {
			out = append(out, sample{x, z, z})
		}
	}
	return append(out, s)
}

// Lower is the lower of two monotone lines over their common range of x, with
// a vertex at every crossing. It is nil when a line is invalid or the ranges
// share no width.
func Lower(a, b Polyline) Polyline { return envelope(a, b, math.Min) }

// Upper is the higher of two monotone lines; otherwise as Lower.
func Upper(a, b Polyline) Polyline { return envelope(a, b, math.Max) }

func envelope(a, b Polyline, pick func(x, y float64) float64) Polyline {
	var out Polyline
	for _, s := range compare(a, b, math.Inf(-1), math.Inf(1)) {
		out = append(out, Vec{s.x, pick(s.a, s.b)})
	}
	return dropCollinear(out)
}

// dropCollinear removes the inner points that lie on the straight line between
// the last point kept and the next one to within TolLength.
func dropCollinear(p Polyline) Polyline {
	if len(p) < 3 {
		return p
	}
	out := p[:1]
	for i := 1; i < len(p)-1; i++ {
		if _, _, d := nearestOn(out[len(out)-1], p[i+1], p[i]); d > TolLength {
			out = append(out, p[i])
		}
	}
	return append(out, p[len(p)-1])
}

// CrossAbove reports whether line b rises above line a by more than TolTouch
// anywhere in their common range, and the x (m) where it does so most. Lines
// that touch or run together (a stratum that pinches out) do not cross. It is
// false when a line is invalid or no range is shared.
func CrossAbove(a, b Polyline) (x float64, crossed bool) {
	most := TolTouch
	for _, s := range compare(a, b, math.Inf(-1), math.Inf(1)) {
		if d := s.b - s.a; d > most {
			x, most, crossed = s.x, d, true
		}
	}
	return x, crossed
}

// Between is the region between x0 and x1 where upper lies above lower, over
// their common range. Stretches no thicker than TolLength are left out and part
// the region into several polygons. It is nil when nothing remains or a line
// is invalid or a limit NaN.
func Between(upper, lower Polyline, x0, x1 float64) Region {
	ss := compare(upper, lower, x0, x1)
	var out Region
	start := 0
	for i := 1; i < len(ss); i++ {
		if open(ss[i]) && i < len(ss)-1 {
			continue
		}
		if open(ss[start]) || open(ss[i]) || i-start > 1 {
			if r := strip(upper, lower, ss[start].x, ss[i].x); r != nil {
				out = append(out, Polygon{Outer: r})
			}
		}
		start = i
	}
	return out
}

func open(s sample) bool { return s.a-s.b > TolLength }

// strip is the ring between two lines that do not cross between x0 and x1; where
// they meet at an end, that end is one point.
func strip(upper, lower Polyline, x0, x1 float64) Ring {
	bot, top := lower.ClipX(x0, x1), upper.ClipX(x0, x1).Reversed()
	if len(bot) < 2 || len(top) < 2 {
		return nil
	}
	if n := len(top) - 1; top[n][1]-bot[0][1] <= TolLength {
		top = top[:n]
	}
	if top[0][1]-bot[len(bot)-1][1] <= TolLength {
		top = top[1:]
	}
	if len(top)+len(bot) < 3 {
		return nil
	}
	return append(append(make(Ring, 0, len(bot)+len(top)), bot...), top...)
}

// AreaBetween is the area (m2) between x0 and x1 where upper lies above lower,
// exact for straight pieces; where upper is below, nothing is taken off. It is
// 0 when Between is nil.
func AreaBetween(upper, lower Polyline, x0, x1 float64) float64 {
	ss := compare(upper, lower, x0, x1)
	var sum float64
	for i := 1; i < len(ss); i++ {
		d0 := math.Max(0, ss[i-1].a-ss[i-1].b)
		d1 := math.Max(0, ss[i].a-ss[i].b)
		sum += (d0 + d1) / 2 * (ss[i].x - ss[i-1].x)
	}
	return sum
}
