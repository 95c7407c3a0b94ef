package box

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"hillset/engine/frame"
	"hillset/engine/steel"
)

// seeWhole is rater.see by the lines along the members of a solution: the second
// route of the ratings.
func (r *rater) seeWhole(s *frame.Solution, name string, form strengthForm, all *RibResult) {
	out := &all.ASD
	if form == lrfdForm {
		out = &all.LRFD
	}
	tops := r.f.tops()
	load := -s.N[r.f.member[0][0]] - s.N[r.f.member[1][0]]
	b2, push := r.amplify(load, (s.U[tops[0]][0]+s.U[tops[1]][0])/2, form.raise)
	for k := range s.Lines {
		line, part := &s.Lines[k], r.f.parts[k]
		if part == CrossStrut {
			continue
		}
		extra := 0.0
		if push > 0 {
			extra = (b2 - 1) * push * r.sway[k]
		}
		see(r, s, k, line.SPos, name, b2, extra, form, &out[part])
		see(r, s, k, line.SNeg, name, b2, extra, form, &out[part])
	}
	for k, m := range r.f.struts {
		r.struts[k].see(-s.N[m], name, map[bool]*strengthForm{false: &asdForm, true: &lrfdForm}[form == lrfdForm], &all.Struts[k])
	}
}

// see rates one place of a member.
func see(r *rater, s *frame.Solution, k int, x float64, name string, b2, extra float64, form strengthForm, out *PartRating) {
	part, l := r.f.parts[k], r.in.Width
	i, j := r.f.Nodes[r.f.Members[k].I], r.f.Nodes[r.f.Members[k].J]
	t := x / r.f.Length(k)
	at := i.Px + (j.Px-i.Px)*t
	if part == LeftPost || part == RightPost {
		l, at = r.in.Height, i.Py+(j.Py-i.Py)*t
	}
	grow := 1.0
	if r.in.Pinned || at > atEnd && at < l-atEnd && !(part == FloorTie && r.in.Ground > 0) {
		grow = bowing(-s.N[k]*form.raise, r.strength[part].pe)
	}
	m := s.Lines[k].M(x)
	m = bowed(m, grow) + math.Copysign(extra, m)
	st := &r.strength[part]
	axial := st.pn
	if s.N[k] > 0 {
		axial = st.tn
	}
	ratio := math.Max(steel.H1(math.Abs(s.N[k]), axial*form.axial, math.Abs(m), st.mn*form.bend), s.Lines[k].VMax/(st.vn*form.shear))
	if ratio > out.Ratio {
		*out = PartRating{Combo: name, M: m, N: -s.N[k], V: s.Lines[k].VMax, At: at, Ratio: ratio, Amplified: b2}
	}
}

// anyRib is a rib of any kind under any load.
func anyRib(rng *rand.Rand) Rib {
	in := rib(soil().Scale(rng.Float64()), soil().Scale(rng.Float64()))
	if rng.IntN(3) > 0 {
		in.Wales = [][]float64{{1.25}, {0.8, 1.7}, {0.6, 1.2, 1.8}}[rng.IntN(3)]
	}
	in.Dead, in.Live, in.Snow, in.Water = 40*rng.Float64(), 10*rng.Float64(), 2*rng.Float64()*float64(rng.IntN(2)), rng.Float64()
	if rng.IntN(2) == 0 {
		in.RoofSpan, in.Purlins = in.Width+0.1, [][]float64{{1.2}, {0.8, 1.6}}[rng.IntN(2)]
	}
	if rng.IntN(2) == 0 {
		in.Wheels = frame.Load{{S: 0.3, P: 20 * rng.Float64()}, {S: 0.9, P: 30 * rng.Float64()}, {S: 1.4, P: 0}}
	}
	if rng.IntN(2) == 0 {
		in.Left.Live = frame.Linear(8*rng.Float64(), 0, in.Height)
	}
	if rng.IntN(3) == 0 {
		in.Right.Water = frame.Load{{S: 0, P: 9 * rng.Float64()}, {S: 1, P: 0}}
	}
	if in.Pinned = rng.IntN(3) == 0; !in.Pinned && rng.IntN(3) == 0 {
		in.Ground = 3000 + 30000*rng.Float64()
	}
	if rng.IntN(3) == 0 {
		in.Struts = []CrossBar{{1.3, in.Beam}}
	}
	return in
}

// TestAnyRibAtOnce: ribs of every kind rated by the forces on the ends of their
// members are what the frame solved for the whole of every combination gives;
// in memory used for other loads before as in new.
func TestAnyRibAtOnce(t *testing.T) {
	rng := rand.New(rand.NewPCG(47, 48))
	bedded, pinned := 0, 0
	for range 300 {
		in := anyRib(rng)
		ready, err := in.Ready()
		if err != nil {
			t.Fatal(err)
		}
		on := OnRoof{in.Dead, in.Live, in.Snow, in.Water}
		if _, err := ready.Rate(in.Right, in.Left, OnRoof{Dead: 5, Live: 3}, nil); err != nil && !errors.Is(err, frame.ErrUnstable) {
			t.Fatal(err)
		}
		r, err := ready.Rate(in.Left, in.Right, on, in.Wheels)
		if errors.Is(err, frame.ErrUnstable) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		f := in.build()
		k, err := f.Factor()
		if err != nil {
			t.Fatal(err)
		}
		rt, err := in.newRater(&f, k)
		if err != nil {
			t.Fatal(err)
		}
		var kinds [4]ribLoads
		if err := in.kinds(&f, &kinds); err != nil {
			t.Fatal(err)
		}
		want := RibResult{Struts: make([]StrutRating, len(in.Struts))}
		for _, c := range allAllowable {
			rt.seeWhole(solveWhole(t, &f, k, combine(&kinds, c)), c.Name, asdForm, &want)
		}
		for _, c := range allStrength {
			rt.seeWhole(solveWhole(t, &f, k, combine(&kinds, c)), c.Name, lrfdForm, &want)
		}
		for p := range ringParts {
			near(t, "allowable ratio of the "+p.String(), r.ASD[p].Ratio, want.ASD[p].Ratio, 1e-9)
			near(t, "strength ratio of the "+p.String(), r.LRFD[p].Ratio, want.LRFD[p].Ratio, 1e-9)
		}
		for k, s := range want.Struts {
			near(t, "strut", r.Struts[k].ASD.Ratio, s.ASD.Ratio, 1e-9)
			near(t, "strut", r.Struts[k].LRFD.Ratio, s.LRFD.Ratio, 1e-9)
		}
		if in.Ground > 0 && r.Lifts {
			bedded++
		}
		if in.Pinned {
			pinned++
		}
		if t.Failed() {
			t.Fatalf("%+v", in)
		}
	}
	if bedded < 5 || pinned < 50 {
		t.Errorf("%d ribs lift off the ground and %d are pinned: the test sees too few of a kind", bedded, pinned)
	}
}

// solveWhole solves a rib's frame for a combination, the ground pushing only.
func solveWhole(t *testing.T, f *ribFrame, k *frame.Stiffness, lc frame.LoadCase) *frame.Solution {
	t.Helper()
	for n := range f.Nodes {
		if f.Nodes[n].Lift {
			s, _, err := f.SolveContact(lc)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
	}
	s, err := k.Solve(lc)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
