package geom

import (
	"cmp"
	"math"
	"slices"
)

// Hatch fills r with parallel lines at angle (radians, anticlockwise from +x),
// spacing apart (m), of which one passes through origin: lines of neighbouring
// regions meet, and stay in place while a region is dragged. A stretch is
// inside by the even-odd rule over all rings, so overlapping polygons cancel.
//
// To bound the work, spacing is doubled until no more than max segments come
// out; the spacing used is returned. Nothing is drawn (nil, 0) for an empty
// region, max < 1, a spacing that is not positive, or numbers not finite.
func Hatch(r Region, angle, spacing float64, origin Vec, max int) (segs []Segment, spacingUsed float64) {
	if !hatchable(r, max, angle, spacing, origin[0], origin[1]) {
		return nil, 0
	}
	f := frameAt(angle, origin)
	for ; ; spacing *= 2 {
		hits, ok := scan(r, f, spacing, max)
		if !ok || len(hits)/2 > max {
			continue
		}
		segs = segs[:0]
		eachSpan(hits, func(k int, t0, t1 float64) {
			segs = append(segs, f.segment(float64(k)*spacing, t0, t1))
		})
		return segs, spacing
	}
}

// Dash describes broken lines: strokes of length On (m) with gaps of Off.
type Dash struct{ On, Off float64 }

// HatchDashed is Hatch with broken lines. The dashes are anchored to origin
// like the lines, every second line moved along by half a period, and grow
// with the spacing when that is doubled. Nothing is drawn for an On or Off
// that is not positive; otherwise as Hatch.
func HatchDashed(r Region, angle, spacing float64, d Dash, origin Vec, max int) (segs []Segment, spacingUsed float64) {
	if !hatchable(r, max, angle, spacing, origin[0], origin[1], d.On, d.Off) || d.On <= 0 || d.Off <= 0 {
		return nil, 0
	}
	f := frameAt(angle, origin)
	for ; ; spacing, d = spacing*2, (Dash{d.On * 2, d.Off * 2}) {
		hits, ok := scan(r, f, spacing, max)
		if !ok || dashCount(hits, d) > float64(max) {
			continue
		}
		eachSpan(hits, func(k int, t0, t1 float64) {
			phase := float64(k&1) * (d.On + d.Off) / 2
			d.each(t0-phase, t1-phase, func(a, b float64) {
				segs = append(segs, f.segment(float64(k)*spacing, a+phase, b+phase))
			})
		})
		return segs, spacing
	}
}

// each calls fn with the strokes between t0 and t1.
func (d Dash) each(t0, t1 float64, fn func(a, b float64)) {
	period := d.On + d.Off
	for m := math.Floor(t0 / period); m*period < t1; m++ {
		a, b := math.Max(t0, m*period), math.Min(t1, m*period+d.On)
		if b-a > TolLength {
			fn(a, b)
		}
	}
}

// dashCount is the most strokes the spans can give.
func dashCount(hits []hit, d Dash) (n float64) {
	eachSpan(hits, func(_ int, t0, t1 float64) { n += math.Ceil((t1-t0)/(d.On+d.Off)) + 1 })
	return n
}

func hatchable(r Region, max int, numbers ...float64) bool {
	spacing := numbers[1]
	if max < 1 || !(spacing > 0) || !Finite(numbers...) {
		return false
	}
	for _, p := range r {
		for _, ring := range p.Rings() {
			if !allFinite(ring) {
				return false
			}
		}
	}
	return !r.Bounds().Empty()
}

// frame is the pair of axes along and across the hatch lines.
type frame struct{ origin, along, across Vec }

func frameAt(angle float64, origin Vec) frame {
	s, c := math.Sincos(angle)
	return frame{origin, Vec{c, s}, Vec{-s, c}}
}

func (f frame) segment(s, t0, t1 float64) Segment {
	base := f.origin.Add(f.across.Mul(s))
	return Segment{base.Add(f.along.Mul(t0)), base.Add(f.along.Mul(t1))}
}

// coords are the distances of v across and along the lines.
func (f frame) coords(v Vec) (across, along float64) {
	w := v.Sub(f.origin)
	return w.Dot(f.across), w.Dot(f.along)
}

// hit is where hatch line k crosses an edge, t along the line from its origin.
type hit struct {
	k int
	t float64
}

// maxLineIndex keeps line numbers exact in both float64 and int.
const maxLineIndex = 1 << 50

// scan crosses the lines k*spacing with all edges, sorted by line and place. ok
// is false when more than max lines would meet the region.
func scan(r Region, f frame, spacing float64, max int) (hits []hit, ok bool) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range r {
		for _, ring := range p.Rings() {
			for _, v := range ring {
				s, _ := f.coords(v)
				lo, hi = math.Min(lo, s/spacing), math.Max(hi, s/spacing)
			}
		}
	}
	if hi-lo > float64(max) || math.Abs(lo) > maxLineIndex || math.Abs(hi) > maxLineIndex {
		return nil, false
	}
	for _, p := range r {
		for _, ring := range p.Rings() {
			hits = scanRing(hits, ring, f, spacing)
		}
	}
	slices.SortFunc(hits, func(a, b hit) int {
		if a.k != b.k {
			return a.k - b.k
		}
		return cmp.Compare(a.t, b.t)
	})
	return hits, true
}

// scanRing gives each line an even number of hits: an edge takes the lines
// above its lower end up to and including its upper end, so that a vertex on a
// line counts for one of its two edges only, or for both, or for none.
func scanRing(hits []hit, ring Ring, f frame, spacing float64) []hit {
	if len(ring) < 3 {
		return hits
	}
	s0, t0 := f.coords(ring[len(ring)-1])
	for _, v := range ring {
		s1, t1 := f.coords(v)
		hits = scanEdge(hits, s0/spacing, t0, s1/spacing, t1)
		s0, t0 = s1, t1
	}
	return hits
}

func scanEdge(hits []hit, s0, t0, s1, t1 float64) []hit {
	if s0 > s1 {
		s0, t0, s1, t1 = s1, t1, s0, t0
	}
	for k := math.Floor(s0) + 1; k <= s1; k++ {
		hits = append(hits, hit{int(k), t0 + (t1-t0)*((k-s0)/(s1-s0))})
	}
	return hits
}

// eachSpan calls fn with every stretch between paired hits.
func eachSpan(hits []hit, fn func(k int, t0, t1 float64)) {
	for i := 0; i+1 < len(hits); i += 2 {
		if a, b := hits[i], hits[i+1]; b.t-a.t > TolLength {
			fn(a.k, a.t, b.t)
		}
	}
}
