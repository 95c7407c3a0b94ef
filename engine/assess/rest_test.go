package assess

import (
	"context"
	"slices"
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/tables"
)

// What no trial comes to is told of the first remedy alone, and says what a
// fresh run with it says.
func TestFirstRemedyTellsTheRest(t *testing.T) {
	ms := demoAdvice(t)
	if ms[0].Rest == nil || ms[0].Rest.Made == 0 {
		t.Fatal("nothing is told")
	}
	for _, m := range ms[1:] {
		if m.Rest != nil {
			t.Errorf("%s tells it too", m.ID)
		}
	}
	p := demo(t, "as-drawn")
	made, beyond := restRun(t, p, &ms[0])
	if made != ms[0].Rest.Made || beyond != len(ms[0].Rest.Beyond) {
		t.Errorf("%d made, %d beyond; a fresh run makes %d, %d beyond", ms[0].Rest.Made, len(ms[0].Rest.Beyond), made, beyond)
	}
	// the same hill of weak ground slides, whatever is built into the box
	weak := p.Clone()
	for i := range weak.Site.Soils {
		if s := &weak.Site.Soils[i]; s.ID == weak.Site.Strata[0].Soil || s.ID == weak.Site.Strata[1].Soil {
			s.Cohesion, s.Phi = 0, 15
		}
	}
	rest, err := restOf(context.Background(), weak, &ms[0], tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(rest.Beyond, func(c check.Check) bool { return ofHillside(c.ID) }) {
		t.Errorf("weak ground stays put: %+v", rest)
	}
}

// restRun counts those checks in a run of p with a remedy.
func restRun(t *testing.T, p *model.Project, m *Remedy) (made, beyond int) {
	_, r := after(t, p, m.Apply)
	if err := Hillside(context.Background(), r, tables.Default()); err != nil {
		t.Fatal(err)
	}
	for i := range r.Checks {
		c := &r.Checks[i]
		if c.Verdict() == check.NotChecked || !ofHillside(c.ID) && !ofClimate(c.ID) && !ofDrainage(slot{c.ID, c.Part}) {
			continue
		}
		made++
		if c.Verdict() == check.Beyond {
			beyond++
		}
	}
	return made, beyond
}
