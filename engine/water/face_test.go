package water

import (
	"math"
	"testing"

	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/geom"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.5g, want %.5g within %.2g", what, got, want, tol)
	}
}

func box(x0, z0, x1, z1 float64) geom.Rect {
	return geom.Rect{Min: geom.Vec{x0, z0}, Max: geom.Vec{x1, z1}}
}

// boxIn is a box from 8 to 12 m with its underside at 2 m, in a block of soil 20
// m long and 6 m high.
func boxIn(t *testing.T, change func(*seepage.Domain)) *State {
	t.Helper()
	d := &seepage.Domain{Zones: []seepage.Zone{{Name: "soil", Region: box(0, 0, 20, 6).ToRegion(), Kx: 1e-6, Kz: 1e-6}}, Pond: math.NaN()}
	change(d)
	m, err := d.Build(seepage.Grain{Near: 0.1, Far: 0.5, Grow: 0.2})
	if err != nil {
		t.Fatal(err)
	}
	f, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	return stateOf(&section.View{Long: true, HasBox: true, Box: box(8, 2, 12, 5)}, d, f)
}

// Still water presses as still water.
func TestStillWater(t *testing.T) {
	s := boxIn(t, func(d *seepage.Domain) {
		d.Solids = []geom.Region{box(8, 2, 12, 5).ToRegion()}
		d.Left.Head, d.Right.Head = 4, 4
	})
	for _, f := range []section.Face{section.Back, section.Front} {
		a := s.At(f)
		near(t, "level", a.Level, 4, 1e-3)
		near(t, "share", a.Share, 1, 1e-3)
		for _, v := range s.Pore(f, 7) {
			near(t, "pressure", v[1], 9.81*math.Max(0, 4-v[0]), 0.01)
		}
	}
	mean, most, at := s.Under()
	near(t, "mean", mean, 2, 1e-3)
	near(t, "most", most, 2, 1e-3)
	near(t, "place", at, 10, 1e-3)
	if x, ok := s.wall(section.Left); ok {
		t.Errorf("a long section has a left wall at %g", x)
	}
}

// Water that flows down beside a wall presses with the share that its head
// leaves: here the head falls by half of the depth.
func TestDownwardFlow(t *testing.T) {
	s := boxIn(t, func(d *seepage.Domain) {
		d.Full = true
		d.Left.Head, d.Right.Head = math.NaN(), math.NaN()
		d.Held = []seepage.Held{{In: box(0, 6, 20, 6), Head: 6}, {In: box(0, 0, 20, 0), Head: 3}}
	})
	a := s.At(section.Back)
	near(t, "level", a.Level, 6, 1e-6)
	near(t, "share", a.Share, 0.5, 1e-6)
	for _, v := range s.Pore(section.Back, 5) {
		near(t, "pressure", v[1], 9.81*(3-v[0]/2), 1e-6)
	}
}

// Water that rises along a wall presses with more than still water does: here the
// head falls upward by half of the height.
func TestUpwardFlow(t *testing.T) {
	s := boxIn(t, func(d *seepage.Domain) {
		d.Full = true
		d.Left.Head, d.Right.Head = math.NaN(), math.NaN()
		d.Held = []seepage.Held{{In: box(0, 6, 20, 6), Head: 6}, {In: box(0, 0, 20, 0), Head: 9}}
	})
	near(t, "share", s.At(section.Back).Share, 1.5, 1e-6)
}

// A few millimetres of water on a wall press as still water to the highest head in
// them, however fast it rises: the share of so little is lost in the mesh.
func TestLittleWater(t *testing.T) {
	for _, up := range []float64{0.0004, 0.004, 0.04} {
		s := boxIn(t, func(d *seepage.Domain) {
			d.Full = true
			d.Left.Head, d.Right.Head = math.NaN(), math.NaN()
			d.Held = []seepage.Held{{In: box(0, 6, 20, 6), Head: 2 + up}, {In: box(0, 0, 20, 0), Head: 2 + 4*up}}
		})
		for i := range s.Table { // as low as the water table of a draining hill
			s.Table[i][1] = 2 + up
		}
		a := s.At(section.Back)
		near(t, "share", a.Share, 1, 1e-9)
		for _, v := range s.Pore(section.Back, 200) {
			if v[0] < 2+up && v[1] > 9.81*a.Share*(a.Level-v[0])+1e-9 {
				t.Errorf("%g m of water: %.4g kPa at %.4f m, counted %.4g", up, v[1], v[0], 9.81*a.Share*(a.Level-v[0]))
			}
		}
	}
}

// Water that flows under a box that stops it above lifts one end more: a
// trapezium of pressure, its middle on the side of the higher head.
func TestUpliftUnderFlow(t *testing.T) {
	s := boxIn(t, func(d *seepage.Domain) {
		d.Full = true
		d.Solids = []geom.Region{box(8, 2, 12, 6).ToRegion()}
		d.Left.Head, d.Right.Head = 6, 3
	})
	l, _ := s.Flow.HeadAt(geom.Vec{8.05, 1.99})
	r, _ := s.Flow.HeadAt(geom.Vec{11.95, 1.99})
	near(t, "sum of the ends", l+r, 9, 0.01) // the section is the same from either side
	mean, most, at := s.Under()
	near(t, "mean", mean, 2.5, 0.01)
	near(t, "most", most, l-2, 0.1)
	if d := l - r; d < 0.5 || d > 3 {
		t.Errorf("the head falls by %.3f m under the box", d)
	}
	// by hand for a straight fall by l-r over the length: (l-r) B / 12 / mean
	near(t, "place", at, 10-(l-r)*4/12/mean, 0.06)
}

// A dry box has no water on it.
func TestDryBox(t *testing.T) {
	s := boxIn(t, func(d *seepage.Domain) { d.Left.Head, d.Right.Head = 1.5, 1.2 })
	for _, f := range []section.Face{section.Back, section.Front, section.Left} {
		if a := s.At(f); !math.IsInf(a.Level, -1) {
			t.Errorf("water at %.3f against a dry wall", a.Level)
		}
	}
	if mean, most, _ := s.Under(); mean != 0 || most != 0 {
		t.Errorf("%.3f m under a dry box, at most %.3f m", mean, most)
	}
	if (&State{View: &section.View{}}).Pore(section.Back, 5) != nil {
		t.Error("pressure on a box that is not there")
	}
}
