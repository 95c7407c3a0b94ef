package box

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/quantity"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// TestRailSpacings: largest spacing of ribs for the hollow sections of the
// structure reference, section 3, as wales: L = √(n·Wpl·Fy/(1.67·w)) with the
// allowable moments printed there (derived), and the same for single spans.
func TestRailSpacings(t *testing.T) {
	const w = 18.0
	for _, c := range []struct{ h, t, ma float64 }{
		{50, 3, 1.94}, {50, 4, 2.42}, {60, 3, 2.88}, {60, 4, 3.64}, {75, 4, 5.94}, {75, 5, 7.12}, {80, 5, 8.21}, {100, 5, 13.3}, {100, 6, 15.5},
	} {
		for _, form := range []struct {
			spans int
			n     float64
		}{{1, 8}, {2, 8}, {3, 10}, {12, 10}} {
			in := Rail{Bar: tube(c.h, c.t), Steel: corten, Span: 1, Spans: form.spans, Load: Pair{w, 1.6 * w}}
			_, r, err := Wale(in)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "spacing", r.MaxSpan.ASD, math.Sqrt(form.n*c.ma/w), tol05)
			// Load factors ask 1.6/(0.9·1.67) more: 3.2 % less spacing.
			near(t, "by load factors", r.MaxSpan.LRFD/r.MaxSpan.ASD, math.Sqrt(0.9*1.67/1.6), exact)
			near(t, "modulus needed", r.NeedModulus*345e3*0.9, 1.6*w/form.n, exact)
		}
	}
}

// TestOldTopRail: the flat of older boxes bends sideways over its 12 mm, and
// is far weaker than the hollow rail.
func TestOldTopRail(t *testing.T) {
	flat, err := steel.BarProps(tables.Bar{Shape: steel.Flat, H: 50e-3, B: 12e-3, T: 12e-3})
	if err != nil {
		t.Fatal(err)
	}
	_, r, err := TopRail(Rail{Bar: flat, Steel: corten, Span: 1, Spans: 3, Load: Pair{15.12, 24.19}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "My", r.Mn, 50*12*12/6.0*1e-9*345e3, exact)
	_, hollow, _ := TopRail(Rail{Bar: tube(60, 3), Steel: corten, Span: 1, Spans: 3, Load: Pair{15.12, 24.19}})
	if hollow.MaxSpan.ASD < 2*r.MaxSpan.ASD {
		t.Errorf("flat spans %g, hollow rail %g", r.MaxSpan.ASD, hollow.MaxSpan.ASD)
	}
}

// TestBestWale compares the wale of the remedy with a fine search.
func TestBestWale(t *testing.T) {
	for _, ld := range []frame.Load{
		frame.Uniform(12, 2.4), frame.Linear(27, 5.4, 2.4), frame.Linear(40, 0, 2.4), {{S: 0, P: 45}, {S: 1.8, P: 0}},
	} {
		in := strip(2.4, ld)
		c, _, err := SideSheet(in)
		if err != nil {
			t.Fatal(err)
		}
		best := math.Inf(1)
		for h := 0.2; h < 2.2; h += 0.02 {
			r, err := strip(2.4, ld, h).Solve()
			if err != nil {
				t.Fatal(err)
			}
			best = math.Min(best, r.worst())
		}
		if got := c.RemedyQ[1].Val; got < best*(1-1e-9) || got > 1.25*best {
			t.Errorf("the remedy leaves %g, a search finds %g", got, best)
		}
		if c.Worst() < 1.8*c.RemedyQ[1].Val {
			t.Errorf("a wale brings %g only to %g", c.Worst(), c.RemedyQ[1].Val)
		}
	}
}

// TestGoverning: which limit state decides shows in demand and capacity.
func TestGoverning(t *testing.T) {
	for _, c := range []struct {
		name string
		in   Strip
		sym  string
		kind quantity.Kind
	}{
		{"bending between supports", strip(2.4, frame.Uniform(5, 2.4)), "M", quantity.LineMoment},
		{"pushed outward", strip(2.4, frame.Uniform(-5, 2.4)), "M", quantity.LineMoment},
		{"shear at a support", strip(2.4, frame.Uniform(3000, 0.04)), "V", quantity.LineLoad},
		{"bending with shear over a wale", strip(2.4, frame.Uniform(20, 2.4), 1.2), "√(rM² + rV²)", quantity.Ratio},
		{"a wale far off", strip(2.4, frame.Uniform(20, 2.4), 0.3), "√(rM² + rV²)", quantity.Ratio},
		{"load far from the wale", strip(2.4, frame.Load{{S: 1.8, P: 9}, {S: 2.3, P: 9}}, 0.3), "M", quantity.LineMoment},
	} {
		got, r, err := SideSheet(c.in)
		if err != nil {
			t.Fatal(err)
		}
		sane(t, got)
		if c.name == "a wale far off" && r.FieldRatio.ASD > r.TogetherRatio.ASD {
			c.sym, c.kind = "M", quantity.LineMoment
		}
		if got.Demand.Sym != c.sym || got.Demand.Kind != c.kind || got.Capacity.Kind != c.kind {
			t.Errorf("%s: demand %+v, capacity %+v", c.name, got.Demand, got.Capacity)
		}
	}
}

// TestReactionsBalance: every wall gives all of its load to its supports, at
// the height where it acts, in service and factored.
func TestReactionsBalance(t *testing.T) {
	for _, wales := range [][]float64{nil, {0.4}, {1.2}, {0.8, 1.6}, {0.5, 1.0, 1.5, 2.0}} {
		in := strip(2.4, frame.Load{{S: 0, P: 30}, {S: 1, P: 18}, {S: 1, P: 12}, {S: 2.2, P: 0}}, wales...)
		in.Load.Live = frame.Load{{S: 1.4, P: 0}, {S: 1.9, P: 6}, {S: 2.4, P: 2}}
		r, err := in.Solve()
		if err != nil {
			t.Fatal(err)
		}
		whole, at := in.Load.Service().Total()
		sum, arm := r.Bottom.ASD+r.Top.ASD, r.Top.ASD*2.4
		lrfd := r.Bottom.LRFD + r.Top.LRFD
		for k, w := range r.Wales {
			sum, arm, lrfd = sum+w.ASD, arm+w.ASD*wales[k], lrfd+w.LRFD
		}
		near(t, "sum", sum, whole, exact)
		near(t, "height", arm/sum, at, exact)
		near(t, "factored", lrfd, 1.6*whole, exact)
	}
}

// TestDeckByBeam: N and v of the diaphragm are those of a simple beam of the
// roof's length under the push, moment over depth and shear over depth.
func TestDeckByBeam(t *testing.T) {
	for _, l := range []float64{2.8, 5.85, 12} {
		in := deck()
		in.Length = l
		_, r, err := Diaphragm(in)
		if err != nil {
			t.Fatal(err)
		}
		b, err := frame.Simple(l, frame.Uniform(15.12, l), 1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "N", r.N.ASD, b.MMax/2.40, exact)
		near(t, "v", r.Shear.ASD, b.Ra/2.40, exact)
		near(t, "end", r.End.ASD, b.Ra, exact)
		near(t, "factored", r.N.LRFD, 1.6*r.N.ASD, exact)
	}
	thin := deck()
	thin.Profile.T = 1e-3
	_, a, _ := Diaphragm(deck())
	_, b, err := Diaphragm(thin)
	if err != nil || b.BuckleV >= a.BuckleV || b.YieldV != a.YieldV/2 {
		t.Errorf("half the thickness: buckling %g after %g, yield %g after %g (%v)", b.BuckleV, a.BuckleV, b.YieldV, a.YieldV, err)
	}
}

// TestPostShares: the four shares of an eccentric load add up to the whole,
// and the check takes the largest.
func TestPostShares(t *testing.T) {
	for _, c := range []struct{ ex, ey float64 }{{0, 0}, {0.5, 0}, {0, 0.3}, {1.1, -0.4}, {-2, 0.2}} {
		in := Post{Strength: 923, Dead: 100, Length: 5.853, Width: 2.259, EccX: c.ex, EccY: c.ey}
		_, r, err := CornerPost(in)
		if err != nil {
			t.Fatal(err)
		}
		sum, most := 0.0, 0.0
		for _, sx := range []float64{-1, 1} {
			for _, sy := range []float64{-1, 1} {
				one := (1 + sx*2*c.ex/in.Length) * (1 + sy*2*c.ey/in.Width) / 4
				sum, most = sum+one, math.Max(most, one)
			}
		}
		near(t, "sum of shares", sum, 1, exact)
		near(t, "largest share", r.Share, most, exact)
	}
}

// TestRibPlaces: places along parts run up from the floor and across from the
// left, whichever way the members run.
func TestRibPlaces(t *testing.T) {
	// One-sided soil from the left bends the left post most at its foot or
	// head; a load on a strip of the wall bends it there.
	at := frame.Load{{S: 0.9, P: 30}, {S: 1.1, P: 30}}
	for side, in := range []Rib{rib(at, nil), rib(nil, at)} {
		in.Tie.Ix, in.Beam.Ix = 1e-3, 1e-3 // stiff: the post is nearly fixed at both ends
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
		s, err := k.Solve(combine(&kinds, Allowable[1]))
		if err != nil {
			t.Fatal(err)
		}
		m := f.member[1-side][0]
		line := &s.Lines[m]
		if y := rt.along[m].at(line.SPos); math.Abs(y-1) > 0.11 {
			t.Errorf("the load at 1 m bends the %s at %g", f.parts[m], y)
		}
		if want := [2]RibPart{LeftPost, RightPost}[side]; f.parts[m] != want {
			t.Errorf("side %d is the %s", side, f.parts[m])
		}
	}
	in := rib(nil, nil)
	f := in.build()
	beam, tie := f.placed(f.roof), f.placed(f.floor[0])
	near(t, "roof beam runs from the right", beam.at(0.4), 2.0, exact)
	near(t, "floor tie runs from the left", tie.at(0.4), 0.4, exact)
}

// TestRibNoLoad: a rib without load has no ratio above nought and no remedy.
func TestRibNoLoad(t *testing.T) {
	c, r, err := RibRing(rib(nil, nil))
	if err != nil {
		t.Fatal(err)
	}
	if c.Ratio != 0 || c.RatioLRFD != 0 || c.Remedy != "" || r.Corner != 0 || r.Sway != 0 || c.Verdict() != check.Within {
		t.Errorf("%+v", c)
	}
	if len(r.Parts) != len(r.Frame.Members) {
		t.Errorf("%d parts of %d members", len(r.Parts), len(r.Frame.Members))
	}
}

// TestRoofBeamUplift: the floor tie and the roof beam are rated too: a roof
// load alone governs the beam, an upward floor pressure the tie.
func TestRoofBeamUplift(t *testing.T) {
	in := rib(nil, nil)
	in.Dead = 25
	c, r := ring(t, in)
	if part, _ := r.Worst(); part == FloorTie || !strings.Contains(strings.Join(c.Assumptions, " "), "troughs") {
		t.Errorf("roof load alone governs the %s; assumptions %v", part, c.Assumptions)
	}
	in.FloorUp, in.Dead = 60, 0
	in.Tie = tube(75, 4)
	_, r = ring(t, in)
	if part, _ := r.Worst(); part != FloorTie {
		t.Errorf("floor pressure alone governs the %s", part)
	}
}

// TestSagLimits: the stricter limit of a lined wall divides the ratio.
func TestSagLimits(t *testing.T) {
	in := strip(2.4, frame.Uniform(4, 2.4))
	a, _, err := SheetDeflection(in, SagLimit)
	if err != nil {
		t.Fatal(err)
	}
	b, _, err := SheetDeflection(in, SagLimitLined)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "lined", b.Ratio/a.Ratio, 1.5, exact)
	near(t, "bow", a.Demand.Val, 5*4*math.Pow(2.4, 4)/(384*65.66), tol05)
	if !math.IsNaN(a.RatioLRFD) || a.Worst() != a.Ratio {
		t.Errorf("deflection has a load-factor ratio %g", a.RatioLRFD)
	}
	waled, r, err := SheetDeflection(strip(2.4, frame.Uniform(4, 2.4), 1.2), SagLimit)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "span of the limit", waled.Capacity.Val, 1.2/120, exact)
	near(t, "two-span bow", waled.Demand.Val, 4*math.Pow(1.2, 4)/(184.6*r.EI), 2e-3)
}

// TestSagOfTheShortSpan: beside a longer span that bows more, a short one under
// more earth can be nearer to the limit, which goes by its own length.
func TestSagOfTheShortSpan(t *testing.T) {
	in := strip(2.4, frame.Load{{S: 0, P: 30}, {S: 0.7, P: 30}, {S: 0.7, P: 4}, {S: 2.4, P: 4}}, 0.7, 1.2)
	c, r, err := SheetDeflection(in, SagLimit)
	if err != nil {
		t.Fatal(err)
	}
	all, _, longest := r.Line.Sag()
	most := 0.0
	for k := range r.Line.Spans {
		w, _ := r.Line.Spans[k].Sag()
		v := math.Abs(w) * SagLimit / r.Line.Spans[k].L
		most = math.Max(most, v)
	}
	if v := math.Abs(all) * SagLimit / r.Line.Spans[longest].L; v > 0.95*most {
		t.Fatalf("the span that bows most is the worst as well: %.4f, %.4f", v, most)
	}
	near(t, "ratio", c.Ratio, most, exact)
	near(t, "limit", c.Demand.Val/c.Capacity.Val, most, exact)
}
