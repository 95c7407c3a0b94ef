package assess

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/model"
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
