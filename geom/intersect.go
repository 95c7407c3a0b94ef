package geom

import (
	"math"
	"sort"
)

// Intersections are the points that two chains share, in order along a; the
// chains need not be monotone. Touching counts. Where pieces overlap along a
// length, the two ends of the overlap are given. Points closer than TolLength
// are reported once. Pieces with coordinates that are not finite meet nothing.
func Intersections(a, b Polyline) []Vec {
	type hit struct {
		s float64
		v Vec
	}
	var hits []hit
	var ts []float64
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			for _, t := range appendHits(ts[:0], a[i-1], a[i], b[j-1], b[j]) {
				hits = append(hits, hit{float64(i) + t, lerp(a[i-1], a[i], t)})
			}
		}
	}
	sort.Slice(hits, func(i, j int) bool { return hits[i].s < hits[j].s })
	var out []Vec
	for _, h := range hits {
		if n := len(out); n == 0 || dist(out[n-1], h.v) > TolLength {
			out = append(out, h.v)
		}
	}
	return out
}

// appendHits adds the parameters on pq of its common points with rs to ts.
func appendHits(ts []float64, p, q, r, s Vec) []float64 {
	switch t0, t1, n := segSeg(p, q, r, s); n {
	case 1:
		return append(ts, t0)
	case 2:
		return append(ts, t0, t1)
	}
	return ts
}

// segSeg gives the parameters on pq of its common points with rs: none, one,
// or the two ends of an overlap.
func segSeg(p, q, r, s Vec) (t0, t1 float64, n int) {
	if !boxesMeet(p, q, r, s) {
		return 0, 0, 0
	}
	d, e := q.Sub(p), s.Sub(r)
	ld, le := math.Hypot(d[0], d[1]), math.Hypot(e[0], e[1])
	den := Cross(d, e)
	// Below this angle the far ends stray less than TolLength from parallel.
	if math.Abs(den) <= TolLength*math.Max(ld, le) {
		return overlap(p, d, ld, r, s)
	}
	w := r.Sub(p)
	t, u := Cross(w, e)/den, Cross(w, d)/den
	if !within01(t, ld) || !within01(u, le) {
		return 0, 0, 0
	}
	return clamp01(t), 0, 1
}

func boxesMeet(p, q, r, s Vec) bool {
	for k := range 2 {
		if !(math.Max(p[k], q[k]) >= math.Min(r[k], s[k])-TolLength &&
			math.Max(r[k], s[k]) >= math.Min(p[k], q[k])-TolLength) {
			return false
		}
	}
	return true
}

// overlap handles parallel segments and those of no length.
func overlap(p, d Vec, ld float64, r, s Vec) (t0, t1 float64, n int) {
	if ld < TolLength {
		if _, _, far := nearestOn(r, s, p); far <= TolLength {
			return 0, 0, 1
		}
		return 0, 0, 0
	}
	if math.Abs(Cross(d, r.Sub(p)))/ld > TolLength || math.Abs(Cross(d, s.Sub(p)))/ld > TolLength {
		return 0, 0, 0
	}
	tr, ts := r.Sub(p).Dot(d)/(ld*ld), s.Sub(p).Dot(d)/(ld*ld)
	lo, hi := math.Max(0, math.Min(tr, ts)), math.Min(1, math.Max(tr, ts))
	switch {
	case (hi-lo)*ld > TolLength:
		return lo, hi, 2
	case (hi-lo)*ld >= -TolLength:
		return clamp01(lo), 0, 1
	}
	return 0, 0, 0
}

// within01 allows TolLength of overshoot on a segment of length l.
func within01(t, l float64) bool { return t*l >= -TolLength && (t-1)*l <= TolLength }

func clamp01(t float64) float64 { return math.Min(1, math.Max(0, t)) }

// RayHit is the first point where the ray from a point in direction dir meets
// the chain; a start on the chain is itself the hit, and along an overlap the
// nearest end counts. ok is false for a miss, a zero dir, or input that is not
// finite. It finds the crest of a batter: from the toe along the face to the
// ground line.
func RayHit(from, dir Vec, line Polyline) (at Vec, ok bool) {
	u, ok := Unit(dir)
	if !ok || !FiniteVec(from) {
		return Vec{}, false
	}
	best := math.Inf(1)
	for i := 1; i < len(line); i++ {
		if s, hit := raySegment(from, u, line[i-1], line[i]); hit && s < best {
			best = s
		}
	}
	if math.IsInf(best, 1) {
		return Vec{}, false
	}
	return from.Add(u.Mul(best)), true
}

// raySegment is the distance along the ray (unit direction u) to segment ab.
func raySegment(from, u, a, b Vec) (s float64, hit bool) {
	e, w := b.Sub(a), a.Sub(from)
	le := math.Hypot(e[0], e[1])
	den := Cross(u, e)
	if math.Abs(den) <= TolLength*math.Max(1, le)*TolTouch || le == 0 {
		return rayAlong(u, w, b.Sub(from))
	}
	s, t := Cross(w, e)/den, Cross(w, u)/den
	if s < -TolLength || !within01(t, le) || !finite(s) {
		return 0, false
	}
	return math.Max(0, s), true
}

// rayAlong handles a segment parallel to the ray, its ends relative to the
// start being a and b.
func rayAlong(u, a, b Vec) (s float64, hit bool) {
	if !(math.Abs(Cross(u, a)) <= TolLength && math.Abs(Cross(u, b)) <= TolLength) {
		return 0, false
	}
	sa, sb := u.Dot(a), u.Dot(b)
	lo, hi := math.Min(sa, sb), math.Max(sa, sb)
	if hi < -TolLength {
		return 0, false
	}
	return math.Max(0, lo), true
}
