package assess

import (
	"errors"
	"math"
	"slices"

	"hillset/engine/box"
	"hillset/engine/frame"
	"hillset/engine/steel"
	"hillset/geom"
)

// innerPoints is the number of points between the ends of a span at which its
// lines are taken: enough that a curve drawn from them looks smooth.
const innerPoints = 15

// wall draws a strip of wall sheet a metre wide. x is its outer face.
func (s *sitter) wall(w *wallLoad, x float64, inside geom.Vec) {
	part := partOf(w.face)
	if !w.loaded {
		s.miss("%s: no earth lies against it", part)
		return
	}
	pn := s.j.wallOf(w.face)
	x += inside[0] * pn.sheet.D / 2
	d := Drawn{Part: part, Inside: inside, PerMetre: true, Beyond: w.ratio() > 1 || w.sag > 1}
	solved, err := w.sheet.ready.Under(w.strip.Load)
	if err != nil {
		s.miss("%s: %s", part, asProblem(err).Text)
		return
	}
	for k := range solved.Line.Spans {
		b := &solved.Line.Spans[k]
		for i := range innerPoints + 2 {
			z := b.L * float64(i) / (innerPoints + 1)
			d.add(geom.Vec{x, pn.zBottom + solved.Line.Places[k] + z}, inside.Mul(b.W(z)), b.M(z), 0)
		}
	}
	s.out.Members = append(s.out.Members, d)
	s.skin(w, x-inside[0]*pn.sheet.D/2, inside)
}

// add takes one point of a member.
func (d *Drawn) add(at, move geom.Vec, m, n float64) {
	d.Axis, d.Move = append(d.Axis, at), append(d.Move, move)
	d.M, d.N = append(d.M, m), append(d.N, n)
}

// ratio is the largest ratio of a solved roof sheet.
func (s *roofSheet) ratio() float64 { return math.Max(s.result.ASD.Ratio, s.result.LRFD.Ratio) }

// roof draws a metre of roof sheet with the thrust of the walls. mid is the
// middle of its span.
func (s *sitter) roof(t *topLoad, mid float64) {
	switch {
	case t.sheetFault != nil:
		s.miss("roof: %s", asProblem(t.sheetFault).Text)
		return
	case t.sheet == nil:
		s.miss("roof: nothing lies on it")
		return
	}
	sh := t.sheet
	strip := sh.strip()
	line, steady, err := strip.Line(&sh.result, innerPoints)
	if err != nil {
		s.miss("roof: %s", err)
		return
	}
	if !steady {
		s.miss("roof: the thrust of the walls reaches what buckles the sheet: no movement can be drawn")
	}
	down := geom.Vec{0, -1}
	d := Drawn{Part: "roof", Inside: down, PerMetre: true,
		Beyond: !steady || sh.ratio() > 1 || sh.result.Deflection*s.j.sagLimit/sh.result.Bay > 1}
	for _, pt := range line {
		d.add(geom.Vec{mid - strip.Span/2 + pt.S, s.j.roofLevel() - s.j.roof.D/2}, down.Mul(pt.W), pt.M, sh.thrust.ASD)
	}
	s.out.Members = append(s.out.Members, d)
}

// rib draws a rib: its bars as the frame was solved in service. mid is the
// middle between its posts.
func (s *sitter) rib(r *ribLoad, mid float64) {
	j := s.j
	switch {
	case !j.hasRibs():
		return
	case j.ribFault != nil:
		s.miss("ribs: %s", asProblem(j.ribFault).Text)
		return
	case r == nil:
		s.miss("ribs: nothing presses on them")
		return
	case r.fault != nil:
		s.miss("ribs: %s", asProblem(r.fault).Text)
		return
	}
	ready := j.ready
	if r.ring == &j.bed {
		ready = j.bedded // the floor on the ground is the worse way of standing
	}
	solved, err := ready.UnderWheels(r.left.load, r.right.load, r.on, r.wheels)
	if err != nil {
		s.miss("ribs: %s", err)
		return
	}
	at := geom.Vec{mid - j.ring.Width/2, j.side.zBottom}
	for from := 0; from < len(solved.Parts); {
		part, to := solved.Parts[from], from+1
		for to < len(solved.Parts) && solved.Parts[to] == part {
			to++
		}
		if part == box.CrossStrut { // each is a bar of its own
			to = from + 1
		}
		d := Drawn{Part: "ribs, " + part.String(), Beyond: math.Max(solved.ASD[part].Ratio, solved.LRFD[part].Ratio) > 1 || r.bow > 1}
		if part == box.CrossStrut {
			d.Beyond = r.strut > 1
		}
		for _, k := range inRow(&solved.Frame, from, to) {
			bar(&d, &solved, k, at)
		}
		s.out.Members = append(s.out.Members, d)
		from = to
	}
}

// inRow lists the members from one to before another so that each begins where
// the one before it ends.
func inRow(f *frame.Frame, from, to int) []int {
	out := make([]int, 0, to-from)
	for k := from; k < to; k++ {
		out = append(out, k)
	}
	if len(out) > 1 && f.Members[out[1]].J == f.Members[out[0]].I {
		slices.Reverse(out)
	}
	return out
}

// bar adds member k of a solved rib to a drawn one. The members go round with
// the room on their left.
func bar(d *Drawn, r *box.RibResult, k int, at geom.Vec) {
	m, l := r.Frame.Members[k], r.Frame.Length(k)
	i, j := r.Frame.Nodes[m.I], r.Frame.Nodes[m.J]
	from, way := geom.Vec{i.Px, i.Py}, geom.Vec{(j.Px - i.Px) / l, (j.Py - i.Py) / l}
	d.Inside = geom.LeftNormal(way)
	for n := range innerPoints + 2 {
		x := l * float64(n) / (innerPoints + 1)
		dx, dy := r.Service.At(k, x)
		d.add(at.Add(from).Add(way.Mul(x)), geom.Vec{dx, dy}, r.Service.Lines[k].M(x), -r.Service.N[k])
	}
}

// floor draws the cross members, which hold the feet of the long walls apart:
// the larger push of the two goes into them.
func (s *sitter) floor(mid float64, walls ...*wallLoad) {
	var push box.Pair
	years := 0.0
	for _, w := range walls {
		if w.loaded {
			years = w.years
			push = box.Pair{ASD: math.Max(push.ASD, math.Abs(w.bottom.ASD)), LRFD: math.Max(push.LRFD, math.Abs(w.bottom.LRFD))}
		}
	}
	if push.ASD == 0 {
		return
	}
	c := &s.j.agedAt(years).cross
	d := Drawn{Part: crossSlot.part, Inside: geom.Vec{0, 1}, PerMetre: true}
	d.Beyond = errors.Is(c.why, steel.ErrRustedThrough) || c.why == nil && !held(math.Max(c.unit.ASD*push.ASD, c.unit.LRFD*push.LRFD))
	z := s.j.p.Box.Level + s.j.box.UnderClearance + s.j.side.bottom.H/2
	for _, x := range []float64{mid - c.in.Length/2, mid + c.in.Length/2} {
		d.add(geom.Vec{x, z}, geom.Vec{}, 0, push.ASD)
	}
	s.out.Members = append(s.out.Members, d)
}
