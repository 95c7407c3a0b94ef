package box

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
)

// pinnedRib is the rib of ST-12 with hinged joints and the bars asked for.
func pinnedRib(beam, tie bool, left, right frame.Load) Rib {
	in := rib(left, right)
	in.Pinned = true
	if !beam {
		in.Beam = steel.Bar{}
	}
	if !tie {
		in.Tie = steel.Bar{}
	}
	return in
}

// TestPinnedRib: every bar spans by itself: the posts are the pinned wall of
// the reference (section 4, derived), the roof beam a simple beam, and what the
// ends of the posts press goes into beam and tie, or into roof sheet and floor.
func TestPinnedRib(t *testing.T) {
	const p0, w, l, s, q = 5.4, 22.5, 2.50, 1.2, 10.0
	rt, rb := s*(p0*l/2+w*l/6), s*(p0*l/2+w*l/3)
	for k := range 4 {
		beam, tie := k&1 > 0, k&2 > 0
		in := pinnedRib(beam, tie, soil(), soil())
		in.Dead = q
		c, r := ring(t, in)
		if !strings.Contains(strings.Join(c.Assumptions, " "), "diaphragm") || r.Corner != 0 {
			t.Errorf("beam %v, tie %v: corner %g, assumptions %v", beam, tie, r.Corner, c.Assumptions)
		}
		z := (-p0 + math.Sqrt(p0*p0+2*w/l*rt/s)) * l / w // below the top
		m := rt*z - s*(p0*z*z/2+w*z*z*z/(6*l))
		for i, part := range r.Parts {
			line, n := &r.Service.Lines[i], -r.Service.N[i]
			switch part {
			case LeftPost, RightPost:
				near(t, "post", line.MPos, m, 1e-9)
				near(t, "post axial", n, q*2.40*s/2, 1e-9)
			case RoofBeam:
				near(t, "beam", line.MPos, q*s*2.40*2.40/8, 1e-9)
				near(t, "beam thrust", n, rt, 1e-6)
			case FloorTie:
				near(t, "tie thrust", n, rb, 1e-6)
			}
		}
		if tie == (r.Foot.ASD > 0) {
			t.Errorf("tie %v: the feet press the floor with %g", tie, r.Foot.ASD)
		}
		if !tie {
			near(t, "foot", r.Foot.ASD, rb, 1e-6)
			near(t, "foot, factored", r.Foot.LRFD, 1.6*rb, 1e-6)
		}
		if !beam && r.ASD[RoofBeam].Combo != "" || !tie && r.ASD[FloorTie].Combo != "" {
			t.Error("a bar that is not there is rated")
		}
		// Second order: the bow of the post under its axial force, by the solver.
		post := r.ASD[LeftPost]
		if beam && tie {
			f := frame.Frame{Nodes: []frame.Node{{X: true, Y: true}, {Py: l, X: true}}, Members: []frame.Member{{I: 0, J: 1, E: in.Steel.E, A: in.Post.Area, Iz: in.Post.Ix}}}
			fine, lc, _ := f.Refine(frame.LoadCase{Members: []frame.Load{soil().Scale(s)}}, 16)
			lc.Nodes = [][3]float64{{}, {0, -1.6 * post.N, 0}}
			sol, err := fine.SolveSecondOrder(lc)
			if err != nil {
				t.Fatal(err)
			}
			most := 0.0
			for i := range sol.Lines {
				most = math.Max(most, math.Abs(sol.Lines[i].MMax))
			}
			near(t, "B1", post.M, most, 1e-2)
		}
	}
	// One-sided: held by the roof it does not sway, and the posts of the other
	// side stay straight.
	_, r := ring(t, pinnedRib(true, true, soil(), nil))
	if math.Abs(r.Sway) > 1e-3 || r.ASD[RightPost].M != 0 {
		t.Errorf("pushed from the left it sways %g, the right post bends by %g", r.Sway, r.ASD[RightPost].M)
	}
	near(t, "the beam takes the push to the far side", r.ASD[RoofBeam].N, rt, 1e-6)
}

// TestWorstOfJoints: the same bars rigid and pinned under even earth: posts
// bend less between rigid corners, roof beams more at them.
func TestWorstOfJoints(t *testing.T) {
	pinned := pinnedRib(true, true, soil(), soil())
	_, p := ring(t, pinned)
	pinned.Pinned = false
	_, r := ring(t, pinned)
	if p.ASD[LeftPost].M <= 0.8*math.Abs(r.ASD[LeftPost].M) || math.Abs(p.ASD[RoofBeam].M) > 0.1*math.Abs(r.ASD[RoofBeam].M) {
		t.Errorf("posts %g and %g, beams %g and %g", p.ASD[LeftPost].M, r.ASD[LeftPost].M, p.ASD[RoofBeam].M, r.ASD[RoofBeam].M)
	}
}

func strutted(in Rib, heights ...float64) Rib {
	for _, h := range heights {
		in.Struts = append(in.Struts, CrossBar{Height: h, Bar: tube(60, 4)})
	}
	return in
}

// TestStrut: under even earth a strut at mid-height of pinned posts takes the
// middle reaction of a beam on three supports, by the three-moment equation, as
// long as it does not shorten; with wales at its height it takes what they
// bring. Under earth from one side it still balances.
func TestStrut(t *testing.T) {
	const s = 1.2
	for _, h := range []float64{1.0, 1.25, 1.6} {
		in := strutted(pinnedRib(true, true, soil(), soil()), h)
		stiff := in
		stiff.Struts = []CrossBar{{Height: h, Bar: tube(60, 4)}}
		stiff.Struts[0].Bar.Area = 0.5
		_, r := ring(t, stiff)
		want, err := frame.Reactions([]float64{0, h, 2.50}, soil().Scale(s))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "strut by three moments", r.Struts[0].ASD.N, want[1], 2e-3)
		_, r = ring(t, in)
		if n := r.Struts[0].ASD.N; n > want[1] || n < 0.9*want[1] {
			t.Errorf("a strut of real steel takes %g, one that does not shorten %g", n, want[1])
		}
		_, bare := ring(t, pinnedRib(true, true, soil(), soil()))
		if r.ASD[LeftPost].M > 0.45*bare.ASD[LeftPost].M {
			t.Errorf("the strut brings the post from %g to %g", bare.ASD[LeftPost].M, r.ASD[LeftPost].M)
		}
	}
	waled := strutted(rib(soil(), soil(), 0.8, 1.6), 0.82)
	_, r := ring(t, waled)
	if len(r.Frame.Nodes) != 8 {
		t.Errorf("a strut at a wale gives %d nodes, want 8", len(r.Frame.Nodes))
	}
	_, none := ring(t, rib(soil(), soil(), 0.8, 1.6))
	if r.Struts[0].ASD.N <= 0 || r.Corner >= none.Corner {
		t.Errorf("strut %g, corner %g after %g", r.Struts[0].ASD.N, r.Corner, none.Corner)
	}
}

// TestStrutBalance: random ribs with struts, unequal walls, rigid and pinned:
// what the walls push, the supports hold; at its node a strut takes exactly
// what the post's shear leaves.
func TestStrutBalance(t *testing.T) {
	rng := rand.New(rand.NewPCG(51, 52))
	for range 60 {
		in := strutted(rib(soil().Scale(rng.Float64()), soil().Scale(rng.Float64())), 0.5+0.5*rng.Float64(), 1.3+0.5*rng.Float64())
		in.Pinned = rng.IntN(2) == 0
		if rng.IntN(2) == 0 {
			in.Wales = []float64{0.9 + 0.2*rng.Float64()}
		}
		if in.Pinned && rng.IntN(2) == 0 {
			in.Beam = steel.Bar{}
		}
		if in.Pinned && rng.IntN(2) == 0 {
			in.Tie = steel.Bar{}
		}
		in.Dead = 8 * rng.Float64()
		r, err := in.Solve()
		if err != nil {
			t.Fatal(err)
		}
		var x, y, m float64
		for n, re := range r.Service.React {
			x, y = x+re[0], y+re[1]
			m += r.Frame.Nodes[n].Px*re[1] - r.Frame.Nodes[n].Py*re[0]
		}
		lw, _ := in.Left.Service().Total()
		rw, _ := in.Right.Service().Total()
		if math.Abs(x-(rw-lw)*in.Spacing) > 1e-6 || math.Abs(y-in.Dead*in.Width*in.Spacing) > 1e-6 {
			t.Errorf("supports hold %g, %g; the loads are %g, %g", x, y, (lw-rw)*in.Spacing, in.Dead*in.Width*in.Spacing)
		}
		if in.Pinned && len(in.Wales) == 0 {
			// What the roof holds is the moments of both walls about the floor over
			// the height, struts or none: the push that the deck check takes.
			push := 0.0
			for n, re := range r.Service.React {
				if r.Frame.Nodes[n].Py > 0 {
					push -= re[0]
				}
			}
			want := 0.0
			for sign, ld := range map[float64]frame.Load{1: in.Left.Earth, -1: in.Right.Earth} {
				w, at := ld.Total()
				want += sign * w * at / in.Height * in.Spacing
			}
			if math.Abs(push-want) > 1e-6 {
				t.Errorf("the roof holds %g, by moments %g", push, want)
			}
		}
	}
}

// TestStrutCheck: a strut by hand: SHS 60x4 over 2.4 m, Fy 345, E 200 000: A
// 855 mm2, i 22.6 mm, KL/r 106.2, Fe 175.0 MPa, Fn 0.658^(345/175)·345 = 151.2, Pn 129.3
// kN, PE 149.6; own weight 0.0658 kN/m gives 0.0474 kNm, the side load 0.30;
// Mn 17.64 cm3·345 = 6.09 (section table of the structure reference, derived).
func TestStrutCheck(t *testing.T) {
	in := strutted(rib(soil(), soil()), 1.25)
	st, err := in.strutStrength(in.Struts[0])
	if err != nil {
		t.Fatal(err)
	}
	near(t, "KL/r", st.klr, 2400/22.6, 5e-3)
	near(t, "Pn", st.pn, 129.3, tol1)
	near(t, "Mn", st.mnx, 6.09, tol05)
	near(t, "own weight", st.dead, 0.0474, tol1)
	near(t, "side load", st.side, 0.5*2.4/4, exact)
	var one StrutRating
	st.see(20, "D", &asdForm, &one)
	n, grow := 20/(129.3/1.67), 1/(1-1.6*20/st.pex)
	near(t, "H1-1 by hand", one.ASD.Ratio, n+8.0/9*(0.0474+0.30)*grow/(6.09/1.67), tol1)
	st.see(-20, "D", &asdForm, &StrutRating{})
	st.see(st.pex, "D", &asdForm, &one)
	if !math.IsInf(one.ASD.Ratio, 1) {
		t.Errorf("near its Euler load a strut has ratio %g", one.ASD.Ratio)
	}

	c, r, err := StrutCheck(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	at, ratio := r.WorstStrut()
	if at != 0 || ratio.ASD != c.Ratio || c.RatioLRFD <= 0 {
		t.Errorf("strut %d, %v; check %g, %g", at, ratio, c.Ratio, c.RatioLRFD)
	}
	in.Spacing = 4
	if c, _, _ = StrutCheck(in); c.Worst() <= 1 || len(c.RemedyQ) != 1 {
		t.Errorf("four times the load: %g, %q", c.Worst(), c.Remedy)
	}
	if _, _, err := StrutCheck(rib(soil(), soil())); !errors.Is(err, quantity.ErrRange) {
		t.Errorf("a strut that is not there: %v", err)
	}
}

// TestKitRefuses: struts, grounds and missing bars that make no sense name what
// is wrong.
func TestKitRefuses(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		spoil func(*Rib)
		field string
	}{
		"strut in the beam":  {func(r *Rib) { *r = strutted(*r, 2.45) }, "height of cross strut 1"},
		"strut in the tie":   {func(r *Rib) { *r = strutted(*r, 0.05) }, "height of cross strut 1"},
		"strut on a strut":   {func(r *Rib) { *r = strutted(*r, 1, 1.03) }, "height of cross strut 2"},
		"falling struts":     {func(r *Rib) { *r = strutted(*r, 1.5, 1) }, "height of cross strut 2"},
		"NaN strut":          {func(r *Rib) { *r = strutted(*r, nan) }, "height of cross strut 1"},
		"strut of nothing":   {func(r *Rib) { *r = strutted(*r, 1); r.Struts[0].Bar.Area = 0 }, "area of cross strut 1"},
		"rigid without beam": {func(r *Rib) { r.Beam = steel.Bar{} }, "rib roof beam area"},
		"rigid without tie":  {func(r *Rib) { r.Tie = steel.Bar{} }, "rib floor tie area"},
		"purlins on nothing": {func(r *Rib) { r.Pinned, r.Beam, r.RoofSpan, r.Purlins = true, steel.Bar{}, 2.5, []float64{1.2} }, "purlins without a roof beam"},
		"NaN ground":         {func(r *Rib) { r.Ground = nan }, "subgrade modulus"},
		"ground, no tie":     {func(r *Rib) { r.Pinned, r.Tie, r.Ground = true, steel.Bar{}, 1e4 }, "floor tie area on the ground"},
		"ground twice":       {func(r *Rib) { r.Ground, r.FloorUp = 1e4, 3 }, "floor pressure"},
		"pressed, no tie":    {func(r *Rib) { r.Pinned, r.Tie, r.FloorUp = true, steel.Bar{}, 3 }, "floor pressure"},
	} {
		in := rib(soil(), soil())
		c.spoil(&in)
		if _, _, err := RibRing(in); !errors.Is(err, quantity.ErrRange) || !strings.Contains(err.Error(), c.field) {
			t.Errorf("%s: %v, want it to name the %s", name, err, c.field)
		}
	}
}
