package scene

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/ui/units"
)

// demo is a demonstration project with its result.
type demo struct {
	p *model.Project
	r *assess.Result
}

func demos(tb testing.TB) map[string]demo {
	tb.Helper()
	files, err := filepath.Glob("../../testdata/*.hillset")
	if err != nil || len(files) == 0 {
		tb.Fatalf("no demonstration projects: %v", err)
	}
	out := map[string]demo{}
	for _, f := range files {
		doc, _, err := model.ReadFile(f)
		if err != nil {
			tb.Fatalf("%s: %v", f, err)
		}
		r, err := assess.Run(context.Background(), doc.Project, tables.Default())
		if err != nil {
			tb.Fatalf("%s: %v", f, err)
		}
		name := filepath.Base(f)
		out[name[:len(name)-len(".hillset")]] = demo{doc.Project, r}
	}
	return out
}

func (d demo) options(mm float64, sys units.System) Options {
	return Options{MMPerM: mm, Units: sys, Soils: func(id string) (model.Soil, bool) { return section.SoilByID(d.p, id) }}
}

// views are the long section of every stage and the cross section in the
// middle of the box.
func (d demo) views(tb testing.TB) map[string]*section.View {
	tb.Helper()
	out := map[string]*section.View{}
	for _, v := range d.r.Views {
		out[v.Stage.ID+"-long"] = v
		if !v.HasBox {
			continue
		}
		c, err := section.CrossOf(d.p, tables.Default(), v, v.Box.Center()[0])
		if err != nil {
			tb.Fatalf("%s: %v", v.Stage.ID, err)
		}
		out[v.Stage.ID+"-cross"] = c
	}
	return out
}

// The demonstration projects, as the engine gives them: every stage, both
// sections, several scales.
func TestDemos(t *testing.T) {
	for name, d := range demos(t) {
		for at, v := range d.views(t) {
			for _, mm := range []float64{10, 20, 1000.0 / 48} {
				sys := units.Metric
				if mm > 20 {
					sys = units.US
				}
				s, err := Build(v, d.r, d.options(mm, sys))
				if err != nil {
					t.Fatalf("%s %s: %v", name, at, err)
				}
				examine(t, name+" "+at, s, Window(v, mm))
				if mm == 20 && *lookDir != "" {
					img, err := paint(s, Light, 4)
					if err != nil {
						t.Fatal(err)
					}
					keep(t, img, fmt.Sprintf("demo-%s-%s.png", name, at))
					t.Logf("%s %s lost %q", name, at, s.Lost)
				}
			}
		}
	}
}

func BenchmarkDemo(b *testing.B) {
	for name, d := range demos(b) {
		vs := d.views(b)
		for _, at := range []string{"high-long", "high-cross"} {
			b.Run(name+"/"+at, func(b *testing.B) {
				b.ReportAllocs()
				for range b.N {
					if _, err := Build(vs[at], d.r, d.options(20, units.Metric)); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
