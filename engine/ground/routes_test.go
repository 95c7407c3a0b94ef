package ground

import (
	"math"
	"math/rand"
	"testing"

	"hillset/engine/check"
	"hillset/engine/earth"
)

// fan follows the normal stress on the radial slip planes of a weightless fan
// from the passive to the active side, dσ/dθ = 2 (σ tan φ + c), by
// Runge-Kutta; it returns the load on the footing over q and over c.
func fan(phi, q, c float64) float64 {
	t, s := math.Tan(phi), math.Sin(phi)
	// normal stress on a slip plane at the edge of a zone whose mean stress is p
	// touches the line τ = c + σ tan φ
	onPlane := func(p float64) float64 { return p - (p*s+c*math.Cos(phi))*s }
	// passive zone: q is the lesser principal stress, p - R = q
	p := (q + c*math.Cos(phi)) / (1 - s)
	sigma := onPlane(p)
	const n = 2000
	h := math.Pi / 2 / n
	f := func(x float64) float64 { return 2 * (x*t + c) }
	for range n {
		k1 := f(sigma)
		k2 := f(sigma + h/2*k1)
		k3 := f(sigma + h/2*k2)
		k4 := f(sigma + h*k3)
		sigma += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
	}
	// active zone: back to the mean stress, and p + R is the load
	p = (sigma + c*math.Cos(phi)*s) / (1 - s*s)
	return p + p*s + c*math.Cos(phi)
}

func TestFactorsFromTheFan(t *testing.T) {
	for phi := 0.0; phi <= 45; phi += 5 {
		f := must(BearingFactors(EC7, deg(phi)))
		near(t, "Nq", fan(deg(phi), 1, 0), f.Nq, 1e-6)
		near(t, "Nc", fan(deg(phi), 0, 1), f.Nc, 1e-6)
		near(t, "both", fan(deg(phi), 9, 4), 9*f.Nq+4*f.Nc, 1e-6)
	}
	last := map[Method]Factors{}
	for phi := 1.0; phi <= 45; phi++ {
		for m := EC7; m <= Hansen; m++ {
			f, l := must(BearingFactors(m, deg(phi))), last[m]
			if f.Nc <= l.Nc || f.Nq <= l.Nq || f.Ng <= l.Ng {
				t.Errorf("%v: factors must grow with phi at %v", m, phi)
			}
			last[m] = f
		}
		if last[Terzaghi].Nq < last[EC7].Nq || last[Vesic].Ng < last[EC7].Ng || last[EC7].Ng < last[Hansen].Ng {
			t.Errorf("order of the methods at %v", phi)
		}
	}
}

// TestUndrainedIsFootingWithoutFriction compares two ways to the same value.
func TestUndrainedIsFootingWithoutFriction(t *testing.T) {
	for _, l := range []float64{1, 2, 5} {
		u, sc, ic, err := Undrained(40, 8, 1, l, 0)
		if err != nil {
			t.Fatal(err)
		}
		b := must(Footing(FootingIn{Method: EC7, B: 1, L: l, Q: 8, Gamma: 18, C: 40}))
		near(t, "undrained", u, b.Ultimate, 1e-9)
		if ic != 1 {
			t.Error("a vertical load is not inclined")
		}
		near(t, "shape", sc, b.Shape.C, 1e-12)
	}
	last := math.Inf(1)
	for h := 0.0; h <= 40; h += 8 {
		u, _, _, err := Undrained(40, 8, 1, 1, h)
		if err != nil || u >= last {
			t.Errorf("bearing must fall with the push: %v at %v (%v)", u, h, err)
		}
		last = u
	}
	_, sc, ic, _ := Undrained(40, 8, 1, 1, 40)
	near(t, "at the limit of sliding", ic, .5, 1e-12)
	near(t, "square", sc, 1.2, 1e-12)
}

// TestSettlementByPointLoads sums the surface settlement of point loads,
// P (1-nu2)/(pi E r), in polar strips about the corner.
func TestSettlementByPointLoads(t *testing.T) {
	for _, side := range []struct{ b, l float64 }{{.9, 1.2}, {1, 1}, {2.4, 6}} {
		q, e, nu := 95.0, 25000.0, .3
		// ∫∫ dA/r over the rectangle is the mean reach of its rays over the angle
		const n = 200000
		var reach float64
		for i := range n {
			a := math.Pi / 2 * (float64(i) + .5) / n
			reach += math.Min(side.b/math.Cos(a), side.l/math.Sin(a)) * math.Pi / 2 / n
		}
		want := q * (1 - nu*nu) / (math.Pi * e) * reach
		s := must(Settle(q, side.b, side.l, e, nu))
		near(t, "corner", s.Corner/want, 1, 1e-6)
		near(t, "centre is two corners", s.Centre, 2*s.Corner, 1e-12)
		if s.Average <= s.Corner || s.Average >= s.Centre {
			t.Error("the average lies between corner and centre")
		}
	}
}

// TestFlotationBySlices weighs the ground column above the roof in thin slices
// and takes the water pressure above and below the box.
func TestFlotationBySlices(t *testing.T) {
	rnd := rand.New(rand.NewSource(7))
	for range 40 {
		in := box20()
		in.Cover, in.Water = 1.5*rnd.Float64(), 5*rnd.Float64()
		in.Permanent, in.Inside = 10*rnd.Float64(), 5*rnd.Float64()
		area := in.Length * in.Width
		const n = 5000
		var effective float64
		for i := range n {
			z := in.Height + in.Cover*(float64(i)+.5)/n
			g := in.Gamma
			if z < in.Water {
				g = in.GammaSat - 9.81
			}
			effective += g * in.Cover / n * area
		}
		up := 9.81 * in.Water * area
		down := 9.81 * math.Max(0, in.Water-in.Height) * area
		f := must(Float(in))
		near(t, "FS", f.FS, (in.Tare+in.Permanent+in.Inside+effective)/(up-down), 2e-3)
		near(t, "net is the water displaced", f.Net, 9.81*area*math.Min(in.Water, in.Height), 1e-9)
		near(t, "by partial factors", f.UPL*f.FS, 1/.9, 1e-9)
	}
}

// TestSlideEquilibrium holds the pressure under the base against the forces
// that it must balance.
func TestSlideEquilibrium(t *testing.T) {
	rnd := rand.New(rand.NewSource(8))
	for range 200 {
		in := SlideIn{Length: 2 + 10*rnd.Float64(), Width: 2.4, Weight: 100 + 300*rnd.Float64(),
			Earth: 150 * rnd.Float64(), EarthLevel: rnd.Float64() * 1.5, Water: 60 * rnd.Float64(), WaterLevel: rnd.Float64(),
			Uplift: 90 * rnd.Float64(), TanBase: .4, Side: 100 * rnd.Float64(), Share: rnd.Float64(), Passive: 40 * rnd.Float64()}
		in.WeightArm = in.Length * (.3 + .4*rnd.Float64())
		s := must(SlideBox(in))
		near(t, "N", s.Normal, in.Weight-in.Uplift, 1e-12)
		near(t, "resisting", s.FS*s.Driving, s.Base+s.Side, 1e-9)
		near(t, "with passive", s.FSPassive*s.Driving, s.Base+s.Side+in.Passive, 1e-9)
		if !math.IsNaN(s.FSActive) {
			t.Error("no relaxed thrust was given")
		}
		if s.Under.Off {
			continue
		}
		p := s.Under
		force, mom := (p.Toe+p.Heel)/2*p.Contact, p.Contact*p.Contact*(p.Toe+2*p.Heel)/6
		if p.E < 0 && p.Contact < in.Length {
			mom = force * (in.Length - p.Contact/3)
		}
		near(t, "force under the base", force*in.Width, s.Normal, 1e-9)
		drive := in.Earth*in.EarthLevel + in.Water*in.WaterLevel
		near(t, "moment about the front edge", mom*in.Width, in.Weight*in.WeightArm-drive-in.Uplift*in.Length/2, 1e-6)
	}
}

// TestWaterRisingBehindTheBox lets the water rise in steps behind and under a
// box in a slope: every factor of safety falls.
func TestWaterRisingBehindTheBox(t *testing.T) {
	const width, length = 2.438, 6.058
	last := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
	for water := -.1; water < 1.0; water += .1 {
		col := earth.Column{Water: water, Layers: []earth.Layer{{Top: 3.191, Bottom: 0, Gamma: 18, GammaSat: 20, Phi: deg(34), OCR: 1}}}
		d := must(col.Lateral(earth.AtRest, 2.591, 0))
		soil, zs := d.ResultantOf(func(r *earth.Row) float64 { return r.Soil })
		u, zu := d.ResultantOf(func(r *earth.Row) float64 { return r.U })
		side := must(SideFriction(SideFrictionIn{Diagram: d, K: .28, Delta: deg(17), Length: 2 * length}))
		fl := box20()
		fl.Water = water
		f := must(Float(fl))
		in := SlideIn{Length: length, Width: width, Weight: f.Resisting, Uplift: f.Uplift, Earth: soil * width, EarthLevel: zs,
			Water: u * width, WaterLevel: zu, TanBase: .4, Side: side, Share: .5, Required: 1.5}
		s := must(SlideBox(in))
		now := [3]float64{s.FS, s.FSOver, f.FS}
		for i := range now {
			if now[i] > last[i] || water > .05 && now[i] == last[i] {
				t.Errorf("water %.1f: factor %d is %v after %v", water, i, now[i], last[i])
			}
		}
		last = now
	}
}

// TestStackJointsStandAlone checks a joint against a wall made by hand of the
// courses above it.
func TestStackJointsStandAlone(t *testing.T) {
	in := StackIn{Courses: 4, Height: .6, B: .75, Setback: .04, Gamma: 22, Soil: 18, Phi: deg(34), Delta: deg(15), Beta: deg(12), Q: 6,
		TanBase: .45, TanJoint: .6}
	joints := must(Stack(in))
	if len(joints) != 4 {
		t.Fatalf("%d joints", len(joints))
	}
	for c, j := range joints {
		n := 4 - c
		if j.Course != c || math.Abs(j.Height-.6*float64(n)) > 1e-12 {
			t.Errorf("joint %d: %+v", c, j)
		}
		weight := float64(n) * .75 * .6 * 22
		near(t, "V", j.Wall.V, weight+j.V, 1e-9)
		centre := .375 + float64(n-1)*.02 // middle of the courses above
		h := j.Height
		p := j.Ka * (18*h*h/2 + 6*h)
		arm := (18*h*h/2*h/3 + 6*h*h/2) / (18*h*h/2 + 6*h)
		near(t, "thrust", math.Hypot(j.H, j.V), p, 1e-9)
		mr := weight*centre + math.Max(0, j.V)*(.75+arm*.04/.6)
		near(t, "MR", j.Wall.Resisting, mr, 1e-9)
		near(t, "MO", j.Wall.Overturning, j.H*arm, 1e-9)
		friction := .6
		if c == 0 {
			friction = .45
		}
		near(t, "sliding", j.Wall.FSSlide, friction*j.Wall.V/j.H, 1e-9)
	}
	// With a smooth back that leans, the thrust lifts the wall a little.
	in.Delta = 0
	j := must(Stack(in))[0]
	if j.V >= 0 {
		t.Errorf("the thrust on a face that leans back points up: %v", j.V)
	}
	arm := armOf(in)
	near(t, "what lifts overturns", j.Wall.Overturning, j.H*arm-j.V*(.75+arm*.04/.6), 1e-9)
}

// armOf is the height of the thrust above the base of a stack.
func armOf(in StackIn) float64 {
	h := float64(in.Courses) * in.Height
	return (in.Soil*h*h/2*h/3 + in.Q*h*h/2) / (in.Soil*h*h/2 + in.Q*h)
}

func TestPresumptiveRows(t *testing.T) {
	for _, c := range []struct {
		class                       string
		psf, lateral, friction, coh float64 // verified; psf, psf/ft
	}{
		{"GP", 3000, 200, .35, 0}, {"SW", 2000, 150, .25, 0}, {"SC", 2000, 150, .25, 0}, {"GC", 2000, 150, .25, 0},
		{"ML", 1500, 100, 0, 130}, {"CH", 1500, 100, 0, 130}, {"rock", 4000, 400, .35, 0}, {"crystalline", 12000, 1200, .70, 0},
	} {
		p := must(PresumptiveFor(c.class))
		near(t, c.class, p.Bearing/.0478803, c.psf, 1e-5)
		near(t, c.class+" lateral", p.Lateral/.157087, c.lateral, 1e-5)
		if p.Friction != c.friction || math.Abs(p.Cohesion/.0478803-c.coh) > .01 || p.Name == "" {
			t.Errorf("%s: %+v", c.class, p)
		}
	}
}

// TestVerdictsFollowTheFactors turns the required factor about the one found.
func TestVerdictsFollowTheFactors(t *testing.T) {
	in := slide20()
	s := must(SlideBox(in))
	for _, c := range []struct {
		share float64
		want  check.Verdict
	}{{.999, check.Within}, {1, check.Within}, {1.001, check.Beyond}} {
		in.Required = s.FS * c.share
		sliding := must(SlidingCheck(in))
		if got := sliding.Verdict(); got != c.want {
			t.Errorf("sliding at %v of what there is: %v", c.share, got)
		}
		in.Required = s.FSOver * c.share
		tipping := must(OverturningCheck(in))
		if got := tipping.Verdict(); got != c.want {
			t.Errorf("overturning at %v of what there is: %v", c.share, got)
		}
	}
	for m, name := range map[Method]string{EC7: "EN 1997-1 Annex D", Terzaghi: "Terzaghi", Hansen: "Hansen", Method(-1): "method -1"} {
		if m.String() != name {
			t.Errorf("%d is %q", int(m), m)
		}
	}
}
