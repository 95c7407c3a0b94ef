package box

import (
	"math"
	"testing"

	"hillset/engine/frame"
	"hillset/engine/steel"
)

func roof(q, p float64) RoofStrip {
	return RoofStrip{
		Profile: profile(rowRoof), Steel: corten, Span: 2.35, Dead: q,
		Thrust: Pair{p, 1.6 * p}, Straight: true,
	}
}

func TestRoofSheet(t *testing.T) {
	t.Run("ST-13", func(t *testing.T) { // derived, 1 %; straight sheet
		in := roof(1.8, 8)
		c, r, err := RoofSheet(in)
		if err != nil {
			t.Fatal(err)
		}
		sane(t, c)
		near(t, "Mn", r.Outer.Mn, 4.358, tol1)
		near(t, "M", r.ASD.Field, 1.243, tol1)
		near(t, "Pn", r.Strut.Pn, 48.8, tol1)
		near(t, "PE", r.Strut.PE, 55.6, tol1)
		near(t, "utilisation", c.Ratio, 0.938, tol1)
		near(t, "M2", r.ASD.Second, 1.457, tol1)
		d, _, err := RoofDeflection(in, SagLimit)
		if err != nil {
			t.Fatal(err)
		}
		sane(t, d)
		near(t, "sag", d.Demand.Val, 26.8e-3, tol1)
		near(t, "L over sag", 2.35/d.Demand.Val, 88, tol1)
		if d.Ratio <= 1 {
			t.Errorf("L/88 is within L/120: %g", d.Ratio)
		}
		d, _, _ = RoofDeflection(roof(1.8, 0), SagLimit)
		near(t, "sag without thrust", d.Demand.Val, 23.0e-3, tol1)
		c, _, err = RoofSheet(roof(5.4, 10))
		if err != nil {
			t.Fatal(err)
		}
		sane(t, c)
		near(t, "second case", c.Ratio, 2.48, tol1)
	})
}

// TestRoofByFrame checks the second-order moment with initial sag against a
// frame of bent members under thrust: the sag is built into the nodes.
func TestRoofByFrame(t *testing.T) {
	in := roof(1.8, 8)
	in.Dent = 0.012
	_, r, err := RoofSheet(in)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "first order with sag", r.ASD.Field, 1.8*2.35*2.35/8+8*0.012, tol01)
	const n = 32
	f := frame.Frame{}
	lc := frame.LoadCase{Nodes: make([][3]float64, n+1)}
	for k := range n + 1 {
		x := 2.35 * float64(k) / n
		f.Nodes = append(f.Nodes, frame.Node{Px: x, Py: 0.012 * math.Sin(math.Pi*x/2.35), X: k == 0, Y: k == 0 || k == n})
		if k > 0 {
			f.Members = append(f.Members, frame.Member{I: k - 1, J: k, E: steel.EAISI, A: 1, Iz: r.Props.Inertia})
		}
		if k > 0 && k < n { // the load stays upright, as on a roof
			lc.Nodes[k][1] = 1.8 * 2.35 / n
		}
	}
	lc.Nodes[n][0] = -8
	s, err := f.SolveSecondOrder(lc)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "second order with sag", r.ASD.Second, s.Lines[n/2].M(0), tol02)
	near(t, "sag under load", r.Deflection, s.U[n/2][1], tol02)
}

// TestRoofSag: a used roof sags at least span/300, a measured dent counts
// when it is deeper.
func TestRoofSag(t *testing.T) {
	in := roof(1.8, 8)
	in.Straight = false
	_, r, _ := RoofSheet(in)
	near(t, "least sag", r.Sag, 2.35/300, exact)
	in.Dent = 0.02
	_, deep, _ := RoofSheet(in)
	near(t, "dent", deep.Sag, 0.02, exact)
	if deep.ASD.Ratio <= r.ASD.Ratio {
		t.Errorf("a deeper dent lowers %g to %g", r.ASD.Ratio, deep.ASD.Ratio)
	}
}

func TestRoofPurlins(t *testing.T) {
	in := roof(5.4, 10)
	_, bare, _ := RoofSheet(in)
	in.Supports = []float64{2.35 / 2}
	c, r, err := RoofSheet(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "bay", r.Bay, 2.35/2, exact)
	near(t, "over the purlin", r.ASD.Hog, bare.Unit.Spans[0].MMax*5.4/4, exact)
	near(t, "purlin load", r.Purlins[0].ASD, 1.25*5.4*2.35/2, exact)
	near(t, "factored purlin load", r.Purlins[0].LRFD, 1.4*r.Purlins[0].ASD, exact)
	if r.ASD.Ratio > 0.5*bare.ASD.Ratio || r.Deflection > bare.Deflection/4 {
		t.Errorf("a purlin at mid-width brings %g to %g, sag %g to %g", bare.ASD.Ratio, r.ASD.Ratio, bare.Deflection, r.Deflection)
	}
	full, _, _ := RoofSheet(roof(5.4, 10))
	if len(full.RemedyQ) != 2 || full.RemedyQ[1].Val > 1 {
		t.Errorf("remedy %q %v", full.Remedy, full.RemedyQ)
	}
	hopeless, _, _ := RoofSheet(roof(400, 10))
	if sane(t, hopeless); len(hopeless.RemedyQ) != 0 {
		t.Errorf("remedy for 400 kPa: %q", hopeless.Remedy)
	}
	in.Dead = 60
	if c, _, _ = RoofSheet(in); c.Remedy == "" {
		t.Error("no remedy for an overloaded roof with a purlin")
	}
}

// TestRoofCombos: every kind of load finds its factor.
func TestRoofCombos(t *testing.T) {
	in := roof(0, 0)
	in.Live = 3
	_, r, _ := RoofSheet(in)
	near(t, "live", r.LRFD.Q, 1.6*3, exact)
	in.Live, in.Snow = 0, 3
	_, r, _ = RoofSheet(in)
	near(t, "snow", r.LRFD.Q, 1.6*3, exact)
	in.Live, in.Snow, in.Water = 2, 3, 1
	_, r, _ = RoofSheet(in)
	near(t, "live, snow and water, service", r.ASD.Q, 0.75*6, exact)
	near(t, "edge", r.Edge.ASD, 0.75*6*2.35/2, exact)
	c, _, _ := RoofSheet(in)
	if c.Demand.Sym != "M" {
		t.Errorf("without thrust the demand is %v", c.Demand)
	}
	sane(t, c)
	none, r, err := RoofSheet(roof(0, 0))
	if err != nil || none.Ratio != 0 || r.Deflection != 0 {
		t.Errorf("an empty roof has ratio %g, sag %g (%v)", none.Ratio, r.Deflection, err)
	}
}

func TestRoofBuckles(t *testing.T) {
	in := roof(1.8, 60) // beyond the Euler load of 55.6
	c, _, err := RoofSheet(in)
	if err != nil || !math.IsInf(c.Ratio, 1) || c.Verdict().String() != "beyond limits" {
		t.Errorf("beyond the Euler load: ratio %g (%v)", c.Ratio, err)
	}
	d, _, err := RoofDeflection(in, SagLimit)
	if err != nil || !math.IsInf(d.Ratio, 1) {
		t.Errorf("beyond the Euler load: sag ratio %g (%v)", d.Ratio, err)
	}
}

func TestRoofRefuses(t *testing.T) {
	nan := math.NaN()
	for name, spoil := range map[string]func(*RoofStrip){
		"NaN dead": func(s *RoofStrip) { s.Dead = nan }, "suction": func(s *RoofStrip) { s.Live = -1 },
		"NaN snow": func(s *RoofStrip) { s.Snow = nan }, "NaN water": func(s *RoofStrip) { s.Water = nan },
		"NaN thrust": func(s *RoofStrip) { s.Thrust.ASD = nan }, "pull": func(s *RoofStrip) { s.Thrust.LRFD = -1 },
		"NaN span": func(s *RoofStrip) { s.Span = nan }, "NaN dent": func(s *RoofStrip) { s.Dent = nan },
		"dent": func(s *RoofStrip) { s.Dent = -0.01 }, "purlin": func(s *RoofStrip) { s.Supports = []float64{3} },
		"steel": func(s *RoofStrip) { s.Steel.Fy = 0 }, "sheet": func(s *RoofStrip) { s.Profile.T = 0 },
	} {
		in := roof(1.8, 8)
		spoil(&in)
		if _, _, err := RoofSheet(in); err == nil {
			t.Errorf("RoofSheet accepts: %s", name)
		}
		if _, _, err := RoofDeflection(in, SagLimit); err == nil {
			t.Errorf("RoofDeflection accepts: %s", name)
		}
	}
	if _, _, err := RoofDeflection(roof(1, 0), nan); err == nil {
		t.Error("NaN limit accepted")
	}
}

// FuzzRoofSheet looks for panics and NaN under any numbers.
func FuzzRoofSheet(f *testing.F) {
	f.Add(2.35, 1.8, 0.0, 8.0, 12.8, 0.01, 1.2)
	f.Add(2.35, 0.0, 5.0, 55.6, 99.0, 0.0, 0.3)
	f.Fuzz(func(t *testing.T, l, dead, live, asd, lrfd, dent, at float64) {
		in := RoofStrip{Profile: profile(rowRoof), Steel: corten, Span: l, Dead: dead, Live: live, Thrust: Pair{asd, lrfd}, Dent: dent}
		for _, s := range [][]float64{nil, {at}} {
			in.Supports = s
			c, r, err := RoofSheet(in)
			if err == nil && (math.IsNaN(c.Ratio) || math.IsNaN(c.RatioLRFD) || math.IsNaN(r.Deflection) || math.IsNaN(r.ASD.Second)) {
				t.Errorf("NaN for %+v", in)
			}
		}
	})
}

func BenchmarkRoofSheet(b *testing.B) {
	in := roof(1.8, 5)
	for b.Loop() {
		if _, _, err := RoofSheet(in); err != nil {
			b.Fatal(err)
		}
	}
}
