package water

import (
	"context"
	"errors"
	"testing"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// hill is the demo's hill as found, with its water under a far level.
func hill(t *testing.T) (*model.Project, *section.View, *Laid) {
	t.Helper()
	p := demo(t, "put-right")
	v, err := section.NewLong(p, tables.Default(), model.Stage{Kind: model.StageNatural})
	if err != nil {
		t.Fatal(err)
	}
	l, err := Lay(p, v, Options{Grain: Ordinary()})
	if err != nil {
		t.Fatal(err)
	}
	return p, v, l
}

func fitted(t *testing.T, p *model.Project, v *section.View, targets []Target) *Far {
	t.Helper()
	far, err := Fit(context.Background(), p, v, targets, Ordinary())
	if err != nil {
		t.Fatal(err)
	}
	return far
}

// A hill whose water is known is found again: from one point of its water
// table, and from several that lie off it to both sides, where no other level
// has less squares.
func TestFitFindsTheHill(t *testing.T) {
	p, v, l := hill(t)
	ground := v.Ground[len(v.Ground)-1]
	truth := ground[1] - 2.5
	s, err := l.Solve(v, leftLevel(p, v), truth, false, nil)
	if err != nil {
		t.Fatal(err)
	}
	var one, many []Target
	for i, share := range []float64{0.5, 0.6, 0.7, 0.8} {
		x := ground[0] * share
		z, _ := s.Table.At(x)
		one = append(one[:0], Target{x, z})
		many = append(many, Target{x, z + 0.15*float64(1-2*(i%2))})
	}
	far := fitted(t, p, v, one)
	near(t, "far level by one point", far.Right, truth, 0.02)
	near(t, "table there", far.Misses[0].Computed, one[0].Level, 0.005)
	if far.Full {
		t.Error("the hill is said to be full")
	}
	far = fitted(t, p, v, many)
	near(t, "far level by many points", far.Right, truth, 0.3)
	squares := func(right float64) float64 {
		s, err := l.Solve(v, far.Left, right, false, nil)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, m := range many {
			z, _ := s.Table.At(m.X)
			sum += (z - m.Level) * (z - m.Level)
		}
		return sum
	}
	best := squares(far.Right)
	for _, off := range []float64{-0.2, 0.2} {
		if other := squares(far.Right + off); other < best {
			t.Errorf("squares %.5f at the fitted level, %.5f at %+.1f m", best, other, off)
		}
	}
}

// Water asked for above what a hill full to its surface has is said to be so.
func TestFitFull(t *testing.T) {
	p, v, _ := hill(t)
	x := p.Box.Front + 6.058
	z, _ := v.Ground.At(x)
	far := fitted(t, p, v, []Target{{x, z + 1}})
	if !far.Full {
		t.Errorf("not full: %+v", far.Misses)
	}
	near(t, "far level", far.Right, v.Ground[len(v.Ground)-1][1], 0.01)
}

// What is aimed at: the level given, else the highest seen at each place; no
// design level is made of what was seen.
func TestTargets(t *testing.T) {
	p := demo(t, "put-right")
	level := 99.0
	p.Site.Water.Seasonal, p.Site.Water.DesignHigh = &level, nil
	p.Site.Water.Observed = []model.WaterPoint{{Pos: model.Vec{10, 98}}, {Pos: model.Vec{10.3, 98.6}}, {Pos: model.Vec{20, 101}}}
	if got := Targets(p, model.WaterSeasonal, 15); len(got) != 1 || got[0] != (Target{15, 99}) {
		t.Errorf("level given: %v", got)
	}
	p.Site.Water.Seasonal = nil
	got := Targets(p, model.WaterSeasonal, 15)
	if len(got) != 2 || got[0] != (Target{10, 98.6}) || got[1] != (Target{20, 101}) {
		t.Errorf("seen: %v", got)
	}
	if got := Targets(p, model.WaterHigh, 15); got != nil {
		t.Errorf("design level of what was seen: %v", got)
	}
	_, v, _ := hill(t)
	var fault model.Problem
	if _, err := Fit(context.Background(), p, v, nil, Ordinary()); !errors.As(err, &fault) || fault.Field != "site.water.observed" {
		t.Errorf("no level at all: %v", err)
	}
	stop, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Fit(stop, p, v, midway(v), Ordinary()); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

func midway(v *section.View) []Target {
	mid := v.Ground[len(v.Ground)/2]
	return []Target{{mid[0], mid[1] - 1}}
}
