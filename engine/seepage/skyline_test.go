package seepage

import (
	"math"
	"math/rand"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// Both ways of solving must agree with a dense solution by another library.
func TestSkylineAgainstDense(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 20 {
		n := 3 + r.Intn(40)
		s := skyline{first: make([]int32, n), at: make([]int32, n+1)}
		for i := range n {
			s.first[i] = int32(max(0, i-r.Intn(8)))
			s.at[i+1] = s.at[i] + int32(i) - s.first[i] + 1
		}
		lower, upper := make([]float64, s.at[n]), make([]float64, s.at[n])
		a, sym := mat.NewDense(n, n, nil), mat.NewDense(n, n, nil)
		for i := range n {
			for j := int(s.first[i]); j <= i; j++ {
				k := s.place(int32(j), int32(i))
				lower[k], upper[k] = r.NormFloat64(), r.NormFloat64()
				if i == j {
					upper[k] = 20
				}
				a.Set(i, j, lower[k])
				a.Set(j, i, upper[k])
				sym.Set(i, j, upper[k])
				sym.Set(j, i, upper[k])
			}
		}
		x, y, b := make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range b {
			b[i] = r.NormFloat64()
		}
		copy(x, b)
		copy(y, b)
		half := append([]float64(nil), upper...)
		if !s.lu(lower, upper, x) || !s.cholesky(half) {
			t.Fatal("no pivot")
		}
		s.back(half, y)
		for _, c := range []struct {
			m   *mat.Dense
			got []float64
		}{{a, x}, {sym, y}} {
			var want mat.VecDense
			if err := want.SolveVec(c.m, mat.NewVecDense(n, b)); err != nil {
				t.Fatal(err)
			}
			for i := range n {
				if math.Abs(c.got[i]-want.AtVec(i)) > 1e-11 {
					t.Fatalf("n %d: x[%d] = %g, want %g", n, i, c.got[i], want.AtVec(i))
				}
			}
		}
	}
	// a node that nothing holds has no pivot
	one := skyline{first: []int32{0, 0}, at: []int32{0, 1, 3}}
	if one.cholesky([]float64{1, -1, 1}) {
		t.Error("a loose pair was solved")
	}
}
