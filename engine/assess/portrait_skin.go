package assess

import (
	"math"

	"hillset/engine/frame"
	"hillset/engine/timber"
	"hillset/geom"
)

// skin draws what stands outside a loaded wall: one stud, and a metre of
// concrete. x is the outer face of the wall.
func (s *sitter) skin(w *wallLoad, x float64, inside geom.Vec) {
	if w.skin == nil {
		return
	}
	if s.j.outer[w.face].studs {
		s.stud(w, x, inside)
	}
	if s.j.outer[w.face].wall {
		s.concrete(w, x, inside)
	}
}

// stud draws one stud, its sag with the creep that its check counts.
func (s *sitter) stud(w *wallLoad, x float64, inside geom.Vec) {
	if w.skin.studFault != nil {
		s.miss("%s: %s", w.studPart(), reason(w.skin.studFault))
		return
	}
	r, pn, in := &w.skin.studs, s.j.wallOf(w.face), s.j.p.Strengthening
	row, _ := s.j.t.Lumber(timber.ID(in.Stud.Species, in.Stud.Size))
	most, creep := r.Worst(), 0.0
	if sag, _ := r.Beam.Sag(); sag != 0 {
		creep = r.Sag / math.Abs(sag)
	}
	d := Drawn{Part: w.studPart(), Inside: inside, Beyond: math.Max(most.ASD, most.LRFD) > 1 || r.Sag*s.j.sagLimit/pn.height() > 1}
	d.along(&r.Beam, geom.Vec{x - inside[0]*(in.Cavity.Width+row.D/2), pn.zBottom}, creep)
	s.out.Members = append(s.out.Members, d)
}

// concrete draws a metre of the concrete skin; how far it moves is not worked
// out.
func (s *sitter) concrete(w *wallLoad, x float64, inside geom.Vec) {
	if w.skin.wallFault != nil {
		s.miss("%s: %s", w.concretePart(), reason(w.skin.wallFault))
		return
	}
	r := &w.skin.wall
	d := Drawn{Part: w.concretePart(), Inside: inside, PerMetre: true, Beyond: r.Worst() > 1}
	d.along(&r.Beam, geom.Vec{x - inside[0]*s.j.p.Strengthening.Cavity.Width/2, s.j.p.Box.Level}, 0)
	s.out.Members = append(s.out.Members, d)
	s.miss("%s: how far it moves is not worked out", w.concretePart())
}

// along adds an upright span that stands on a place, its deflection times a
// factor.
func (d *Drawn) along(b *frame.Beam, foot geom.Vec, factor float64) {
	for i := range innerPoints + 2 {
		z := b.L * float64(i) / (innerPoints + 1)
		d.add(foot.Add(geom.Vec{0, z}), d.Inside.Mul(factor*b.W(z)), b.M(z), 0)
	}
}
