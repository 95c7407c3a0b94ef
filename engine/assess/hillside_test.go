package assess

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/geom"
)

// hillOf is what Hillside finds for the stages of a project that are named; all
// for none.
func hillOf(t *testing.T, p *model.Project, stages ...string) *Result {
	t.Helper()
	if len(stages) > 0 {
		p.Stages = slices.DeleteFunc(p.Stages, func(st model.Stage) bool { return !slices.Contains(stages, st.ID) })
	}
	r := &Result{Project: p}
	if err := Hillside(context.Background(), r, tables.Default()); err != nil {
		t.Fatal(err)
	}
	return r
}

// factorOf is the factor of a check of the hillside.
func factorOf(t *testing.T, r *Result, id, part string) float64 {
	t.Helper()
	c := find(r, id, part)
	if c == nil || c.Verdict() == check.NotChecked {
		t.Fatalf("%s of %s: %+v", id, part, c)
	}
	return c.Capacity.Val
}

// The hill of the store put right holds, before, during and after; that of the
// store as drawn does not, in cut and fill, where the cohesion measured in its
// soils is left out. What is found is drawn below the
// ground and round the box.
func TestHillsideOfTheDemos(t *testing.T) {
	parts := []slot{{slopeID, naturalPart}, {slopeID, "cut face"}, {slopeID, "left face of the cut"}, {slopeID, "right face of the cut"},
		{slopeID, finishedPart}, {slopeID, leftFill}, {slopeID, rightFill}, {slopeWetID, finishedPart}, {slopeWetID, leftFill}, {slopeWetID, rightFill}}
	for name, holds := range map[string]bool{"put-right": true, "as-drawn": false} {
		p := computedDemo(t, name)
		if name == "as-drawn" {
			for i := range p.Site.Soils {
				p.Site.Soils[i].Cohesion = 0
			}
		}
		r := hillOf(t, p)
		for _, s := range parts {
			c := find(r, s.id, s.part)
			if c == nil {
				t.Errorf("%s: no %s of %s", name, s.id, s.part)
				continue
			}
			within := c.Verdict() == check.Within
			if within != (holds || s.part == naturalPart) {
				t.Errorf("%s, %s of %s: %s, ratio %.2f", name, s.id, s.part, c.Verdict(), c.Ratio)
			}
			if math.Abs(c.Ratio-c.Demand.Val/c.Capacity.Val) > 1e-9 || len(c.Working) < 7 || !strings.Contains(c.Source, "(") {
				t.Errorf("%s, %s of %s: ratio %.3f of %.3f/%.3f, %d lines, source %q", name, s.id, s.part, c.Ratio, c.Demand.Val, c.Capacity.Val, len(c.Working), c.Source)
			}
		}
		if len(r.Slips) != len(parts) {
			t.Errorf("%s: %d slips, want %d", name, len(r.Slips), len(parts))
		}
		j, err := newJob(r.Project, tables.Default())
		if err != nil {
			t.Fatal(err)
		}
		plan, long, err := j.lay()
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range r.Slips {
			cut := long
			if s.Cross {
				if cut, err = plan.Cross(s.Station); err != nil {
					t.Fatal(err)
				}
			}
			v, err := cut.At(r.Project.Stages[slices.IndexFunc(r.Project.Stages, func(st model.Stage) bool { return st.ID == s.Stage })])
			if err != nil {
				t.Fatal(err)
			}
			for i, q := range s.Line {
				z, ok := v.Finish.At(q[0])
				if end := i == 0 || i == len(s.Line)-1; !ok || !end && q[1] > z+1e-6 {
					t.Errorf("%s, %s: (%.2f, %.2f) is not in the ground, %.2f", name, s.Part, q[0], q[1], z)
				}
				if in := v.Box.Expand(-0.05); v.HasBox && in.Contains(q) {
					t.Errorf("%s, %s: the slip goes through the box at (%.2f, %.2f)", name, s.Part, q[0], q[1])
				}
			}
		}
	}
}

// A Run leaves the hillside for later, and Hillside writes into nothing that an
// earlier copy of the result holds.
func TestHillsideComesAfterRun(t *testing.T) {
	p := computedDemo(t, "put-right")
	r := run(t, p)
	c := find(r, slopeID, "hillside")
	if c == nil || c.Verdict() != check.NotChecked || len(r.Slips) > 0 {
		t.Fatalf("after Run: %+v", c)
	}
	before := slices.Clone(r.Checks)
	later := *r
	if err := Hillside(context.Background(), &later, tables.Default()); err != nil {
		t.Fatal(err)
	}
	for i := range before {
		if before[i].ID != r.Checks[i].ID || before[i].Part != r.Checks[i].Part {
			t.Fatal("the checks of the copy have moved")
		}
	}
	if find(&later, slopeID, "hillside") != nil || find(&later, slopeID, finishedPart) == nil || len(later.Slips) == 0 {
		t.Error("Hillside has not added its checks")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := Hillside(ctx, &later, tables.Default()); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// wetHill is the store put right with its water pressing on the slopes: a high
// level, and drains that can be blocked.
func wetHill(t *testing.T, level float64) *model.Project {
	p := computedDemo(t, "put-right")
	p.Site.Water.DesignHigh = &level
	return p
}

// A drain that works raises the factor of the hill above it; so does lower water.
func TestDrainAndLowWaterHelpTheHill(t *testing.T) {
	on := factorOf(t, hillOf(t, wetHill(t, 101.3), "high"), slopeWetID, finishedPart)
	off := factorOf(t, hillOf(t, wetHill(t, 101.3), "blocked"), slopeWetID, finishedPart)
	if !(on > 1.005*off) {
		t.Errorf("drain at work %.3f, blocked %.3f", on, off)
	}
	last := math.Inf(1)
	for _, level := range []float64{100.6, 101.3, 102} {
		f := factorOf(t, hillOf(t, wetHill(t, level), "blocked"), slopeWetID, finishedPart)
		if f >= last {
			t.Errorf("water at %.1f: %.4f, before %.4f", level, f, last)
		}
		last = f
	}
}

// An earthquake lowers the factor and asks for its own.
func TestHillInAnEarthquake(t *testing.T) {
	p := computedDemo(t, "put-right")
	p.Site.Climate.Kh = 0.15
	i := slices.IndexFunc(p.Stages, func(st model.Stage) bool { return st.ID == "wet" })
	shaken := p.Stages[i]
	shaken.ID, shaken.Quake = "quake", true
	p.Stages = append(p.Stages, shaken)
	r := hillOf(t, p, "wet", "quake")
	still, quake := factorOf(t, r, slopeID, finishedPart), find(r, slopeQuakeID, finishedPart)
	if quake == nil || quake.Demand.Val != 1.1 || !(quake.Capacity.Val < 0.85*still) {
		t.Errorf("at rest %.3f, shaken %+v", still, quake)
	}
}

// Soils without strength are asked for by name; undrained strengths count while
// the cut is open.
func TestStrengthOfTheHill(t *testing.T) {
	p := computedDemo(t, "put-right")
	p.Site.Soils[0].Phi, p.Site.Soils[0].Cohesion = 0, 0
	c := find(hillOf(t, p, "cut"), slopeID, "cut face")
	if c == nil || c.Verdict() != check.NotChecked || !strings.Contains(c.Missing, p.Site.Soils[0].Name) {
		t.Errorf("without strength: %+v", c)
	}
	drained := factorOf(t, hillOf(t, computedDemo(t, "put-right"), "cut"), slopeID, "cut face")
	p = computedDemo(t, "put-right")
	for i := range p.Site.Soils[:2] {
		p.Site.Soils[i].Cu = 12
	}
	r := hillOf(t, p, "cut")
	c = find(r, slopeID, "cut face")
	if soft := factorOf(t, r, slopeID, "cut face"); !(soft < 0.95*drained) || !slices.ContainsFunc(c.Assumptions, func(s string) bool { return strings.HasPrefix(s, "Short term") }) {
		t.Errorf("soft clay %.3f, drained %.3f: %q", soft, drained, c.Assumptions)
	}
	for i := range p.Site.Soils[:2] {
		p.Site.Soils[i].Cu = 80
	}
	if stiff := factorOf(t, hillOf(t, p, "cut"), slopeID, "cut face"); math.Abs(stiff-drained) > 1e-9 {
		t.Errorf("stiff clay %.4f, want the effective strength to govern, %.4f", stiff, drained)
	}
}

// Without a stage to look at the hillside stays not checked, with the reason.
func TestNoHillToCheck(t *testing.T) {
	r := hillOf(t, computedDemo(t, "put-right"), "set")
	c := find(r, slopeID, hillPart)
	if c == nil || c.Verdict() != check.NotChecked || !strings.Contains(c.Missing, "no stage") || len(r.Slips) > 0 {
		t.Errorf("%+v", c)
	}
}

// Where the water is not computed it stands level at what is given, and the check
// says so.
func TestHillUnderLevelWater(t *testing.T) {
	p := computedDemo(t, "put-right")
	p.Site.Water.Computed = false
	r := hillOf(t, p, "blocked")
	c := find(r, slopeWetID, finishedPart)
	if c == nil || c.Verdict() == check.NotChecked || !strings.Contains(c.Assumptions[0], "level") {
		t.Errorf("%+v", c)
	}
	p = computedDemo(t, "put-right")
	p.Site.Water.Computed, p.Site.Water.DesignHigh = false, nil
	if c := find(hillOf(t, p, "blocked"), slopeWetID, finishedPart); c == nil || c.Verdict() != check.NotChecked {
		t.Errorf("without a level: %+v", c)
	}
}

// The grid that a search reads pore pressures off gives what was put in.
func TestGridOfPores(t *testing.T) {
	p := computedDemo(t, "put-right")
	j, err := newJob(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	_, long, err := j.lay()
	if err != nil {
		t.Fatal(err)
	}
	v, err := long.At(p.Stages[0])
	if err != nil {
		t.Fatal(err)
	}
	plane := func(q geom.Vec) float64 { return 300 - 2*q[0] - 2.5*q[1] + 0.01*q[0]*q[1] }
	g := gridded(plane, v, floorLevel(v))
	for _, q := range []geom.Vec{{1.1, 97.3}, {12.37, 99.99}, {31.9, 104.2}} {
		if math.Abs(g(q)-plane(q)) > 1e-2 {
			t.Errorf("at %v: %.4f, want %.4f", q, g(q), plane(q))
		}
	}
}

// BenchmarkHillside is the whole search of the store put right.
func BenchmarkHillside(b *testing.B) {
	p := computedDemo(b, "put-right")
	r, err := Run(context.Background(), p, tables.Default())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if err := Hillside(context.Background(), r, tables.Default()); err != nil {
			b.Fatal(err)
		}
	}
}
