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
	// sway holds the largest moment in every member under a unit push at the
	// roof, and stiff is the push that moves the roof by 1 m, kN/m. A pinned set
	// is held by the roof and does not sway.
	sway  []float64
	stiff float64
}

// newRater finds strengths and sway stiffness.
func (in Rib) newRater(f *ribFrame, k *frame.Stiffness) (*rater, error) {
	r := &rater{in: in, f: f}
	for p := range ringParts {
		bar := in.bar(p)
		if bar.Area == 0 {
			continue
		}
		length := in.Width
		if p == LeftPost || p == RightPost {
			length = in.Height
		}
		var err error
		if r.strength[p], err = in.Steel.bar(bar, length); err != nil {
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
	if in.Pinned {
		return r, nil
	}
	lc := frame.LoadCase{Nodes: make([][3]float64, len(f.Nodes))}
	tops := [2]int{f.right[len(f.right)-1], f.left[len(f.left)-1]}
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

// amplify gives the sway amplification B2 of a solution and the sideways push
// that its sway stands for. +Inf when the posts' load reaches what the rib can
// hold upright.
func (r *rater) amplify(s *frame.Solution, raise float64) (b2, push float64) {
	if r.in.Pinned {
		return 1, 0
	}
	tops := [2]int{r.f.right[len(r.f.right)-1], r.f.left[len(r.f.left)-1]}
	move := (s.U[tops[0]][0] + s.U[tops[1]][0]) / 2
	load := 0.0
	for side := range 2 {
		load -= s.N[r.f.member[side][0]]
	}
	left := 1 - raise*load/(r.stiff*r.in.Height)
	if left <= 0 {
		return math.Inf(1), math.Abs(move) * r.stiff
	}
	return math.Max(1, 1/left), math.Abs(move) * r.stiff
}

// see rates every member under a solution and keeps the worst of each part.
func (r *rater) see(s *frame.Solution, name string, form strengthForm, all *RibResult) {
	out, foot := &all.ASD, &all.Foot.ASD
	if form == lrfdForm {
		out, foot = &all.LRFD, &all.Foot.LRFD
	}
	if len(r.f.floor) == 0 {
		*foot = math.Max(*foot, math.Max(math.Abs(s.React[r.f.left[0]][0]), math.Abs(s.React[r.f.right[0]][0])))
	}
	b2, push := r.amplify(s, form.raise)
	for k := range s.Lines {
		line, part := &s.Lines[k], r.f.parts[k]
		if part == CrossStrut {
			continue
		}
		extra := 0.0
		if push > 0 { // Inf times no sway is no moment
			extra = (b2 - 1) * push * r.sway[k]
		}
		other, at := line.MNeg, line.SNeg
		if line.MMax == line.MNeg {
			other, at = line.MPos, line.SPos
		}
		// The bow raises the smaller of the two moments at most to this.
		most := math.Abs(other)*bowing(-s.N[k]*form.raise, r.strength[part].pe) + extra
		for _, m := range [2]struct{ m, s float64 }{{line.MMax, line.SMax}, {other, at}} {
			one := PartRating{Combo: name, N: -s.N[k], V: line.VMax, Amplified: b2, At: r.place(k, m.s)}
			one.M = r.bent(part, m.m, extra, form, &one)
			if one.rate(&r.strength[part], form); one.Ratio > out[part].Ratio || one.Ratio == out[part].Ratio && m.m == line.MMax {
				out[part] = one
			}
			if most <= math.Abs(one.M) {
				break // the force is the same, so its ratio is no larger
			}
		}
	}
	for k, m := range r.f.struts {
		r.struts[k].see(-s.N[m], name, form, &all.Struts[k])
	}
}

// bent is a moment of a part with what its bow and the sway add: the bow adds to
// moments between the ends of the part, the sway to those of a rigid frame.
func (r *rater) bent(part RibPart, m, extra float64, form strengthForm, one *PartRating) float64 {
	l := r.in.Width
	if part == LeftPost || part == RightPost {
		l = r.in.Height
	}
	grow := 1.0
	between := one.At > atEnd && one.At < l-atEnd && !(part == FloorTie && r.in.Ground > 0)
	if r.in.Pinned || between {
		grow = bowing(one.N*form.raise, r.strength[part].pe)
	}
	if r.in.Pinned {
		one.Amplified = grow
	}
	return bowed(m, grow) + math.Copysign(extra, m)
}

// atEnd is how near to the end of a part a place counts as its corner, m.
const atEnd = 1e-6

// rate sets a rating against the strengths of its part.
func (one *PartRating) rate(st *barStrength, form strengthForm) {
	mc := st.mn * form.bend
	one.Bending = math.Abs(one.M) / mc
	axial := st.pn
	if one.N < 0 {
		axial = st.tn
	}
	one.Ratio = math.Max(steel.H1(math.Abs(one.N), axial*form.axial, math.Abs(one.M), mc), one.V/(st.vn*form.shear))
}

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

// place turns a place along member k into one along its part: up from the
// floor for posts, from the left for roof beam and floor tie.
func (r *rater) place(k int, s float64) float64 {
	m := r.f.Members[k]
	i, j := r.f.Nodes[m.I], r.f.Nodes[m.J]
	t := s / r.f.Length(k)
	if p := r.f.parts[k]; p == LeftPost || p == RightPost {
		return i.Py + (j.Py-i.Py)*t
	}
	return i.Px + (j.Px-i.Px)*t
}
