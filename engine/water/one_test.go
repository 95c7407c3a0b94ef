package water

import (
	"context"
	"math"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
)

// What is shown first is what the whole computation then says of the long
// section, at every stage of both demonstrations.
func TestOneStageIsThatOfAll(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		p := demo(t, name)
		all, err := Compute(context.Background(), p, tables.Default())
		if err != nil {
			t.Fatal(err)
		}
		for _, st := range p.Stages {
			one, err := OneStage(context.Background(), p, tables.Default(), st)
			if err != nil {
				t.Fatal(err)
			}
			a, errA := all.At(st)
			b, errB := one.At(st)
			if (errA == nil) != (errB == nil) {
				t.Fatalf("%s %s: %v and %v", name, st.ID, errA, errB)
			}
			if errA != nil {
				continue
			}
			if b.CrossAt(p.Box.Front) != nil {
				t.Errorf("%s %s: a cross section was not asked for", name, st.ID)
			}
			for i, q := range a.Long.Table {
				if d := q.Sub(b.Long.Table[i]).Len(); d > 1e-9 {
					t.Fatalf("%s %s: the tables differ by %g m at %g m", name, st.ID, d, q[0])
				}
			}
		}
	}
}

// The far level is kept while the works move, and fitted anew when the hill or
// what is known of its water changes.
func TestFarLevelFollowsTheHill(t *testing.T) {
	p := demo(t, "put-right")
	fit := func() *Far {
		f, err := OneStage(context.Background(), p, tables.Default(), p.Stages[len(p.Stages)-1])
		if err != nil {
			t.Fatal(err)
		}
		for _, far := range f.Far {
			return far
		}
		t.Fatal("no far level was fitted")
		return nil
	}
	for i := range p.Stages {
		p.Stages[i].Water = model.WaterSeasonal
	}
	first := fit()
	p.Defence.Drain.Depth += 0.2
	if fit() != first {
		t.Error("a deeper drain had the far level fitted anew")
	}
	for i := range p.Site.Water.Observed {
		p.Site.Water.Observed[i].Pos[1] -= 0.3
	}
	if z := p.Site.Water.Seasonal; z != nil {
		*z -= 0.3
	}
	if lower := fit(); lower == first || lower.Right >= first.Right {
		t.Errorf("water seen 0.3 m lower leaves the far level at %g m", lower.Right)
	}
	for i := range p.Site.Soils {
		p.Site.Soils[i].Kx *= 3
	}
	p.Site.Water.Recharge += 100
	if a := fit(); a == first {
		t.Error("rain and permeability did not have the far level fitted anew")
	}
}

// Where the ground is dry to its foot there is no water; elsewhere the level is
// that of the table.
func TestWaterAt(t *testing.T) {
	p := demo(t, "put-right")
	f, err := Compute(context.Background(), p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, st := range p.Stages {
		w, err := f.At(st)
		if err != nil {
			continue
		}
		s := w.Long
		for i, q := range s.Table {
			z, ok := s.WaterAt(q[0])
			foot := s.Flow.Mesh.Nodes[s.Flow.Mesh.Lines[i].First][1]
			if ok != (q[1] > foot+dryFoot) && i > 0 && s.Table[i-1][1] <= foot+dryFoot {
				t.Errorf("%s at %g: water %v, table %g, foot %g", st.ID, q[0], ok, q[1], foot)
			}
			if ok && math.Abs(z-q[1]) > 1e-9 {
				t.Errorf("%s at %g: level %g, table %g", st.ID, q[0], z, q[1])
			}
			n++
		}
		if _, ok := s.WaterAt(s.Table[0][0] - 1); ok {
			t.Errorf("%s: water beside the section", st.ID)
		}
		for _, u := range s.Floor(9) {
			if u[1] < 0 || u[0] < s.View.Box.Min[0]-1e-9 || u[0] > s.View.Box.Max[0]+1e-9 {
				t.Errorf("%s: uplift %v", st.ID, u)
			}
		}
		share := 0.0
		for _, l := range s.FlowLines() {
			share += l.Share
		}
		if len(s.FlowLines()) > 0 && math.Abs(share-s.Sums.In)/s.Sums.In > float64(flowLines-len(s.FlowLines()))/flowLines+1e-6 {
			t.Errorf("%s: the flow lines stand for %g of %g", st.ID, share, s.Sums.In)
		}
	}
	if n == 0 {
		t.Fatal("no stage had water")
	}
}
