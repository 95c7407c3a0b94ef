package assess

import (
	"math"
	"slices"
	"testing"

	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
)

// withLoad is the store with one surcharge that acts in service.
func withLoad(t testing.TB, s model.Surcharge) *model.Project {
	t.Helper()
	p := demo(t, "put-right").Clone()
	s.ID, s.Name = "load", "load"
	p.Site.Surcharges = []model.Surcharge{s}
	p.Stages = []model.Stage{{ID: "use", Name: "use", Kind: model.StageService, FillTo: 1, Cover: true, Surcharges: []string{"load"}}}
	return p
}

// thrustFine is the thrust of a load on a wall by fine strips.
func thrustFine(load earth.WallLoad, h float64) float64 {
	const n = 2000
	sum := 0.0
	for i := range n {
		sum += load(h*(float64(i)+0.5)/n) * h / n
	}
	return sum
}

// TestBackWallAtItsWorst: what presses on the back wall is taken where it
// presses most, found here by walking along the wall in small steps (derived,
// independent route); a vehicle at its rear axle, an area load at its middle
// and not at its own edge.
func TestBackWallAtItsWorst(t *testing.T) {
	const h = 2.6
	for _, c := range []struct {
		name      string
		broadside bool
		s         model.Surcharge
	}{
		{"truck along the contour, 4.27 m aside", false, model.Surcharge{Kind: model.Vehicle, Vehicle: "truck-hs20", Heading: "along", X1: 1.2, Y1: ptr(4.2672)}},
		{"truck along the contour, broadside", true, model.Surcharge{Kind: model.Vehicle, Vehicle: "truck-hs20", Heading: "along", X1: 1.5, Y1: ptr(0.5)}},
		{"tractor facing uphill", false, model.Surcharge{Kind: model.Vehicle, Vehicle: "tractor-midi", Heading: "up", X1: 0.8, Y1: ptr(0.3)}},
		{"area about the middle", false, model.Surcharge{Kind: model.AreaLoad, Q: 20, X1: 0.3, X2: 3, Y1: ptr(-2), Y2: ptr(2)}},
		{"area to the right", false, model.Surcharge{Kind: model.AreaLoad, Q: 20, X1: 0.3, X2: 3, Y1: ptr(0.2), Y2: ptr(6)}},
		{"area beyond the corner", false, model.Surcharge{Kind: model.AreaLoad, Q: 20, X1: 0.3, X2: 3, Y1: ptr(2), Y2: ptr(6)}},
		{"area to the left, broadside", true, model.Surcharge{Kind: model.AreaLoad, Q: 20, X1: 0.3, X2: 3, Y1: ptr(-2.5), Y2: ptr(0.5)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := demo(t, "as-drawn").Clone()
			if c.broadside {
				p.Box.Orientation = model.Broadside
			}
			j := jobOf(t, p)
			c.s.X1 += j.backX
			c.s.X2 += j.backX
			load, err := j.wallLoadOf(c.s, section.Back, 0, h)
			if err != nil || load == nil {
				t.Fatal(err)
			}
			got, most := thrustFine(load, h), 0.0
			const steps = 150
			for i := range steps + 1 {
				y := j.across * (float64(i)/steps - 0.5)
				most = math.Max(most, thrustFine(opposite(t, j, c.s, y, h), h))
			}
			if got < 0.985*most || got > 1.005*most {
				t.Errorf("thrust %.2f kN/m, the largest along the wall is %.2f", got, most)
			}
		})
	}
}

// TestTruckBehind: the truck along the contour whose rear axle stands opposite
// the middle, its nearer wheels 1.59 m from a wall 2.9 m high, presses with
// about 17.6 kN/m there, not with 12.9 as at the corner (derived, independent
// route).
func TestTruckBehind(t *testing.T) {
	j := jobOf(t, demo(t, "as-drawn"))
	s := model.Surcharge{Kind: model.Vehicle, Vehicle: "truck-hs20", Heading: "along", X1: j.backX + 2.5, Y1: ptr(4.2672)}
	load, err := j.wallLoadOf(s, section.Back, 0, 2.9)
	if err != nil {
		t.Fatal(err)
	}
	if got := thrustFine(load, 2.9); math.Abs(got-17.6) > 0.02*17.6 {
		t.Errorf("thrust %.2f kN/m, want 17.6", got)
	}
	if got := thrustFine(opposite(t, j, s, j.across/2, 2.9), 2.9); math.Abs(got-12.9) > 0.02*12.9 {
		t.Errorf("at the corner %.2f kN/m, want 12.9", got)
	}
}

// opposite is the pressure of a load on the back wall at the place y.
func opposite(t testing.TB, j *job, s model.Surcharge, y, h float64) earth.WallLoad {
	t.Helper()
	var load earth.WallLoad
	var err error
	if s.Kind == model.AreaLoad {
		load, err = earth.AreaLoad(s.Q, s.X1-j.backX, s.X2-j.backX, *s.Y1, *s.Y2, y, h)
	} else {
		var wheels []earth.PlanLoad
		patches, e := j.patches(s)
		if e != nil {
			t.Fatal(e)
		}
		for _, w := range patches {
			if w.X >= j.backX {
				wheels = append(wheels, earth.PlanLoad{P: w.P, X: w.X - j.backX, Y: w.Y})
			}
		}
		load, err = earth.WheelLoads(wheels, y, h)
	}
	if err != nil {
		t.Fatal(err)
	}
	return load
}

// TestStations: the even stations stay, each wheel has one, brought to the end
// of the box where it stands beyond, and so has each end of an area over or
// beside the box; the lengths they stand for add up to the box.
func TestStations(t *testing.T) {
	for _, c := range []struct {
		name string
		s    model.Surcharge
		want []float64 // from the front, m
	}{
		{"wheels facing uphill", model.Surcharge{Kind: model.Vehicle, Vehicle: "tractor-midi", Heading: "up", X1: 2.1, Y1: ptr(3)}, []float64{2.1, 4.0}},
		{"wheels along the contour", model.Surcharge{Kind: model.Vehicle, Vehicle: "tractor-midi", Heading: "along", X1: 2.1, Y1: ptr(3)}, []float64{1.35, 1.45, 2.75, 2.85}},
		{"wheels beyond the back", model.Surcharge{Kind: model.Vehicle, Vehicle: "truck-hs20", Heading: "up", X1: 8, Y1: ptr(0)}, []float64{3.7328, 6.058}},
		{"area", model.Surcharge{Kind: model.AreaLoad, Q: 5, X1: 1.05, X2: 2.33}, []float64{1.05, 1.69, 2.33}},
		{"area past the ends", model.Surcharge{Kind: model.AreaLoad, Q: 5, X1: -1, X2: 7}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := demo(t, "put-right").Clone()
			c.s.X1 += p.Box.Front
			c.s.X2 += p.Box.Front
			at := jobOf(t, withLoad(t, c.s)).stations()
			near := func(x float64) bool {
				return slices.ContainsFunc(at, func(o float64) bool { return math.Abs(o-x-p.Box.Front) <= sameStation })
			}
			for i := range 11 { // 6.058 m in ten parts of no more than 0.61 m
				c.want = append(c.want, 6.058*float64(i)/10)
			}
			for _, x := range c.want {
				if !near(x) {
					t.Errorf("no station at %.3f m from the front: %v", x, at)
				}
			}
			sum := 0.0
			for i, l := range tributary(at) {
				if sum += l; l <= 0 || i > 0 && at[i]-at[i-1] < sameStation {
					t.Errorf("station %.3f stands for %.4f m", at[i], l)
				}
			}
			if math.Abs(sum-6.058) > 1e-9 || len(at) > 11+len(c.want) {
				t.Errorf("%d stations stand for %.3f m of 6.058", len(at), sum)
			}
		})
	}
}

// TestWheelsBetweenStations: a tractor over the roof is found wherever it
// stands: moved by a fraction of the way between two even stations the roof has
// the same ratio (derived: the cover is the same all along).
func TestWheelsBetweenStations(t *testing.T) {
	first := 0.0
	for i := range 5 {
		p := withLoad(t, model.Surcharge{Kind: model.Vehicle, Vehicle: "tractor-midi", Heading: "along", X1: 12 + 0.13*float64(i), Y1: ptr(0)})
		p.Fill.BackTop = p.Fill.FrontTop
		p.Strengthening.Wales, p.Strengthening.BackWales = nil, nil
		j := jobOf(t, p)
		sr, most := worked(t, j, "use"), 0.0
		for k := range sr.tops {
			if r := &sr.tops[k]; len(r.wheels) > 0 {
				most = math.Max(most, mostOf(r.wheels))
			}
		}
		if i == 0 {
			first = most
		}
		if most == 0 || math.Abs(most-first) > 1e-6*first {
			t.Errorf("the tractor %.2f m on presses with %.3f kPa, at first with %.3f", 0.13*float64(i), most, first)
		}
	}
}

// TestSnowOnTheWalls: snow lies beside the box too and presses on every wall
// with K times its weight (structure of the wide surcharge: UFC 3-220-20,
// second-hand; derived by comparing with the same stage without snow).
func TestSnowOnTheWalls(t *testing.T) {
	p := demo(t, "as-drawn").Clone()
	p.Stages = []model.Stage{
		{ID: "bare", Name: "bare", Kind: model.StageService, Cover: true},
		{ID: "snow", Name: "snow", Kind: model.StageService, Cover: true, Snow: true},
	}
	r := run(t, p)
	by := map[string][]Load{}
	for _, l := range r.Loads {
		by[l.Stage] = append(by[l.Stage], l)
	}
	if len(by["bare"]) == 0 || len(by["bare"]) != len(by["snow"]) {
		t.Fatal("walls are missing")
	}
	for i, l := range by["bare"] {
		foot, with := l.Diagram[len(l.Diagram)-1], by["snow"][i].Diagram
		if got, want := with[len(with)-1].Soil-foot.Soil, foot.K*p.Site.Climate.GroundSnow; math.Abs(got-want) > 1e-9 {
			t.Errorf("%s at %.2f: snow adds %.4f kPa, want %.4f", l.Face, l.Station, got, want)
		}
	}
}
