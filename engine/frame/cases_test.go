package frame

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// strip is what the closed forms of the structure reference, section 4
// (derived), give for a wall strip under p0 at the top and p0 + w at the
// bottom, by how its ends are held.
type strip struct{ rt, mb, mt float64 }

func closedStrip(p0, w, l float64, fixB, fixT bool) (s strip) {
	switch {
	case fixB && fixT:
		return strip{p0*l/2 + 3*w*l/20, -p0*l*l/12 - w*l*l/20, -p0*l*l/12 - w*l*l/30}
	case fixB:
		return strip{3*p0*l/8 + w*l/10, -p0*l*l/8 - w*l*l/15, 0}
	case fixT:
		return strip{5*p0*l/8 + 9*w*l/40, 0, -p0*l*l/8 - 7*w*l*l/120}
	}
	return strip{rt: p0*l/2 + w*l/6}
}

// TestCasesByClosedForm sets the solver against the closed forms behind ST-07
// to ST-12 (all derived), with the numbers of each case: tighter than the
// printed values, which are rounded.
func TestCasesByClosedForm(t *testing.T) {
	held := func(t *testing.T, p0, w, l, ei float64, fixB, fixT bool) *Beam {
		f, lc := wall(l, ei, 1, Linear(p0+w, p0, l), fixB, fixT)
		b := &solve(t, f, lc).Lines[0]
		want := closedStrip(p0, w, l, fixB, fixT)
		for _, v := range [][2]float64{{b.Rb, want.rt}, {b.M(0), want.mb}, {b.M(l), want.mt}} {
			if math.Abs(v[0]-v[1]) > 1e-8*w*l*l {
				t.Errorf("held %v, %v: %g, closed form %g", fixB, fixT, v[0], v[1])
			}
		}
		return b
	}
	t.Run("ST-07", func(t *testing.T) {
		for k := range 4 {
			held(t, 5.4, 21.6, 2.40, 65.72, k&1 > 0, k&2 > 0)
		}
	})
	t.Run("ST-08", func(t *testing.T) { // inputs verified; ft, lb
		b := held(t, 120, 900, 15, 1e6, true, false)
		near(t, "M base", -b.M(0), 900*225/15.0+120*225/8.0, 1e-8)
	})
	t.Run("ST-09", func(t *testing.T) {
		m, rt, y := partial(9, 1.80, 2.40)
		f, lc := wall(2.40, 65, 1, fillLoad(9, 1.80), false, false)
		b := &solve(t, f, lc).Lines[0]
		near(t, "M", b.MMax, m, 1e-8)
		near(t, "Rt", b.Rb, rt, 1e-8)
		near(t, "y0", 1.80-b.SMax, y, 1e-6)
	})
	t.Run("ST-10", func(t *testing.T) { // the height at which the formula gives Mn/1.67
		for _, g := range []float64{4.712, 7.068, 9.424, 9, 14.81} {
			lo, hi := 0.0, 2.40
			for range 60 {
				if m, _, _ := partial(g, (lo+hi)/2, 2.40); m > 5.550/1.67 {
					hi = (lo + hi) / 2
				} else {
					lo = (lo + hi) / 2
				}
			}
			f, lc := wall(2.40, 65, 1, fillLoad(g, lo), false, false)
			near(t, "M at that height", solve(t, f, lc).Lines[0].MMax, 5.550/1.67, 1e-8)
		}
	})
	t.Run("ST-11", func(t *testing.T) { // rotation equations and the uniform form
		const b, h, p = 2.40, 2.50, 10.0
		for _, ir := range []float64{1e-6, 3e-6} {
			s := solve(t, ring(b, h, 1e-6, ir, ir), ringLoads(b, h, p, p, p, 0, 1, 1))
			mt, mb := closedRing(b, h, 1e-6, ir, ir, p, p, p, 0)
			a := h / b
			k := a * ir / 1e-6
			near(t, "both routes", mt, p*b*b*(1+a*a*k)/(12*(1+k)), 1e-12)
			near(t, "top corner", -s.Lines[2].M(0), mt, 1e-6)
			near(t, "bottom corner", -s.Lines[0].M(0), mb, 1e-6)
			near(t, "mid roof", s.Lines[2].M(b/2), p*b*b/8-mt, 1e-6)
		}
	})
	t.Run("ST-12", func(t *testing.T) {
		const b, h = 2.40, 2.50
		s := solve(t, ring(b, h, 90.2e-8, 131.4e-8, 250e-8), ringLoads(b, h, 12.96, 12.96, 6.48, 27.0, 1, 1))
		mt, mb := closedRing(b, h, 90.2e-8, 131.4e-8, 250e-8, 12.96, 12.96, 6.48, 27.0)
		near(t, "Mt", -s.Lines[2].M(0), mt, 1e-6)
		near(t, "Mb", -s.Lines[0].M(0), mb, 1e-6)
		thrust := 6.48*h/2 + 27*h/6 - (mb-mt)/h
		near(t, "roof thrust", -s.N[2], thrust, 1e-6)
		near(t, "floor thrust", -s.N[0], (6.48+27.0/2)*h-thrust, 1e-6)
	})
}

// sideRing solves the closed ring under earth on its left wall alone by the
// slope-deflection equations, written out by hand: unknown are the turnings of
// the corners (0 left bottom, 1 right bottom, 2 right top, 3 left top; to the
// left positive) and the sway of the roof to the right. Both bottom corners
// are held. It gives the moments on the ends of floor, right wall, roof and
// left wall at the lower-numbered and at the other corner, to the left
// positive, and the sway.
func sideRing(b, h, e, iw, ir, fi, p0, w float64) (m [4][2]float64, sway float64) {
	bars := [4]struct {
		i, j   int
		ei, l  float64
		fixed  [2]float64 // fixed-end moments
		swings bool
	}{
		{0, 1, e * fi, b, [2]float64{}, false},
		{1, 2, e * iw, h, [2]float64{}, true},
		{2, 3, e * ir, b, [2]float64{}, false},
		// The earth pushes to the right on the left wall: standing at its foot the
		// fixed ends turn back to the left at the foot and to the right at the head.
		{0, 3, e * iw, h, [2]float64{p0*h*h/12 + w*h*h/20, -p0*h*h/12 - w*h*h/30}, true},
	}
	a, rhs := mat.NewDense(5, 5, nil), mat.NewVecDense(5, nil)
	add := func(r, c int, v float64) { a.Set(r, c, a.At(r, c)+v) }
	for _, x := range bars {
		k := 2 * x.ei / x.l
		add(x.i, x.i, 2*k)
		add(x.i, x.j, k)
		add(x.j, x.j, 2*k)
		add(x.j, x.i, k)
		rhs.SetVec(x.i, rhs.AtVec(x.i)-x.fixed[0])
		rhs.SetVec(x.j, rhs.AtVec(x.j)-x.fixed[1])
		if x.swings { // its chord turns to the right by sway over h: as both ends turned to the left
			add(x.i, 4, 3*k/h)
			add(x.j, 4, 3*k/h)
			// Shear: the moments on the ends of both walls and the earth's own lever
			// about the foot hold no push at the roof.
			add(4, x.i, 3*k)
			add(4, x.j, 3*k)
			add(4, 4, 6*k/h)
			rhs.SetVec(4, rhs.AtVec(4)-x.fixed[0]-x.fixed[1])
		}
	}
	rhs.SetVec(4, rhs.AtVec(4)+p0*h*h/2+w*h*h/6)
	var u mat.VecDense
	if err := u.SolveVec(a, rhs); err != nil {
		panic(err)
	}
	sway = u.AtVec(4)
	for n, x := range bars {
		k, turn := 2*x.ei/x.l, 0.0
		if x.swings {
			turn = sway / h
		}
		m[n] = [2]float64{
			k*(2*u.AtVec(x.i)+u.AtVec(x.j)+3*turn) + x.fixed[0],
			k*(2*u.AtVec(x.j)+u.AtVec(x.i)+3*turn) + x.fixed[1],
		}
	}
	return m, sway
}

// TestOneSidedRing: a second route for the ring that the hill pushes from one
// side, which has no closed form in the reference: slope-deflection by hand,
// over random geometries.
func TestOneSidedRing(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	const e = 200e6
	for range 200 {
		b, h := 2+rng.Float64(), 2+rng.Float64()
		iw, ir, fi := 1e-6*(0.5+rng.Float64()), 1e-6*(0.5+rng.Float64()), 1e-6*(0.5+2*rng.Float64())
		p0, w := 10*rng.Float64(), 5+30*rng.Float64()
		f := ring(b, h, iw, ir, fi)
		f.Nodes[1].X = true
		for k := range f.Members {
			f.Members[k].A = 100 // no shortening, as in the equations
		}
		s := solve(t, f, ringLoads(b, h, 0, 0, p0, w, 1, 0))
		m, sway := sideRing(b, h, e, iw, ir, fi, p0, w)
		scale := 0.0
		for _, v := range m {
			scale = math.Max(scale, math.Max(math.Abs(v[0]), math.Abs(v[1])))
		}
		for corner, pair := range [4][2]float64{
			{s.Ends[0][2], m[0][0]}, {s.Ends[0][5], m[0][1]}, {s.Ends[2][2], m[2][0]}, {s.Ends[2][5], m[2][1]},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-6*scale {
				t.Errorf("corner %d: %g, by slope-deflection %g", corner, pair[0], pair[1])
			}
		}
		if math.Abs(s.Ends[3][5]-m[3][0]) > 1e-6*scale || math.Abs(s.Ends[1][5]-m[1][1]) > 1e-6*scale {
			t.Errorf("walls: %v, %v; by slope-deflection %v, %v", s.Ends[1], s.Ends[3], m[1], m[3])
		}
		near(t, "sway", s.U[3][0], sway, 1e-6)
	}
}

// TestOneSideMoreThanTwice puts a number to the rule that earth on one side can
// bend the corners more than twice as much as the same earth on both: for the
// ring of ST-12 without load on roof and floor, by both routes.
func TestOneSideMoreThanTwice(t *testing.T) {
	const b, h, iw, ir, fi, p0, w = 2.40, 2.50, 90.2e-8, 131.4e-8, 250e-8, 6.48, 27.0
	mt, mb := closedRing(b, h, iw, ir, fi, 0, 0, p0, w)
	m, _ := sideRing(b, h, 200e6, iw, ir, fi, p0, w)
	one := 0.0
	for _, v := range m {
		one = math.Max(one, math.Max(math.Abs(v[0]), math.Abs(v[1])))
	}
	ratio := one / math.Max(mt, mb)
	near(t, "one side over both", ratio, 2.40, 5e-3)
	f := ring(b, h, iw, ir, fi)
	f.Nodes[1].X = true
	corner := func(s *Solution) float64 {
		v := 0.0
		for _, k := range []int{0, 2} {
			v = math.Max(v, math.Max(math.Abs(s.Ends[k][2]), math.Abs(s.Ends[k][5])))
		}
		return v
	}
	got := corner(solve(t, f, ringLoads(b, h, 0, 0, p0, w, 1, 0))) / corner(solve(t, f, ringLoads(b, h, 0, 0, p0, w, 1, 1)))
	near(t, "the same by the solver", got, ratio, 1e-5)
}
