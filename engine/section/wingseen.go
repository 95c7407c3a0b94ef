package section

import (
	"math"

	"hillset/engine/model"
	"hillset/geom"
)

// WingSeen is a wing wall as a long section shows it behind its plane: its face,
// seen from the yard.
type WingSeen struct {
	Left   bool        // beside the left of the box, looking into the hill
	Blocks []geom.Rect // faces of the blocks, in half bond; those below ground as well
	Rock   geom.Rect   // base rock under them; empty for none
	Foot   float64     // level of the underside of the lowest course
	Top    geom.Vec    // upper corner at the box
}

// Bounds is all that is seen of it, and what stands below the ground.
func (w *WingSeen) Bounds() geom.Rect {
	r := w.Rock
	for _, b := range w.Blocks {
		r = r.Union(b)
	}
	return r
}

// Standing is how many courses of a column stand at a stage: they come up with
// the fill.
func (w *Wing) Standing(st model.Stage, c WingColumn) (int, error) {
	if st.Kind != model.StageBackfill {
		return c.Courses, nil
	}
	z, ok, err := w.Surface(st, c.From)
	if err != nil || !ok {
		return 0, err
	}
	return min(c.Courses, max(1, int(math.Ceil((z-w.Base)/w.Height-1e-6)))), nil
}

// wingSeen is the wing behind the plane of the long section: that on the left,
// since the hill rises to the right. Where it cannot be laid out nothing is
// drawn; its check says why.
func (c *Cut) wingSeen(st model.Stage) []WingSeen {
	if !c.winged {
		c.winged = true
		c.wing, _ = (&Plan{p: c.l.p, box: c.l.box, ax: c.l.ax}).Wing(-1)
	}
	if c.wing == nil {
		return nil
	}
	seen, ok := c.wing.seen(st)
	if !ok {
		return nil
	}
	return []WingSeen{seen}
}

// seen lays the blocks of a wing out as they are seen square to the long
// section. A wing in line with the front shows nothing but its edge.
func (w *Wing) seen(st model.Stage) (WingSeen, bool) {
	out := WingSeen{Left: w.Dir < 0, Foot: w.Base}
	sin, cos := math.Sincos(w.Splay)
	if sin < thin {
		return out, false
	}
	front := w.pl.p.Box.Front
	x := func(along float64, course int) float64 { return front - along*sin + float64(course)*w.Setback*cos }
	high := make([]int, len(w.Columns))
	for i, c := range w.Columns {
		n, err := w.Standing(st, c)
		if err != nil {
			return out, false
		}
		high[i] = n
	}
	for k := range w.Columns[0].Courses {
		w.course(k, high, func(from, to float64) {
			z := w.Base + float64(k)*w.Height
			out.Blocks = append(out.Blocks, geom.Rect{Min: geom.Vec{x(to, k), z}, Max: geom.Vec{x(from, k), z + w.Height}})
		})
	}
	if t := w.pl.p.Wings.BaseRock; t > 0 {
		out.Rock = geom.Rect{Min: geom.Vec{x(w.Length(), 0), w.Base - t}, Max: geom.Vec{front, w.Base}}
	}
	out.Top = geom.Vec{x(0, high[0]-1), w.Base + float64(high[0])*w.Height}
	return out, len(out.Blocks) > 0
}

// course goes through the blocks of a course in half bond, from the box
// outwards: every other one begins with a half block, and what is left over ends
// with one. high are the courses of the columns.
func (w *Wing) course(k int, high []int, block func(from, to float64)) {
	n := 0
	for n < len(high) && high[n] > k {
		n++
	}
	for i := 0; i < n; {
		long := 2
		if i == 0 && k%2 == 1 || i+1 == n {
			long = 1
		}
		block(w.Columns[i].From, w.Columns[i+long-1].To)
		i += long
	}
}
