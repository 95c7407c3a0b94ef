package sheet

import (
	"math/rand/v2"
	"testing"
)

// Brute force on a grid: every free cell lies in a free rectangle, no
// rectangle holds a taken cell, and none can be made larger.
func TestSpaceIsAllThatIsFree(t *testing.T) {
	const n = 16
	rng := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		s := space{{0, 0, n, n}}
		var taken [n][n]bool
		for range 1 + rng.IntN(6) {
			x, y := rng.IntN(n), rng.IntN(n)
			w, h := 1+rng.IntN(n-x), 1+rng.IntN(min(5, n-y))
			s = s.take(box{float64(x), float64(y), float64(w), float64(h)})
			for i := x; i < x+w; i++ {
				for j := y; j < y+h; j++ {
					taken[i][j] = true
				}
			}
		}
		free := func(x0, y0, x1, y1 int) bool {
			if x0 < 0 || y0 < 0 || x1 > n || y1 > n {
				return false
			}
			for i := x0; i < x1; i++ {
				for j := y0; j < y1; j++ {
					if taken[i][j] {
						return false
					}
				}
			}
			return true
		}
		var held [n][n]bool
		for _, r := range s {
			x0, y0, x1, y1 := int(r.x), int(r.y), int(r.right()), int(r.bottom())
			if !free(x0, y0, x1, y1) {
				t.Fatalf("%v holds what is taken", r)
			}
			if free(x0-1, y0, x1, y1) || free(x0, y0-1, x1, y1) || free(x0, y0, x1+1, y1) || free(x0, y0, x1, y1+1) {
				t.Fatalf("%v is not the largest", r)
			}
			for i := x0; i < x1; i++ {
				for j := y0; j < y1; j++ {
					held[i][j] = true
				}
			}
		}
		for i := range n {
			for j := range n {
				if held[i][j] == taken[i][j] {
					t.Fatalf("cell %d, %d: taken %v, in a free rectangle %v", i, j, taken[i][j], held[i][j])
				}
			}
		}
		for i, r := range s {
			for _, o := range s[:i] {
				if r.holds(o) || o.holds(r) {
					t.Fatalf("%v and %v: one holds the other", r, o)
				}
			}
		}
	}
}
