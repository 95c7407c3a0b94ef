package assess

import (
	"math"
	"math/rand"
	"reflect"
	"testing"

	"hillset/engine/earth"
	"hillset/engine/model"
)

// TestStagesAlone: every stage gives the same loads and the same governing
// ratios when it is assessed alone, with no earlier stage to take them from.
func TestStagesAlone(t *testing.T) {
	rng := rand.New(rand.NewSource(21))
	projects := []*model.Project{demo(t, "as-drawn"), demo(t, "put-right"), grown(t, "40std", 14)}
	for i := range 12 {
		p := projects[i%2].Clone()
		jumble(p, rng.Float64)
		p.Box.Front, p.Box.Level = 8+3*rng.Float64(), 99.6+rng.Float64() // where a box can stand
		for k := range p.Stages {
			p.Stages[k].Years = float64(rng.Intn(3))
		}
		projects = append(projects, p)
	}
	for i, p := range projects {
		all := run(t, p)
		most := map[slot]float64{}
		var loads []Load
		var roofs []RoofLoad
		for _, st := range p.Stages {
			q := p.Clone()
			q.Stages = []model.Stage{st}
			one := run(t, q)
			loads, roofs = append(loads, one.Loads...), append(roofs, one.Roofs...)
			for _, c := range one.Checks {
				if c.Stage != "" {
					s := slot{c.ID, c.Part}
					most[s] = math.Max(most[s], c.Worst())
				}
			}
		}
		if !reflect.DeepEqual(loads, all.Loads) || !reflect.DeepEqual(roofs, all.Roofs) {
			t.Errorf("project %d: the loads of stages together are not those of each alone", i)
		}
		for _, c := range all.Checks {
			// rounding: a check is written from its own ratio, within tie of the largest
			if want, ok := most[slot{c.ID, c.Part}]; c.Stage != "" && ok && math.Abs(c.Worst()-want) > 2*tie*want {
				t.Errorf("project %d: %s %s has %.12g, the worst stage alone %.12g", i, c.ID, c.Part, c.Worst(), want)
			}
		}
	}
}

// TestAlike: presses are taken for one only where everything that goes into
// the pressure is the same; water below the box does not count.
func TestAlike(t *testing.T) {
	base := func() *press {
		return &press{face: "left", surface: 102.5, cols: []earth.Column{{Water: math.Inf(-1), Q: 2, Beta: 0.1,
			Layers: []earth.Layer{{Name: "fill", Top: 102.5, Bottom: 98, Gamma: 18, GammaSat: 20, Phi: 0.5, OCR: 1}}}}}
	}
	const level = 100.0
	cases := []struct {
		name   string
		change func(*press)
		want   bool
	}{
		{"the same", func(*press) {}, true},
		{"another station of the same numbers", func(p *press) { p.station = 3 }, true},
		{"water below the box", func(p *press) { p.cols[0].Water = 99.9 }, true},
		{"water at the level of the box", func(p *press) { p.cols[0].Water = level }, true},
		{"water above it", func(p *press) { p.cols[0].Water = 100.001 }, false},
		{"another face", func(p *press) { p.face = "right" }, false},
		{"a higher fill", func(p *press) { p.surface += 1e-9 }, false},
		{"another soil", func(p *press) { p.cols[0].Layers[0].Phi += 1e-12 }, false},
		{"another boundary", func(p *press) { p.cols[0].Layers[0].Bottom = 97 }, false},
		{"a surcharge", func(p *press) { p.cols[0].Q = 0 }, false},
		{"a slope", func(p *press) { p.cols[0].Beta = 0 }, false},
		{"an earthquake", func(p *press) { p.quake = true }, false},
		{"one column more", func(p *press) { p.cols = append(p.cols, p.cols[0]) }, false},
		{"a load", func(p *press) { p.loads = []earth.WallLoad{func(float64) float64 { return 0 }} }, false},
		{"a load that cannot be worked out", func(p *press) { p.fault = model.Problem{} }, false},
	}
	for _, c := range cases {
		a, b := base(), base()
		c.change(b)
		if a.alike(b, level) != c.want || b.alike(a, level) != c.want {
			t.Errorf("%s: alike %v, want %v", c.name, !c.want, c.want)
		}
	}
	a, b := base(), base()
	a.cols[0].Water, b.cols[0].Water = 101, 101
	if !a.alike(b, level) {
		t.Error("the same high water is not alike")
	}
}
