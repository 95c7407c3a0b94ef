package assess

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
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
	deck := find(r, "roof-deck", "roof on posts")
	const fbs = 845 * 0.45359237 * 9.80665e-3 * 0.0254 / 0.3048 // kNm/m
	closeTo(t, "deck", deck.Ratio, d/(10*fbs*0.9*0.8/0.16), 2e-3)
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
		"open post":  func(p *model.Project) { p.Strengthening.RoofSlab.Post = "c122x45x40x4" },
		"no edge":    func(p *model.Project) { p.Strengthening.RoofSlab.EdgeBeam = "nothing" },
		"bare pads":  func(p *model.Project) { p.Site.Soils[0].Bearing = 0 },
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

// TestEitherAlone: nothing is shared, both systems are judged by their worst
// member under the full pressure, and a system that is not there is missing.
func TestEitherAlone(t *testing.T) {
	p := studded()
	ribbed(p)
	p.Strengthening.EitherAlone = true
	r := run(t, p)
	for _, part := range []string{"inside steel", "outside skin"} {
		c := find(r, "either-alone", part)
		if c == nil || c.Verdict() == check.NotChecked {
			t.Fatalf("%s: %+v", part, c)
		}
		worst := 0.0
		for _, o := range r.Checks {
			if o.Verdict() != check.NotChecked && systemOf(slot{o.ID, o.Part}) == part {
				worst = math.Max(worst, o.Worst())
			}
		}
		if math.Abs(c.Worst()-worst) > 1e-9 || worst == 0 || !strings.Contains(c.Title, ",") || !said(c, "carries nothing") || c.Stage == "" {
			t.Errorf("%s: %+v, worst member %.4f", part, c, worst)
		}
	}
	if c := find(r, "side-sheet", "left side wall"); !said(c, "alone") {
		t.Errorf("%q", c.Assumptions)
	}
	for _, c := range []struct {
		part   string
		change func(*model.Project)
	}{
		{"inside steel", func(p *model.Project) { p.Strengthening.Ribs = model.Ribs{} }},
		{"outside skin", func(p *model.Project) { p.Strengthening.Stud = model.StudSkin{} }},
	} {
		q := p.Clone()
		c.change(q)
		if made := find(run(t, q), "either-alone", c.part); made == nil || made.Verdict() != check.NotChecked || made.Missing == "" {
			t.Errorf("without it %s: %+v", c.part, made)
		}
	}
	p.Strengthening.EitherAlone = false
	if find(run(t, p), "either-alone", "") != nil {
		t.Error("judged although nobody claims it")
	}
}

// TestSystems: every check belongs to one system or to none that the pressure on
// walls could reach.
func TestSystems(t *testing.T) {
	for id, want := range map[string]string{"side-sheet": insidePart, "rib": insidePart, "wale": insidePart, "stud": outsidePart,
		"concrete-skin": outsidePart, "pour": "", "post-footing": "", batterID: "", "roof-edge-beam": ""} {
		if got := systemOf(slot{id: id, part: "x"}); got != want {
			t.Errorf("%s is of %q, want %q", id, got, want)
		}
	}
	if got := systemOf(slot{"sliding", "box"}); got != "" {
		t.Errorf("sliding is of %q", got)
	}
}

// TestOutsideBroadside: skins and the roof on posts work for a box along the
// contour too, where the hill presses one long wall.
func TestOutsideBroadside(t *testing.T) {
	p := slabbed()
	p.Box.Orientation = model.Broadside
	p.Strengthening.Stud = studded().Strengthening.Stud
	r := run(t, p)
	if len(r.Blocks) > 0 {
		t.Fatal(r.Blocks)
	}
	for _, want := range []slot{{"stud", partOf(section.Back) + ", stud skin"}, {"roof-slab", "roof on posts"}, {"roof-post", "roof on posts"}} {
		if c := find(r, want.id, want.part); c == nil || c.Verdict() == check.NotChecked {
			t.Errorf("%v: %+v", want, c)
		}
	}
}
