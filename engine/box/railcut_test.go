package box

import (
	"math"
	"testing"
)

// TestGapLoad: between the bed that is whole and a gap so long that its ends are
// as fixed as by a wall (Euler, K = 0.5), and against a frame on springs.
func TestGapLoad(t *testing.T) {
	b := tube(60, 3)
	ei := 200e6 * b.Ix
	near(t, "no gap", gapLoad(ei, 400, 0), 2*math.Sqrt(400*ei), exact)
	near(t, "hardly a gap", gapLoad(ei, 400, 1e-6), 2*math.Sqrt(400*ei), 1e-5)
	near(t, "a long gap in a stiff bed", gapLoad(ei, 1e9, 5), 4*math.Pi*math.Pi*ei/25, 0.02)
	last := math.Inf(1)
	for g := 0.0; g < 6; g += 0.1 {
		p := gapLoad(ei, 400, g)
		if !(p < last) {
			t.Errorf("a gap of %.1f m carries %.2f kN, a shorter one %.2f", g, p, last)
		}
		last = p
	}
	for _, g := range []float64{0.6, 1.2, 2.4} {
		want := gapLoad(ei, 4000, g)
		near(t, "frame on springs", onSprings(t, b, 4000, 8, []RoofCut{{4 - g/2, 4 + g/2}}, want), want, 0.03)
	}
	// A cut that begins at the post: what counts is on the careful side of the frame.
	cut := []RoofCut{{0, 1}}
	loose := looseLength(cut, 8, endlessBed(ei, 400))
	if got, frame := gapLoad(ei, 400, loose), onSprings(t, b, 400, 8, cut, gapLoad(ei, 400, 1)); !(got < frame) {
		t.Errorf("beside a post %.1f kN, the frame %.1f", got, frame)
	}
}

// TestLooseLength: by hand, with a bed that is endless after 1 m.
func TestLooseLength(t *testing.T) {
	for _, c := range []struct {
		name string
		cuts []RoofCut
		want float64
	}{
		{"whole", nil, 0},
		{"in the middle", []RoofCut{{4, 5}}, 1},
		{"two far apart", []RoofCut{{6, 6.5}, {3, 4}}, 1},
		{"two near each other", []RoofCut{{4.5, 5.5}, {3, 4}}, 2.5},
		{"one in the other", []RoofCut{{3, 6}, {4, 5}}, 3},
		{"near the door end", []RoofCut{{0.5, 1.5}}, 3},
		{"near the far end", []RoofCut{{8, 9.5}}, 4},
		{"all along", []RoofCut{{0, 10}}, 20},
	} {
		near(t, c.name, looseLength(c.cuts, 10, 1), c.want, exact)
	}
}

// TestCutRoofWeakensRail: racking and girder lose strength of the top rail by a
// cut, and refuse cuts beyond the rail.
func TestCutRoofWeakensRail(t *testing.T) {
	whole := racking()
	cut := whole
	cut.Cuts = []RoofCut{{2, 4}}
	a, err := whole.Solve()
	if err != nil {
		t.Fatal(err)
	}
	b, err := cut.Solve()
	if err != nil {
		t.Fatal(err)
	}
	// A bed of 4e4 kN/m2 fixes the ends of a gap of 2 m not quite: some part of the bed gives.
	ei := 200e6 * whole.Rail.Ix
	if euler := 4 * math.Pi * math.Pi * ei / 4; !(b.Strut.Pcr < euler && b.Strut.Pcr > 0.5*euler) {
		t.Errorf("cut of 2 m: %.1f kN, fixed ends %.1f", b.Strut.Pcr, euler)
	}
	if !(b.Strut.Pn < a.Strut.Pn && b.RailRatio.ASD > a.RailRatio.ASD) {
		t.Errorf("rail %.1f kN with a cut, %.1f without", b.Strut.Pn, a.Strut.Pn)
	}
	cut.Cuts[0].To = 20
	if _, err := cut.Solve(); err == nil {
		t.Error("a cut beyond the rail is taken")
	}
	cut.Cuts[0] = RoofCut{math.NaN(), 1}
	if _, err := cut.Solve(); err == nil {
		t.Error("a cut that begins nowhere is taken")
	}
}

// TestDentedPanel: a wall dented 12 mm deep buckles as a whole at 36·Dx^¼·Dy^¾/h²
// with the depth of 22.4 mm that is left of S1 (Easley, memory): by hand Dx = E·t³/12·
// 278/294.4 with the developed length at that depth, Dy = E·I.
func TestDentedPanel(t *testing.T) {
	p := racking().Side
	whole, err := p.Strength()
	if err != nil {
		t.Fatal(err)
	}
	p.Dent = 0.012
	got, err := p.Strength()
	if err != nil {
		t.Fatal(err)
	}
	h, s, th := 22.4, math.Hypot(68, 22.4), 1.6 // mm
	line := 72 + 70 + 2*s
	y0 := 2 * h / (2 * line)
	i := (th*(142*h*h/4+2*s*h*h/12) + 142*th*th*th/12 + 2*s*th*th*th/12*(68/s)*(68/s) - th*line*y0*y0) / 278 // mm3
	dx, dy := 203e6*1.6*1.6*1.6e-9/12*278/line, 203e6*i*1e-9
	near(t, "vcr", got.Whole, 36*math.Pow(dx, 0.25)*math.Pow(dy, 0.75)/(2.35*2.35), tol05)
	if got.Flat != whole.Flat || !(got.Whole < 0.7*whole.Whole) {
		t.Errorf("dented %+v, whole %+v", got, whole)
	}
	p.Dent = 0.030
	if _, err := p.Strength(); err == nil {
		t.Error("a panel without corrugations is taken")
	}
	in := racking()
	in.Side.Dent = 0.012
	c, _, err := EndPush(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
}
