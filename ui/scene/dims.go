package scene

import (
	"math"
	"slices"

	"hillset/engine/section"
	"hillset/geom"
	"hillset/ui/face"
)

// quarter is the angle of a text that reads upwards, rad.
const quarter = math.Pi / 2

// Measures of dimension lines, mm on paper.
const (
	dimRow   = 6.5 // between rows
	dimTick  = 2.4 // slanting tick across the ends
	dimOver  = 1.5 // extension line beyond the dimension line
	dimGap   = 1.2 // extension line away from the object
	dimLeast = 1.0 // below this a dimension is not drawn
)

// dim is one distance to be shown: from a to b along the axis of the rows,
// with the places on the object that its extension lines start from.
type dim struct {
	tag    string
	a, b   float64
	fa, fb float64 // where the object is, across
}

// dimensions draws the rows below and the columns beside the works.
func (b *builder) dimensions() {
	if !b.show(Dims) {
		return
	}
	b.across()
	b.upLeft()
	b.upRight()
}

// formationEnds are the ends of the level floor of the cut.
func (b *builder) formationEnds() (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range b.v.CutLine {
		if math.Abs(p[1]-b.v.Formation) < geom.TolTouch {
			lo, hi = math.Min(lo, p[0]), math.Max(hi, p[0])
		}
	}
	return lo, hi, lo < hi
}

// across are the level distances: apron and working space, box, rock.
func (b *builder) across() {
	v := b.v
	var ds []dim
	lo, hi, dug := b.formationEnds()
	if v.HasBox {
		z := v.Box.Min[1]
		ds = append(ds, dim{"length", v.Box.Min[0], v.Box.Max[0], z, z})
		if dug {
			ds = append(ds, dim{"work:left", lo, v.Box.Min[0], v.Formation, z}, dim{"work:right", v.Box.Max[0], hi, z, v.Formation})
		}
		ds = append(ds, b.rockWidths()...)
	} else if dug {
		ds = append(ds, dim{"cut:floor", lo, hi, v.Formation, v.Formation})
	}
	b.rows(ds, false, b.rowsFrom(), -1)
}

// rowsFrom is the level of the first row: below the drawn ground where the
// window has room there, else just below the works.
func (b *builder) rowsFrom() float64 {
	const need = 30.0 // mm for three rows and the scale bar
	if b.land.Min[1]-need*b.mm >= b.at.win.Min[1] {
		return b.land.Min[1] - 5*b.mm
	}
	low := b.v.Box.Min[1]
	if len(b.v.CutLine) > 0 {
		low = math.Min(low, b.v.Formation)
	}
	for _, z := range b.v.Bedding {
		low = math.Min(low, z.Region.Bounds().Min[1])
	}
	return low - 9*b.mm
}

// rockWidths are the widths of the drainage rock beside the walls.
func (b *builder) rockWidths() []dim {
	var out []dim
	v := b.v
	for _, z := range v.Fill {
		if z.Kind != section.Rock {
			continue
		}
		r := z.Region.Bounds()
		switch {
		case math.Abs(r.Min[0]-v.Box.Max[0]) < sameLevel:
			out = append(out, dim{"rock:right", r.Min[0], r.Max[0], v.Box.Min[1], r.Min[1]})
		case math.Abs(r.Max[0]-v.Box.Min[0]) < sameLevel:
			out = append(out, dim{"rock:left", r.Min[0], r.Max[0], r.Min[1], v.Box.Min[1]})
		}
	}
	return out
}

// finishAt is the finished surface at s, false outside of it.
func (b *builder) finishAt(s float64) (float64, bool) { return b.v.Finish.At(s) }

// upLeft are the heights at the front or left: bedding, box, cover.
func (b *builder) upLeft() {
	v := b.v
	if !v.HasBox {
		return
	}
	x := v.Box.Min[0]
	ds := []dim{{"height", v.Box.Min[1], v.Box.Max[1], x, x}}
	if v.Box.Min[1] > v.Formation {
		ds = append(ds, dim{"bed", v.Formation, v.Box.Min[1], x, x})
	}
	if z, ok := b.finishAt(x + sameLevel); ok && z > v.Box.Max[1]+sameLevel {
		ds = append(ds, dim{"cover:front", v.Box.Max[1], z, x, x})
	}
	start := x - 9*b.mm
	if lo, _, ok := b.formationEnds(); ok && !v.Long {
		start = math.Min(start, lo-4*b.mm)
	}
	b.rows(ds, true, b.pastPressure(start, -1), -1)
}

// upRight are the heights at the back or right: depth of the floor below the
// ground as found, cut, cover at the back.
func (b *builder) upRight() {
	v := b.v
	var ds []dim
	x := b.land.Min[0]
	if v.HasBox {
		x = v.Box.Max[0]
		if z, ok := v.Ground.At(x); ok && z > v.Box.Min[1] {
			ds = append(ds, dim{"depth", v.Box.Min[1], z, x, x})
		}
		if z, ok := b.finishAt(x - sameLevel); ok && v.Long && z > v.Box.Max[1]+sameLevel {
			b.rows([]dim{{"cover:back", v.Box.Max[1], z, x, x}}, true, x+6*b.mm, 1)
		}
	}
	if v.CutHeight > 0 && v.Crest[1] > v.Toe[1] {
		ds = append(ds, dim{"cut", v.Toe[1], v.Crest[1], v.Toe[0], v.Crest[0]})
		x = math.Max(x, math.Max(v.Crest[0], v.Toe[0]))
	}
	b.rows(ds, true, b.pastPressure(x+9*b.mm, 1), 1)
}

// pastPressure moves a column out of the pressure diagrams.
func (b *builder) pastPressure(x, dir float64) float64 {
	if !b.show(Pressures) || b.kPa == 0 {
		return x
	}
	for _, l := range b.loads() {
		wall, way := b.wallOf(l.Face)
		if way != dir {
			continue
		}
		most := 0.0
		for _, r := range l.Diagram {
			most = math.Max(most, r.Total)
		}
		x = dir * math.Max(dir*x, dir*(wall+dir*(most*b.kPa+9*b.mm)))
	}
	return x
}

// rows sets distances into rows (upright false) or columns (upright true),
// the shortest nearest to the works, from the given place outwards in the
// direction dir. Distances in one row never reach over each other.
func (b *builder) rows(ds []dim, upright bool, from, dir float64) {
	ds = slices.DeleteFunc(ds, func(d dim) bool { return !(math.Abs(d.b-d.a) > dimLeast*b.mm) })
	slices.SortStableFunc(ds, func(p, q dim) int {
		switch d := math.Abs(p.b-p.a) - math.Abs(q.b-q.a); {
		case d < -geom.TolTouch:
			return -1
		case d > geom.TolTouch:
			return 1
		}
		return 0
	})
	const most = 6
	var taken [most][][2]float64
	for _, d := range ds {
		if !b.inWindow(d, upright) || b.row(d, &taken, true, upright, from, dir) || b.row(d, &taken, false, upright, from, dir) {
			continue
		}
		b.lost = append(b.lost, b.length(math.Abs(d.b-d.a)))
	}
}

// inWindow tells whether both ends of a distance are seen: one of which a part
// is beyond the edge is no loss.
func (b *builder) inWindow(d dim, upright bool) bool {
	axis := 0
	if upright {
		axis = 1
	}
	lo, hi := b.at.win.Min[axis], b.at.win.Max[axis]
	return math.Min(d.a, d.b) >= lo && math.Max(d.a, d.b) <= hi
}

// row draws a distance in the first row that has room; with clean set only
// where its line runs through no text and no sign.
func (b *builder) row(d dim, taken *[6][][2]float64, clean, upright bool, from, dir float64) bool {
	lo, hi := math.Min(d.a, d.b), math.Max(d.a, d.b)
	for i := range taken {
		c := from + dir*float64(i)*dimRow*b.mm
		if clear(taken[i], lo, hi) && b.drawDim(d, clean, upright, c, dir) {
			taken[i] = append(taken[i], [2]float64{lo, hi})
			return true
		}
	}
	return false
}

func clear(taken [][2]float64, lo, hi float64) bool {
	for _, t := range taken {
		if lo < t[1]-geom.TolTouch && t[0] < hi-geom.TolTouch {
			return false
		}
	}
	return true
}

// drawDim draws one distance at place c across, unless its text finds no room.
func (b *builder) drawDim(d dim, clean, upright bool, c, dir float64) bool {
	at := func(along, across float64) geom.Vec {
		if upright {
			return geom.Vec{across, along}
		}
		return geom.Vec{along, across}
	}
	p, q := at(math.Min(d.a, d.b), c), at(math.Max(d.a, d.b), c)
	if !b.seen(p) || !b.seen(q) || clean && !b.at.clearLine(geom.Segment{A: p, B: q}) {
		return false
	}
	t := label(Dims, "dim:"+d.tag, b.length(math.Abs(d.b-d.a)))
	if !b.dimText(t, p, q, upright, dir) {
		return false
	}
	b.extension(d.tag, at(d.a, d.fa), at(d.a, c))
	b.extension(d.tag, at(d.b, d.fb), at(d.b, c))
	b.dimLine(d.tag, p, q)
	return true
}

// dimText sets the text of the distance p to q: along the line where it fits
// between the ticks, else beside it.
func (b *builder) dimText(t Label, p, q geom.Vec, upright bool, dir float64) bool {
	mid := p.Add(q).Mul(0.5)
	off, past := 0.9*b.mm, 2.2*b.mm
	fits := q.Sub(p).Len() >= (face.Width(t.Text, t.Height, t.Bold)+dimTick+2*clearance)*b.mm
	type place struct {
		at    geom.Vec
		a     Anchor
		angle float64
	}
	var places []place
	switch {
	case upright && fits:
		for _, share := range []float64{0, 0.2, -0.2, 0.35, -0.35} {
			at := mid.Add(q.Sub(p).Mul(share))
			places = append(places, place{at.Sub(geom.Vec{off, 0}), Anchor{H: 0.5}, quarter}, place{at.Add(geom.Vec{off, 0}), Anchor{H: 0.5, V: 1}, quarter})
		}
	case upright:
		out, in := geom.Vec{dir * past, 0}, geom.Vec{-dir * past, 0}
		h := 0.5 - dir/2
		places = []place{{mid.Add(out), Anchor{h, 0.5}, 0}, {mid.Add(in), Anchor{1 - h, 0.5}, 0}, {q.Add(geom.Vec{0, past}), Anchor{0.5, 0}, 0}, {p.Sub(geom.Vec{0, past}), Anchor{0.5, 1}, 0}}
	default:
		places = []place{{mid.Add(geom.Vec{0, off}), Anchor{H: 0.5}, 0}, {mid.Sub(geom.Vec{0, off}), Anchor{H: 0.5, V: 1}, 0}}
		if !fits { // beyond the end that faces away from the works
			right, left := place{q.Add(geom.Vec{past, 0}), Anchor{0, 0.5}, 0}, place{p.Sub(geom.Vec{past, 0}), Anchor{1, 0.5}, 0}
			if mid[0] < b.v.Box.Center()[0] {
				right, left = left, right
			}
			places = []place{right, left}
		}
	}
	for _, put := range []func(Label, ...geom.Vec) bool{b.putClear, b.put} {
		for _, s := range places {
			t.Anchor, t.Angle = s.a, s.angle
			if put(t, s.at) {
				return true
			}
		}
	}
	return false
}

// extension runs from just off the object to just past the dimension line.
func (b *builder) extension(tag string, from, to geom.Vec) {
	u, ok := geom.Unit(to.Sub(from))
	if !ok {
		return
	}
	b.stroke(Dims, "ext:"+tag, Thin, wHair, nil, from.Add(u.Mul(dimGap*b.mm)), to.Add(u.Mul(dimOver*b.mm)))
}

// dimLine draws the line with a slanting tick at each end.
func (b *builder) dimLine(tag string, p, q geom.Vec) {
	u, _ := geom.Unit(q.Sub(p))
	over := u.Mul(1.2 * b.mm)
	b.stroke(Dims, "dim:"+tag, Thin, wThin, nil, p.Sub(over), q.Add(over))
	k := geom.Vec{dimTick / 2 * b.mm, dimTick / 2 * b.mm}.Mul(math.Sqrt2 / 2)
	for _, end := range [2]geom.Vec{p, q} {
		b.at.take(newBox(end, 0, k[0], k[1]))
	}
	b.add(Path{Layer: Dims, Tag: "dim:" + tag, Stroke: Ink, Width: wMid,
		Parts: []geom.Polyline{b.ink.chain(p.Sub(k), p.Add(k)), b.ink.chain(q.Sub(k), q.Add(k))}})
}
