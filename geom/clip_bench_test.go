package geom

import (
	"fmt"
	"math"
	"testing"
)

func blob(n int, c Vec, r, wob float64) Region {
	var ring Ring
	for i := range n {
		t := 2 * math.Pi * float64(i) / float64(n)
		q := r * (1 + wob*math.Sin(7*t))
		ring = append(ring, Vec{c[0] + q*math.Cos(t), c[1] + q*math.Sin(t)})
	}
	return ring.ToRegion()
}

func BenchmarkClip(b *testing.B) {
	for _, n := range []int{10, 30, 100} {
		p, q := blob(n, Vec{0, 0}, 5, 0.1), blob(n, Vec{2, 1}, 4, 0.2)
		b.Run(fmt.Sprint("difference/", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := Difference(p, q); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
