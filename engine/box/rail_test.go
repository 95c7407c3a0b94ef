package box

import (
	"math"
	"testing"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

var allRails = map[string]func(Rail) (check.Check, RailResult, error){
	"top-rail": TopRail, "bottom-rail": BottomRail, "header": Header, "sill": Sill, "wale": Wale, "purlin": Purlin,
}

func TestTopRail(t *testing.T) {
	t.Run("ST-14", func(t *testing.T) { // derived; SHS 60x60x3, Fy 345
		in := Rail{Bar: tube(60, 3), Steel: corten, Span: 1.20, Spans: 5, Load: Pair{15.12, 1.6 * 15.12}}
		c, r, err := TopRail(in)
		if err != nil {
			t.Fatal(err)
		}
		sane(t, c)
		near(t, "M", r.M.ASD, 2.177, tol05)
		near(t, "My", r.Mn, 4.041, tol05)
		near(t, "ASD", c.Ratio, 0.900, tol05)
		near(t, "spacing, continuous", r.MaxSpan.ASD, 1.265, tol05)
		in.Spans = 1
		_, r, _ = TopRail(in)
		near(t, "spacing, single", r.MaxSpan.ASD, 1.131, tol05)
		in.Span = 5.85
		c, r, err = TopRail(in)
		if err != nil {
			t.Fatal(err)
		}
		sane(t, c)
		near(t, "M without ribs", r.M.ASD, 64.7, tol05)
		near(t, "times over", c.Ratio, 27, tol1)
	})
}

// TestRailByFrame checks the coefficients against continuous beams solved
// span by span, and the largest span by trying it.
func TestRailByFrame(t *testing.T) {
	const l, w = 1.3, 9.0
	for _, spans := range []int{1, 2, 3, 8} {
		places := []float64{0}
		for k := range spans {
			places = append(places, l*float64(k+1))
		}
		m, err := frame.Continuous(places, frame.Uniform(w, l*float64(spans)), 10)
		if err != nil {
			t.Fatal(err)
		}
		_, r, err := Wale(Rail{Bar: tube(75, 4), Steel: corten, Span: l, Spans: spans, Load: Pair{w, 1.6 * w}})
		if err != nil {
			t.Fatal(err)
		}
		field, _ := m.Field()
		hog, _ := m.Hog()
		// Handbook coefficients round those of many spans to within 6 %.
		near(t, "M", r.M.ASD, math.Max(field, hog), 0.06)
		near(t, "V", r.V.ASD, m.Shear(), 0.06)
		most := 0.0
		for _, re := range m.Reactions {
			most = math.Max(most, re)
		}
		near(t, "reaction", r.Support.ASD, most, 0.06)
	}
	for id, f := range allRails {
		in := Rail{Bar: tube(60, 3), Steel: corten, Span: 1, Spans: 2, Load: Pair{15.12, 24.19}}
		_, r, err := f(in)
		if err != nil {
			t.Fatal(err)
		}
		in.Span = math.Min(r.MaxSpan.ASD, r.MaxSpan.LRFD)
		c, _, _ := f(in)
		near(t, id+" at its largest span", c.Worst(), 1, exact)
		if c.ID != id {
			t.Errorf("%s calls itself %s", id, c.ID)
		}
		in.Span *= 1.5
		c, _, _ = f(in)
		sane(t, c)
		in.Load = in.Load.Times(-1) // bends the other way, as much
		back, _, _ := f(in)
		near(t, "turned load", back.Ratio, c.Ratio, exact)
		in.Load = Pair{}
		if c, r, _ = f(in); c.Ratio != 0 || !math.IsInf(r.MaxSpan.ASD, 1) {
			t.Errorf("%s without load: %g, %g", id, c.Ratio, r.MaxSpan.ASD)
		}
	}
}

func TestRailStrengths(t *testing.T) {
	// Structure reference, section 3 (derived): a wale reaches Wpl·Fy/1.67, a
	// rail first yield; a channel rail bends about its weak axis, S 3.46 cm3.
	_, r, _ := Wale(Rail{Bar: tube(75, 4), Steel: corten, Span: 1, Spans: 1, Load: Pair{1, 1}})
	near(t, "wale", r.Mn/steel.OmegaBending, 5.94, tol05)
	c, err := steel.BarProps(tables.Bar{Shape: steel.Chan, H: 0.158, B: 0.048, T: 4.5e-3, Lip: 0.030})
	if err != nil {
		t.Fatal(err)
	}
	in := Rail{Bar: c, Steel: corten, Span: 0.3, Spans: 10, Load: Pair{23.76, 38.0}}
	k, r, err := BottomRail(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, k)
	near(t, "bottom rail", r.Mn, 3.46e-6*345e3, tol05)
	near(t, "its moment", r.M.ASD, 23.76*0.09/10, exact)
	in.Span, in.Load = 0.05, Pair{4000, 6400} // shear governs very short spans
	if k, _, _ = BottomRail(in); k.Demand.Sym != "V" {
		t.Errorf("short span governed by %v", k.Demand)
	}
	sane(t, k)
}

func TestRailRefuses(t *testing.T) {
	nan := math.NaN()
	for name, spoil := range map[string]func(*Rail){
		"NaN span": func(r *Rail) { r.Span = nan }, "no span": func(r *Rail) { r.Span = 0 },
		"no spans": func(r *Rail) { r.Spans = 0 }, "NaN load": func(r *Rail) { r.Load.ASD = nan },
		"infinite load": func(r *Rail) { r.Load.LRFD = math.Inf(1) }, "no bar": func(r *Rail) { r.Bar = steel.Bar{} },
		"no steel": func(r *Rail) { r.Steel = Material{} }, "slender": func(r *Rail) { r.Bar = tube(100, 1.5) },
	} {
		in := Rail{Bar: tube(60, 3), Steel: corten, Span: 1, Spans: 2, Load: Pair{15, 24}}
		spoil(&in)
		for id, f := range allRails {
			if _, _, err := f(in); err == nil {
				t.Errorf("%s accepts: %s", id, name)
			}
		}
	}
}

func deck() Deck {
	return Deck{
		Profile: profile(rowRoof), Steel: corten, Rail: tube(60, 3), RailSteel: corten,
		Length: 5.85, Width: 2.40, Load: Pair{15.12, 1.6 * 15.12},
	}
}

func TestDiaphragm(t *testing.T) {
	t.Run("ST-14", func(t *testing.T) { // derived
		c, r, err := Diaphragm(deck())
		if err != nil {
			t.Fatal(err)
		}
		sane(t, c)
		near(t, "N", r.N.ASD, 26.95, tol05)
		near(t, "rail stress", r.N.ASD/6.61e-4/1000, 40.8, tol05)
		near(t, "v", r.Shear.ASD, 18.4, tol05)
		near(t, "shear stress", r.Shear.ASD/2e-3/1000, 9.2, tol05)
		near(t, "ends in balance", 2*r.End.ASD, 15.12*5.85, exact)
		near(t, "rail couple is wL²/8", r.N.ASD*2.40, 15.12*5.85*5.85/8, exact)
	})
	in := deck()
	in.Load = in.Load.Times(20)
	c, r, err := Diaphragm(in)
	if err != nil {
		t.Fatal(err)
	}
	if sane(t, c); c.Verdict() != check.Beyond {
		t.Errorf("20 times the load: %g", c.Ratio)
	}
	in.Load = in.Load.Times(1 / c.Worst())
	if c, _, _ = Diaphragm(in); math.Abs(c.Worst()-1) > exact {
		t.Errorf("the difference of the remedy brings %g", c.Worst())
	}
	if r.BuckleV <= 0 || r.BuckleV >= r.YieldV {
		t.Errorf("a 2 mm roof sheet yields (%g) before it buckles (%g)", r.YieldV, r.BuckleV)
	}
	long := deck()
	long.Length, long.Rail, long.RailSteel.Fy = 13.7, tube(50, 3), 250e3
	c, _, _ = Diaphragm(long)
	if sane(t, c); c.Demand.Sym != "N" {
		t.Errorf("a long roof with light rails is governed by %v", c.Demand)
	}
	for name, spoil := range map[string]func(*Deck){
		"NaN length": func(d *Deck) { d.Length = math.NaN() }, "NaN width": func(d *Deck) { d.Width = math.NaN() },
		"NaN load": func(d *Deck) { d.Load.ASD = math.NaN() }, "no rail": func(d *Deck) { d.Rail = steel.Bar{} },
		"no sheet": func(d *Deck) { d.Profile.T = 0 }, "no steel": func(d *Deck) { d.RailSteel.Fy = 0 },
	} {
		in := deck()
		spoil(&in)
		if _, _, err := Diaphragm(in); err == nil {
			t.Errorf("Diaphragm accepts: %s", name)
		}
	}
}

func TestStacking(t *testing.T) {
	t.Run("ST-16", func(t *testing.T) { // CTU Code 192 000, Fermilab note 4.05 in2 (verified)
		plate, err := PlateStacking(86400)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "plate", plate, 192000, tol01)
		newer, _ := PlateStacking(96000)
		near(t, "newer plate", newer, 213333, tol01)
		p, err := StackingForce(86400)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "force", p, 847.3, 5e-4) // g of the reference is 9.80665
		near(t, "area at 47 ksi", p/(47*6894.757)*1e6, 2615, tol01)
		near(t, "front post over the test", 923/p, 1.09, tol05)
		near(t, "rear post over the test", 958/p, 1.13, tol05)
	})
	for _, v := range []float64{math.NaN(), 0, -1, math.Inf(1)} {
		if _, err := PlateStacking(v); err == nil {
			t.Errorf("plate for %g", v)
		}
		if _, err := StackingForce(v); err == nil {
			t.Errorf("force for %g", v)
		}
	}
}

func TestCornerPost(t *testing.T) {
	in := Post{Strength: 923, Dead: 400, Live: 60, Snow: 20, Length: 5.853, Width: 2.259}
	c, r, err := CornerPost(in)
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "centred share", r.Share, 0.25, exact)
	near(t, "service", r.P.ASD, 460.0/4, exact)
	near(t, "factored", r.P.LRFD, (1.2*400+1.6*60+0.5*20)/4, exact)
	near(t, "ratio", c.Ratio, 115*1.67/923, exact)
	in.EccX, in.EccY = 0.6, -0.2
	_, r, _ = CornerPost(in)
	near(t, "eccentric share", r.Share, 0.25*(1+1.2/5.853)*(1+0.4/2.259), exact)
	in.EccX, in.EccY = in.Length/2, in.Width/2
	_, r, _ = CornerPost(in)
	near(t, "all over one post", r.Share, 1, exact)
	in.Dead = 4000
	if c, _, _ = CornerPost(in); c.Verdict() != check.Beyond {
		t.Errorf("4000 kN on one post: %g", c.Ratio)
	}
	sane(t, c)
	for name, spoil := range map[string]func(*Post){
		"NaN strength": func(p *Post) { p.Strength = math.NaN() }, "NaN dead": func(p *Post) { p.Dead = math.NaN() },
		"uplift": func(p *Post) { p.Live = -1 }, "beyond the edge": func(p *Post) { p.EccX = 4 },
		"NaN eccentricity": func(p *Post) { p.EccY = math.NaN() }, "no width": func(p *Post) { p.Width = 0 },
	} {
		in := Post{Strength: 923, Dead: 400, Length: 5.853, Width: 2.259}
		spoil(&in)
		if _, _, err := CornerPost(in); err == nil {
			t.Errorf("CornerPost accepts: %s", name)
		}
	}
}
