package ground

import (
	"math"
	"math/rand"
	"testing"

	"hillset/engine/earth"
)

// oneSoil is a column of one soil from a surface down.
func oneSoil(surface, gamma, phi, beta float64) earth.Column {
	return earth.Column{Water: math.Inf(-1), Beta: beta,
		Layers: []earth.Layer{{Name: "fill", Top: surface, Bottom: -10, Gamma: gamma, GammaSat: gamma + 3, Phi: phi, OCR: 1}}}
}

func TestPushedStack(t *testing.T) {
	t.Run("EP-20", func(t *testing.T) { // derived
		push := must(PushStack(PushIn{Column: oneSoil(1.83, 17, deg(36), 0), Delta: []float64{deg(24)}, Top: 1.83}))
		in := PushedIn{Courses: 3, Height: .61, B: .61, Gamma: 22.6, TanBase: math.Tan(deg(30)), TanJoint: .55, Push: push}
		j := must(StackPushed(in))
		near(t, "Ka", push.Ka, .2349, tolA)
		near(t, "Ph", j[0].H, 6.108, tolA)
		near(t, "Pv", j[0].V, 2.720, tolA)
		near(t, "OT", j[0].Wall.FSOver, 2.510, tolA)
		near(t, "e", j[0].Wall.Base.E, .1036, tolA)
		near(t, "SL", j[0].Wall.FSSlide, 2.642, tolA)
		near(t, "top joint", j[2].Wall.FSSlide, 7.06, tolA)
		near(t, "joint under two", j[1].Wall.FSSlide, 3.65, tolA)
	})
	t.Run("EP-21", func(t *testing.T) { // derived; metre by metre down the taper
		b := math.Atan(math.Tan(math.Atan(1./3)) * math.Cos(deg(45)))
		var h, v, m, x float64
		const n = 400
		for i := range n {
			at := 3.66 * (float64(i) + .5) / n
			high := 2.44 + (.61-2.44)*at/3.66
			p := must(PushStack(PushIn{Column: oneSoil(high, 18, deg(34), b), Delta: []float64{b}, Top: high}))
			near(t, "Ka", p.Ka, .3041, tolA)
			dh := p.H * 3.66 / n
			h, v, x = h+dh, v+p.V*3.66/n, x+dh*at
			_, _, mh, _ := p.above(0, 0)
			m += mh * 3.66 / n
		}
		near(t, "horizontal", h, 25.39, tolA)
		near(t, "vertical", v, 5.98, tolA)
		near(t, "total", math.Hypot(h, v), 26.09, tolA)
		near(t, "from the tall end", x/h, 1.176, tolA)
		near(t, "moment", m, 15.67, tolA)
	})
	t.Run("EP-16", func(t *testing.T) { // Mononobe-Okabe without the lift: kh alone is on the high side of kv .075
		in := PushIn{Column: oneSoil(5, 17.3, deg(34), 0), Delta: []float64{deg(17)}, Top: 5}
		still := must(PushStack(in))
		near(t, "Pa", math.Hypot(still.H, still.V), 55.45, tolA)
		in.Kh = .15
		p := must(PushStack(in))
		kae, _, err := earth.MononobeOkabe(deg(34), deg(17), 0, 0, .15, 0)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "increment", p.Quake, (kae-still.Ka)*17.3*12.5*math.Cos(deg(17)), 1e-9)
		h, _, mh, _ := p.above(0, 0)
		near(t, "thrust", h, still.H+p.Quake, 1e-9)
		near(t, "its arm", (mh-still.H*5/3)/p.Quake, 3, 1e-9)
	})
}

// TestPushedAsStack: one soil, dry, with a surcharge and a lean: the same as the
// closed sums of Stack (second route).
func TestPushedAsStack(t *testing.T) {
	rnd := rand.New(rand.NewSource(7))
	for range 60 {
		in := StackIn{Courses: 1 + rnd.Intn(6), Height: .4 + .3*rnd.Float64(), B: .6 + rnd.Float64(), Setback: .08 * rnd.Float64(), Gamma: 22,
			Soil: 16 + 5*rnd.Float64(), Phi: deg(30 + 8*rnd.Float64()), Delta: deg(20 * rnd.Float64()), Beta: deg(20 * rnd.Float64()), Q: 10 * rnd.Float64(), TanBase: .4, TanJoint: .55}
		want := must(Stack(in))
		h := float64(in.Courses) * in.Height
		col := oneSoil(h, in.Soil, in.Phi, in.Beta)
		col.Q = in.Q
		push := must(PushStack(PushIn{Column: col, Delta: []float64{in.Delta}, Tilt: math.Atan2(in.Setback, in.Height), Top: h}))
		got := must(StackPushed(PushedIn{Courses: in.Courses, Height: in.Height, B: in.B, Setback: in.Setback, Gamma: in.Gamma, TanBase: .4, TanJoint: .55, Push: push}))
		for c := range want {
			near(t, "H", got[c].H, want[c].H, 1e-9)
			near(t, "V", got[c].V, want[c].V, 1e-9)
			near(t, "over", got[c].Wall.FSOver, want[c].Wall.FSOver, 1e-9)
			near(t, "slide", got[c].Wall.FSSlide, want[c].Wall.FSSlide, 1e-9)
			near(t, "x0", got[c].Wall.Base.X0, want[c].Wall.Base.X0, 1e-9)
		}
	}
}

// TestPushedWater: still water behind a wall presses gamma h2/2 at a third and
// lifts it by a triangle; what stands higher than the wall weighs on the fill
// (hydrostatics, closed form).
func TestPushedWater(t *testing.T) {
	col := oneSoil(2, 18, deg(30), 0)
	col.Water = 1.2
	p := must(PushStack(PushIn{Column: col, Delta: []float64{0}, Top: 2}))
	near(t, "water", p.Fluid, 9.81*1.2*1.2/2, 1e-9)
	// by hand: dry to 0.8 m, then 18 + 3 - 9.81
	ka := 1. / 3
	near(t, "soil", p.Soil, ka*(18*.8*.8/2+1.2*(18*.8+(21-9.81)*1.2/2)), 1e-9)
	j := must(StackPushed(PushedIn{Courses: 4, Height: .5, B: 1, Gamma: 22, TanBase: .4, TanJoint: .5, Push: p}))
	near(t, "lift of the base", 4*.5*22-j[0].Wall.V, 9.81*1.2/2, 1e-9)
	near(t, "lift of the joint at 1 m", 2*.5*22-j[2].Wall.V, 9.81*.2/2, 1e-9)
	near(t, "lift of the joint at 1.5 m", .5*22-j[3].Wall.V, 0, 1e-9)

	over := must(PushStack(PushIn{Column: oneSoil(3, 18, deg(30), 0), Delta: []float64{0}, Top: 2}))
	near(t, "fill over the top", over.H, ka*18*(9-1)/2, 1e-9)
	level := must(PushStack(PushIn{Column: oneSoil(3, 18, deg(30), 0), Delta: []float64{0}, Top: 2, Load: func(float64) float64 { return 2 }}))
	near(t, "a load", level.Load, 4, 1e-9)
	near(t, "with a load", level.H, over.H+4, 1e-9)
}

func TestPushedRefuses(t *testing.T) {
	good := PushIn{Column: oneSoil(2, 18, deg(30), 0), Delta: []float64{deg(15)}, Top: 2}
	lean := good
	lean.Tilt = deg(25)
	_, err := PushStack(lean)
	refused(t, "a lining", "lean", err)
	steep := good
	steep.Column.Beta = deg(31)
	_, err = PushStack(steep)
	refused(t, "steep fill", "layers[0].beta", err)
	shaken := good
	shaken.Column.Beta, shaken.Kh = deg(25), .2
	_, err = PushStack(shaken)
	refused(t, "no wedge stands", "beta", err)
	_, err = StackPushed(PushedIn{Courses: 2, Height: .6, B: .6, Setback: .4, Gamma: 22})
	refused(t, "more than half a block back", "setback", err)
	low := good
	low.Column = oneSoil(-1, 18, deg(30), 0)
	if p := must(PushStack(low)); p.H != 0 || len(p.Rows) != 0 {
		t.Error("fill below the foot presses")
	}
}
