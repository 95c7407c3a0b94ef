package seepage

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"hillset/geom"
)

// hardWay forces a section through Newton's method.
func hardWay(t *testing.T, d *Domain, g Grain) *Flow {
	t.Helper()
	m, err := d.Build(g)
	if err != nil {
		t.Fatal(err)
	}
	f, err := newSolver(m).hard()
	if err != nil {
		t.Fatal(err)
	}
	if f.Rough {
		t.Error("the answer is rough")
	}
	if !f.Along {
		t.Errorf("%d rounds: this was the plain iteration", f.Rounds)
	}
	return f
}

// SE-02, SE-03, SE-04 and SE-10 by Newton's method: it must be as exact as the
// plain iteration, within 2 % of the discharge on a mesh of h1/20, and come
// nearer with a finer mesh.
func TestExactCasesTheHardWay(t *testing.T) {
	right := func(l float64) func(f *Flow) float64 {
		return func(f *Flow) float64 { return f.outAt(func(v geom.Vec) bool { return v[0] == l }) }
	}
	left := func(f *Flow) float64 { return -f.outAt(func(v geom.Vec) bool { return v[0] == 0 }) }
	block := func(l, h1, h2, rain float64) *Domain {
		d := dam(l, h1, 1e-5)
		d.Left.Head, d.Right, d.Recharge = h1, Side{Head: h2, Face: true}, rain
		return d
	}
	layers := &Domain{Zones: []Zone{ground("low", rect(0, 0, 10, 1.5), 5e-7, 5e-7), ground("mid", rect(0, 1.5, 10, 3), 5e-6, 5e-6), ground("top", rect(0, 3, 10, 6), 3e-5, 3e-5)},
		Left: Side{Head: 5}, Right: Side{Head: 1, Face: true}, Pond: math.NaN()}
	rained := dam(25, 5, 1e-5)
	rained.Left.Head, rained.Right, rained.Recharge = 4, Side{Head: 1.5, Face: true}, 1e-7
	notch := geom.Region{{Outer: geom.Ring{{0, 0}, {7.2, 0}, {7.2, 0.3}, {7.5, 0.3}, {7.5, 3}, {0, 3}}}}
	drained := &Domain{Zones: []Zone{ground("soil", notch, 1e-5, 1e-5)}, Left: Side{Head: 3}, Right: closed, Pond: math.NaN()}
	for _, c := range []struct {
		name string
		d    *Domain
		size float64
		q    func(*Flow) float64
		want float64
		tol  float64
	}{
		{"SE-02 5 wide", block(5, 10, 2, 0), 0.5, right(5), 9.6e-5, 0.02},
		{"SE-02 16 wide", block(16, 24, 4, 0), 1.2, right(16), 17.5e-5, 0.02},
		{"SE-02 10 wide", block(10, 10, 2, 0), 0.5, right(10), 4.8e-5, 0.02},
		{"SE-02 6 wide", block(6, 4, 1, 0), 0.2, right(6), 1.25e-5, 0.02},
		{"SE-03", layers, 0.25, right(10), 8.356e-6, 0.02},
		{"SE-04 out", rained, 0.25, right(25), 4e-6, 0.02},
		{"SE-04 in", rained, 0.25, left, 1.5e-6, 0.02},
		{"SE-10", drained, 0.15, left, 0.625e-5, 0.04},
	} {
		t.Run(c.name, func(t *testing.T) {
			coarse := c.q(hardWay(t, c.d, Grain{c.size, c.size, 0.2}))/c.want - 1
			fine := c.q(hardWay(t, c.d, Grain{c.size / 2, c.size / 2, 0.2}))/c.want - 1
			t.Logf("q %+.2f %%, on a mesh twice as fine %+.2f %%", 100*coarse, 100*fine)
			if math.Abs(coarse) > c.tol || math.Abs(fine) > math.Max(math.Abs(coarse), 2e-3) {
				t.Errorf("q off by %+.2f %% and %+.2f %%", 100*coarse, 100*fine)
			}
		})
	}
}

// The equations along edges and the plain ones agree on sections at random that
// both settle, but where a film thinner than the mesh runs past a drain; how much
// too much flows without the edges below zero is told.
func TestAlongEdgesAgainstPlain(t *testing.T) {
	compared, apart, most, rough := 0, 0, 0.0, []float64(nil)
	for seed := range int64(40) {
		d := anySection(rand.New(rand.NewSource(seed)))
		m, err := d.Build(Grain{0.3, 1, 0.2})
		if err != nil {
			t.Fatal(err)
		}
		plain, err := m.Solve(nil)
		if err != nil || plain.Along {
			continue
		}
		hard, err := newSolver(m).hard()
		if err != nil {
			t.Errorf("section %d: %v", seed, err)
			continue
		}
		if hard.Rough {
			continue
		}
		compared++
		in := func(f *Flow) float64 { v := f.Sum(0, 0); return v.In + v.Rain }
		off := in(hard)/in(plain) - 1
		most = math.Max(most, math.Abs(off))
		if math.Abs(off) > 0.05 {
			apart++
			t.Logf("section %d: %.4g plainly, %+.1f %% along edges", seed, in(plain), 100*off)
		}
		s := newSolver(m)
		wet, err := s.soaked()
		if err != nil {
			t.Fatal(err)
		}
		w := s.newton(0)
		if h, err := w.settle(wet, firstTau, bareRounds); err == nil {
			rough = append(rough, in(w.flow(h))/in(plain)-1)
		}
	}
	t.Logf("%d compared, at most %.1f %% apart; without the edges below zero %s", compared, 100*most, fmt.Sprintf("%.3f", rough))
	if apart*20 > compared || most > 0.25 {
		t.Errorf("%d of %d sections are more than 5 %% apart", apart, compared)
	}
	if compared < 20 {
		t.Errorf("only %d sections were compared", compared)
	}
}
