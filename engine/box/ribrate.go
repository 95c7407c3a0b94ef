package box

import (
	"math"

	"hillset/engine/frame"
	"hillset/engine/steel"
)

// strengthForm is how nominal strengths become available ones, and the factor
// that brings the loads to the ultimate level for second-order effects.
type strengthForm struct{ bend, axial, shear, panel, deck, raise float64 }

var (
	asdForm = strengthForm{
		bend: 1 / steel.OmegaBending, axial: 1 / steel.OmegaTube, shear: 1 / steel.OmegaTube, panel: 1 / steel.OmegaShear, deck: 1 / omegaDeck, raise: 1.6,
	}
	lrfdForm = strengthForm{bend: steel.PhiBending, axial: steel.PhiTube, shear: steel.PhiTube, panel: steel.PhiShear, deck: phiDeck, raise: 1}
)

// barStrength are the nominal strengths of a part.
// pe is the Euler load in the plane of the rib.
type barStrength struct{ mn, vn, pn, tn, pe float64 }

// rater sets solutions against the strengths of the parts.
type rater struct {
	in       Rib
	f        *ribFrame
	strength [ringParts]barStrength
	struts   []strutStrength
	along    []placed // of every member
	// sway holds the largest moment in every member under a unit push at the
	// roof, and stiff is the push that moves the roof by 1 m, kN/m. A pinned set
	// is held by the roof and does not sway.
	sway  []float64
	stiff float64
}

// placed is where a member lies along its part: from one place to another, m.
type placed struct{ l, from, to float64 }

// at turns a place along the member into one along its part.
func (p *placed) at(s float64) float64 { return p.from + (p.to-p.from)*(s/p.l) }

// newRater finds strengths and sway stiffness.
func (in Rib) newRater(f *ribFrame, k *frame.Stiffness) (*rater, error) {
	r := &rater{in: in, f: f}
	for p := range ringParts {
		bar := in.bar(p)
		if bar.Area == 0 {
			continue
		}
		var err error
		if r.strength[p], err = in.Steel.bar(bar, in.partLength(p)); err != nil {
			return nil, err
		}
	}
	for _, s := range in.Struts {
		one, err := in.strutStrength(s)
		if err != nil {
			return nil, err
		}
		r.struts = append(r.struts, one)
	}
	for k := range f.Members {
		r.along = append(r.along, f.placed(k))
	}
	if in.Pinned {
		return r, nil
	}
	lc := frame.LoadCase{Nodes: make([][3]float64, len(f.Nodes))}
	tops := f.tops()
	lc.Nodes[tops[0]][0], lc.Nodes[tops[1]][0] = 0.5, 0.5
	sol, err := k.Solve(lc)
	if err != nil {
		return nil, err
	}
	r.stiff = 2 / (sol.U[tops[0]][0] + sol.U[tops[1]][0])
	for k := range sol.Lines {
		r.sway = append(r.sway, math.Abs(sol.Lines[k].MMax))
	}
	return r, nil
}

// partLength is the length of a part of the ring, m.
func (in *Rib) partLength(p RibPart) float64 {
	if p == LeftPost || p == RightPost {
		return in.Height
	}
	return in.Width
}

// placed finds member k along its part: up from the floor for posts, from the
// left for roof beam and floor tie.
func (f *ribFrame) placed(k int) placed {
	m := f.Members[k]
	i, j := f.Nodes[m.I], f.Nodes[m.J]
	if p := f.parts[k]; p == LeftPost || p == RightPost {
		return placed{f.Length(k), i.Py, j.Py}
	}
	return placed{f.Length(k), i.Px, j.Px}
}

// bar is the bar of a part of the ring.
func (in Rib) bar(p RibPart) steel.Bar {
	return [ringParts]steel.Bar{LeftPost: in.Post, RightPost: in.Post, RoofBeam: in.Beam, FloorTie: in.Tie}[p]
}

// bar finds the nominal strengths of a bar of a length, bent about its x axis.
func (m Material) bar(bar steel.Bar, length float64) (s barStrength, err error) {
	if s.mn, err = bar.Moment(steel.X, m.Fy, m.E); err != nil {
		return s, err
	}
	if s.vn, err = bar.Shear(steel.X, m.Fy, m.E); err != nil {
		return s, err
	}
	s.pn, s.tn = math.Inf(1), bar.Area*m.Fy
	for _, axis := range []steel.Axis{steel.X, steel.Y} {
		c, err := bar.Column(axis, m.Fy, m.E, length)
		if err != nil {
			return s, err
		}
		s.pn = math.Min(s.pn, c.Pn)
		if axis == steel.X {
			s.pe = c.PE
		}
	}
	return s, nil
}

// amplify gives the sway amplification B2 for the load on the posts, kN, and the
// sideways push that the movement of the roof, m, stands for. B2 is +Inf when
// the load reaches what the rib can hold upright.
func (r *rater) amplify(load, move, raise float64) (b2, push float64) {
	if r.in.Pinned {
		return 1, 0
	}
	left := 1 - raise*load/(r.stiff*r.in.Height)
	if left <= 0 {
		return math.Inf(1), math.Abs(move) * r.stiff
	}
	return math.Max(1, 1/left), math.Abs(move) * r.stiff
}

// see rates every member under the forces of a combination, with the loads
// along the members, and keeps the worst of each part.
func (r *rater) see(s *ringForces, loads []frame.Load, name string, form *strengthForm, all *RibResult) {
	out, foot := &all.ASD, &all.Foot.ASD
	if form == &lrfdForm {
		out, foot = &all.LRFD, &all.Foot.LRFD
	}
	if len(r.f.floor) == 0 {
		*foot = max(*foot, math.Abs(s.feet[0]), math.Abs(s.feet[1]))
	}
	b2, push := r.amplify(s.load(r.f), s.move, form.raise)
	for k := range s.bars {
		part := r.f.parts[k]
		if part == CrossStrut {
			continue
		}
		extra := 0.0
		if push > 0 { // Inf times no sway is no moment
			extra = (b2 - 1) * push * r.sway[k]
		}
		r.seeMember(k, s.bars[k], frame.SpanExtremes(r.along[k].l, loads[k], s.bars[k].mi, s.bars[k].mj), extra,
			&PartRating{Combo: name, Amplified: b2}, form, &out[part])
	}
	for k, m := range r.f.struts {
		r.struts[k].see(-s.bars[m].n, name, form, &all.Struts[k])
	}
}

// seeMember rates a member with its two extreme moments, to which the sway adds
// extra, and keeps what is worse than the worst of its part.
func (r *rater) seeMember(k int, bar barForces, line frame.Extremes, extra float64, one *PartRating, form *strengthForm, worst *PartRating) {
	part := r.f.parts[k]
	st, along := &r.strength[part], &r.along[k]
	one.N, one.V = -bar.n, line.VMax
	bow := bowing(one.N*form.raise, st.pe)
	mc, axial := st.mn*form.bend, st.pn
	if one.N < 0 {
		axial = st.tn
	}
	force, shear := math.Abs(one.N)/(axial*form.axial), one.V/(st.vn*form.shear)
	other, at := line.MNeg, line.SNeg
	if line.MMax == line.MNeg {
		other, at = line.MPos, line.SPos
	}
	// The bow raises the smaller of the two moments at most to this.
	most := math.Abs(other)*bow + extra
	for _, m := range [2]struct{ m, s float64 }{{line.MMax, line.SMax}, {other, at}} {
		one.At = along.at(m.s)
		one.M = r.bent(part, m.m, extra, bow, one)
		one.Bending = math.Abs(one.M) / mc
		one.Ratio = max(steel.H1(force, 1, one.Bending, 1), shear)
		if one.Ratio > worst.Ratio || one.Ratio == worst.Ratio && m.m == line.MMax {
			*worst = *one
		}
		if most <= math.Abs(one.M) {
			break // the force is the same, so its ratio is no larger
		}
	}
}

// bent is a moment of a part with what its bow and the sway add: the bow adds to
// moments between the ends of the part, the sway to those of a rigid frame.
func (r *rater) bent(part RibPart, m, extra, bow float64, one *PartRating) float64 {
	grow := 1.0
	between := one.At > atEnd && one.At < r.in.partLength(part)-atEnd && !(part == FloorTie && r.in.Ground > 0)
	if r.in.Pinned || between {
		grow = bow
	}
	if r.in.Pinned {
		one.Amplified = grow
	}
	return bowed(m, grow) + math.Copysign(extra, m)
}

// atEnd is how near to the end of a part a place counts as its corner, m.
const atEnd = 1e-6

// bowing is how a force n along a bar, compression positive, raises the moment
// between its ends: 1/(1 − n/pe), +Inf at the Euler load, 1 in tension (AISC
// 360 App. 8, B1 with Cm 1, memory).
func bowing(n, pe float64) float64 {
	switch {
	case n <= 0:
		return 1
	case n >= pe:
		return math.Inf(1)
	}
	return 1 / (1 - n/pe)
}

// bowed is a moment that a force along the bar raises; nothing stays nothing at
// the Euler load.
func bowed(m, grow float64) float64 {
	if m == 0 {
		return 0
	}
	return m * grow
}
