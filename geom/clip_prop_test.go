package geom

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
)

// identities checks that areas add up, and returns the union's area.
func identities(t *testing.T, what string, a, b Region) {
	t.Helper()
	u, i, d := clipAll(t, a, b)
	tol := snapTol(a, b, u, i, d)
	near(t, what+": A(a)+A(b)-A(a and b)", a.Area()+b.Area()-i.Area(), u.Area(), tol)
	near(t, what+": A(a)-A(a and b)", a.Area()-i.Area(), d.Area(), tol)
}

func TestAreaIdentities(t *testing.T) {
	r := newRand(1)
	for k := range 500 {
		a := randomStar(r, Vec{r.Float64(), r.Float64()}, 3, 3+r.IntN(40))
		b := randomStar(r, Vec{r.Float64() * 3, r.Float64() * 3}, 3, 3+r.IntN(40))
		identities(t, fmt.Sprint("case ", k), a, b)
	}
}

// Moving both operands, also to a far datum, moves the result.
func TestTranslationInvariance(t *testing.T) {
	r := newRand(2)
	for k := range 100 {
		a := randomStar(r, Vec{}, 3, 20)
		b := randomStar(r, Vec{1, 1}, 3, 20)
		d, err := Difference(a, b)
		if err != nil {
			t.Fatal(err)
		}
		by := Vec{r.Float64()*2e4 - 1e4, r.Float64() * 5e3}
		e, err := Difference(a.Translate(by), b.Translate(by))
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprint("area of case ", k), e.Area(), d.Area(), snapTol(a, b, d))
	}
}

// On a small whole-number lattice nearly all edges are shared, collinear or
// crossing at vertices; counting unit cells is the second route.
func TestClipAgainstCells(t *testing.T) {
	const n = 8
	r := newRand(3)
	for k := range 300 {
		a, ca := randomCells(t, r, n)
		b, cb := randomCells(t, r, n)
		u, i, d := clipAll(t, a, b)
		var wantU, wantI, wantD float64
		for c := range ca {
			wantU += b2f(ca[c] || cb[c])
			wantI += b2f(ca[c] && cb[c])
			wantD += b2f(ca[c] && !cb[c])
		}
		if u.Area() != wantU || i.Area() != wantI || d.Area() != wantD {
			t.Fatalf("case %d: areas %g %g %g, cells %g %g %g", k, u.Area(), i.Area(), d.Area(), wantU, wantI, wantD)
		}
		checkCells(t, d, n, func(c int) bool { return ca[c] && !cb[c] })
		for _, p := range append(append(u, i...), d...) {
			for _, ring := range p.Rings() {
				if !ring.IsSimple() {
					t.Fatalf("case %d: ring %v touches itself", k, ring)
				}
			}
		}
	}
}

func b2f(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// randomCells is the union of random rectangles and the cells they cover.
func randomCells(t *testing.T, r *rand.Rand, n int) (Region, []bool) {
	t.Helper()
	cells := make([]bool, n*n)
	var parts Region
	for range 1 + r.IntN(5) {
		x0, z0 := r.IntN(n), r.IntN(n)
		x1, z1 := x0+1+r.IntN(n-x0), z0+1+r.IntN(n-z0)
		parts = append(parts, box(float64(x0), float64(z0), float64(x1), float64(z1))...)
		for x := x0; x < x1; x++ {
			for z := z0; z < z1; z++ {
				cells[z*n+x] = true
			}
		}
	}
	got, err := UnionAll(parts)
	if err != nil {
		t.Fatal(err)
	}
	return got, cells
}

func checkCells(t *testing.T, r Region, n int, want func(int) bool) {
	t.Helper()
	for c := range n * n {
		mid := Vec{float64(c%n) + 0.5, float64(c/n) + 0.5}
		if r.Contains(mid) != want(c) {
			t.Fatalf("cell at %v: inside %v", mid, !want(c))
		}
	}
}

// Vertices a few grid units apart, and edges nearly parallel, are the worst
// that snapping can meet.
func TestClipNearlyDegenerate(t *testing.T) {
	r := newRand(4)
	jit := func() float64 { return float64(r.IntN(7)-3) * SnapGrid * 0.6 }
	for k := range 500 {
		base := randomStar(r, Vec{}, 2, 5+r.IntN(12))
		shaken := base.Translate(Vec{})
		for i := range shaken[0].Outer {
			shaken[0].Outer[i] = shaken[0].Outer[i].Add(Vec{jit(), jit()})
		}
		identities(t, fmt.Sprint("shaken ", k), base, shaken)
	}
	for k := range 300 { // all within some twenty grid units of one line
		var a, b Ring
		for i := range 12 {
			a = append(a, Vec{float64(i%6) + jit(), float64(i/6)*12*SnapGrid + jit()})
			b = append(b, Vec{float64(i%6) + jit(), float64(i/6)*12*SnapGrid + jit()})
		}
		for _, op := range []func(a, b Region) (Region, error){Union, Intersect, Difference} {
			got, err := op(hull(a), hull(b))
			if err != nil {
				t.Fatalf("sliver %d: %v", k, err)
			}
			wellFormed(t, "sliver", got)
		}
	}
}

// hull joins the left-to-right lower and right-to-left upper half of a.
func hull(a Ring) Region {
	out := append(Ring(nil), a[:6]...)
	for i := 11; i >= 6; i-- {
		out = append(out, a[i])
	}
	return out.ToRegion()
}

// Chords strewn over a few grid units by up to a kilometre cross in every cell.
// Such a ring has no inside, and must be refused as tangled: neither panic nor
// run out of rounds. Every pair of edges is tested again, without the sweep.
func TestClipTangles(t *testing.T) {
	r := newRand(6)
	for _, size := range [][2]float64{{1e-3, 1e-5}, {10, 1e-5}, {1e-4, 1e-4}, {1e-5, 1e-5}, {1e3, 1e-4}, {1e-5, 100}} {
		for k := range 4 {
			var a Ring
			for range 60 {
				a = append(a, Vec{r.Float64() * size[0], r.Float64() * size[1]})
			}
			if got, err := UnionAll(a.ToRegion()); err != nil && !errors.Is(err, ErrTangled) {
				t.Errorf("%v case %d: %v, %v", size, k, got, err)
			}
			var c clipper
			if err := c.addChain(0, a, false); err != nil {
				t.Fatal(err)
			}
			if err := c.node(); err != nil {
				t.Fatalf("%v case %d: %v", size, k, err)
			}
			for i := range c.edges {
				for j := range i {
					if cuts := c.pair(nil, i, j); cuts != nil {
						t.Fatalf("%v case %d: edges %v and %v still meet", size, k, c.edges[i], c.edges[j])
					}
				}
			}
		}
	}
}

// The second route is another author's overlay (a doubly connected edge list,
// without a grid).
func TestClipAgainstIndependentOverlay(t *testing.T) {
	r := newRand(5)
	for k := range 200 {
		a := randomStar(r, Vec{}, 3, 3+r.IntN(30))
		b := randomStar(r, Vec{1.5 * r.Float64(), r.Float64()}, 3, 3+r.IntN(30))
		u, i, d := clipAll(t, a, b)
		for _, op := range []struct {
			name string
			got  Region
			ref  func(a, b sf.Geometry) (sf.Geometry, error)
		}{{"union", u, sf.Union}, {"intersection", i, sf.Intersection}, {"difference", d, sf.Difference}} {
			g, err := op.ref(toSF(t, a), toSF(t, b))
			if err != nil {
				t.Fatalf("case %d: reference %s: %v", k, op.name, err)
			}
			near(t, fmt.Sprintf("case %d %s", k, op.name), op.got.Area(), g.Area(), snapTol(a, b, op.got))
			near(t, fmt.Sprintf("case %d perimeter of %s", k, op.name), perimeter(op.got), g.Boundary().Length(), 1e-3)
		}
	}
}

func toSF(t *testing.T, r Region) sf.Geometry {
	t.Helper()
	var ps []sf.Polygon
	for _, p := range r {
		var rings []sf.LineString
		for _, ring := range p.Rings() {
			var c []float64
			for _, v := range ring.Closed() {
				c = append(c, v[0], v[1])
			}
			rings = append(rings, sf.NewLineString(sf.NewSequence(c, sf.DimXY)))
		}
		ps = append(ps, sf.NewPolygon(rings))
	}
	m := sf.NewMultiPolygon(ps)
	if err := m.Validate(); err != nil {
		t.Fatalf("reference refuses the operand: %v", err)
	}
	return m.AsGeometry()
}

// FuzzClip feeds lattice points with sub-grid noise as two rings: no panic,
// and where the rings are simple the areas add up.
func FuzzClip(f *testing.F) {
	f.Add([]byte{0, 0, 9, 0, 9, 9, 0, 9}, []byte{3, 3, 12, 3, 12, 12, 3, 12}, 1.0)
	f.Add([]byte{0, 0, 9, 0, 9, 9, 0, 9}, []byte{0, 0, 9, 0, 9, 9, 0, 9}, 1e-6)
	f.Add([]byte{0, 0, 9, 1, 18, 2, 9, 9}, []byte{0, 0, 18, 2, 9, 4}, 0.37)
	f.Add([]byte{0, 0, 9, 9, 9, 0, 0, 9}, []byte{5, 5, 6, 6, 7, 5}, 1e5)
	f.Fuzz(func(t *testing.T, p, q []byte, scale float64) {
		a, b := fuzzRing(p, scale), fuzzRing(q, scale)
		u, errU := Union(a.ToRegion(), b.ToRegion())
		i, errI := Intersect(a.ToRegion(), b.ToRegion())
		d, errD := Difference(a.ToRegion(), b.ToRegion())
		if (errU == nil) != (errI == nil) || (errU == nil) != (errD == nil) {
			t.Fatalf("errors differ: %v, %v, %v", errU, errI, errD)
		}
		if errU != nil || !snappedSimple(a) || !snappedSimple(b) {
			return
		}
		tol := snapTol(a.ToRegion(), b.ToRegion(), u, i, d)
		near(t, "union", u.Area(), a.Area()+b.Area()-i.Area(), tol)
		near(t, "difference", d.Area(), a.Area()-i.Area(), tol)
	})
}

// fuzzRing takes byte pairs as lattice points, 64 at most.
func fuzzRing(p []byte, scale float64) (r Ring) {
	for i := 0; i+1 < min(len(p), 128); i += 2 {
		r = append(r, Vec{float64(p[i]) * scale, float64(p[i+1]) * scale})
	}
	return r
}

// snappedSimple reports whether the ring is simple with some grid units to
// spare, so that it stays so after rounding.
func snappedSimple(r Ring) bool {
	if b := r.Bounds(); !(b.W()+b.H() > 1e-3) || math.IsInf(b.W()*b.H(), 0) {
		return false
	}
	for i, v := range r {
		for j := range r {
			if k := (j + 1) % len(r); i != j && i != k {
				if _, _, d := nearestOn(r[j], r[k], v); d < 20*SnapGrid {
					return false
				}
			}
		}
	}
	return r.IsSimple()
}

func BenchmarkClip(b *testing.B) {
	for _, n := range []int{10, 30, 100} {
		p, q := blob(n, Vec{0, 0}, 5, 0.1), blob(n, Vec{2, 1}, 4, 0.2)
		b.Run(fmt.Sprint("difference/", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := Difference(p, q); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkSection is what one section costs: 30 operations of a 40-point
// ground band with boxes, fills and strata. The budget is 2 ms.
func BenchmarkSection(b *testing.B) {
	r := newRand(9)
	up, low := mono(r, 0, 30, 5, 1, 40), mono(r, 0, 30, 1, 1, 40)
	band := Between(up, low, 0, 30)
	for b.Loop() {
		rest := band
		for i := range 30 {
			x := float64(i)
			var err error
			if rest, err = Difference(rest, box(x, 3, x+0.7, 6)); err != nil {
				b.Fatal(err)
			}
		}
	}
}
