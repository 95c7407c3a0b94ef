package water

import (
	"testing"

	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/geom"
)

// Still water lifts a box on concrete as it lifts one on rock: the pressure
// below pads or a slab is that of the ground under them (Archimedes).
func TestLiftThroughConcrete(t *testing.T) {
	for name, concrete := range map[string][]geom.Region{
		"rock": nil,
		"pads": {box(8, 1.7, 9, 2).ToRegion(), box(11, 1.7, 12, 2).ToRegion()},
		"slab": {box(8, 1.7, 12, 2).ToRegion()},
	} {
		t.Run(name, func(t *testing.T) {
			s := boxIn(t, func(d *seepage.Domain) {
				d.Solids = append([]geom.Region{box(8, 2, 12, 5).ToRegion()}, concrete...)
				d.Left.Head, d.Right.Head = 4, 4
			})
			mean, most, at := s.Under()
			near(t, "mean", mean, 2, 1e-3)
			near(t, "most", most, 2, 1e-3)
			near(t, "place", at, 10, 1e-3)
			for _, q := range s.Floor(9) {
				near(t, "pressure on the floor", q[1], 9.81*2, 0.02)
			}
		})
	}
}

// The uplift is the higher of the two sections, with its own middle: by hand for
// cross sections that rise evenly from nothing at the front to 1.2 m at the
// back of 6 m, mean 0.6 m, two thirds of the way back.
func TestLiftTakesTheHigherSection(t *testing.T) {
	still := func(long bool, station, level float64) *State {
		s := boxIn(t, func(d *seepage.Domain) {
			d.Solids = []geom.Region{box(8, 2, 12, 5).ToRegion()}
			d.Left.Head, d.Right.Head = level, level
		})
		s.View = &section.View{Long: long, Station: station, HasBox: true, Box: s.View.Box}
		return s
	}
	w := &Wet{Long: still(true, 0, 2.3), Cross: []*State{still(false, 10, 2), still(false, 13, 2.6), still(false, 16, 3.2)}}
	l := w.Lift()
	if !l.ByCross {
		t.Errorf("%+v: the long section decides", l)
	}
	near(t, "mean", l.Mean, 0.6, 2e-3)
	near(t, "behind the middle", l.Along, 1, 0.01)
	near(t, "aside", l.Aside, 0, 1e-3)

	w.Long = still(true, 0, 3)
	if l = w.Lift(); l.ByCross {
		t.Errorf("%+v: the cross sections decide", l)
	}
	near(t, "mean of the long section", l.Mean, 1, 2e-3)
	near(t, "middle of the long section", l.Along, 0, 1e-3)
}
