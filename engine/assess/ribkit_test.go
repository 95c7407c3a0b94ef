package assess

import (
	"math"
	"strings"
	"testing"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/model"
)

// kit is the mended store with other ribs.
func kit(t testing.TB, change func(r *model.Ribs)) *model.Project {
	t.Helper()
	p := demo(t, "put-right").Clone()
	change(&p.Strengthening.Ribs)
	return p
}

// TestRibKit: sets of bars that are not complete portals are worked, not
// refused, and what takes the place of a bar left out is checked.
func TestRibKit(t *testing.T) {
	for _, c := range []struct {
		name      string
		change    func(r *model.Ribs)
		diaphragm bool // the roof holds the tops of the posts
	}{
		{"portal", func(*model.Ribs) {}, false},
		{"pinned", func(r *model.Ribs) { r.Joints = model.PinnedJoints }, true},
		{"no roof beam", func(r *model.Ribs) { r.RoofBeam, r.Purlins = "", 0 }, true},
		{"no floor tie", func(r *model.Ribs) { r.FloorTie = "" }, true},
		{"posts alone", func(r *model.Ribs) { r.RoofBeam, r.FloorTie, r.Purlins = "", "", 0 }, true},
		{"posts and struts", func(r *model.Ribs) {
			r.RoofBeam, r.FloorTie, r.Purlins = "", "", 0
			r.Struts = []model.Strut{{Height: 1.5, Section: "shs60x4"}}
		}, true},
		{"portal and struts", func(r *model.Ribs) {
			r.Struts = []model.Strut{{Height: 0.75, Section: "shs60x4"}, {Height: 1.5, Section: "shs60x4"}}
		}, false},
	} {
		p := kit(t, c.change)
		p.Fill.MaxAhead = 0.5
		for i := range p.Stages { // one side ahead, so that the roof has something to hold
			p.Stages[i].OneSide = p.Stages[i].Kind == model.StageBackfill
		}
		r := run(t, p)
		if len(r.Blocks) > 0 {
			t.Errorf("%s: %v", c.name, r.Blocks)
			continue
		}
		got := map[string]*check.Check{}
		for i := range r.Checks {
			k := &r.Checks[i]
			if old := got[k.ID]; old == nil || k.Worst() > old.Worst() {
				got[k.ID] = k
			}
		}
		want := []string{"rib", "rib-deflection", "wale-deflection", "inward-bow", "cross-member"}
		if p.Strengthening.Ribs.Purlins > 0 {
			want = append(want, "purlin-deflection")
		}
		if len(p.Strengthening.Ribs.Struts) > 0 {
			want = append(want, "strut", "strut-sag")
		}
		if c.diaphragm {
			want = append(want, "roof-diaphragm")
		}
		for _, id := range want {
			if k := got[id]; k == nil || k.Verdict() == check.NotChecked || k.Case == "" {
				t.Errorf("%s: %s is %+v", c.name, id, k)
			}
		}
		if _, ok := got["roof-diaphragm"]; ok != c.diaphragm {
			t.Errorf("%s: diaphragm checked: %v", c.name, ok)
		}
		if pinned := strings.Contains(got["rib"].Title, "span by themselves"); pinned != c.diaphragm {
			t.Errorf("%s: %q", c.name, got["rib"].Title)
		}
		foot := strings.Contains(got["cross-member"].Working[0].Formula, "F")
		if foot != (p.Strengthening.Ribs.FloorTie == "") {
			t.Errorf("%s: the foot of a post is on the cross member: %v", c.name, foot)
		}
	}
}

// TestRibKitCandidateIsWritten: the ratio that a rib is offered with is the one
// of the written check, for every check that comes of it.
func TestRibKitCandidateIsWritten(t *testing.T) {
	p := kit(t, func(r *model.Ribs) {
		r.Joints, r.FloorTie = model.PinnedJoints, ""
		r.Struts = []model.Strut{{Height: 1.1, Section: "shs60x4"}}
	})
	j := jobOf(t, p)
	w := newWorst()
	j.work(t.Context(), w)
	seen := 0
	for s, c := range w.best {
		switch s.id {
		case "rib", "rib-deflection", "strut", "strut-sag", "inward-bow", "cross-member", "wale-deflection", "purlin-deflection", "roof-diaphragm":
			made, err := c.write()
			if err != nil {
				t.Errorf("%v: %v", s, err)
			} else if math.Abs(made.Worst()-c.ratio) > 1e-9*c.ratio {
				t.Errorf("%v offered with %g, written as %g", s, c.ratio, made.Worst())
			}
			seen++
		}
	}
	if seen < 8 {
		t.Errorf("only %d checks came of the ribs", seen)
	}
}

// TestRibPushOnRoof: what the deck check takes of a wall with wales is what its
// simple beam presses at the top, whatever the wales: they bring the rest of it
// to posts that lean on the roof.
func TestRibPushOnRoof(t *testing.T) {
	with := kit(t, func(r *model.Ribs) { r.Joints = model.PinnedJoints })
	without := with.Clone()
	without.Strengthening.Wales = nil
	pushes := func(p *model.Project) (out []box.Pair) {
		sr := worked(t, jobOf(t, p), "wet")
		for i := range sr.sides {
			for _, w := range [...]*wallLoad{sr.sides[i].left, sr.sides[i].right} {
				if w != nil && w.loaded {
					out = append(out, w.roofPush())
				}
			}
		}
		return out
	}
	a, b := pushes(with), pushes(without)
	if len(a) == 0 || len(a) != len(b) {
		t.Fatalf("%d and %d walls", len(a), len(b))
	}
	for i := range a {
		if math.Abs(a[i].ASD-b[i].ASD) > 1e-6*b[i].ASD {
			t.Errorf("wall %d: %g with wales, %g without", i, a[i].ASD, b[i].ASD)
		}
	}
}

// TestRibKitFaults: what makes no sense names its field, and leaves the checks
// missing instead of guessed.
func TestRibKitFaults(t *testing.T) {
	for _, c := range []struct {
		name, field string
		change      func(r *model.Ribs)
	}{
		{"purlins on nothing", "strengthening.ribs.roof_beam", func(r *model.Ribs) { r.RoofBeam = "" }},
		{"rigid without tie", "strengthening.ribs.joints", func(r *model.Ribs) { r.Joints, r.FloorTie = model.RigidJoints, "" }},
		{"strut in the beam", "strengthening.ribs.struts[0].height", func(r *model.Ribs) { r.Struts = []model.Strut{{Height: 2.3, Section: "shs60x4"}} }},
		{"strut on the floor", "strengthening.ribs.struts[0].height", func(r *model.Ribs) { r.Struts = []model.Strut{{Height: 0, Section: "shs60x4"}} }},
		{"struts in disorder", "strengthening.ribs.struts[1].height", func(r *model.Ribs) {
			r.Struts = []model.Strut{{Height: 1.5, Section: "shs60x4"}, {Height: 1, Section: "shs60x4"}}
		}},
	} {
		r := run(t, kit(t, c.change))
		named := false
		for _, b := range r.Blocks {
			named = named || b.Field == c.field
		}
		if rib := find(r, "rib", "ribs"); !named || rib == nil || rib.Verdict() != check.NotChecked {
			t.Errorf("%s: blocks %v, rib %+v", c.name, r.Blocks, rib)
		}
		for i := range r.Checks {
			if id := r.Checks[i].ID; (id == "strut" || id == "purlin" && c.name == "purlins on nothing" || id == "rib-deflection") && r.Checks[i].Verdict() != check.NotChecked {
				t.Errorf("%s: %s has a ratio", c.name, id)
			}
		}
	}
}

// TestRibBedding: on pads and on a slab the floor does not touch the ground and
// the ribs stand on their corners; on a full rock bed of known stiffness both
// ways are worked, and the worse is never less than the corners alone.
func TestRibBedding(t *testing.T) {
	words := func(r *Result) string {
		for _, a := range r.Assumed {
			if strings.Contains(a, "corner castings, which") || strings.Contains(a, "rock bed may") {
				return a
			}
		}
		return ""
	}
	p := demo(t, "put-right").Clone()
	pads := run(t, p)
	if w := words(pads); !strings.Contains(w, "stand {thickness 0.0125} proud") {
		t.Errorf("on pads: %q", w)
	}
	p.Bedding.Kind = model.SlabBedding
	if j := jobOf(t, p); j.bedded != nil {
		t.Error("a slab bears below castings that stand proud")
	}
	p.Bedding.Kind = model.RockBedding
	for i := range p.Site.Soils {
		p.Site.Soils[i].E, p.Site.Soils[i].Nu = 0, 0
	}
	if r := run(t, p); !strings.Contains(words(r), "not known") {
		t.Errorf("on rock of unknown stiffness: %q", words(r))
	}
	for i := range p.Site.Soils {
		p.Site.Soils[i].E, p.Site.Soils[i].Nu = 40e3, 0.3
	}
	j := jobOf(t, p)
	if j.bedded == nil || math.Abs(j.bed.Ground-40e3/(j.box.W*0.91)) > 1e-6 {
		t.Fatalf("rock of 40 MPa: %+v", j.bed.Ground)
	}
	rock := run(t, p)
	if len(rock.Blocks) > 0 { // lifts without any weight on the floor among the stages
		t.Errorf("on rock: %v", rock.Blocks)
	}
	if !strings.Contains(words(rock), "both ways") {
		t.Errorf("on rock: %q", words(rock))
	}
	for _, id := range []string{"rib", "rib-deflection"} {
		a, b := find(pads, id, ""), find(rock, id, "")
		if b == nil || b.Verdict() == check.NotChecked || b.Worst() < a.Worst()*(1-1e-9) {
			t.Errorf("%s: %.4f on pads, %.4f on rock", id, a.Worst(), b.Worst())
		}
	}
}

// TestCasesNamed: every check of the box that was made names a load
// combination of ST-20, for each method that it has a ratio of.
func TestCasesNamed(t *testing.T) {
	known := map[string]bool{}
	for _, set := range [][]box.Combo{box.Allowable, box.Strength} {
		for _, c := range set {
			known[c.Name] = true
		}
	}
	of := []string{"side-sheet", "end-sheet", "sheet-deflection", "roof-sheet", "roof-deflection", "top-rail", "bottom-rail", "header", "wale",
		"wale-deflection", "purlin", "purlin-deflection", "corner-post", "cross-member", "rib", "rib-deflection", "inward-bow", "strut", "roof-diaphragm"}
	seen := map[string]bool{}
	for _, p := range []*model.Project{demo(t, "as-drawn"), demo(t, "put-right"),
		kit(t, func(r *model.Ribs) {
			r.Joints, r.Struts = model.PinnedJoints, []model.Strut{{Height: 1.1, Section: "shs60x4"}}
		})} {
		r := run(t, p)
		for i := range r.Checks {
			c := &r.Checks[i]
			for _, id := range of {
				if c.ID != id || c.Verdict() == check.NotChecked {
					continue
				}
				seen[id] = true
				if !known[c.Case] || !math.IsNaN(c.RatioLRFD) && !known[c.CaseLRFD] {
					t.Errorf("%s of the %s: combinations %q, %q", c.ID, c.Part, c.Case, c.CaseLRFD)
				}
			}
		}
	}
	for _, id := range of {
		if !seen[id] && id != "header" {
			t.Errorf("no project has a check %q: the test tells nothing of it", id)
		}
	}
}

// TestStrutsDrawn: every strut is a line of its own from post to post in the
// portrait of a cross section, and carries what its check says at most.
func TestStrutsDrawn(t *testing.T) {
	p := kit(t, func(r *model.Ribs) {
		r.Struts = []model.Strut{{Height: 0.75, Section: "shs60x4"}, {Height: 1.5, Section: "shs60x4"}}
	})
	r := run(t, p)
	c := find(r, "strut", "cross struts")
	if c == nil {
		t.Fatal("no check of the struts")
	}
	struts := 0
	for _, d := range shape(t, p, c.Stage, c.Station, false).Members {
		if !strings.Contains(d.Part, "cross strut") {
			continue
		}
		struts++
		for _, at := range d.Axis {
			if math.Abs(at[1]-d.Axis[0][1]) > 1e-9 {
				t.Errorf("a strut runs from %v to %v", d.Axis[0], at)
			}
		}
	}
	if struts != 2 {
		t.Errorf("%d struts drawn, want 2", struts)
	}
}
