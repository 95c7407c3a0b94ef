package water

import (
	"context"
	"testing"

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
