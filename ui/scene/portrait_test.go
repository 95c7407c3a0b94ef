package scene

import (
	"fmt"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/ui/units"
)

// posed is a view with its portrait.
type posed struct {
	v *section.View
	o Options
	r *assess.Result
}

// poses are long and cross sections of the demos, end-on and broadside, with
// what the steel does in their last stage.
func poses(tb testing.TB) map[string]posed {
	tb.Helper()
	out := map[string]posed{}
	for name, r := range flatCases(tb) {
		d := demo{r.Project, r}
		long := r.Views[len(r.Views)-1]
		cross, err := section.CrossOf(d.p, tables.Default(), long, long.Box.Center()[0])
		if err != nil {
			tb.Fatal(err)
		}
		for kind, v := range map[string]*section.View{"long": long, "cross": cross} {
			p, err := assess.Shape(d.p, tables.Default(), v.Stage.ID, v.Station, v.Long)
			if err != nil {
				tb.Fatalf("%s %s: %v", name, kind, err)
			}
			o := Options{Portrait: p, Project: d.p, Bars: tables.Default().Bar, Soils: func(id string) (model.Soil, bool) { return section.SoilByID(d.p, id) }}
			out[name+" "+kind] = posed{v, o, r}
		}
	}
	return out
}

// only shows the portrait alone on the box.
var only = map[Layer]bool{BoxLayer: true, Ground: true, Fills: true, Frame: true, Deformed: true, MomentLines: true, ThrustLines: true}

func TestPortraitTextsApart(t *testing.T) {
	for name, c := range poses(t) {
		for _, mm := range []float64{10, 20, 40} {
			for _, sys := range []units.System{units.Metric, units.US} {
				for what, show := range map[string]map[Layer]bool{"all": nil, "only": only} {
					o := c.o
					o.MMPerM, o.Units, o.Show = mm, sys, show
					s, err := Build(c.v, c.r, o)
					if err != nil {
						t.Fatalf("%s: %v", name, err)
					}
					examine(t, fmt.Sprintf("%s %g %v %s", name, mm, sys, what), s, Window(c.v, mm))
					if *lookDir != "" && mm > 10 && sys == units.Metric {
						look := Light
						if mm == 20 {
							look = Dark
						}
						img, err := paint(s, look, 4)
						if err != nil {
							t.Fatal(err)
						}
						keep(t, img, fmt.Sprintf("portrait-%s-%g-%s.png", name, mm, what))
					}
				}
			}
		}
	}
}
