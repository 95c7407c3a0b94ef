package main

import (
	"encoding/json"
	"strings"
	"testing"

	"hillset/engine/model"
)

// weakRibs is the demonstration project put right but for ribs of a bar that is
// too weak, with a price of steel.
func weakRibs(t *testing.T) string {
	t.Helper()
	return altered(t, func(p *model.Project) {
		r := &p.Strengthening.Ribs
		r.Post, r.RoofBeam, r.FloorTie = "shs60x3", "shs60x3", "shs60x3"
		p.Prices = map[string]float64{"Steel kg": 2}
	})
}

// TestAdviseSaysWhatItTried: the list names sizes, the change of the checks, the
// steel and its price; no placeholder is left, and nothing is called safe.
func TestAdviseSaysWhatItTried(t *testing.T) {
	status, out, errs := call("advise", weakRibs(t))
	if status != statusWithin {
		t.Fatal(status, errs)
	}
	for _, want := range []string{"1. ", "portal ribs of SHS", "Largest ratio", "Helps: rib", "posts of ribs, SHS", "price "} {
		if !strings.Contains(out, want) {
			t.Errorf("does not say %q:\n%s", want, out)
		}
	}
	if strings.Contains(out, "{0}") || strings.Contains(strings.ToLower(out), "safe") {
		t.Errorf("a value is missing, or something is called safe:\n%s", out)
	}
}

// TestAdviseAsJSON holds the numbers that the list shows.
func TestAdviseAsJSON(t *testing.T) {
	_, out, errs := call("advise", "--json", weakRibs(t))
	var got struct {
		AsDrawn struct {
			Beyond int `json:"beyond_limits"`
		} `json:"as_drawn"`
		Remedies []struct {
			ID, Text string
			After    struct {
				Beyond int `json:"beyond_limits"`
			}
			Adds  []struct{ Key string }
			Price *float64
		}
	}
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err, errs)
	}
	if got.AsDrawn.Beyond == 0 || len(got.Remedies) == 0 {
		t.Fatalf("%s", out)
	}
	better := false
	for _, m := range got.Remedies {
		better = better || m.After.Beyond < got.AsDrawn.Beyond && m.Price != nil
	}
	if !better {
		t.Errorf("no priced remedy leaves fewer beyond limits: %s", out)
	}
}

// TestCurvesListEveryPoint: a line for each value, the limit among them.
func TestCurvesListEveryPoint(t *testing.T) {
	_, out, _ := call("curves", putRight, "--only", "water")
	for _, want := range []string{"How high may the water come?", "HIGH WATER ABOVE THE UNDERSIDE OF THE BOX", "as drawn", "unbounded", "kept as drawn"} {
		if !strings.Contains(out, want) {
			t.Errorf("does not say %q:\n%s", want, out)
		}
	}
	if strings.Count(out, "\n") < 20 || strings.Contains(strings.ToLower(out), "safe") {
		t.Errorf("%s", out)
	}
}
