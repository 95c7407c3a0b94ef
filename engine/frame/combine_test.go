package frame

import (
	"math"
	"math/rand"
	"testing"
)

// portal is a frame with a hinge, a spring and sway.
func portal() Frame {
	return Frame{
		Nodes: []Node{{X: true, Y: true, R: true}, {Px: 0, Py: 3}, {Px: 4, Py: 3.5}, {Px: 4, Py: 0, X: true, Y: true, KR: 500}},
		Members: []Member{
			{I: 0, J: 1, E: 200e6, A: 2e-3, Iz: 3e-6},
			{I: 1, J: 2, E: 200e6, A: 3e-3, Iz: 5e-6, HingeJ: true},
			{I: 2, J: 3, E: 200e6, A: 2e-3, Iz: 3e-6},
		},
	}
}

// TestCombine: the combination of solved load cases is the solution of the
// combined load, member by member, in memory used before as in new.
func TestCombine(t *testing.T) {
	f := portal()
	k, err := f.Factor()
	if err != nil {
		t.Fatal(err)
	}
	cases := []LoadCase{
		{Members: []Load{nil, Uniform(12, f.Length(1))}},
		{Nodes: [][3]float64{{}, {5, 0, 1}}, Members: []Load{Linear(8, 2, 3)}},
		{Members: []Load{{{0.5, 3}, {1.5, 9}}, {{1, 4}, {2, 4}}, Uniform(-3, f.Length(2))}},
	}
	parts := make([]*Solution, len(cases))
	for i, lc := range cases {
		parts[i] = &Solution{}
		for range 2 { // the second time in memory used before
			if err := k.SolveEnds(lc, parts[i]); err != nil {
				t.Fatal(err)
			}
		}
	}
	rng := rand.New(rand.NewSource(5))
	var got Solution
	for range 20 {
		factors := []float64{rng.Float64(), 2*rng.Float64() - 1, 1.6}
		sum := LoadCase{Nodes: make([][3]float64, len(f.Nodes)), Members: make([]Load, len(f.Members))}
		for i, lc := range cases {
			for n, v := range lc.Nodes {
				for d := range 3 {
					sum.Nodes[n][d] += factors[i] * v[d]
				}
			}
			for m, ld := range lc.Members {
				sum.Members[m] = Add(sum.Members[m], ld.Scale(factors[i]))
			}
		}
		want, err := k.Solve(sum)
		if err != nil {
			t.Fatal(err)
		}
		got.Combine(parts, factors, sum)
		for m := range f.Members {
			alike(t, "N", got.N[m], want.N[m])
			alike(t, "MMax", got.Lines[m].MMax, want.Lines[m].MMax)
			alike(t, "VMax", got.Lines[m].VMax, want.Lines[m].VMax)
			alike(t, "W", got.Lines[m].W(0.4), want.Lines[m].W(0.4))
		}
		for n := range f.Nodes {
			for d := range 3 {
				alike(t, "U", got.U[n][d], want.U[n][d])
				alike(t, "React", got.React[n][d], want.React[n][d])
			}
		}
	}
}

// alike compares two routes of one linear solution: rounding of values of the
// order of 10.
func alike(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9 {
		t.Errorf("%s: %g, solved at once %g", what, got, want)
	}
}

// TestPlus: adding a share of a load to another gives the sum, whether or not
// they have the same places, and leaves the share alone.
func TestPlus(t *testing.T) {
	a, b, c := Linear(2, 6, 3), Linear(1, -1, 3), Load{{1, 4}, {2, 4}}
	keep := c.Scale(1)
	sum := Load(nil).Plus(a, 1).Plus(b, 0.5).Plus(c, 2)
	for _, s := range []float64{0.2, 0.9, 1.1, 1.9, 2.5} {
		x, _ := sum.At(s)
		pa, _ := a.At(s)
		pb, _ := b.At(s)
		pc, _ := c.At(s)
		alike(t, "sum", x, pa+0.5*pb+2*pc)
	}
	if again := sum[:0].Plus(b, 3); len(again) != 2 || again[1].P != -3 {
		t.Errorf("an emptied load takes the next one as %v", again)
	}
	for i := range c {
		if c[i] != keep[i] {
			t.Error("the added load changed")
		}
	}
}

// TestReactions: the reactions alone are those of the solved beam, whatever
// its stiffness.
func TestReactions(t *testing.T) {
	rng := rand.New(rand.NewSource(6))
	for range 50 {
		places := []float64{0}
		for range 1 + rng.Intn(4) {
			places = append(places, places[len(places)-1]+0.3+rng.Float64())
		}
		l := places[len(places)-1]
		load := Load{{0.1 * l, 10 * rng.Float64()}, {0.6 * l, 20 * rng.Float64()}, {0.6 * l, 5}, {l, rng.Float64()}}
		m, err := Continuous(places, load, 1+1000*rng.Float64())
		if err != nil {
			t.Fatal(err)
		}
		got, err := Reactions(places, load)
		if err != nil {
			t.Fatal(err)
		}
		for k := range got {
			alike(t, "reaction", got[k], m.Reactions[k])
		}
	}
	if _, err := Reactions([]float64{0, 0}, nil); err == nil {
		t.Error("two supports at one place have reactions")
	}
}

func BenchmarkCombine(b *testing.B) {
	f := portal()
	k, err := f.Factor()
	if err != nil {
		b.Fatal(err)
	}
	lc := LoadCase{Members: []Load{nil, Uniform(12, f.Length(1))}}
	part := &Solution{}
	if err := k.SolveEnds(lc, part); err != nil {
		b.Fatal(err)
	}
	var s Solution
	for b.Loop() {
		s.Combine([]*Solution{part, part}, []float64{0.5, 0.5}, lc)
	}
}
