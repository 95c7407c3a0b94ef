package assess

import (
	"math"
	"testing"

	"hillset/engine/earth"
	"hillset/engine/model"
)

// TestQuake: the increment of an earthquake is kh·γ·H² of the heaviest column
// (Wood; UFC 3-220-20 4-18, second-hand), saturated below water, and with water
// 7/12·kh·γw·h² more, the integral of 0.875·kh·γw·√(h·z) (UFC 4-19,
// second-hand; integral derived).
func TestQuake(t *testing.T) {
	const kh, h = 0.12, 2.5
	p := demo(t, "as-drawn").Clone()
	p.Site.Climate.Kh = kh
	j := jobOf(t, p)
	foot := p.Box.Level
	column := func(gamma, sat, water float64) earth.Column {
		return earth.Column{Water: water, Layers: []earth.Layer{{Name: "fill", Top: foot + h, Bottom: foot - 1, Gamma: gamma, GammaSat: sat, Phi: 0.5, OCR: 1}}}
	}
	dry := math.Inf(-1)
	for _, c := range []struct {
		name string
		cols []earth.Column
		want float64
	}{
		{"dry", []earth.Column{column(18, 20, dry)}, kh * 18 * h * h},
		{"the heavier column stands behind", []earth.Column{column(16, 20, dry), column(21, 22, dry)}, kh * 21 * h * h},
		{"water to the surface", []earth.Column{column(18, 20, foot+h)}, kh*20*h*h + 7./12*kh*9.81*h*h},
		{"water half way up", []earth.Column{column(18, 20, foot+h/2)}, kh*19*h*h + 7./12*kh*9.81*h*h/4},
		{"water below the box", []earth.Column{column(18, 20, foot-0.5)}, kh * 18 * h * h},
	} {
		pr := &press{face: "left", surface: foot + h, cols: c.cols, quake: true,
			loads: []earth.WallLoad{func(float64) float64 { return 3 }}}
		var room earth.Room
		d, err := j.diagramOf(earth.AtRest, pr, &room)
		if err != nil {
			t.Fatal(err)
		}
		got, _ := d.ResultantOf(func(r *earth.Row) float64 { return r.Quake })
		on, _ := d.ResultantOf(func(r *earth.Row) float64 { return r.Surcharge })
		const tol = 5e-3 // straight lines between rows follow the curve of the water
		if math.Abs(got-c.want) > tol*c.want || math.Abs(on-3*h) > 1e-9 {
			t.Errorf("%s: quake %.3f kN/m, want %.3f; load %.3f, want %.3f", c.name, got, c.want, on, 3*h)
		}
		for _, r := range d {
			if sum := r.Soil + r.U + r.Surcharge + r.Compaction + r.Quake; math.Abs(sum-r.Total) > 1e-9 {
				t.Errorf("%s: parts %.6f, total %.6f", c.name, sum, r.Total)
			}
		}
	}
}

// TestQuakeStage: an earthquake raises what the walls carry, and more so with
// water.
func TestQuakeStage(t *testing.T) {
	p := demo(t, "as-drawn").Clone()
	p.Site.Climate.Kh = 0.15
	ratio := func(water string, quake bool) float64 {
		p.Stages = []model.Stage{{ID: "one", Name: "one", Kind: model.StageService, Cover: true, Water: water, Quake: quake}}
		r := run(t, p)
		if len(r.Blocks) > 0 {
			t.Fatal(r.Blocks)
		}
		return find(r, "side-sheet", "left side wall").Worst()
	}
	dry, wet := ratio(model.WaterNone, true)-ratio(model.WaterNone, false), ratio(model.WaterHigh, true)-ratio(model.WaterHigh, false)
	if dry <= 0 || wet <= dry {
		t.Errorf("an earthquake adds %.3f dry and %.3f with water", dry, wet)
	}
}
