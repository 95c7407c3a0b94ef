package box

import (
	"math/rand"
	"testing"

	"hillset/engine/steel"
	"hillset/engine/tables"
)

// TestRatioAlone: the ratio of a rail without its working is the ratio of its
// check, for every kind and either sign of the load.
func TestRatioAlone(t *testing.T) {
	rng := rand.New(rand.NewSource(3))
	row, _ := tables.Default().Bar("shs75x4")
	bar, err := steel.BarProps(row)
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range []*RailKind{KindTopRail, KindBottomRail, KindHeader, KindSill, KindWale, KindPurlin} {
		for range 50 {
			in := Rail{Bar: bar, Steel: Material{Fy: 345e3, E: 200e6}, Span: 0.2 + 4*rng.Float64(), Spans: 1 + rng.Intn(4)}
			in.Load = Pair{40*rng.Float64() - 20, 64*rng.Float64() - 32}
			made, _, err := kind.Check(in)
			if err != nil {
				t.Fatal(err)
			}
			if got, err := kind.Ratio(in); err != nil || got != made.Worst() || made.ID != kind.ID() {
				t.Fatalf("%s: ratio %v, %v; the check has %v", kind.ID(), got, err, made.Worst())
			}
		}
		if _, err := kind.Ratio(Rail{Bar: bar}); err == nil {
			t.Errorf("%s: a rail without span has a ratio", kind.ID())
		}
	}
}
