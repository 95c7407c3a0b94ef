package geom

import (
	"cmp"
	"math"
	"slices"
)

// Scatter gives points strewn over r for stone and dot symbols: one in every
// square cell (side cell, m) of a grid fixed to the world's origin, at a place
// within the cell that depends on the cell's numbers alone, so that symbols
// stay where they are while a region is dragged. Points come row by row, from
// the left.
//
// To bound the work, cell is doubled until no more than max points come out.
// Nothing is drawn (nil) for an empty region, max < 1, a cell that is not
// positive, or numbers not finite. Rings count by the even-odd rule.
func Scatter(r Region, cell float64, max int) []Vec {
	if !hatchable(r, max, 0, cell) {
		return nil
	}
	for ; ; cell *= 2 {
		if out, ok := scatter(r, cell, max); ok {
			return out
		}
	}
}

// scatter is one try; ok is false when it would give more than limit points.
func scatter(r Region, cell float64, limit int) (out []Vec, ok bool) {
	b := r.Bounds()
	for k := range 2 {
		lo, hi := math.Floor(b.Min[k]/cell), math.Floor(b.Max[k]/cell)
		// A thin band may miss most of its rows, so these may exceed limit.
		if !(hi-lo <= 4*float64(limit)+4) || math.Abs(lo) > maxLineIndex || math.Abs(hi) > maxLineIndex {
			return nil, false
		}
	}
	for row := math.Floor(b.Min[1] / cell); row*cell <= b.Max[1]; row++ {
		next := math.Inf(-1)
		for _, s := range bandSpans(r, row*cell, (row+1)*cell) {
			for col := math.Max(next, math.Floor(s.lo/cell)); col*cell <= s.hi; col++ {
				next = col + 1
				if v := jittered(col, row, cell); evenOdd(r, v) {
					out = append(out, v)
				}
			}
			if len(out) > limit {
				return nil, false
			}
		}
	}
	return out, true
}

type span struct{ lo, hi float64 }

// bandSpans are the x ranges that hold every point of r between z0 and z1:
// where the band's middle line is inside, and beside every edge in the band.
func bandSpans(r Region, z0, z1 float64) []span {
	var out []span
	var mid []float64
	zm := (z0 + z1) / 2
	for _, p := range r {
		for _, ring := range p.Rings() {
			for i := range ring {
				a, b := ring[i], ring[(i+1)%len(ring)]
				if math.Max(a[1], b[1]) < z0 || math.Min(a[1], b[1]) > z1 {
					continue
				}
				if (a[1] > zm) != (b[1] > zm) {
					mid = append(mid, xAt(a, b, zm))
				}
				xa, xb := xAt(a, b, math.Max(z0, math.Min(z1, a[1]))), xAt(a, b, math.Max(z0, math.Min(z1, b[1])))
				out = append(out, span{math.Min(xa, xb), math.Max(xa, xb)})
			}
		}
	}
	slices.Sort(mid)
	for i := 0; i+1 < len(mid); i += 2 {
		out = append(out, span{mid[i], mid[i+1]})
	}
	slices.SortFunc(out, func(a, b span) int { return cmp.Compare(a.lo, b.lo) })
	return out
}

// xAt is where the line ab has level z; for a level edge its start.
func xAt(a, b Vec, z float64) float64 {
	switch {
	case z == b[1]:
		return b[0]
	case a[1] == b[1]:
		return a[0]
	}
	return a[0] + (b[0]-a[0])*((z-a[1])/(b[1]-a[1]))
}

func evenOdd(r Region, v Vec) (in bool) {
	for _, p := range r {
		for _, ring := range p.Rings() {
			in = in != ring.crossings(v)
		}
	}
	return in
}

// jittered is the point of a cell, at least a tenth of the side from its edge
// so that neighbours do not collide.
func jittered(col, row, cell float64) Vec {
	h := mix(uint64(int64(col))*0x9e3779b97f4a7c15 ^ mix(uint64(int64(row))))
	u, v := float64(h>>32)/(1<<32), float64(h&0xffffffff)/(1<<32)
	return Vec{(col + 0.1 + 0.8*u) * cell, (row + 0.1 + 0.8*v) * cell}
}

// mix spreads the bits of h: the finaliser of G. L. Steele, D. Lea and C. H.
// Flood, "Fast splittable pseudorandom number generators" (2014).
func mix(h uint64) uint64 {
	h += 0x9e3779b97f4a7c15
	h = (h ^ h>>30) * 0xbf58476d1ce4e5b9
	h = (h ^ h>>27) * 0x94d049bb133111eb
	return h ^ h>>31
}
