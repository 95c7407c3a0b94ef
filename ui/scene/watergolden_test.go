package scene

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/seepage"
	"hillset/engine/water"
	"hillset/geom"
	"hillset/ui/units"
)

// evenWater is ground water whose heads fall evenly through the hill of the
// hand-made views, from 102.9 m uphill to 97.7 m: the golden files depend on the
// drawing and not on how the engine finds a free surface.
func evenWater(t *testing.T) *water.Wet {
	t.Helper()
	ground := geom.Rect{Min: geom.Vec{0, 96.2}, Max: geom.Vec{26, 104.2}}
	d := &seepage.Domain{Zones: []seepage.Zone{{Name: "hill", Region: ground.ToRegion(), Kx: 1e-6, Kz: 1e-6}},
		Left: seepage.Side{Head: 97.7}, Right: seepage.Side{Head: 102.9}, Pond: math.NaN(), Full: true}
	m, err := d.Build(seepage.Grain{Near: 2, Far: 2})
	if err != nil {
		t.Fatal(err)
	}
	f, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	s := &water.State{View: service(), Flow: f, Table: f.Table(), Names: []string{"drain"}, Sums: seepage.Sums{Drains: []float64{8.5e-3 / 3600}}}
	return &water.Wet{Long: s}
}

func wetScene(t *testing.T, o Options) *Scene {
	t.Helper()
	p := &model.Project{}
	p.Site.Water.Computed = true
	p.Fill.RockWidth, p.Fill.RockSoil = 0.3, "stone"
	d := &p.Defence.Drain
	d.Present, d.Diameter, d.Depth, d.Uphill, d.UphillAway, d.UphillDepth = true, 0.1, 0.15, true, 2, 2.2
	o.Project, o.Soils, o.Show = p, soils, everything()
	v := service()
	v.Water = math.NaN() // no level is given where it is computed
	b, err := begin(v, result(), o)
	if err != nil {
		t.Fatal(err)
	}
	wet := evenWater(t)
	b.wet = &wetGround{wet: wet, near: wet.Long}
	return b.draw()
}

func TestGoldenWater(t *testing.T) {
	for name, o := range map[string]Options{"water": {MMPerM: 20}, "water-us": {MMPerM: 1000.0 / 96, Units: units.US}} {
		s := wetScene(t, o)
		examine(t, name, s, Window(service(), o.MMPerM))
		golden(t, name, Dump(s))
	}
}

// Second route: heads that fall evenly have their table at 97.7 + 0.2 x, lines of
// equal head upright, and under the floor an uplift of 9.81 kPa per metre of
// head over it.
func TestEvenWaterIsDrawnWhereItIs(t *testing.T) {
	s := wetScene(t, Options{MMPerM: 20})
	for _, p := range paths(s, "water:table") {
		for _, c := range p.Parts {
			for _, q := range c {
				top, _ := service().Finish.At(q[0])
				want := math.Min(97.7+0.2*q[0], top)
				if q[0] > boxes.Min[0]-1e-6 && q[0] < boxes.Max[0]+1e-6 {
					want = math.Min(want, math.Max(q[1], boxes.Min[1]))
				}
				if math.Abs(q[1]-want) > 1e-6 {
					t.Errorf("the table is drawn at %v, want level %g", q, want)
				}
			}
		}
	}
	for _, p := range paths(s, "heads") {
		for _, c := range p.Parts {
			for _, q := range c {
				if math.Abs(q[0]-c[0][0]) > 1e-6 {
					t.Errorf("a line of equal head leans: %v and %v", c[0], q)
				}
			}
		}
	}
	lift := paths(s, "uplift:water")
	if len(lift) == 0 {
		t.Fatal("no uplift is drawn")
	}
	const kPa = 9.81
	most := kPa * (97.7 + 0.2*boxes.Max[0] - boxes.Min[1])
	if got, want := said(s, "uplift"), fmt.Sprintf("uplift to %.1f kPa, mean ", most); len(got) != 1 || !strings.HasPrefix(got[0], want) {
		t.Errorf("%q, want %q", got, want)
	}
	if got := said(s, "water:drain"); len(got) != 1 || !strings.HasPrefix(got[0], "drain takes 8.5 L/h/m, ") {
		t.Errorf("%q", got)
	}
}
