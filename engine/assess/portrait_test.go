package assess

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
	"hillset/geom"
)

// shape is a portrait that must be there.
func shape(t testing.TB, p *model.Project, stage string, x float64, long bool) *Portrait {
	t.Helper()
	out, err := Shape(p, tables.Default(), stage, x, long)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// member is the one of a part, nil for none.
func (p *Portrait) member(part string) *Drawn {
	for i := range p.Members {
		if p.Members[i].Part == part {
			return &p.Members[i]
		}
	}
	return nil
}

// peak is the largest absolute value.
func peak(vs []float64) float64 {
	m := 0.0
	for _, v := range vs {
		m = math.Max(m, math.Abs(v))
	}
	return m
}

// farthest is the largest movement.
func (d *Drawn) farthest() float64 {
	m := 0.0
	for _, v := range d.Move {
		m = math.Max(m, v.Len())
	}
	return m
}

// TestShapeIsWhatTheChecksJudge: at the stage and station that governs a
// check, the portrait shows the moment and the movement of that check. The
// points along a member are finite in number, so that a peak between two of
// them may be missed by a hair.
func TestShapeIsWhatTheChecksJudge(t *testing.T) {
	for _, name := range []string{"as-drawn", "put-right"} {
		p := demo(t, name)
		r := run(t, p)
		for _, c := range []struct{ id, part string }{
			{"side-sheet", "left side wall"}, {"side-sheet", "right side wall"}, {"end-sheet", "back wall"},
			{"sheet-deflection", "left side wall"}, {"sheet-deflection", "back wall"}, {"roof-deflection", "roof"},
		} {
			k := find(r, c.id, c.part)
			if k == nil {
				t.Fatalf("%s: no check %s of %s", name, c.id, c.part)
			}
			d := shape(t, p, k.Stage, k.Station, c.part == "back wall").member(c.part)
			if d == nil {
				t.Fatalf("%s: %s is not in the portrait", name, c.part)
			}
			got := peak(d.M)
			if strings.HasSuffix(c.id, "deflection") {
				got = d.farthest()
			} else if k.Demand.Sym != "M" {
				continue // shear or both together govern
			}
			if want := math.Abs(k.Demand.Val); math.Abs(got-want) > 0.005*want+1e-6 {
				t.Errorf("%s: %s of %s: drawn %.5f, checked %.5f", name, c.id, c.part, got, want)
			}
			if c.id != "sheet-deflection" && k.Worst() > 1 && !d.Beyond {
				t.Errorf("%s: %s is beyond limits and its line does not say so", name, c.part)
			}
		}
	}
}

// TestRoofLineIsInEquilibrium: a single span of roof under an even load q with
// the thrust P: M at midspan is q·L²/8 + P·(w + sag) (statics of the deformed
// strip), and the ends carry no moment.
func TestRoofLineIsInEquilibrium(t *testing.T) {
	p := demo(t, "as-drawn").Clone()
	p.Fill.FrontTop, p.Fill.BackTop = -1, -1 // bare roof, the walls half buried
	p.Fill.CapThickness, p.Fill.TopsoilThickness, p.Fill.Roof = 0, 0, nil
	j := jobOf(t, p)
	x := j.frontX + 3
	for _, st := range p.Stages {
		d := shape(t, p, st.ID, x, false).member("roof")
		if d == nil || d.N[0] <= 0 {
			continue
		}
		n := len(d.M)
		if math.Abs(d.M[0]) > 1e-9 || math.Abs(d.M[n-1]) > 1e-9 {
			t.Errorf("%s: moments at the edges %g, %g", st.ID, d.M[0], d.M[n-1])
		}
		span := d.Axis[n-1][0] - d.Axis[0][0]
		w, sag := d.Move[n/2].Len(), span/300
		// what is left after the thrust's part bends an evenly loaded span
		mid := d.M[n/2] - d.N[0]*(w+sag)
		quarter := d.M[n/4] - d.N[0]*(d.Move[n/4].Len()+sag*math.Sin(math.Pi*(d.Axis[n/4][0]-d.Axis[0][0])/span))
		s := (d.Axis[n/4][0] - d.Axis[0][0]) / span
		if want := 4 * s * (1 - s) * mid; math.Abs(quarter-want) > 1e-9+1e-6*math.Abs(want) {
			t.Errorf("%s: first-order moment %g at a quarter, want %g", st.ID, quarter, want)
		}
	}
}

// TestRibPortraitIsInEquilibrium: the corners turn one moment into the other,
// what the walls push sideways goes into beam and tie, and the movements of two
// bars at a corner agree.
func TestRibPortraitIsInEquilibrium(t *testing.T) {
	p := demo(t, "put-right")
	r := run(t, p)
	for _, st := range []string{"lift-low", "lift-mid", "high", "snow"} {
		out := shape(t, p, st, r.Roofs[0].Station, false)
		beam, tie := out.member("ribs, roof beam"), out.member("ribs, floor tie")
		left, right := out.member("ribs, left post"), out.member("ribs, right post")
		if beam == nil || tie == nil || left == nil || right == nil {
			t.Fatalf("%s: members %+v", st, out.Members)
		}
		last := len(beam.M) - 1
		for _, c := range []struct {
			name string
			a, b *Drawn
			i, j int
		}{
			{"upper left", beam, left, last, 0}, {"upper right", right, beam, len(right.M) - 1, 0},
			{"lower left", left, tie, len(left.M) - 1, 0}, {"lower right", tie, right, last, 0},
		} {
			if math.Abs(c.a.M[c.i]-c.b.M[c.j]) > 1e-6*(1+math.Abs(c.a.M[c.i])) {
				t.Errorf("%s, %s corner: moments %g and %g", st, c.name, c.a.M[c.i], c.b.M[c.j])
			}
			if d := c.a.Move[c.i].Sub(c.b.Move[c.j]).Len(); d > 1e-9 {
				t.Errorf("%s, %s corner: movements %g m apart", st, c.name, d)
			}
			if d := c.a.Axis[c.i].Sub(c.b.Axis[c.j]).Len(); d > 1e-9 {
				t.Errorf("%s, %s corner: axes %g m apart", st, c.name, d)
			}
		}
		for _, d := range out.Members {
			mid := geom.Vec{0, p.Box.Level + 1.3}
			if i := len(d.Axis) / 2; d.Part != crossSlot.part && d.Inside.Dot(mid.Sub(d.Axis[i])) <= 0 {
				t.Errorf("%s: the inside of %s points out", st, d.Part)
			}
		}
	}
}

// TestShapeOfEveryStage: no stage and no section fails, all numbers are
// finite, all slices as long as the axis, and what has no lines says why.
func TestShapeOfEveryStage(t *testing.T) {
	for name, p := range laidOut(t) {
		j := jobOf(t, p)
		for _, st := range p.Stages {
			for _, long := range []bool{false, true} {
				out := shape(t, p, st.ID, j.frontX+1.234, long)
				if len(out.Members) == 0 && len(out.Out) == 0 {
					t.Errorf("%s %s: nothing, and no reason", name, st.ID)
				}
				if math.IsNaN(out.Station) != long || out.Stage != st.ID {
					t.Errorf("%s %s: station %g, stage %s", name, st.ID, out.Station, out.Stage)
				}
				for _, d := range out.Members {
					n := len(d.Axis)
					if n < 2 || len(d.Move) != n || len(d.M) != n || len(d.N) != n || math.Abs(d.Inside.Len()-1) > 1e-12 {
						t.Fatalf("%s %s: %+v", name, st.ID, d)
					}
					for i := range d.Axis {
						if !geom.FiniteVec(d.Axis[i]) || !geom.FiniteVec(d.Move[i]) || !geom.Finite(d.M[i], d.N[i]) {
							t.Fatalf("%s %s: %s, point %d: %v %v %g %g", name, st.ID, d.Part, i, d.Axis[i], d.Move[i], d.M[i], d.N[i])
						}
					}
				}
			}
		}
	}
}

// TestBroadsideRolesSwap: set broadside, the ring is in the long section and
// the ends of the box are in the cross section.
func TestBroadsideRolesSwap(t *testing.T) {
	p := laidOut(t)["broadside"]
	j := jobOf(t, p)
	last := p.Stages[len(p.Stages)-1].ID
	long, cross := shape(t, p, last, 0, true), shape(t, p, last, j.frontX+1, false)
	for _, part := range []string{"back wall", "roof", "ribs, left post"} {
		if long.member(part) == nil {
			t.Errorf("the long section lacks %s", part)
		}
	}
	if cross.member("roof") != nil || cross.member("ribs, left post") != nil || cross.member("left side wall") == nil && cross.member("right side wall") == nil {
		t.Errorf("cross section: %+v", cross.Members)
	}
	if d := long.member("back wall"); d.Inside != (geom.Vec{-1, 0}) || d.Axis[0][0] > j.backX || d.Axis[0][0] < j.backX-0.1 {
		t.Errorf("back wall at %v, inside %v", d.Axis[0], d.Inside)
	}
}

// allBuilt is the store with everything that strengthens: pinned ribs with a strut
// and no tie, studs, a concrete skin, a roof on posts.
func allBuilt(t testing.TB) *model.Project {
	p := demo(t, "put-right").Clone()
	s := &p.Strengthening
	s.Ribs.Joints, s.Ribs.FloorTie = model.PinnedJoints, ""
	s.Ribs.Struts = []model.Strut{{Height: 1.2, Section: s.Ribs.Post}}
	lumber, _ := tables.Default().Lumber(tables.Default().LumberIDs()[0])
	s.Stud = model.StudSkin{Species: lumber.Species, Size: lumber.Size, Spacing: 0.4, Plywood: tables.Default().PlywoodIDs()[0]}
	s.Cavity = model.Cavity{Width: 0.15, Fill: model.ConcreteFill, Fc: 25, Lift: 0.6}
	s.RoofSlab = model.RoofSlab{Thickness: 0.2, Fc: 25, Bar: 16, BarSpacing: 0.15, BarCover: 0.05, EdgeBeam: s.Ribs.Post, Post: s.Ribs.Post, Spacing: 1.5, Gap: 0.5, Footing: 0.9}
	return p
}

// TestKitIsDrawn: pinned bars turn freely at the corners, a strut carries no
// moment of the frame, skins stand outside the walls with no moment at their
// ends.
func TestKitIsDrawn(t *testing.T) {
	p := allBuilt(t)
	j := jobOf(t, p)
	out := shape(t, p, p.Stages[len(p.Stages)-1].ID, j.frontX+3, false)
	for _, part := range []string{"ribs, left post", "ribs, cross strut", "left side wall, stud skin", "right side wall, concrete skin"} {
		d := out.member(part)
		if d == nil {
			t.Fatalf("no %s; out: %q", part, out.Out)
		}
		n := len(d.M) - 1
		if most := peak(d.M) + 1; math.Abs(d.M[0]) > 1e-6*most || math.Abs(d.M[n]) > 1e-6*most {
			t.Errorf("%s: end moments %g and %g of %g", part, d.M[0], d.M[n], peak(d.M))
		}
	}
	if d := out.member("ribs, cross strut"); d.N[0] <= 0 {
		t.Errorf("the strut is pulled: %g kN", d.N[0])
	}
	if d := out.member("left side wall, stud skin"); d.Axis[0][0] > -j.across/2-0.15 {
		t.Errorf("the studs stand at %v, inside the cavity", d.Axis[0])
	}
	if out.member("ribs, floor tie") != nil {
		t.Error("a floor tie that is not there")
	}
	found := false
	for _, why := range out.Out {
		found = found || strings.HasPrefix(why, slabPart)
	}
	if !found {
		t.Errorf("nothing says that the roof on posts has no lines: %q", out.Out)
	}
}

func TestShapeRefuses(t *testing.T) {
	p := demo(t, "put-right")
	for _, c := range []struct {
		name, stage string
		x           float64
		change      func(*model.Project)
		want        string
	}{
		{"no such stage", "never", 11, nil, "stage"},
		{"beside the box", "snow", p.Box.Front - 0.5, nil, "does not cut the box"},
		{"station not a number", "snow", math.NaN(), nil, "does not cut the box"},
		{"no such box", "snow", 11, func(p *model.Project) { p.Box.Type = "none" }, "box"},
	} {
		q := p.Clone()
		if c.change != nil {
			c.change(q)
		}
		out, err := Shape(q, tables.Default(), c.stage, c.x, false)
		if err == nil || out != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one that names %q", c.name, err, c.want)
		}
	}
	if out := shape(t, p, "natural", p.Box.Front+1, false); len(out.Members) != 0 || len(out.Out) != 1 {
		t.Errorf("before the box: %+v", out)
	}
}

// TestShapeLeavesTheProject: the project is only read.
func TestShapeLeavesTheProject(t *testing.T) {
	p := demo(t, "put-right")
	n := len(p.Stages)
	shape(t, p, "snow", p.Box.Front+2, false)
	if len(p.Stages) != n {
		t.Error("Shape changed the stages of the project")
	}
}

// The lines of one section follow a drag of the station.
func BenchmarkShape(b *testing.B) {
	p := demo(b, "put-right")
	for b.Loop() {
		if _, err := Shape(p, tables.Default(), "snow", p.Box.Front+3, false); err != nil {
			b.Fatal(err)
		}
	}
}
