package earth

import (
	"math"
	"testing"
)

func TestWheelThroughCover(t *testing.T) {
	t.Run("EP-12", func(t *testing.T) { // derived
		w := []Patch{{P: 71.17, A: .508, B: .254}}
		for _, c := range []struct{ ft, exact, point, two, spread, im, with float64 }{
			{1, 216.0, 365.8, 156.7, 137.1, 28.9, 176.7},
			{2, 77.60, 91.44, 73.74, 61.64, 24.75, 76.89},
			{3, 37.64, 40.64, 42.82, 34.95, 20.6, 42.16},
			{4, 21.88, 22.86, 27.97, 22.50, 16.5, 26.21},
			{6, 9.96, 10.16, 14.62, 11.56, 8.25, 12.52},
			{8, 5.65, 5.72, 8.97, 7.03, 0, 7.03},
		} {
			h := c.ft * ft
			tol := 1.5e-3 // the table prints three figures
			near(t, "exact", must(PatchStress(w, 0, 0, h)), c.exact, tol)
			near(t, "point", must(PointStress(71.17, 0, h)), c.point, tol)
			near(t, "2:1", must(SpreadTwoToOne(71.17, .508, .254, h)), c.two, tol)
			near(t, "AASHTO", must(SpreadPressure(71.17, .508, .254, h, LLDFGranular)), c.spread, tol)
			im := must(DynamicAllowance(h))
			near(t, "IM", 100*im, c.im, 2*tol)
			r := must(WheelsThroughCover(w, h, LLDFGranular, true))
			near(t, "AASHTO with IM", r.Mean, c.with, tol)
			near(t, "peak", r.Peak, c.exact*(1+im), tol)
			thin := c.ft < 2
			if (r.Validity != "") != thin || (r.Pressure == r.Peak) != thin {
				t.Errorf("%v ft: validity %q, pressure %v", c.ft, r.Validity, r.Pressure)
			}
		}
	})
}

func TestWheelsOverlap(t *testing.T) {
	axle := []Patch{{P: 70, X: -0.9, A: .25, B: .5}, {P: 70, X: 0.9, A: .25, B: .5}}
	apart := must(WheelsThroughCover(axle, 0.7, 1.15, false))
	if len(apart.Spread) != 2 {
		t.Errorf("at little depth the patches stay apart: %v", apart.Spread)
	}
	one := must(WheelsThroughCover(axle, 1.8, 1.15, false))
	near(t, "together", one.Mean, 140/((1.8+.25+1.15*1.8)*(.5+1.15*1.8)), 1e-9)
	// the peak against a fine grid
	var best float64
	for x := -1.5; x <= 1.5; x += 0.02 {
		best = math.Max(best, must(PatchStress(axle, x, 0, 1.8)))
	}
	if one.Peak < best*(1-1e-5) || one.Peak > best*1.001 {
		t.Errorf("peak %v, grid %v", one.Peak, best)
	}
	// a chain joins only through its middle
	chain := append(axle, Patch{P: 30, A: .25, B: .5})
	c := must(WheelsThroughCover(chain, 0.7, 1.15, false))
	if len(c.Spread) != 1 || math.Abs(c.Spread[0].P-170) > 1e-9 {
		t.Errorf("chain: %v", c.Spread)
	}
	if axle[0].A != .25 {
		t.Error("the input was changed")
	}
	if r := must(WheelsThroughCover(nil, 1, 1, true)); r.Pressure != 0 {
		t.Error("no wheels, no pressure")
	}
	_, err := WheelsThroughCover(axle, -1, 1, false)
	refused(t, "no cover", "cover", err)
	_, err = WheelsThroughCover(axle, math.NaN(), 1, false)
	refused(t, "NaN", "cover", err)
	if LiveNegligible(2.5, 2.6) || !LiveNegligible(2.7, 2.6) || LiveNegligible(2.4, 2) {
		t.Error("live load counts up to 8 ft and up to the span")
	}
}

func TestRoofEarthCases(t *testing.T) {
	t.Run("EP-13", func(t *testing.T) { // derived; Fe verified
		p, fe, err := RoofEarth(18, 1.22, 2.438, true)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Fe", fe, 1.100, tolA)
		near(t, "earth", p, 24.16, tolA)
		near(t, "with live", p+4.8, 28.96, tolA)
		m := must(ProjectingLoad(18, 0.5*2.438, 2.438, .19, 0.5))
		near(t, "Cc", m.Cc, .5507, tolA)
		near(t, "over prism", m.Prism, 1.101, tolA)
		if !m.Complete {
			t.Error("a shallow cover is complete")
		}
		near(t, "Fe .75", must(EmbankmentFactor(.75, 1, true)), 1.15, tolA)
		near(t, "Cc .75", must(ProjectingLoad(18, .75, 1, .19, 0.5)).Prism, 1.157, tolA)
		near(t, "Fe 1", must(EmbankmentFactor(1, 1, true)), 1.15, tolA)
		near(t, "Cc 1", must(ProjectingLoad(18, 1, 1, .19, 0.5)).Prism, 1.2165, tolA)
	})
	t.Run("EP-14", func(t *testing.T) { // second-hand and derived
		w, cd, err := TrenchLoad(18.85, 2.44, 1.52, .15)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Cd", cd, 1.274, tolA)
		near(t, "W", w, 55.48, tolA)
		w, cd, _ = TrenchLoad(120*lb/(ft*ft*ft), 8*ft, 5*ft, .15)
		near(t, "Cd US", cd, 1.2707, tolA)
		near(t, "W US", w/lb*ft, 3812, tolA)
	})
	// plane of equal settlement, derived
	for _, c := range []struct{ rsdp, he float64 }{{.1, .69}, {.3, 1.16}, {.5, 1.47}, {1, 2}} {
		m := must(ProjectingLoad(18, 10, 1, .19, c.rsdp))
		near(t, "He", m.He, c.he, 1e-2) // printed to two places
		x := .38 * m.He
		near(t, "root", math.Exp(x)-x, 1+.38*c.rsdp, 1e-12)
		if m.Complete {
			t.Error("ten widths are not complete")
		}
		at := must(ProjectingLoad(18, m.He, 1, .19, c.rsdp)).Cc
		above := must(ProjectingLoad(18, m.He*1.0001, 1, .19, c.rsdp)).Cc
		near(t, "continuous", above, at, 1e-3)
	}
	near(t, "loose cap", must(EmbankmentFactor(5, 1, false)), 1.40, tolA)
	near(t, "prism", must(Prism(18, 2, 3)), 108, tolA)
	for h := 0.1; h < 5; h += 0.3 {
		p, _, _ := RoofEarth(18, h, 2.438, true)
		if p < 18*h {
			t.Error("no relief is taken on a roof")
		}
		w, _, _ := TrenchLoad(18, h, 2.438, .15)
		if w >= must(Prism(18, h, 2.438)) {
			t.Error("a trench load is less than the prism")
		}
	}
	_, _, err := RoofEarth(0, 1, 1, true)
	refused(t, "weightless", "gamma", err)
}

func TestFluids(t *testing.T) {
	t.Run("EP-23", func(t *testing.T) { // table values memory
		psfft := psf / ft
		g := must(CodeFluid("GW", 30*psfft, 60*psfft, true))
		d := must(EquivalentFluid(g, 0, 0, -2*ft, -10.5*ft))
		near(t, "top", d.At(-2*ft).Total/psf, 120, 1e-9)
		near(t, "foot", d.At(-10.5*ft).Total/psf, 630, 1e-9)
		p, _ := d.Resultant()
		near(t, "thrust", p/lb*ft, 3187.5, 1e-9)
		near(t, "thrust SI", p, 46.5, tolA)
		near(t, "SC", must(CodeFluid("SC", 60*psfft, 100*psfft, true))/psfft, 100, 1e-9)
		near(t, "active", must(CodeFluid("SC", 60*psfft, 100*psfft, false))/psfft, 60, 1e-9)
		if _, err := CodeFluid("CH", 0, 0, true); err == nil {
			t.Error("CH must be refused")
		}
	})
	near(t, "submerged", must(SubmergedFluid(0.5, 125*lb/ft/ft/ft)), 14.7, tolB) // derived, 93.7 psf/ft
	d := must(EquivalentFluid(10, 2, 1, 3, 0))
	p, z := d.Resultant()
	near(t, "below a free part", p, 2+5, 1e-12)
	near(t, "arm", z, (2*0.5+5./3)/7, 1e-12)
	free := must(EquivalentFluid(10, 2, 1, 3, 1.5))
	if p, z := free.Resultant(); p != 0 || z != 1.5 {
		t.Error("nothing presses above the surface")
	}
	near(t, "narrow, wide limit", must(NarrowFill(18, .5, deg(20), 1e4, 2)), 18, tolA)
	near(t, "narrow, deep limit", must(NarrowFill(18, .5, deg(20), .5, 1e3)), 18*.5/2/math.Tan(deg(20)), tolA)
	near(t, "narrow, smooth", must(NarrowFill(18, .5, 0, .5, 2)), 18, 1e-12)
	_, err := NarrowFill(18, .5, .3, 0, 2)
	refused(t, "no width", "b", err)
}

func TestCompactionCase(t *testing.T) {
	t.Run("EP-15", func(t *testing.T) { // derived; formula memory
		ka, k0 := must(RankineKa(deg(34))), must(K0(deg(34), 1))
		for _, c := range []struct {
			st                       State
			k, zc, hc, thrust, alone float64
		}{{Active, ka, .2834, 3.546, 46.64, 18.02}, {AtRest, k0, .4419, 2.274, 45.55, 28.09}} {
			e := must(CompactionEnvelope(30, 19, c.k, 0, 0))
			near(t, "max", e.Max, 19.05, tolA)
			near(t, "zc", e.Zc, c.zc, tolA)
			near(t, "hc", e.Hc, c.hc, tolA)
			col := sand(2.59, 19, 21, 34)
			d := must(col.Lateral(c.st, 0, -2.59))
			p, _ := d.Resultant()
			near(t, "soil alone", p, c.alone, tolA)
			d = must(Compaction(d, 30, 19, c.k, 0, 0))
			p, z := d.Resultant()
			near(t, "with compaction", p, c.thrust, tolA)
			if c.st == Active {
				near(t, "arm", z+2.59, 1.2255, tolA)
			}
			for z := 0.0; z < 2.59; z += 0.07 {
				near(t, "envelope", d.At(-z).Total, e.At(z), 1e-9)
			}
			again := d.AddCompaction(e)
			if q, _ := again.Resultant(); math.Abs(q-p) > 1e-9 {
				t.Error("compaction counts once")
			}
		}
	})
	// machines of the reference, derived
	for _, c := range []struct{ p, max float64 }{{10, 11.0}, {20, 15.5}, {54, 25.5}, {87.6, 32.4}} {
		near(t, "machine", must(CompactionEnvelope(c.p, 18.85, .441, 0, 0)).Max, c.max, 5e-3) // three figures
	}
	e := must(CompactionEnvelope(30, 19, .44, 1, 1))
	near(t, "setback", e.Max, 19.05/2, tolA)
	near(t, "setback hc", e.At(e.Hc), e.own*e.Hc, 1e-9)
	_, err := CompactionEnvelope(30, 19, .44, 1, 0)
	refused(t, "no drum", "drum", err)
	col := sand(3, 19, 21, 34)
	col.Q = 1000
	d := must(col.Lateral(AtRest, 0, -3))
	p, _ := d.Resultant()
	if q, _ := must(Compaction(d, 30, 19, .44, 0, 0)).Resultant(); math.Abs(p-q) > 1e-9 {
		t.Error("nothing is added where the soil presses more")
	}
	if q, _ := must(Compaction(d, 0, 19, .44, 0, 0)).Resultant(); math.Abs(p-q) > 1e-9 {
		t.Error("no machine adds nothing")
	}
}
