package frame

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// TestPortal: portal frames under a push H at one corner, equal I all round,
// height h and width b. With pinned feet the corner moment is Hh/2; with fixed
// feet it is Hh/2·3k/(6k + 1), k = (Ib/b)/(Ip/h) (frame tables, common
// practice; both follow from slope-deflection). Members 10 m2 in area keep
// shortening out, at the cost of some digits of balance.
func TestPortal(t *testing.T) {
	const push = 12.0
	for _, c := range []struct{ b, h, ib, ip float64 }{{4, 3, 1e-5, 1e-5}, {2.4, 2.5, 3e-6, 9e-7}, {6, 2, 1e-6, 4e-6}} {
		k := c.ib / c.b * c.h / c.ip
		for _, fixed := range []bool{false, true} {
			f := Frame{
				Nodes: []Node{{X: true, Y: true, R: fixed}, {Px: c.b, X: true, Y: true, R: fixed}, {Px: c.b, Py: c.h}, {Py: c.h}},
			}
			for _, m := range []struct {
				i, j int
				iz   float64
			}{{0, 3, c.ip}, {3, 2, c.ib}, {2, 1, c.ip}} {
				f.Members = append(f.Members, Member{I: m.i, J: m.j, E: 200e6, A: 10, Iz: m.iz})
			}
			s := solve(t, f, LoadCase{Nodes: [][3]float64{{}, {}, {}, {push, 0, 0}}})
			corner, foot := push*c.h/2, 0.0
			if fixed {
				corner = push * c.h / 2 * 3 * k / (6*k + 1)
				foot = push*c.h/2 - corner
			}
			near(t, "corner", math.Abs(s.Lines[1].M(0)), corner, 1e-3)
			near(t, "other corner", math.Abs(s.Lines[1].M(c.b)), corner, 1e-3)
			if d := math.Abs(s.Lines[0].M(0)) - foot; math.Abs(d) > 1e-3*corner {
				t.Errorf("foot moment off by %g of %g", d, foot)
			}
			near(t, "feet hold the push", -s.React[0][0]-s.React[1][0], push, 1e-7)
			near(t, "feet hold the overturning", s.React[1][1]*c.b+s.React[0][2]+s.React[1][2], push*c.h, 1e-7)
		}
	}
}

// TestCantilever: force, moment and line loads on a cantilever in any
// direction of the plane, tip deflection and turning (beam tables, common
// practice), with the deformed shape read along the member.
func TestCantilever(t *testing.T) {
	const l, ei, p, m, w = 3.0, 240.0, 5.0, 7.0, 4.0
	for _, angle := range []float64{0, 0.5, math.Pi / 2, 2.4, -1.1} {
		c, s := math.Cos(angle), math.Sin(angle)
		f := Frame{
			Nodes:   []Node{{X: true, Y: true, R: true}, {Px: l * c, Py: l * s}},
			Members: []Member{{I: 0, J: 1, E: ei, A: 1e6, Iz: 1}},
		}
		across := func(v *Solution) float64 { return -s*v.U[1][0] + c*v.U[1][1] }
		tip := solve(t, f, LoadCase{Nodes: [][3]float64{{}, {-s * p, c * p, 0}}})
		near(t, "tip force", across(tip), p*l*l*l/(3*ei), 1e-6)
		near(t, "tip force turning", tip.U[1][2], p*l*l/(2*ei), 1e-6)
		near(t, "root moment", tip.Lines[0].M(0), -p*l, 1e-9)
		turn := solve(t, f, LoadCase{Nodes: [][3]float64{{}, {0, 0, m}}})
		near(t, "tip moment", across(turn), m*l*l/(2*ei), 1e-6)
		line := solve(t, f, LoadCase{Members: []Load{Uniform(w, l)}})
		near(t, "line load", across(line), w*math.Pow(l, 4)/(8*ei), 1e-6)
		for _, x := range []float64{0, 0.3, 1, 2.2, l} {
			dx, dy := line.At(0, x)
			want := w * x * x * (x*x + 6*l*l - 4*l*x) / (24 * ei)
			if math.Abs(-s*dx+c*dy-want) > 1e-6*w*math.Pow(l, 4)/(8*ei) {
				t.Errorf("angle %g: at %g it moves %g, want %g", angle, x, -s*dx+c*dy, want)
			}
		}
		part := solve(t, f, LoadCase{Members: []Load{{{2, 0}, {3, 6}}}}) // a triangle at the tip
		near(t, "root moment of a part load", part.Lines[0].M(0), -3*(2+2.0/3), 1e-9)
	}
}

// TestHinges: a fixed beam with a hinge at midspan under uniform load is two
// cantilevers that lean on each other: root moments wl²/8 (half spans l/2
// each loaded by itself), no moment at the hinge.
func TestHinges(t *testing.T) {
	const l, w, ei = 4.0, 6.0, 100.0
	for _, side := range []int{0, 1} { // the hinge on either of the two members
		f := Frame{
			Nodes:   []Node{{X: true, Y: true, R: true}, {Px: l / 2}, {Px: l, X: true, Y: true, R: true}},
			Members: []Member{{I: 0, J: 1, E: ei, A: 1e3, Iz: 1}, {I: 1, J: 2, E: ei, A: 1e3, Iz: 1}},
		}
		f.Members[0].HingeJ, f.Members[1].HingeI = side == 0, side == 1
		s := solve(t, f, LoadCase{Members: []Load{Uniform(w, l/2), Uniform(w, l/2)}})
		near(t, "root", s.Lines[0].M(0), -w*l*l/8, 1e-9)
		if math.Abs(s.Lines[0].M(l/2)) > 1e-9 || math.Abs(s.Lines[1].M(0)) > 1e-9 {
			t.Errorf("moment at the hinge %g, %g", s.Lines[0].M(l/2), s.Lines[1].M(0))
		}
		near(t, "hinge moves", s.U[1][1], w*math.Pow(l/2, 4)/(8*ei), 1e-6)
	}
}

// TestSprings: a beam on two springs settles by its reactions; a spring
// against turning gives the end moment between pinned and fixed.
func TestSprings(t *testing.T) {
	const l, w, ei, k1, k2 = 3.0, 8.0, 150.0, 400.0, 900.0
	f := Frame{
		Nodes:   []Node{{X: true, KY: k1}, {Px: l, KY: k2}},
		Members: []Member{{I: 0, J: 1, E: ei, A: 1e3, Iz: 1}},
	}
	s := solve(t, f, LoadCase{Members: []Load{Linear(0, w, l)}})
	near(t, "left settles", s.U[0][1], w*l/6/k1, 1e-9)
	near(t, "right settles", s.U[1][1], w*l/3/k2, 1e-9)
	near(t, "moment does not change", s.Lines[0].MMax, w*l*l/(9*math.Sqrt(3)), 1e-9)
	for _, kr := range []float64{0, 10, 200, 1e9} {
		f := Frame{
			Nodes:   []Node{{X: true, Y: true, KR: kr}, {Px: l, Y: true}},
			Members: []Member{{I: 0, J: 1, E: ei, A: 1e3, Iz: 1}},
		}
		s := solve(t, f, LoadCase{Members: []Load{Uniform(w, l)}})
		// Turning θ: wl³/24EI - M l/3EI = θ, M = kr θ.
		want := kr * w * l * l * l / (24 * ei) / (1 + kr*l/(3*ei))
		if math.Abs(s.Lines[0].M(0)+want) > 1e-6*w*l*l {
			t.Errorf("spring %g: end moment %g, want %g", kr, s.Lines[0].M(0), -want)
		}
	}
}

// TestReciprocal: Maxwell-Betti: the movement at a due to a force at b equals
// the movement at b due to the same force at a, in random frames.
func TestReciprocal(t *testing.T) {
	rng := rand.New(rand.NewPCG(23, 24))
	for range 20 {
		f, _ := randomFrame(rng)
		k, err := f.Factor()
		if err != nil {
			t.Fatal(err)
		}
		unit := func(node, dir int) *Solution {
			lc := LoadCase{Nodes: make([][3]float64, len(f.Nodes))}
			lc.Nodes[node][dir] = 1
			s, err := k.Solve(lc)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		last := len(f.Nodes) - 1
		for _, d := range [][2]int{{0, 1}, {1, 2}, {0, 2}, {0, 0}} {
			ab, ba := unit(last, d[0]).U[last-1][d[1]], unit(last-1, d[1]).U[last][d[0]]
			if math.Abs(ab-ba) > 1e-8*(math.Abs(ab)+1e-9) {
				t.Errorf("movements %g and %g", ab, ba)
			}
		}
	}
}

// critical bisects for the axial load at which the frame can no longer stand.
func critical(t *testing.T, build func(p float64) (Frame, LoadCase), lo, hi float64) float64 {
	t.Helper()
	for range 40 {
		p := (lo + hi) / 2
		f, lc := build(p)
		_, err := f.SolveSecondOrder(lc)
		switch {
		case err == nil:
			lo = p
		case errors.Is(err, ErrUnstable):
			hi = p
		default:
			t.Fatal(err)
		}
	}
	return lo
}

// TestCriticalLoads: the four Euler cases and a portal free to sway with
// pinned feet and a rigid beam, whose posts buckle with twice their length.
func TestCriticalLoads(t *testing.T) {
	const l, ei = 2.5, 180.0
	pe := math.Pi * math.Pi * ei / (l * l)
	for _, c := range []struct {
		name       string
		foot, head Node
		factor     float64 // 1/K2
	}{
		{"pinned", Node{X: true, Y: true}, Node{Py: l, X: true}, 1},
		{"flagpole", Node{X: true, Y: true, R: true}, Node{Py: l}, 0.25},
		{"fixed and pinned", Node{X: true, Y: true, R: true}, Node{Py: l, X: true}, 2.0457},
		{"fixed", Node{X: true, Y: true, R: true}, Node{Py: l, X: true, R: true}, 4},
	} {
		got := critical(t, func(p float64) (Frame, LoadCase) {
			f := Frame{Nodes: []Node{c.foot, c.head}, Members: []Member{{I: 0, J: 1, E: ei, A: 1e4, Iz: 1}}}
			f, lc, _ := f.Refine(LoadCase{}, 16)
			lc.Nodes = [][3]float64{{}, {0, -p, 0}}
			return f, lc
		}, 0.1*c.factor*pe, 3*c.factor*pe)
		near(t, c.name, got, c.factor*pe, 1e-3)
	}
	got := critical(t, func(p float64) (Frame, LoadCase) {
		f := Frame{
			Nodes: []Node{{X: true, Y: true}, {Px: 3, X: true, Y: true}, {Px: 3, Py: l}, {Py: l}},
			Members: []Member{
				{I: 0, J: 3, E: ei, A: 1e4, Iz: 1}, {I: 1, J: 2, E: ei, A: 1e4, Iz: 1}, {I: 3, J: 2, E: ei, A: 1e4, Iz: 1e4},
			},
		}
		f, lc, _ := f.Refine(LoadCase{}, 8)
		lc.Nodes = [][3]float64{{}, {}, {0, -p, 0}, {0, -p, 0}}
		return f, lc
	}, 0.05*pe, pe)
	near(t, "swaying portal", got, pe/4, 2e-3)
}

// TestSwayColumn: a cantilever post under a push H and a load P: the tip moves
// by H·l³/3EI · 3(tan u - u)/u³, u = l·sqrt(P/EI) (beam-column theory,
// derived), and the root moment is H·l·tan u/u.
func TestSwayColumn(t *testing.T) {
	const l, ei, h = 2.5, 180.0, 4.0
	for _, share := range []float64{0.02, 0.3, 0.8} {
		p := share * math.Pi * math.Pi * ei / (4 * l * l)
		f := Frame{Nodes: []Node{{X: true, Y: true, R: true}, {Py: l}}, Members: []Member{{I: 0, J: 1, E: ei, A: 1e5, Iz: 1}}}
		f, lc, parts := f.Refine(LoadCase{}, 12)
		lc.Nodes = [][3]float64{{}, {h, -p, 0}}
		s, err := f.SolveSecondOrder(lc)
		if err != nil {
			t.Fatal(err)
		}
		u := l * math.Sqrt(p/ei)
		near(t, "tip", s.U[1][0], h*l*l*l/(3*ei)*3*(math.Tan(u)-u)/(u*u*u), 1e-4)
		near(t, "root", math.Abs(s.Lines[parts[0][0]].M(0)), h*l*math.Tan(u)/u, 1e-4)
	}
}

// TestOrder: the numbering is a permutation and keeps a closed ring narrow.
func TestOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(25, 26))
	f := ring(2.4, 2.5, 1e-6, 1e-6, 1e-6)
	f, _, _ = f.Refine(LoadCase{}, 25)
	perm := rng.Perm(len(f.Nodes)) // shuffled, as a careless caller would
	mixed := Frame{Nodes: make([]Node, len(f.Nodes))}
	for k, n := range f.Nodes {
		mixed.Nodes[perm[k]] = n
	}
	for _, m := range f.Members {
		m.I, m.J = perm[m.I], perm[m.J]
		mixed.Members = append(mixed.Members, m)
	}
	place := mixed.order()
	seen := make([]bool, len(place))
	for _, p := range place {
		if seen[p] {
			t.Fatalf("place %d twice", p)
		}
		seen[p] = true
	}
	for k, m := range mixed.Members {
		if d := place[m.I] - place[m.J]; d > 2 || d < -2 {
			t.Errorf("member %d spans %d places", k, d)
		}
	}
}
