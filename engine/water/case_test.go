package water

import (
	"context"
	"math"
	"testing"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// Drains at half their capacity take half, and the water stands between that of
// free and of blocked drains.
func TestHalfCapacity(t *testing.T) {
	p := demo(t, "put-right")
	p.Site.Water.Computed = true
	st := p.Stages[9]
	if st.ID != "wet" {
		t.Fatal(st.ID)
	}
	p.Stages = []model.Stage{st}
	var take, level []float64
	for _, c := range []Case{Free, {Back: 0.5}, {Back: 1}} {
		f, err := OfCase(context.Background(), p, tables.Default(), c)
		if err != nil {
			t.Fatal(err)
		}
		w, err := f.At(st)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, q := range w.Long.Sums.Drains {
			sum += q
		}
		z, _ := w.Long.Table.At(p.Box.Front + 6.058 + besideWall)
		take, level = append(take, sum), append(level, z)
	}
	if !(take[0] > 0) || math.Abs(take[1]-take[0]/2) > 0.02*take[0] || take[2] != 0 {
		t.Errorf("drains take %g, want all, half and none", take)
	}
	if !(level[0] < level[1] && level[1] < level[2]) {
		t.Errorf("levels %.3f, want them rising", level)
	}
}

// A pump that is dead leaves the interceptor running.
func TestPumpLeavesTheInterceptor(t *testing.T) {
	p := demo(t, "put-right")
	p.Site.Water.Computed = true
	p.Defence.Drain.UphillAway, p.Defence.Drain.UphillDepth = 1, 6
	high := 101.5
	p.Site.Water.Seasonal = &high
	p.Stages = []model.Stage{p.Stages[9]}
	f, err := OfCase(context.Background(), p, tables.Default(), Case{Back: 1, Pumped: true})
	if err != nil {
		t.Fatal(err)
	}
	w, err := f.At(p.Stages[0])
	if err != nil {
		t.Fatal(err)
	}
	for i, n := range w.Long.Names {
		if q := w.Long.Sums.Drains[i]; (q > 0) != (n == interceptor) {
			t.Errorf("%s takes %g", n, q)
		}
	}
}

// What the water does not feel costs no computation: the field is the same. A
// single stage of a project that was computed is at hand as well. What it
// feels does.
func TestCacheHits(t *testing.T) {
	p := demo(t, "put-right")
	p.Site.Water.Computed = true
	of := func(change func(*model.Project)) *Field {
		q := p.Clone()
		change(q)
		f, err := Of(context.Background(), q, tables.Default())
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	first := of(func(*model.Project) {})
	for name, change := range map[string]func(*model.Project){
		"name":       func(q *model.Project) { q.Box.SideT = 2 },
		"plant":      func(q *model.Project) { q.Fill.Plant, q.Fill.Proven = "", false },
		"years":      func(q *model.Project) { q.Stages[9].Years = 20 },
		"dry stage":  func(q *model.Project) { q.Stages = append(q.Stages, model.Stage{ID: "x", Kind: model.StageService}) },
		"one stage":  func(q *model.Project) { q.Stages = q.Stages[10:11] },
		"foam":       func(q *model.Project) { q.Fill.Roof[0].Gamma = 1 },
		"drain pipe": func(q *model.Project) { q.Defence.Drain.Pipe, q.Defence.Drain.Fall = "smooth-100", 0.02 },
	} {
		if of(change) != first {
			t.Errorf("%s: computed anew", name)
		}
	}
	for name, change := range map[string]func(*model.Project){
		"cover":     func(q *model.Project) { q.Fill.BackTop += 0.1 },
		"drain":     func(q *model.Project) { q.Defence.Drain.Depth += 0.1 },
		"seasonal":  func(q *model.Project) { *q.Site.Water.Seasonal += 0.1 },
		"new stage": func(q *model.Project) { q.Stages[9].Blocked = true },
	} {
		if of(change) == first {
			t.Errorf("%s: not computed anew", name)
		}
	}
}

// The water in the open cut comes with the level of the wet season, and none
// comes where the hill is dry below the formation.
func TestPit(t *testing.T) {
	p := demo(t, "put-right")
	p.Site.Water.Computed = true
	pit := func(level float64) *Pit {
		q := p.Clone()
		q.Site.Water.Seasonal = &level
		f, err := Of(context.Background(), q, tables.Default())
		if err != nil {
			t.Fatal(err)
		}
		out, err := PitOf(context.Background(), q, tables.Default(), f)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	low, high := pit(section.Formation(p)-0.6), pit(section.Formation(p)+1)
	if low.Inflow() > 1e-9 {
		t.Errorf("dry: %g m3/s come in", low.Inflow())
	}
	if q := high.Sections(); !(q > 1e-7) || math.Abs(q-high.Long.Sums.Within*high.Width-high.Cross.Sums.Within*high.Length) > 1e-12 {
		t.Errorf("wet: %g m3/s come in by the sections", q)
	}
	if q := high.Inflow(); math.Abs(q-Corners*high.Sections()) > 1e-12 {
		t.Errorf("%g counts, of %g by the sections", q, high.Sections())
	}
}
