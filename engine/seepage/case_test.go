package seepage

import (
	"math"
	"testing"

	"hillset/geom"
)

var closed = Side{Head: math.NaN()}

func ground(name string, r geom.Region, kx, kz float64) Zone { return Zone{name, r, kx, kz} }

// outAt sums what leaves where see is true.
func (f *Flow) outAt(see func(v geom.Vec) bool) float64 {
	q := 0.0
	for n, o := range f.Out {
		if see(f.Mesh.Nodes[n]) {
			q += o
		}
	}
	return q
}

func solve(t *testing.T, d *Domain, g Grain) *Flow {
	t.Helper()
	m, err := d.Build(g)
	if err != nil {
		t.Fatal(err)
	}
	f, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d nodes, %d rounds", len(m.Nodes), f.Rounds)
	return f
}

func (f *Flow) headAt(t *testing.T, x, z float64) float64 {
	h, ok := f.HeadAt(geom.Vec{x, z})
	if !ok {
		t.Fatalf("no ground at %g, %g", x, z)
	}
	return h
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6g, want %.6g within %.3g", what, got, want, tol)
	}
}

// SE-03: Layered block, exact by Girinskii's potential (memory, derived again).
func TestSE03(t *testing.T) {
	d := &Domain{Zones: []Zone{ground("low", rect(0, 0, 10, 1.5), 5e-7, 5e-7), ground("mid", rect(0, 1.5, 10, 3), 5e-6, 5e-6), ground("top", rect(0, 3, 10, 6), 3e-5, 3e-5)},
		Left: Side{Head: 5}, Right: Side{Head: 1, Face: true}, Pond: math.NaN()}
	f := solve(t, d, Grain{0.125, 0.125, 0})
	q := f.outAt(func(v geom.Vec) bool { return v[0] == 10 })
	t.Log(q)
	near(t, "q", q, 8.356e-6, 0.01*8.356e-6)
}

// SE-04: Block with recharge, exact for uniform ground (derived).
func TestSE04(t *testing.T) {
	d := dam(25, 5, 1e-5)
	d.Left.Head, d.Right = 4, Side{Head: 1.5, Face: true}
	d.Recharge = 1e-7
	f := solve(t, d, Grain{0.1, 0.25, 0.1})
	near(t, "in", -f.outAt(func(v geom.Vec) bool { return v[0] == 0 }), 1.5e-6, 0.02e-6)
	near(t, "out", f.outAt(func(v geom.Vec) bool { return v[0] == 25 }), 4e-6, 0.04e-6)
}

// SE-05: Sheet wall half way into a layer, elliptic integrals (Harr 1962, memory; finite differences of the reference agree to 1e-4); with kx four times kz by stretching.
func TestSE05(t *testing.T) {
	for _, kx := range []float64{1e-5, 4e-5} {
		d := &Domain{Zones: []Zone{ground("bed", rect(-40, 0, 40, 10), kx, 1e-5)}, Solids: []geom.Region{rect(-0.005, 5, 0.005, 10)}, Left: closed, Right: closed, Full: true,
			Held: []Held{{In: geom.Rect{Min: geom.Vec{-40, 10}, Max: geom.Vec{-0.005, 10}}, Head: 1}, {In: geom.Rect{Min: geom.Vec{0.005, 10}, Max: geom.Vec{40, 10}}, Head: 0}}, Pond: math.NaN()}
		f := solve(t, d, Grain{0.1, 2, 0.12})
		q := f.outAt(func(v geom.Vec) bool { return v[0] > 0 })
		t.Log("q/kh", q/1e-5)
		if kx == 1e-5 {
			near(t, "q/kh", q/1e-5, 0.5, 0.005)
			near(t, "pile face", f.headAt(t, 0.005, 7.5), 0.1584, 0.005)
			near(t, "tip", f.headAt(t, 0, 4.999), 0.5, 0.005)
			near(t, "exit gradient", f.headAt(t, 0.005, 9.95)/0.05, 0.0599, 0.05*0.0599)
		} else {
			near(t, "q/kh", q/1e-5, 1, 0.01)
		}
	}
}

// SE-06: Level floor on a layer (Harr 1962, memory).
func TestSE06(t *testing.T) {
	d := &Domain{Zones: []Zone{ground("bed", rect(-40, 0, 40, 8), 1e-5, 1e-5)}, Solids: []geom.Region{rect(-4, 8, 4, 9)}, Left: closed, Right: closed, Full: true,
		Held: []Held{{In: geom.Rect{Min: geom.Vec{-40, 8}, Max: geom.Vec{-4, 8}}, Head: 1}, {In: geom.Rect{Min: geom.Vec{4, 8}, Max: geom.Vec{40, 8}}, Head: 0}}, Pond: math.NaN()}
	f := solve(t, d, Grain{0.1, 2, 0.12})
	near(t, "q/kh", f.outAt(func(v geom.Vec) bool { return v[0] > 0 })/1e-5, 0.5332, 0.0053)
	near(t, "+2", f.headAt(t, 2, 8), 0.3271, 0.005)
	near(t, "-2", f.headAt(t, -2, 8), 0.6729, 0.005)
}

// boxAndDrain is the section of SE-09.
func boxAndDrain() *Domain {
	return &Domain{Zones: []Zone{ground("top", rect(0, 3, 16, 6), 2e-6, 2e-6), ground("mid", rect(0, 1, 16, 3), 1e-5, 2.5e-6), ground("low", rect(0, 0, 16, 1), 1e-7, 1e-7)},
		Solids: []geom.Region{rect(8, 1.6, 10.4, 4.4)}, Left: Side{Head: 5}, Right: Side{Head: 0.5}, Full: true, Pond: math.NaN(),
		Held: []Held{{In: geom.Rect{Min: geom.Vec{7.6, 1.2}, Max: geom.Vec{8, 1.6}}, Head: 1.4}}}
}

// SE-09: Box and footing drain, confined (derived by finite volumes of the reference, 0.1 m).
func TestSE09(t *testing.T) {
	f := solve(t, boxAndDrain(), Grain{0.05, 0.5, 0.1})
	near(t, "in", -f.outAt(func(v geom.Vec) bool { return v[0] == 0 }), 9.851e-6, 0.02*9.851e-6)
	near(t, "drain", f.outAt(func(v geom.Vec) bool { return v[0] > 1 && v[0] < 15 }), 7.567e-6, 0.02*7.567e-6)
	near(t, "right", f.outAt(func(v geom.Vec) bool { return v[0] == 16 }), 2.284e-6, 0.02*2.284e-6)
	for _, c := range [][3]float64{{4, 3, 3.529}, {8, 3, 2.579}, {8, 4.4, 2.446}, {9.2, 1.6, 1.2}, {9.2, 4.4, 1.886}, {10.4, 3, 0.895}, {13.2, 2, 0.724}} {
		near(t, "head", f.headAt(t, c[0], c[1]), c[2], 0.03)
	}
}

// SE-10: Wall with a drain at its foot (derived, unsaturated finite differences extrapolated).
func TestSE10(t *testing.T) {
	// the square is open to the air
	notch := geom.Region{{Outer: geom.Ring{{0, 0}, {7.2, 0}, {7.2, 0.3}, {7.5, 0.3}, {7.5, 3}, {0, 3}}}}
	d := &Domain{Zones: []Zone{ground("soil", notch, 1e-5, 1e-5)}, Left: Side{Head: 3}, Right: closed, Pond: math.NaN()}
	f := solve(t, d, Grain{0.1, 0.1, 0.2})
	q := -f.outAt(func(v geom.Vec) bool { return v[0] == 0 })
	near(t, "q/k", q/1e-5, 0.625, 0.025)
	for _, c := range [][2]float64{{1.875, 2.62}, {3.75, 2.135}, {5.625, 1.49}} {
		v, _ := f.Table().At(c[0])
		near(t, "surface", v, c[1], 0.06)
	}
}

// SE-11: Interceptor on a sloping bed (Donnan 1959; Keller and Robinson 1959, memory; derived again): a model in two dimensions within 10 %.
func TestSE11(t *testing.T) {
	// bed of slope 0.15, water 2.4 deep far up, drain at the foot
	const s, k, far = 0.15, 2e-6, 60.0
	bed := func(x float64) float64 { return s * x }
	zone := geom.Region{{Outer: geom.Ring{{0, 0}, {far, bed(far)}, {far, bed(far) + 4}, {0, 4}}}}
	d := &Domain{Zones: []Zone{ground("soil", zone, k, k)}, Left: Side{Head: 0.3}, Right: Side{Head: bed(far) + 2.4}, Pond: math.NaN()}
	f := solve(t, d, Grain{0.1, 0.5, 0})
	near(t, "q", f.outAt(func(v geom.Vec) bool { return v[0] == 0 }), 7.2e-7, 0.1*7.2e-7)
	for _, c := range [][2]float64{{2.954, 1.2}, {10.04, 1.8}, {22.3, 2.16}} {
		v, _ := f.Table().At(c[0])
		near(t, "depth", v-bed(c[0]), c[1], 0.1*c[1])
	}
}

// SE-13: Pipe below a plane of constant head (exact, bipolar solution).
func TestSE13(t *testing.T) {
	// a pipe 1.5 m below a plane of constant head
	d := &Domain{Zones: []Zone{ground("soil", rect(-30, -30, 30, 0), 1e-5, 1e-5)}, Left: closed, Right: closed, Full: true, Pond: math.NaN(),
		Held:   []Held{{In: geom.Rect{Min: geom.Vec{-30, 0}, Max: geom.Vec{30, 0}}, Head: 0}},
		Drains: []Drain{{"pipe", geom.Vec{0, -1.5}, 0.1, false, 0}}}
	f := solve(t, d, Grain{0.25, 3, 0.15})
	near(t, "q", f.outAt(func(v geom.Vec) bool { return v[1] < -1 }), 2.302e-5, 0.05*2.302e-5)
}
