package water

import (
	"math"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
)

// The ground at the box, each soil once: not known without a texture, the height
// of its class with one, more under rain.
func TestMoistAt(t *testing.T) {
	p := demo(t, "put-right")
	p.Site.Water.Recharge = 0
	for i := range p.Site.Soils {
		p.Site.Soils[i].Texture = ""
	}
	tb := tables.Default()
	texture := func(soil, class string) {
		for i := range p.Site.Soils {
			if p.Site.Soils[i].ID == soil {
				p.Site.Soils[i].Texture = class
			}
		}
	}
	find := func(where string) Moist {
		t.Helper()
		for _, m := range MoistAt(p, tb) {
			if m.Where == where {
				return m
			}
		}
		t.Fatalf("no %s among %+v", where, MoistAt(p, tb))
		return Moist{}
	}
	for _, m := range MoistAt(p, tb) {
		if !math.IsNaN(m.Height) || m.Why == "" {
			t.Errorf("%+v is known without a texture", m)
		}
	}
	p.Fill.Backfill = "loam"
	texture("loam", "silt-loam")
	dry := find("backfill")
	near(t, "height", dry.Height, 0.278, 0.003) // by hand, ((0.9^(-1/m) - 1)^(1/n))/alpha
	p.Site.Water.Recharge = 300
	if wet := find("backfill"); !(wet.Height > dry.Height) {
		t.Errorf("%.4f m under rain, %.4f m without", wet.Height, dry.Height)
	}
	p.Site.Water.Recharge = 3000
	texture("loam", "silty-clay")
	if m := find("backfill"); !math.IsInf(m.Height, 1) && m.Why == "" {
		t.Errorf("silty clay under 3 m of rain a year: %+v", m)
	}
	texture("loam", "mud")
	if m := find("backfill"); m.Why == "" || !math.IsNaN(m.Height) {
		t.Errorf("a texture that no table has: %+v", m)
	}
	if len(MoistAt(&model.Project{}, tb)) != 0 {
		t.Error("an empty project has ground at its box")
	}
}
