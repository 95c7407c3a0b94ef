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
