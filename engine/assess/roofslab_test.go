package assess

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
)

// slabbed is EP-26's box under a slab on posts of its own.
func slabbed() *model.Project {
	p := ep26()
	p.Strengthening.RoofSlab = model.RoofSlab{Thickness: 0.16, Fc: 25, Bar: 12, BarSpacing: 0.15, BarCover: 0.025,
		EdgeBeam: "shs100x6", Post: "shs100x5", Spacing: 1.2, Gap: 0.1, Footing: 0.8}
	return p
}

// beamed is the same under cross beams with a deck.
func beamed() *model.Project {
	p := slabbed()
	p.Strengthening.RoofSlab = model.RoofSlab{CrossBeam: "shs100x6", CrossSpacing: 0.4, Deck: "48/24",
		EdgeBeam: "shs100x6", Post: "shs100x5", Spacing: 1.2, Gap: 0.1, Footing: 0.8}
	return p
}

// TestSlabByHand: the load of EP-26 on a slab over the box by hand (statics,
// derived): soil 0.6 m of 18 kN/m3 with Fe 1 + 0.2·0.6/2.438, span 2.438 + 0.2 +
// 0.1 between the posts, 1.2 and 1.4 of dead load, the slab's own 24 kN/m3; the
// edge beams, posts and pads below carry it to the ground.
func TestSlabByHand(t *testing.T) {
	r := run(t, slabbed())
	soil, span := 0.6*18*(1+0.2*0.6/2.438), 2.438+0.2+0.1
	d := soil + 0.16*24
	slab := find(r, "roof-slab", "roof on posts")
	if slab == nil || slab.Verdict() != check.Within {
		t.Fatalf("%+v, %v", slab, r.Blocks)
	}
	as := math.Pi / 4 * 0.012 * 0.012 / 0.15
	a := as * 420e3 / (0.85 * 25e3)
	phiMn := 0.9 * as * 420e3 * (0.16 - 0.025 - 0.006 - a/2)
	closeTo(t, "slab", slab.RatioLRFD, 1.4*d*span*span/8/phiMn, 1e-3)
	if slab.CaseLRFD != "1.4(D + F)" || !math.IsNaN(slab.Ratio) {
		t.Errorf("%+v", slab)
	}
	const mass = 21.63e-4 * 7.85 * 9.81 // SHS 100 x 6, kN/m (structure reference, section 3)
	w := d*span/2*(1+0.1/span) + mass
	edge := find(r, "roof-edge-beam", "roof on posts")
	closeTo(t, "edge beam", edge.Ratio, w*1.2*1.2/8/(75.10e-6*345e3/1.67), 3e-3)
	sag := find(r, "roof-edge-beam-deflection", "roof on posts")
	closeTo(t, "sag of the edge beam", sag.Demand.Val, 5*w*math.Pow(1.2, 4)/(384*200e6*311.5e-8), 3e-3)
	closeTo(t, "over L/240", sag.Ratio, sag.Demand.Val*240/1.2, 1e-9)
	post := find(r, "roof-post", "roof on posts")
	height := 2.591 + 0.15 + 0.025
	closeTo(t, "post", post.Demand.Val, w*1.2+18.36e-4*7.85*9.81*height, 2e-3)
	pad := find(r, "post-footing", "pads of the roof posts")
	closeTo(t, "pad", pad.Ratio, post.Demand.Val/0.64/100, 1e-9)
	depth := find(r, "roof-slab-depth", "roof on posts")
	closeTo(t, "depth", depth.Ratio, span/20/0.16, 1e-9)
}

// TestBeamsByHand: cross beams instead of the slab under the same soil: 0.4 m of
// it each, and the deck between them.
func TestBeamsByHand(t *testing.T) {
	r := run(t, beamed())
	soil, span := 0.6*18*(1+0.2*0.6/2.438), 2.438+0.2+0.1
	const mass = 21.63e-4 * 7.85 * 9.81
	d := soil + mass/0.4 + 0.15
	cross := find(r, "roof-cross-beam", "roof on posts")
	if cross == nil {
		t.Fatalf("no cross beams: %v", r.Blocks)
	}
	closeTo(t, "cross beam", cross.Ratio, 0.4*d*span*span/8/(75.10e-6*345e3/1.67), 3e-3)
	sag := find(r, "roof-cross-beam-deflection", "roof on posts")
	closeTo(t, "sag of the cross beam", sag.Demand.Val, 5*0.4*d*math.Pow(span, 4)/(384*200e6*311.5e-8), 3e-3)
	closeTo(t, "over L/240", sag.Ratio, sag.Demand.Val*240/span, 1e-9)
	deck := find(r, "roof-deck", "roof on posts")
	const fbs = 845 * 0.45359237 * 9.80665e-3 * 0.0254 / 0.3048 // kNm/m
	closeTo(t, "deck", deck.Ratio, d/(10*fbs*0.9*0.8/0.16), 2e-3)
	if c := find(r, deckSagID, "roof on posts"); c == nil || !(c.Ratio > 0) {
		t.Errorf("no sag of the deck: %+v", c)
	}
	if find(r, "roof-slab", "") != nil {
		t.Error("there is a slab as well")
	}
}

// TestOwnRoofFreesTheBox: with the cover on posts the roof of the box carries no
// more than the thrust of the walls, the corner posts nothing, the pads no cover;
// and the cover holds the box no longer: it floats, slides and tips as one that
// is bare on top (statics, derived).
func TestOwnRoofFreesTheBox(t *testing.T) {
	for _, make := range []func() *model.Project{slabbed, beamed} {
		with, without := make(), ep26()
		for _, p := range []*model.Project{with, without} {
			z := p.Box.Level + 0.1
			p.Site.Water.DesignHigh = &z
			p.Stages = append(p.Stages, model.Stage{ID: "high", Name: "high", Kind: model.StageService, FillTo: 1, Cover: true, Water: model.WaterHigh})
		}
		a, b := run(t, without), run(t, with)
		if len(b.Blocks) > 0 {
			t.Fatal(b.Blocks)
		}
		if c := find(b, "corner-post", ""); c != nil && c.Verdict() != check.NotChecked {
			t.Errorf("corner posts still carry: %+v", c)
		}
		for _, id := range []string{"roof-sheet", padBearing} {
			if x, y := find(a, id, ""), find(b, id, ""); y == nil || y.Worst() >= x.Worst() {
				t.Errorf("%s: %+v, with the cover on the box %.3f", id, y, x.Worst())
			}
		}
		for _, id := range []string{"flotation", "sliding", "overturning"} {
			if x, y := find(a, id, "box"), find(b, id, "box"); y == nil || y.Worst() <= x.Worst()*1.05 {
				t.Errorf("%s: %+v, with the cover on the box %.3f", id, y, x.Worst())
			}
		}
		j := jobOf(t, with)
		area := j.depth * j.across
		closeTo(t, "factor against floating", find(b, "flotation", "box").Capacity.Val, j.tareKN/(9.81*0.1*area), 1e-9)
		if c := find(b, "side-sheet", "left side wall"); math.Abs(c.Worst()-find(a, "side-sheet", "left side wall").Worst()) > 1e-12 {
			t.Error("the roof on posts changes the side wall")
		}
		i := slices.IndexFunc(b.Roofs, func(l RoofLoad) bool { return l.Stage == "dry" })
		if i < 0 || b.Roofs[i].Soil == 0 {
			t.Errorf("the load over the box is not shown: %+v", b.Roofs)
		}
		if !strings.Contains(strings.Join(b.Assumed, "\n"), "no longer holds the box") {
			t.Errorf("%q", b.Assumed)
		}
	}
}

// TestOwnRoofUnderWater: ground water comes in below the roof on posts and
// presses on the roof of the box (hydrostatics, derived).
func TestOwnRoofUnderWater(t *testing.T) {
	p := slabbed()
	z := p.Box.Level + 2.591 + 0.4
	p.Site.Water.DesignHigh = &z
	p.Stages[0].Water = model.WaterHigh
	sr := worked(t, jobOf(t, p), "dry")
	for i := range sr.tops {
		if got := sr.tops[i].load; math.Abs(got.Water-9.81*0.4) > 1e-9 || got.Soil != 0 {
			t.Errorf("station %d: %+v", i, got)
		}
	}
	closeTo(t, "afloat", find(run(t, p), "flotation", "box").Capacity.Val, jobOf(t, p).tareKN/(9.81*2.591*6.058*2.438), 1e-3)
}

// TestOwnRoofWheels: a vehicle over the box loads the roof on posts and no
// longer the roof and the pads of the box.
func TestOwnRoofWheels(t *testing.T) {
	for _, broadside := range []bool{false, true} {
		p := slabbed()
		p.Site.Surcharges = []model.Surcharge{{ID: "v", Name: "tractor", Kind: model.Vehicle, Vehicle: "tractor", X1: 22, Heading: "up"}}
		if broadside {
			p.Box.Orientation = model.Broadside
			p.Site.Surcharges[0].X1 = 21
		}
		if _, ok := jobOf(t, slabbed()).t.Vehicle("tractor"); !ok {
			p.Site.Surcharges[0].Vehicle = jobOf(t, slabbed()).t.VehicleIDs()[0]
		}
		before := run(t, p)
		p.Stages[0].Surcharges = []string{"v"}
		after := run(t, p)
		if len(after.Blocks) > 0 {
			t.Fatal(after.Blocks)
		}
		for _, id := range []string{"roof-slab", "roof-edge-beam", "roof-post", "post-footing"} {
			if x, y := find(before, id, ""), find(after, id, ""); x == nil || y == nil || y.Worst() <= x.Worst() {
				t.Errorf("broadside %v, %s: without %+v, with the vehicle %+v", broadside, id, x, y)
			}
		}
		if x, y := find(before, padBearing, "pads"), find(after, padBearing, "pads"); math.Abs(x.Worst()-y.Worst()) > 1e-9*x.Worst() && !broadside {
			t.Errorf("pads of the box %.4f without, %.4f with the vehicle", x.Worst(), y.Worst())
		}
	}
}

// TestOwnRoofMissing: what cannot be looked up or does not do is said for every
// part of the roof on posts.
func TestOwnRoofMissing(t *testing.T) {
	for name, change := range map[string]func(*model.Project){
		"open post": func(p *model.Project) { p.Strengthening.RoofSlab.Post = "c122x45x40x4" },
		"no edge":   func(p *model.Project) { p.Strengthening.RoofSlab.EdgeBeam = "nothing" },
		"bare pads": func(p *model.Project) { p.Site.Soils[0].Bearing = 0 },
		"in the skin": func(p *model.Project) {
			p.Strengthening.Stud = studded().Strengthening.Stud
			p.Strengthening.RoofSlab.Gap = 0.1
		},
		"pads":       func(p *model.Project) { p.Strengthening.RoofSlab.Footing = 1.3 },
		"bars apart": func(p *model.Project) { p.Strengthening.RoofSlab.BarCover = 0.2 },
	} {
		p := slabbed()
		change(p)
		r := run(t, p)
		if c := find(r, "post-footing", ""); c == nil || c.Verdict() != check.NotChecked || c.Missing == "" {
			t.Errorf("%s: %+v", name, c)
		}
		if c := find(r, "roof-slab", ""); name != "bare pads" && (c == nil || c.Verdict() != check.NotChecked) {
			t.Errorf("%s: %+v", name, c)
		}
		if c := find(r, "side-sheet", ""); c == nil || c.Verdict() == check.NotChecked {
			t.Errorf("%s hides the walls: %+v", name, c)
		}
	}
}
