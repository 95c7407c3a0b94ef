package climate

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"

	"hillset/engine/bisect"
)

// wt19 is the ground of WT-19.
var wt19 = Ground{Mean: 9, Swing: 12, Coldest: 20, Diffusivity: 0.06}

// WT-19 (derived), to 0.05 °C.
func TestWT19Ground(t *testing.T) {
	within(t, "damping depth", must(wt19.Damping()), 2.640, 0.005)
	within(t, "1.5 m, day 110", must(wt19.At(1.5, 110)), 5.22, 0.05)
	within(t, "2.5 m, day 200", must(wt19.At(2.5, 200)), 11.55, 0.05)
	least, on, err := wt19.Least(2.5)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "least at 2.5 m", least, 4.34, 0.05)
	within(t, "on day", on, 75, 0.5)
	within(t, "most at 2.5 m", must(wt19.Most(2.5)), 13.66, 0.05)
	z, ok, err := wt19.ZeroDepth()
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	within(t, "depth of 0 °C", z, 0.760, 0.005)
	least, _, _ = wt19.Least(z)
	within(t, "there", least, 0, 1e-9)
	_, ok, _ = Ground{Mean: -1, Swing: 10, Diffusivity: 0.06}.ZeroDepth()
	if ok {
		t.Error("ground that stays frozen has a depth of frost")
	}
	z, _, _ = Ground{Mean: 12, Swing: 8, Diffusivity: 0.06}.ZeroDepth()
	within(t, "where it never freezes", z, 0, 0)
}

// WT-19, second route: the wave by Crank-Nicolson (5.22 and 11.55, derived).
func TestWT19ByCrankNicolson(t *testing.T) {
	const dz, dt, n = 0.1, 0.5, 250 // m, days, cells
	surface := func(d float64) float64 {
		return wt19.Mean - wt19.Swing*math.Cos(2*math.Pi/year*(d-wt19.Coldest))
	}
	temp := make([]float64, n)
	for i := range temp {
		temp[i] = wt19.Mean
	}
	r := wt19.Diffusivity * dt / (2 * dz * dz)
	sub, rhs := make([]float64, n), make([]float64, n)
	at := func(d float64) []float64 { return append([]float64{surface(d)}, temp...) }
	var spring, summer float64
	for d := 0.0; d < 6*year; d += dt {
		for i := range rhs {
			up := surface(d)
			if i > 0 {
				up = temp[i-1]
			}
			down := temp[i]
			if i+1 < n {
				down = temp[i+1]
			}
			rhs[i] = temp[i] + r*(up-2*temp[i]+down)
		}
		rhs[0] += r * surface(d+dt)
		// Thomas
		for i := range rhs {
			diag, before := 1+2*r, 0.0
			if i == n-1 {
				diag -= r // nothing flows at the foot
			}
			if i > 0 {
				before, diag = rhs[i-1], diag-r*sub[i-1]
			}
			sub[i], rhs[i] = r/diag, (rhs[i]+r*before)/diag
		}
		for i := n - 1; i >= 0; i-- {
			temp[i] = rhs[i]
			if i+1 < n {
				temp[i] += sub[i] * temp[i+1]
			}
		}
		switch d + dt {
		case 5*year + 110:
			spring = at(d + dt)[15]
		case 5*year + 200:
			summer = at(d + dt)[25]
		}
	}
	within(t, "1.5 m, day 110", spring, 5.22, 0.05)
	within(t, "2.5 m, day 200", summer, 11.55, 0.05)
	within(t, "against the wave", spring, must(wt19.At(1.5, 110)), 0.02)
	within(t, "against the wave", summer, must(wt19.At(2.5, 200)), 0.02)
}

// trench is a long room of a width and depth: its plan has no ends.
func trench(width, depth float64) Basement {
	const long = 1e4
	return Basement{Area: width * long, Perimeter: 2 * long, Depth: depth, Lambda: 2, RWall: 2}
}

// WT-20 a to d (derived); ISO within 0.5 %, to its last printed place.
func TestWT20Basement(t *testing.T) {
	for _, c := range []struct {
		name                      string
		b                         Basement
		width, dt, dw, uf, uw     float64
		perMetre, area, perimeter float64
	}{
		{"a", trench(2.44, 2.6), 2.44, 0.42, 4.34, 0.7232, 0.2459, 3.04, 2.44, 2},
		{"b", trench(8, 2.5), 8, 0.42, 4.34, 0.4142, 0.2483, 4.56, 8, 2},
	} {
		l := must(c.b.Loss())
		near(t, c.name+" B'", l.Width, c.width, 1e-6)
		near(t, c.name+" dt", l.DtFloor, c.dt, 0.005)
		near(t, c.name+" dw", l.Dw, c.dw, 0.005)
		near(t, c.name+" Ubf", l.UFloor, c.uf, 0.005)
		near(t, c.name+" Ubw", l.UWall, c.uw, 0.005)
		near(t, c.name+" per metre", c.area*l.UFloor+c.perimeter*c.b.Depth*l.UWall, c.perMetre, 0.005)
	}
	plan := Basement{Area: 6.058 * 2.438, Perimeter: 2 * (6.058 + 2.438), Depth: 2.6, Lambda: 2, RWall: 2}
	l := must(plan.Loss())
	near(t, "c B'", l.Width, 1.738, 0.005)
	near(t, "c Ubf", l.UFloor, 0.796, 0.005)
	near(t, "c H", l.H, 22.6, 0.005)
	// the two branches meet here: 0.796 and 0.795
	deep := l.DtFloor + 0.5*plan.Depth
	near(t, "c, the other branch", 2*plan.Lambda/(math.Pi*l.Width+deep)*math.Log(math.Pi*l.Width/deep+1), 0.796, 0.005)
	near(t, "c, the branch taken", plan.Lambda/(0.457*l.Width+deep), 0.795, 0.005)
}

// WT-20 d: a box under soil, by the roof in one dimension and ISO.
func wt20d() (roof, total float64) {
	roof = 2.44 * must(Roof(1.76, 0.60, 1.5))
	const long = 1e4
	l := must(Basement{Area: 2.44 * long, Perimeter: 2 * long, Depth: 2.59 + 0.60, Lambda: 1.5, RWall: 1.76}.Loss())
	return roof, roof + 2.44*l.UFloor + 2*2.59*l.UWall
}

func TestWT20Covered(t *testing.T) {
	roof, total := wt20d()
	near(t, "roof and ISO", total, 3.50, 0.005)
	near(t, "tool against finite differences", total, 4.12, ISOMargin)
	near(t, "roof against finite differences", roof, 1.06, ISOMargin)
	near(t, "6.06 m, 7 K, finite differences", 4.12*6.06*7, 175, 0.005)
}

// WT-20, second route: two-dimensional finite differences of half the section,
// 3.85 (a), 4.82 (b), 4.12 (d) W/mK (derived).
func TestWT20ByFiniteDifferences(t *testing.T) {
	for _, c := range []struct {
		name            string
		s               section2D
		want, isoShould float64
	}{
		{"a", section2D{width: 2.44, height: 2.6, lambda: 2, rWall: 2}, 3.85, 3.04},
		{"b", section2D{width: 8, height: 2.5, lambda: 2, rWall: 2}, 4.82, 4.56},
		{"d", section2D{width: 2.44, height: 2.59, cover: 0.6, lambda: 1.5, rWall: 1.76, rRoof: 1.76}, 4.12, 3.50},
	} {
		roof, walls, floor := c.s.loss()
		got := roof + walls + floor
		near(t, c.name, got, c.want, 0.01)
		near(t, c.name+", ISO against it", c.isoShould, got, ISOMargin)
		if c.name == "d" {
			near(t, "roof", roof, 1.06, 0.01)
			near(t, "walls", walls, 1.45, 0.01)
			near(t, "floor", floor, 1.62, 0.01)
		}
	}
}

// section2D is a long box in the ground, symmetric about its middle.
type section2D struct {
	width, height, cover float64 // m; without cover the roof is not part of it
	lambda               float64
	rWall, rRoof         float64
}

// grid gives the edges of cells from 0 to far with an edge at every mark: fine
// by the marks, growing away from them.
func grid(far float64, marks ...float64) []float64 {
	const fine, grow, most = 0.03, 1.2, 6.0
	out := []float64{0}
	marks = append(marks, far)
	last := 0.0
	for i, m := range marks {
		var left, right []float64 // sizes from both ends
		rest, a, b := m-last, fine, fine
		for rest > 1e-9 {
			s := math.Min(a, rest)
			left = append(left, s)
			rest -= s
			a = math.Min(a*grow, most)
			if i < len(marks)-1 && rest > 1e-9 {
				s = math.Min(b, rest)
				right = append(right, s)
				rest -= s
				b = math.Min(b*grow, most)
			}
		}
		for k := len(right) - 1; k >= 0; k-- {
			left = append(left, right[k])
		}
		x := last
		for _, s := range left {
			x += s
			out = append(out, x)
		}
		last = m
	}
	return out
}

// loss is what leaves half the box, doubled, per metre and kelvin: cells of
// soil between nodes, the air of room and sky behind surface resistances.
func (s section2D) loss() (roof, walls, floor float64) {
	xs := grid(80, s.width/2)
	marks := []float64{s.height}
	top := 0.0
	if s.cover > 0 {
		marks, top = []float64{s.cover, s.cover + s.height}, s.cover
	}
	zs := grid(80, marks...)
	nx, nz := len(xs)-1, len(zs)-1
	id := func(i, k int) int { return i*nz + k }
	room := func(i, k int) bool {
		return xs[i+1] <= s.width/2+1e-6 && zs[k] >= top-1e-6 && zs[k+1] <= top+s.height+1e-6
	}
	a := mat.NewSymBandDense(nx*nz, nz, nil)
	rhs := mat.NewVecDense(nx*nz, nil)
	join := func(p, q int, g float64) {
		a.SetSymBand(p, p, a.At(p, p)+g)
		a.SetSymBand(q, q, a.At(q, q)+g)
		a.SetSymBand(p, q, a.At(p, q)-g)
	}
	type face struct {
		cell int
		g    float64
		part *float64
	}
	var faces []face
	inside := func(cell int, g float64, part *float64) {
		a.SetSymBand(cell, cell, a.At(cell, cell)+g)
		rhs.SetVec(cell, rhs.AtVec(cell)+g)
		faces = append(faces, face{cell, g, part})
	}
	for i := range nx {
		dx := xs[i+1] - xs[i]
		for k := range nz {
			dz, p := zs[k+1]-zs[k], id(i, k)
			if room(i, k) {
				a.SetSymBand(p, p, 1)
				continue
			}
			if k == 0 { // sky
				a.SetSymBand(p, p, a.At(p, p)+dx/(Rse+dz/2/s.lambda))
			}
			if k+1 < nz {
				switch down := (zs[k+2] - zs[k+1]) / 2 / s.lambda; {
				case room(i, k+1):
					inside(p, dx/(RsiRoof+s.rRoof+dz/2/s.lambda), &roof)
				default:
					join(p, id(i, k+1), dx/(dz/2/s.lambda+down))
				}
			}
			if k > 0 && room(i, k-1) {
				inside(p, dx/(RsiFloor+dz/2/s.lambda), &floor)
			}
			if i > 0 && room(i-1, k) {
				inside(p, dz/(RsiWall+s.rWall+dx/2/s.lambda), &walls)
			}
			if i+1 < nx {
				join(p, id(i+1, k), dz/((dx+xs[i+2]-xs[i+1])/2/s.lambda))
			}
		}
	}
	var chol mat.BandCholesky
	if !chol.Factorize(a) {
		panic("the section does not hang together")
	}
	var temp mat.VecDense
	if err := chol.SolveVecTo(&temp, rhs); err != nil {
		panic(err)
	}
	for _, f := range faces {
		*f.part += 2 * f.g * (1 - temp.AtVec(f.cell))
	}
	return roof, walls, floor
}

// The finite differences against a slab in one dimension: a cover as wide as
// the section.
func TestFiniteDifferencesOfASlab(t *testing.T) {
	s := section2D{width: 60, height: 1, cover: 0.5, lambda: 1.5, rRoof: 1}
	roof, _, _ := s.loss()
	near(t, "wide roof", roof/60, must(Roof(1, 0.5, 1.5)), 0.005) // its ends lose a little
}

// WT-21 (derived), 1 %.
func TestWT21Condensation(t *testing.T) {
	room := Air{15, 0.75}
	near(t, "p_i", must(room.Vapour()), 1276, 0.01)
	dew := must(room.DewPoint())
	near(t, "dew point", dew, 10.60, 0.01)
	within(t, "bare steel", must(Surface(15, 4, RsiWall, 0)), 4, 1e-12)
	near(t, "R against dew", must(ResistanceFor(15, 4, dew, RsiWall)), 0.195, 0.01)
	near(t, "foam against dew", must(ResistanceFor(15, 4, dew, RsiWall))*0.026, 0.0051, 0.01)
	mould := must(room.MouldPoint())
	near(t, "Tmin", mould, 14.00, 0.01)
	r := must(ResistanceFor(15, 4, mould, RsiWall))
	near(t, "R against mould", r, 1.30, 0.01)
	near(t, "foam against mould", r*0.026, 0.034, 0.01)
	within(t, "surface with it", must(Surface(15, 4, RsiWall, r)), mould, 1e-9)
	foam := Lining{R: 0.05 / 0.026, Air: 0.05 * 60, Rsi: RsiWall}
	b := must(foam.Glaser(room, 4))
	near(t, "p_c", b.AtDew, 813, 0.01)
	near(t, "g", b.Vapour, 3.09e-8, 0.01)
	near(t, "g in 30 days", b.Vapour*30*day, 0.080, 0.01)
	foam.Air += 10
	foam.Behind = Rse
	near(t, "with a membrane", must(foam.Glaser(room, 4)).Vapour*30*day, 0.018, 0.01)
	near(t, "1 US perm", PermAir, 3.50, 0.01)
}

// WT-21, second routes: saturation against steam tables, the dew point by
// bisection on saturation, Glaser through a hundred slices.
func TestWT21OtherRoutes(t *testing.T) {
	for temp, want := range map[float64]float64{0.01: 611.7, 10: 1228, 20: 2339, 30: 4247} { // steam tables
		near(t, fmt.Sprintf("saturation at %g", temp), must(Saturation(temp)), want, 0.004)
	}
	for _, a := range []Air{{15, 0.75}, {-5, 0.4}, {30, 0.95}} {
		p := must(a.Vapour())
		byHalves := bisect.Rising(-45, 60, func(x float64) float64 { return saturation(x) - p })
		within(t, "dew point", must(a.DewPoint()), byHalves, 1e-9)
	}
	room, foam := Air{15, 0.75}, Lining{R: 0.05 / 0.026, Air: 3, Rsi: RsiWall}
	b := must(foam.Glaser(room, 4))
	rh := make([]float64, 101) // humidity through the foam: nowhere above 1 but at the steel
	for i := range rh {
		x := float64(i) / 100
		temp := must(Surface(15, 4, RsiWall, foam.R))
		temp += (4 - temp) * x
		rh[i] = (b.Room - b.Vapour*foam.Air*x/vapourAir) / saturation(temp)
		if i < 100 && rh[i] > 1 {
			t.Errorf("vapour saturates at %g of the foam already", x)
		}
	}
	near(t, "at the steel", rh[100], 1, 1e-9)
	dry := must(foam.Glaser(Air{2, 0.5}, 4))
	if dry.Vapour >= 0 {
		t.Errorf("steel warmer than the room gets wet: %g", dry.Vapour)
	}
}

func TestHeatIsRefused(t *testing.T) {
	nan := math.NaN()
	_, err := Ground{Mean: nan}.Damping()
	refused(t, err, "mean")
	_, err = Ground{Mean: 8, Swing: -1, Diffusivity: 0.05}.At(1, 1)
	refused(t, err, "swing")
	_, err = wt19.At(-1, 1)
	refused(t, err, "depth")
	_, err = wt19.At(1, nan)
	refused(t, err, "day")
	_, err = Ground{Mean: 8, Coldest: 400, Diffusivity: 0.05}.Most(1)
	refused(t, err, "coldest")
	_, _, err = Ground{Mean: 8, Swing: 3}.ZeroDepth()
	refused(t, err, "diffusivity")
	good := Basement{Area: 15, Perimeter: 17, Depth: 2.6, Lambda: 2}
	for field, spoil := range map[string]func(*Basement){
		"area": func(b *Basement) { b.Area = 0 }, "perimeter": func(b *Basement) { b.Perimeter = 5 }, "depth": func(b *Basement) { b.Depth = nan },
		"lambda": func(b *Basement) { b.Lambda = 0 }, "wall": func(b *Basement) { b.Wall = -1 }, "r_floor": func(b *Basement) { b.RFloor = -1 }, "r_wall": func(b *Basement) { b.RWall = nan },
	} {
		b := good
		spoil(&b)
		_, err := b.Loss()
		refused(t, err, field)
	}
	_, err = Roof(1, -1, 2)
	refused(t, err, "cover")
	_, err = Saturation(200)
	refused(t, err, "temperature")
	_, err = Air{15, 0}.DewPoint()
	refused(t, err, "humidity")
	_, err = Air{nan, 0.5}.Vapour()
	refused(t, err, "temperature")
	_, err = Surface(15, 4, 0, 1)
	refused(t, err, "rsi")
	_, err = ResistanceFor(15, 4, 15, 0.13)
	refused(t, err, "least")
	within(t, "warm outside needs none", must(ResistanceFor(15, 14, 10, 0.13)), 0, 0)
	_, err = Lining{R: 1, Air: 0, Rsi: 0.13}.Glaser(Air{15, 0.75}, 4)
	refused(t, err, "air")
	_, err = Lining{R: 1, Air: 1, Rsi: 0.13}.Glaser(Air{15, 0.75}, nan)
	refused(t, err, "outside")
}
