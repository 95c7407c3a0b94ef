package ground

import (
	"math"
	"math/rand"
	"testing"
)

// endless is one soil without an end.
func endless(e, nu float64) []Layer { return []Layer{{"soil", math.Inf(1), e, nu}} }

// four puts the same ground below all pads.
func four(below []Layer) [4][]Layer { return [4][]Layer{below, below, below, below} }

// same holds small values together by their ratio.
func same(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	near(t, what, got/want, 1, tol)
}

// apart are pads of EP-24 too far apart to draw each other down.
func apart() SettleIn {
	return SettleIn{SpanX: 1e6, SpanY: 1e6, Length: .9, Width: 1.2, MostLength: 3, MostWidth: 1.2 + 1, Below: four(endless(25000, .3))}
}

func TestPadSettleCases(t *testing.T) {
	t.Run("EP-24", func(t *testing.T) { // derived
		s := must(must(ReadySettle(apart())).Under([4]float64{95, 95, 95, 95}))
		near(t, "average", s.Pad[0]*1000, 3.384, tolA)
		in := apart()
		in.Bed = Layer{"gravel", .3, 80000, .3}
		r := must(ReadySettle(in))
		near(t, "M", r.modulus/1000, 107.7, tolA)
		s = must(r.Under([4]float64{95, 95, 95, 95}))
		near(t, "bed", s.Bed[0]*1000, .202, 2e-3) // three figures
		// below the bed the load has spread to 1.2 by 1.5 m
		near(t, "pressure", s.Pressure[0], 95*.9*1.2/(1.2*1.5), 1e-12)
		same(t, "ground", s.Ground[0], must(Settle(95*.9*1.2/(1.2*1.5), 1.2, 1.5, 25000, .3)).Average, 1e-5)
		in.MostLength, in.MostWidth = .9, 1.2 // no room to spread
		s = must(must(ReadySettle(in)).Under([4]float64{95, 95, 95, 95}))
		near(t, "unspread", s.Bed[0]*1000, .265, 2e-3)
	})
	t.Run("EP-24 corner and centre", func(t *testing.T) {
		l := Layer{"soil", math.Inf(1), 25000, .3}
		near(t, "corner", 95000*corner(.9, 1.2, 0).sinks(&l), 2.004, tolA)
		near(t, "centre", 95000*(rect{0, .9, 0, 1.2}).of(.45, .6, 0).sinks(&l), 4.008, tolA)
	})
}

// TestSqueezeByPointLoads sums the sinking of points below point loads,
// P(1+ν)/(2πE)·(2(1−ν)/R + z²/R³) (Boussinesq, memory), over the rectangle,
// and the strains of the layer down a line.
func TestSqueezeByPointLoads(t *testing.T) {
	const n = 400
	r := rect{-.3, .5, -.2, 1.1}
	for _, at := range [][3]float64{{0, 0, .7}, {.5, 1.1, .3}, {2, -1, .5}, {.1, .1, 3}} {
		for _, nu := range []float64{0, .3, .45} {
			var want float64
			for i := range n {
				for k := range n {
					x := r.x1 + (r.x2-r.x1)*(float64(i)+.5)/n - at[0]
					y := r.y1 + (r.y2-r.y1)*(float64(k)+.5)/n - at[1]
					d := math.Sqrt(x*x + y*y + at[2]*at[2])
					want += (2*(1-nu)/d + at[2]*at[2]/(d*d*d)) * (r.x2 - r.x1) * (r.y2 - r.y1) / n / n
				}
			}
			l := Layer{"", 1, 1000, nu}
			same(t, "sinks", r.of(at[0], at[1], at[2]).sinks(&l), (1+nu)/(2*math.Pi*1000)*want, 1e-5)
		}
	}
	// a layer is squeezed by what its strains sum up to: below the corner
	// ε = (σz − ν(σx + σy))/E, without ν the stress alone (Fadum's integral by
	// point loads, 3z³/2πR⁵)
	const steps, grid = 60, 120
	a, b, z1, z2 := .8, 1.3, .4, 1.6
	var want float64
	for s := range steps {
		z := z1 + (z2-z1)*(float64(s)+.5)/steps
		for i := range grid {
			for k := range grid {
				x, y := a*(float64(i)+.5)/grid, b*(float64(k)+.5)/grid
				d := math.Sqrt(x*x + y*y + z*z)
				want += 3 * z * z * z / (2 * math.Pi * math.Pow(d, 5)) * a * b / grid / grid * (z2 - z1) / steps / 20000
			}
		}
	}
	l := Layer{"", z2 - z1, 20000, 0}
	same(t, "strains", corner(a, b, z1).sinks(&l)-corner(a, b, z2).sinks(&l), want, 1e-3)
}

// TestMeanSinking holds nine points against very many.
func TestMeanSinking(t *testing.T) {
	const n = 200
	pads := []rect{{0, 1, 0, 1}, {5, 6, 0, 1}, {0, 1, -2.5, -1.5}}
	for _, z := range []float64{0, .2, .5, 1, 4} {
		for i, r := range pads {
			var want reach
			for a := range n {
				for b := range n {
					p := r.of((float64(a)+.5)/n, (float64(b)+.5)/n, z)
					want.near += p.near / n / n
					want.deep += p.deep / n / n
				}
			}
			got := r.mean(pads[0], z)
			if l := (&Layer{E: 1, Nu: .3}); math.Abs(got.sinks(l)/want.sinks(l)-1) > 3e-3 {
				t.Errorf("pad %d at depth %g: %v, want %v", i, z, got, want)
			}
		}
	}
}

// anyGround are layers as they may lie below a pad.
func anyGround(rnd *rand.Rand) []Layer {
	var out []Layer
	for range 1 + rnd.Intn(3) {
		out = append(out, Layer{"", .1 + 2*rnd.Float64(), 3000 + 60000*rnd.Float64(), .2 + .25*rnd.Float64()})
	}
	out[len(out)-1].Thickness = math.Inf(1)
	return out
}

func anyPads(rnd *rand.Rand) SettleIn {
	in := SettleIn{SpanX: 3 + 9*rnd.Float64(), SpanY: 2.26, Length: .3 + rnd.Float64(), Width: .3 + .5*rnd.Float64(), MostLength: 3, MostWidth: 1.2,
		Bed: Layer{"bed", .6 * rnd.Float64(), 30000 + 60000*rnd.Float64(), .3}}
	in.Below = four(anyGround(rnd))
	return in
}

func TestSettleProperties(t *testing.T) {
	rnd := rand.New(rand.NewSource(24))
	for range 300 {
		in := anyPads(rnd)
		even := [4]float64{60, 60, 60, 60}
		s := must(must(ReadySettle(in)).Under(even))
		if s.Tilt() > 1e-12 || s.Twist > 1e-12 || s.Most <= 0 {
			t.Fatalf("even ground and load: tilt %g, twist %g, %g down", s.Tilt(), s.Twist, s.Most)
		}
		// a load that leans tilts even ground, and does not twist it
		lean := must(LoadPads(PadsIn{Vertical: 200, Ex: .4, Ey: .2, SpanX: in.SpanX, SpanY: in.SpanY, Length: in.Length, Width: in.Width}))
		if l := must(must(ReadySettle(in)).Under(lean.Pressure)); l.Twist > 1e-9*l.Most || l.Along == 0 || l.Across == 0 || l.Worst != 0 {
			t.Fatalf("a load that leans to the front right: %+v", l)
		}
		// more load, on one pad or on all
		more := even
		more[rnd.Intn(4)] += 40 * rnd.Float64()
		if m := must(must(ReadySettle(in)).Under(more)); m.Most < s.Most {
			t.Fatalf("more load, %g instead of %g", m.Most, s.Most)
		}
		// all of it doubles
		same(t, "twice the load", must(must(ReadySettle(in)).Under([4]float64{120, 120, 120, 120})).Most, 2*s.Most, 1e-12)
		// one stiffer layer, below all pads
		stiff := in
		layers := append([]Layer(nil), in.Below[0]...)
		layers[rnd.Intn(len(layers))].E *= 1 + 3*rnd.Float64()
		stiff.Below = four(layers)
		if m := must(must(ReadySettle(stiff)).Under(even)); m.Most > s.Most*(1+1e-12) {
			t.Fatalf("stiffer ground, %g instead of %g: %+v", m.Most, s.Most, in)
		}
		stiff = in
		stiff.Bed.E *= 2
		if m := must(must(ReadySettle(stiff)).Under(even)); m.Most > s.Most {
			t.Fatalf("a stiffer bed, %g instead of %g", m.Most, s.Most)
		}
		// rock below ends the ground
		rock := in
		layers = append([]Layer(nil), in.Below[0]...)
		layers[len(layers)-1].Thickness = .5
		rock.Below = four(layers)
		if m := must(must(ReadySettle(rock)).Under(even)); m.Most >= s.Most {
			t.Fatalf("rock below, %g instead of %g", m.Most, s.Most)
		}
		// layers that are alike are one
		l := in.Below[0][len(in.Below[0])-1]
		cut := l
		cut.Thickness = 1.3
		one, two := in, in
		one.Below, two.Below = four([]Layer{l}), four([]Layer{cut, l})
		same(t, "cut in two", must(must(ReadySettle(two)).Under(even)).Most, must(must(ReadySettle(one)).Under(even)).Most, 1e-9)
	}
}

// TestTiltOfUnlikeGround puts the front on soft ground: by hand, pads so far
// apart that each is alone.
func TestTiltOfUnlikeGround(t *testing.T) {
	in := apart()
	in.Below[0], in.Below[1] = endless(10000, .3), endless(10000, .3)
	in.Below[3] = nil // rock at the back left
	s := must(must(ReadySettle(in)).Under([4]float64{95, 95, 95, 95}))
	soft, hard := 3.384e-3*2.5, 3.384e-3 // EP-24 by the moduli
	same(t, "front", s.Pad[0], soft, tolA)
	same(t, "back right", s.Pad[2], hard, tolA)
	if s.Pad[3] != 0 {
		t.Errorf("rock goes down by %g", s.Pad[3])
	}
	same(t, "along", s.Along, soft/1e6, tolA) // the left side, from rock to soft ground
	same(t, "across", s.Across, hard/1e6, tolA)
	same(t, "twist", s.Twist, hard, tolA)
}

func TestSettleRefuses(t *testing.T) {
	for name, change := range map[string]func(*SettleIn){
		"below back right.e":          func(in *SettleIn) { in.Below[2] = []Layer{{"", 1, 0, .3}} },
		"below front left.nu":         func(in *SettleIn) { in.Below[1] = []Layer{{"", 1, 1000, .5}} },
		"below front right.thickness": func(in *SettleIn) { in.Below[0] = []Layer{{"", math.NaN(), 1000, .3}} },
		"length":                      func(in *SettleIn) { in.Length = 0 },
		"span_x":                      func(in *SettleIn) { in.SpanX = math.Inf(1) },
		"most_length":                 func(in *SettleIn) { in.MostLength = .1 },
		"bed.e":                       func(in *SettleIn) { in.Bed = Layer{"", .3, -1, .3} },
	} {
		in := apart()
		change(&in)
		_, err := ReadySettle(in)
		refused(t, name, name, err)
	}
	in := apart()
	in.Bed = Layer{"", math.Inf(1), 1000, .3}
	_, err := ReadySettle(in)
	refused(t, "endless bed", "bed.thickness", err)
	_, err = must(ReadySettle(apart())).Under([4]float64{1, -1, 1, 1})
	refused(t, "lifted", "pressure below the pad front left", err)
}

// BenchmarkReadySettle is what one assessment adds for its pads.
func BenchmarkReadySettle(b *testing.B) {
	in := anyPads(rand.New(rand.NewSource(1)))
	for b.Loop() {
		must(ReadySettle(in))
	}
}
