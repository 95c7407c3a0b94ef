package water

import (
	"context"
	"fmt"
	"math"
	"math/rand"
	"testing"

	"hillset/engine/model"
	"hillset/engine/section"
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

// Every sensible section settles, or says why not, and its water adds up.
func TestRandomSectionsSettle(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	tb := tables.Default()
	tried, solved, most, ups := 0, 0, 0, 0
	why := map[string]int{}
	for tried < 60 {
		p := shaken(t, r)
		nat, err := section.NewLong(p, tb, p.Stages[0])
		if err != nil {
			continue
		}
		back := p.Box.Front + 6.058
		far, err := Fit(context.Background(), p, nat, Targets(p, model.WaterHigh, back), Ordinary())
		if err != nil {
			tried++
			why["fit: "+err.Error()]++
			continue
		}
		st := p.Stages[1+r.Intn(len(p.Stages)-1)]
		v, err := section.NewLong(p, tb, st)
		if err != nil {
			continue
		}
		tried++
		s, err := Solve(p, v, far.Left, far.Right, Options{Grain: Ordinary(), Blocked: r.Intn(3) == 0})
		if err != nil {
			why[fmt.Sprintf("%s: %v", st.ID, err)]++
			continue
		}
		solved++
		most = max(most, s.Flow.Rounds)
		if s.Flow.Upstream {
			ups++
		}
		scale := s.Sums.In + s.Sums.Rain
		if b := s.Sums.Balance(); math.Abs(b) > 0.01*scale+1e-14 {
			t.Errorf("section %d at %s: %.3g in, balance off by %.3g", tried, st.ID, scale, b)
		}
	}
	t.Logf("%d tried, %d settled, %d of them upstream, at most %d rounds", tried, solved, ups, most)
	for k, n := range why {
		t.Logf("%d: %s", n, k)
	}
}
