package section

import (
	"reflect"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/geom"
)

// TestStagesShare: one cut asked for every stage in turn, forwards and
// backwards, shows what a section made for that stage alone shows, and the
// short form has the same columns beside the box.
func TestStagesShare(t *testing.T) {
	for _, p := range demos(t) {
		plan, err := NewPlan(p, tables.Default())
		if err != nil {
			t.Fatal(err)
		}
		long, err := plan.Long()
		if err != nil {
			t.Fatal(err)
		}
		x := p.Box.Front + 3
		cross, err := plan.Cross(x)
		if err != nil {
			t.Fatal(err)
		}
		for i := range 2 * len(p.Stages) {
			st := p.Stages[min(i, 2*len(p.Stages)-1-i)]
			alone, err := NewLong(p, tables.Default(), st)
			if err != nil {
				t.Fatal(err)
			}
			sameView(t, st, long, alone)
			if alone, err = NewCross(p, tables.Default(), st, x); err != nil {
				t.Fatal(err)
			}
			sameView(t, st, cross, alone)
		}
	}
}

// shownOf is what a view shows, without how it was made. NaN is made a number
// that no view has, so that views can be compared.
func shownOf(v View) View {
	v.lay, v.sides = nil, nil
	for _, f := range []*float64{&v.Station, &v.Water} {
		if *f != *f {
			*f = -9999
		}
	}
	return v
}

func sameView(t *testing.T, st model.Stage, c *Cut, want *View) {
	t.Helper()
	got, err := c.At(st)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(shownOf(*got), shownOf(*want)) {
		t.Errorf("%s long=%v: a shared cut shows another section", st.ID, want.Long)
	}
	short, err := c.Beside(st)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []Face{Back, Left, Right} {
		a, errA := short.Columns(f)
		b, errB := want.Columns(f)
		if errA != nil || errB != nil || !reflect.DeepEqual(a, b) {
			t.Errorf("%s %s: columns %v %v, want %v %v", st.ID, f, a, errA, b, errB)
		}
	}
}

// TestReadOnly: asking for one stage does not change the lines that an earlier
// one was given.
func TestReadOnly(t *testing.T) {
	p := demos(t)[1]
	plan, err := NewPlan(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	long, err := plan.Long()
	if err != nil {
		t.Fatal(err)
	}
	first, err := long.At(service)
	if err != nil {
		t.Fatal(err)
	}
	kept := append(geom.Polyline(nil), first.Finish...)
	area := first.Fill[0].Region.Area()
	for _, st := range p.Stages {
		if _, err := long.At(st); err != nil {
			t.Fatal(err)
		}
	}
	if !reflect.DeepEqual(kept, first.Finish) || area != first.Fill[0].Region.Area() {
		t.Error("a view changed after it was handed out")
	}
}

// TestServiceIsFull: a service stage is filled all the way whether or not the
// file says so, and with or without its cover; a backfill stage as far as it
// says (derived: the levels follow from the project).
func TestServiceIsFull(t *testing.T) {
	p := demos(t)[0]
	roof := p.Box.Level + 2.591 // height of the box, ISO 668 (second-hand)
	for _, c := range []struct {
		name string
		st   model.Stage
		want float64
	}{
		{"service, nothing said", model.Stage{Kind: model.StageService}, roof},
		{"service, half said", model.Stage{Kind: model.StageService, FillTo: 0.5}, roof},
		{"service, covered", model.Stage{Kind: model.StageService, Cover: true}, roof + p.Fill.BackTop},
		{"backfill, half", model.Stage{Kind: model.StageBackfill, FillTo: 0.5}, (roof + Formation(p)) / 2},
	} {
		v, err := NewLong(p, tables.Default(), c.st)
		if err != nil {
			t.Fatal(err)
		}
		if z, ok := v.Surface(Back); !ok || z < c.want-1e-9 || z > c.want+1e-9 {
			t.Errorf("%s: fill at the back wall stands at %.3f, want %.3f", c.name, z, c.want)
		}
	}
}
