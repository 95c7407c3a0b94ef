package assess

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
)

// anyOutside builds something outside the box, by chance, from what a user may
// enter.
func anyOutside(r *rand.Rand) *model.Project {
	p := ep26()
	if r.IntN(2) == 0 {
		p.Box.Orientation = model.Broadside
	}
	z := p.Box.Level + 3.4*r.Float64()
	p.Site.Water.DesignHigh = &z
	p.Site.Climate.GroundSnow = 2 * r.Float64()
	p.Fill.FrontTop = 0.3 + 0.5*r.Float64()
	p.Fill.BackTop = p.Fill.FrontTop
	p.Stages = append(p.Stages, model.Stage{ID: "high", Name: "high", Kind: model.StageService, FillTo: 1, Cover: true, Water: model.WaterHigh, Snow: true},
		model.Stage{ID: "half", Name: "half", Kind: model.StageBackfill, FillTo: r.Float64(), OneSide: r.IntN(2) == 0},
		model.Stage{ID: "old", Name: "old", Kind: model.StageService, FillTo: 1, Cover: true, Years: 20 * r.Float64()})
	s := &p.Strengthening
	s.EitherAlone = r.IntN(3) == 0
	if r.IntN(2) == 0 {
		s.Stud = model.StudSkin{Species: []string{"DF-L", "HF", "SPF", "SP"}[r.IntN(4)], Size: []string{"2x4", "2x6", "2x8"}[r.IntN(3)],
			Spacing: 0.2 + 0.6*r.Float64(), Plywood: "40/20", Incised: r.IntN(2) == 0, WetInUse: r.IntN(2) == 0}
	}
	if r.IntN(2) == 0 {
		s.Cavity = model.Cavity{Width: 0.1 + 0.3*r.Float64(), Fill: []string{model.GravelFill, model.ConcreteFill}[r.IntN(2)], Fc: 15 + 20*r.Float64(),
			Lift: 0.3 + r.Float64(), Propped: r.IntN(3) == 0}
		if r.IntN(2) == 0 {
			s.Cavity.Bar, s.Cavity.BarSpacing, s.Cavity.BarCover = 12, 0.1+0.3*r.Float64(), 0.04
		}
	}
	if r.IntN(2) == 0 {
		s.RoofSlab = slabbed().Strengthening.RoofSlab
		if r.IntN(2) == 0 {
			s.RoofSlab = beamed().Strengthening.RoofSlab
		}
		s.RoofSlab.Gap = 0.6 * r.Float64()
	}
	if r.IntN(2) == 0 {
		p.Fill.Roof = []model.RoofLayer{{Kind: "lightfill", Name: "b", Thickness: 0.2, Gamma: 0.1 + 0.3*r.Float64(), Grade: "EPS22"}}
	}
	if r.IntN(2) == 0 {
		ribbed(p)
	}
	return p
}

// TestOutsideAnyhow: whatever stands outside, every check of it is made or says
// why not, with ratios that are numbers, sources and the names of parts that are
// known; nothing outside lets a rail, a rib, a wale or the back of the roof get
// away with less than without it.
func TestOutsideAnyhow(t *testing.T) {
	for seed := range uint64(60) {
		p := anyOutside(rand.New(rand.NewPCG(seed, 7)))
		r := run(t, p)
		about := fmt.Sprintf("seed %d: %+v", seed, p.Strengthening)
		for _, c := range r.Checks {
			if _, known := systemOf(slot{c.ID, c.Part}); !known && c.Verdict() != check.NotChecked {
				t.Errorf("%s: %s of %q is of no system", about, c.ID, c.Part)
			}
			if c.Verdict() == check.NotChecked {
				if c.Missing == "" {
					t.Errorf("%s: %s of %q does not say why", about, c.ID, c.Part)
				}
				continue
			}
			if c.Worst() < 0 || len(c.Working) == 0 || c.Source == "" || strings.HasPrefix(c.Validity, "The working could not") {
				t.Errorf("%s: %+v", about, c)
			}
		}
		bare := p.Clone()
		bare.Strengthening.Stud, bare.Strengthening.Cavity = model.StudSkin{}, model.Cavity{}
		without := run(t, bare)
		for _, c := range without.Checks {
			switch c.ID {
			case "top-rail", "bottom-rail", "header", "wale", "rib", "racking", "end-post", "cross-member", "roof-sheet":
				if d := find(r, c.ID, c.Part); d == nil || d.Worst() < c.Worst()*(1-1e-9) {
					t.Errorf("%s: %s of %q is %.4f without a skin, %+v with it", about, c.ID, c.Part, c.Worst(), d)
				}
			}
		}
	}
}

// TestOutsideBroadside: skins and the roof on posts work for a box along the
// contour too, where the hill presses one long wall.
func TestOutsideBroadside(t *testing.T) {
	p := slabbed()
	p.Box.Orientation = model.Broadside
	p.Strengthening.Stud, p.Strengthening.RoofSlab.Gap = studded().Strengthening.Stud, 0.2
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
