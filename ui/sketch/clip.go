package sketch

import (
	"math"

	"hillset/geom"
)

// inside says whether p lies in r, its edges included.
func inside(p geom.Vec, r geom.Rect) bool {
	return p[0] >= r.Min[0] && p[0] <= r.Max[0] && p[1] >= r.Min[1] && p[1] <= r.Max[1]
}

// clipSegment gives the part of the segment a-b inside r as shares of its
// length; false where there is none (Liang and Barsky's method).
func clipSegment(a, b geom.Vec, r geom.Rect) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	for k := 0; k < 2; k++ {
		d := b[k] - a[k]
		lo, hi := r.Min[k]-a[k], r.Max[k]-a[k]
		if d == 0 {
			if lo > 0 || hi < 0 {
				return 0, 0, false
			}
			continue
		}
		in, out := lo/d, hi/d
		if in > out {
			in, out = out, in
		}
		t0, t1 = math.Max(t0, in), math.Min(t1, out)
		if t0 > t1 {
			return 0, 0, false
		}
	}
	return t0, t1, !math.IsNaN(t0) && !math.IsNaN(t1)
}

// boundsOf is the box round the points; false where there are none or one of
// them is not finite.
func boundsOf(pts []geom.Vec) (geom.Rect, bool) {
	if len(pts) == 0 {
		return geom.Rect{}, false
	}
	r := geom.Rect{Min: pts[0], Max: pts[0]}
	for _, p := range pts {
		for k := 0; k < 2; k++ {
			if math.IsNaN(p[k]) || math.IsInf(p[k], 0) {
				return geom.Rect{}, false
			}
			r.Min[k], r.Max[k] = math.Min(r.Min[k], p[k]), math.Max(r.Max[k], p[k])
		}
	}
	return r, true
}

// apart says whether two boxes have no point in common.
func apart(a, b geom.Rect) bool {
	return a.Max[0] < b.Min[0] || a.Min[0] > b.Max[0] || a.Max[1] < b.Min[1] || a.Min[1] > b.Max[1]
}
