package assess

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
)

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
			if of, _ := systemOf(slot{o.ID, o.Part}); o.Verdict() != check.NotChecked && of == part {
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
	for s, want := range map[slot]string{{"side-sheet", "left side wall"}: insidePart, {"rib", "ribs"}: insidePart, {"wale", "back wall, wale 1"}: insidePart,
		{"stud", "back wall, stud skin"}: outsidePart, {"concrete-skin", "back wall, concrete skin"}: outsidePart, {"pour", "long walls"}: "",
		{"post-footing", padsPart}: "", {batterID, "cut face"}: "", {"roof-edge-beam", slabPart}: "", {"roof-sheet", "roof"}: insidePart,
		{"sliding", "box"}: "", {"light-fill", "light fill 2"}: ""} {
		if got, known := systemOf(s); got != want || !known {
			t.Errorf("%v is of %q, known %v, want %q", s, got, known, want)
		}
	}
	if got, known := systemOf(slot{"new", "some part"}); got != insidePart || known {
		t.Errorf("what is not known is of %q, known %v", got, known)
	}
	for _, name := range []string{"as-drawn", "put-right"} {
		for _, c := range run(t, demo(t, name)).Checks {
			if _, known := systemOf(slot{c.ID, c.Part}); !known && c.Verdict() != check.NotChecked {
				t.Errorf("%s of %q: say whether it is inside steel", c.ID, c.Part)
			}
		}
	}
}
