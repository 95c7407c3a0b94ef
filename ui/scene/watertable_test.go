package scene

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/units"
)

// wetDemo is a demonstration whose water is computed; changes are made first.
func wetDemo(tb testing.TB, name string, changes ...func(*model.Project)) demo {
	tb.Helper()
	doc, _, err := model.ReadFile("../../testdata/potato-store-" + name + ".hillset")
	if err != nil {
		tb.Fatal(err)
	}
	p := doc.Project
	p.Site.Water.Computed = true
	for i := range p.Site.Soils {
		if !slices.Contains(p.Site.Soils[i].Set, "kx") {
			p.Site.Soils[i].Set = append(p.Site.Soils[i].Set, "kx")
		}
	}
	for i := range p.Stages {
		if p.Stages[i].Kind == model.StageCut {
			p.Stages[i].Water = model.WaterSeasonal
		}
	}
	for _, f := range changes {
		f(p)
	}
	r, err := assess.Run(context.Background(), p, tables.Default())
	if err != nil {
		tb.Fatal(err)
	}
	return demo{p, r}
}

func blocked(p *model.Project) {
	for i := range p.Stages {
		p.Stages[i].Blocked = true
	}
}

func intercepted(p *model.Project) {
	d := &p.Defence.Drain
	d.Present, d.Uphill, d.UphillAway, d.UphillDepth = true, true, 3, 5.8
	if d.Diameter == 0 {
		d.Diameter, d.Depth = 0.1, 0.15
	}
}

// wetDemos are the demonstrations with computed water, in all that changes the
// drawing.
func wetDemos(tb testing.TB) map[string]demo {
	return map[string]demo{
		"drawn": wetDemo(tb, "as-drawn"), "mended": wetDemo(tb, "put-right"), "blocked": wetDemo(tb, "put-right", blocked),
		"intercepted": wetDemo(tb, "put-right", intercepted),
	}
}

// everything shows all layers, those of the water among them.
func everything() map[Layer]bool {
	on := map[Layer]bool{}
	for _, l := range []Layer{Ground, Fills, BoxLayer, Water, Pressures, Dims, Levels, Slopes, Callouts, Verdicts, Frame, Flow, Heads, Mesh} {
		on[l] = true
	}
	return on
}

// wetViews are the views of a demonstration, with the cross sections at both
// ends of the box and between.
func (d demo) wetViews(tb testing.TB) map[string]*section.View {
	tb.Helper()
	out := d.views(tb)
	for _, v := range d.r.Views {
		if v.Stage.ID != "high" {
			continue
		}
		for name, share := range map[string]float64{"back": 1, "quarter": 0.7} {
			c, err := section.CrossOf(d.p, tables.Default(), v, v.Box.Min[0]+share*v.Box.W())
			if err != nil {
				tb.Fatal(err)
			}
			out["high-cross-"+name] = c
		}
	}
	return out
}

// No text overlaps another with the layers of the water on, at several scales,
// in both systems.
func TestWaterTextsDoNotOverlap(t *testing.T) {
	for name, d := range wetDemos(t) {
		for at, v := range d.wetViews(t) {
			if !slices.Contains([]string{"natural", "cut", "lift-mid", "high"}, v.Stage.ID) {
				continue
			}
			for _, mm := range []float64{8, 20, 40} {
				for _, sys := range []units.System{units.Metric, units.US} {
					o := d.options(mm, sys)
					o.Show = everything()
					s, err := Build(v, d.r, o)
					if err != nil {
						t.Fatalf("%s %s: %v", name, at, err)
					}
					examine(t, name+" "+at, s, Window(v, mm))
					if mm == 20 && sys == units.Metric && *lookDir != "" {
						img, err := paint(s, Light, 4)
						if err != nil {
							t.Fatal(err)
						}
						keep(t, img, fmt.Sprintf("wet-%s-%s.png", name, at))
						t.Logf("%s %s lost %q", name, at, s.Lost)
					}
				}
			}
		}
	}
}

// said are the texts of a tag.
func said(s *Scene, tag string) []string {
	var out []string
	for _, it := range s.Items {
		if it.Label != nil && it.Label.Tag == tag {
			out = append(out, it.Label.Text)
		}
	}
	return out
}

func (d demo) view(tb testing.TB, stage string) *section.View {
	tb.Helper()
	for _, v := range d.r.Views {
		if v.Stage.ID == stage {
			return v
		}
	}
	tb.Fatalf("no stage %q", stage)
	return nil
}

// The line that is drawn is the computed table: every corner of it lies at the
// level of the table, none in the box, none above the surface.
func TestWaterLineIsTheTable(t *testing.T) {
	for name, d := range wetDemos(t) {
		for _, st := range []string{"wet", "high"} {
			v := d.view(t, st)
			w, err := d.r.Water.At(v.Stage)
			if err != nil {
				t.Fatal(err)
			}
			s, err := Build(v, d.r, d.options(20, units.Metric))
			if err != nil {
				t.Fatal(err)
			}
			lines := paths(s, "water:table")
			if len(lines) == 0 || len(paths(s, "water")) != 0 {
				t.Fatalf("%s %s: %d lines of the table, %d of still water", name, st, len(lines), len(paths(s, "water")))
			}
			for _, p := range lines {
				for _, c := range p.Parts {
					for _, q := range c {
						top, _ := v.Finish.At(q[0])
						z, ok := w.Long.WaterAt(q[0])
						z = min(z, top)
						if v.Box.Contains(q) && q[1] > v.Box.Min[1]+1e-6 && q[0] > v.Box.Min[0]+1e-6 && q[0] < v.Box.Max[0]-1e-6 {
							t.Errorf("%s %s: the line runs through the box at %v", name, st, q)
						}
						if under := q[0] >= v.Box.Min[0]-1e-6 && q[0] <= v.Box.Max[0]+1e-6; !ok || !under && (q[1]-z > 1e-6 || z-q[1] > 1e-6) {
							t.Errorf("%s %s: the line is at %v, the table at %g", name, st, q, z)
						}
					}
				}
			}
		}
	}
}

// Nothing is drawn before the result is there, in dry stages, and where the
// water is given still water stays a level line.
func TestNoLineWithoutWater(t *testing.T) {
	d := wetDemo(t, "put-right")
	o := d.options(20, units.Metric)
	o.Project = d.p
	for _, v := range d.r.Views {
		early, err := Build(v, nil, o)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(paths(early, "water:table")) + len(paths(early, "water")); n != 0 {
			t.Errorf("%s: %d water lines before the result", v.Stage.ID, n)
		}
		if v.Stage.Water != "" && v.Stage.Water != model.WaterNone || v.Stage.Kind == model.StageNatural {
			continue
		}
		s, err := Build(v, d.r, o)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(paths(s, "water:table")); n != 0 {
			t.Errorf("%s: %d water lines in a dry stage", v.Stage.ID, n)
		}
	}
}

// Each drain says what it takes; a blocked one that it takes nothing; the open
// cut what comes into it; in feet all of it in gallons.
func TestDrainsSayWhatTheyTake(t *testing.T) {
	for _, c := range []struct {
		change func(*model.Project)
		stage  string
		tag    string
		sys    units.System
		want   []string
	}{
		{func(*model.Project) {}, "high", "water:drain", units.Metric, []string{"drain takes ", " L/h/m"}},
		{func(*model.Project) {}, "high", "water:drain", units.US, []string{"drain takes ", " gph/ft"}},
		{blocked, "high", "water:drain", units.Metric, []string{"drain blocked, takes nothing"}},
		{intercepted, "high", "water:drain", units.Metric, []string{"drain ", "interceptor takes "}},
		{func(*model.Project) {}, "cut", "water:pit", units.Metric, []string{"pit"}},
	} {
		d := wetDemo(t, "put-right", c.change)
		s, err := Build(d.view(t, c.stage), d.r, d.options(20, c.sys))
		if err != nil {
			t.Fatal(err)
		}
		all := strings.Join(said(s, c.tag), " | ")
		for _, w := range c.want {
			if !strings.Contains(all, w) {
				t.Errorf("%s: %q, want %q in it (lost %q)", c.stage, all, w, s.Lost)
			}
		}
	}
}

// The hill as found shows the fitted table and how near it comes to what was
// seen.
func TestNaturalHillShowsTheFit(t *testing.T) {
	d := wetDemo(t, "as-drawn")
	s, err := Build(d.view(t, "natural"), d.r, d.options(20, units.Metric))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(paths(s, "water:table")); n == 0 {
		t.Error("no fitted line")
	}
	seen := said(s, "water:observed")
	if len(seen) == 0 {
		t.Errorf("nothing observed is named; lost %q", s.Lost)
	}
	for _, text := range seen {
		if !strings.Contains(text, "fitted") && !strings.Contains(text, "met") {
			t.Errorf("%q does not say how far it is missed", text)
		}
	}
}

// Where the water cannot be computed the drawing says so; where a result is of
// stages as they were before, it waits for the next one.
func TestWhyThereIsNoLine(t *testing.T) {
	d := wetDemo(t, "put-right", func(p *model.Project) {
		for i := range p.Site.Soils {
			p.Site.Soils[i].Set = nil // the permeability of gravel is asked for
		}
	})
	v := d.view(t, "high")
	s, err := Build(v, d.r, d.options(20, units.Metric))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(said(s, "water:fault")); n != 1 || len(paths(s, "water:table")) != 0 {
		t.Errorf("%d texts say why there is no line", n)
	}
	d = wetDemo(t, "put-right", func(p *model.Project) {
		p.Stages = slices.DeleteFunc(p.Stages, func(st model.Stage) bool { return st.Blocked })
		*p.Site.Water.DesignHigh += 0.01 // a hill that is not known from another test
	})
	later := *d.view(t, "high")
	later.Stage.Blocked = true
	if s, err = Build(&later, d.r, d.options(20, units.Metric)); err != nil {
		t.Fatal(err)
	}
	if n := len(said(s, "water:fault")) + len(paths(s, "water:table")); n != 0 {
		t.Errorf("%d signs of water that is not known yet", n)
	}
}

// Water ahead of the result is drawn in its place.
func TestWaterAheadOfTheResult(t *testing.T) {
	d, other := wetDemo(t, "put-right"), wetDemo(t, "put-right", func(p *model.Project) { p.Defence.Drain.Depth += 0.6 })
	v := d.view(t, "high")
	o := d.options(20, units.Metric)
	line := func(o Options, d demo) []geom.Polyline {
		s, err := Build(v, d.r, o)
		if err != nil {
			t.Fatal(err)
		}
		var out []geom.Polyline
		for _, p := range paths(s, "water:table") {
			out = append(out, p.Parts...)
		}
		return out
	}
	old := line(o, d)
	o.Water = other.r.Water
	ahead := line(o, d)
	o.Water = nil
	after := line(o, other)
	if fmt.Sprint(ahead) == fmt.Sprint(old) || fmt.Sprint(ahead) != fmt.Sprint(after) {
		t.Error("the line ahead of the result is not that of the result to come")
	}
}

// The target is 6 ms with flow lines and heads.
func BenchmarkWater(b *testing.B) {
	d := wetDemo(b, "put-right")
	for _, at := range []string{"high-long", "high-cross"} {
		v := d.views(b)[at]
		for name, layers := range map[string][]Layer{"line": nil, "flow+heads": {Flow, Heads}, "all": {Flow, Heads, Mesh}} {
			o := d.options(20, units.Metric)
			o.Show = everything()
			delete(o.Show, Flow)
			delete(o.Show, Heads)
			delete(o.Show, Mesh)
			for _, l := range layers {
				o.Show[l] = true
			}
			b.Run(at+"/"+name, func(b *testing.B) {
				b.ReportAllocs()
				for range b.N {
					if _, err := Build(v, d.r, o); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
