package water

import (
	"context"
	"testing"

	"hillset/engine/tables"
)

// BenchmarkPit is what the open cut adds to a computation.
func BenchmarkPit(b *testing.B) {
	p := demo(b, "put-right")
	p.Site.Water.Computed = true
	f, err := Compute(context.Background(), p, tables.Default())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		f.pit, f.noPit = nil, nil
		if _, err := PitOf(context.Background(), p, tables.Default(), f); err != nil {
			b.Fatal(err)
		}
	}
}
