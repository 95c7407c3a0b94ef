package assess

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
)

// TestEitherAlone: either system is judged with the other one taken away: the
// steel as in a box without skin, the skin under the full pressure, and the box
// that it leans on as in one without ribs, wales and purlins. A system that is
// not there is missing.
func TestEitherAlone(t *testing.T) {
	p := studded()
	ribbed(p)
	p.Strengthening.EitherAlone = true
	r := run(t, p)
	steel, skin := p.Clone(), p.Clone()
	steel.Strengthening.EitherAlone, skin.Strengthening.EitherAlone = false, false
	steel.Strengthening.Stud = model.StudSkin{}
	skin.Strengthening.Ribs, skin.Strengthening.Wales = model.Ribs{}, nil
	most := func(r *Result, system string) float64 {
		worst := 0.0
		for _, o := range r.Checks {
			if of, _ := systemOf(slot{o.ID, o.Part}); o.Verdict() != check.NotChecked && of == system {
				worst = math.Max(worst, o.Worst())
			}
		}
		return worst
	}
	for part, want := range map[string]float64{
		"inside steel": most(run(t, steel), "inside steel"),
		"outside skin": math.Max(most(r, "outside skin"), most(run(t, skin), "inside steel")),
	} {
		c := find(r, "either-alone", part)
		if c == nil || c.Verdict() == check.NotChecked {
			t.Fatalf("%s: %+v", part, c)
		}
		if math.Abs(c.Worst()-want) > 1e-9 || want == 0 || !strings.Contains(c.Title, ",") || !said(c, "carries nothing") || c.Stage == "" {
			t.Errorf("%s: %+v, worst member %.4f", part, c, want)
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

// TestSkinAloneNeedsItsProps: a skin that holds by itself leans on the roof of
// the box, and that is no longer propped once the steel inside is gone.
func TestSkinAloneNeedsItsProps(t *testing.T) {
	p := demo(t, "put-right").Clone()
	s := &p.Strengthening
	s.BackWales[0].Section = "shs100x5" // the weakest of the steel
	s.EitherAlone = true
	s.Cavity = model.Cavity{Width: 0.2, Fill: model.ConcreteFill, Fc: 20, Lift: 0.6, Bar: 12, BarSpacing: 0.2, BarCover: 0.05}
	r := run(t, p)
	if c := find(r, "concrete-skin", "left side wall, concrete skin"); c == nil || c.Verdict() != check.Within {
		t.Fatalf("%+v", c)
	}
	c := find(r, "either-alone", "outside skin")
	if c == nil || c.Verdict() != check.Beyond || !strings.Contains(c.Title, "roof") && !strings.Contains(c.Title, "header") {
		t.Errorf("%+v", c)
	}
	q := p.Clone()
	q.Strengthening.EitherAlone = false
	q.Strengthening.Cavity = model.Cavity{}
	base := find(r, "either-alone", "inside steel")
	within(t, "the steel without the skin", base.Worst(), find(run(t, q), "wale-deflection", "back wall, wale 1").Worst(), 1e-9)
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
