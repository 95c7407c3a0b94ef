package assess

import (
	"context"
	"slices"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/engine/water"
)

// Every check that takes its water from a flow that is less exact says so, at
// that stage and at no other; what no water comes to does not.
func TestRoughWaterIsTold(t *testing.T) {
	p := computedDemo(t, "put-right")
	high := slices.IndexFunc(p.Stages, func(st model.Stage) bool { return st.Water == model.WaterHigh })
	p.Site.Water.Recharge += 1e-9 // its own water in the cache, which is changed below
	told := func() (with, without []check.Check, r *Result) {
		r = run(t, p)
		for _, c := range r.Checks {
			if strings.Contains(c.Validity, roughWords) {
				with = append(with, c)
			} else {
				without = append(without, c)
			}
		}
		return with, without, r
	}
	if with, _, _ := told(); len(with) > 0 {
		t.Fatalf("%q says that its water is less exact", with[0].ID)
	}
	f, err := water.Of(context.Background(), p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	w, err := f.At(p.Stages[high])
	if err != nil {
		t.Fatal(err)
	}
	w.Cross[1].Flow.Along = true
	if with, _, _ := told(); len(with) < 3 {
		t.Errorf("%d checks say that their water rests on the equations along edges", len(with))
	}
	w.Cross[1].Flow.Along, w.Cross[1].Flow.Rough = false, true
	with, without, r := told()
	rough := map[string]bool{}
	for _, st := range p.Stages {
		rough[st.ID] = f.Rough(st)
	}
	if len(with) < 3 || !rough[p.Stages[high].ID] {
		t.Errorf("%d checks say that their water is less exact", len(with))
	}
	for _, c := range with {
		if !rough[c.Stage] || slices.Contains(dryIDs, c.ID) {
			t.Errorf("%s of %s at %q says that its water is less exact", c.ID, c.Part, c.Stage)
		}
	}
	for _, c := range without {
		if rough[c.Stage] && c.Verdict() != check.NotChecked && feelsWater(slot{c.ID, c.Part}) {
			t.Errorf("%s of %s at %q does not say that its water is less exact", c.ID, c.Part, c.Stage)
		}
	}
	if !slices.ContainsFunc(r.Assumed, func(s string) bool {
		return strings.Contains(s, p.Stages[high].Name) && strings.Contains(s, "less exact")
	}) {
		t.Errorf("assumed: %q", r.Assumed)
	}
}
