package water

import (
	"context"
	"math"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
)

// TestDeeperFoot: a line drawn inside one and the same soil changes nothing that
// flows, and a foot deeper than the one taken brings little more water.
func TestDeeperFoot(t *testing.T) {
	flows := func(low float64) (drain, pit float64) {
		p := demo(t, "put-right")
		if !math.IsNaN(low) {
			last := p.Site.Strata[len(p.Site.Strata)-1]
			ends := p.Site.Ground
			last.ID, last.Top = "again", []model.Vec{{ends[0][0], low}, {ends[len(ends)-1][0], low}}
			p.Site.Strata = append(p.Site.Strata, last)
		}
		f, err := Compute(context.Background(), p, tables.Default())
		if err != nil {
			t.Fatal(err)
		}
		for _, st := range p.Stages {
			if st.ID == "high" {
				w, err := f.At(st)
				if err != nil {
					t.Fatal(err)
				}
				drain = w.Long.Sums.Drains[0]
			}
		}
		q, err := PitOf(context.Background(), p, tables.Default(), f)
		if err != nil {
			t.Fatal(err)
		}
		return drain, q.Inflow()
	}
	foot := Foot(demo(t, "put-right"))
	drain, pit := flows(math.NaN())
	for _, c := range []struct{ low, within float64 }{{96, 0.02}, {92, 0.02}, {foot + 2, 0.02}, {foot - 5, 0.05}} {
		d, q := flows(c.low)
		if math.Abs(d/drain-1) > c.within || math.Abs(q/pit-1) > c.within {
			t.Errorf("with the same soil again from %.2f m down the drain takes %.3g instead of %.3g m2/s and the pit %.3g instead of %.3g m3/s", c.low, d, drain, q, pit)
		}
	}
}
