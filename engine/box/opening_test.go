package box

import (
	"math"
	"testing"

	"hillset/engine/frame"
	"hillset/engine/steel"
)

// TestOpening: half of what is cut goes to each side, by hand; the frame by the
// beam formulas for even pressure.
func TestOpening(t *testing.T) {
	const l, q = 2.35, 4.0
	in := Opening{Sheet: strip(l, frame.Uniform(q, l)), Width: 0.834, Low: 0.9, High: 1.7, Bar: tube(60, 4), BarSteel: corten}
	c, r, err := WallOpening(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "share: half of three corrugations on one", r.Share, 2.5, exact)
	near(t, "strip beside", c.Ratio, 2.5*q*l*l/8*1.67/r.Strip.Outer.Mn, exact)

	in.Framed = true
	c, r, err = WallOpening(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	trib := (0.834 + 0.278) / 2
	near(t, "jamb", r.Bars[0].M, q*trib*l*l/8, exact)
	near(t, "sill", r.Bars[1].M, q*(0.9+0.8)/2*0.834*0.834/8, exact)
	near(t, "head", r.Bars[2].M, q*(l-1.7+0.8)/2*0.834*0.834/8, exact)
	near(t, "ratio", c.Ratio, q*trib*l*l/8*1.67/(in.Bar.Zx*345e3), exact)
	near(t, "load factors", c.RatioLRFD/c.Ratio, 1.6/0.9/1.67, exact)
	// all that presses on the opening and the half corrugations arrives at the rails
	near(t, "shear of a jamb", r.Bars[0].V, q*trib*l/2, exact)

	// A door from rail to rail: no head, no sill, and the rail carries the roof.
	in.Low, in.High = 0, l
	in.Rail, in.RailSteel, in.RailLoad = tube(60, 3), corten, Pair{10, 13}
	c, r, err = WallOpening(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	if len(r.Bars) != 2 || r.Bars[1].Name != "top rail over it" {
		t.Fatalf("bars %+v", r.Bars)
	}
	k := 0.834 * 0.834 / 8 * 1.67 / (in.Rail.Sx * 345e3)
	near(t, "rail", r.Bars[1].Ratio.ASD, (10+q*l/2)*k, exact)
	for _, bad := range []func(*Opening){
		func(x *Opening) { x.Width = 0 }, func(x *Opening) { x.High = x.Low }, func(x *Opening) { x.High = 3 }, func(x *Opening) { x.Low = -1 },
		func(x *Opening) { x.Sheet.Height = 9 }, func(x *Opening) { x.RailLoad.ASD = math.NaN() },
	} {
		x := in
		bad(&x)
		if _, _, err := WallOpening(x); err == nil {
			t.Errorf("taken: %+v", x)
		}
	}
}

// TestRoofOpening: trimmers by hand; without a frame the corrugation beside
// carries more than in proportion, as its thrust grows as well.
func TestRoofOpening(t *testing.T) {
	s := roof(3, 2)
	in := RoofOpening{Sheet: s, Width: 0.8, Bar: tube(75, 4), BarSteel: corten}
	c, r, err := FramedRoof(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	trib := (0.8 + s.Profile.Pitch()) / 2
	q, _ := Largest(Allowable, s.effects())
	near(t, "moment", r.M.ASD, q*trib*s.Span*s.Span/8, exact)
	near(t, "push", r.P.ASD, s.Thrust.ASD*trib, exact)
	grow := 1 / (1 - 1.6*r.P.ASD*s.Span*s.Span/(math.Pi*math.Pi*200e6*in.Bar.Ix))
	if grow < 1.005 {
		t.Fatalf("the push adds %g", grow)
	}
	near(t, "trimmer", r.Trimmer.ASD, steel.H1(r.P.ASD, r.Pn/1.67, grow*r.M.ASD, r.Mn/1.67), exact)
	near(t, "bars between", r.Cross.ASD, q*s.Span/2*0.8*0.8/8*1.67/r.Mn, exact)
	whole, _, err := RoofSheet(s)
	if err != nil {
		t.Fatal(err)
	}
	last := whole.Worst()
	for _, w := range []float64{0.1, 0.3, 0.6} {
		c, _, err := BareRoofOpening(s, w)
		if err != nil {
			t.Fatal(err)
		}
		if k := 1 + w/2/s.Profile.Pitch(); c.Worst() < k*whole.Worst()*(1-1e-9) || c.Worst() <= last {
			t.Errorf("%g m: %g, the whole roof %g", w, c.Worst(), whole.Worst())
		}
		last = c.Worst()
	}
	if _, _, err := BareRoofOpening(s, 0); err == nil {
		t.Error("no width is taken")
	}
	in.Width = 20
	if _, _, err := FramedRoof(in); err == nil {
		t.Error("a hole longer than a box is taken")
	}
}
