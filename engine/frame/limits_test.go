package frame

import (
	"errors"
	"math"
	"testing"

	"hillset/engine/quantity"
)

func TestMechanism(t *testing.T) {
	bar := func(i, j int) Member { return Member{I: i, J: j, E: 200e6, A: 1e-3, Iz: 1e-6} }
	hinged := func(i, j int) Member { m := bar(i, j); m.HingeI, m.HingeJ = true, true; return m }
	free := Frame{Nodes: []Node{{}, {Px: 1}}, Members: []Member{bar(0, 1)}}
	roller := Frame{Nodes: []Node{{Y: true}, {Px: 1, Y: true}}, Members: []Member{bar(0, 1)}}
	// A panel of hinged bars without a diagonal.
	panel := Frame{
		Nodes:   []Node{{X: true, Y: true}, {Px: 2, X: true, Y: true}, {Px: 2, Py: 2}, {Py: 2}},
		Members: []Member{hinged(0, 3), hinged(1, 2), hinged(3, 2)},
	}
	lonely := Frame{Nodes: []Node{{X: true, Y: true, R: true}, {Px: 1}, {Px: 5}}, Members: []Member{bar(0, 1)}}
	for name, f := range map[string]Frame{"free bar": free, "on rollers": roller, "panel": panel, "loose node": lonely} {
		if _, err := f.Solve(LoadCase{}); !errors.Is(err, ErrMechanism) {
			t.Errorf("%s: %v", name, err)
		}
	}
	panel.Members = append(panel.Members, hinged(0, 2))
	s := solve(t, panel, LoadCase{Nodes: [][3]float64{{}, {}, {}, {10, 0, 0}}})
	near(t, "diagonal of the braced panel", s.N[3], 10*math.Sqrt2, 1e-9)
	if _, err := panel.Solve(LoadCase{Nodes: [][3]float64{{}, {}, {}, {0, 0, 1}}}); !errors.Is(err, ErrMechanism) {
		t.Errorf("moment on a joint of hinges: %v", err)
	}
	held := Frame{Nodes: []Node{{X: true, Y: true, R: true}, {Px: 2, X: true, Y: true, R: true}}, Members: []Member{bar(0, 1)}}
	near(t, "nothing free", -solve(t, held, LoadCase{Members: []Load{Uniform(6, 2)}}).Lines[0].M(0), 2, 1e-9)
}

func TestFrameRefuses(t *testing.T) {
	good := func() (Frame, LoadCase) { return wall(2.4, 65, 1, Uniform(10, 2.4), true, false) }
	nan := math.NaN()
	for name, spoil := range map[string]func(*Frame, *LoadCase){
		"NaN node":       func(f *Frame, _ *LoadCase) { f.Nodes[1].Py = nan },
		"NaN spring":     func(f *Frame, _ *LoadCase) { f.Nodes[1].KX = nan },
		"falling spring": func(f *Frame, _ *LoadCase) { f.Nodes[1].KR = -1 },
		"NaN E":          func(f *Frame, _ *LoadCase) { f.Members[0].E = nan },
		"no area":        func(f *Frame, _ *LoadCase) { f.Members[0].A = 0 },
		"infinite I":     func(f *Frame, _ *LoadCase) { f.Members[0].Iz = math.Inf(1) },
		"no length":      func(f *Frame, _ *LoadCase) { f.Nodes[1] = f.Nodes[0] },
		"missing node":   func(f *Frame, _ *LoadCase) { f.Members[0].J = 2 },
		"same node":      func(f *Frame, _ *LoadCase) { f.Members[0].J = 0 },
		"no members":     func(f *Frame, _ *LoadCase) { f.Members = nil },
		"no nodes":       func(f *Frame, _ *LoadCase) { f.Nodes = nil },
		"NaN load":       func(_ *Frame, lc *LoadCase) { lc.Members[0] = Uniform(nan, 2.4) },
		"load too long":  func(_ *Frame, lc *LoadCase) { lc.Members[0] = Uniform(1, 9) },
		"NaN force":      func(_ *Frame, lc *LoadCase) { lc.Nodes = [][3]float64{{nan}} },
		"too many loads": func(_ *Frame, lc *LoadCase) { lc.Members = make([]Load, 2) },
	} {
		f, lc := good()
		spoil(&f, &lc)
		if _, err := f.Solve(lc); !errors.Is(err, quantity.ErrRange) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := f.SolveSecondOrder(lc); !errors.Is(err, quantity.ErrRange) {
			t.Errorf("%s, second order: %v", name, err)
		}
	}
}

// TestSecondOrder: ST-13 and the closed form of a beam under thrust, a
// cantilever under its critical load, and springs.
func TestSecondOrder(t *testing.T) {
	const l, ei, q = 2.35, 31.12, 1.8
	pe := math.Pi * math.Pi * ei / (l * l)
	strut := func(p float64, n int) (Frame, LoadCase) {
		f := Frame{Nodes: []Node{{X: true, Y: true}, {Px: l, Y: true}}, Members: []Member{{I: 0, J: 1, E: ei, A: 1e3, Iz: 1}}}
		f, lc, _ := f.Refine(LoadCase{Members: []Load{Uniform(q, l)}}, n)
		lc.Nodes = [][3]float64{{}, {-p, 0, 0}}
		return f, lc
	}
	for _, share := range []float64{0, 0.1, 8 / pe, 0.5, 0.9} {
		f, lc := strut(share*pe, 16)
		s, err := f.SolveSecondOrder(lc)
		if err != nil {
			t.Fatal(err)
		}
		m := s.Lines[8].M(0)
		want := q * l * l / 8
		if share > 0 {
			k := math.Sqrt(share * pe / ei)
			want = q / (k * k) * (1/math.Cos(k*l/2) - 1)
		}
		near(t, "moment under thrust", m, want, 1e-3)
		if share == 8/pe {
			near(t, "ST-13 M2", m, 1.457, 1e-2)
			near(t, "ST-13 sag", s.U[9][1], 26.8e-3, 1e-2)
		}
	}
	f, lc := strut(1.001*pe, 16)
	if _, err := f.SolveSecondOrder(lc); !errors.Is(err, ErrUnstable) {
		t.Errorf("beyond the Euler load: %v", err)
	}
	f, lc = strut(-0.5*pe, 16)
	s, err := f.SolveSecondOrder(lc)
	if err != nil {
		t.Fatal(err)
	}
	k := math.Sqrt(0.5 * pe / ei)
	near(t, "moment under tension", s.Lines[8].M(0), q/(k*k)*(1-1/math.Cosh(k*l/2)), 1e-3)
}

// FuzzContinuous looks for panics and NaN under any numbers.
func FuzzContinuous(f *testing.F) {
	f.Add(2.4, 0.9, 27.0, 5.4, 0.5, 65.0)
	f.Add(1e4, 1e-3, 1e9, -1e9, 1.0, 1e-9)
	f.Add(math.NaN(), 1.0, 1.0, 1.0, 0.0, math.Inf(1))
	f.Fuzz(func(t *testing.T, l, mid, p0, p1, share, ei float64) {
		ld := Load{{0, p0}, {share * l, p1}, {share * l, p0}, {l, p1}}
		for _, places := range [][]float64{{0, l}, {0, mid, l}} {
			m, err := Continuous(places, ld, ei)
			if err != nil {
				continue
			}
			a, _ := m.Field()
			b, _ := m.Hog()
			w, _, _ := m.Sag()
			for _, v := range append([]float64{a, b, w, m.Shear()}, m.Reactions...) {
				if math.IsNaN(v) {
					t.Fatalf("NaN for supports %v, load %v, EI %g: %+v", places, ld, ei, m)
				}
			}
		}
	})
}

// FuzzFrame looks for panics and NaN under any stiffness, load and springs.
func FuzzFrame(f *testing.F) {
	f.Add(2.4, 2.5, 1e-6, 1e-3, 30.0, -5.0, 100.0, true)
	f.Add(1e-3, 1e5, 1e6, 1e-9, 1e9, 1e12, 0.0, false)
	f.Fuzz(func(t *testing.T, b, h, iz, area, p, force, spring float64, hinge bool) {
		fr := ring(b, h, iz, iz, iz)
		for k := range fr.Members {
			fr.Members[k].A, fr.Members[k].HingeI = area, hinge
		}
		fr.Nodes[2].KX = spring
		lc := LoadCase{Nodes: [][3]float64{{}, {}, {force, -force, 0}}, Members: []Load{nil, Uniform(p, h)}}
		for _, solve := range []func(LoadCase) (*Solution, error){fr.Solve, fr.SolveSecondOrder} {
			s, err := solve(lc)
			if err != nil {
				continue
			}
			for k := range s.Lines {
				if math.IsNaN(s.N[k]) || math.IsNaN(s.Lines[k].MMax) || math.IsNaN(s.U[k][0]) {
					t.Fatalf("NaN for %+v", fr)
				}
			}
		}
	})
}
