package sketch

import (
	"context"
	"fmt"
	"testing"
	"time"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/engine/water"
	"hillset/geom"
	"hillset/ui/desk"
)

// newWetRig is the demonstration put right, with its water computed, at the
// stage of high water.
func newWetRig(t *testing.T) *rig {
	t.Helper()
	r := newRigOn(t, LongSection, mended, desk.Options{
		Assess: func(ctx context.Context, p *model.Project) (*assess.Result, error) {
			return assess.Run(ctx, p, tables.Default())
		},
		Line: func(ctx context.Context, p *model.Project, st model.Stage) (*water.Field, error) {
			return water.OneStage(ctx, p, tables.Default(), st)
		},
	})
	if err := r.desk.Edit("compute", "", func(p *model.Project) error {
		p.Site.Water.Computed = true
		for i := range p.Site.Soils {
			p.Site.Soils[i].Set = append(p.Site.Soils[i].Set, "kx")
		}
		d := &p.Defence.Drain
		d.Uphill, d.UphillAway, d.UphillDepth = true, 3, 5.8
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	if err := r.desk.SetStage("high"); err != nil {
		t.Fatal(err)
	}
	r.result()
	return r
}

// tableDrawn is the water line as the board draws it.
func (r *rig) tableDrawn() geom.Polyline {
	r.t.Helper()
	s, err := r.board.Drawn()
	if err != nil {
		r.t.Fatal(err)
	}
	var out geom.Polyline
	for _, it := range s.Items {
		if it.Path != nil && it.Path.Tag == "water:table" {
			for _, c := range it.Path.Parts {
				out = append(out, c...)
			}
		}
	}
	return out
}

// The drain is dragged down: the line follows before the whole result is there,
// and the drag itself waits for neither.
func TestWaterLineFollowsTheDrain(t *testing.T) {
	for _, c := range []struct {
		id string
		by geom.Vec
	}{{"water_defence.drain.depth", geom.Vec{0, -0.5}}, {"water_defence.drain.uphill", geom.Vec{-1, 0.6}}} {
		t.Run(c.id, func(t *testing.T) {
			r := newWetRig(t)
			before := r.tableDrawn()
			if len(before) == 0 {
				t.Fatal("no water line is drawn")
			}
			at := r.handle(c.id).At
			old := r.desk.Result()
			r.move(at, at.Add(c.by))
			if got := r.handle(c.id).At; got == at {
				t.Fatalf("the handle stays at %v", got)
			}
			if r.desk.Fresh() {
				t.Error("the drag waited for the result")
			}
			asked := time.Now()
			for r.desk.Water() == old.Water {
				select {
				case f := <-r.posted:
					f()
				case <-time.After(time.Minute):
					t.Fatal("no line within a minute")
				}
			}
			t.Logf("the line came %v after the drag", time.Since(asked).Round(time.Millisecond))
			if r.desk.Fresh() {
				t.Error("the line waited for the whole result")
			}
			first := r.tableDrawn()
			if fmt.Sprint(first) == fmt.Sprint(before) {
				t.Error("the line did not move")
			}
			r.result()
			last := r.tableDrawn()
			if len(last) != len(first) {
				t.Fatalf("%d corners first, %d in the end", len(first), len(last))
			}
			for i := range last {
				if last[i].Sub(first[i]).Len() > 1e-6 {
					t.Fatalf("the line first shown is at %v, in the end at %v", first[i], last[i])
				}
			}
		})
	}
}

// A drain above the ground, or beside the ground line, is refused with words.
func TestInterceptorStaysInTheGround(t *testing.T) {
	r := newWetRig(t)
	h := r.handle("water_defence.drain.uphill")
	before := r.project().Defence.Drain
	for _, to := range []geom.Vec{{h.At[0], h.At[1] + 9}, {r.project().Site.Ground[len(r.project().Site.Ground)-1][0] + 5, h.At[1]}} {
		p := r.project().Clone()
		if err := h.Apply(p, to); err == nil {
			t.Errorf("%v was taken", to)
		}
		if p.Defence.Drain != before {
			t.Errorf("%v changed the drain", to)
		}
	}
}

// BenchmarkLineAfterChange is the time from a change to its new line on the
// desk. The target is 100 ms.
func BenchmarkLineAfterChange(b *testing.B) {
	p, st := benchProject(b)
	p.Site.Water.Computed = true
	for i := range p.Site.Soils {
		p.Site.Soils[i].Set = append(p.Site.Soils[i].Set, "kx")
	}
	posted := make(chan func(), 4096)
	d := desk.New(desk.Options{Post: func(f func()) { posted <- f },
		Assess: func(ctx context.Context, p *model.Project) (*assess.Result, error) {
			return assess.Run(ctx, p, tables.Default())
		},
		Line: func(ctx context.Context, p *model.Project, st model.Stage) (*water.Field, error) {
			return water.OneStage(ctx, p, tables.Default(), st)
		}})
	defer func() {
		if err := d.Discard(); err != nil {
			b.Error(err)
		}
	}()
	if err := d.Edit("start", "", func(q *model.Project) error { *q = *p.Clone(); return nil }); err != nil {
		b.Fatal(err)
	}
	if err := d.SetStage(st.ID); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		old := d.Water()
		if err := d.Edit("Move", "bench", func(q *model.Project) error { q.Box.Front += 0.001; return nil }); err != nil {
			b.Fatal(err)
		}
		for d.Water() == old {
			(<-posted)()
		}
	}
}
