package box

import (
	"errors"
	"math"
	"testing"

	"hillset/engine/frame"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

func postOf(t testing.TB, id string) steel.Post {
	t.Helper()
	row, ok := tables.Default().Post(id)
	if !ok {
		t.Fatalf("no post %s", id)
	}
	p, err := steel.PostProps(row)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func endPost(t testing.TB) EndPost {
	return EndPost{Post: postOf(t, "front"), Steel: corten, Strength: 923, Span: 2.473, Width: 0.162}
}

// TestEndPost: statics against the beam tables (pL²/8, P·a·b/L), strengths by
// hand, and the interaction put together again from its parts.
func TestEndPost(t *testing.T) {
	in := endPost(t)
	l := in.Span
	in.Face = Pressures{Earth: frame.Uniform(20, l)}
	c, r, err := BlindEndPost(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "even pressure on its face", r.M, 20*0.162*l*l/8, exact)
	near(t, "half to the top", r.Top, 20*0.162*l/2, exact)
	near(t, "without axial load: bending alone", c.Ratio, r.M*1.67/(in.Post.Sx*345e3), exact)
	near(t, "load factors", c.RatioLRFD, 1.6*r.M/(0.9*in.Post.Sx*345e3), exact)

	in.Face, in.Bars = Pressures{}, []PostPush{{At: 0.8, P: 30}, {At: l, P: 17}}
	_, r, err = BlindEndPost(in)
	if err != nil {
		t.Fatal(err)
	}
	// The end of a bar presses over 60 mm: P·c/8 less than at a point.
	near(t, "one wale", r.M, 30*0.8*(l-0.8)/l-30*pushWidth/8, 3e-3) // its largest moment lies beside the middle of the bar
	near(t, "all that arrives", r.Top+r.Bottom, 47, exact)
	near(t, "the header goes straight to the casting", r.Top, 17+30*0.8/l, exact)

	in.Axial = Effects{D: 60, L: 20, S: 5}
	c, r, err = BlindEndPost(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	if c.Case != "D + H + F + L" || c.CaseLRFD != "1.2(D + F) + 1.6(L + H) + 0.5S" {
		t.Errorf("cases %q, %q", c.Case, c.CaseLRFD)
	}
	m2 := math.Abs(r.M) / (1 - 1.6*80/r.PE)
	near(t, "P", r.P.ASD, 80, exact)
	near(t, "M with P", r.Mom.ASD, m2, exact)
	near(t, "H1-1b", c.Ratio, 80*1.67/(2*r.Pn)+m2*1.67/r.Mn, exact)
	if !(r.Pn <= 923) {
		t.Errorf("strength %g above the bound of the table", r.Pn)
	}
	in.Axial.D = 900 // beyond the strength of the post: the bars hardly count
	c, _, err = BlindEndPost(in)
	if err != nil || c.Ratio < 900*1.67/923 {
		t.Errorf("%g, %v", c.Ratio, err)
	}
	in.Bars[0].At = 9
	if _, _, err := BlindEndPost(in); err == nil {
		t.Error("a bar beyond the post is taken")
	}
}

// onSprings is the force at which a strut of a length on springs loses its
// stiffness in a second-order frame, kN, looked for about a guess; cuts have no
// springs.
func onSprings(t *testing.T, b steel.Bar, stiff, l float64, cuts []RoofCut, guess float64) float64 {
	t.Helper()
	const n = 120
	stable := func(p float64) bool {
		f := frame.Frame{}
		for k := range n + 1 {
			x := l * float64(k) / n
			half := l / n / 2
			nd := frame.Node{Px: x, KY: stiff * 2 * half}
			for _, c := range cuts {
				nd.KY = math.Max(0, nd.KY-stiff*math.Max(0, math.Min(x+half, c.To)-math.Max(x-half, c.From)))
			}
			nd.X = k == 0
			nd.Y = k == 0 || k == n
			f.Nodes = append(f.Nodes, nd)
		}
		lc := frame.LoadCase{Nodes: make([][3]float64, n+1)}
		for k := range n {
			f.Members = append(f.Members, frame.Member{I: k, J: k + 1, E: 200e6, A: b.Area, Iz: b.Ix})
			lc.Nodes[k][1] = 1e-4 * math.Sin(float64(k*k)) // a push in every shape
		}
		lc.Nodes[n][0] = -p
		_, err := f.SolveSecondOrder(lc)
		if err != nil && !errors.Is(err, frame.ErrUnstable) {
			t.Fatal(err)
		}
		return err == nil
	}
	lo, hi := 0.3*guess, 2*guess
	for range 12 {
		if mid := (lo + hi) / 2; stable(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// TestBeddedStrut: a second route for a strut on an elastic bed. A long strut
// on many springs loses its stiffness within a few per cent of 2·√(k·E·I).
func TestBeddedStrut(t *testing.T) {
	b := tube(60, 3)
	const stiff, l = 400.0, 6.0
	s, err := beddedStrut(b, corten, bed{Stiff: stiff, Length: l})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "formula", s.Pcr, 2*math.Sqrt(stiff*200e6*b.Ix), exact)
	near(t, "critical load of the frame", onSprings(t, b, stiff, l, nil, s.Pcr), s.Pcr, 0.03)
	if !(s.Pn < b.Area*345e3) || s.Pn > s.Pcr {
		t.Errorf("strength %g of %g and %g", s.Pn, b.Area*345e3, s.Pcr)
	}
}

func racking() Racking {
	return Racking{Push: Pair{30, 48}, Rail: tube(60, 3), RailSteel: corten, Bed: 4e4, Strength: 923, Length: 5.88,
		Side: Panel{Profile: profile(rowS1), Steel: corten, Height: 2.35}}
}

// TestRacking: by hand on a 20 ft box (statics; Easley as in the deck check).
func TestRacking(t *testing.T) {
	in := racking()
	c, r, err := EndPush(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "shear flow", r.V.ASD, 30/5.88, exact)
	near(t, "couple", r.Couple.ASD, 30*2.35/5.88, exact)
	near(t, "rail alone", r.RailRatio.ASD, 30*1.67/r.Strut.Pn, exact) // above 0.2
	// The same sheet as a deck of width h buckles at the same shear flow.
	d := deck()
	d.Profile, d.Width = in.Side.Profile, in.Side.Height
	_, dr, err := Diaphragm(d)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "buckling of the sheet", r.Panel.Whole, dr.BuckleV, exact)
	near(t, "yield of the sheet", r.Panel.Flat, 0.6*345e3*1.6e-3, exact)
	open := in
	open.Open = 1.2
	_, o, err := EndPush(open)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "openings take their share", o.V.ASD/r.V.ASD, 5.88/4.68, exact)
	in.RailBend = Pair{0.8, 0.85}
	c, r, err = EndPush(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "rail bent and pressed", r.RailRatio.ASD, 0.8*8/9+30*1.67/r.Strut.Pn, exact)
	in.Post = Effects{D: 520}
	c, r, err = EndPush(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "far post", c.Ratio, (520+r.Couple.ASD)*1.67/923, exact)
	for _, bad := range []func(*Racking){
		func(x *Racking) { x.Length = 0 }, func(x *Racking) { x.Bed = 0 }, func(x *Racking) { x.Push.ASD = math.NaN() },
		func(x *Racking) { x.Open = 6 }, func(x *Racking) { x.Side.Height = 9 }, func(x *Racking) { x.Strength = 0 },
	} {
		x := racking()
		bad(&x)
		if _, _, err := EndPush(x); err == nil {
			t.Errorf("taken: %+v", x)
		}
	}
}

// TestPanel: a thin sheet buckles in its flats before it yields, and what goes
// together is never less than either.
func TestPanel(t *testing.T) {
	p := Panel{Profile: profile(rowE1), Steel: corten, Height: 2.35}
	last := 0.0
	for _, mm := range []float64{0.4, 0.6, 0.8, 1.0, 1.3, 1.6, 2.0} {
		p.Profile.T = mm * 1e-3
		s, err := p.Strength()
		if err != nil {
			t.Fatal(err)
		}
		yield := 0.6 * 345e3 * mm * 1e-3
		// Elastic buckling of a long flat, 5.34·π²E/(12(1-ν²))(t/b)², ν = 0.3.
		elastic := 5.34 * math.Pi * math.Pi * 203e6 / (12 * 0.91) * math.Pow(mm/110, 2) * mm * 1e-3
		if s.Flat > yield*(1+exact) || s.Flat > 1.005*elastic {
			t.Errorf("%g mm: %g above yield %g or buckling %g", mm, s.Flat, yield, elastic)
		}
		if s.Flat <= last {
			t.Errorf("%g mm is no stronger than less", mm)
		}
		last = s.Flat
		v := s.Available().Times(0.6)
		both := s.Together(v, Pair{0.5, 0.5})
		if both.ASD < 0.6 || both.LRFD < 0.6 || both.ASD > 1.1+exact {
			t.Errorf("%g mm: together %+v", mm, both)
		}
		near(t, "bending alone", s.Together(Pair{}, Pair{0.7, 0.8}).LRFD, 0.8, exact)
		near(t, "shear alone", s.Together(v, Pair{}).ASD, 0.6, exact)
	}
}
