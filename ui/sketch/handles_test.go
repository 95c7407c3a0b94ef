package sketch

import (
	"errors"
	"math"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
)

// richProject is the demonstration with one of everything that has a handle.
func richProject(t *testing.T) *model.Project {
	t.Helper()
	r := newRig(t, LongSection, demo)
	p := r.project().Clone()
	high, wet := p.Box.Level+1.2, p.Box.Level+0.3
	p.Site.Water.DesignHigh, p.Site.Water.Seasonal = &high, &wet
	p.Site.Water.Observed = []model.WaterPoint{{Pos: geom.Vec{p.Box.Front + 9, p.Box.Level + 1}, Season: "spring"}}
	back := p.Box.Front + 6.058
	p.Site.Surcharges = []model.Surcharge{
		{ID: "stack", Name: "Stacked bales", Kind: model.AreaLoad, X1: back + 1, X2: back + 3, Q: 10},
		{ID: "loader", Name: "Loader", Kind: model.Vehicle, X1: back + 2, Vehicle: "", Heading: "along"},
	}
	p.Fill.RockWidth, p.Fill.RockTop = 0.3, 0.4
	d := &p.Defence.Drain
	d.Present, d.Diameter, d.Depth, d.Uphill, d.UphillAway, d.UphillDepth = true, 0.1, 0.15, true, 2, 1.8
	g := p.Site.Ground
	p.Site.Rock = []model.Vec{{g[0][0], g[0][1] - 6}, {g[len(g)-1][0], g[len(g)-1][1] - 7}}
	return p
}

type shown struct {
	name    string
	view    func(p *model.Project) (*section.View, error)
	handles func(p *model.Project, v *section.View) []Handle
}

func sections(p *model.Project) []shown {
	st := model.Stage{ID: "dry", Kind: model.StageService, FillTo: 1, Cover: true}
	station := p.Box.Front + 4
	return []shown{
		{"long", func(p *model.Project) (*section.View, error) { return section.NewLong(p, tables.Default(), st) }, LongHandles},
		{"cross", func(p *model.Project) (*section.View, error) {
			return section.NewCross(p, tables.Default(), st, station)
		}, CrossHandles},
	}
}

// A handle that is put somewhere is found there when the section has been
// built anew: the way from place to number and the engine's way from number to
// place are each other's reverse.
func TestHandlesGoWhereTheyArePut(t *testing.T) {
	p := richProject(t)
	for _, s := range sections(p) {
		v, err := s.view(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, h := range s.handles(p, v) {
			for _, d := range []geom.Vec{{0.04, 0.03}, {-0.05, -0.02}} {
				t.Run(s.name+" "+h.ID, func(t *testing.T) {
					to := h.along(h.At.Add(d))
					q := p.Clone()
					if err := h.Apply(q, to); err != nil {
						t.Fatal(err)
					}
					w, err := s.view(q)
					if err != nil {
						t.Fatal(err)
					}
					got := find(t, s.handles(q, w), h.ID)
					if h.Axis == Horizontal && !near(got.At[0], to[0], 1e-3) || h.Axis == Vertical && !near(got.At[1], to[1], 1e-3) ||
						h.Axis == Free && got.At.Sub(to).Len() > 1e-9 {
						t.Errorf("put at %v, found at %v", to, got.At)
					}
					if math.IsNaN(got.Values[0].Now) {
						t.Error("its number is not a number")
					}
				})
			}
		}
	}
}

func find(t *testing.T, hs []Handle, id string) Handle {
	t.Helper()
	for _, h := range hs {
		if h.ID == id {
			return h
		}
	}
	t.Fatalf("no handle %q", id)
	return Handle{}
}

// Everything that the sketcher promises to drag is there.
func TestHandlesAreAllThere(t *testing.T) {
	p := richProject(t)
	want := map[string][]string{
		"long": {"site.ground[0]", "site.strata[1].top[0]", "site.rock[1]", "site.water.observed[0]", "site.water.design_high",
			"site.water.seasonal", "box", "box.front", "box.level", "cut.work_back", "cut.batter", "cut.apron", "fill.front_top",
			"fill.back_top", "fill.back_slope", "fill.rock_width", "fill.rock_top", "site.surcharges[0].x1", "site.surcharges[0].x2", "site.surcharges[1].x1"},
		"cross": {"site.water.design_high", "box.level", "cut.work_side", "cut.side_batter", "fill.shoulder", "fill.side_slope", "fill.rock_width", "fill.rock_top"},
	}
	for _, s := range sections(p) {
		v, err := s.view(p)
		if err != nil {
			t.Fatal(err)
		}
		ids := map[string]int{}
		for _, h := range s.handles(p, v) {
			ids[h.ID]++
			if h.Label == "" || len(h.Values) == 0 {
				t.Errorf("%s has no label or no number", h.ID)
			}
		}
		for _, id := range want[s.name] {
			if ids[id] != 1 {
				t.Errorf("%s section: %d handles %q, want 1", s.name, ids[id], id)
			}
		}
	}
}

// The batter of one stratum of its own is changed alone, and the crest still
// goes where it is put; benches stay as they are.
func TestCrestOfAFaceOfSeveralPieces(t *testing.T) {
	for _, c := range []struct {
		name  string
		setup func(p *model.Project, top string)
		field func(p *model.Project, top string) float64
	}{
		{"own batter on top", func(p *model.Project, top string) { p.Cut.ByStratum = map[string]float64{top: 1} },
			func(p *model.Project, top string) float64 { return p.Cut.ByStratum[top] }},
		{"own batter below", func(p *model.Project, top string) { p.Cut.ByStratum = map[string]float64{p.Site.Strata[1].ID: 0.5} },
			func(p *model.Project, top string) float64 { return p.Cut.Batter }},
		{"bench", func(p *model.Project, top string) { p.Cut.Benches = []model.Bench{{Height: 1.5, Width: 0.8}} },
			func(p *model.Project, top string) float64 { return p.Cut.Batter }},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := richProject(t)
			top := p.Site.Strata[0].ID
			c.setup(p, top)
			s := sections(p)[0]
			v, err := s.view(p)
			if err != nil {
				t.Fatal(err)
			}
			var h Handle
			for _, x := range s.handles(p, v) {
				if strings.HasPrefix(x.ID, "cut.batter") || strings.HasPrefix(x.ID, "cut.by_stratum") {
					h = x
				}
			}
			before := c.field(p, top)
			to := h.At.Add(geom.Vec{0.05, 0})
			q := p.Clone()
			if err := h.Apply(q, to); err != nil {
				t.Fatal(err)
			}
			if after := c.field(q, top); after <= before {
				t.Errorf("batter went from %g to %g when the crest moved back", before, after)
			}
			w, err := s.view(q)
			if err != nil {
				t.Fatal(err)
			}
			// The rise shared by pieces of one batter shifts with the crest, so
			// one step lands within a few per cent of the way.
			if got := w.Crest[0]; !near(got, to[0], 0.005) {
				t.Errorf("crest put at %.3f, found at %.3f", to[0], got)
			}
		})
	}
}

// Places that cannot be are refused with the field, what was found and what is
// allowed; nothing is changed.
func TestHandlesRefuse(t *testing.T) {
	p := richProject(t)
	s := sections(p)
	v, err := s[0].view(p)
	if err != nil {
		t.Fatal(err)
	}
	w, err := s[1].view(p)
	if err != nil {
		t.Fatal(err)
	}
	g := p.Site.Ground
	for _, c := range []struct {
		name string
		hs   []Handle
		id   string
		to   geom.Vec
	}{
		{"ground point beyond the next", s[0].handles(p, v), "site.ground[1]", geom.Vec{g[2][0] + 0.1, 0}},
		{"ground point before the last", s[0].handles(p, v), "site.ground[1]", geom.Vec{g[0][0], 0}},
		{"overhanging face", s[0].handles(p, v), "cut.batter", geom.Vec{v.Toe[0] - 1, 0}},
		{"crest beyond the ground", s[0].handles(p, v), "cut.batter", geom.Vec{g[len(g)-1][0] + 5, 0}},
		{"side crest out of the section", s[1].handles(p, w), "cut.side_batter", geom.Vec{1e4, 0}},
		{"not a number", s[0].handles(p, v), "box", geom.Vec{math.NaN(), 0}},
		{"infinite", s[0].handles(p, v), "cut.work_back", geom.Vec{math.Inf(1), 0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := find(t, c.hs, c.id)
			q := p.Clone()
			err := h.Apply(q, c.to)
			var prob model.Problem
			if !errors.As(err, &prob) || prob.Field == "" || prob.Value == "" || prob.Allowed == "" || prob.Text == "" {
				t.Fatalf("got %#v, want a complete model.Problem", err)
			}
		})
	}
	for _, bad := range []float64{math.NaN(), math.Inf(-1)} {
		h := find(t, s[0].handles(p, v), "fill.back_top")
		if err := h.Values[0].Set(p.Clone(), bad); err == nil {
			t.Errorf("typed %v is taken", bad)
		}
	}
}

// Numbers of known cases, by hand.
func TestHandleNumbers(t *testing.T) {
	p := richProject(t)
	v, err := sections(p)[0].view(p)
	if err != nil {
		t.Fatal(err)
	}
	roof := v.Box.Max[1]
	for _, c := range []struct {
		id   string
		to   geom.Vec
		want float64
	}{
		{"cut.work_back", geom.Vec{v.Box.Max[0] + 0.9, 0}, 0.9},
		{"cut.apron", geom.Vec{v.Box.Min[0] - 2.5, 0}, 2.5},
		{"fill.front_top", geom.Vec{0, roof + 0.45}, 0.45},
		{"fill.back_top", geom.Vec{0, roof - 0.2}, -0.2},
		{"fill.rock_top", geom.Vec{0, roof - 0.7}, 0.7},
		{"fill.rock_width", geom.Vec{v.Box.Max[0] + 0.35, 0}, 0.35},
		{"site.water.design_high", geom.Vec{0, 101.25}, 101.25},
	} {
		h := find(t, LongHandles(p, v), c.id)
		got, err := h.value(c.to)
		if err != nil || !near(got, c.want, 1e-9) {
			t.Errorf("%s at %v: %v %v, want %v", c.id, c.to, got, err, c.want)
		}
		if h.Values[0].Kind != quantity.Length {
			t.Errorf("%s is not a length", c.id)
		}
	}
}
