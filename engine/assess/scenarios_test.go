package assess

import (
	"context"
	"math"
	"slices"
	"testing"

	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/tables"
)

// soaked is the store put right with more water in the hill, and no more of its
// drain given than where it lies.
func soaked(t testing.TB) *model.Project {
	p := demo(t, "put-right")
	p.Site.Water.Computed = true
	p.Defence.Drain = model.Drain{Present: true, Diameter: 0.1, Depth: 0.15, Fall: 0.01, Outlet: "gravity", Uphill: true, Swale: true}
	p.Defence.Runoff, p.Defence.Layers[1].Row = model.Runoff{}, ""
	for i := range p.Site.Soils {
		p.Site.Soils[i].Set = append(p.Site.Soils[i].Set, "kx") // measured
		if s := &p.Site.Soils[i]; s.ID != "stone" {
			s.D15, s.D50, s.D85, s.Sieves = 0, 0, 0, nil
		}
	}
	z, h := 101.2, 101.6
	p.Site.Water.Seasonal, p.Site.Water.DesignHigh = &z, &h
	return p
}

func scenariosOf(t *testing.T, p *model.Project) map[string]Scenario {
	t.Helper()
	list, err := Scenarios(context.Background(), p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]Scenario{}
	for _, s := range list {
		t.Logf("%+v", s)
		out[s.ID] = s
	}
	return out
}

// The less the drains take, the higher the water and the worse the box; a dead
// pump is as bad as blocked drains where nothing runs off by itself.
func TestScenariosAreInOrder(t *testing.T) {
	p := soaked(t)
	p.Defence.Drain.Outlet, p.Defence.Drain.Uphill = "sump", false
	m := scenariosOf(t, p)
	order := []string{"working", "half", "blocked"}
	for i, id := range order {
		s, ok := m[id]
		if !ok || s.Why != "" {
			t.Fatalf("%s: %+v", id, s)
		}
		if math.Abs(s.Above-(s.Level-p.Box.Level)) > 1e-9 {
			t.Errorf("%s: %.3f m above the underside at level %.3f", id, s.Above, s.Level)
		}
		if i == 0 {
			continue
		}
		before := m[order[i-1]]
		if s.Level < before.Level-0.01 || s.Worst < before.Worst*(1-1e-3) || s.Float < before.Float || s.Inflow > before.Inflow {
			t.Errorf("%s is better than %s:\n%+v\n%+v", id, before.ID, s, before)
		}
	}
	w, h, b := m["working"], m["half"], m["blocked"]
	if math.Abs(h.Inflow-w.Inflow/2) > 0.02*w.Inflow || b.Inflow != 0 {
		t.Errorf("the drains take %g, %g at half capacity and %g blocked", w.Inflow, h.Inflow, b.Inflow)
	}
	if !math.IsInf(w.Hours, 1) {
		t.Errorf("with its drains at work the box has %g hours", w.Hours)
	}
	if !(b.Above > 0) || !(b.Hours > 0) || math.IsInf(b.Hours, 1) {
		t.Errorf("blocked: %+v", b)
	}
	if b.Soonest != b.Hours {
		t.Errorf("%g to %g h with a permeability that was measured", b.Soonest, b.Hours)
	}
	// an interceptor that is blocked as well leaves no more time than there was
	// without it
	p.Defence.Drain.Uphill = true
	if all := scenariosOf(t, p)["blocked"]; all.Hours > b.Hours*1.01 {
		t.Errorf("%g h once an interceptor is blocked too, %g h without one", all.Hours, b.Hours)
	}
	p.Defence.Drain.Uphill = false
	for i := range p.Site.Soils {
		p.Site.Soils[i].Set = slices.DeleteFunc(p.Site.Soils[i].Set, func(s string) bool { return s == "kx" && p.Site.Soils[i].ID != "stone" && p.Site.Soils[i].ID != "bed" })
	}
	if guess := scenariosOf(t, p)["blocked"]; math.Abs(guess.Soonest-guess.Hours/10) > 1e-6*guess.Hours {
		t.Errorf("%g to %g h with a permeability that was not measured", guess.Soonest, guess.Hours)
	}
	if d := m["pump"]; math.Abs(d.Level-b.Level) > 1e-3 || math.Abs(d.Worst-b.Worst) > 1e-6*b.Worst {
		t.Errorf("pump dead %+v, blocked %+v", d, b)
	}
	if s := m["storm"]; !(s.Level >= w.Level-1e-3) {
		t.Errorf("storm at %.3f, wet season at %.3f", s.Level, w.Level)
	}
	if s := m["storm-blocked"]; !(s.Level >= b.Level-1e-3) || !(s.Hours <= b.Hours) || s.Float < b.Float {
		t.Errorf("a storm with blocked drains %+v is kinder than a wet season with them %+v", s, b)
	}
}

// The hours are those of package drain for stone of 26 % voids, layer by layer,
// worked by hand here.
func TestHoursToAct(t *testing.T) {
	p := soaked(t)
	p.Bedding.PadLength, p.Bedding.PadWidth, p.Bedding.PadThickness, p.Bedding.RockThickness = 0.7, 0.7, 0.15, 0.3
	j, err := newJob(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	const q = 5e-5 // m3/s
	level := p.Box.Level + 0.5
	got, err := j.hours(q, level)
	if err != nil {
		t.Fatal(err)
	}
	// drain at 0.15 m below the formation, 0.3 m of bed, then open space
	form := p.Box.Level - 0.15 - 0.3 // pads of 0.15 m on the bed
	invert := form - 0.15
	along := 2.438 + 0.45 + 2*(6.058+0.225)
	plan, ring := 6.058*2.438, along*0.45
	h0 := level - invert
	part := func(store, from, to float64) float64 { return store * h0 / q * math.Log((h0-from)/(h0-to)) }
	want := (part(0.26*along*0.3, 0, 0.15) + part(0.26*(plan+ring), 0.15, 0.45) +
		part(plan-4*0.49+0.26*ring, 0.45, 0.6)) / 3600
	if math.Abs(got-want) > 0.02*want {
		t.Errorf("%.2f h, want %.2f", got, want)
	}
	if never, err := j.hours(q, p.Box.Level-0.01); err != nil || !math.IsInf(never, 1) {
		t.Errorf("below the box: %g h, %v", never, err)
	}
	layers, _ := j.store()
	if _, err := (drain.RiseIn{Inflow: q, Layers: layers}).Seconds(0.7); err != nil {
		t.Error(err)
	}
}

// Without drains there is nothing to fail; without computed water, or water in
// service, scenarios are refused by name.
func TestScenariosSayWhatTheyNeed(t *testing.T) {
	p := soaked(t)
	p.Defence.Drain.Present, p.Defence.Drain.Uphill = false, false
	if m := scenariosOf(t, p); len(m) != 2 {
		t.Errorf("%d scenarios, want wet season and storm", len(m))
	}
	for field, change := range map[string]func(*model.Project){
		"site.water.computed": func(q *model.Project) { q.Site.Water.Computed = false },
		"stages": func(q *model.Project) {
			for i := range q.Stages {
				q.Stages[i].Water = ""
			}
		},
	} {
		q := p.Clone()
		change(q)
		_, err := Scenarios(context.Background(), q, tables.Default())
		if pr, ok := err.(model.Problem); !ok || pr.Field != field {
			t.Errorf("%v, want %s", err, field)
		}
	}
}

// What the years take hangs on the water of the drains at work, in the cases of
// failing drains as well: their worst ratio is that of the same stage in the
// assessment.
func TestScenariosRustAsTheAssessment(t *testing.T) {
	p := computedDemo(t, "put-right")
	p.Stages = slices.DeleteFunc(p.Stages, func(st model.Stage) bool { return st.Kind == model.StageService && st.ID != "blocked" })
	p.Stages[len(p.Stages)-1].Years = 30
	list, err := Scenarios(context.Background(), p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(list, func(s Scenario) bool { return s.ID == "storm-blocked" })
	c := find(run(t, p), list[i].Check, list[i].Part)
	if c == nil {
		t.Fatalf("no check %s of %s", list[i].Check, list[i].Part)
	}
	closeTo(t, "ratio with the drains blocked", list[i].Worst, c.Worst(), 1e-9)
}
