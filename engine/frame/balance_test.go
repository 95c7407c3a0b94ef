package frame

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// anyFrame is a random net of bars in any direction with random supports,
// springs and hinges, loaded everywhere. It may well be a mechanism.
func anyFrame(rng *rand.Rand) (Frame, LoadCase) {
	var f Frame
	var lc LoadCase
	n := 3 + rng.IntN(8)
	for k := range n {
		// No two nodes near each other: a jittered grid.
		f.Nodes = append(f.Nodes, Node{Px: 2.5*float64(k%3) + rng.Float64(), Py: 2.5*float64(k/3) + rng.Float64()})
		lc.Nodes = append(lc.Nodes, [3]float64{15 * rng.NormFloat64(), 15 * rng.NormFloat64(), 0})
	}
	for range 1 + rng.IntN(3) {
		v := &f.Nodes[rng.IntN(n)]
		v.X, v.Y, v.R = v.X || rng.IntN(3) > 0, v.Y || rng.IntN(3) > 0, v.R || rng.IntN(2) == 0
	}
	for range rng.IntN(3) {
		v := &f.Nodes[rng.IntN(n)]
		v.KX, v.KY, v.KR = 5000*rng.Float64(), 5000*rng.Float64(), 800*rng.Float64()
	}
	bar := func(i, j int) {
		m := Member{I: i, J: j, E: 200e6, A: 1e-3 * (0.5 + rng.Float64()), Iz: 1e-6 * (0.5 + 3*rng.Float64())}
		m.HingeI, m.HingeJ = rng.IntN(5) == 0, rng.IntN(5) == 0
		f.Members = append(f.Members, m)
		lc.Members = append(lc.Members, anyLoad(rng, f.Length(len(f.Members)-1)))
	}
	for k := 1; k < n; k++ { // a tree reaches every node, some bars close it
		bar(rng.IntN(k), k)
	}
	for range rng.IntN(n) {
		if i, j := rng.IntN(n), rng.IntN(n); i != j {
			bar(i, j)
		}
	}
	for k := range f.Nodes { // moments only where something takes them
		if f.Nodes[k].R || f.turns(k) {
			lc.Nodes[k][2] = 10 * rng.NormFloat64()
		}
	}
	return f, lc
}

// turns tells whether node k has a turning of its own.
func (f *Frame) turns(k int) bool {
	for _, m := range f.Members {
		if m.I == k && !m.HingeI || m.J == k && !m.HingeJ {
			return true
		}
	}
	return f.Nodes[k].KR > 0
}

// anyLoad is nothing, a trapezoid, a part load, or something with gaps, jumps
// and both signs.
func anyLoad(rng *rand.Rand, l float64) Load {
	switch rng.IntN(4) {
	case 0:
		return nil
	case 1:
		return Linear(40*rng.Float64(), 40*rng.Float64(), l)
	case 2:
		from := l * rng.Float64() * 0.8
		return Load{{from, 30 * rng.Float64()}, {from + (l-from)*rng.Float64(), 30 * rng.NormFloat64()}}
	}
	return randomLoad(rng, l)
}

// loose tells by kinematics alone whether a frame can move without straining
// anything: the movements of the nodes against the strains of bars (stretch,
// and the turning of every end that is not hinged against the chord), supports
// and springs. A movement without strain is one of a mechanism.
func loose(f *Frame) bool {
	var rows [][]float64
	row := func() []float64 {
		rows = append(rows, make([]float64, 3*len(f.Nodes)))
		return rows[len(rows)-1]
	}
	for k, n := range f.Nodes {
		for d, held := range [3]bool{n.X || n.KX > 0, n.Y || n.KY > 0, n.R || n.KR > 0 || !f.turns(k)} {
			if held {
				row()[3*k+d] = 1
			}
		}
	}
	for k, m := range f.Members {
		c, s := f.axis(k)
		l := f.Length(k)
		r := row()
		r[3*m.I], r[3*m.I+1], r[3*m.J], r[3*m.J+1] = -c, -s, c, s
		for end, hinged := range [2]bool{m.HingeI, m.HingeJ} {
			if hinged {
				continue
			}
			r := row()
			r[3*m.I], r[3*m.I+1], r[3*m.J], r[3*m.J+1] = -s/l, c/l, s/l, -c/l
			r[3*[2]int{m.I, m.J}[end]+2]++
		}
	}
	if len(rows) < 3*len(f.Nodes) {
		return true
	}
	a := mat.NewDense(len(rows), 3*len(f.Nodes), nil)
	for i, r := range rows {
		a.SetRow(i, r)
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDNone) {
		panic("no singular values")
	}
	v := svd.Values(nil)
	return v[len(v)-1] < 1e-9*v[0]
}

// TestAnyFrameBalances: random frames are either mechanisms, by kinematics
// too, or balance as a whole, at every node, along every bar and at every
// spring, to 1e-9 of the forces at work.
func TestAnyFrameBalances(t *testing.T) {
	rng := rand.New(rand.NewPCG(41, 42))
	stand, fall := 0, 0
	for range 1200 {
		f, lc := anyFrame(rng)
		s, err := f.Solve(lc)
		if moves := loose(&f); moves != errors.Is(err, ErrMechanism) {
			t.Fatalf("mechanism by kinematics: %v, by the solver: %v: %+v", moves, err, f)
		}
		if err != nil {
			fall++
			continue
		}
		stand++
		balanced(t, &f, lc, s)
	}
	if stand < 300 || fall < 100 {
		t.Errorf("%d frames stand and %d are mechanisms: the test sees too few of a kind", stand, fall)
	}
}

// balanced checks a first-order solution against statics.
func balanced(t *testing.T, f *Frame, lc LoadCase, s *Solution) {
	t.Helper()
	var sum [3]float64
	nodes := make([][3]float64, len(f.Nodes)) // what acts on every node
	scale := 0.0
	see := func(vs ...float64) {
		for _, v := range vs {
			scale = math.Max(scale, math.Abs(v))
		}
	}
	for k := range f.Members {
		see(s.Ends[k][:]...)
	}
	for k, n := range f.Nodes {
		see(s.React[k][:]...)
		see(lc.Nodes[k][:]...)
		for d := range 3 {
			nodes[k][d] = lc.Nodes[k][d] + s.React[k][d]
		}
		sum[0], sum[1] = sum[0]+nodes[k][0], sum[1]+nodes[k][1]
		sum[2] += nodes[k][2] + n.Px*nodes[k][1] - n.Py*nodes[k][0]
	}
	for k, m := range f.Members {
		c, sn := f.axis(k)
		q, l := s.Ends[k], f.Length(k)
		w, _ := lc.Members[k].Total()
		first := moment0(lc.Members[k])
		i := f.Nodes[m.I]
		sum[0], sum[1] = sum[0]-sn*w, sum[1]+c*w
		sum[2] += i.Px*c*w + i.Py*sn*w + first
		for b, node := range [2]int{m.I, m.J} {
			nodes[node][0] -= c*q[3*b] - sn*q[3*b+1]
			nodes[node][1] -= sn*q[3*b] + c*q[3*b+1]
			nodes[node][2] -= q[3*b+2]
		}
		// The bar by itself: along, across and about its start.
		for d, v := range [3]float64{q[0] + q[3], q[1] + q[4] + w, q[2] + q[5] + q[4]*l + first} {
			if math.Abs(v) > balance*scale*math.Max(1, l) {
				t.Errorf("bar %d, direction %d: out of balance by %g of %g", k, d, v, scale)
			}
		}
		if m.HingeI && math.Abs(q[2]) > balance*scale || m.HingeJ && math.Abs(q[5]) > balance*scale {
			t.Errorf("bar %d: moments %g, %g at its hinges", k, q[2], q[5])
		}
	}
	const arm = 10.0 // m, about the extent of the frames
	for d, v := range sum {
		if math.Abs(v) > balance*scale*arm {
			t.Errorf("whole frame, direction %d: out of balance by %g of %g", d, v, scale)
		}
	}
	for k, n := range f.Nodes {
		for d, held := range [3]bool{n.X || n.KX > 0, n.Y || n.KY > 0, n.R || n.KR > 0} {
			if math.Abs(nodes[k][d]) > balance*scale {
				t.Errorf("node %d direction %d: out of balance by %g of %g", k, d, nodes[k][d], scale)
			}
			if !held && math.Abs(s.React[k][d]) > balance*scale {
				t.Errorf("free node %d direction %d needs %g of %g", k, d, s.React[k][d], scale)
			}
		}
		for d, spring := range [3]float64{n.KX, n.KY, n.KR} {
			if held := [3]bool{n.X, n.Y, n.R}[d]; spring > 0 && !held && math.Abs(s.React[k][d]+spring*s.U[k][d]) > balance*scale {
				t.Errorf("spring %d at node %d: %g for a movement of %g", d, k, s.React[k][d], s.U[k][d])
			}
		}
	}
}

// moment0 is the moment of a line load about its start.
func moment0(ld Load) (m float64) {
	for k := 1; k < len(ld); k++ {
		a, b := ld[k-1], ld[k]
		m += (b.S - a.S) * (a.P*(2*a.S+b.S) + b.P*(a.S+2*b.S)) / 6
	}
	return m
}

// TestPortalEuler: portals with posts of length h and a beam of finite
// stiffness, free to sway, buckle at P = EI·u²/h² with u·tan u = 6G on pinned
// feet and u/tan u = -6G on fixed ones, G = (Ib/b)/(Ip/h) (stability of
// frames, memory; both from the slope-deflection of a compressed post).
func TestPortalEuler(t *testing.T) {
	const h, b, ei = 2.5, 2.4, 180.0
	root := func(f func(u float64) float64, lo, hi float64) float64 {
		for range 80 {
			if mid := (lo + hi) / 2; f(mid)*f(lo) > 0 {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo
	}
	for _, ratio := range []float64{0.3, 1, 4} { // Ib/Ip
		g := ratio / b * h
		for _, fixed := range []bool{false, true} {
			u := root(func(u float64) float64 { return u*math.Sin(u) - 6*g*math.Cos(u) }, 1e-6, math.Pi/2)
			if fixed {
				u = root(func(u float64) float64 { return u*math.Cos(u) + 6*g*math.Sin(u) }, math.Pi/2, math.Pi-1e-9)
			}
			want := ei * u * u / (h * h)
			got := critical(t, func(p float64) (Frame, LoadCase) {
				f := Frame{
					Nodes: []Node{{X: true, Y: true, R: fixed}, {Px: b, X: true, Y: true, R: fixed}, {Px: b, Py: h}, {Py: h}},
					Members: []Member{
						{I: 0, J: 3, E: ei, A: 1e4, Iz: 1}, {I: 1, J: 2, E: ei, A: 1e4, Iz: 1}, {I: 3, J: 2, E: ei, A: 1e4, Iz: ratio},
					},
				}
				f, lc, _ := f.Refine(LoadCase{}, 8)
				lc.Nodes = [][3]float64{{}, {}, {0, -p, 0}, {0, -p, 0}}
				return f, lc
			}, 0.3*want, 3*want)
			near(t, "critical load", got, want, 2e-3)
		}
	}
}

// TestSecant: ST-13 (derived), second route: the second-order solution of a
// pinned strip under an even load and thrust against M = (q/k²)(sec(kL/2) − 1)
// over random strips up to nine tenths of the Euler load.
func TestSecant(t *testing.T) {
	rng := rand.New(rand.NewPCG(43, 44))
	for range 20 {
		l, ei, q, share := 1+2*rng.Float64(), 20+60*rng.Float64(), 1+6*rng.Float64(), 0.05+0.85*rng.Float64()
		p := share * math.Pi * math.Pi * ei / (l * l)
		f := Frame{Nodes: []Node{{X: true, Y: true}, {Px: l, Y: true}}, Members: []Member{{I: 0, J: 1, E: ei, A: 1e3, Iz: 1}}}
		f, lc, parts := f.Refine(LoadCase{Members: []Load{Uniform(q, l)}}, 16)
		lc.Nodes = [][3]float64{{}, {-p, 0, 0}}
		s, err := f.SolveSecondOrder(lc)
		if err != nil {
			t.Fatal(err)
		}
		k := math.Sqrt(p / ei)
		near(t, "M2", s.Lines[parts[0][8]].M(0), q/(k*k)*(1/math.Cos(k*l/2)-1), 1e-3)
	}
}

// TestBow: the bow of a beam, and of a post of a swaying portal, is the same in
// one piece and in five.
func TestBow(t *testing.T) {
	rng := rand.New(rand.NewPCG(45, 46))
	for range 50 {
		f, lc := randomFrame(rng)
		s := solve(t, f, lc)
		fine, loads, parts := f.Refine(lc, 5)
		r := solve(t, fine, loads)
		for k := range f.Members {
			w, at := s.Bow([]int{k})
			v, x := r.Bow(parts[k])
			sag, _ := s.Lines[k].Sag()
			if math.Abs(w-sag) > 1e-6*math.Abs(sag)+1e-12 || math.Abs(math.Abs(v)-math.Abs(w)) > 1e-5*math.Abs(w)+1e-9 {
				t.Errorf("member %d bows %g at %g, in five pieces %g at %g; its sag is %g", k, w, at, v, x, sag)
			}
		}
	}
}
