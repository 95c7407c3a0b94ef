package scene

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/geom"
	"hillset/ui/units"
)

// built is the mended store with everything that strengthens, openings and
// earth at the doors.
func built(tb testing.TB) *model.Project {
	tb.Helper()
	p := demos(tb)["potato-store-put-right"].p.Clone()
	s := &p.Strengthening
	s.Ribs.Joints, s.Ribs.FloorTie = model.PinnedJoints, ""
	s.Ribs.Struts = []model.Strut{{Height: 1.2, Section: s.Ribs.Post}}
	s.Stud = model.StudSkin{Species: "DF-L", Size: "2x6", Spacing: 0.4, Plywood: "24/16"}
	s.Cavity = model.Cavity{Width: 0.15, Fill: model.ConcreteFill, Fc: 25, Lift: 0.6}
	s.RoofSlab = model.RoofSlab{Thickness: 0.2, Fc: 25, Bar: 16, BarSpacing: 0.15, BarCover: 0.05, EdgeBeam: s.Ribs.Post, Post: s.Ribs.Post, Spacing: 1.5, Gap: 0.5, Footing: 0.9}
	p.Box.Openings = []model.Opening{{ID: "window", Wall: "left", From: 2.6, Width: 0.9, Sill: 1.2, Height: 0.6, Framed: true, Bar: s.Ribs.Post},
		{ID: "vent", Wall: "back", From: 0.4, Width: 0.5, Sill: 1.8, Height: 0.3}}
	p.Box.DoorFill = 0.6
	return p
}

// builtViews are the long and the cross section of a project in its last
// stage, with the options that draw it.
func builtViews(tb testing.TB, p *model.Project) map[string]posed {
	tb.Helper()
	r := rerun(tb, p)
	if len(r.Views) == 0 {
		tb.Fatal(r.Blocks)
	}
	long := r.Views[len(r.Views)-1]
	cross, err := section.CrossOf(p, tables.Default(), long, p.Box.Front+3)
	if err != nil {
		tb.Fatal(err)
	}
	o := Options{Project: p, Bars: tables.Default().Bar, Lumber: tables.Default().Lumber, Soils: func(id string) (model.Soil, bool) { return section.SoilByID(p, id) }}
	return map[string]posed{"long": {long, o, r}, "cross": {cross, o, r}}
}

// All that strengthens is in both sections with the sizes of the tables; where
// a tape would find it.
func TestKitIsDrawn(t *testing.T) {
	p := built(t)
	const tol = 1e-9
	for kind, c := range builtViews(t, p) {
		c.o.MMPerM = 30
		s, err := Build(c.v, c.r, c.o)
		if err != nil {
			t.Fatal(err)
		}
		box := c.v.Box
		want := map[string]int{"inside:strut": 1, "outside:stud": 2, "outside:roof-post": 2, "outside:edge-beam": 2, "outside:roof-pad": 2, "inside:hinge": 6, "inside:tie": 0, "inside:beam": 1}
		if kind == "long" {
			want = map[string]int{"inside:strut": 4, "outside:stud": 1, "outside:roof-post": 6, "outside:edge-beam": 1, "outside:roof-pad": 6, "inside:hinge": 0, "inside:tie": 0, "inside:beam": 4}
		}
		for tag, n := range want {
			if got := len(allBounds(s, tag)); got != n {
				t.Errorf("%s: %d of %s, want %d", kind, got, tag, n)
			}
		}
		stud := allBounds(s, "outside:stud")[0]
		depth := 5.5 * 0.0254 // 2x6 of the lumber table
		if math.Abs(stud.W()-depth) > tol {
			t.Errorf("%s: stud %g deep, want %g", kind, stud.W(), depth)
		}
		if gap := math.Min(math.Abs(stud.Max[0]-box.Min[0]), math.Abs(stud.Min[0]-box.Max[0])); math.Abs(gap-0.15) > tol {
			t.Errorf("%s: studs %g off the wall, want the cavity of 0.15", kind, gap)
		}
		slab := allBounds(s, "zone:roof slab:roof slab")
		if len(slab) != 1 || math.Abs(slab[0].H()-0.2) > tol || math.Abs(slab[0].Min[1]-box.Max[1]) > tol {
			t.Errorf("%s: slab %v", kind, slab)
		}
		if n := len(allBounds(s, "zone:cavity:concrete skin")); n != map[string]int{"cross": 2, "long": 1}[kind] {
			t.Errorf("%s: %d concrete skins", kind, n)
		}
		if n := len(paths(s, "opening:window")); n == 0 {
			t.Errorf("%s: the window is not drawn", kind)
		}
		if kind == "long" && len(allBounds(s, "zone:earth against the doors:earth against the doors")) != 1 {
			t.Error("no earth against the doors")
		}
	}
}

// Beams instead of a slab, gravel in the cavity, a box set broadside.
func TestKitOtherWays(t *testing.T) {
	p := built(t)
	s := &p.Strengthening
	s.Cavity.Fill = model.GravelFill
	s.RoofSlab.Thickness, s.RoofSlab.CrossBeam, s.RoofSlab.CrossSpacing, s.RoofSlab.Deck = 0, s.Ribs.Post, 0.5, "24/16"
	wide := p.Clone()
	wide.Box.Orientation = model.Broadside
	for name, q := range map[string]*model.Project{"end-on": p, "broadside": wide} {
		for kind, c := range builtViews(t, q) {
			c.o.MMPerM = 30
			sc, err := Build(c.v, c.r, c.o)
			if err != nil {
				t.Fatal(err)
			}
			along := (kind == "long") == (name == "end-on")
			beams := len(allBounds(sc, "outside:cross-beam"))
			if along && beams != 12 && beams != 13 || !along && beams != 1 {
				t.Errorf("%s %s: %d cross beams", name, kind, beams)
			}
			if len(allBounds(sc, "zone:cavity:cavity: pea gravel")) == 0 || len(allBounds(sc, "zone:roof slab:roof slab")) != 0 {
				t.Errorf("%s %s: wrong filling or roof", name, kind)
			}
		}
	}
}

func TestKitTextsApart(t *testing.T) {
	for kind, c := range builtViews(t, built(t)) {
		for _, mm := range []float64{12, 20, 40} {
			for _, sys := range []units.System{units.Metric, units.US} {
				o := c.o
				o.MMPerM, o.Units = mm, sys
				s, err := Build(c.v, c.r, o)
				if err != nil {
					t.Fatal(err)
				}
				examine(t, fmt.Sprintf("kit %s %g %v", kind, mm, sys), s, Window(c.v, mm))
				if *lookDir != "" && mm > 12 && sys == units.US {
					look := map[float64]Look{20: Dark, 40: Light}[mm]
					img, err := paint(s, look, 4)
					if err != nil {
						t.Fatal(err)
					}
					keep(t, img, fmt.Sprintf("kit-%s-%g.png", kind, mm))
				}
			}
		}
	}
}

// Every part that is checked has a place in a section or on the panels.
func TestEveryPartHasAPlace(t *testing.T) {
	wide := built(t)
	wide.Box.Orientation = model.Broadside
	alone := built(t)
	alone.Strengthening.EitherAlone = true
	nowhere := map[string]bool{"room": true, "fill": true} // the air inside and frost in the ground: told in words
	for name, p := range map[string]*model.Project{"as drawn": demos(t)["potato-store-as-drawn"].p, "kit": built(t), "broadside": wide, "alone": alone} {
		at := map[string]bool{}
		views := builtViews(t, p)
		var cut *section.View
		for _, v := range views["long"].r.Views {
			if v.Stage.Kind == model.StageCut {
				cut = v
			}
		}
		r := views["long"].r
		if cut != nil {
			across, err := section.CrossOf(p, tables.Default(), cut, p.Box.Front+3)
			if err != nil {
				t.Fatal(err)
			}
			views["cut"], views["cut across"] = posed{v: cut, o: views["long"].o, r: r}, posed{v: across, o: views["long"].o, r: r}
		}
		for _, b := range r.Bays {
			at[b.Part] = true
		}
		for _, c := range views {
			c.o.MMPerM, c.o.Shell = 40, NominalShell()
			b := &builder{v: c.v, r: r, o: c.o, mm: 1 / c.o.MMPerM}
			b.at.win = geom.Rect{Min: geom.Vec{-1e3, -1e3}, Max: geom.Vec{1e3, 1e3}}
			for part := range b.spots(gather(r.Checks, c.v.Long)) {
				at[part] = true
				if part == sideWalls {
					at["left side wall"], at["right side wall"] = true, true
				}
			}
		}
		for i := range r.Checks {
			if c := &r.Checks[i]; !math.IsNaN(c.Worst()) && !at[c.Part] && !nowhere[c.Part] {
				t.Errorf("%s: part %q (%s) has no place in a section or on a panel", name, c.Part, c.ID)
			}
		}
	}
}

// What is behind earth or wall is dashed, so that it reads in grey.
func TestHiddenPostsAreDashed(t *testing.T) {
	c := builtViews(t, built(t))["long"]
	c.o.MMPerM = 30
	s, err := Build(c.v, c.r, c.o)
	if err != nil {
		t.Fatal(err)
	}
	for _, it := range s.Items {
		if p := it.Path; p != nil && strings.HasPrefix(p.Tag, "outside:roof-post") && p.Dash == nil {
			t.Error("a post behind the box is drawn as if it stood before it")
		}
	}
}
