package assess

import (
	"math"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
)

// foamed is EP-26's box with block foam on the roof under 0.3 m of soil.
func foamed() *model.Project {
	p := ep26()
	p.Fill.Roof = []model.RoofLayer{{Kind: "lightfill", Name: "blocks", Thickness: 0.25, Gamma: 0.2, Grade: "EPS19"},
		{Kind: "board", Name: "board", Thickness: 0.05, Gamma: 10}}
	return p
}

// TestLightFillByHand: soil with its factor and the board above press on the
// blocks, the blocks themselves do not (statics, derived); EPS19 resists 40 kPa
// at 1 % (ASTM D6817, verified).
func TestLightFillByHand(t *testing.T) {
	c := find(run(t, foamed()), "light-fill", "light fill")
	if c == nil || c.Verdict() != check.Within {
		t.Fatalf("%+v", c)
	}
	soil := 0.3 * 18 * (1 + 0.2*0.3/2.438)
	closeTo(t, "stress", c.Demand.Val, soil+0.5, 1e-6)
	closeTo(t, "ratio", c.Ratio, (soil+0.5)/40, 1e-6)
	p := foamed()
	p.Fill.Roof[0].Gamma = 0.1
	p.Fill.Roof = append(p.Fill.Roof, p.Fill.Roof[0])
	p.Fill.Roof[2].Thickness, p.Fill.Roof[2].Grade = 0.1, "none"
	r := run(t, p)
	if c := find(r, "light-fill", "light fill 1"); c == nil || !said(c, "below the least of its type") {
		t.Errorf("%+v", c)
	}
	if c := find(r, "light-fill", "light fill 2"); c == nil || c.Verdict() != check.NotChecked {
		t.Errorf("%+v", c)
	}
	p = foamed()
	p.Strengthening.RoofSlab = slabbed().Strengthening.RoofSlab
	if d := find(run(t, p), "light-fill", "light fill"); d == nil || math.Abs(d.Ratio-c.Ratio) > 1e-9 {
		t.Errorf("on a roof on posts %+v", d)
	}
}

// TestLightFillFloats: blocks under water are part of what floats, by their
// weight and their volume (hydrostatics, derived): the box with 0.3 m of
// build-up and 0.3 m of soaked soil under water to the surface.
func TestLightFillFloats(t *testing.T) {
	p := foamed()
	z := p.Box.Level + 2.591 + 0.6
	p.Site.Water.DesignHigh = &z
	p.Stages[0].Water = model.WaterHigh
	r := run(t, p)
	j := jobOf(t, p)
	area := j.depth * j.across
	holds := j.tareKN + area*(0.25*0.2+0.05*10+0.3*(20-9.81))
	closeTo(t, "afloat", find(r, "flotation", "box").Capacity.Val, holds/(9.81*(2.591+0.3)*area), 1e-3)
	soaked := 0.3 * 20 * (1 + 0.2*0.3/2.438)
	closeTo(t, "stress on the blocks", find(r, "light-fill", "light fill").Demand.Val, soaked+0.5, 1e-6)
}

// TestLightFillWheels: wheels press on the blocks from as deep as these lie, not
// as deep as the roof: by summing point loads over the footprints.
func TestLightFillWheels(t *testing.T) {
	p := foamed()
	j := jobOf(t, p)
	p.Site.Surcharges = []model.Surcharge{{ID: "v", Name: "v", Kind: model.Vehicle, Vehicle: j.t.VehicleIDs()[0], X1: 23, Heading: "up"}}
	p.Stages[0].Surcharges = []string{"v"}
	c := find(run(t, p), "light-fill", "light fill")
	wheels, err := j.patches(p.Site.Surcharges[0])
	if err != nil {
		t.Fatal(err)
	}
	const depth = 0.35
	most := 0.0
	for _, w := range wheels {
		for _, v := range wheels {
			if y := clampTo(w.Y, -j.across/2, j.across/2); v.X >= j.frontX && v.X <= j.backX {
				most = math.Max(most, boussinesq(wheels, v.X, y, depth))
			}
		}
	}
	impact := 0.33 * (1 - 0.125*depth/0.3048)
	want := 0.3*18*(1+0.2*0.3/2.438) + 0.5 + most*(1+impact)
	closeTo(t, "stress with wheels", c.Demand.Val, want, 0.02)
}
