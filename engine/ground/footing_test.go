package ground

import (
	"math"
	"testing"
)

func TestBearingFactors(t *testing.T) {
	// table of the reference, derived
	for _, c := range []struct{ phi, nc, nq, ec7, vesic, mey, han, tnc, tnq float64 }{
		{20, 14.83, 6.40, 3.93, 5.39, 2.87, 2.95, 17.69, 7.44},
		{30, 30.14, 18.40, 20.09, 22.40, 15.67, 15.07, 37.16, 22.46},
		{34, 42.16, 29.44, 38.37, 41.06, 31.15, 28.77, 52.64, 36.50},
		{36, 50.59, 37.75, 53.40, 56.31, 44.43, 40.05, 63.53, 47.16},
		{38, 61.35, 48.93, 74.90, 78.02, 64.07, 56.17, 77.50, 61.55},
		{40, 75.31, 64.20, 106.05, 109.41, 93.69, 79.54, 95.66, 81.27},
	} {
		const tol = 1.5e-3 // three or four figures printed
		for m, ng := range map[Method]float64{EC7: c.ec7, Vesic: c.vesic, Meyerhof: c.mey, Hansen: c.han} {
			f := must(BearingFactors(m, deg(c.phi)))
			near(t, m.String()+" Nc", f.Nc, c.nc, tol)
			near(t, m.String()+" Nq", f.Nq, c.nq, tol)
			near(t, m.String()+" Ng", f.Ng, ng, tol)
		}
		f := must(BearingFactors(Terzaghi, deg(c.phi)))
		near(t, "Terzaghi Nc", f.Nc, c.tnc, tol)
		near(t, "Terzaghi Nq", f.Nq, c.tnq, tol)
	}
	for m := EC7; m <= Hansen; m++ {
		f := must(BearingFactors(m, 0))
		want := math.Pi + 2
		if m == Terzaghi {
			want = 5.712 // 3 pi/2 + 1
		}
		near(t, m.String()+" at phi 0", f.Nc, want, tolA)
		if f.Nq != 1 || f.Ng != 0 {
			t.Errorf("%v at phi 0: %v", m, f)
		}
		g := must(BearingFactors(m, 1e-4))
		near(t, m.String()+" near phi 0", g.Nc, f.Nc, tolA)
	}
	if _, err := BearingFactors(Method(9), .5); err == nil {
		t.Error("no such method")
	}
	_, err := BearingFactors(EC7, 1)
	refused(t, "phi", "phi", err)
}

func TestBearingCases(t *testing.T) {
	t.Run("EP-22 a", func(t *testing.T) { // memory and derived
		in := FootingIn{Method: Terzaghi, B: 2.25, L: 2.25, Depth: 1.5, Phi: deg(38), Override: Factors{Nc: 61, Nq: 49, Ng: 67}}
		in.Q, in.Gamma = must(Overburden(18, 20.01, 1.5, math.Inf(1))), must(GammaBelow(18, 20.01, 1.5, math.Inf(1), 2.25))
		near(t, "dry", must(Footing(in)).Ultimate, 2408, tolA)
		in.Q, in.Gamma = must(Overburden(18, 20.01, 1.5, 0)), must(GammaBelow(18, 20.01, 1.5, 0, 2.25))
		near(t, "buoyant", in.Gamma, 10.2, 1e-9)
		near(t, "wet", must(Footing(in)).Ultimate, 1365, tolA)
	})
	t.Run("EP-22 b", func(t *testing.T) { // derived
		b := must(Footing(FootingIn{Method: EC7, B: .9, L: 1.2, Depth: .45, Q: .45 * 18, Gamma: 18, Phi: deg(34), V: 100}))
		near(t, "sq", b.Shape.Q, 1.419, tolA)
		near(t, "sg", b.Shape.G, .775, tolA)
		near(t, "q term", b.Surcharge, 338.5, tolA)
		near(t, "gamma term", b.Own, 240.8, tolA)
		near(t, "R/A'", b.Ultimate, 579.3, tolA)
		near(t, "FS", b.Ultimate/(100/.9/1.2), 6.26, tolA)
	})
	t.Run("EP-22 c", func(t *testing.T) { // derived
		q, _, _, err := Undrained(40, 8.1, .9, 1.2, 20)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "undrained", q, 213.0, tolA)
		_, _, _, err = Undrained(40, 8.1, .9, 1.2, 44)
		refused(t, "slides", "h", err)
	})
	t.Run("EP-23", func(t *testing.T) { // verified
		near(t, "GW", must(PresumptiveFor("GW")).Bearing/psf, 3000, 1e-12)
		near(t, "SM", must(PresumptiveFor("SM")).Bearing/psf, 2000, 1e-12)
		near(t, "GW SI", must(PresumptiveFor("GW")).Bearing, 144, 5e-3)
		near(t, "CL", must(PresumptiveFor("CL")).Cohesion/psf, 130, 1e-12)
		for _, c := range []string{"OL", "PT", ""} {
			if _, err := PresumptiveFor(c); err == nil {
				t.Errorf("%q has no presumptive bearing", c)
			}
		}
	})
}

func TestFootingMethods(t *testing.T) {
	in := FootingIn{B: 1, L: 2, Depth: .5, Q: 9, Gamma: 18, C: 5, Phi: deg(30), V: 100, H: 10}
	// EC7 with a leaning load, worked by hand from D.4: hold = 100 + 2·5·cot 30
	in.Method = EC7
	b := must(Footing(in))
	m := 2.5 / 1.5
	iq := math.Pow(1-10/(100+10/math.Tan(deg(30))), m)
	near(t, "iq", b.Incline.Q, iq, 1e-12)
	near(t, "ic", b.Incline.C, iq-(1-iq)/(30.14*math.Tan(deg(30))), tolA)
	along := in
	along.HAlongL = true
	near(t, "along L", must(Footing(along)).Incline.Q, math.Pow(1-10/(100+10/math.Tan(deg(30))), 4./3), 1e-12)
	in.Method = Meyerhof
	b = must(Footing(in))
	near(t, "Meyerhof sc", b.Shape.C, 1+.2*3*.5, 1e-12)
	near(t, "Meyerhof dq", b.Depth.Q, 1+.1*math.Sqrt(3)*.5, 1e-12)
	near(t, "Meyerhof ig", b.Incline.G, math.Pow(1-math.Atan(.1)/deg(30), 2), 1e-12)
	in.Method, in.H = Terzaghi, 0
	b = must(Footing(in))
	near(t, "Terzaghi sc", b.Shape.C, 1.15, 1e-12)
	in.Circle = true
	near(t, "round", must(Footing(in)).Shape.G, .6, 1e-12)
	in.H = 1
	_, err := Footing(in)
	refused(t, "Terzaghi leaning", "h", err)
	for _, m := range []Method{EC7, Vesic, Meyerhof} {
		lean := FootingIn{Method: m, B: 1, L: 1, Gamma: 18, Phi: deg(30), V: 100, H: 110}
		_, err := Footing(lean)
		refused(t, m.String()+" leaning", "h", err)
		lean.Phi, lean.C, lean.H = 0, 10, 1
		_, err = Footing(lean)
		refused(t, m.String()+" phi 0", "phi", err)
		lean.H = 0
		if u := must(Footing(lean)).Ultimate; u < 51.4 || u > 80 {
			t.Errorf("%v on clay: %v", m, u)
		}
		last := math.Inf(1)
		for h := 0.0; h < 50; h += 5 { // the more it leans the less it bears
			u := must(Footing(FootingIn{Method: m, B: 1, L: 3, Q: 9, Gamma: 18, C: 2, Phi: deg(30), V: 100, H: h})).Ultimate
			if u >= last {
				t.Errorf("%v: bearing rises with the lean at %v", m, h)
			}
			last = u
		}
	}
	_, err = Footing(FootingIn{B: 2, L: 1, Phi: .5})
	refused(t, "sides turned round", "l", err)
	c, phi := LocalShear(30, deg(30))
	near(t, "local c", c, 20.1, 1e-12)
	near(t, "local phi", math.Tan(phi), .67*math.Tan(deg(30)), 1e-12)
	strip := must(Footing(FootingIn{Method: EC7, B: 1, L: math.Inf(1), Q: 9, Gamma: 18, Phi: deg(30), V: 100, H: 10}))
	near(t, "strip m is 2", strip.Incline.Q, .81, 1e-12)
	if b := must(Footing(FootingIn{Method: Vesic, B: 1, L: 1, Depth: 3, Q: 50, Gamma: 18, C: 1, Phi: deg(30)})); b.Depth.Q > 1+.2887*math.Pi/2 || b.Depth.Q <= 1.2887 {
		t.Errorf("deep: dq %v follows the arc tangent", b.Depth.Q)
	}
}

func TestWaterBelowFooting(t *testing.T) {
	g := func(w float64) float64 { return must(GammaBelow(18, 20, 1, w, 2)) }
	near(t, "above base", g(.5), 10.19, 1e-9)
	near(t, "half way", g(2), (18+10.19)/2, 1e-9)
	near(t, "deep", g(3), 18, 1e-9)
	near(t, "deeper", g(30), 18, 1e-9)
	o := func(w float64) float64 { return must(Overburden(18, 20, 2, w)) }
	near(t, "half wet", o(1), 18+10.19, 1e-9)
	near(t, "above ground", o(-1), 20.38, 1e-9)
	_, err := Overburden(18, 17, 1, 0)
	refused(t, "light", "gamma_sat", err)
	_, err = GammaBelow(18, 20, 1, math.NaN(), 1)
	refused(t, "NaN", "water", err)
}

func TestSettlementCases(t *testing.T) {
	t.Run("EP-24", func(t *testing.T) { // derived
		s := must(Settle(95, .9, 1.2, 25000, .3))
		near(t, "centre", s.Centre*1000, 4.008, tolA)
		near(t, "corner", s.Corner*1000, 2.004, tolA)
		near(t, "average", s.Average*1000, 3.384, tolA)
		b := must(SettleBed(95, .9, 1.2, .3, 80000, .3))
		near(t, "M", b.Modulus/1000, 107.7, tolA)
		near(t, "unspread", b.Unspread*1000, .265, 2e-3) // three figures
		near(t, "spread", b.Spread*1000, .202, 2e-3)
	})
	for _, c := range []struct{ m, corner, average float64 }{ // table of the reference, derived
		{1, .561, .946}, {1.5, .679, 1.148}, {2, .766, 1.300}, {3, .892, 1.527}, {5, 1.052, 1.826}, {10, 1.272, 2.246},
	} {
		s := must(Settle(1, 1, c.m, 1, 0))
		near(t, "corner", s.ICorner, c.corner, tolA)
		near(t, "average", s.IAverage, c.average, tolA)
		turned := must(Settle(1, c.m, 1, 1, 0))
		near(t, "turned", turned.Average, s.Average, 1e-12)
	}
	// the average against point loads: mean of the settlement at points inside,
	// each by four corners
	const n = 60
	var sum float64
	for i := range n {
		for j := range n {
			x, y := (float64(i)+.5)/n*.9, (float64(j)+.5)/n*1.2
			for _, a := range []float64{x, .9 - x} {
				for _, b := range []float64{y, 1.2 - y} {
					sum += must(Settle(95, a, b, 25000, .3)).Corner
				}
			}
		}
	}
	near(t, "quadrature", sum/n/n, must(Settle(95, .9, 1.2, 25000, .3)).Average, tolA)
	near(t, "nu", must(DrainedNu(deg(30))), 1./3, 1e-12)
	_, err := Constrained(1000, .5)
	refused(t, "incompressible", "nu", err)
	_, err = Settle(1, 1, 1, 0, .3)
	refused(t, "soft", "e", err)
	_, err = SettleBed(1, 1, 1, -1, 10, .3)
	refused(t, "thickness", "t", err)
}
