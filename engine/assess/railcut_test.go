package assess

import (
	"math"
	"testing"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
)

// bareDented is the store without steel inside, with dents and a hole in its roof
// from 3 to 4.2 m.
func bareDented(t testing.TB, dent float64, cut bool) *model.Project {
	t.Helper()
	p := demo(t, "as-drawn").Clone()
	p.Strengthening = model.Strengthening{}
	p.Box.SideDent, p.Box.EndDent, p.Box.Openings = dent, dent, nil
	if cut {
		p.Box.Openings = []model.Opening{{ID: "hatch", Wall: "roof", From: 3, Width: 1.2, Sill: 0.2, Height: 0.8, Framed: true, Bar: "shs60x4"}}
	}
	return p
}

// TestDentsWeakenPanels: racking, girder and blind end take the walls as dented as
// their sheets are.
func TestDentsWeakenPanels(t *testing.T) {
	fresh, dented := run(t, bareDented(t, 0, false)), run(t, bareDented(t, 12, false))
	for _, id := range []string{"racking", "girder", "end-frame"} {
		was, is := find(fresh, id, ""), find(dented, id, "")
		if was == nil || is == nil || was.Verdict() == check.NotChecked || is.Verdict() == check.NotChecked {
			t.Fatalf("%s: %+v, %+v", id, was, is)
		}
	}
	j := jobOf(t, bareDented(t, 12, false))
	for _, f := range []string{"left", "back"} {
		face := j.longSides(&stageResult{})[0].face
		if f == "back" {
			face = "back"
		}
		if got := j.panelOf(j.agedAt(0), face); math.Abs(got.Dent-0.012) > 1e-12 {
			t.Errorf("%s wall: dent %g", f, got.Dent)
		}
	}
	part := func(r *Result) float64 { return find(r, "girder", "left side wall").Worst() }
	if !(part(dented) > part(fresh)) {
		t.Errorf("girder %.3f, without dents %.3f", part(dented), part(fresh))
	}
}

// TestCutRoofFreesRails: over a cut in the roof of a box without ribs the top rail
// carries the top of the wall by itself: wL²/8 of the structure reference, section 4
// (ST-14), against first yield; and as a strut it is held on both sides of the cut only.
func TestCutRoofFreesRails(t *testing.T) {
	p := bareDented(t, 0, true)
	r := run(t, p)
	if len(r.Blocks) > 0 {
		t.Fatal(r.Blocks)
	}
	if c := find(run(t, bareDented(t, 0, false)), "top-rail", ""); c != nil {
		t.Errorf("a rail under a whole roof: %+v", c)
	}
	j := jobOf(t, p)
	for _, part := range []string{"left side wall", "right side wall"} {
		c := find(r, "top-rail", part+", top rail")
		if c == nil || c.Verdict() == check.NotChecked || !c.HasStation {
			t.Fatalf("%s: %+v", part, c)
		}
		x := c.Station - p.Box.Front
		if x < 3-maxStation || x > 4.2+maxStation {
			t.Errorf("%s: at %.2f m from the front, beside the cut", part, x)
		}
		sr, most := worked(t, jobOf(t, p), c.Stage), 0.0
		for w := range sr.loadedWalls() {
			if partOf(w.face) == part && w.station == c.Station {
				most = w.top.ASD
			}
		}
		closeTo(t, part+", moment", c.Demand.Val, most*1.2*1.2/8, 1e-6)
	}
	cuts := j.roofCuts()
	if len(cuts) != 1 || math.Abs(cuts[0].To-cuts[0].From-1.2) > 1e-9 || math.Abs(cuts[0].From-(3-j.box.CastL/2)) > 1e-9 {
		t.Fatalf("cuts %+v", cuts)
	}
	sr := worked(t, j, p.Stages[len(p.Stages)-1].ID)
	sides := j.longSides(sr)
	in, err := j.rackingIn(sr, &sides[0], box.Pair{ASD: 10, LRFD: 16})
	if err != nil {
		t.Fatal(err)
	}
	if in.RailBend.ASD <= 0 || len(in.Cuts) != 1 {
		t.Errorf("racking with a cut: bends %g, cuts %v", in.RailBend.ASD, in.Cuts)
	}
	g, err := j.girderIn(sr, &sides[0], wallTop{})
	if err != nil || len(g.Cuts) != 1 || g.TopBend.ASD <= 0 {
		t.Errorf("girder with a cut: %+v, %v", g.Cuts, err)
	}
}
