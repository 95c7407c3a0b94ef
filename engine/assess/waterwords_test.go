package assess

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// How high may the water come: asked of still water at the box, it has the same
// answer whether the drawn water is computed or given.
func TestWaterQuestionIsOfStillWater(t *testing.T) {
	p := computedDemo(t, "put-right")
	p.Stages = slices.DeleteFunc(p.Stages, func(st model.Stage) bool { return st.Blocked }) // and the drains keep it below the box
	r := run(t, p)
	still := demo(t, "put-right").Clone()
	for i := range still.Stages {
		if still.Stages[i].Water == model.WaterSeasonal {
			still.Stages[i].Water = model.WaterNone // computed, it stays below the box
		}
	}
	want := run(t, still)
	for _, x := range []*Result{r, want} {
		if err := Answers(context.Background(), x, tables.Default()); err != nil {
			t.Fatal(err)
		}
	}
	if a, b := r.WaterUp, want.WaterUp; a.Solved != b.Solved || math.Abs(a.Value-b.Value) > 0.002 || a.Governs != b.Governs {
		t.Errorf("computed: %+v\ngiven: %+v", a, b)
	}
	c, err := CurveOf(context.Background(), r, tables.Default(), "water")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(c.Held, "stands still") || !math.IsNaN(c.Now) {
		t.Errorf("held %q, now %g", c.Held, c.Now)
	}
	if c, err = CurveOf(context.Background(), r, tables.Default(), "cover"); err != nil || !strings.Contains(c.Held, "computed for the drawing") {
		t.Errorf("held %q, %v", c.Held, err)
	}
}

// Computed water is not listed as missing, and what it takes for granted is
// said.
func TestWordsOfComputedWater(t *testing.T) {
	p := computedDemo(t, "put-right")
	p.Stages = slices.DeleteFunc(p.Stages, func(st model.Stage) bool { return st.Blocked })
	r := run(t, p)
	if c := find(r, "seepage", "water"); c != nil {
		t.Error("seepage is listed as not checked")
	}
	if c := find(r, "drain-blocked", "water"); c == nil {
		t.Error("blocked drains are in no stage, and nothing says so")
	}
	if !strings.Contains(r.Assumed[0], "steady flow in sections") {
		t.Errorf("assumed: %q", r.Assumed[0])
	}
	r = run(t, demo(t, "put-right"))
	if find(r, "seepage", "water") == nil || !strings.Contains(r.Assumed[0], "not computed") {
		t.Error("given levels are told as computed")
	}
}

// The ground seeps where it is cut when its computed table lies above the
// formation there, whatever level is given at the back of the box.
func TestComputedWaterSeepsIntoTheCut(t *testing.T) {
	p := computedDemo(t, "put-right")
	p.Cut.Seepage, p.Cut.DryDig, p.Site.Water.Observed = false, false, nil
	for level, want := range map[float64]bool{99: false, 101.5: true} {
		p := p.Clone()
		p.Site.Water.Seasonal = &level
		j, err := newJob(p, tables.Default())
		if err != nil {
			t.Fatal(err)
		}
		_, long, err := j.lay()
		if err != nil {
			t.Fatal(err)
		}
		v, err := long.At(p.Stages[1])
		if err != nil {
			t.Fatal(err)
		}
		if got := j.seeping(v); got != want {
			t.Errorf("level %.1f: seeping %v, want %v (formation %.2f)", level, got, want, v.Formation)
		}
	}
}

// Drains that are blocked with seasonal water only hide nothing: that they were
// not looked at with high water is told, and which head a membrane was held
// against.
func TestBlockedAtHighWaterIsAskedFor(t *testing.T) {
	p := works(t)
	last := &p.Stages[len(p.Stages)-1]
	if c := find(run(t, p), "drain-blocked", "water"); c != nil {
		t.Errorf("blocked at high water: %+v", c)
	}
	last.Water = model.WaterSeasonal
	r := run(t, p)
	if c := find(r, "drain-blocked", "water"); c == nil || !strings.Contains(c.Missing, "seasonal water only") || !strings.Contains(c.Missing, last.Name) {
		t.Errorf("blocked at the seasonal level: %+v", c)
	}
	if a := strings.Join(must(t, r, "membrane", "membrane").Assumptions, "; "); !strings.Contains(a, "seasonal water") || !strings.Contains(a, "may be larger") {
		t.Errorf("which head: %s", a)
	}
	if a := strings.Join(r.Assumed, " "); !strings.Contains(a, "Drains blocked were looked at with seasonal water") {
		t.Errorf("assumed: %s", a)
	}
	p.Site.Water.DesignHigh = nil
	p.Stages = slices.DeleteFunc(p.Stages, func(st model.Stage) bool { return st.Water == model.WaterHigh })
	if c := find(run(t, p), "drain-blocked", "water"); c == nil || !strings.Contains(c.Missing, "no design high level") {
		t.Errorf("without a high level: %+v", c)
	}
}

// Water seen above the seasonal level is told where no stage has more.
func TestWaterSeenAboveTheSeasonalLevel(t *testing.T) {
	p := works(t)
	p.Stages = slices.DeleteFunc(p.Stages, func(st model.Stage) bool { return st.Water == model.WaterHigh })
	p.Site.Water.DesignHigh = nil
	if c := find(run(t, p), "water-seen", "water"); c != nil {
		t.Errorf("seen below: %+v", c)
	}
	back := p.Box.Front + 6.058
	p.Site.Water.Observed = append(p.Site.Water.Observed, model.WaterPoint{Pos: model.Vec{back, *p.Site.Water.Seasonal + 0.4}})
	if c := find(run(t, p), "water-seen", "water"); c == nil || !strings.Contains(quantity.SI(c.Missing), " m above the seasonal level") {
		t.Errorf("seen 0.40 m above, computed: %+v", c)
	}
	p.Site.Water.Computed = false
	if c := find(run(t, p), "water-seen", "water"); c == nil || !strings.Contains(quantity.SI(c.Missing), " m above the seasonal level") {
		t.Errorf("seen 0.40 m above, given: %+v", c)
	}
}

// A level that the hill cannot hold is told in the result and in every check that
// takes its water from it.
func TestLevelOutOfReachIsTold(t *testing.T) {
	p := works(t)
	if r := run(t, p); find(r, "water-short", "water") != nil {
		t.Error("the levels are reached")
	}
	z := 103.8
	p.Site.Water.DesignHigh = &z
	r := run(t, p)
	far := r.Water.Far[model.WaterHigh]
	if !far.Full {
		t.Fatal("the level is reached")
	}
	want := "is " + quantity.Level.Text(far.Misses[0].Computed, quantity.Length) + " where {length 103.8 level} was given"
	if c := find(r, "water-short", "water"); c == nil || !strings.Contains(c.Missing, "high level "+want) {
		t.Errorf("not checked: %+v", c)
	}
	if a := strings.Join(r.Assumed, " "); !strings.Contains(a, want) {
		t.Errorf("assumed: %s", a)
	}
	told := 0
	for _, c := range r.Checks {
		if strings.Contains(strings.Join(c.Assumptions, " "), want) {
			told++
			if st := stageOf(p, c.Stage); st.Water != model.WaterHigh {
				t.Errorf("%s at %q has no high water", c.ID, c.Stage)
			}
		} else if c.ID == "flotation" {
			t.Errorf("flotation at %s does not say that its water is lower", c.Stage)
		}
	}
	if told == 0 {
		t.Error("no check says it")
	}
}

func stageOf(p *model.Project, id string) model.Stage {
	for _, st := range p.Stages {
		if st.ID == id {
			return st
		}
	}
	return model.Stage{}
}
