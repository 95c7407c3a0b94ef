package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

// near fails unless got is within tol of want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g +-%g", what, got, want, tol)
	}
}

// nearVec fails unless both coordinates are within tol.
func nearVec(t *testing.T, what string, got, want Vec, tol float64) {
	t.Helper()
	if !(math.Abs(got[0]-want[0]) <= tol && math.Abs(got[1]-want[1]) <= tol) {
		t.Errorf("%s = %v, want %v +-%g", what, got, want, tol)
	}
}

func box(x0, z0, x1, z1 float64) Region { return Rect{Vec{x0, z0}, Vec{x1, z1}}.ToRegion() }

func newRand(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 7)) }

// blob is a wavy round polygon of n points: 7 lobes of relative depth wob.
func blob(n int, c Vec, r, wob float64) Region {
	var ring Ring
	for i := range n {
		t := 2 * math.Pi * float64(i) / float64(n)
		q := r * (1 + wob*math.Sin(7*t))
		ring = append(ring, Vec{c[0] + q*math.Cos(t), c[1] + q*math.Sin(t)})
	}
	return ring.ToRegion()
}

// randomStar is a simple polygon: radii drawn anew at rising angles.
func randomStar(r *rand.Rand, c Vec, size float64, n int) Region {
	var ring Ring
	for i := range n {
		t := 2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n)
		q := size * (0.3 + 0.7*r.Float64())
		ring = append(ring, Vec{c[0] + q*math.Cos(t), c[1] + q*math.Sin(t)})
	}
	return ring.ToRegion()
}

// randomConvex is the polygon of n points on an ellipse, turned.
func randomConvex(r *rand.Rand, c Vec, n int) Ring {
	a, b, turn := 1+4*r.Float64(), 1+4*r.Float64(), math.Pi*r.Float64()
	var ring Ring
	for i := range n {
		t := 2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n)
		x, y := a*math.Cos(t), b*math.Sin(t)
		ring = append(ring, Vec{
			c[0] + x*math.Cos(turn) - y*math.Sin(turn),
			c[1] + x*math.Sin(turn) + y*math.Cos(turn),
		})
	}
	return ring
}

// mono is a random monotone line over x0..x1.
func mono(r *rand.Rand, x0, x1, z, rough float64, n int) Polyline {
	p := Polyline{{x0, z + rough*r.Float64()}}
	for i := 1; i < n; i++ {
		x := x0 + (x1-x0)*(float64(i)-0.4*r.Float64())/float64(n)
		p = append(p, Vec{x, z + rough*r.Float64()})
	}
	return append(p, Vec{x1, z + rough*r.Float64()})
}

func perimeter(r Region) float64 {
	var l float64
	for _, p := range r {
		for _, ring := range p.Rings() {
			l += ring.Length()
		}
	}
	return l
}

// snapTol is the area that rounding to the grid may shift: each edge moves by
// a unit or so, and slivers under two units are dropped on either side.
func snapTol(rs ...Region) float64 {
	l := 1.0
	for _, r := range rs {
		l += perimeter(r)
	}
	return 3 * SnapGrid * l
}

// wellFormed checks what clip.go promises of a result.
func wellFormed(t *testing.T, what string, r Region) {
	t.Helper()
	for i, p := range r {
		for j, ring := range p.Rings() {
			if a := ring.SignedArea(); (a > 0) != (j == 0) {
				t.Errorf("%s: polygon %d ring %d runs the wrong way, area %g", what, i, j, a)
			}
			for _, v := range ring {
				if !FiniteVec(v) {
					t.Fatalf("%s: polygon %d ring %d has %v", what, i, j, v)
				}
			}
		}
	}
}
