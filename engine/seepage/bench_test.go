package seepage

import (
	"fmt"
	"math"
	"testing"

	"hillset/geom"
)

// hillWithBox is a long section like that of a box in a hill, with a drain at
// its back.
func hillWithBox() *Domain {
	zone := func(lo, hi float64) geom.Region {
		return geom.Region{{Outer: geom.Ring{{0, lo}, {45, lo + 9}, {45, hi + 9}, {0, hi}}}}
	}
	return &Domain{Zones: []Zone{ground("trench", rect(20, 6.1, 20.8, 9), 1e-3, 1e-3), ground("loam", zone(4, 6), 1e-6, 1e-6), ground("till", zone(-2, 4), 3e-7, 3e-7)},
		Solids: []geom.Region{rect(14, 6.5, 20, 9.1)}, Drains: []Drain{{"pipe", geom.Vec{20.4, 6.3}, 0.1, false, 0}},
		Left: Side{Head: 5, Face: true}, Right: Side{Head: 12.6}, Pond: math.NaN()}
}

// BenchmarkSolve is mesh, cold solution, and a solution with another level at
// the far end, by the number of nodes, for a section that the plain iteration
// settles. In time of the processor the mesh grows as the number of nodes n to
// the power of 1.1, a solution as n to 1.5 or 1.6. Another numbering of the nodes
// (reverse Cuthill and McKee) saves less than a fifth of the multiplications at
// every size: the sections are long and low, and stand in that order already.
// Newton's method from wet ground takes some 4 to 10 times as long at 1k nodes,
// and grows as n squared and worse beyond 5k; from where the plain iteration was
// left, or from a flow under other levels, it needs 5 to 15 rounds.
func BenchmarkSolve(b *testing.B) {
	for _, c := range []struct {
		about string
		g     Grain
	}{{"1k", Grain{0.2, 1.1, 0.15}}, {"5k", Grain{0.09, 0.5, 0.07}}, {"20k", Grain{0.045, 0.25, 0.035}}} {
		d := hillWithBox()
		m, err := d.Build(c.g)
		if err != nil {
			b.Fatal(err)
		}
		first, err := m.Solve(nil)
		if err != nil {
			b.Fatal(err)
		}
		name := fmt.Sprintf("%s=%d", c.about, len(m.Nodes))
		b.Run("mesh/"+name, func(b *testing.B) {
			for b.Loop() {
				if _, err := d.Build(c.g); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run("cold/"+name, func(b *testing.B) {
			for b.Loop() {
				if _, err := m.Solve(nil); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run("level/"+name, func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				if _, err := m.WithLevels(5, 12.6-0.2*float64(1+i%2)).Solve(first); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
