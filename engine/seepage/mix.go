package seepage

import (
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// mixer speeds up a fixed-point iteration by combining its last steps so that
// their residuals cancel (Anderson 1965).
type mixer struct {
	depth  int
	step   float64     // share of the residual that a step takes
	x, f   []float64   // last point and residual
	dx, df [][]float64 // differences of points and residuals, the newest last
}

func newMixer(depth int, step float64) *mixer { return &mixer{depth: depth, step: step} }

// forget starts anew, when the problem itself has changed.
func (m *mixer) forget() { m.x, m.f, m.dx, m.df = nil, nil, nil, nil }

// next is the point to try after x gave g.
func (m *mixer) next(x, g []float64) []float64 {
	n := len(x)
	f := make([]float64, n)
	for i := range f {
		f[i] = g[i] - x[i]
	}
	if m.x != nil {
		// the differences take the room of the last point and residual
		dx, df := m.x, m.f
		for i := range dx {
			dx[i], df[i] = x[i]-dx[i], f[i]-df[i]
		}
		m.dx, m.df = append(m.dx, dx), append(m.df, df)
		if len(m.dx) > m.depth {
			m.dx, m.df = m.dx[1:], m.df[1:]
		}
	}
	m.x, m.f = x, f
	out := make([]float64, n)
	for i := range out {
		out[i] = x[i] + m.step*f[i]
	}
	gamma := m.weights()
	for k, c := range gamma {
		for i := range out {
			out[i] -= c * (m.dx[k][i] + m.step*m.df[k][i])
		}
	}
	return out
}

// weights are those of the differences that make the residual least.
func (m *mixer) weights() []float64 {
	k := len(m.df)
	if k == 0 {
		return nil
	}
	// normal equations with a little of the diagonal added, for steps that are
	// nearly the same
	a, b := mat.NewSymDense(k, nil), mat.NewVecDense(k, nil)
	for i := range k {
		for j := i; j < k; j++ {
			v := floats.Dot(m.df[i], m.df[j])
			if i == j {
				v *= 1 + 1e-10
			}
			a.SetSym(i, j, v)
		}
		b.SetVec(i, floats.Dot(m.df[i], m.f))
	}
	var c mat.Cholesky
	var w mat.VecDense
	if !c.Factorize(a) || c.SolveVecTo(&w, b) != nil {
		return nil
	}
	return w.RawVector().Data
}
