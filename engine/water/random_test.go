package water

import (
	"context"
	"errors"
	"math"
	"math/rand"
	"runtime"
	"sync"
	"testing"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/engine/tables"
)

// shaken is the store with everything that water feels drawn anew at random,
// within what a builder may meet.
func shaken(t testing.TB, r *rand.Rand) *model.Project {
	p := demo(t, "put-right").Clone()
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	slope := between(0.02, 0.45)
	z := 100.0
	p.Site.Ground = []model.Vec{{0, z}}
	x := 0.0
	for x < 45 {
		step := between(2, 6)
		x += step
		z += step * slope * between(0.3, 1.7)
		p.Site.Ground = append(p.Site.Ground, model.Vec{x, z})
	}
	at := func(x float64) float64 {
		for i := 1; i < len(p.Site.Ground); i++ {
			if a, b := p.Site.Ground[i-1], p.Site.Ground[i]; x <= b[0] {
				return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0])
			}
		}
		return z
	}
	d := between(0.5, 3)
	p.Site.Strata[1].Top = []model.Vec{{0, at(0) - d}, {20, at(20) - d*between(0.5, 1.5)}, {45, at(45) - d*between(0.5, 1.5)}}
	for i := range p.Site.Soils {
		s := &p.Site.Soils[i]
		s.Kx = math.Pow(10, between(-9, -4))
		if s.ID == "stone" || s.ID == "bed" || s.ID == "gravel" {
			s.Kx = math.Pow(10, between(-4, -1.5))
		}
		s.Kz = s.Kx * math.Pow(10, between(-1, 0))
	}
	p.Box.Front = between(6, 14)
	p.Box.Level = at(p.Box.Front) + between(-0.8, 0.3)
	p.Cut.Batter, p.Cut.SideBatter = between(0.5, 1.5), between(0.5, 1.5)
	p.Cut.WorkBack, p.Cut.Apron = between(0.2, 1.2), between(0, 4)
	p.Fill.FrontTop, p.Fill.BackTop = between(-0.5, 0.6), between(0, 1)
	p.Fill.BackSlope = between(-0.1, 0.15)
	p.Fill.RockWidth = between(0.3, 0.8)
	p.Fill.Backfill = []string{"stone", "loam", "gravel"}[r.Intn(3)]
	p.Defence.Drain.Depth = between(0.05, 0.5)
	p.Defence.Drain.Uphill, p.Defence.Drain.UphillAway, p.Defence.Drain.UphillDepth = r.Intn(3) == 0, between(0.5, 4), between(0.8, 2.5)
	p.Site.Water.Observed = nil
	back := p.Box.Front + 6.058
	level := at(back) - between(0.2, 4)
	p.Site.Water.Seasonal, p.Site.Water.DesignHigh = &level, &level
	p.Site.Water.Recharge = between(0, 400) * float64(r.Intn(2))
	return p
}

// coarse is a mesh of some 400 nodes, for the many sections at random.
func coarseGrain() seepage.Grain { return seepage.Grain{Near: 0.3, Far: 2, Grow: 0.25} }

// tried is what came of a section at random.
type tried struct {
	stage string
	err   error
	state *State
}

// try draws section n, fits its far level and solves one of its stages; false
// where the works themselves cannot be drawn so.
func try(t testing.TB, n int, g seepage.Grain) (tried, bool) {
	r := rand.New(rand.NewSource(int64(n)))
	tb := tables.Default()
	p := shaken(t, r)
	st := p.Stages[1+r.Intn(len(p.Stages)-1)]
	o := Options{Grain: g, Blocked: r.Intn(3) == 0}
	nat, err := section.NewLong(p, tb, p.Stages[0])
	if err != nil {
		return tried{}, false
	}
	v, err := section.NewLong(p, tb, st)
	if err != nil {
		return tried{}, false
	}
	far, err := Fit(context.Background(), p, nat, Targets(p, model.WaterHigh, p.Box.Front+6.058), g)
	if err != nil {
		return tried{stage: "fit", err: err}, true
	}
	s, err := Solve(p, v, far.Left, far.Right, o)
	return tried{st.ID, err, s}, true
}

// Every sensible section settles, or says why not, and its water adds up.
func TestRandomSectionsSettle(t *testing.T) {
	const want = 500
	many := want
	if testing.Short() {
		many = 60
	}
	var mu sync.Mutex
	count, solved, hard, rough, next := 0, 0, 0, 0, 0
	why := map[string][]int{}
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for {
				mu.Lock()
				n := next
				next++
				done := count >= many
				mu.Unlock()
				if done {
					return
				}
				c, ok := try(t, n, coarseGrain())
				if !ok {
					continue
				}
				mu.Lock()
				count++
				if c.err != nil {
					var fault model.Problem
					if !errors.Is(c.err, seepage.ErrUnsettled) && !errors.Is(c.err, seepage.ErrClosed) && !errors.As(c.err, &fault) {
						t.Errorf("section %d: %v gives no reason", n, c.err)
					}
					k := c.stage + ": " + c.err.Error()
					why[k] = append(why[k], n)
				} else {
					solved++
					if c.state.Flow.Along {
						hard++
					}
					if c.state.Flow.Rough {
						rough++
					}
				}
				mu.Unlock()
				if c.err == nil {
					adds(t, n, c.state)
				}
			}
		}()
	}
	wg.Wait()
	t.Logf("%d tried, %d settled, %d of them along edges only, %d less exact", count, solved, hard, rough)
	if solved*100 < count*99 {
		t.Errorf("only %d of %d sections settle", solved, count)
	}
	if rough*100 > count*3 {
		t.Errorf("%d of %d sections are less exact", rough, count)
	}
	for k, n := range why {
		t.Logf("%v: %s", n, k)
	}
}

// adds holds a state to its balance.
func adds(t *testing.T, n int, s *State) {
	scale := s.Sums.In + s.Sums.Rain
	if b := s.Sums.Balance(); math.Abs(b) > 0.01*scale+1e-14 {
		t.Errorf("section %d at %s: %.3g in, balance off by %.3g", n, s.View.Stage.ID, scale, b)
	}
}
