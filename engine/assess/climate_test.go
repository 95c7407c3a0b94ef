package assess

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/climate"
	"hillset/engine/model"
	"hillset/engine/tables"
)

// winter is the demonstration put right, to be changed.
func winter(t *testing.T) *model.Project { return demo(t, "put-right").Clone() }

// verdictOf is the check of an id, which must be there once.
func verdictOf(t *testing.T, r *Result, id string) *check.Check {
	t.Helper()
	var out *check.Check
	for i := range r.Checks {
		if r.Checks[i].ID == id {
			if out != nil {
				t.Errorf("%s is there twice", id)
			}
			out = &r.Checks[i]
		}
	}
	if out == nil {
		t.Fatalf("no check %s", id)
	}
	return out
}

// The depth of frost of a project is that of the room of climate in the soil
// in which it goes deepest; without an index the typed one counts.
func TestFrostOf(t *testing.T) {
	p, tab := winter(t), tables.Default()
	f := FrostOf(p, tab)
	if f.Why != "" || f.Given || f.Soil != "Silty gravel, tight" {
		t.Fatalf("%+v", f)
	}
	// GM: 20.5 kN/m3 with 14.5 % of water, the conductivities of its row
	in := climate.FrostIn{Soil: climate.Soil{Dry: 20.5 / 0.00981 / 1.145, Water: 0.145, KUnfrozen: 2.41, KFrozen: 3.42}, Index: 450, N: 0.7, Mean: 8, Days: 90, HasMean: true}
	want, err := climate.FindFrost(in)
	if err != nil || math.Abs(f.Depth-want.Depth) > 1e-3 {
		t.Errorf("depth %.3f, want %.3f (%v)", f.Depth, want.Depth, err)
	}
	p.Site.Climate.FrostDays = 0
	if g := FrostOf(p, tab); g.Depth != g.Found.Stefan || !(g.Depth > f.Depth) {
		t.Errorf("without the season: %+v", g)
	}
	p.Site.Climate.FrostCover = ""
	if g := FrostOf(p, tab); !strings.Contains(g.Why, "on the ground in winter") || g.Depth != 0 {
		t.Errorf("without a cover: %+v", g)
	}
	p.Site.Climate.FrostIndex = 0
	if g := FrostOf(p, tab); !g.Given || g.Depth != 0.9 {
		t.Errorf("typed: %+v", g)
	}
}

// The outlet of the drain is held against the computed depth of frost, or the
// typed one.
func TestOutletFreezesAsComputed(t *testing.T) {
	p := computedDemo(t, "put-right").Clone()
	depth := func() float64 { return term(t, must(t, run(t, p), "drain-outlet", "drain"), "zf") }
	if got := depth(); math.Abs(got-FrostOf(p, tables.Default()).Depth) > 1e-9 || math.Abs(got-0.977) > 1e-3 {
		t.Errorf("computed: %v", got)
	}
	p.Site.Climate.FrostIndex, p.Site.Climate.FrostDepth = 0, 0.6
	if got := depth(); got != 0.6 {
		t.Errorf("typed: %v", got)
	}
	p.Site.Climate.FrostIndex, p.Site.Climate.FrostCover = 450, "no such cover"
	if c := verdictOf(t, run(t, p), "drain-outlet"); !strings.Contains(c.Missing, "frost") {
		t.Errorf("a cover that is not in the table: %+v", c)
	}
}

// The store as drawn says nothing of its climate, and nothing is made up; with
// that of the store put right what is beyond limits as drawn is within once put
// right.
func TestClimateOfDemos(t *testing.T) {
	for name, want := range map[string]map[string]check.Verdict{
		"as-drawn": {"frost-bed": check.Beyond, "frost-fill": check.Beyond, "dew": check.Beyond, "mould": check.Beyond, "fresh-air": check.NotChecked,
			"closed-air": check.Within, "moisture": check.NotChecked},
		"put-right": {"frost-bed": check.Within, "frost-fill": check.Within, "dew": check.Within, "mould": check.Within, "fresh-air": check.Within,
			"closed-air": check.Within, "moisture": check.Within},
	} {
		p := demo(t, name)
		if name == "as-drawn" {
			r := run(t, p)
			for id := range want {
				if c := verdictOf(t, r, id); !strings.Contains(c.Missing, "not given") {
					t.Errorf("no climate is given, %s: %s (%s)", id, c.Verdict(), c.Missing)
				}
			}
			p.Site.Climate = demo(t, "put-right").Site.Climate
			p.Room = model.Room{Temperature: demo(t, "put-right").Room.Temperature, Humid: 0.75, People: 2, Activity: "rest", Hours: 4}
		}
		r := run(t, p)
		for id, v := range want {
			c := verdictOf(t, r, id)
			if c.Verdict() != v {
				t.Errorf("%s, %s: %s (%.2f, %s)", name, id, c.Verdict(), c.Worst(), c.Missing)
			}
			if v == check.NotChecked && !strings.Contains(c.Missing, "not given") {
				t.Errorf("%s, %s: %q", name, id, c.Missing)
			}
		}
		if g := r.Governing(); ofClimate(g.ID) {
			t.Errorf("%s: %s governs", name, g.ID)
		}
	}
}

// Nothing given: every check says what is missing, and nothing is made up.
func TestClimateNotGiven(t *testing.T) {
	p := winter(t)
	p.Site.Climate, p.Room = model.Climate{GroundSnow: p.Site.Climate.GroundSnow}, model.Room{}
	r := run(t, p)
	for _, id := range ClimateIDs {
		if id == "vapour" { // there is no insulation inside
			continue
		}
		if c := verdictOf(t, r, id); c.Verdict() != check.NotChecked || !strings.HasPrefix(c.Missing, "not given: ") {
			t.Errorf("%s: %s %q", id, c.Verdict(), c.Missing)
		}
	}
	if c := r.Climate; c.Seasons || c.HasLoss || c.Ground != nil || len(c.Skins) != 0 || c.WhySeasons == "" {
		t.Errorf("%+v", c)
	}
}

// One thing taken away makes its own check beyond limits.
func TestClimateFollowsTheProject(t *testing.T) {
	for name, c := range map[string]struct {
		change func(p *model.Project)
		id     string
		says   string
	}{
		"no toe beam":     {func(p *model.Project) { p.Bedding.Toe = model.ToeBeam{} }, "frost-bed", ""},
		"harder winter":   {func(p *model.Project) { p.Site.Climate.FrostIndex = 1800 }, "frost-bed", ""},
		"loam at walls":   {func(p *model.Project) { p.Fill.RockSoil = "loam" }, "frost-fill", ""},
		"doors bare":      {func(p *model.Project) { p.Room.Insulation.Doors = false }, "dew", "doors"},
		"thin":            {func(p *model.Project) { p.Room.Insulation.Thickness = 0.01; p.Fill.Roof = nil }, "mould", ""},
		"damp":            {func(p *model.Project) { p.Room.Humid = 0.9 }, "mould", "drier"},
		"inside":          {func(p *model.Project) { p.Room.Insulation.Side = model.InsideSteel }, "vapour", ""},
		"small vents":     {func(p *model.Project) { p.Room.Vents.Low, p.Room.Vents.High = 0.004, 0.004 }, "fresh-air", ""},
		"many people":     {func(p *model.Project) { p.Room.People = 20 }, "closed-air", ""},
		"damp with vents": {func(p *model.Project) { p.Room.Vents.Low, p.Room.Vents.High = 0.05, 0.05 }, "moisture", ""},
		"thin pipes": {func(p *model.Project) {
			p.Room.Vents = model.Vents{Kind: model.PipeVents, Apart: 2, Bore: 0.1, LowLen: 3, HighLen: 2, Fittings: 3}
		}, "fresh-air", ""},
	} {
		p := winter(t)
		c.change(p)
		k := verdictOf(t, run(t, p), c.id)
		if k.Verdict() != check.Beyond || !strings.Contains(k.Validity+k.Remedy, c.says) {
			t.Errorf("%s: %s is %s (%.2f) %s", name, c.id, k.Verdict(), k.Worst(), k.Missing)
		}
	}
}

// The unheated room lies between ground and air, and the loss is the sum of its
// ways; bare doors lose more and let the room follow the air.
func TestWarmth(t *testing.T) {
	p := winter(t)
	c := run(t, p).Climate
	if !c.Seasons || !c.HasLoss {
		t.Fatalf("%+v", c)
	}
	least, _, _ := c.Ground.Least(c.Floor - 2.591/2)
	if s := c.Winter; !(s.Room > s.Outside && s.Room < least) || math.Abs(s.Outside+2) > 1e-9 {
		t.Errorf("winter %+v, ground %.2f", s, least)
	}
	if s := c.Summer; !(s.Room < s.Outside && s.Flow < 0) {
		t.Errorf("summer %+v", s)
	}
	// 60 mm at 0.033 on doors of 2.438 by 2.591 m
	if want := 2.438 * 2.591 / (0.13 + 0.06/0.033 + 0.04); math.Abs(c.Loss.Open-want) > 0.01 {
		t.Errorf("doors lose %.2f W/K, want %.2f", c.Loss.Open, want)
	}
	p.Room.Insulation.Doors = false
	bare := run(t, p).Climate
	if !(bare.Loss.Open > 5*c.Loss.Open) || bare.Loss.Ground != c.Loss.Ground || !(bare.Winter.Room < c.Winter.Room) {
		t.Errorf("bare doors: %+v against %+v", bare.Loss, c.Loss)
	}
	p.Box.Orientation = model.Broadside
	if wide := run(t, p).Climate; !(wide.Loss.Open > bare.Loss.Open) || !(wide.Loss.Ground < bare.Loss.Ground) {
		t.Errorf("broadside: %+v", wide.Loss)
	}
}

// Where the unheated room freezes, the check of the bed says what it leaves out.
func TestColdRoomIsTold(t *testing.T) {
	p := winter(t)
	if c := verdictOf(t, run(t, p), "frost-bed"); strings.Contains(c.Validity, "Unheated") {
		t.Errorf("mild winter: %s", c.Validity)
	}
	*p.Site.Climate.AirMean = 3
	if c := verdictOf(t, run(t, p), "frost-bed"); !strings.Contains(c.Validity, "Unheated") {
		t.Errorf("cold winter: %s", c.Validity)
	}
}
