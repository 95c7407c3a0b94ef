package model

import (
	"math"
	"reflect"
	"strings"
	"testing"
)

// at returns the problems of one field.
func at(ps []Problem, field string) (out []Problem) {
	for _, p := range ps {
		if p.Field == field {
			out = append(out, p)
		}
	}
	return out
}

func TestSampleIsWithoutProblems(t *testing.T) {
	for _, p := range sample().Validate() {
		t.Error(p)
	}
}

func TestNewLacksOnlyWhatTheUserMustGive(t *testing.T) {
	missing := map[string]bool{"site.ground": true, "site.strata": true, "bedding.rock_soil": true, "fill.backfill": true,
		"fill.rock_soil": true, "fill.cap_soil": true, "fill.topsoil_soil": true}
	for _, p := range New().Validate() {
		if p.Hard || !missing[p.Field] {
			t.Errorf("%v (hard %v)", p, p.Hard)
		}
		delete(missing, p.Field)
	}
	if len(missing) > 0 {
		t.Errorf("nothing was said of %v", missing)
	}
}

// Every number of the file, pushed out of its range or out of the numbers,
// must be a hard problem of just that field.
func TestEveryNumberHasItsRange(t *testing.T) {
	n := len(leaves(reflect.ValueOf(sample()), "", ""))
	if n < 150 {
		t.Fatalf("found only %d numbers in the sample", n)
	}
	used := map[string]bool{}
	for i := range n {
		l := leaves(reflect.ValueOf(sample()), "", "")[i]
		r := ranges[l.pattern]
		if r == nil {
			t.Fatalf("no range for %s", l.pattern)
		}
		used[l.pattern] = true
		step := math.Max(1, (r.Max-r.Min)*1e-3)
		bad := []float64{r.Max + step, math.NaN(), math.Inf(1), math.Inf(-1)}
		if low := r.Min - step; low != 0 {
			bad = append(bad, low)
		}
		if l.v.Kind() == reflect.Int {
			bad = []float64{r.Max + step, r.Min - step}
		}
		for _, v := range bad {
			p := sample()
			leaves(reflect.ValueOf(p), "", "")[i].set(v)
			found := at(p.Validate(), l.path)
			if len(found) == 0 || !found[0].Hard || found[0].Allowed != r.String() || found[0].Value == "" {
				t.Errorf("%s = %v gives %v", l.path, v, found)
			}
			if len(found) > 0 && (!found[0].Ranged || found[0].Kind != r.Kind || found[0].Max != r.Max*r.Scale) {
				t.Errorf("%s = %v: the numbers of the problem are %+v", l.path, v, found[0])
			}
		}
	}
	for pattern := range ranges {
		if !used[pattern] {
			t.Errorf("the range of %s belongs to no field of the sample", pattern)
		}
	}
}

func TestZeroMeansNotGivenWhereTheRangeStartsAboveIt(t *testing.T) {
	p := sample()
	p.Site.Soils[0].Gamma, p.Site.Soils[0].GammaSat = 0, 0
	found := at(p.Validate(), "site.soils[0].gamma")
	if len(found) != 1 || found[0].Hard || !strings.Contains(found[0].Text, "not given") {
		t.Errorf("gamma = 0 gives %v", found)
	}
	p.Box.Tare = 0
	if found := at(p.Validate(), "box.tare"); len(found) != 0 {
		t.Errorf("tare 0 stands for the table value, but gives %v", found)
	}
}

// faults are changes to the sample, each with the problem it must make.
var faults = []struct {
	name   string
	change func(p *Project)
	field  string
	hard   bool
	says   string // in the message
}{
	{"one point of ground", func(p *Project) { p.Site.Ground = p.Site.Ground[:1] }, "site.ground", false, "no line yet"},
	{"x goes back", func(p *Project) { p.Site.Ground[2][0] = 4 }, "site.ground[2]", true, "must increase"},
	{"x stands still", func(p *Project) { p.Site.Ground[2][0] = 5 }, "site.ground[2]", true, "must increase"},
	{"a hill of 600 m", func(p *Project) { p.Site.Ground[3][0] = 600 }, "site.ground", true, "too long"},
	{"half a metre of ground", func(p *Project) { p.Site.Ground = []Vec{{4, 100}, {4.5, 101}} }, "site.ground", false, "too short"},
	{"a point at 10 km", func(p *Project) { p.Site.Ground[3][0] = 10000 }, "site.ground[3]", true, "out of range (x)"},
	{"a level of 10 km", func(p *Project) { p.Site.Ground[3][1] = 10000 }, "site.ground[3]", true, "out of range (level)"},
	{"phi 60", func(p *Project) { p.Site.Soils[1].Phi = 60 }, "site.soils[1].phi", true, "0 to 50 degrees"},
	{"negative thickness", func(p *Project) { p.Box.SideT = -1.6 }, "box.side_t", true, "0 or 0.3 to 10 mm"},
	{"lighter when wet", func(p *Project) { p.Site.Soils[0].GammaSat = 18 }, "site.soils[0].gamma_sat", false, "19 to 27 kN/m3"},
	{"grading upside down", func(p *Project) { p.Site.Soils[0].D85 = 0.05 }, "site.soils[0].d85", false, "finer"},
	{"odd name in the list of set values", func(p *Project) { p.Site.Soils[0].Set = []string{"colour"} }, "site.soils[0].set_by_user[0]", false, "names no value"},
	{"two soils of one id", func(p *Project) { p.Site.Soils[1].ID = "till" }, "site.soils[1].id", true, "stands already"},
	{"a soil without id", func(p *Project) { p.Site.Soils[1].ID = "" }, "site.soils[1].id", true, "missing"},
	{"stratum of no soil", func(p *Project) { p.Site.Strata[1].Soil = "clay" }, "site.strata[1].soil", false, "does not exist"},
	{"stratum without soil", func(p *Project) { p.Site.Strata[1].Soil = "" }, "site.strata[1].soil", false, "not chosen"},
	{"stratum above the ground", func(p *Project) { p.Site.Strata[1].Top[1][1] = 120 }, "site.strata[1].top", false, "rises above the ground"},
	{"stratum above its upper one", func(p *Project) {
		p.Site.Strata = append(p.Site.Strata, Stratum{ID: "third", Soil: "till", Top: []Vec{{0, 95}, {30, 104.5}}})
	}, "site.strata[2].top", false, "rises above the stratum above it"},
	{"first stratum with a top", func(p *Project) { p.Site.Strata[0].Top = []Vec{{0, 90}, {1, 90}} }, "site.strata[0].top", false, "not used"},
	{"stratum of one point", func(p *Project) { p.Site.Strata[1].Top = []Vec{{0, 90}} }, "site.strata[1].top", false, "not a line"},
	{"stratum that runs back", func(p *Project) { p.Site.Strata[1].Top[1][0] = -1 }, "site.strata[1].top[1]", true, "must increase"},
	{"no strata", func(p *Project) { p.Site.Strata = nil; p.Cut.ByStratum = nil }, "site.strata", false, "says nothing"},
	{"rock above the ground", func(p *Project) { p.Site.Rock[0][1] = 101 }, "site.rock", false, "rises above"},
	{"area without width", func(p *Project) { p.Site.Surcharges[0].X2 = 20 }, "site.surcharges[0].x2", false, "without a width"},
	{"area without breadth", func(p *Project) { p.Site.Surcharges[0].Y2 = ptr(-3) }, "site.surcharges[0].y2", false, "without a width"},
	{"area without load", func(p *Project) { p.Site.Surcharges[0].Q = 0 }, "site.surcharges[0].q", false, "loads nothing"},
	{"no vehicle", func(p *Project) { p.Site.Surcharges[1].Vehicle = "" }, "site.surcharges[1].vehicle", false, "not chosen"},
	{"no heading", func(p *Project) { p.Site.Surcharges[1].Heading = "" }, "site.surcharges[1].heading", false, "not chosen"},
	{"odd kind of surcharge", func(p *Project) { p.Site.Surcharges[1].Kind = "train" }, "site.surcharges[1].kind", true, "area, vehicle"},
	{"box beyond the ground", func(p *Project) { p.Box.Front = 31 }, "box.front", false, "0 to 30 m"},
	{"box in the air", func(p *Project) { p.Box.Level = 110 }, "box.level", false, "at most 109 m"},
	{"no box", func(p *Project) { p.Box.Type = "" }, "box.type", false, "not chosen"},
	{"odd orientation", func(p *Project) { p.Box.Orientation = "upright" }, "box.orientation", true, "end-on, broadside"},
	{"no orientation", func(p *Project) { p.Box.Orientation = "" }, "box.orientation", false, "not chosen"},
	{"pads without size", func(p *Project) { p.Bedding.PadLength = 0 }, "bedding.pad_length", false, "not given"},
	{"toe without width", func(p *Project) { p.Bedding.Toe.Depth = 0.5 }, "bedding.toe_beam.width", false, "not given"},
	{"batter of no stratum", func(p *Project) { p.Cut.ByStratum["x"] = 1 }, "cut.by_stratum.x", false, "does not exist"},
	{"benches out of order", func(p *Project) { p.Cut.Benches[1].Height = 1 }, "cut.benches[1].height", false, "above the bench"},
	{"rib without section", func(p *Project) { p.Strengthening.Ribs.Post = "" }, "strengthening.ribs.post", false, "bar table"},
	{"purlin without section", func(p *Project) { p.Strengthening.Ribs.Purlin = "" }, "strengthening.ribs.purlin", false, "bar table"},
	{"wale without section", func(p *Project) { p.Strengthening.Wales[0].Section = "" }, "strengthening.wales[0].section", false, "bar table"},
	{"cap of no soil", func(p *Project) { p.Fill.CapSoil = "x" }, "fill.cap_soil", false, "does not exist"},
	{"vertical mound", func(p *Project) { p.Fill.SideSlope = 0 }, "fill.side_slope", false, "not given"},
	{"drawn fill that runs back", func(p *Project) { p.Fill.Line[1][0] = -1 }, "fill.line[1]", true, "must increase"},
	{"drawn fill of one point", func(p *Project) { p.Fill.Line = p.Fill.Line[:1] }, "fill.line", false, "not a line"},
	{"no stages", func(p *Project) { p.Stages = nil }, "stages", false, "no stage"},
	{"two stages of one id", func(p *Project) { p.Stages[1].ID = "natural" }, "stages[1].id", true, "stands already"},
	{"stage of no surcharge", func(p *Project) { p.Stages[7].Surcharges[0] = "crane" }, "stages[7].surcharges[0]", false, "does not exist"},
	{"odd stage", func(p *Project) { p.Stages[0].Kind = "lunch" }, "stages[0].kind", true, "natural, cut"},
	{"a bell in a name", func(p *Project) { p.Title = "a\ab" }, "title", true, "cannot be shown"},
	{"broken letters", func(p *Project) { p.Sheet.Owner = "\xff" }, "sheet.owner", true, "cannot be shown"},
	{"two lines in a name", func(p *Project) { p.Title = "a\nb" }, "title", true, "cannot be shown"},
	{"an endless name", func(p *Project) { p.Title = strings.Repeat("ä", 201) }, "title", true, "too long"},
	{"an endless list", func(p *Project) { p.Site.Ground = make([]Vec, 5001) }, "site.ground", true, "too long"},
}

func TestValidate(t *testing.T) {
	for _, c := range faults {
		t.Run(c.name, func(t *testing.T) {
			p := sample()
			c.change(p)
			before := p.Clone()
			found := at(p.Validate(), c.field)
			if len(found) == 0 {
				t.Fatalf("nothing was said of %s; found %v", c.field, p.Validate())
			}
			if found[0].Hard != c.hard || !strings.Contains(found[0].Error(), c.says) {
				t.Errorf("%q, hard %v; want %q, hard %v", found[0].Error(), found[0].Hard, c.says, c.hard)
			}
			if !reflect.DeepEqual(p, before) {
				t.Error("checking changed the project")
			}
		})
	}
}

func TestTouchingStrataDoNotCross(t *testing.T) {
	p := sample()
	p.Site.Strata[1].Top = []Vec{{0, 98}, {12, 103.5}, {30, 109}} // runs along the ground from x = 12 on
	for _, pr := range p.Validate() {
		t.Error(pr)
	}
}

func TestRangeOf(t *testing.T) {
	r, ok := RangeOf("site.soils[12].phi")
	if !ok || r.Max != 50 || math.Abs(r.Max*r.Scale-50*math.Pi/180) > 1e-15 {
		t.Errorf("range of phi = %+v, %v", r, ok)
	}
	if _, ok := RangeOf("site.soils[12].colour"); ok {
		t.Error("there is a range for a field that does not exist")
	}
	if s := megaPa(100, 1000).or0().String(); s != "0 or 100 to 1000 MPa" {
		t.Errorf("range in words = %q", s)
	}
}

func BenchmarkValidate(b *testing.B) {
	p := sample()
	for i := range 500 {
		p.Site.Ground = append(p.Site.Ground, Vec{31 + 0.1*float64(i), 109})
	}
	b.ReportAllocs()
	for b.Loop() {
		p.Validate()
	}
}
