package water

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand"
	"sync"
	"testing"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// demo is a demo project whose owner has given all permeabilities.
func demo(t testing.TB, name string) *model.Project {
	t.Helper()
	doc, _, err := model.ReadFile("../../testdata/potato-store-" + name + ".hillset")
	if err != nil {
		t.Fatal(err)
	}
	p := doc.Project
	p.Site.Water.Computed = true
	for i := range p.Site.Soils {
		p.Site.Soils[i].Set = append(p.Site.Soils[i].Set, "kx")
	}
	return p
}

// compute is the water of a project, which must come.
func mustCompute(t testing.TB, p *model.Project) *Field {
	t.Helper()
	f, err := Compute(context.Background(), p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Every stage of both demos settles under either condition, with the drains
// working and blocked, its water adds up, and blocked drains never let it stand
// lower at a wall or under the floor.
func TestDemosSettle(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		for _, wet := range []string{model.WaterSeasonal, model.WaterHigh} {
			t.Run(name+" "+wet, func(t *testing.T) {
				p := demo(t, name)
				for i := range p.Stages {
					p.Stages[i].Water = wet
				}
				q := p.Clone()
				for i := range q.Stages {
					q.Stages[i].Blocked = true
				}
				free, blocked := mustCompute(t, p), mustCompute(t, q)
				for i, st := range p.Stages {
					a, err := free.At(st)
					if err != nil {
						t.Errorf("%s: %v", st.ID, err)
						continue
					}
					b, err := blocked.At(q.Stages[i])
					if err != nil {
						t.Errorf("%s blocked: %v", st.ID, err)
						continue
					}
					adds(t, i, a.Long)
					adds(t, i, b.Long)
					notLower(t, st.ID+" long", a.Long, b.Long)
					for k := range a.Cross {
						adds(t, i, a.Cross[k])
						adds(t, i, b.Cross[k])
						notLower(t, fmt.Sprintf("%s across at %d", st.ID, k), a.Cross[k], b.Cross[k])
					}
				}
			})
		}
	}
}

// hand is what two solutions of the same section may differ by, m.
const hand = 0.02

// notLower holds the water of blocked drains to that of working ones.
func notLower(t *testing.T, where string, free, blocked *State) {
	t.Helper()
	for _, f := range []section.Face{section.Back, section.Front, section.Left, section.Right} {
		if a, b := free.At(f).Level, blocked.At(f).Level; b < a-hand {
			t.Errorf("%s: %.3f with working drains, %.3f with blocked ones", where, a, b)
		}
	}
	a, _, _ := free.Under()
	b, _, _ := blocked.Under()
	if b < a-hand {
		t.Errorf("%s: %.3f m under the floor with working drains, %.3f m with blocked ones", where, a, b)
	}
	for i, v := range free.Table {
		if w := blocked.Table[i]; w[1] < v[1]-3*hand {
			t.Errorf("%s: table %.3f with working drains, %.3f with blocked ones at %.2f", where, v[1], w[1], v[0])
			return
		}
	}
	for i, q := range blocked.Sums.Drains {
		if q != 0 {
			t.Errorf("%s: the blocked %s takes %g", where, blocked.Names[i], q)
		}
	}
}

// The same on sections at random.
func TestBlockedNeverLower(t *testing.T) {
	tb := tables.Default()
	seen := 0
	for seed := int64(1); seen < 25 && seed < 80; seed++ {
		p := shaken(t, rand.New(rand.NewSource(seed)))
		p.Site.Water.Recharge = 0
		st := p.Stages[len(p.Stages)-1]
		v, err := section.NewLong(p, tb, st)
		if err != nil {
			continue
		}
		g := v.Ground
		left, right := g[0][1]-0.5, g[len(g)-1][1]-1
		l, err := Lay(p, v, Options{Grain: coarseGrain()})
		if err != nil {
			t.Fatal(seed, err)
		}
		a, err := l.Solve(v, left, right, false, nil)
		if err != nil {
			t.Errorf("section %d: %v", seed, err)
			continue
		}
		b, err := l.Solve(v, left, right, true, a)
		if err != nil {
			t.Errorf("section %d blocked: %v", seed, err)
			continue
		}
		if a.Flow.Rough || b.Flow.Rough || a.Flow.Along != b.Flow.Along {
			continue // two ways of solving
		}
		seen++
		for _, f := range []section.Face{section.Back, section.Front} {
			if x, y := a.At(f).Level, b.At(f).Level; y < x-hand {
				t.Errorf("section %d: %.3f with working drains, %.3f with blocked ones", seed, x, y)
			}
		}
	}
	if seen < 15 {
		t.Errorf("only %d sections were compared", seen)
	}
}

// A trench drain uphill draws the water down behind the box and takes some.
func TestInterceptorLowers(t *testing.T) {
	p := demo(t, "put-right")
	high := p.Box.Level + 1.4
	p.Site.Water.Seasonal = &high
	st := p.Stages[len(p.Stages)-1]
	st.Water, st.Blocked = model.WaterSeasonal, false
	p.Stages = []model.Stage{st}
	p.Defence.Drain.Present = false
	at := func(uphill bool) (*State, float64) {
		q := p.Clone()
		q.Defence.Drain.Uphill, q.Defence.Drain.UphillAway, q.Defence.Drain.UphillDepth = uphill, 1, 6
		w, err := mustCompute(t, q).At(st)
		if err != nil {
			t.Fatal(err)
		}
		z, _ := w.Long.Table.At(w.Long.View.Box.Max[0] + besideWall)
		return w.Long, z
	}
	_, without := at(false)
	s, with := at(true)
	if with > without-0.02 {
		t.Errorf("water behind the box %.3f without the interceptor, %.3f with it", without, with)
	}
	for i, n := range s.Names {
		if n == interceptor && !(s.Sums.Drains[i] > 0) {
			t.Errorf("the interceptor takes %g", s.Sums.Drains[i])
		}
	}
}

// Gravel's permeability is asked for, by its field; a stage without water says
// so; and what the hill cannot be worked for is told by every stage.
func TestReasons(t *testing.T) {
	p := demo(t, "put-right")
	for i := range p.Site.Soils {
		p.Site.Soils[i].Set = nil
	}
	f := mustCompute(t, p)
	dry, asked := 0, 0
	for _, st := range p.Stages {
		_, err := f.At(st)
		var fault model.Problem
		switch {
		case errors.Is(err, ErrNoCondition):
			dry++
		case errors.As(err, &fault):
			asked++
			if fault.Allowed == "" || fault.Field == "" {
				t.Errorf("%s: %+v", st.ID, fault)
			}
		}
	}
	if dry == 0 || asked == 0 {
		t.Errorf("%d stages without water, %d asked for a permeability", dry, asked)
	}
}

// Many may ask at once (go test -race), and all get the same; a soil that lets
// more through is computed anew.
func TestCacheTogether(t *testing.T) {
	p := demo(t, "put-right")
	p.Stages = p.Stages[len(p.Stages)-1:]
	p.Stages[0].Water = model.WaterSeasonal
	var wg sync.WaitGroup
	levels := make([]float64, 8)
	for i := range levels {
		q := p.Clone()
		if i%2 == 1 {
			q.Site.Soils[0].Kx *= 1.01
		}
		wg.Add(1)
		go func() {
			defer wg.Done()
			f, err := Of(context.Background(), q, tables.Default())
			if err != nil {
				t.Error(err)
				return
			}
			w, err := f.At(q.Stages[0])
			if err != nil {
				t.Error(err)
				return
			}
			levels[i], _ = w.Long.Table.At(q.Box.Front)
		}()
	}
	wg.Wait()
	for i, z := range levels {
		if math.Abs(z-levels[i%2]) > 1e-9 {
			t.Errorf("level %d is %.6f, its like has %.6f", i, z, levels[i%2])
		}
	}
	first, _ := Of(context.Background(), p, tables.Default())
	q := p.Clone()
	q.Site.Soils[0].Kx *= 2
	if f, _ := Of(context.Background(), q, tables.Default()); f == first {
		t.Error("a soil that lets twice as much through was not computed anew")
	}
}
