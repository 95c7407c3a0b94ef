package box

import (
	"math"
	"testing"

	"hillset/engine/frame"
	"hillset/engine/steel"
)

func side(t *testing.T, in Strip) (ratio, lrfd float64, r StripResult) {
	t.Helper()
	c, r, err := SideSheet(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	return c.Ratio, c.RatioLRFD, r
}

func TestSideSheet(t *testing.T) {
	t.Run("ST-07", func(t *testing.T) { // derived: full burial of a bare wall fails
		in := strip(2.40, frame.Linear(27.0, 5.4, 2.40))
		asd, lrfd, r := side(t, in)
		near(t, "ASD", asd, 3.55, tol05)
		near(t, "LRFD", lrfd, 3.78, tol05)
		near(t, "Rt", r.Top.ASD, 15.12, tol05)
		near(t, "Rb", r.Bottom.ASD, 23.76, tol05)
		near(t, "M", r.Field.ASD, 11.80, tol05)
		near(t, "from the top", 2.40-r.FieldAt, 1.329, tol05)
		near(t, "factored top", r.Top.LRFD, 1.6*15.12, tol05)
		d, r, err := SheetDeflection(in, SagLimit)
		if err != nil {
			t.Fatal(err)
		}
		sane(t, d)
		near(t, "deflection", d.Demand.Val, 0.107, tol05)
		near(t, "over L/120", d.Ratio, 0.107/0.020, tol05)
		near(t, "EI", r.Line.Spans[0].EI, 65.72, tol05)
		c, _, _ := SideSheet(in)
		if c.Verdict().String() != "beyond limits" {
			t.Errorf("a buried bare wall is %s", c.Verdict())
		}
	})
	t.Run("ST-09", func(t *testing.T) { // derived
		_, _, r := side(t, strip(2.40, frame.Load{{S: 0, P: 9 * 1.8}, {S: 1.8, P: 0}}))
		near(t, "M", r.Field.ASD, 4.374, tol02)
		near(t, "Rt", r.Top.ASD, 3.645, tol02)
	})
	t.Run("ST-10", func(t *testing.T) { // derived, 1 %
		for _, c := range []struct{ g, asd, lrfd float64 }{
			{4.712, 2.14, 2.08}, {7.069, 1.77, 1.73}, {9.425, 1.57, 1.53}, {9, 1.60, 1.56}, {14.81, 1.30, 1.27},
		} {
			depth := func(pick func(a, l float64) float64) float64 {
				lo, hi := 0.01, 2.4
				for range 40 {
					h := (lo + hi) / 2
					r, err := strip(2.40, frame.Load{{S: 0, P: c.g * h}, {S: h, P: 0}}).Solve()
					if err != nil {
						t.Fatal(err)
					}
					if pick(r.FieldRatio.ASD, r.FieldRatio.LRFD) > 1 {
						hi = h
					} else {
						lo = h
					}
				}
				return lo
			}
			near(t, "ASD", depth(func(a, _ float64) float64 { return a }), c.asd, tol1)
			near(t, "LRFD", depth(func(_, l float64) float64 { return l }), c.lrfd, tol1)
		}
	})
	t.Run("ST-15", func(t *testing.T) { // derived, 1 %: test pressure against the sheet
		r, err := strip(2.35, frame.Uniform(12.06, 2.35)).Solve()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "20 ft M", r.Field.ASD, 8.33, tol1)
		near(t, "over Mn", r.Field.ASD/r.Outer.Mn, 1.50, tol1)
		near(t, "pinned capacity", 12.06*r.Outer.Mn/r.Field.ASD, 8.04, tol1)
		near(t, "with hinges", 16*r.Outer.Mn/(2.35*2.35), 16.1, tol1)
		r, _ = strip(2.35, frame.Uniform(5.58, 2.35)).Solve()
		near(t, "40 ft M", r.Field.ASD, 3.85, tol1)
	})
}

// TestStripByFrame solves walls with wales as frames of many members with the
// sheet's own stiffness, a second route for moments and reactions.
func TestStripByFrame(t *testing.T) {
	for _, wales := range [][]float64{{0.8}, {1.2}, {0.7, 1.5}} {
		in := strip(2.40, frame.Load{{S: 0, P: 27}, {S: 1.1, P: 14}, {S: 1.1, P: 10}, {S: 2.1, P: 2}}, wales...)
		r, err := in.Solve()
		if err != nil {
			t.Fatal(err)
		}
		f := frame.Frame{}
		places := append(append([]float64{0}, wales...), 2.40)
		lc := frame.LoadCase{}
		for k, s := range places {
			f.Nodes = append(f.Nodes, frame.Node{Py: s, X: true, Y: k == 0})
			if k > 0 {
				f.Members = append(f.Members, frame.Member{I: k - 1, J: k, E: 200e6, A: 1e-3, Iz: 328.6e-9})
				lc.Members = append(lc.Members, in.Load.Earth.Clip(places[k-1], s))
			}
		}
		s, err := f.Solve(lc)
		if err != nil {
			t.Fatal(err)
		}
		field, hog := 0.0, 0.0
		for k := range s.Lines {
			field, hog = math.Max(field, s.Lines[k].MPos), math.Max(hog, -s.Lines[k].MNeg)
		}
		near(t, "field", r.Field.ASD, field, 1e-8)
		near(t, "over wales", r.Hog.ASD, hog, 1e-8)
		near(t, "bottom", r.Bottom.ASD, s.React[0][0], 1e-8)
		near(t, "top", r.Top.ASD, s.React[len(places)-1][0], 1e-8)
		for k := range wales {
			near(t, "wale", r.Wales[k].ASD, s.React[k+1][0], 1e-8)
		}
	}
}

// TestWaleHelps: a wale at mid-height brings the moment to about a quarter
// (structure reference, section 5), and the flat in compression changes over.
func TestWaleHelps(t *testing.T) {
	load := frame.Uniform(10, 2.4)
	_, _, bare := side(t, strip(2.4, load))
	ratio, _, held := side(t, strip(2.4, load, 1.2))
	near(t, "a quarter over the wale", held.Hog.ASD, bare.Field.ASD/4, 1e-9)
	if held.Inner.Side != steel.Inner || held.HogRatio.ASD <= held.FieldRatio.ASD {
		t.Errorf("over the wale %+v", held.HogRatio)
	}
	near(t, "bending with shear governs", ratio, math.Hypot(held.HogRatio.ASD, held.ShearRatio.ASD), exact)
	if c, _, _ := SideSheet(strip(2.4, load)); len(c.RemedyQ) != 2 || c.RemedyQ[0].Val < 0.7 || c.RemedyQ[0].Val > 1.5 {
		t.Errorf("remedy %q %v", c.Remedy, c.RemedyQ)
	} else if r, _, err := SideSheet(strip(2.4, load, c.RemedyQ[0].Val)); err != nil || math.Abs(r.Worst()-c.RemedyQ[1].Val) > 1e-9 {
		t.Errorf("the wale of the remedy brings %g, not %g (%v)", r.Worst(), c.RemedyQ[1].Val, err)
	}
	c, _, _ := SideSheet(strip(2.4, frame.Uniform(60, 2.4), 1.2))
	if sane(t, c); c.Remedy == "" {
		t.Error("no remedy for a wall with a wale")
	}
	if c, _, _ = SideSheet(strip(2.4, frame.Uniform(200, 2.4))); c.RemedyQ[1].Val <= 1 {
		t.Error("one wale holds 200 kPa")
	}
}

// TestEndSheet: the same mechanics under its own name.
func TestEndSheet(t *testing.T) {
	in := strip(2.40, frame.Linear(27.0, 5.4, 2.40))
	a, _, _ := SideSheet(in)
	b, _, err := EndSheet(in)
	if err != nil {
		t.Fatal(err)
	}
	if b.ID != "end-sheet" || b.Ratio != a.Ratio {
		t.Errorf("end sheet %s %g, side sheet %g", b.ID, b.Ratio, a.Ratio)
	}
}

// TestSheetProperties: more load, less steel or a longer span never lowers the
// ratio; loads of each origin add up.
func TestSheetProperties(t *testing.T) {
	base := strip(2.40, frame.Linear(20, 4, 2.40))
	r0, l0, _ := side(t, base)
	more := base
	more.Load.Water = frame.Load{{S: 0, P: 9.81}, {S: 1, P: 0}}
	r1, _, _ := side(t, more)
	thin := base
	thin.Profile.T = 1.2e-3
	r2, _, _ := side(t, thin)
	weak := base
	weak.Steel.Fy = 250e3
	r3, _, _ := side(t, weak)
	if r1 <= r0 || r2 <= r0 || r3 <= r0 {
		t.Errorf("ratio %g; with water %g, rusted %g, weaker steel %g", r0, r1, r2, r3)
	}
	near(t, "LRFD over ASD for bending", l0/r0, 1.6/0.9/1.67, exact)
	slender := base
	slender.Profile.T = 0.5e-3
	c, _, err := SideSheet(slender)
	if err != nil || len(c.Validity) < 120 {
		t.Errorf("slender slopes are not mentioned: %q (%v)", c.Validity, err)
	}
	short := strip(2.4, frame.Uniform(3000, 0.04)) // shear governs next to a support
	c, _, err = SideSheet(short)
	if err != nil || c.Demand.Sym != "V" {
		t.Errorf("short strip governed by %v (%v)", c.Demand, err)
	}
	sane(t, c)
	out := strip(2.4, frame.Uniform(-5, 2.4)) // pushed outward: inner flat in compression
	c, r, err := SideSheet(out)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "outward push", r.Hog.ASD, 5*2.4*2.4/8, exact)
	sane(t, c)
}

func TestStripRefuses(t *testing.T) {
	nan := math.NaN()
	for name, spoil := range map[string]func(*Strip){
		"NaN height":      func(s *Strip) { s.Height = nan },
		"no height":       func(s *Strip) { s.Height = 0 },
		"tall":            func(s *Strip) { s.Height = 7 },
		"NaN Fy":          func(s *Strip) { s.Steel.Fy = nan },
		"Fy in MPa":       func(s *Strip) { s.Steel.Fy = 345 },
		"NaN E":           func(s *Strip) { s.Steel.E = nan },
		"NaN thickness":   func(s *Strip) { s.Profile.T = nan },
		"no sheet":        func(s *Strip) { s.Profile = steel.Profile{} },
		"NaN pressure":    func(s *Strip) { s.Load.Water = frame.Uniform(nan, 1) },
		"load above":      func(s *Strip) { s.Load.Live = frame.Uniform(1, 3) },
		"wale outside":    func(s *Strip) { s.Wales = []float64{2.5} },
		"wales unsorted":  func(s *Strip) { s.Wales = []float64{1.5, 1.0} },
		"NaN wale":        func(s *Strip) { s.Wales = []float64{nan} },
		"infinite height": func(s *Strip) { s.Height = math.Inf(1) },
	} {
		in := strip(2.4, frame.Uniform(5, 2.4))
		spoil(&in)
		if _, _, err := SideSheet(in); err == nil {
			t.Errorf("SideSheet accepts: %s", name)
		}
		if _, _, err := SheetDeflection(in, SagLimit); err == nil {
			t.Errorf("SheetDeflection accepts: %s", name)
		}
	}
	for _, n := range []float64{nan, 0, -120, math.Inf(1)} {
		if _, _, err := SheetDeflection(strip(2.4, nil), n); err == nil {
			t.Errorf("deflection limit L/%g accepted", n)
		}
	}
}

func TestWallLoad(t *testing.T) {
	w, _ := WallLoad([2]float64{0, 10}, [2]float64{2, 0}).Total()
	near(t, "wall load", w, 10, exact)
}

// FuzzSideSheet looks for panics and NaN under any numbers.
func FuzzSideSheet(f *testing.F) {
	f.Add(2.4, 1.6e-3, 345e3, 27.0, 5.4, 1.0)
	f.Add(2.4, 0.3e-3, 250e3, -5.0, 900.0, 0.1)
	f.Add(math.NaN(), 1e-3, 3e5, 1.0, 1.0, math.Inf(1))
	f.Fuzz(func(t *testing.T, h, th, fy, p0, p1, wale float64) {
		in := strip(h, frame.Linear(p0, p1, h), wale)
		in.Profile.T, in.Steel.Fy = th, fy
		for _, w := range [][]float64{nil, {wale}} {
			in.Wales = w
			c, _, err := SideSheet(in)
			if err == nil && (math.IsNaN(c.Ratio) || math.IsNaN(c.RatioLRFD) || math.IsNaN(c.Demand.Val)) {
				t.Errorf("NaN for %+v", in)
			}
			if _, r, err := SheetDeflection(in, 120); err == nil && math.IsNaN(r.Field.ASD) {
				t.Errorf("NaN for %+v", in)
			}
		}
	})
}

func BenchmarkSideSheet(b *testing.B) {
	within := strip(2.40, frame.Linear(6, 0, 2.40))
	b.Run("within limits", func(b *testing.B) {
		for b.Loop() {
			if _, _, err := SideSheet(within); err != nil {
				b.Fatal(err)
			}
		}
	})
	beyond := strip(2.40, frame.Linear(27, 5.4, 2.40))
	b.Run("beyond limits", func(b *testing.B) {
		for b.Loop() {
			if _, _, err := SideSheet(beyond); err != nil {
				b.Fatal(err)
			}
		}
	})
}
