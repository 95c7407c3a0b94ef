package assess

import (
	"context"
	"math"
	"math/rand"
	"reflect"
	"testing"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

func run(t testing.TB, p *model.Project) *Result {
	t.Helper()
	r, err := Run(context.Background(), p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// find is the check of an id and part; part "" takes the first.
func find(r *Result, id, part string) *check.Check {
	for i := range r.Checks {
		if c := &r.Checks[i]; c.ID == id && (part == "" || c.Part == part) {
			return c
		}
	}
	return nil
}

// TestDemoAsDrawn: the store as first drawn is beyond limits for the reasons
// the references give: bare sheet under full burial (structure ST-07), a roof
// never meant for soil (structure 1.3), the open front (earth EP-26), water
// (earth EP-25), a batter steeper than the rule (site EX-01).
func TestDemoAsDrawn(t *testing.T) {
	r := run(t, demo(t, "as-drawn"))
	if len(r.Blocks) > 0 {
		t.Fatal(r.Blocks)
	}
	for _, id := range []string{"side-sheet", "end-sheet", "roof-sheet", "sliding", "flotation", "batter", "header"} {
		c := find(r, id, "")
		if c == nil || c.Verdict() != check.Beyond {
			t.Errorf("%s: %+v, want beyond limits", id, c)
		}
	}
}

// TestDemoPutRight: everything that is checked is within limits, every check
// shows a working and a source, and what is not checked says why.
func TestDemoPutRight(t *testing.T) {
	r := run(t, demo(t, "put-right"))
	if len(r.Blocks) > 0 {
		t.Fatal(r.Blocks)
	}
	if g := r.Governing(); g == nil || g.Verdict() != check.Within {
		t.Errorf("governing check %+v", g)
	}
	for _, c := range r.Checks {
		if c.Verdict() == check.NotChecked {
			if c.Missing == "" {
				t.Errorf("%s %s is not checked and does not say why", c.ID, c.Part)
			}
			continue
		}
		if len(c.Working) == 0 || c.Source == "" || c.Method == "" {
			t.Errorf("%s %s: working %d lines, source %q, method %q", c.ID, c.Part, len(c.Working), c.Source, c.Method)
		}
		if c.Stage == "" || c.Part == "" {
			t.Errorf("%s: stage %q, part %q", c.ID, c.Stage, c.Part)
		}
	}
}

// TestAnswers: the solved values are limits: a little less is within, a little
// more is beyond, by the same assessment.
func TestAnswers(t *testing.T) {
	p := demo(t, "put-right")
	r := run(t, p)
	if err := Answers(context.Background(), r, tables.Default()); err != nil {
		t.Fatal(err)
	}
	const step = 0.01 // ten times the tolerance of the solution, m
	if !r.Depth.Solved || r.Depth.Governs == "" {
		t.Fatalf("depth %+v", r.Depth)
	}
	for _, c := range []struct {
		d    float64
		want bool
	}{{-step, true}, {step, false}} {
		q := p.Clone()
		lift := r.Depth.Value + c.d - math.Min(p.Fill.FrontTop, p.Fill.BackTop)
		q.Fill.FrontTop, q.Fill.BackTop = p.Fill.FrontTop+lift, p.Fill.BackTop+lift
		if tr, err := try(context.Background(), q, tables.Default()); err != nil || tr.within != c.want {
			t.Errorf("cover %.3f: within %v, %v %s", r.Depth.Value+c.d, tr.within, err, tr.why)
		}
		q = p.Clone()
		z := q.Box.Level + r.WaterUp.Value + c.d
		q.Site.Water.DesignHigh = &z
		if *q.Site.Water.Seasonal > z {
			q.Site.Water.Seasonal = &z
		}
		if tr, err := try(context.Background(), q, tables.Default()); err != nil || tr.within != c.want {
			t.Errorf("water %.3f: within %v, %v %s", r.WaterUp.Value+c.d, tr.within, err, tr.why)
		}
	}
}

// TestFlotationOfDemo: the flotation of the whole assessment agrees with the
// formula on the same box by hand (earth reference EP-25, EM 1110-2-2100
// Eq 3-2, second-hand): uplift on the plan area against tare and cover.
func TestFlotationOfDemo(t *testing.T) {
	p := demo(t, "as-drawn")
	c := find(run(t, p), "flotation", "box")
	set := tables.Default()
	b, _ := set.Box("20std")
	top, _ := section.SoilByID(p, "topsoil")
	fill, _ := section.SoilByID(p, "loam")
	area := b.L * b.W
	water := *p.Site.Water.DesignHigh - p.Box.Level
	weight := b.Tare*9.81e-3 + area*(0.15*top.Gamma+0.45*fill.Gamma)
	want := weight / (area * 9.81 * water)
	if math.Abs(c.Capacity.Val-want) > 1e-3*want {
		t.Errorf("factor of safety %.4f, by hand %.4f", c.Capacity.Val, want)
	}
}

// TestSlidingOfEP26: a 20 ft box with an open front under the loads of earth
// reference EP-26 (derived): level ground, cover 0.6 m, gamma 18, K0 0.5,
// friction 0.40, no side friction: factor 0.676. The project is laid out so
// that the assessment meets the same numbers.
func TestSlidingOfEP26(t *testing.T) {
	p := ep26()
	r := run(t, p)
	if len(r.Blocks) > 0 {
		t.Fatal(r.Blocks)
	}
	c := find(r, "sliding", "box")
	const tol = 0.005 // the case's tolerance for pure arithmetic
	if c == nil || math.Abs(c.Capacity.Val-0.676) > tol {
		t.Fatalf("factor of safety %+v, want 0.676", c)
	}
	if c := find(r, "overturning", "box"); math.Abs(c.Capacity.Val-5.12) > 0.02 {
		t.Errorf("overturning %.3f, want 5.12", c.Capacity.Val)
	}
}

// ep26 is the project of EP-26: a flat field with the box let in, so that soil
// stands 0.6 m over its roof all round but in front.
func ep26() *model.Project {
	p := model.New()
	p.Site.Ground = []model.Vec{{0, 103.191}, {60, 103.191}}
	p.Site.Soils = []model.Soil{{ID: "s", Name: "soil", USCS: "SM", Gamma: 18, GammaSat: 20, Phi: 30, OCR: 1, DeltaSt: 17, DeltaCo: 20, DigClass: "C", Bearing: 100}}
	p.Site.Strata = []model.Stratum{{ID: "one", Soil: "s"}}
	p.Box.Front, p.Box.Level, p.Box.Tare = 20, 100, 22.6/9.81e-3
	p.Bedding.Graded, p.Bedding.RockSoil = true, "s"
	p.Fill = model.Fill{FrontTop: 0.6, BackTop: 0.6, Shoulder: 1, SideSlope: 2, LiftHeight: 0.2, Backfill: "s", RockSoil: "s", CapSoil: "s", TopsoilSoil: "s"}
	p.Stages = []model.Stage{{ID: "dry", Name: "dry", Kind: model.StageService, FillTo: 1, Cover: true, Water: model.WaterNone}}
	return p
}

// TestOneSideWorse: a ring loaded from one side is worse than from both
// (design section 1; structure reference section 4): the same fill against one
// long wall only, as broadside, strains the ribs more than against both.
func TestOneSideWorse(t *testing.T) {
	p := demo(t, "put-right")
	j, err := newJob(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	rib, err := j.rib()
	if err != nil {
		t.Fatal(err)
	}
	v, err := section.NewLong(p, j.t, p.Stages[len(p.Stages)-1])
	if err != nil {
		t.Fatal(err)
	}
	cv, err := section.CrossOf(p, j.t, v, j.backX)
	if err != nil {
		t.Fatal(err)
	}
	w, err := (&place{j: j, x: j.backX}).wall(cv, section.Right)
	if err != nil {
		t.Fatal(err)
	}
	rib.Right, rib.Left = w.strip.Load, w.strip.Load
	both, err := rib.Solve()
	if err != nil {
		t.Fatal(err)
	}
	rib.Left = box.Pressures{}
	one, err := rib.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if one.Corner < 1.5*both.Corner {
		t.Errorf("largest corner moment one-sided %.2f, both sides %.2f kNm", one.Corner, both.Corner)
	}
}

// TestMoreIsWorse: properties that hold whatever the numbers: more cover, more
// water, a thinner sheet never lower the ratio of what they load.
func TestMoreIsWorse(t *testing.T) {
	base := demo(t, "as-drawn")
	cases := []struct {
		name, id string
		change   func(p *model.Project, k float64)
	}{
		{"cover on the roof sheet", "roof-sheet", func(p *model.Project, k float64) { p.Fill.FrontTop, p.Fill.BackTop = 0.2+k, 0.2+k }},
		{"water on flotation", "flotation", func(p *model.Project, k float64) { z := 100.4 + k; p.Site.Water.DesignHigh = &z }},
		{"water on the side sheet", "side-sheet", func(p *model.Project, k float64) { z := 100.4 + k; p.Site.Water.DesignHigh = &z }},
		{"thinner side sheet", "side-sheet", func(p *model.Project, k float64) { p.Box.SideT = 1.6 - k/2 }},
		{"snow on the roof", "roof-sheet", func(p *model.Project, k float64) { p.Site.Climate.GroundSnow = 1 + 4*k }},
	}
	for _, c := range cases {
		last := 0.0
		for k := 0.0; k <= 1; k += 0.25 {
			p := base.Clone()
			c.change(p, k)
			got := find(run(t, p), c.id, "").Worst()
			if got < last-1e-9 {
				t.Errorf("%s: ratio falls from %.4f to %.4f", c.name, last, got)
			}
			last = got
		}
	}
}

// TestSameTwice: the same input gives the same result, whatever the workers do.
func TestSameTwice(t *testing.T) {
	p := demo(t, "put-right")
	a, b := run(t, p), run(t, p)
	if len(a.Checks) != len(b.Checks) {
		t.Fatal("different number of checks")
	}
	for i := range a.Checks {
		x, y := a.Checks[i], b.Checks[i]
		if x.ID != y.ID || x.Part != y.Part || x.Stage != y.Stage || x.Station != y.Station || !sameBits(x.Ratio, y.Ratio) {
			t.Errorf("check %d differs: %s %s %s / %s %s %s", i, x.ID, x.Part, x.Stage, y.ID, y.Part, y.Stage)
		}
	}
	if !reflect.DeepEqual(p, demo(t, "put-right")) {
		t.Error("the assessment changed the project")
	}
}

func sameBits(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }

// TestCancelled: a cancelled run hands back the context's error.
func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Run(ctx, demo(t, "put-right"), tables.Default()); err == nil {
		t.Error("no error")
	}
}

// TestMissingWater: a stage whose water level is not given is named, and the
// others are still checked.
func TestMissingWater(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Site.Water.DesignHigh = nil
	r := run(t, p)
	if len(r.Blocks) != 1 || r.Blocks[0].Field != "site.water.design_high" {
		t.Errorf("blocks %v", r.Blocks)
	}
	if find(r, "side-sheet", "") == nil {
		t.Error("the other stages were not checked")
	}
}

// TestBroadside: the box along the contour is pressed from the hill only; the
// roof as a diaphragm and the long wall are checked.
func TestBroadside(t *testing.T) {
	p := demo(t, "as-drawn").Clone()
	p.Box.Orientation = model.Broadside
	r := run(t, p)
	if len(r.Blocks) > 0 {
		t.Fatal(r.Blocks)
	}
	if c := find(r, "roof-diaphragm", "roof"); c == nil || c.Worst() < 0.2 {
		t.Errorf("diaphragm %+v", c)
	}
	if c := find(r, "side-sheet", "back wall"); c == nil {
		t.Error("the long wall uphill is not checked")
	}
}

// TestRandomProjects: any mixture of changes to the demo gives either a named
// block or finite, non-negative ratios; never NaN in a check that was made.
func TestRandomProjects(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	base := []*model.Project{demo(t, "as-drawn"), demo(t, "put-right")}
	for i := range 60 {
		p := base[i%2].Clone()
		jumble(p, rng.Float64)
		sane(t, run(t, p))
	}
}

// jumble sets the values that a user drags, from the numbers of next, 0 to 1.
func jumble(p *model.Project, next func() float64) {
	span := func(lo, hi float64) float64 { return lo + (hi-lo)*next() }
	p.Box.Front, p.Box.Level = span(2, 20), span(98, 104)
	p.Fill.FrontTop, p.Fill.BackTop, p.Fill.BackSlope = span(-2.4, 2), span(-2.4, 2), span(-0.3, 0.6)
	p.Fill.RockWidth, p.Fill.RockTop = span(0, 1), span(-0.5, 2)
	p.Cut.Batter, p.Cut.SideBatter, p.Cut.WorkBack = span(0, 2), span(0, 2), span(0, 2)
	z := span(97, 105)
	p.Site.Water.DesignHigh = &z
	p.Site.CrossSlope = span(-0.3, 0.3)
	if next() > 0.5 {
		p.Box.Orientation = model.Broadside
	}
	p.Site.Surcharges[0].X1 = span(0, 30)
	p.Stages[8].Years = span(0, 30)
	g := &p.Wings
	g.Splay, g.Batter, g.Length, g.BlockWidth, g.BlockLength = span(0, 90), span(0, 45), span(0, 8), span(0.1, 3), span(0.1, 3)
	g.Courses, g.Embed, g.BaseRock = int(span(1, 9)), span(0, 2), span(0, 1)
	p.Stages[9].Quake, p.Site.Climate.Kh = next() > 0.5, span(0, 0.4)
}

// sane refuses NaN and negative ratios in checks that were made.
func sane(t testing.TB, r *Result) {
	t.Helper()
	for _, c := range r.Checks {
		if c.Verdict() == check.NotChecked {
			continue
		}
		for _, q := range append([]float64{c.Worst()}, c.Demand.Val, c.Capacity.Val) {
			if math.IsNaN(q) {
				t.Errorf("%s %s at %s: NaN", c.ID, c.Part, c.Stage)
			}
		}
		if c.Worst() < 0 {
			t.Errorf("%s %s: ratio %g", c.ID, c.Part, c.Worst())
		}
	}
	for _, l := range r.Loads {
		for _, row := range l.Diagram {
			if math.IsNaN(row.Total) || math.IsInf(row.Total, 0) {
				t.Errorf("%s %s: pressure %v", l.Stage, l.Face, row.Total)
			}
		}
	}
}

// FuzzRun: whatever values a project holds, the assessment neither panics nor
// puts NaN in a check.
func FuzzRun(f *testing.F) {
	base := demo(f, "put-right")
	f.Add([]byte{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16})
	f.Add([]byte{255, 0, 255, 0, 128, 64, 32})
	f.Fuzz(func(t *testing.T, b []byte) {
		i := 0
		p := base.Clone()
		jumble(p, func() float64 {
			if len(b) == 0 {
				return 0.5
			}
			i++
			return float64(b[i%len(b)]) / 255
		})
		sane(t, run(t, p))
	})
}
