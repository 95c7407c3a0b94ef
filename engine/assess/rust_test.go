package assess

import (
	"errors"
	"math"
	"strings"
	"testing"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// oldDemo is the demo put right with every fill stage the given years old, its
// seasonal water below the box: what stands in water rusts by another table.
func oldDemo(t testing.TB, years float64) *model.Project {
	t.Helper()
	p := demo(t, "put-right").Clone()
	keepDry(p)
	for i := range p.Stages {
		p.Stages[i].Years = years
	}
	return p
}

// keepDry keeps the seasonal water below the box.
func keepDry(p *model.Project) {
	z := p.Box.Level - 0.1
	p.Site.Water.Seasonal = &z
}

// TestRustUnderWater: a wall that stands in seasonal water loses 0.035 mm a year
// (USACE ERDC LR-03-19 quoting a maker's manual, second-hand), or what the
// ground takes where that is more; the roof above the water does not, and a
// membrane keeps it off alike.
func TestRustUnderWater(t *testing.T) {
	for _, c := range []struct {
		name           string
		in             string
		level          float64 // m above the underside
		life, years    float64
		wall, roof     float64 // mm lost
		under, soaking bool
	}{
		{"dry", "fill", -0.1, 0, 25, 0.70, 0.70, false, false},
		{"wet", "fill", 0.1, 0, 25, 0.875, 0.70, true, true},
		{"wet, natural", "natural", 0.1, 0, 10, 0.35, 0.075, true, true},
		{"wet, but the ground is worse", "aggressive-fill", 0.1, 0, 25, 2.00, 2.00, false, true},
		{"behind a membrane of 15 years", "natural", 0.1, 15, 25, 0.35, 0.075, true, true},
		{"over the roof", "fill", 3, 0, 25, 0.875, 0.875, true, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := oldDemo(t, c.years)
			z := p.Box.Level + c.level
			p.Site.Water.Seasonal, p.Box.RustIn, p.Box.SideT, p.Box.RoofT = &z, c.in, 3, 3
			p.Defence.Layers = []model.DefenceLayer{{Kind: "membrane", Name: "sheet", Thickness: 1e-3, Life: c.life}}
			j := jobOf(t, p)
			a := j.age(c.years)
			if w := a.side.worn; math.Abs(w.loss*1e3-c.wall) > 1e-6 || w.under != c.under {
				t.Errorf("wall loses %.4f mm, under water %v; want %.4f, %v", w.loss*1e3, w.under, c.wall, c.under)
			}
			if w := a.roof.worn; math.Abs(w.loss*1e3-c.roof) > 1e-6 {
				t.Errorf("roof loses %.4f mm, want %.4f", w.loss*1e3, c.roof)
			}
			if said := strings.Contains(strings.Join(j.walls.words(), " "), "Seasonal water stands against the walls"); said != c.soaking {
				t.Errorf("said so: %v", said)
			}
			if c.under && !strings.Contains(a.side.worn.lines()[1].Source, "ERDC") {
				t.Errorf("source %q", a.side.worn.lines()[1].Source)
			}
		})
	}
}

// Where the drain holds the computed water below the box, its walls rust as in
// the ground; without one, as under water. A stage by itself says the same.
func TestComputedWaterTellsWetWallsFromDry(t *testing.T) {
	p := computedDemo(t, "put-right")
	for _, drained := range []bool{true, false} {
		q := p.Clone()
		z := 101.2
		q.Site.Water.Seasonal = &z
		q.Defence.Drain.Present, q.Defence.Drain.Uphill = drained, false
		for i := range q.Stages {
			q.Stages[i].Years = 10
		}
		for _, stages := range [][]model.Stage{q.Stages, q.Stages[8:9], q.Stages[10:11]} {
			one := q.Clone()
			one.Stages = stages
			if j := jobOf(t, one); (j.walls.under != nil) == drained || j.rust.under != nil {
				t.Errorf("drained %v, %d stages: walls under water %v, roof %v", drained, len(stages), j.walls.under != nil, j.rust.under != nil)
			}
		}
	}
}

// TestRustOfSheet: what is left of a 1.6 mm sheet (structure reference, section
// 6, derived from EN 1993-5 table 4-1, memory), with the ground named, with two
// sides, and behind a membrane that keeps it off for some years.
func TestRustOfSheet(t *testing.T) {
	for _, c := range []struct {
		name      string
		in        string
		proven    bool
		both      bool
		lives     []float64
		years     float64
		left, eat float64 // mm, years
	}{
		{"fill, not proven", "", false, false, nil, 10, 1.29, 10},
		{"fill, 25 years", "", false, false, nil, 25, 0.90, 25},
		{"fill, 50 years", "fill", true, false, nil, 50, 0.40, 50},
		{"proven compaction halves it", "", true, false, nil, 25, 1.25, 25},
		{"natural, 10 years", "natural", false, false, nil, 10, 1.525, 10},
		{"natural, 25 years", "natural", false, false, nil, 25, 1.30, 25},
		{"natural, 50 years", "natural", false, false, nil, 50, 1.00, 50},
		{"both sides", "natural", false, true, nil, 25, 1.00, 25},
		{"membrane of 15 years", "fill", false, false, []float64{5, 15, 0}, 25, 1.29, 10},
		{"membrane outlives it", "fill", false, false, []float64{30}, 25, 1.60, 0},
		{"new", "fill", false, false, nil, 0, 1.60, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := oldDemo(t, c.years)
			p.Box.RustIn, p.Box.RustBoth, p.Fill.Proven = c.in, c.both, c.proven
			p.Box.SideT = 1.6
			p.Defence.Layers = nil
			for _, l := range c.lives {
				p.Defence.Layers = append(p.Defence.Layers, model.DefenceLayer{Kind: "coating", Name: "coat", Thickness: 1e-3, Life: l})
			}
			w := jobOf(t, p).age(c.years).side.worn
			if math.Abs(w.left*1e3-c.left) > 0.006 || w.eaten != c.eat {
				t.Errorf("%.4f mm left after %g years of rust, want %.3f after %g", w.left*1e3, w.eaten, c.left, c.eat)
			}
			// second route: the interpolation of engine/steel on the row itself
			row := w.by.row.Loss
			table := steel.LossTable{Years: []float64{5, 25, 50, 75, 100}, Loss: row[:]}
			sides := 1
			if c.both {
				sides = 2
			}
			if left, err := table.Rusted(1.6e-3, c.eat, sides); err != nil || math.Abs(left-w.left) > 1e-12 {
				t.Errorf("second route %.4f mm, %v", left*1e3, err)
			}
		})
	}
}

// TestRustIsShown: the governing sheet, roof and rail checks of a stage with
// years write how their thickness came about, and nothing of it without years.
func TestRustIsShown(t *testing.T) {
	for _, years := range []float64{0, 10} {
		p := oldDemo(t, years)
		p.Defence.Layers = []model.DefenceLayer{{Kind: "membrane", Name: "sheet", Thickness: 2e-3, Life: 4}}
		r := run(t, p)
		for _, id := range []string{"side-sheet", "end-sheet", "sheet-deflection", "roof-sheet", "roof-deflection", "top-rail", "bottom-rail"} {
			c := find(r, id, "")
			if c == nil || c.Verdict() == check.NotChecked {
				t.Errorf("%s: %+v", id, c)
				continue
			}
			var left, was, loss float64
			for _, l := range c.Working {
				if l.Formula == "t = t0 − n·s, n sides" {
					left, was, loss = l.Result.Val, l.Terms[0].Val, l.Terms[2].Val
					if l.Terms[1].Val != 1 {
						t.Errorf("%s: %g sides", id, l.Terms[1].Val)
					}
				}
				if l.Source == "" {
					t.Errorf("%s: no source for %q", id, l.Text)
				}
			}
			if years == 0 {
				if was != 0 {
					t.Errorf("%s writes of rust in a new box", id)
				}
				continue
			}
			// 6 of 10 years in proven fill: 0.09 + (0.35 - 0.09)/20 mm a side
			if math.Abs(loss*1e3-0.103) > 1e-6 || math.Abs(was-loss-left) > 1e-12 {
				t.Errorf("%s: %.4f mm less %.4f leave %.4f", id, was*1e3, loss*1e3, left*1e3)
			}
		}
	}
}

// TestRustOnlyWeakens: no check of the steel gets better with the years, nor
// with a second side.
func TestRustOnlyWeakens(t *testing.T) {
	last := map[slot]float64{}
	for _, years := range []float64{0, 1, 5, 10, 20, 30} {
		for _, both := range []bool{false, true} {
			p := oldDemo(t, years)
			p.Box.RustBoth = both
			for _, c := range run(t, p).Checks {
				k := slot{c.ID, c.Part}
				if c.Verdict() != check.NotChecked && c.Worst() < last[k]-1e-9 {
					t.Errorf("%s %s: ratio %.4f after %g years, %.4f before", c.ID, c.Part, c.Worst(), years, last[k])
				}
				if !both {
					last[k] = c.Worst()
				}
			}
		}
	}
}

// TestUnknownGround: a row that the table does not have is named with those it
// has, and nothing is computed.
func TestUnknownGround(t *testing.T) {
	p := oldDemo(t, 10)
	p.Box.RustIn = "sea"
	r := run(t, p)
	if len(r.Blocks) != 1 || r.Blocks[0].Field != "box.rust_in" || !strings.Contains(r.Blocks[0].Value, "sea") || !strings.Contains(r.Blocks[0].Allowed, "peat") {
		t.Errorf("blocks %+v", r.Blocks)
	}
}

// TestRustedThrough: what has rusted away in the last stage is beyond limits
// there, without a strength; nothing is refused, and what does not rust is
// checked in every stage as without rust.
func TestRustedThrough(t *testing.T) {
	for _, name := range []string{"put-right", "as-drawn"} {
		p := demo(t, name).Clone()
		fresh := run(t, p)
		last := &p.Stages[len(p.Stages)-1]
		last.Years, p.Box.RustIn = 90, "aggressive-fill"
		r := run(t, p)
		if len(r.Blocks) > 0 {
			t.Fatal(r.Blocks)
		}
		gone := 0
		for _, c := range r.Checks {
			was := find(fresh, c.ID, c.Part)
			if math.IsInf(c.Ratio, 1) && !ofClimate(c.ID) {
				gone++
				if c.Stage != last.ID || c.Verdict() != check.Beyond || len(c.Working) != 4 || !strings.Contains(c.Assumptions[0], "Rusted through") ||
					len(c.RemedyQ) != 1 || !(c.RemedyQ[0].Val > 0 && c.RemedyQ[0].Val < 90) {
					t.Errorf("%s %s: %+v", c.ID, c.Part, c)
				}
				continue
			}
			switch {
			case c.ID == "end-post" || c.ID == "corner-post": // thinned, not gone
				if !(c.Worst() > was.Worst()) {
					t.Errorf("%s: ratio %.4f, without rust %.4f", c.ID, c.Worst(), was.Worst())
				}
			case was == nil || was.Verdict() != c.Verdict():
				t.Errorf("%s %s: %s, not so without rust", c.ID, c.Part, c.Verdict())
			case c.Verdict() != check.NotChecked && math.Abs(c.Worst()-was.Worst()) > 1e-9*was.Worst():
				t.Errorf("%s %s: ratio %.4f, without rust %.4f", c.ID, c.Part, c.Worst(), was.Worst())
			}
		}
		for _, id := range []string{"side-sheet", "end-sheet", "sheet-deflection", "roof-sheet", "roof-deflection"} {
			if c := find(r, id, ""); c == nil || !math.IsInf(c.Ratio, 1) {
				t.Errorf("%s of %s: %+v", id, name, c)
			}
		}
		if gone < 7 {
			t.Errorf("%s: %d parts gone", name, gone)
		}
		// an answer can still be asked: it is beyond, not unknown
		if tr, err := try(t.Context(), p, tables.Default()); err != nil || tr.within || tr.why != "" && tr.decides == "" {
			t.Errorf("trial %+v, %v", tr, err)
		}
	}
}

// TestPostsRust: the strength of a corner post in compression goes down with its
// steel wherever it is asked for.
func TestPostsRust(t *testing.T) {
	const years = 30
	fresh, old := oldDemo(t, 0), oldDemo(t, years)
	j := jobOf(t, old)
	a := j.agedAt(years)
	for name, got := range map[string]float64{"blind end": a.front.strength, "doors": a.rear.strength} {
		if !(got < 0.95*j.box.PostStrength) {
			t.Errorf("%s: %.1f kN left of %.1f", name, got, j.box.PostStrength)
		}
	}
	least := math.Min(a.front.strength, a.rear.strength)
	was, is := find(run(t, fresh), "corner-post", ""), find(run(t, old), "corner-post", "")
	closeTo(t, "corner post", is.Worst(), was.Worst()*j.box.PostStrength/least, 1e-9)
	if len(is.Working) != len(was.Working)+3 {
		t.Errorf("%d lines, %d without rust", len(is.Working), len(was.Working))
	}
	sr := &stageResult{st: old.Stages[len(old.Stages)-1], back: &wallLoad{}}
	wall, err := j.endWall(sr, section.Back, box.Pair{ASD: 10, LRFD: 16}, box.Effects{D: 20})
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "post of the blind end", wall.Strength, a.front.strength, 1e-9)
	post, _, err := j.postIn(sr)
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "any post", post.Strength, least, 1e-9)
}

// TestRustIsAssumed: the result says which ground eats the steel, from how many
// sides, from when, and that weathering steel does not help.
func TestRustIsAssumed(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Defence.Layers = nil
	said := func() string { return strings.Join(run(t, p).Assumed, "\n") }
	if s := said(); !strings.Contains(s, "no stage has years of rust") || strings.Contains(s, "Weathering steel") {
		t.Errorf("a new box: %s", s)
	}
	p.Stages[len(p.Stages)-1].Years = 10
	for _, c := range []struct {
		in   string
		both bool
		life float64
		want []string
	}{
		{"", false, 0, []string{"fill, compacted, not aggressive", "soil side only", "from the first day", "Weathering steel gets no benefit"}},
		{"peat", true, 12, []string{"aggressive natural soil", "both sides", "for 12 years", "memory"}},
	} {
		p.Box.RustIn, p.Box.RustBoth = c.in, c.both
		p.Defence.Layers = []model.DefenceLayer{{Kind: "coating", Name: "coat", Thickness: 1e-3, Life: c.life}}
		s := said()
		for _, w := range c.want {
			if !strings.Contains(s, w) {
				t.Errorf("%q: nothing of %q in\n%s", c.in, w, s)
			}
		}
	}
}

// TestTooOld: years beyond the table of corrosion are a named problem of the
// stage that has them; a membrane moves that bound.
func TestTooOld(t *testing.T) {
	p := demo(t, "put-right").Clone()
	keepDry(p)
	p.Stages[len(p.Stages)-1].Years = 130
	p.Box.RustIn = "natural"
	r := run(t, p)
	if len(r.Blocks) == 0 || r.Blocks[0].Field != "stages.years" || r.Blocks[0].Allowed != "0 to 100" {
		t.Errorf("blocks %+v", r.Blocks)
	}
	if c := find(r, "sliding", ""); c == nil || c.Verdict() == check.NotChecked {
		t.Errorf("sliding: %+v", c)
	}
	p.Defence.Layers = append(p.Defence.Layers, model.DefenceLayer{Kind: "membrane", Name: "thick", Thickness: 3e-3, Life: 60})
	if r = run(t, p); len(r.Blocks) > 0 {
		t.Errorf("behind a membrane: %+v", r.Blocks)
	}
}

// TestStandIn: what a sheet that is gone brings to the bars along its edges is
// what any sheet of one stiffness brings, over wales too.
func TestStandIn(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Box.RustIn = "aggressive-fill"
	stage := p.Stages[len(p.Stages)-1].ID
	fresh := worked(t, jobOf(t, p), stage)
	p.Stages[len(p.Stages)-1].Years = 90
	old := worked(t, jobOf(t, p), stage)
	for i, w := range fresh.walls {
		o := old.walls[i]
		for k, a := range append([]box.Pair{w.top, w.bottom}, w.result.Wales...) {
			b := append([]box.Pair{o.top, o.bottom}, o.result.Wales...)[k]
			if math.Abs(a.ASD-b.ASD) > 1e-9*math.Abs(a.ASD) {
				t.Errorf("wall %d, support %d: %.6f and %.6f kN/m", i, k, a.ASD, b.ASD)
			}
		}
		if !math.IsInf(o.ratio(), 1) || !errors.Is(o.sheet.why, steel.ErrRustedThrough) {
			t.Errorf("wall %d: ratio %g, %v", i, o.ratio(), o.sheet.why)
		}
	}
}

// TestDents: a dent raises the ratios of the wall it is in and of no other
// part, shows in the working, and is refused with its limit where it leaves no
// corrugated sheet; the other parts are checked all the same.
func TestDents(t *testing.T) {
	p := demo(t, "put-right").Clone()
	plain := run(t, p)
	for _, c := range []struct {
		name string
		set  func(float64)
		id   string
		wall string
	}{
		{"box.side_dent", func(v float64) { p.Box.SideDent = v }, "side-sheet", "left side wall"},
		{"box.end_dent", func(v float64) { p.Box.EndDent = v }, "end-sheet", "back wall"},
	} {
		c.set(12)
		r := run(t, p)
		for _, id := range []string{c.id, "sheet-deflection"} {
			now, was := find(r, id, c.wall), find(plain, id, c.wall)
			if !(now.Worst() > 1.1*was.Worst()) {
				t.Errorf("%s: ratio %.4f with a dent, %.4f without", id, now.Worst(), was.Worst())
			}
			if i := len(now.Working); i == 0 || !strings.Contains(textOf(now), "h = h0 − e") || !strings.Contains(strings.Join(now.Assumptions, " "), "our own model") {
				t.Errorf("%s says nothing of the dent:\n%s", id, textOf(now))
			}
		}
		for _, k := range r.Checks { // the girder is the same wall in its own plane
			was := find(plain, k.ID, k.Part)
			if k.ID != c.id && k.ID != "girder" && k.ID != "sheet-deflection" && k.ID != "inward-bow" && k.ID != crippleID && k.Verdict() != check.NotChecked && k.Worst() != was.Worst() {
				t.Errorf("%s %s moves from %.6f to %.6f", k.ID, k.Part, was.Worst(), k.Worst())
			}
		}
		c.set(60)
		r = run(t, p)
		if len(r.Blocks) != 1 || r.Blocks[0].Field != c.name || !strings.Contains(r.Blocks[0].Text, "no corrugated sheet") || !strings.HasPrefix(quantity.SI(r.Blocks[0].Allowed), "0 m to ") {
			t.Errorf("a dent of 60 mm: %+v", r.Blocks)
		}
		if k := find(r, c.id, c.wall); k.Verdict() != check.NotChecked || !strings.Contains(k.Missing, "no corrugated sheet") {
			t.Errorf("%s: %+v", c.id, k)
		}
		for _, id := range []string{"rib", "sliding", "top-rail", "roof-sheet"} {
			if k := find(r, id, ""); k == nil || k.Verdict() == check.NotChecked {
				t.Errorf("%s is not checked beside a wall that is dented: %+v", id, k)
			}
		}
		c.set(0)
	}
}

// textOf is the working of a check as text.
func textOf(c *check.Check) string {
	out := ""
	for _, l := range c.Working {
		out += l.Text + ": " + l.Formula + "\n"
	}
	return out
}
