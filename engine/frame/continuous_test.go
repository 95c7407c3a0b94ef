package frame

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestContinuousKnown(t *testing.T) {
	// Beam tables (common practice): two and three equal spans, uniform load.
	const w, l, ei = 7.0, 2.0, 50.0
	two, err := Continuous([]float64{0, l, 2 * l}, Uniform(w, 2*l), ei)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "two spans, support", two.MSup[1], -w*l*l/8, exact)
	near(t, "two spans, middle reaction", two.Reactions[1], 1.25*w*l, exact)
	near(t, "two spans, end reaction", two.Reactions[0], 0.375*w*l, exact)
	m, _ := two.Field()
	near(t, "two spans, field", m, 9*w*l*l/128, exact)
	d, _, _ := two.Sag()
	near(t, "two spans, deflection", d, w*math.Pow(l, 4)/(184.6*ei), 1e-3)
	three, err := Continuous([]float64{0, l, 2 * l, 3 * l}, Uniform(w, 3*l), ei)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "three spans, support", three.MSup[1], -w*l*l/10, exact)
	near(t, "three spans, inner reaction", three.Reactions[2], 1.1*w*l, exact)
	hog, _ := three.Hog()
	near(t, "three spans, hog", hog, w*l*l/10, exact)
	near(t, "three spans, shear", three.Shear(), 0.6*w*l, exact)
	near(t, "moment line", three.M(1.5*l), w*l*l/40, exact)
}

// TestContinuousByFrame solves random beams over supports with the stiffness
// solver, a second route.
func TestContinuousByFrame(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	for range 60 {
		places := []float64{0}
		for range 1 + rng.IntN(4) {
			places = append(places, places[len(places)-1]+0.3+2*rng.Float64())
		}
		l := places[len(places)-1]
		ld, ei := randomLoad(rng, l), 10+200*rng.Float64()
		m, err := Continuous(places, ld, ei)
		if err != nil {
			t.Fatal(err)
		}
		var f Frame
		var lc LoadCase
		for k, s := range places {
			f.Nodes = append(f.Nodes, Node{Px: s, X: k == 0, Y: true})
			if k > 0 {
				f.Members = append(f.Members, Member{I: k - 1, J: k, E: ei, A: 1, Iz: 1})
				lc.Members = append(lc.Members, ld.Clip(places[k-1], s))
			}
		}
		s, err := f.Solve(lc)
		if err != nil {
			t.Fatal(err)
		}
		scale := 1e-6
		for k := range m.Spans {
			scale = math.Max(scale, math.Abs(m.Spans[k].MMax))
		}
		for k := range m.Spans {
			for x := 0.0; x <= 1; x += 0.125 {
				at := x * m.Spans[k].L
				if d := s.Lines[k].M(at) - m.Spans[k].M(at); math.Abs(d) > 1e-8*scale {
					t.Errorf("span %d at %g: moment off by %g of %g", k, at, d, scale)
				}
			}
		}
		for k := range places {
			if d := s.React[k][1] + m.Reactions[k]; math.Abs(d) > 1e-8*(scale/l+math.Abs(m.Reactions[k])) {
				t.Errorf("reaction %d: %g, frame %g", k, m.Reactions[k], -s.React[k][1])
			}
		}
	}
}

func TestContinuousRefuses(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		p  []float64
		ld Load
		ei float64
	}{
		{nil, nil, 1}, {[]float64{0}, nil, 1}, {[]float64{0.1, 1}, nil, 1}, {[]float64{0, 1, 1}, nil, 1},
		{[]float64{0, nan, 2}, nil, 1}, {[]float64{0, 2, 1}, nil, 1}, {[]float64{0, 1}, Uniform(1, 2), 1},
		{[]float64{0, 1}, Uniform(nan, 1), 1}, {[]float64{0, 1}, nil, nan}, {[]float64{nan, 1}, nil, 1},
	} {
		if _, err := Continuous(c.p, c.ld, c.ei); err == nil {
			t.Errorf("%+v accepted", c)
		}
	}
}

func BenchmarkContinuous(b *testing.B) {
	places, ld := []float64{0, 0.9, 2.4}, Linear(27, 5.4, 2.4)
	for b.Loop() {
		if _, err := Continuous(places, ld, 65); err != nil {
			b.Fatal(err)
		}
	}
}
