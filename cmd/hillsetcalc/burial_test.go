package main

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/tables"
)

// The printed and the JSON table hold what the engine works out, soil by soil.
func TestBurialSaysWhatTheEngineFinds(t *testing.T) {
	for _, path := range []string{asDrawn, putRight} {
		doc, _, err := model.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		want, err := assess.BurialTable(doc.Project, tables.Default())
		if err != nil {
			t.Fatal(err)
		}
		_, text, _ := call("burial", path)
		_, out, _ := call("burial", path, "--json")
		var got burialJSON
		if err := json.Unmarshal([]byte(out), &got); err != nil {
			t.Fatal(err)
		}
		if len(got.Soils) != len(want) || len(want) == 0 {
			t.Fatalf("%d soils, want %d", len(got.Soils), len(want))
		}
		for i, w := range want {
			g := got.Soils[i]
			if g.Class != w.Class || !same(g.Drained.Height, w.Drained) || !same(g.Flooded.Height, w.Flooded) || !same(g.OnTheRoof, w.RoofCover) {
				t.Errorf("%+v, want %+v", g, w)
			}
			if (g.Drained.Holds4ft != (w.Drained > 1.2192)) || (g.Flooded.Holds6ft != (w.Flooded > 1.8288)) {
				t.Errorf("%s: the saying of 4 to 6 ft: %+v", w.Class, g)
			}
			line := lineOf(text, w.Class+" ")
			if f := columns.Split(line, -1); len(f) != 7 || f[3] != holds(w.Drained) || f[5] != holds(w.Flooded) {
				t.Errorf("%s: line %q", w.Class, line)
			}
		}
		for _, say := range []string{"no compaction, surcharge or slope", "licensed engineer"} {
			if !strings.Contains(text, say) {
				t.Errorf("%s: does not say %q", path, say)
			}
		}
	}
}

func lineOf(text, start string) string {
	for _, l := range strings.Split(text, "\n") {
		if strings.HasPrefix(l, start) {
			return l
		}
	}
	return ""
}

// A foot is 0.3048 m by definition; exactly 4 ft is not more than 4 ft.
func TestHolds(t *testing.T) {
	for h, want := range map[float64]string{1.2: "no / no", 1.2192: "no / no", 1.22: "yes / no", 1.9: "yes / yes"} {
		if got := holds(h); got != want {
			t.Errorf("%g m: %s, want %s", h, got, want)
		}
	}
	if got := holds(math.NaN()); got != "no / no" {
		t.Errorf("not allowed: %s", got)
	}
}
