package box

import (
	"math"

	"hillset/engine/frame"
	"hillset/engine/steel"
)

// strengthForm is how nominal strengths become available ones, and the factor
// that brings the loads to the ultimate level for second-order effects.
type strengthForm struct{ bend, axial, shear, raise float64 }

var (
	asdForm = strengthForm{
		bend: 1 / steel.OmegaBending, axial: 1 / steel.OmegaTube, shear: 1 / steel.OmegaTube, raise: 1.6,
	}
	lrfdForm = strengthForm{bend: steel.PhiBending, axial: steel.PhiTube, shear: steel.PhiTube, raise: 1}
)

// barStrength are the nominal strengths of a part.
type barStrength struct{ mn, vn, pn, tn float64 }

// rater sets solutions against the strengths of the parts.
type rater struct {
	in       Rib
	f        *ribFrame
	strength [ribParts]barStrength
	// sway holds the largest moment in every member under a unit push at the
	// roof, and stiff is the push that moves the roof by 1 m, kN/m.
	sway  []float64
	stiff float64
}

// newRater finds strengths and sway stiffness.
func (in Rib) newRater(f *ribFrame, k *frame.Stiffness) (*rater, error) {
	r := &rater{in: in, f: f}
	for p, bar := range map[RibPart]steel.Bar{LeftPost: in.Post, RightPost: in.Post, RoofBeam: in.Beam, FloorTie: in.Tie} {
		length := in.Width
		if p == LeftPost || p == RightPost {
			length = in.Height
		}
		s := &r.strength[p]
		var err error
		if s.mn, err = bar.Moment(steel.X, in.Steel.Fy, in.Steel.E); err != nil {
			return nil, err
		}
		if s.vn, err = bar.Shear(steel.X, in.Steel.Fy, in.Steel.E); err != nil {
			return nil, err
		}
		s.pn, s.tn = math.Inf(1), bar.Area*in.Steel.Fy
		for _, axis := range []steel.Axis{steel.X, steel.Y} {
			c, err := bar.Column(axis, in.Steel.Fy, in.Steel.E, length)
			if err != nil {
				return nil, err
			}
			s.pn = math.Min(s.pn, c.Pn)
		}
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

// amplify gives the sway amplification B2 of a solution and the sideways push
// that its sway stands for. +Inf when the posts' load reaches what the rib can
// hold upright.
func (r *rater) amplify(s *frame.Solution, raise float64) (b2, push float64) {
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
func (r *rater) see(s *frame.Solution, name string, form strengthForm, out *[ribParts]PartRating) {
	b2, push := r.amplify(s, form.raise)
	for k := range s.Lines {
		line, part := &s.Lines[k], r.f.parts[k]
		one := PartRating{Combo: name, N: -s.N[k], V: line.VMax, Amplified: b2}
		extra := 0.0
		if push > 0 { // Inf times no sway is no moment
			extra = (b2 - 1) * push * r.sway[k]
		}
		one.M = line.MMax + math.Copysign(extra, line.MMax)
		one.At = r.place(k, line.SMax)
		st := r.strength[part]
		mc := st.mn * form.bend
		one.Bending = math.Abs(one.M) / mc
		axial := st.pn
		if one.N < 0 {
			axial = st.tn
		}
		one.Ratio = math.Max(steel.H1(math.Abs(one.N), axial*form.axial, math.Abs(one.M), mc), one.V/(st.vn*form.shear))
		if one.Ratio >= out[part].Ratio {
			out[part] = one
		}
	}
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
