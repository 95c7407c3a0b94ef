package ground

import (
	"math"
	"math/rand"
	"regexp"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/quantity"
)

// digits finds numbers with a decimal point, which in a remedy or an
// assumption would carry a unit past the reader's choice.
var digits = regexp.MustCompile(`\d+\.\d+`)

// wellFormed asserts what every check must have.
func wellFormed(t *testing.T, c check.Check) {
	t.Helper()
	if c.ID == "" || c.Title == "" || c.Method == "" || c.Source == "" || len(c.Assumptions) == 0 || len(c.Working) == 0 {
		t.Errorf("incomplete check: %+v", c)
	}
	if c.Demand.Kind != c.Capacity.Kind || c.Demand.Kind == quantity.None {
		t.Errorf("%s: demand and capacity differ in kind", c.ID)
	}
	if (c.Worst() > 1) != (c.Remedy != "") && !math.IsInf(c.Worst(), 1) {
		t.Errorf("%s: ratio %v with remedy %q", c.ID, c.Worst(), c.Remedy)
	}
	if n := strings.Count(c.Remedy, "{"); n != len(c.RemedyQ) {
		t.Errorf("%s: remedy %q has %d values", c.ID, c.Remedy, len(c.RemedyQ))
	}
	for _, s := range append(append([]string{c.Remedy, c.Validity}, c.Assumptions...), c.Missing) {
		if digits.MatchString(s) || strings.Contains(strings.ToLower(s), "safe ") {
			t.Errorf("%s: text %q", c.ID, s)
		}
	}
	for _, l := range c.Working {
		if l.Text == "" || l.Formula == "" || l.Source == "" && !strings.HasPrefix(l.Formula, "A =") || math.IsNaN(l.Result.Val) {
			t.Errorf("%s: line %+v", c.ID, l)
		}
	}
}

func TestFlotationCheck(t *testing.T) {
	in := box20()
	in.Water, in.Required = 1.2, 1.3
	c := must(FlotationCheck(in))
	wellFormed(t, c)
	near(t, "ratio", c.Ratio, 1.3/1.047, tolA)
	near(t, "UPL", c.RatioLRFD, 173.9/(.9*182.1), tolA)
	if c.Verdict() != check.Beyond {
		t.Error("beyond limits")
	}
	near(t, "water in the remedy", c.RemedyQ[0].Val, .967, tolA)
	in.Water = c.RemedyQ[0].Val
	if c := must(FlotationCheck(in)); c.Verdict() != check.Within || c.Worst() < 1-1e-6 {
		t.Errorf("the remedy must be just enough: %v", c.Worst())
	}
	in.Water = 1.2
	in.Cover = c.RemedyQ[1].Val
	if c := must(FlotationCheck(in)); c.Verdict() != check.Within || c.Worst() < 1-1e-6 {
		t.Errorf("the cover must be just enough: %v", c.Worst())
	}
	in = box20()
	in.Required = 1.3
	if c := must(FlotationCheck(in)); c.Ratio != 0 || c.Verdict() != check.Within {
		t.Error("dry ground lifts nothing")
	}
	in.Tare, in.Cover, in.Water = 0, 0, 1
	c = must(FlotationCheck(in))
	wellFormed(t, c)
	if !math.IsInf(c.Ratio, 1) || c.Verdict() != check.Beyond {
		t.Error("nothing holds it down")
	}
	in = box20()
	_, err := FlotationCheck(in)
	refused(t, "no factor asked for", "required", err)
	in.Water = math.NaN()
	_, err = FlotationCheck(in)
	refused(t, "NaN", "water", err)
}

func TestFlotationProperties(t *testing.T) {
	rnd := rand.New(rand.NewSource(25))
	for range 100 {
		in := box20()
		in.Cover = 2 * rnd.Float64()
		in.Tare = 20 + 40*rnd.Float64()
		in.K, in.Delta, in.Perimeter, in.Share = .5, deg(17), 14, rnd.Float64()
		last := math.Inf(1)
		for h := 0.05; h < 6; h += .05 {
			in.Water = h
			f := must(Float(in))
			if f.FS > last+1e-9 {
				t.Fatalf("FS rises with the water at %v", h)
			}
			last = f.FS
			if f.FS < f.FSWeight || f.Friction > f.FrictionW {
				t.Fatal("friction only adds")
			}
			// side friction by the diagram of the same column
			top := in.Height + in.Cover
			col := earth.Column{Water: h, Layers: []earth.Layer{{Top: top, Bottom: 0, Gamma: 18, GammaSat: 20, Phi: .5, OCR: 1}}}
			d := must(col.Lateral(earth.AtRest, in.Height, 0))
			near(t, "friction", f.FrictionW, must(SideFriction(SideFrictionIn{Diagram: d, K: .5, Delta: deg(17), Length: 14})), 1e-9)
		}
		want := 1.05 + rnd.Float64()
		if s := must(in.WaterFor(want)); !s.Any {
			in.Water = s.Value
			near(t, "solved water", must(Float(in)).FS, want, 1e-6)
		}
		if s := must(in.CoverFor(want, 30, true)); !s.Any && !s.None {
			in.Cover, in.Water = s.Value, s.Value+in.Height
			near(t, "solved cover", must(Float(in)).FS, want, 1e-6)
		}
	}
	in := box20()
	in.Cover = 20
	if s := must(in.WaterFor(1.1)); !s.Any {
		t.Error("under so much soil any water will do")
	}
	in.Gamma, in.GammaSat = 9, earth.GammaW
	if s := must(in.CoverFor(1.1, 10, true)); !s.None || s.Value != 10 {
		t.Errorf("soil that floats holds nothing down: %+v", s)
	}
	in.GammaSat = 5
	_, err := Float(in)
	refused(t, "light", "gamma_sat", err)
}

// slide20 is EP-26 in round numbers.
func slide20() SlideIn {
	return SlideIn{Length: 6.058, Width: 2.438, Weight: 182.1, Earth: 107.8, EarthLevel: 1, EarthActive: 71.9,
		TanBase: .4, Side: 163.7, Share: .5, Required: 1.5, RequiredPassive: 2}
}

func TestSlidingCheck(t *testing.T) {
	in := slide20()
	c := must(SlidingCheck(in))
	wellFormed(t, c)
	near(t, "ratio", c.Ratio, 1.5/1.436, 2e-3)
	lacks := c.RemedyQ[0].Val
	in.Side += 2 * lacks // half of it counts
	if c := must(SlidingCheck(in)); c.Ratio > 1+1e-9 || c.Ratio < 1-1e-9 {
		t.Errorf("the remedy must be just enough: %v", c.Ratio)
	}
	in = slide20()
	in.Passive = 1
	if c := must(SlidingCheck(in)); c.Demand.Val != 1.5 {
		t.Error("with hardly any passive pressure it is better left out")
	}
	in.Passive = 90
	c = must(SlidingCheck(in))
	wellFormed(t, c)
	if c.Demand.Val != 2 || c.Ratio > 1 {
		t.Errorf("passive counts with a factor of 2: %v", c.Ratio)
	}
	in.RequiredPassive = 0
	_, err := SlidingCheck(in)
	refused(t, "no factor with passive", "required_passive", err)
	in = slide20()
	in.Uplift = 200
	c = must(SlidingCheck(in))
	if s := must(SlideBox(in)); s.Base != 0 || !s.Under.Off {
		t.Error("a box that floats has no friction below")
	}
	if c.Verdict() != check.Beyond {
		t.Error("and slides")
	}
	in.Earth = 0
	if c := must(SlidingCheck(in)); c.Ratio != 0 {
		t.Error("nothing pushes")
	}
	in.Share = 1.2
	_, err = SlidingCheck(in)
	refused(t, "more than all", "share", err)
}

func TestOverturningAndResultant(t *testing.T) {
	in := slide20()
	c := must(OverturningCheck(in))
	wellFormed(t, c)
	near(t, "overturning", c.Capacity.Val, 5.12, tolA)
	r := must(ResultantCheck(in))
	wellFormed(t, r)
	near(t, "resultant", r.Ratio, .592/1.010, tolA)
	in.Water, in.WaterLevel, in.Uplift = 150, 1.5, 90
	c = must(OverturningCheck(in))
	wellFormed(t, c)
	near(t, "by hand", c.Capacity.Val, 182.1*3.029/(107.8+225+90*3.029), 1e-9)
	if c.Verdict() != check.Beyond {
		t.Error("0.91 is beyond limits")
	}
	r = must(ResultantCheck(in))
	wellFormed(t, r)
	if r.Verdict() != check.Beyond {
		t.Error("outside the base")
	}
	in.Uplift = 200
	r = must(ResultantCheck(in))
	wellFormed(t, r)
	if !math.IsInf(r.Ratio, 1) {
		t.Error("no resultant when afloat")
	}
	in = slide20()
	in.WeightArm = 2
	near(t, "weight to the front", must(SlideBox(in)).X0, (182.1*2-107.8)/182.1, 1e-9)
	in.WeightArm = 7
	_, err := SlideBox(in)
	refused(t, "weight off the base", "weight_arm", err)
}

func TestToePassive(t *testing.T) {
	p := must(ToePassive(19, deg(30), deg(20), .6, 2.4, 0))
	near(t, "toe, horizontal part", p, 5.09*math.Cos(deg(20))*19*.36/2*2.4, tolA)
	_, err := ToePassive(19, deg(30), deg(20), .6, 2.4, deg(-5))
	refused(t, "falling ground", "front_beta", err)
	_, err = ToePassive(19, deg(30), deg(31), .6, 2.4, 0)
	refused(t, "delta", "delta", err)
	if must(ToePassive(19, deg(30), 0, 0, 2.4, 0)) != 0 {
		t.Error("no beam")
	}
}

// pads20 stands on four pads of EP-22 size.
func pads20() PadsIn {
	return PadsIn{Vertical: 182.1, SpanX: 5.85, SpanY: 2.26, Length: 1.2, Width: .9, Own: 8, Allowable: 144,
		Basis: "presumptive, sandy gravel (verified)"}
}

func TestPads(t *testing.T) {
	rnd := rand.New(rand.NewSource(4))
	for range 300 {
		in := pads20()
		in.Ex, in.Ey = (rnd.Float64()-.5)*in.SpanX, (rnd.Float64()-.5)*in.SpanY
		p := must(LoadPads(in))
		var v, mx, my float64
		for i, f := range p.Force {
			sx, sy := 1-float64(i/2)*2, 1-float64(i%2)*2
			v, mx, my = v+f, mx+f*sx*in.SpanX/2, my+f*sy*in.SpanY/2
			if f < -1e-9 {
				t.Fatalf("pad %d pulls: %v", i, p.Force)
			}
		}
		near(t, "force", v, in.Vertical, 1e-9)
		near(t, "along", mx, in.Vertical*in.Ex, 1e-9)
		near(t, "across", my, in.Vertical*in.Ey, 1e-9)
		lean := 2*math.Abs(in.Ex)/in.SpanX + 2*math.Abs(in.Ey)/in.SpanY
		if p.Three != (lean > 1) {
			t.Errorf("three pads at lean %v", lean)
		}
	}
	in := pads20()
	in.Ex = 3
	if p := must(LoadPads(in)); !p.Off || !math.IsInf(p.Max, 1) {
		t.Error("outside the pads")
	}
}

func TestPadCheck(t *testing.T) {
	in := pads20()
	in.Ex = .592
	c := must(PadCheck(in))
	wellFormed(t, c)
	near(t, "by hand", c.Demand.Val, (182.1/4*(1+.592/2.925)+8)/1.08, 1e-9)
	in.Allowable = 40
	c = must(PadCheck(in))
	wellFormed(t, c)
	k := c.RemedyQ[0].Val / (in.Length * in.Width)
	in.Length, in.Own = in.Length*k, in.Own*k
	near(t, "the remedy is just enough", must(PadCheck(in)).Ratio, 1, 1e-9)
	in = pads20()
	in.Allowable = 5
	if c := must(PadCheck(in)); len(c.RemedyQ) != 0 || c.Remedy == "" {
		t.Error("pads that are too heavy by themselves")
	}
	in.Allowable, in.Ultimate, in.Required = 0, 579.3, 3
	c = must(PadCheck(in))
	wellFormed(t, c)
	near(t, "factor", c.Capacity.Val, 579.3/((182.1/4+8)/1.08), 1e-9)
	in.Ex = 3
	c = must(PadCheck(in))
	wellFormed(t, c)
	if !math.IsInf(c.Ratio, 1) {
		t.Error("tips off its pads")
	}
	in.Ultimate = 0
	if _, err := PadCheck(in); err == nil {
		t.Error("without a bearing value there is no check")
	}
	in.Ultimate, in.Required = 500, .5
	_, err := PadCheck(in)
	refused(t, "factor", "required", err)
}

func BenchmarkFloat(b *testing.B) {
	in := box20()
	in.Water = 1
	for b.Loop() {
		must(in.WaterFor(1.3))
	}
}

func BenchmarkSlideChecks(b *testing.B) {
	in := slide20()
	for b.Loop() {
		must(SlidingCheck(in))
	}
}
