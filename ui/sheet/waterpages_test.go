package sheet

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/engine/water"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// wetDemo is a demo with its water computed.
func wetDemo(t *testing.T, name string) demo {
	t.Helper()
	d := loadDemo(t, name)
	d.p = d.p.Clone()
	d.p.Site.Water.Computed = true
	d.p.Defence.Drain.Pipe = "corrugated-100"
	for i := range d.p.Site.Soils {
		if s := &d.p.Site.Soils[i]; water.Asks(s) {
			s.Kx, s.Kz, s.Set = 0.01, 0.01, append(slices.Clone(s.Set), "kx", "kz")
		}
	}
	var err error
	d.r, err = assess.Run(context.Background(), d.p, tables.Default())
	must(t, err)
	must(t, assess.Answers(context.Background(), d.r, tables.Default()))
	d.long, d.cross, err = Views(d.p, tables.Default(), "", math.NaN())
	must(t, err)
	return d
}

// The sheets of the water say all they have to on every size: nothing out of
// the frame, no text over another, every sheet with its number.
func TestWaterOnEverySize(t *testing.T) {
	for _, name := range demos {
		d := wetDemo(t, name)
		for _, o := range ownOptions() {
			w, err := WaterOf(context.Background(), d.r, tables.Default(), o.Units)
			must(t, err)
			if w == nil || w.View == nil || len(w.Scenarios) == 0 {
				t.Fatalf("%s: %+v", name, w)
			}
			o.Structure = &Structure{Why: "left out here", Water: w}
			t.Run(name+" "+o.name(), func(t *testing.T) {
				all := checkedText(t, d, o)
				want := []string{"The water: table", "When the drains fail", "Drain schedule", "Grading of ground", "Water level fitted", "Of the water, not checked", "At the back wall", "Pumping during the dig", "Above the water table"}
				for _, s := range w.Scenarios {
					want = append(want, strings.Fields(s.Name)[0])
				}
				for _, s := range want {
					if !strings.Contains(all, s) {
						t.Errorf("the sheets do not say %q", s)
					}
				}
				if strings.Contains(strings.ToLower(all), " safe ") {
					t.Error("something is called safe")
				}
			})
		}
	}
}

// A project whose levels are only given has no sheet of the water.
func TestNoWaterSheetOfStillWater(t *testing.T) {
	d := stillDemo(t, demos[1])
	if w, err := WaterOf(context.Background(), d.r, tables.Default(), units.Metric); err != nil || w != nil {
		t.Errorf("%+v, %v", w, err)
	}
	if words := WaterWords(d.r, tables.Default(), units.Metric); len(words) != 2 || !strings.Contains(words[0].Lines[0], "not computed") || words[1].Title != moistTitle {
		t.Errorf("%+v", words)
	}
}

// The drain falls all the way: 1 in 100 over half the back and one side, by
// hand.
func TestDrainSchedule(t *testing.T) {
	d := wetDemo(t, demos[1])
	d.p.Defence.Drain.Present, d.p.Defence.Drain.Fall = true, 0.01
	rows := DrainSchedule(d.r, tables.Default(), units.Metric)
	find := func(what string) string {
		for _, r := range rows {
			if r[0] == what {
				return r[1]
			}
		}
		t.Fatalf("no row %q in %q", what, rows)
		return ""
	}
	top, err := units.Parse(1, strings.TrimSuffix(find("Invert, middle behind the box"), " m"), units.Metric)
	must(t, err)
	front, err := units.Parse(1, strings.TrimSuffix(find("Invert, front corners"), " m"), units.Metric)
	must(t, err)
	w := d.p.Fill.RockWidth
	// a box of 6.058 by 2.438 m, end-on
	if want := 0.01 * ((2.438+w)/2 + 6.058 + w/2); math.Abs(top-front-want) > 0.011 { // both are rounded to 1 cm
		t.Errorf("falls %.3f, want %.3f", top-front, want)
	}
	if out := find("Outlet"); !strings.Contains(out, "daylight") {
		t.Errorf("outlet: %q", out)
	}
	d.p.Defence.Drain = model.Drain{}
	if rows := DrainSchedule(d.r, tables.Default(), units.Metric); rows != nil {
		t.Errorf("without a drain: %q", rows)
	}
}

// Time to act is rounded down and never invented.
func TestScenarioWords(t *testing.T) {
	for h, want := range map[float64]string{0.99: "59 min", 1.96: "1.9 h", 47.99: "47.9 h", 50: "2.0 days", math.Inf(1): "never reaches it"} {
		if got := scenarioHours(&assess.Scenario{Hours: h, Soonest: h}); got != want {
			t.Errorf("%g h: %q, want %q", h, got, want)
		}
	}
	if got := scenarioHours(&assess.Scenario{Hours: 60, Soonest: 6}); got != "6.0 h to 2.5 days" {
		t.Errorf("a span of time: %q", got)
	}
	if got := scenarioHours(&assess.Scenario{Hours: 5.9 * hoursAYear, Soonest: 700 * 24}); got != "700.0 days to 5 years" {
		t.Errorf("years: %q", got)
	}
	s := assess.Scenario{Level: math.NaN(), Above: math.NaN(), Worst: math.NaN(), Hours: math.NaN()}
	for i, got := range ScenarioCells(&s, nil, units.Metric)[1:] {
		if got != "not known" && got != "not checked" {
			t.Errorf("column %d of an unknown case: %q", i+1, got)
		}
	}
	if got := PerHour(1e-3/60, units.Metric); got != "60.0 litres an hour" {
		t.Errorf("1 L/min: %q", got)
	}
	if got := PerHour(gallon/3600, units.US); got != "1.00 gallons an hour" {
		t.Errorf("1 gal/h: %q", got)
	}
}

// What is to be pumped during the dig is told in litres and in gallons an hour,
// at rest and in the first days, with its range.
func TestPumpingDuringTheDig(t *testing.T) {
	d := wetDemo(t, demos[1])
	high := d.p.Box.Level + 1
	d.p.Site.Water.Seasonal, d.p.Cut.Pump = &high, 40
	r, err := assess.Run(context.Background(), d.p, tables.Default())
	must(t, err)
	pit := r.Water.Pit()
	if pit == nil || !(pit.Inflow() > 0) {
		t.Fatalf("no water comes into the cut: %+v", pit)
	}
	for sys, unit := range map[units.System]string{units.Metric: "litres an hour", units.US: "gallons an hour"} {
		i := slices.IndexFunc(WaterWords(r, tables.Default(), sys), func(p WaterPart) bool { return p.Title == "Pumping during the dig" })
		if i < 0 {
			t.Fatal("nothing is said of pumping")
		}
		all := strings.Join(WaterWords(r, tables.Default(), sys)[i].Lines, " ")
		// TM 5-818-5 4-1f (verified): 30 % above the steady flow; ten times either way (common practice)
		for _, v := range []float64{1, 1.3, 0.13, 13} {
			if want := PerHour(v*pit.Inflow(), sys); !strings.Contains(all, want) || !strings.Contains(want, unit) {
				t.Errorf("%q is not said in %q", want, all)
			}
		}
		if want := PerHour(40.0/60000, sys); !strings.Contains(all, want) {
			t.Errorf("the pump of %s is not told in %q", want, all)
		}
	}
}

// The choices of the water are drawn on the first sheet and on no other than the
// one asked for; the usual one is the table alone.
func TestWaterChoices(t *testing.T) {
	d := loadDemo(t, demos[1])
	for _, c := range append([]WaterChoice{{}}, WaterChoices...) {
		also, err := WaterNamed(c.Name)
		must(t, err)
		doc, err := plan(d.p, d.r, d.long, d.cross, Options{Size: "A3", Landscape: true, Units: units.Metric, Also: also})
		must(t, err)
		drawn := map[scene.Layer]bool{}
		for _, it := range doc.fig.figs[0].sc.Items {
			if it.Path != nil {
				drawn[it.Path.Layer] = true
			}
		}
		for _, l := range []scene.Layer{scene.Flow, scene.Heads, scene.Mesh} {
			if drawn[l] != slices.Contains(c.Layers, l) {
				t.Errorf("%q: layer %s drawn: %v", c.Name, l, drawn[l])
			}
		}
		if !drawn[scene.Water] {
			t.Errorf("%q: no water table", c.Name)
		}
	}
	if _, err := WaterNamed("waves"); err == nil || !strings.Contains(err.Error(), "line, flow, heads, mesh") {
		t.Errorf("unknown choice: %v", err)
	}
}
