package main

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/water"
)

// wetStore is the demonstration project with its water computed, a sump, and
// the permeability of its stone given.
func wetStore(t *testing.T) string {
	t.Helper()
	return altered(t, func(p *model.Project) {
		p.Site.Water.Computed = true
		for i := range p.Site.Soils {
			if s := &p.Site.Soils[i]; water.Asks(s) {
				s.Kx, s.Kz, s.Set = 0.01, 0.01, append(slices.Clone(s.Set), "kx", "kz")
			}
		}
		p.Defence.Drain.Outlet = "sump"
		p.Defence.Sump.Rate = 40
	})
}

// TestScenariosAsTable: every case with its water, its worst check and its
// time; nothing is called safe.
func TestScenariosAsTable(t *testing.T) {
	file := wetStore(t)
	status, out, errs := call("scenarios", file)
	if status != statusWithin {
		t.Fatal(status, errs)
	}
	for _, want := range []string{"WATER AT THE BOX", "drains working", "half capacity", "blocked", "pump dead", "high water", "litres an hour", "run through the whole assessment"} {
		if !strings.Contains(out, want) {
			t.Errorf("does not say %q:\n%s", want, out)
		}
	}
	if strings.Contains(strings.ToLower(out), "safe") {
		t.Errorf("something is called safe:\n%s", out)
	}
	if _, us, _ := call("scenarios", file, "--units", "ft"); !strings.Contains(us, "gallons an hour") {
		t.Errorf("in feet:\n%s", us)
	}
	_, out, errs = call("scenarios", file, "--json")
	var got struct {
		Scenarios []struct {
			ID    string
			Worst *float64 `json:"worst_ratio"`
			Level *float64 `json:"water_level_m"`
			Hours *float64 `json:"hours_to_act"`
			Never bool     `json:"never_reaches_the_box"`
		}
	}
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err, errs)
	}
	var ids []string
	level := map[string]float64{}
	for _, s := range got.Scenarios {
		ids = append(ids, s.ID)
		if s.Worst == nil || s.Level == nil {
			t.Errorf("%s: no worst ratio or level", s.ID)
			continue
		}
		level[s.ID] = *s.Level
	}
	if !slices.Equal(ids, []string{"working", "half", "blocked", "pump", "storm", "storm-blocked"}) {
		t.Errorf("cases %q", ids)
	}
	if !(level["working"] <= level["half"] && level["half"] <= level["blocked"]) {
		t.Errorf("less drainage, lower water: %v", level)
	}
}

// TestScenariosAskForComputedWater: a project whose water is given is refused.
func TestScenariosAskForComputedWater(t *testing.T) {
	given := altered(t, func(p *model.Project) { p.Site.Water.Computed = false })
	if status, _, errs := call("scenarios", given); status != statusInput || !strings.Contains(errs, "only computed water") {
		t.Errorf("%d %s", status, errs)
	}
}
