package drain

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/geom"
)

// WT-05 (derived): closed form, and the same on a drawn hillside.
func TestDaylight(t *testing.T) {
	t.Run("WT-05", func(t *testing.T) {
		l, ok, err := Daylight(.6, .15, .01)
		if !ok || err != nil {
			t.Fatal(ok, err)
		}
		near(t, "L", l, 4.29, .005)
		near(t, "fall of the pipe", l*.01, .043, .005)
		if _, ok, err := Daylight(.6, .005, .01); ok || err != nil {
			t.Error("no daylight")
		}
		hill := geom.Polyline{{-30, -4.5}, {0, 0}, {30, 4.5}}
		in := OutletIn{Ground: hill, Start: geom.Vec{0, -.6}, Fall: .01, Frost: 1}
		o := must(FindOutlet(in))
		near(t, "run", o.Run, .6/.14, 1e-9)
		near(t, "length", o.Length, math.Hypot(.6/.14, .006/.14), 1e-9)
		near(t, "all of it is shallow", o.Shallow, o.Run, 1e-9) // L_f = 7.14 > L
		near(t, "deepest", o.Deepest, .6, 1e-9)
		near(t, "mean", o.Mean, .3, 1e-9)
		if l, _, _ := Daylight(1, .15, .01); math.Abs(l-7.14) > .005 {
			t.Errorf("L_f = %g", l)
		}
		c, _, err := OutletCheck(in)
		if err != nil || !strings.Contains(c.Validity, "freezes") {
			t.Errorf("a freezing outlet must be told: %q %v", c.Validity, err)
		}
		flat := geom.Polyline{{-30, -.15}, {0, 0}}
		if o := must(FindOutlet(OutletIn{Ground: flat, Start: geom.Vec{0, -.6}, Fall: .01})); o.Daylight {
			t.Error("no daylight on flat ground")
		}
	})
}

// A deeper start with frost: only the last z_f/(t − s) is shallow.
func TestShallowLength(t *testing.T) {
	o := must(FindOutlet(OutletIn{Ground: geom.Polyline{{-60, -9}, {0, 0}}, Start: geom.Vec{0, -2}, Fall: .01, Frost: .5}))
	near(t, "Lf", o.Shallow, .5/.14, 1e-9)
	near(t, "run", o.Run, 2/.14, 1e-9)
}

// hill is a random ground line that falls towards smaller x on the whole.
func hill(r *rand.Rand) geom.Polyline {
	p := geom.Polyline{{-50, 0}}
	for p[len(p)-1][0] < 20 {
		last := p[len(p)-1]
		p = append(p, geom.Vec{last[0] + .5 + 8*r.Float64(), last[1] + 1.6*r.Float64() - .4})
	}
	return p
}

// On random hillsides: the end lies on the ground by the intersection of the
// whole line too, the pipe is below the ground all the way, depths agree with
// those sampled, the mirrored hill gives the same, and the check is within
// limits exactly where there is daylight.
func TestOutletOnRandomHills(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	found := 0
	for range 2000 {
		g := hill(r)
		x := 15 * r.Float64()
		z, _ := g.At(x)
		in := OutletIn{Ground: g, Start: geom.Vec{x, z - .05 - 3*r.Float64()}, Fall: .002 + .03*r.Float64(), Frost: r.Float64()}
		if r.IntN(3) == 0 {
			in.HasEdge, in.Edge = true, -40*r.Float64()
		}
		c, o, err := OutletCheck(in)
		if err != nil {
			t.Fatal(err)
		}
		wellFormed(t, c)
		if (c.Verdict() == check.Within) != o.Daylight {
			t.Fatalf("ratio %g, daylight %v", c.Ratio, o.Daylight)
		}
		whole := geom.Polyline{in.Start, {in.Start[0] - 200, in.Start[1] - 200*in.Fall}}
		hits := geom.Intersections(whole, g)
		if o.Daylight {
			found++
			if len(hits) == 0 || math.Abs(hits[0][0]-o.At[0]) > 1e-6 {
				t.Fatalf("daylight at %v, intersections %v", o.At, hits)
			}
		} else if len(hits) > 0 && (!in.HasEdge || hits[0][0] > in.Edge+1e-6) {
			t.Fatalf("no daylight, but it meets the ground at %v", hits)
		}
		sampled(t, in, o)
		mirror := in
		mirror.Ground, mirror.Right, mirror.Edge = nil, true, -in.Edge
		for i := len(g) - 1; i >= 0; i-- {
			mirror.Ground = append(mirror.Ground, geom.Vec{-g[i][0], g[i][1]})
		}
		mirror.Start = geom.Vec{-x, in.Start[1]}
		m := must(FindOutlet(mirror))
		if m.Daylight != o.Daylight || math.Abs(m.Run-o.Run) > 1e-6 || math.Abs(m.Mean-o.Mean) > 1e-6 || math.Abs(m.Shallow-o.Shallow) > 1e-6 {
			t.Fatalf("mirrored: %+v, not %+v", m, o)
		}
	}
	if found < 300 {
		t.Errorf("daylight on %d hills only", found)
	}
}

// sampled compares the depths with those at many points of the pipe.
func sampled(t *testing.T, in OutletIn, o Outlet) {
	t.Helper()
	const n = 4000
	sum, shallow, deepest := 0.0, 0.0, 0.0
	for i := range n {
		x := in.Start[0] - o.Run*(float64(i)+.5)/n
		z, ok := in.Ground.At(x)
		d := z - in.level(x)
		if !ok || d < -1e-6 {
			t.Fatalf("the pipe is above the ground at %g by %g", x, -d)
		}
		sum += d / n
		deepest = math.Max(deepest, d)
		if d < in.Frost {
			shallow += o.Run / n
		}
	}
	if math.Abs(sum-o.Mean) > 1e-3 || math.Abs(shallow-o.Shallow) > .01*o.Run+1e-9 || o.Deepest < deepest-1e-9 || o.Deepest > deepest+.02*(1+o.Deepest) {
		t.Fatalf("sampled mean %g shallow %g deepest %g of %+v", sum, shallow, deepest, o)
	}
}

// The remedy of a pipe without daylight is the depth that just has it.
func TestOutletRemedy(t *testing.T) {
	g := geom.Polyline{{-40, -1}, {-10, -.8}, {0, 0}, {20, 3}}
	in := OutletIn{Ground: g, Start: geom.Vec{2, -2}, Fall: .01}
	c, o, err := OutletCheck(in)
	if err != nil || o.Daylight {
		t.Fatal(err, o)
	}
	wellFormed(t, c)
	z, _ := g.At(2)
	for _, d := range []float64{1e-3, -1e-3} {
		in.Start[1] = z - c.RemedyQ[0].Val + d
		if o := must(FindOutlet(in)); o.Daylight != (d > 0) {
			t.Errorf("%g above the deepest: daylight %v", d, o.Daylight)
		}
	}
}

func TestOutletRefuses(t *testing.T) {
	good := OutletIn{Ground: geom.Polyline{{-30, -4.5}, {0, 0}, {30, 4.5}}, Start: geom.Vec{0, -.6}, Fall: .01}
	for field, bad := range map[string]func(*OutletIn){
		"start.z": func(in *OutletIn) { in.Start[1] = .1 },
		"start.x": func(in *OutletIn) { in.Start[0] = 40 },
		"fall":    func(in *OutletIn) { in.Fall = math.NaN() },
		"frost":   func(in *OutletIn) { in.Frost = -1 },
		"edge":    func(in *OutletIn) { in.HasEdge, in.Edge = true, math.NaN() },
	} {
		in := good
		bad(&in)
		_, err := FindOutlet(in)
		refused(t, err, field)
	}
	in := good
	in.HasEdge, in.Edge = true, 5
	_, err := FindOutlet(in)
	refused(t, err, "start.x")
	in = good
	in.Ground = in.Ground[:1]
	if _, err := FindOutlet(in); err == nil || !strings.Contains(err.Error(), "ground") {
		t.Error(err)
	}
	_, _, err = Daylight(-1, .1, .01)
	refused(t, err, "depth")
}

// WT-06 (derived): curtain drain.
func TestCurtain(t *testing.T) {
	t.Run("WT-06", func(t *testing.T) {
		in := CurtainIn{K: 2e-5, Thickness: 1.2, Slope: math.Atan(.2), Length: 15}
		r := must(CurtainFlow(in))
		near(t, "q'", r.PerMetre, 4.707e-6, .001)
		near(t, "Q, L/min", r.Flow*60/litre, 4.24, .002)
		near(t, "by the tangent", 2e-5*1.2*.2*15*60/litre, 4.32, .002) // what it is not
		near(t, "low", r.Low*10, r.Flow, 1e-12)
		near(t, "high", r.High, r.Flow*10, 1e-12)
		pipe := Pipe{Bore: .1, N: .016, Fall: .01}
		near(t, "share of the pipe", r.Flow/must(pipe.Full()).Flow, .017, .02)
		c := must(CurtainCheck(in, true, pipe))
		wellFormed(t, c)
		near(t, "ratio", c.Ratio, .017, .02)
		c = must(CurtainCheck(in, false, pipe))
		wellFormed(t, c)
		near(t, "ratio, k not measured", c.Ratio, .17, .02)
		in.K = 5e-4
		c = must(CurtainCheck(in, false, pipe))
		wellFormed(t, c)
		pipe.Bore = c.RemedyQ[0].Val
		near(t, "with the remedy", must(CurtainCheck(in, false, pipe)).Ratio, 1, 1e-9)
	})
	// measured along the vertical D cos β sin β is the same flow
	b, d := .3, 1.5
	near(t, "vertical thickness", must(CurtainFlow(CurtainIn{1e-5, d * math.Cos(b), b, 1})).PerMetre, 1e-5*d*math.Sin(2*b)/2, 1e-12)
	_, err := CurtainFlow(CurtainIn{K: 0, Thickness: 1, Slope: .1, Length: 1})
	refused(t, err, "permeability")
	_, err = CurtainCheck(CurtainIn{1e-5, 1, .1, 10}, true, Pipe{})
	refused(t, err, "pipe.bore")
}
