package earth

import (
	"math"
	"math/rand"
	"testing"
)

const (
	ft  = 0.3048
	psf = 4.4482216e-3 / (ft * ft) // kPa, from the pound and the foot
	lb  = 4.4482216e-3             // kN
)

// sum integrates a load and its moment about the foot by the midpoint rule.
func sum(p WallLoad, h float64, n int) (thrust, arm float64) {
	dz := h / float64(n)
	var m float64
	for i := range n {
		z := (float64(i) + 0.5) * dz
		thrust += p(z) * dz
		m += p(z) * dz * (h - z)
	}
	return thrust, m / thrust
}

// doubledPoint is twice the elastic horizontal stress of a point load on the
// plane x = 0 for Poisson's ratio 0.5.
func doubledPoint(x, y, z float64) float64 {
	r := math.Sqrt(x*x + y*y + z*z)
	return 3 * x * x * z / (math.Pi * math.Pow(r, 5))
}

func TestTrafficCase(t *testing.T) {
	t.Run("EP-09", func(t *testing.T) { // second-hand; tolerance of the case
		const tol = 3e-3
		h := 10 * ft
		group := func(x float64) []PlanLoad {
			return []PlanLoad{{P: 16000 * lb, X: x}, {P: 16000 * lb, X: x, Y: 14 * ft}, {P: 4000 * lb, X: x, Y: -14 * ft}}
		}
		wheels := must(WheelLoads(append(group(6*ft), group(12*ft)...), 0, h))
		strip := must(StripLoad(300*psf, 3*ft, 15*ft, h))
		truck := []float64{77.3, 150.4, 144.1, 113.1, 84.6}
		lane := []float64{150.1, 171.5, 149.3, 121.4, 96.5}
		for i := range truck {
			z := float64(2*(i+1)) * ft
			near(t, "wheels", wheels(z)/psf, truck[i], tol)
			near(t, "strip", strip(z)/psf, lane[i], tol)
		}
		right, left := must(WheelLoads(group(6*ft), 0, h)), must(WheelLoads(group(12*ft), 0, h))
		for _, n := range []float64{0.2, 0.5, 1} { // the printed short forms
			near(t, "right group", right(n*h)/psf, 112.2*n*n/math.Pow(.36+n*n, 3), tol)
			near(t, "left group", left(n*h)/psf, 581.1*n*n/math.Pow(1.44+n*n, 3), tol)
		}
	})
}

func TestLineCase(t *testing.T) {
	t.Run("EP-10", func(t *testing.T) { // derived
		p := must(LineLoad(7.3, 1.2, 2.6))
		for _, c := range []struct{ z, want float64 }{{.3, 1.724}, {.6, 2.492}, {.9, 2.392}, {1.3, 1.785}, {2, .909}, {2.6, .520}} {
			near(t, "pressure", p(c.z), c.want, tolA)
		}
		thrust, arm, err := LineThrust(7.3, 1.2, 2.6)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "resultant", thrust, 3.852, tolA)
		s, a := sum(p, 2.6, 20000)
		near(t, "integral", thrust, s, 1e-6)
		near(t, "arm", arm, a, 1e-6)
	})
	near, arm, _ := LineThrust(10, 0.3, 2)
	s, a := sum(must(LineLoad(10, 0.3, 2)), 2, 20000)
	if math.Abs(near-s) > 1e-6 || math.Abs(arm-a) > 1e-6 || math.Abs(near-5.388) > 1e-3 {
		t.Errorf("near line: %v at %v, integral %v at %v", near, arm, s, a)
	}
}

func TestPointThrust(t *testing.T) {
	// resultants of the reference, derived: share of Q/H and of H above the foot
	for _, c := range []struct{ m, share, arm float64 }{{.2, .788, .587}, {.4, .788, .587}, {.6, .457, .476}, {1, .174, .363}} {
		thrust, arm, err := PointThrust(50, c.m*3, 3)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "share", thrust*3/50, c.share, tolA)
		near(t, "arm", arm/3, c.arm, tolA)
		s, a := sum(must(PointLoad(50, c.m*3, 3, 0)), 3, 20000)
		near(t, "integral", thrust, s, 1e-6)
		near(t, "integral arm", arm, a, 1e-6)
	}
	p := must(PointLoad(50, 1.8, 3, 0))
	peak := 3 * 0.6 / math.Sqrt2 // derived: n = m/sqrt 2
	if p(peak) < p(peak*0.99) || p(peak) < p(peak*1.01) {
		t.Error("the peak is not at m/sqrt 2")
	}
	if q := must(PointLoad(50, 1.8, 3, deg(82))); q(1) != 0 {
		t.Error("no pressure past the right angle")
	}
	near(t, "aside", must(PointLoad(50, 1.8, 3, deg(50)))(1), p(1)*math.Pow(math.Cos(deg(55)), 2), 1e-9)
}

func TestStrip(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	for range 30 {
		h := 1 + 4*rnd.Float64()
		l1 := rnd.Float64() * h
		l2 := l1 + 0.1 + rnd.Float64()*2*h
		p := must(StripLoad(10, l1, l2, h))
		thrust, arm, err := StripThrust(10, l1, l2, h)
		if err != nil {
			t.Fatal(err)
		}
		s, a := sum(p, h, 4000)
		near(t, "thrust", thrust, s, 1e-5)
		near(t, "arm", arm, a, 1e-5)
		// the strip is the sum of doubled line loads, 4 x2 z/(pi r4)
		z := h * (0.1 + 0.9*rnd.Float64())
		var lines float64
		const n = 4000
		for i := range n {
			x := l1 + (l2-l1)*(float64(i)+0.5)/n
			lines += 10 * (l2 - l1) / n * 4 * x * x * z / (math.Pi * math.Pow(x*x+z*z, 2))
		}
		near(t, "line loads", p(z), lines, 1e-5)
	}
	p := must(StripLoad(10, 0, 4, 3))
	near(t, "at the surface", p(0), 10, 1e-12)
	if p(-0.1) != 0 {
		t.Error("nothing acts above the load")
	}
	for _, l2 := range []float64{13, 1e6} {
		_, err := StripLoad(10, 0, l2, 3)
		refused(t, "wide", "l2 - l1", err)
	}
	_, err := StripLoad(10, 2, 1, 3)
	refused(t, "turned round", "l2", err)
	_, err = StripLoad(10, 0, math.Inf(1), 3)
	refused(t, "endless", "l2", err)
	near(t, "uniform", must(UniformLoad(0.5, 10))(2), 5, 1e-12)
	if thrust, arm, err := StripThrust(0, 1, 2, 3); thrust != 0 || arm != 0 || err != nil {
		t.Error("no load, no thrust")
	}
}

func TestAreaLoad(t *testing.T) {
	rnd := rand.New(rand.NewSource(3))
	for range 20 {
		x1, y1 := rnd.Float64()*2, rnd.Float64()*4-2
		x2, y2, z := x1+0.2+2*rnd.Float64(), y1+0.2+3*rnd.Float64(), 0.2+2*rnd.Float64()
		p := must(AreaLoad(20, x1, x2, y1, y2, 0.3, 3))
		const n = 160
		var s float64
		da := (x2 - x1) * (y2 - y1) / n / n
		for i := range n {
			for j := range n {
				s += 20 * da * doubledPoint(x1+(x2-x1)*(float64(i)+.5)/n, y1+(y2-y1)*(float64(j)+.5)/n-0.3, z)
			}
		}
		near(t, "point loads", p(z), s, 1e-3)
	}
	long, strip := must(AreaLoad(20, 1, 3, -500, 500, 0, 3)), must(StripLoad(20, 1, 3, 3))
	for _, z := range []float64{0.2, 1, 2.9} {
		near(t, "long rectangle", long(z), strip(z), 1e-4)
	}
	at := must(AreaLoad(20, 0, 2, -1, 1, 0, 3))
	near(t, "under the edge at the surface", at(0), 20, 1e-9)
	_, err := AreaLoad(20, 0, 100, -50, 50, 0, 3)
	refused(t, "wide both ways", "l2 - l1", err)
	if _, err := AreaLoad(20, 0, 100, -1, 1, 0, 3); err != nil {
		t.Errorf("a long lane across the wall is not wide: %v", err)
	}
}

func TestVerticalStress(t *testing.T) {
	t.Run("EP-11", func(t *testing.T) { // derived; tolerance of the case
		for _, c := range []struct{ b, l, want float64 }{
			{.5, .5, .0840}, {1, 1, .1752}, {1, 1.5, .1936}, {1, 2, .1999}, {2, 2, .2325}, {10, 10, .2498},
		} {
			if k := must(CornerInfluence(c.b*2, c.l*2, 2)); math.Abs(k-c.want) > 1e-4 {
				t.Errorf("I(%v, %v) = %v, want %v", c.b, c.l, k, c.want)
			}
		}
	})
	rnd := rand.New(rand.NewSource(4))
	for range 20 {
		p := Patch{P: 50, X: rnd.Float64(), Y: rnd.Float64(), A: 0.2 + 2*rnd.Float64(), B: 0.2 + 2*rnd.Float64()}
		x, y, z := 4*rnd.Float64()-2, 4*rnd.Float64()-2, 0.3+2*rnd.Float64()
		const n = 120
		var s float64
		for i := range n {
			for j := range n {
				px, py := p.X+p.A*((float64(i)+.5)/n-.5), p.Y+p.B*((float64(j)+.5)/n-.5)
				s += must(PointStress(p.P/n/n, math.Hypot(px-x, py-y), z))
			}
		}
		near(t, "point loads", must(PatchStress([]Patch{p}, x, y, z)), s, 1e-3)
	}
	// a row of point loads makes a line load
	var s float64
	for y := -400.0; y <= 400; y += 0.05 {
		s += must(PointStress(7*0.05, math.Hypot(1.2, y), 2))
	}
	near(t, "line", must(LineStress(7, 1.2, 2)), s, 1e-4)
	p := Patch{P: 8, A: 2, B: 1}
	near(t, "at the surface under it", p.Stress(0.3, 0.2, 0), 4, 1e-12)
	near(t, "at the surface beside it", p.Stress(1.3, 0.2, 0), 0, 1e-12)
	_, err := PointStress(1, 0, 0)
	refused(t, "at the load", "z", err)
	_, err = PatchStress([]Patch{{P: 1, A: 0, B: 1}}, 0, 0, 1)
	refused(t, "no side", "patch.a", err)
}

// TestFarLoads has loads so far off that closed sums would lose their figures.
func TestFarLoads(t *testing.T) {
	for _, m := range []float64{5, 9.9, 10.1, 30, 99, 101, 1e4, 1e8} {
		x := 3 * m
		thrust, arm, _ := PointThrust(50, x, 3)
		s, a := sum(must(PointLoad(50, x, 3, 0)), 3, 4000)
		near(t, "point", thrust/s, 1, 1e-6)
		near(t, "point arm", arm, a, 1e-6)
		thrust, arm, _ = LineThrust(50, x, 3)
		s, a = sum(must(LineLoad(50, x, 3)), 3, 4000)
		near(t, "line", thrust/s, 1, 1e-6)
		near(t, "line arm", arm, a, 1e-6)
		thrust, arm, _ = StripThrust(50, x, x+2, 3)
		if m > 1e4 {
			continue // the pressure itself is a difference of angles
		}
		s, a = sum(must(StripLoad(50, x, x+2, 3)), 3, 4000)
		near(t, "strip", thrust/s, 1, 1e-5)
		near(t, "strip arm", arm, a, 1e-3)
	}
}
