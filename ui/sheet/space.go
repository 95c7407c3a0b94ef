package sheet

import "slices"

// space is the free room of a sheet: all the largest upright rectangles that
// hold nothing yet. They overlap one another.
type space []box

func (b box) area() float64 { return b.w * b.h }

func (b box) overlaps(o box) bool {
	return b.x < o.right()-tiny && o.x < b.right()-tiny && b.y < o.bottom()-tiny && o.y < b.bottom()-tiny
}

func (b box) holds(o box) bool {
	return b.x <= o.x+tiny && b.y <= o.y+tiny && o.right() <= b.right()+tiny && o.bottom() <= b.bottom()+tiny
}

// grown is the box with room at its sides and above and below it.
func (b box) grown(x, y float64) box { return box{b.x - x, b.y - y, b.w + 2*x, b.h + 2*y} }

// take gives the room that is left when o is taken: every free rectangle that
// o touches is replaced by its parts left, right, above and below of o.
func (s space) take(o box) space {
	var kept, parts space
	for _, r := range s {
		if !r.overlaps(o) {
			kept = append(kept, r)
			continue
		}
		for _, p := range []box{
			{r.x, r.y, o.x - r.x, r.h}, {o.right(), r.y, r.right() - o.right(), r.h},
			{r.x, r.y, r.w, o.y - r.y}, {r.x, o.bottom(), r.w, r.bottom() - o.bottom()},
		} {
			if p.w > tiny && p.h > tiny {
				parts = append(parts, p)
			}
		}
	}
	return append(kept, parts.largest(kept)...)
}

// largest leaves out the rectangles that lie inside another of the list, or of
// those kept.
func (s space) largest(kept space) space {
	var out space
	for i, p := range s {
		inside := func(o box) bool { return o.holds(p) }
		later := func(o box) bool { return o.holds(p) && !p.holds(o) }
		if !slices.ContainsFunc(kept, inside) && !slices.ContainsFunc(s[:i], inside) && !slices.ContainsFunc(s[i+1:], later) {
			out = append(out, p)
		}
	}
	return out
}
