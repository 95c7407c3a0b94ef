package ground

import (
	"errors"
	"math"
	"math/rand"
	"testing"

	"hillset/engine/earth"
	"hillset/engine/earth/limit"
)

// refused asserts that an error names the field.
func refused(t *testing.T, what, field string, err error) {
	t.Helper()
	var e *limit.Error
	if !errors.As(err, &e) || e.Field != field {
		t.Errorf("%s: want a refusal of %s, got %v", what, field, err)
	}
}

func TestWalls(t *testing.T) {
	t.Run("EP-18", func(t *testing.T) { // verified, US units kept: kip and foot; tolerance of the case
		ka := must(earth.RankineKa(deg(30)))
		p := ka * 0.115 * 100 / 2
		near(t, "thrust", p, 1.917, tolA)
		near(t, "base pressure", ka*0.115*10, 0.383, 1.5e-3)
		w := must(StandWall(WallIn{B: 3, Weights: []Weight{{10 * 3 * 0.150, 1.5}}, H: p, HArm: 10. / 3, TanBase: math.Tan(deg(30))}))
		near(t, "overturning", w.FSOver, 1.057, tolA)
		near(t, "sliding", w.FSSlide, 1.356, tolA)
		near(t, "overturning printed", w.FSOver, 1.07, 1.5e-2)
		near(t, "sliding printed", w.FSSlide, 1.37, 1.5e-2)
	})
	t.Run("EP-19", func(t *testing.T) { // memory and derived
		h := 0.7 + 6 + 2.6*math.Tan(deg(10))
		near(t, "H'", h, 7.158, tolA)
		ka := must(earth.RankineKaSlope(deg(30), deg(10)))
		pa := ka * 18 * h * h / 2
		near(t, "Pa", pa, 161.2, tolA)
		in := WallIn{B: 4, H: pa * math.Cos(deg(10)), HArm: h / 3, V: pa * math.Sin(deg(10)), VArm: 4,
			Weights: []Weight{{6 * .5 * 23.58, 1.15}, {.1 * 6 * 23.58, .7 + .2*2/3}, {4 * .7 * 23.58, 2},
				{2.6 * 6 * 18, 2.7}, {2.6 * (h - 6.7) / 2 * 18, 1.4 + 2.6*2/3}},
			TanBase: math.Tan(deg(20) * 2 / 3), Adhesion: 40 * 2. / 3, Passive: 215}
		w := must(StandWall(in))
		near(t, "Ph", in.H, 158.7, tolA)
		near(t, "V", w.V, 470.4, tolA)
		near(t, "MR", w.Resisting, 1128.9, tolA)
		near(t, "MO", w.Overturning, 378.8, tolA)
		near(t, "overturning", w.FSOver, 2.98, tolB)
		near(t, "with passive", w.FSPassive, 2.73, tolB)
		near(t, "without", w.FSSlide, 1.37, tolB)
		near(t, "e", w.Base.E, .405, tolB)
		near(t, "toe", w.Base.Toe, 189.1, tolB)
		near(t, "heel", w.Base.Heel, 46.1, tolB)
		if !w.Base.Middle {
			t.Error("inside the middle third")
		}
		b := must(Footing(FootingIn{Method: Vesic, B: w.Base.Width, L: math.Inf(1), Depth: 1.5, Q: 19 * 1.5, Gamma: 19,
			C: 40, Phi: deg(20), V: w.V, H: in.H, NoShape: true}))
		near(t, "B'", w.Base.Width, 3.189, tolB)
		near(t, "qu", b.Ultimate, 571, tolA)
		near(t, "qu printed", b.Ultimate, 574, 2e-2)
		near(t, "FS", b.Ultimate/w.Base.Toe, 3.02, tolB)
	})
	t.Run("EP-20", func(t *testing.T) { // derived
		in := StackIn{Courses: 3, Height: .61, B: .61, Gamma: 22.6, Soil: 17, Phi: deg(36), Delta: deg(24),
			TanBase: math.Tan(deg(30)), TanJoint: .55}
		j := must(Stack(in))
		a := j[0]
		near(t, "Ka", a.Ka, .2349, tolA)
		near(t, "Ph", a.H, 6.108, tolA)
		near(t, "Pv", a.V, 2.720, tolA)
		near(t, "V", a.Wall.V, 27.948, tolA)
		near(t, "OT", a.Wall.FSOver, 2.510, tolA)
		near(t, "x0", a.Wall.Base.X0, .2014, tolA)
		near(t, "e", a.Wall.Base.E, .1036, tolA)
		near(t, "SL", a.Wall.FSSlide, 2.642, tolA)
		near(t, "q triangular", a.Wall.Base.Max, 92.5, tolA)
		near(t, "q even", a.Wall.Base.Uniform, 69.4, tolA)
		if a.Wall.Base.Middle || a.Wall.Base.Heel != 0 {
			t.Error("the heel lifts although overturning has 2.5")
		}
		near(t, "top joint", j[2].Wall.FSSlide, 7.06, tolA)
		near(t, "joint under two", j[1].Wall.FSSlide, 3.65, tolA)
		in.Delta = 0
		b := must(Stack(in))[0]
		near(t, "smooth Ka", b.Ka, .2596, tolA)
		near(t, "smooth P", b.H, 7.390, tolA)
		near(t, "smooth OT", b.Wall.FSOver, 1.707, tolA)
		near(t, "smooth e", b.Wall.Base.E, .1787, tolA)
		near(t, "smooth SL", b.Wall.FSSlide, 1.971, tolA)
		near(t, "smooth q", b.Wall.Base.Max, 133.2, tolA)
		near(t, "smooth q even", b.Wall.Base.Uniform, 99.9, tolA)
	})
}

func TestStackLeans(t *testing.T) {
	in := StackIn{Courses: 4, Height: .61, B: .61, Gamma: 22.6, Soil: 17, Phi: deg(34), Delta: deg(20), TanBase: .5, TanJoint: .55, Q: 5}
	last := 0.0
	for s := 0.0; s <= .1; s += .02 {
		in.Setback = s
		fs := must(Stack(in))[0].Wall.FSOver
		if fs <= last {
			t.Errorf("leaning back must help: %v at setback %v", fs, s)
		}
		last = fs
	}
	in.Setback, in.Q = 0, 0
	bare := must(Stack(in))[0]
	in.Q = 8
	q := must(Stack(in))[0]
	near(t, "surcharge", q.H-bare.H, q.Ka*8*4*.61*math.Cos(deg(20)), 1e-9)
	in.Beta = deg(40)
	_, err := Stack(in)
	refused(t, "steep fill", "beta", err)
	in.Beta, in.Courses = 0, 0
	_, err = Stack(in)
	refused(t, "no courses", "courses", err)
}

func TestWing(t *testing.T) {
	t.Run("EP-21", func(t *testing.T) { // derived
		in := WingIn{Splay: deg(45), Beta: math.Atan(1. / 3), Phi: deg(34), Gamma: 18, H1: 2.44, H2: .61, Length: 3.66}
		w := must(SplayWing(in))
		near(t, "slope", w.Beta*180/math.Pi, 13.263, tolA)
		near(t, "Ka", w.Ka, .3041, tolA)
		near(t, "Ka of the hillside", must(earth.RankineKaSlope(in.Phi, in.Beta)), .3280, tolA)
		near(t, "P1", w.P1, 16.29, tolA)
		near(t, "P2", w.P2, 1.018, tolA)
		near(t, "total", w.Thrust, 26.09, tolA)
		near(t, "centroid", w.Centroid, 1.176, tolA)
		near(t, "horizontal", w.Horizontal, 25.39, tolA)
		near(t, "axial", w.Axial, 17.95, tolA)
		near(t, "lateral", w.Lateral, 17.95, tolA)
		near(t, "vertical", w.Vertical, 5.98, tolA)
		near(t, "moment", w.Moment, 15.67, tolA)
		near(t, "fall", w.Fall, .863, tolA)
	})
	rnd := rand.New(rand.NewSource(21))
	for range 30 { // the taper integrals, strip by strip
		h1 := 1 + 2*rnd.Float64()
		in := WingIn{Splay: rnd.Float64() * math.Pi / 2, Beta: deg(25 * rnd.Float64()), Phi: deg(30 + 8*rnd.Float64()),
			Gamma: 18, H1: h1, H2: h1 * rnd.Float64(), Length: 1 + 5*rnd.Float64()}
		w := must(SplayWing(in))
		var p, px, m float64
		const n = 4000
		for i := range n {
			x := in.Length * (float64(i) + .5) / n
			h := in.H1 + (in.H2-in.H1)*x/in.Length
			dp := w.Ka * in.Gamma * h * h / 2 * in.Length / n
			p += dp
			px += dp * x
			m += dp * math.Cos(w.Beta) * h / 3
		}
		near(t, "thrust", w.Thrust, p, 1e-6)
		near(t, "centroid", w.Centroid, px/p, 1e-6)
		near(t, "moment", w.Moment, m, 1e-6)
		near(t, "parts", math.Hypot(math.Hypot(w.Axial, w.Lateral), w.Vertical), w.Thrust, 1e-9)
	}
	_, err := SplayWing(WingIn{Splay: 2, Gamma: 18, Phi: .6, H1: 2, Length: 1})
	refused(t, "splay", "splay", err)
	_, err = SplayWing(WingIn{Splay: .1, Beta: deg(36), Gamma: 18, Phi: deg(30), H1: 2, Length: 1})
	refused(t, "steep", "beta", err)
}

func TestPressBase(t *testing.T) {
	rnd := rand.New(rand.NewSource(20))
	for range 200 {
		b, v := 0.5+4*rnd.Float64(), 10+200*rnd.Float64()
		x0 := b * rnd.Float64()
		p := must(PressBase(v, v*x0, b))
		// The pressures hold the load up and in place.
		near(t, "mirror", must(PressBase(v, v*(b-x0), b)).Toe, p.Heel, 1e-9)
		var sum, mom float64
		if p.Contact == b {
			sum = (p.Toe + p.Heel) / 2 * b
			mom = b * b * (p.Toe + 2*p.Heel) / 6
		} else {
			sum = p.Max * p.Contact / 2
			mom = sum * p.Contact / 3
			if p.E < 0 {
				mom = sum * (b - p.Contact/3)
			}
		}
		near(t, "force", sum, v, 1e-9)
		near(t, "moment", mom, v*x0, 1e-9)
		near(t, "effective", p.Uniform*p.Width, v, 1e-9)
		if (math.Abs(p.E) <= b/6) != p.Middle {
			t.Errorf("middle third: e %v of %v", p.E, b)
		}
	}
	for _, m := range []float64{-1, 0, 20, 25} {
		if p := must(PressBase(10, m, 2)); !p.Off || !math.IsInf(p.Max, 1) {
			t.Errorf("moment %v: the resultant misses the base", m)
		}
	}
	if p := must(PressBase(-1, 1, 2)); !p.Off || !math.IsInf(p.E, 1) {
		t.Error("a base that floats")
	}
	_, err := PressBase(math.NaN(), 1, 2)
	refused(t, "NaN", "v", err)
	for _, c := range []struct {
		ex, ey float64
		in     bool
	}{{0, 0, true}, {.5, 0, true}, {0, .25, true}, {.25, .125, true}, {.3, .125, false}, {-.5, -.01, false}} {
		if got := must(InKern(c.ex, c.ey, 3, 1.5)); got != c.in {
			t.Errorf("kern %v %v: %v", c.ex, c.ey, got)
		}
	}
}

func TestWallRefusals(t *testing.T) {
	good := WallIn{B: 1, Weights: []Weight{{10, .5}}, H: 1, HArm: 1}
	for _, c := range []struct {
		field string
		set   func(*WallIn)
	}{
		{"b", func(w *WallIn) { w.B = 0 }},
		{"h", func(w *WallIn) { w.H = -1 }},
		{"h_arm", func(w *WallIn) { w.HArm = math.Inf(1) }},
		{"weights[1].w", func(w *WallIn) { w.Weights = append(w.Weights, Weight{math.NaN(), 1}) }},
		{"tan_base", func(w *WallIn) { w.TanBase = -.1 }},
		{"passive", func(w *WallIn) { w.Passive = -.1 }},
	} {
		in := good
		c.set(&in)
		_, err := StandWall(in)
		refused(t, c.field, c.field, err)
	}
	good.H = 0
	if w := must(StandWall(good)); !math.IsInf(w.FSOver, 1) || !math.IsInf(w.FSSlide, 1) {
		t.Error("nothing drives")
	}
	lifted := must(StandWall(WallIn{B: 2, Weights: []Weight{{10, 1}, {-4, 1}}, H: 1, HArm: 1}))
	near(t, "uplift overturns", lifted.FSOver, 10./5, 1e-12)
	near(t, "resultant", lifted.Base.X0, 5./6, 1e-12)
}
