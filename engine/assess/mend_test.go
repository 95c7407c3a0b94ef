package assess

import (
	"context"
	"math"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/tables"
)

// TestDeepCutIsNotHidden: a cut deeper than 20 ft (29 CFR 1926 Subpart P, rule
// R9, second-hand) is for an engineer, even where another face of the same cut
// is within the table.
func TestDeepCutIsNotHidden(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Box.Level = 97.5
	p.Cut.Batter, p.Cut.SideBatter = 1.6, 1.6
	p.Site.Ground = append(p.Site.Ground[:len(p.Site.Ground)-1], model.Vec{60, 109})
	r := run(t, p)
	c := find(r, batterID, "cut face")
	if c == nil || c.Verdict() != check.NotChecked || !strings.Contains(c.Missing, "engineer") {
		t.Errorf("%+v", c)
	}
}

// TestWorstOfHidesNothing: beyond limits before not checked before within.
func TestWorstOfHidesNothing(t *testing.T) {
	within := candidate{slot: slot{"a", "b"}, ratio: 0.9}
	beyond := candidate{slot: slot{"a", "b"}, ratio: 1.1}
	for _, order := range [][]candidate{{within, {}, beyond}, {beyond, {}, within}, {{}, beyond, within}} {
		for n, want := range []float64{0: 0, 1: 0, 2: 0, 3: 1.1} {
			w := newWorst()
			for _, c := range order[:n] {
				if c.slot == (slot{}) {
					w.missing("a", "", "b", "", "why")
					continue
				}
				w.add(c)
			}
			if n < 3 {
				continue
			}
			if got := w.best[slot{"a", "b"}].ratio; got != want {
				t.Errorf("%d offered: kept %g, want %g", n, got, want)
			}
		}
	}
	w := newWorst()
	w.add(within)
	w.missing("a", "", "b", "", "why")
	if !math.IsNaN(w.best[slot{"a", "b"}].ratio) {
		t.Error("what is within hides what was not checked")
	}
}

// TestPadsBearAllOfIt: a load on the roof presses on the pads with all of its
// weight: 20 kPa on the plan of a 20 ft box are 295 kN, a quarter of it on
// each pad (statics, derived).
func TestPadsBearAllOfIt(t *testing.T) {
	p := ep26()
	p.Site.Surcharges = []model.Surcharge{{ID: "q", Name: "load", Kind: model.AreaLoad, X1: 19, X2: 27, Y1: ptr(-2.0), Y2: ptr(2.0), Q: 20}}
	bare := find(run(t, p), padBearing, "pads").Demand.Val
	p = p.Clone()
	p.Stages[0].Surcharges = []string{"q"}
	got := find(run(t, p), padBearing, "pads").Demand.Val
	spread := (p.Bedding.PadLength + p.Bedding.RockThickness) * (p.Bedding.PadWidth + p.Bedding.RockThickness)
	want := 20 * 6.058 * 2.438 / 4 / spread
	// the load beside and behind the box also pushes on the walls, so the pads
	// at the front bear somewhat more than a quarter
	if got-bare < 0.98*want {
		t.Errorf("20 kPa raise the pads by %.1f kPa, at least %.1f expected", got-bare, want)
	}
}

func ptr(v float64) *float64 { return &v }

// TestEmptyBoxAfloat: a bare 20 ft box of 22.6 kN in a pit with 0.3 m of water
// floats: 22.6/(9.81·0.3·14.769) = 0.520 (EM 1110-2-2100 Eq 3-2, second-hand).
func TestEmptyBoxAfloat(t *testing.T) {
	p := ep26()
	z := 100.3
	p.Site.Water.DesignHigh = &z
	p.Stages = []model.Stage{{ID: "set", Name: "set", Kind: model.StageSet, Water: model.WaterHigh}}
	c := find(run(t, p), "flotation", "box")
	if c == nil || math.Abs(c.Capacity.Val-0.520) > 0.001 {
		t.Fatalf("%+v, want a factor of 0.520", c)
	}
}

// TestFlotationOfEP25 runs earth reference EP-25a (derived) through the whole
// assessment: cover 0.6 m moist, water 1.2 m above the floor: FS 1.047; and a
// light layer on the roof under water lifts rather than holds.
func TestFlotationOfEP25(t *testing.T) {
	p := ep26()
	z := 101.2
	p.Site.Water.DesignHigh = &z
	p.Stages[0].Water = model.WaterHigh
	if c := find(run(t, p), "flotation", "box"); math.Abs(c.Capacity.Val-1.047) > 0.001 {
		t.Errorf("%.4f, want 1.047", c.Capacity.Val)
	}
	// 0.5 m of block foam (0.2 kN/m3) under 0.1 m of soil, water at the ground:
	// (22.6 + 14.769(0.1·10.19 + 0.5·0.2)) / (9.81·14.769·(2.591+0.5)) = 0.087
	p = p.Clone()
	p.Fill.Roof = []model.RoofLayer{{Kind: "lightfill", Name: "block foam", Thickness: 0.5, Gamma: 0.2}}
	z2 := 103.191
	p.Site.Water.DesignHigh = &z2
	area := 6.058 * 2.438
	want := (22.6 + area*(0.1*(20-9.81)+0.1)) / (9.81 * area * 3.091)
	if c := find(run(t, p), "flotation", "box"); math.Abs(c.Capacity.Val-want) > 0.001 {
		t.Errorf("with foam %.4f, by hand %.4f", c.Capacity.Val, want)
	}
}

// TestToeBeam: what stands behind the beam is taken off, and a beam whose
// wedge runs out of the ground says so.
func TestToeBeam(t *testing.T) {
	p := ep26()
	p.Bedding.Toe = model.ToeBeam{Depth: 1, Width: 2.4}
	p.Cut.Apron = 10
	c := find(run(t, p), "sliding", "box")
	// Kp by the log spiral at phi 30, delta 15 is 4.44 (UFC 4-12: R = 3,
	// 3·exp(0.5·ln 3·1.443·0.5)); Ka 1/3; q at the front edge 19.56 (EP-26)
	kp := 3 * math.Exp(0.5*math.Log(3)*1.443*0.5)
	pp := (kp*math.Cos(math.Pi/12)*18/2 - (18.0/2+19.56)/3) * 2.4
	last := c.Working[len(c.Working)-1]
	if math.Abs(last.Result.Val-pp) > 0.01*pp {
		t.Errorf("net resistance %.2f kN, by hand %.2f", last.Result.Val, pp)
	}
	p = p.Clone()
	p.Site.Ground = []model.Vec{{0, 90}, {19.5, 99.4}, {20.5, 103.191}, {60, 103.191}}
	r := run(t, p)
	c = find(r, "sliding", "box")
	if c == nil || !strings.Contains(strings.Join(c.Assumptions, ";"), "not counted") {
		t.Errorf("nothing said of a beam before falling ground: %+v, %v", c, r.Blocks)
	}
}

// TestCutKnowsTheWater: water seen above the formation makes class C of any
// ground (29 CFR 1926 Subpart P App. A, memory) unless it is dug dry.
func TestCutKnowsTheWater(t *testing.T) {
	p := demo(t, "put-right").Clone()
	if c := find(run(t, p), batterID, "cut face"); c.Verdict() != check.Within {
		t.Fatalf("dug dry: %+v", c)
	}
	p.Cut.DryDig = false
	if c := find(run(t, p), batterID, "cut face"); math.Abs(c.Ratio-1.5/1.1) > 1e-9 {
		t.Errorf("with water above the formation: ratio %.3f, want %.3f", c.Ratio, 1.5/1.1)
	}
}

// TestGapRunsRound: the gap beside the box counts by its narrowest part and
// its whole length (rules R13, R14).
func TestGapRunsRound(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Cut.WorkBack = 5
	c := find(run(t, p), "trench-egress", "")
	if c == nil || c.Demand.Val < 2 {
		t.Errorf("a wide gap behind the box hides the narrow ones beside it: %+v", c)
	}
}

// TestDepthStartsFromTheDrawing: where low fill is the worse case, the drawing
// within limits is still the start of the answer.
func TestDepthStartsFromTheDrawing(t *testing.T) {
	p := demo(t, "put-right")
	r := run(t, p)
	if err := Answers(context.Background(), r, tables.Default()); err != nil {
		t.Fatal(err)
	}
	if drawn := math.Min(p.Fill.FrontTop, p.Fill.BackTop); !r.Depth.Solved || r.Depth.Value < drawn {
		t.Errorf("drawn with %.2f m within limits, answered %+v", drawn, r.Depth)
	}
}

// TestMisfits: a bed in the air and a cut into rock are named.
func TestMisfits(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Box.Level = 104.5
	if r := run(t, p); len(r.Blocks) == 0 || r.Blocks[0].Field != "box.level" {
		t.Errorf("box in the air: %v", r.Blocks)
	}
	p = demo(t, "put-right").Clone()
	p.Site.Rock = []model.Vec{{0, 97.2}, {32, 103}}
	found := false
	for _, b := range run(t, p).Blocks {
		found = found || b.Field == "site.rock"
	}
	if !found {
		t.Error("a cut into rock is not named")
	}
}

// TestUnevenStations: a wheel beside the box adds stations; weights and side
// friction must not feel how they lie. The tractor that acts in no stage
// changes nothing.
func TestUnevenStations(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Fill.BackTop = 0.6 // cover that varies along the box
	for i := range p.Stages {
		p.Stages[i].Surcharges = nil
	}
	p.Site.Surcharges[0].X1 = 30
	want := run(t, p)
	for _, x := range []float64{9.3, 12, 15.1} {
		q := p.Clone()
		q.Site.Surcharges[0].X1 = x
		got := run(t, q)
		for _, id := range []string{"sliding", "overturning", "resultant", padBearing} {
			a, b := find(want, id, "").Worst(), find(got, id, "").Worst()
			// the profile of the cover is straight, so the trapezoid rule is exact
			// for weights; stresses down the walls are nearly so
			if math.Abs(a-b) > 2e-3*a {
				t.Errorf("tractor at %.1f: %s %.5f, %.5f without", x, id, b, a)
			}
		}
	}
}

// TestCompactingPresses: a lift in which the plant works presses harder near
// the top of the fill than one without (Broms, memory); in service the stress
// stays.
func TestCompactingPresses(t *testing.T) {
	p := demo(t, "put-right").Clone()
	thrust := func(st string) float64 {
		for _, l := range run(t, p).Loads {
			if l.Stage == st {
				return l.Thrust
			}
		}
		return 0
	}
	lift, service := thrust("lift-top"), thrust("dry")
	for i := range p.Stages {
		p.Stages[i].Compacting = false
	}
	if quiet := thrust("lift-top"); quiet >= lift {
		t.Errorf("lift without plant %.2f, with %.2f kN/m", quiet, lift)
	}
	if now := thrust("dry"); now != service {
		t.Errorf("in service %.2f, before %.2f kN/m", now, service)
	}
}

// TestEccentricRoof: load on the front half of the roof presses the front pads
// and tips the box forward; on the back half it does not (statics, derived):
// EP-26 with 20 kPa on 3.029 m in front gives 233.4 kPa on the rock bed, under
// the front pads, and on the back half 196.1 under the back ones; cover of 1.2 m in front to none at the back moves the
// weight to 2.145 m from the front and the resultant out of the middle third.
func TestEccentricRoof(t *testing.T) {
	load := func(x1, x2 float64) float64 {
		p := ep26()
		p.Bedding.PadLength, p.Bedding.PadWidth = 0.7, 0.7
		p.Site.Surcharges = []model.Surcharge{{ID: "q", Name: "load", Kind: model.AreaLoad, X1: x1, X2: x2, Y1: ptr(-1.219), Y2: ptr(1.219), Q: 20}}
		p.Stages[0].Surcharges = []string{"q"}
		return find(run(t, p), padBearing, "rock bed").Demand.Val
	}
	front, back := load(20, 23.029), load(23.029, 26.058)
	if math.Abs(front-233.4) > 1.5 {
		t.Errorf("20 kPa on the front half: %.1f kPa on the rock bed, 233.4 by hand", front)
	}
	// V 337.7 kN, M 107.8 − 223.7 kNm, span 5.88 m, pad 0.49 m2 of 3.6 kPa
	if math.Abs(back-196.1) > 1.5 {
		t.Errorf("on the back half %.1f kPa on the back pads, 196.1 by hand", back)
	}
	p := ep26()
	p.Fill.FrontTop, p.Fill.BackTop = 1.2, 0
	if c := find(run(t, p), "resultant", "box"); math.Abs(c.Ratio-1.24) > 0.02 {
		t.Errorf("resultant %.3f, 1.24 by hand", c.Ratio)
	}
	if c := find(run(t, p), "overturning", "box"); math.Abs(c.Capacity.Val-5.82) > 0.06 {
		t.Errorf("overturning %.3f, 5.82 by hand (1 %%: the weight is summed at stations)", c.Capacity.Val)
	}
}

// TestWheelsWeighOnce: an axle of a truck on the roof weighs what it weighs,
// with impact: 142.3 kN times 1.31 at 0.2 m of cover, whatever the stations.
func TestWheelsWeighOnce(t *testing.T) {
	p := ep26()
	p.Fill.FrontTop, p.Fill.BackTop = 0.2, 0.2
	p.Site.Surcharges = []model.Surcharge{{ID: "v", Name: "truck", Kind: model.Vehicle, Vehicle: "truck-hs20", X1: 23, Heading: "along"}}
	p.Stages[0].Surcharges = []string{"v"}
	j, err := newJob(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	w, err := j.wheelsOnRoof(p.Stages[0], p.Site.Surcharges[0])
	if err != nil || math.Abs(w.p-142.34*(1+0.33*(1-0.125*0.2/0.3048))) > 0.1 {
		t.Errorf("%.1f kN, %v", w.p, err)
	}
}

// TestFaultHidesNothing: a part that cannot be worked out is listed with the
// reason, and the others are still made.
func TestFaultHidesNothing(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Strengthening.Ribs.Purlin = "nosuch"
	r := run(t, p)
	for _, id := range []string{"sliding", "overturning", padBearing, "flotation"} {
		if c := find(r, id, ""); c == nil || c.Verdict() == check.NotChecked {
			t.Errorf("%s is gone: %+v", id, c)
		}
	}
	if c := find(r, "roof-sheet", "roof"); c == nil || c.Verdict() != check.NotChecked {
		t.Errorf("roof sheet: %+v", c)
	}
}

// TestAfloatSaysSo: a floating box has no working with signs without sense.
func TestAfloatSaysSo(t *testing.T) {
	p := demo(t, "put-right").Clone()
	z := 103.5
	p.Site.Water.DesignHigh = &z
	for _, id := range []string{"sliding", "overturning"} {
		c := find(run(t, p), id, "box")
		if c == nil || !math.IsInf(c.Ratio, 1) || len(c.Working) != 1 {
			t.Errorf("%s: %+v", id, c)
		}
	}
}

// TestNothingFilled: stages without fill leave the main checks listed as not
// made.
func TestNothingFilled(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Stages = p.Stages[:3]
	r := run(t, p)
	for _, id := range []string{"side-sheet", "roof-sheet", "sliding", padBearing} {
		if c := find(r, id, ""); c == nil || c.Missing == "" {
			t.Errorf("%s is not listed", id)
		}
	}
}

// TestWeakerFriction: backfill that grips the wall less than the drainage rock
// counts for both, as it lies against the wall above the rock.
func TestWeakerFriction(t *testing.T) {
	p := demo(t, "put-right").Clone()
	with := find(run(t, p), "sliding", "box").Ratio
	for i := range p.Site.Soils {
		if p.Site.Soils[i].ID == "gravel" {
			p.Site.Soils[i].DeltaSt = 5
		}
	}
	j, err := newJob(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	k1, d1, err := j.wallFriction()
	if err != nil {
		t.Fatal(err)
	}
	p.Fill.Backfill = "gravel"
	k2, d2, err := j.wallFriction()
	if err != nil || k2*math.Tan(d2) >= k1*math.Tan(d1) {
		t.Errorf("stone grips with %.4f, both with %.4f, %v", k1*math.Tan(d1), k2*math.Tan(d2), err)
	}
	if again := find(run(t, demo(t, "put-right")), "sliding", "box").Ratio; again != with {
		t.Errorf("sliding %.4f, then %.4f", with, again)
	}
}
