package assess

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/steel"
)

// TestCrossMembersRust: EN 1993-5 table 4-1 (structure reference, section 6,
// memory): in fill 0.70 mm a side in 25 years, so a cross member of 4 mm, open to
// the crawl space on both faces, is left with 2.6; in compacted fill 0.35 and 3.3.
// Seasonal water takes 0.035 mm a year where that is more. A coating holds it off,
// a membrane round the box does not.
func TestCrossMembersRust(t *testing.T) {
	for _, c := range []struct {
		name, in string
		wet      bool
		layer    string
		left     float64 // mm
	}{
		{"in fill", "fill", false, "", 2.6},
		{"in compacted fill", "compacted-fill", false, "", 3.3},
		{"in water", "fill", true, "", 4 - 2*0.035*25},
		{"coated for 20 years", "fill", false, "coating", 4 - 2*0.18},
		{"a membrane round the box", "fill", false, "membrane", 2.6},
	} {
		p := oldDemo(t, 25)
		p.Box.RustIn = c.in
		if c.wet {
			z := p.Box.Level + 1
			p.Site.Water.Computed, p.Site.Water.Seasonal, p.Site.Water.DesignHigh = false, &z, &z
		}
		if c.layer != "" {
			p.Defence.Layers = []model.DefenceLayer{{Kind: c.layer, Name: "layer", Thickness: 1e-3, Life: 20}}
		}
		j := jobOf(t, p)
		cross := j.agedAt(25).cross
		if cross.why != nil {
			t.Fatal(cross.why)
		}
		closeTo(t, c.name, cross.in.Bar.T*1000, c.left, 1e-9)
		one := cross.in
		one.Load = box.Pair{ASD: 1, LRFD: 1}
		made, _, err := box.FloorCrossMember(one)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, c.name+", ratio", cross.unit.ASD, made.Ratio, 1e-12)
	}
	p := oldDemo(t, 25)
	p.Box.RustIn = "fill"
	was, is := find(run(t, oldDemo(t, 0)), "cross-member", ""), find(run(t, p), "cross-member", "")
	if is == nil || !(is.Worst() > 1.4*was.Worst()) || len(is.Working) != len(was.Working)+3 {
		t.Errorf("after 25 years %+v, as new %.3f", is, was.Worst())
	}
}

// TestOldWetBox: after 90 years in seasonal water (3.15 mm a side: rate of the
// structure reference, section 6, verified) bars are too thin to be rated. Rust has
// then taken them, by a year that is told, and nothing else is kept from being
// checked, nor from being advised on.
func TestOldWetBox(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		for _, years := range []float64{40, 60, 75, 90} {
			p := demo(t, name).Clone()
			z := p.Box.Level + 1
			p.Site.Water.Computed, p.Site.Water.Seasonal = false, &z
			if h := p.Site.Water.DesignHigh; h == nil || *h < z {
				p.Site.Water.DesignHigh = &z
			}
			fresh := run(t, p)
			for i := range p.Stages {
				if p.Stages[i].Kind == model.StageService {
					p.Stages[i].Years = years
				}
			}
			r := run(t, p)
			if len(r.Blocks) > 0 {
				t.Fatalf("%s, %g years: %v", name, years, r.Blocks)
			}
			thin := 0
			for _, c := range r.Checks {
				// crests of a sheet grown thin are outside the formula of web crippling
				if was := find(fresh, c.ID, c.Part); was != nil && c.ID != crippleID && was.Verdict() != check.NotChecked && c.Verdict() == check.NotChecked {
					t.Errorf("%s, %g years: %s of %s is no longer checked: %s", name, years, c.ID, c.Part, c.Missing)
				}
				if !math.IsInf(c.Ratio, 1) || c.Method != "Thickness left after rust" {
					continue
				}
				if y := c.RemedyQ[0].Val; !(y > 0 && y < years) || !strings.HasPrefix(c.Remedy, "Rust has taken it by year {0}") {
					t.Errorf("%s, %g years: %s of %s goes in year %g: %s", name, years, c.ID, c.Part, y, c.Remedy)
				}
				if strings.Contains(c.Assumptions[0], "too thin") {
					thin++
				}
			}
			if years > 40 && thin == 0 {
				t.Errorf("%s, %g years: no bar is too thin to be rated", name, years)
			}
		}
	}
}

// TestThinBarYear: a top rail of 60 x 3 of the maker's steel is rated down to
// (60 − 3t)/t = 1.40·√(E/Fy), t = 60/(33.71 + 3) = 1.634 mm (AISC 360 F7, memory): in
// water at 0.035 mm a year until year 39.0.
func TestThinBarYear(t *testing.T) {
	p := oldDemo(t, 45)
	z := p.Box.Level + 1
	p.Site.Water.Computed, p.Site.Water.Seasonal, p.Site.Water.DesignHigh = false, &z, &z
	p.Box.SteelKnown, p.Box.Patched, p.Box.Fy = true, false, 345
	j := jobOf(t, p)
	if row := j.side.rows[0]; row.Shape != steel.SHS || math.Abs(row.H-0.060) > 1e-9 || math.Abs(row.T-0.003) > 1e-9 {
		t.Fatalf("top rail %+v", row)
	}
	_, w, err := j.wornBar(j.side.rows[0], 45)
	if err == nil || !w.thin {
		t.Fatalf("%+v, %v", w, err)
	}
	limit := 60 / (1.40*math.Sqrt(j.metal.E/j.metal.Fy) + 3)
	closeTo(t, "least thickness", w.least*1000, limit, 1e-3)
	closeTo(t, "year", w.by.lasts(w.was, w.least), (3-limit)/0.035, 1e-3)
	if _, _, err := j.wornBar(j.side.rows[0], 38.5); err != nil {
		t.Errorf("half a year before: %v", err)
	}
}
