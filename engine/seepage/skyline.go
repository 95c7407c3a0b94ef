package seepage

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// skyline is the shape of the equations: row n holds the columns from first[n]
// to n. A mesh is narrow where it is coarse, and nothing is worked there for
// the sake of the places where it is fine.
type skyline struct {
	first []int32
	at    []int32 // where row n begins; the last is the number of places
}

// skylineOf is the shape for a mesh.
func skylineOf(m *Mesh) skyline {
	s := skyline{first: make([]int32, len(m.Nodes)), at: make([]int32, len(m.Nodes)+1)}
	for n := range s.first {
		s.first[n] = int32(n)
	}
	for _, t := range m.Tris {
		least := min(t.N[0], t.N[1], t.N[2])
		for _, n := range t.N {
			s.first[n] = min(s.first[n], least)
		}
	}
	for n, f := range s.first {
		s.at[n+1] = s.at[n] + int32(n) - f + 1
	}
	return s
}

// place is where the pair of nodes i <= j is kept, in the row of j.
func (s *skyline) place(i, j int32) int32 { return s.at[j] + i - s.first[j] }

// row is row n of the values a.
func (s *skyline) row(a []float64, n int) []float64 { return a[s.at[n]:s.at[n+1]] }

// cholesky factors a in place, diagonals as one over their root, since dividing
// is slow; false where a pivot is not above zero.
func (s *skyline) cholesky(a []float64) bool {
	for i := range s.first {
		fi, row := int(s.first[i]), s.row(a, i)
		n := i - fi
		for k := range row[:n] {
			fj, other := int(s.first[fi+k]), s.row(a, fi+k)
			m := len(other) - 1
			v := row[k]
			if from := max(fi, fj); from < fi+k {
				v -= floats.Dot(row[from-fi:k], other[from-fj:m])
			}
			row[k] = v * other[m]
		}
		pivot := row[n] - floats.Dot(row[:n], row[:n])
		if !(pivot > leastPivot*row[n]) {
			return false
		}
		row[n] = 1 / math.Sqrt(pivot)
	}
	return true
}

// leastPivot is what must be left of a diagonal, as a share: below it nothing
// holds the node but rounding.
const leastPivot = 1e-15

// back replaces x by the solution, a being factored by cholesky.
func (s *skyline) back(a, x []float64) {
	for i := range s.first {
		f, row := int(s.first[i]), s.row(a, i)
		n := i - f
		x[i] = (x[i] - floats.Dot(row[:n], x[f:i])) * row[n]
	}
	for i := len(s.first) - 1; i >= 0; i-- {
		f, row := int(s.first[i]), s.row(a, i)
		n := i - f
		x[i] *= row[n]
		floats.AddScaled(x[f:i], -x[i], row[:n])
	}
}

// lu solves equations whose two halves differ, in the same shape: lower holds
// rows, upper columns with the diagonal at their end, which becomes one over
// the pivot. Rows are not exchanged; false where a pivot is lost.
func (s *skyline) lu(lower, upper, x []float64) bool {
	for i := range s.first {
		fi, l, u := int(s.first[i]), s.row(lower, i), s.row(upper, i)
		n := i - fi
		for k := range l[:n] {
			fj, lj, uj := int(s.first[fi+k]), s.row(lower, fi+k), s.row(upper, fi+k)
			m := len(uj) - 1
			v := l[k]
			if from := max(fi, fj); from < fi+k {
				v -= floats.Dot(l[from-fi:k], uj[from-fj:m])
				u[k] -= floats.Dot(u[from-fi:k], lj[from-fj:m])
			}
			l[k] = v * uj[m]
		}
		u[n] -= floats.Dot(l[:n], u[:n])
		if !(math.Abs(u[n]) > 1e-300) {
			return false
		}
		u[n] = 1 / u[n]
		x[i] -= floats.Dot(l[:n], x[fi:i])
	}
	for i := len(s.first) - 1; i >= 0; i-- {
		f, u := int(s.first[i]), s.row(upper, i)
		n := i - f
		x[i] *= u[n]
		floats.AddScaled(x[f:i], -x[i], u[:n])
	}
	return true
}
