package scene

import (
	"testing"

	"hillset/ui/units"
)

// The target is 4 ms for a view like those of the demonstration, so that a
// scene, an assessment and a repaint fit into one frame of 16 ms.
func BenchmarkBuild(b *testing.B) {
	for name, v := range named() {
		b.Run(name, func(b *testing.B) {
			r := result()
			b.ReportAllocs()
			for range b.N {
				if _, err := Build(v, r, Options{MMPerM: 20, Soils: soils, Units: units.Metric}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
