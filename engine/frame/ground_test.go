package frame

import (
	"errors"
	"math"
	"testing"

	"hillset/engine/quantity"
)

// tolBed: sixteen to some hundred springs for a bed that is even.
const tolBed = 1e-2

// bedded is a level beam of length l on ground of modulus k in n parts, n even,
// with the force p down at its middle and the line load q down.
func bedded(t *testing.T, l, ei, k, p, q float64, n int, lift bool) (Frame, LoadCase, []int) {
	t.Helper()
	f := Frame{Nodes: []Node{{X: true}, {Px: l}}, Members: []Member{{I: 0, J: 1, E: ei, A: 1, Iz: 1}}}
	var lc LoadCase
	if q != 0 {
		lc.Members = []Load{Uniform(-q, l)}
	}
	fine, loads, pieces, err := f.OnGround(lc, Bed{Member: 0, Modulus: k, Lift: lift, Parts: n})
	if err != nil {
		t.Fatal(err)
	}
	loads.Nodes = make([][3]float64, len(fine.Nodes))
	loads.Nodes[fine.Members[pieces[n/2]].I][1] = -p
	return fine, loads, pieces
}

// TestElasticGround: beams on an elastic foundation after Hetényi (1946,
// memory), with λ = (k/4EI)^¼: the infinite beam under a force has y = Pλ/2k
// and M = P/4λ below it; the finite beam with free ends has
// y = Pλ/2k·(cosh λl + cos λl + 2)/(sinh λl + sin λl) and
// M = P/4λ·(cosh λl − cos λl)/(sinh λl + sin λl).
func TestElasticGround(t *testing.T) {
	const p, ei = 40.0, 300.0
	t.Run("infinite beam", func(t *testing.T) {
		const k = 5000.0
		lambda := math.Pow(k/(4*ei), 0.25)
		l := 6 * math.Pi / lambda // the ends are e^(-3π) away
		f, lc, parts := bedded(t, l, ei, k, p, 0, 240, false)
		s := solve(t, f, lc)
		mid := f.Members[parts[120]].I
		near(t, "settlement", -s.U[mid][1], p*lambda/(2*k), 1e-3)
		near(t, "moment", -s.Lines[parts[120]].M(0), p/(4*lambda), tolBed)
	})
	for _, c := range []struct {
		ll    float64 // λl
		parts int
	}{{0.2, 16}, {1, 16}, {2, 16}, {3, 16}, {6, 32}, {6, 64}} {
		const l = 2.4
		lambda := c.ll / l
		k := 4 * ei * math.Pow(lambda, 4)
		f, lc, parts := bedded(t, l, ei, k, p, 0, c.parts, false)
		s := solve(t, f, lc)
		mid := f.Members[parts[c.parts/2]].I
		sum := math.Sinh(c.ll) + math.Sin(c.ll)
		near(t, "settlement of the middle", -s.U[mid][1], p*lambda/(2*k)*(math.Cosh(c.ll)+math.Cos(c.ll)+2)/sum, 2e-3)
		near(t, "moment in the middle", -s.Lines[parts[c.parts/2]].M(0), p/(4*lambda)*(math.Cosh(c.ll)-math.Cos(c.ll))/sum, tolBed)
		end := 2 * p * lambda / k * math.Cosh(c.ll/2) * math.Cos(c.ll/2) / sum
		if d := math.Abs(-s.U[0][1] - end); d > tolBed*p/(k*l) {
			t.Errorf("λl %g: the end settles %g, closed form %g", c.ll, -s.U[0][1], end)
		}
	}
	t.Run("rigid beam", func(t *testing.T) { // λl to 0: P/kl and Pl/8
		f, lc, parts := bedded(t, 2, 1e5, 50, p, 0, 32, false)
		s := solve(t, f, lc)
		near(t, "settlement", -s.U[0][1], p/(50*2), 1e-4)
		near(t, "moment", -s.Lines[parts[16]].M(0), p*2/8, 5e-3)
	})
	t.Run("even load", func(t *testing.T) { // settles q/k everywhere, without moment
		const q, k, l = 18.0, 4000.0, 2.4
		f, lc, _ := bedded(t, l, ei, k, 0, q, 32, true)
		s, lifted, err := f.SolveContact(lc)
		if err != nil || len(lifted) > 0 {
			t.Fatal(lifted, err)
		}
		for n := range f.Nodes {
			near(t, "settlement", -s.U[n][1], q/k, 2e-3) // the load between two springs bends a little
		}
		for i := range s.Lines {
			if m := math.Abs(s.Lines[i].MMax); m > 1e-3*q*l*l/8 {
				t.Errorf("part %d bends by %g", i, m)
			}
		}
	})
}

// TestLiftOff: ground that does not pull. A stiff beam under a force off its
// middle beyond a sixth presses on three times what is left of its length (the
// triangle of statics, derived); pads below both ends let the far one go.
func TestLiftOff(t *testing.T) {
	const l, k, p = 3.0, 2000.0, 30.0
	f := Frame{Nodes: []Node{{X: true}, {Px: l}}, Members: []Member{{I: 0, J: 1, E: 1e6, A: 1, Iz: 1}}}
	fine, lc, pieces, err := f.OnGround(LoadCase{}, Bed{Member: 0, Modulus: k, Lift: true, Parts: 100})
	if err != nil {
		t.Fatal(err)
	}
	const left = 0.6 // m from the edge to the force
	lc.Nodes = make([][3]float64, len(fine.Nodes))
	lc.Nodes[fine.Members[pieces[20]].I][1] = -p
	s, lifted, err := fine.SolveContact(lc)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "share that lifts", float64(len(lifted))/101, (l-3*left)/l, 3e-2)
	near(t, "edge pressure", -k*s.U[0][1], 2*p/(3*left), tolBed)
	sum := 0.0
	for n := range fine.Nodes {
		if sum += s.React[n][1]; s.React[n][1] < -1e-6*p {
			t.Errorf("the ground pulls node %d by %g", n, -s.React[n][1])
		}
	}
	near(t, "the ground carries the force", sum, p, 1e-6) // a very stiff beam: rounding of its own forces
	// With pull the far end would be held down: another answer.
	held := solve(t, fine, lc)
	if held.React[1][1] >= 0 {
		t.Error("without lift-off nothing pulls: the case tells nothing")
	}

	pads := Frame{
		Nodes: []Node{{X: true, KY: 900, Lift: true}, {Px: 1, KY: 900, Lift: true}, {Px: 2, KY: 900, Lift: true}},
		Members: []Member{
			{I: 0, J: 1, E: 1e7, A: 1, Iz: 1}, {I: 1, J: 2, E: 1e7, A: 1, Iz: 1},
		},
	}
	push := LoadCase{Nodes: [][3]float64{{0, -20}, {0, -4}}}
	s, lifted, err = pads.SolveContact(push)
	if err != nil || len(lifted) != 1 || lifted[0] != 2 || math.Abs(s.React[2][1]) > 1e-8 {
		t.Errorf("lifted %v, reactions %v, %v", lifted, s.React, err)
	}
	near(t, "first pad by moments", s.React[0][1], 20, 1e-9)
	s = solve(t, pads, push) // with pull the far pad holds it down
	if s.React[2][1] >= 0 {
		t.Error("the far pad does not pull")
	}
}

// TestLiftedOff: what the ground cannot hold is told, not solved.
func TestLiftedOff(t *testing.T) {
	f, lc, _ := bedded(t, 2, 300, 1000, -5, 0, 8, true) // pulled up
	if _, _, err := f.SolveContact(lc); !errors.Is(err, ErrUnstable) {
		t.Errorf("pulled up: %v", err)
	}
	tip := Frame{
		Nodes:   []Node{{X: true, KY: 900, Lift: true}, {Px: 1, KY: 900, Lift: true}, {Px: 2}},
		Members: []Member{{I: 0, J: 1, E: 1e7, A: 1, Iz: 1}, {I: 1, J: 2, E: 1e7, A: 1, Iz: 1}},
	}
	if _, _, err := tip.SolveContact(LoadCase{Nodes: [][3]float64{{}, {}, {0, -3}}}); !errors.Is(err, ErrUnstable) {
		t.Errorf("tipped over: %v", err)
	}
	tip.Nodes[0].KY = 0
	if _, _, err := tip.SolveContact(LoadCase{}); !errors.Is(err, ErrMechanism) {
		t.Errorf("on one pad: %v", err)
	}
}

func TestBedRefuses(t *testing.T) {
	nan := math.NaN()
	ok := Frame{Nodes: []Node{{X: true}, {Px: 2}}, Members: []Member{{I: 0, J: 1, E: 1, A: 1, Iz: 1}}}
	steep := Frame{Nodes: []Node{{X: true}, {Px: 2, Py: 0.1}}, Members: ok.Members}
	for name, c := range map[string]struct {
		f  Frame
		b  Bed
		lc LoadCase
	}{
		"NaN modulus": {ok, Bed{0, nan, false, 8}, LoadCase{}}, "no modulus": {ok, Bed{0, 0, false, 8}, LoadCase{}},
		"no member": {ok, Bed{1, 10, false, 8}, LoadCase{}}, "one part": {ok, Bed{0, 10, false, 1}, LoadCase{}},
		"not level": {steep, Bed{0, 10, false, 8}, LoadCase{}}, "NaN load": {ok, Bed{0, 10, false, 8}, LoadCase{Members: []Load{Uniform(nan, 2)}}},
		"no frame": {Frame{}, Bed{0, 10, false, 8}, LoadCase{}},
	} {
		if _, _, _, err := c.f.OnGround(c.lc, c.b); !errors.Is(err, quantity.ErrRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
