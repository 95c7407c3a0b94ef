package water

import (
	"context"
	"math"
	"slices"
	"testing"
	"time"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// BenchmarkCompute is the water of a whole project from cold: fit, long section
// and cross sections under every condition.
func BenchmarkCompute(b *testing.B) {
	for _, name := range []string{"as-drawn", "put-right"} {
		b.Run(name, func(b *testing.B) {
			p, t := demo(b, name), tables.Default()
			for b.Loop() {
				if _, err := Compute(context.Background(), p, t); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkOneStage is the line of one stage while a drain is dragged: the far
// level is kept.
func BenchmarkOneStage(b *testing.B) {
	p, t := demo(b, "put-right"), tables.Default()
	st := p.Stages[len(p.Stages)-1]
	for _, s := range p.Stages {
		if s.ID == "high" {
			st = s
		}
	}
	for b.Loop() {
		p.Defence.Drain.Depth += 1e-4
		if _, err := OneStage(context.Background(), p, t, st); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSections is every section of the store under every condition: cut into
// triangles and solved from cold, then under levels 20 mm higher from there. It
// tells the slowest of each, the soonest run counting, which a mean would hide.
func BenchmarkSections(b *testing.B) {
	for _, name := range []string{"as-drawn", "put-right"} {
		p := demo(b, name)
		all := conditions(b, p)
		b.Run(name, func(b *testing.B) {
			cold, level := make([]float64, len(all)), make([]float64, len(all))
			for i := range all {
				cold[i], level[i] = math.Inf(1), math.Inf(1)
			}
			for b.Loop() {
				for i, c := range all {
					begin := time.Now()
					laid, err := Lay(p, c.view, c.o)
					if err != nil {
						b.Fatal(err)
					}
					first, err := laid.Solve(c.view, c.left, c.right, c.o.Blocked, nil)
					if err != nil {
						b.Fatal(err)
					}
					cold[i] = min(cold[i], time.Since(begin).Seconds())
					begin = time.Now()
					if _, err = laid.Solve(c.view, c.left+0.02, c.right+0.02, c.o.Blocked, first); err != nil {
						b.Fatal(err)
					}
					level[i] = min(level[i], time.Since(begin).Seconds())
				}
			}
			b.ReportMetric(float64(len(all)), "sections")
			b.ReportMetric(1000*slices.Max(cold), "ms-cold-slowest")
			b.ReportMetric(1000*slices.Max(level), "ms-level-slowest")
		})
	}
}

// condition is a section with the levels at its ends.
type condition struct {
	view        *section.View
	o           Options
	left, right float64
}

// conditions are those of all stages of p.
func conditions(b testing.TB, p *model.Project) (out []condition) {
	f, err := Compute(context.Background(), p, tables.Default())
	if err != nil {
		b.Fatal(err)
	}
	j := &job{p: p, t: tables.Default()}
	for _, k := range keysOf(p) {
		w, far := f.states[k], f.Far[k.wet]
		out = append(out, condition{w.Long.View, Options{Grain: Ordinary(), Blocked: k.blocked}, far.Left, far.Right})
		for _, s := range w.Cross {
			left, right, err := j.sides(far, s.View, s.View.Station)
			if err != nil {
				b.Fatal(err)
			}
			out = append(out, condition{s.View, Options{Grain: Ordinary(), Blocked: k.blocked, NoRain: true}, left, right})
		}
	}
	return out
}
