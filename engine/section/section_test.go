package section

import (
	"errors"
	"math"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/geom"
)

// plain is a project on one soil with a box that needs no pads, so that the
// formation is the level of the box less nothing.
func plain(ground ...model.Vec) *model.Project {
	p := model.New()
	t := tables.Default()
	s, _ := t.SoilOf("SM")
	s.ID = "s"
	p.Site.Soils = []model.Soil{s}
	p.Site.Ground = ground
	p.Site.Strata = []model.Stratum{{ID: "one", Soil: "s"}}
	p.Bedding.Kind, p.Bedding.RockThickness, p.Bedding.PadThickness = model.RockBedding, 0, 0
	p.Fill.Backfill, p.Fill.RockSoil, p.Fill.CapSoil, p.Fill.TopsoilSoil = "s", "s", "s", "s"
	return p
}

var (
	open    = model.Stage{ID: "cut", Kind: model.StageCut}
	service = model.Stage{ID: "service", Kind: model.StageService, FillTo: 1, Cover: true}
)

// TestCrestHeight: site reference EX-02, h = d0/(1 - n tan β); derived from
// geometry. The box is placed so that d0 is the ground height over the toe.
func TestCrestHeight(t *testing.T) {
	const tol = 1e-3 // the tolerance of the case, m
	cases := []struct {
		name       string
		d0, m, n   float64
		h          float64
		noDaylight bool
	}{
		{"EX-02a", 3.00, 3, 1, 4.500, false},
		{"EX-02b", 3.20, 3, 1.5, 6.400, false},
		{"EX-02c", 2.60, 2, 1, 5.200, false},
		{"EX-02d", 2.60, 1.5, 1.5, 0, true},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			// ground through (0, 100) rising at 1:m; toe at x = 20
			z := func(x float64) float64 { return 100 + x/c.m }
			p := plain(model.Vec{-40, z(-40)}, model.Vec{60, z(60)})
			p.Cut.Batter, p.Cut.WorkBack = c.n, 0.5
			p.Box.Front = 20 - 0.5 - 6.058
			p.Box.Level = z(20) - c.d0
			p.Cut.Apron = 14 // beyond daylight
			v, err := NewLong(p, tables.Default(), open)
			if c.noDaylight {
				var pr model.Problem
				if !errors.As(err, &pr) || pr.Field != "cut.batter" {
					t.Fatalf("want a problem of cut.batter, got %v", err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(v.CutHeight-c.h) > tol || math.Abs(v.Crest[0]-20-c.n*c.h) > tol {
				t.Errorf("height %.4f, crest at %.4f; want %.3f and %.3f", v.CutHeight, v.Crest[0]-20, c.h, c.n*c.h)
			}
		})
	}
}

// TestGradeSheet: site reference GS-01 (derived): catch points of three
// batters on a measured profile. The floor of the case rises 1 %; ours is
// level at the level of its back edge, where the batter starts.
func TestGradeSheet(t *testing.T) {
	ground := []model.Vec{{0, 99.20}, {3, 99.95}, {6, 100.60}, {9, 101.55}, {12, 102.80}, {15, 103.90}, {18, 104.60}, {21, 105.20}, {24, 105.70}}
	cases := []struct {
		n, x, z, h float64
		short      bool
	}{
		{1, 17.8957, 104.5757, 5.8957, false},
		{1.5, 22.0400, 105.3733, 6.6933, false},
		{2, 0, 0, 0, true},
	}
	for _, c := range cases {
		p := plain(ground...)
		p.Cut.Batter, p.Cut.WorkBack, p.Cut.Apron = c.n, 0.5, 0
		p.Box.Front, p.Box.Level = 12-0.5-6.058, 98.68
		v, err := NewLong(p, tables.Default(), open)
		if c.short {
			if err == nil {
				t.Errorf("n = %g: no problem although the profile is too short", c.n)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		const tol = 5e-4
		if math.Abs(v.Crest[0]-c.x) > tol || math.Abs(v.Crest[1]-c.z) > tol || math.Abs(v.CutHeight-c.h) > tol {
			t.Errorf("n = %g: crest %.4f %.4f, height %.4f; want %v", c.n, v.Crest[0], v.Crest[1], v.CutHeight, c)
		}
	}
}

// TestLayeredFace: site reference EX-03 (derived): 2.0 m of C over 2.5 m of B,
// each at its own slope, run 5.50 m on level ground.
func TestLayeredFace(t *testing.T) {
	p := plain(model.Vec{0, 104.5}, model.Vec{60, 104.5})
	p.Site.Strata = []model.Stratum{{ID: "c", Soil: "s"}, {ID: "b", Soil: "s", Top: []model.Vec{{0, 102.5}, {60, 102.5}}}}
	p.Cut.ByStratum = map[string]float64{"c": 1.5, "b": 1.0}
	p.Box.Front, p.Box.Level, p.Cut.WorkBack = 20, 100, 1
	v, err := NewLong(p, tables.Default(), open)
	if err != nil {
		t.Fatal(err)
	}
	if run := v.Crest[0] - v.Toe[0]; math.Abs(run-5.5) > 1e-3 {
		t.Errorf("run %.4f, want 5.50", run)
	}
}

// TestExcavatedArea: site reference VO-03 (derived, closed form): the centre
// section of the open-front pit is 24 m2. Floor z = 0, back toe at x = 8,
// batter 1, ground 1 + 0.25x, daylight at x = -4.
func TestExcavatedArea(t *testing.T) {
	p := plain(model.Vec{-20, -4}, model.Vec{40, 11})
	p.Cut.Batter, p.Cut.WorkBack, p.Cut.Apron = 1, 0.5, 12
	p.Box.Front, p.Box.Level = 8-0.5-6.058, 0
	v, err := NewLong(p, tables.Default(), open)
	if err != nil {
		t.Fatal(err)
	}
	if a := v.Excavated.Area(); math.Abs(a-24) > 1e-3 {
		t.Errorf("area %.4f, want 24", a)
	}
	if math.Abs(v.Crest[0]-12) > 1e-3 || math.Abs(v.CutHeight-4) > 1e-3 {
		t.Errorf("crest %.3f height %.3f, want 12 and 4", v.Crest[0], v.CutHeight)
	}
}

// TestAreasAddUp: what is dug and put back must add up at every stage: ground
// kept + dug = ground found; and the zones of fill do not overlap each other
// or the box.
func TestAreasAddUp(t *testing.T) {
	for _, p := range demos(t) {
		total := map[string]float64{}
		for _, st := range p.Stages {
			v, err := NewLong(p, tables.Default(), st)
			if err != nil {
				t.Fatalf("%s: %v", st.ID, err)
			}
			sum := v.Excavated.Area()
			for _, z := range v.Strata {
				sum += z.Region.Area()
			}
			total[st.ID] = sum
			for _, cv := range append(crosses(t, p, v), v) {
				noOverlap(t, st.ID, cv)
			}
		}
		for id, a := range total {
			// the base line of the drawing lies lower once the cut is deeper than the
			// ground, so natural and dug stages may only differ by that strip
			if math.Abs(a-total["cut"]) > 1e-3 && id != "natural" {
				t.Errorf("%s: strata and excavation %.4f m2, %.4f in the open cut", id, a, total["cut"])
			}
		}
	}
}

func demos(t *testing.T) []*model.Project {
	t.Helper()
	var out []*model.Project
	for _, f := range []string{"as-drawn", "put-right"} {
		d, _, err := model.ReadFile("../../testdata/potato-store-" + f + ".hillset")
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, d.Project)
	}
	return out
}

func crosses(t *testing.T, p *model.Project, v *View) []*View {
	t.Helper()
	var out []*View
	for _, d := range []float64{0, 3, 6.058} {
		cv, err := CrossOf(p, tables.Default(), v, p.Box.Front+d)
		if err != nil {
			t.Fatalf("%s at %.2f: %v", v.Stage.ID, d, err)
		}
		out = append(out, cv)
	}
	return out
}

func noOverlap(t *testing.T, stage string, v *View) {
	t.Helper()
	zones := append(append([]Zone(nil), v.Fill...), v.Bedding...)
	if v.HasBox {
		zones = append(zones, Zone{Kind: "box", Region: v.Box.ToRegion()})
	}
	zones = append(zones, v.Strata...)
	for i, a := range zones {
		for _, b := range zones[i+1:] {
			if a.Kind == Toe || b.Kind == Toe { // the toe beam is cast into the ground and replaces it
				continue
			}
			r, err := geom.Intersect(a.Region, b.Region)
			if err != nil {
				t.Fatalf("%s %s/%s: %v", stage, a.Kind, b.Kind, err)
			}
			if area := r.Area(); area > 1e-4 {
				t.Errorf("%s long=%v: %s and %s overlap by %.5f m2", stage, v.Long, a.Kind, b.Kind, area)
			}
		}
	}
}

// TestColumns: the column at the wall follows the zones, starts at the level
// of the fill and reaches below the formation.
func TestColumns(t *testing.T) {
	p := demos(t)[1]
	v, err := NewLong(p, tables.Default(), service)
	if err != nil {
		t.Fatal(err)
	}
	cols, err := v.Columns(Back)
	if err != nil || len(cols) != len(wedgeShares) {
		t.Fatalf("%d columns, %v", len(cols), err)
	}
	top, _ := v.Surface(Back)
	for i, c := range cols {
		if err := c.Validate(); err != nil {
			t.Errorf("column %d: %v", i, err)
		}
		if math.Abs(c.Layers[0].Top-top) > 1e-9 || c.Layers[len(c.Layers)-1].Bottom > v.Formation {
			t.Errorf("column %d from %.3f to %.3f, surface %.3f", i, c.Layers[0].Top, c.Layers[len(c.Layers)-1].Bottom, top)
		}
	}
	var names []string
	for _, l := range cols[0].Layers {
		names = append(names, l.Name)
	}
	want := []string{"Topsoil", "Lean clay", "Clean drain stone, 1 in", "Clean drain stone, 1 in"}
	for i, n := range want {
		if i >= len(names) || names[i] != n {
			t.Fatalf("layers at the wall %v, want to begin with %v", names, want)
		}
	}
	if cols, _ := v.Columns(Front); cols != nil {
		t.Error("there is soil against the open front")
	}
}

// TestProblems: what cannot be drawn is named by its field.
func TestProblems(t *testing.T) {
	cases := []struct {
		name, field string
		change      func(*model.Project)
	}{
		{"no ground", "site.ground", func(p *model.Project) { p.Site.Ground = nil }},
		{"no strata", "site.strata", func(p *model.Project) { p.Site.Strata = nil }},
		{"unknown box", "box.type", func(p *model.Project) { p.Box.Type = "30" }},
		{"box off the profile", "box.front", func(p *model.Project) { p.Box.Front = 400 }},
		{"fill never meets the hill", "fill.back_slope", func(p *model.Project) { p.Fill.BackSlope = 3 }},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := demos(t)[1].Clone()
			c.change(p)
			_, err := NewLong(p, tables.Default(), service)
			var pr model.Problem
			if !errors.As(err, &pr) || pr.Field != c.field {
				t.Errorf("got %v, want a problem of %s", err, c.field)
			}
		})
	}
}

func BenchmarkLong(b *testing.B) {
	d, _, err := model.ReadFile("../../testdata/potato-store-put-right.hillset")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := NewLong(d.Project, tables.Default(), service); err != nil {
			b.Fatal(err)
		}
	}
}
