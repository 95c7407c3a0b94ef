package section

import (
	"math"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
)

// TestBelow walks down below both ends of a box across a boundary that rises
// into the hill, by hand.
func TestBelow(t *testing.T) {
	p := plain(model.Vec{-20, 100}, model.Vec{40, 106})
	rock, _ := tables.Default().SoilOf("GM")
	rock.ID = "drift"
	p.Site.Soils = append(p.Site.Soils, rock)
	p.Site.Strata = append(p.Site.Strata, model.Stratum{ID: "two", Soil: "drift", Top: []model.Vec{{-20, 97}, {40, 103}}})
	p.Site.CrossSlope = 0.1
	p.Box.Front, p.Box.Level = 0, 100
	p.Cut.Batter, p.Cut.SideBatter = 0.5, 0.5
	v, err := NewLong(p, tables.Default(), service)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name     string
		s, y, z  float64
		ground   float64
		soils    []string
		thick    []float64
		withRock bool
	}{
		{"front", 0, 0, 100, 102, []string{"s", "drift"}, []float64{1, math.Inf(1)}, false},
		{"front right, where all is higher", 0, 1, 100, 102.1, []string{"s", "drift"}, []float64{0.9, math.Inf(1)}, false},
		{"back", 6, 0, 99, 102.6, []string{"drift"}, []float64{math.Inf(1)}, false},
		{"above the ground", 0, 0, 103, 102, []string{"s", "drift"}, []float64{3, math.Inf(1)}, false},
		{"rock below", 0, 0, 100, 102, []string{"s", "drift"}, []float64{1, 3}, true},
		{"in rock", 0, 0, 95, 102, nil, nil, true},
	} {
		p.Site.Rock = nil
		if c.withRock {
			p.Site.Rock = []model.Vec{{-20, 96}, {40, 96}}
		}
		got, ground, ok := v.Below(c.s, c.y, c.z)
		if !ok || math.Abs(ground-c.ground) > 1e-9 || len(got) != len(c.soils) {
			t.Errorf("%s: %v, ground %g, %v", c.name, got, ground, ok)
			continue
		}
		for i, b := range got {
			if b.Soil.ID != c.soils[i] || !(math.Abs(b.Thickness-c.thick[i]) < 1e-9 || math.IsInf(c.thick[i], 1) && math.IsInf(b.Thickness, 1)) {
				t.Errorf("%s: layer %d is %g m of %s", c.name, i, b.Thickness, b.Soil.ID)
			}
		}
	}
	if _, _, ok := v.Below(-21, 0, 99); ok {
		t.Error("beyond the ground line something is known")
	}
}
