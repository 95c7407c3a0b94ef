package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"hillset/engine/model"
	"hillset/ui/scene"
	"hillset/ui/sketch"
	"hillset/ui/units"
)

func layersOf(s *scene.Scene) map[scene.Layer]int {
	n := map[scene.Layer]int{}
	for _, it := range s.Items {
		if it.Path != nil {
			n[it.Path.Layer]++
		} else {
			n[it.Label.Layer]++
		}
	}
	return n
}

// The fourth choice beside the sections shows the box folded flat, in the
// reader's units, with the part that is chosen in the list marked, and comes
// back at the next start.
func TestPanelsAreShown(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	b.showSections(panelsOnly)
	b.q.drain()
	v := b.sections.panels
	if v.Size().Width < 400 || v.Size().Height < 300 {
		t.Fatalf("the panels take %v", v.Size())
	}
	written := func() string {
		s := ""
		for _, it := range v.Scene().Items {
			if it.Label != nil {
				s += it.Label.Text + "\n"
			}
		}
		return s
	}
	m := written()
	for _, want := range []string{"left side", "blind end", "roof", "wale 1 0."} {
		if !strings.Contains(m, want) {
			t.Errorf("the panels do not say %q: %q", want, m)
		}
	}
	b.units(units.US)
	if ft := written(); !strings.Contains(ft, "ft") || strings.Contains(ft, " m\n") {
		t.Errorf("in feet the panels say %q", ft)
	}
	before := v.Scene()
	b.edit("thinner", func(p *model.Project) error { p.Box.SideT = 1.2; return nil })
	b.assessed()
	if v.Scene() == before {
		t.Error("after another result the panels are the old ones")
	}
	if s := readSettings(b.places.config); s.Sections != panelsOnly {
		t.Errorf("kept %q", s.Sections)
	}
	b.takeTool(sketch.PlaceBox)
	if b.set.Sections != bothSections {
		t.Error("a tool does not lead back to the sections")
	}
}

// Keys over the panels zoom them, and reach nothing of the boards.
func TestPanelsTakeTheKeys(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	b.showSections(panelsOnly)
	v := b.sections.panels
	b.inView().ZoomIn()
	wide := v.Scene().Bounds.W() * v.Scene().MMPerM
	b.panelsLetter('f')
	if all := v.Scene().Bounds.W() * v.Scene().MMPerM; all >= wide {
		t.Errorf("fitted to %v mm from %v", all, wide)
	}
	before := b.project()
	b.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyDelete})
	b.win.Canvas().OnTypedRune()('d')
	if b.project() != before || b.layers[scene.Deformed] {
		t.Error("a key reached a board that is not shown")
	}
}

// Before anything can be computed the panels say what to do.
func TestPanelsSayWhatIsMissing(t *testing.T) {
	b := newBench(t, "")
	b.assessed()
	b.showSections(panelsOnly)
	s := b.sections.panels.Scene()
	if len(s.Items) == 0 || s.Items[0].Label == nil || !strings.Contains(s.Items[0].Label.Text, "Next:") && !strings.Contains(s.Items[0].Label.Text, "Nothing") {
		t.Errorf("the panels show %+v", s.Items)
	}
}

// The lines of what the steel does are off at first, one letter away, belong
// to the stage and station looked at, and go when they are switched off.
func TestLinesOfTheSteel(t *testing.T) {
	b := newBench(t, right)
	b.assessed()
	shows := func(l scene.Layer) bool {
		s, err := b.cross.Drawn()
		if err != nil {
			t.Fatal(err)
		}
		return layersOf(s)[l] > 0
	}
	b.q.drain()
	for _, l := range steelLines {
		if b.layers[l.of] || shows(l.of) {
			t.Errorf("%s is shown at first", l.name)
		}
	}
	for _, l := range steelLines {
		b.cross.TypedRune(l.key)
		b.until(l.name, func() bool { return shows(l.of) })
		if !b.tools.lines[l.of].Checked {
			t.Errorf("%s: the tick does not follow the key", l.name)
		}
	}
	if err := b.desk.SetStage("cut"); err != nil {
		t.Fatal(err)
	}
	b.q.drain()
	if shows(scene.MomentLines) {
		t.Error("the lines of another stage are shown")
	}
	if err := b.desk.SetStage(b.project().Stages[len(b.project().Stages)-1].ID); err != nil {
		t.Fatal(err)
	}
	b.until("the lines of the last stage", func() bool { return shows(scene.MomentLines) })
	b.setStation(b.desk.Station() + 0.5)
	b.until("the lines of another station", func() bool { return shows(scene.MomentLines) })
	for _, l := range steelLines {
		b.cross.TypedRune(l.key - 'a' + 'A')
	}
	b.q.drain()
	for _, l := range steelLines {
		if shows(l.of) {
			t.Errorf("%s is shown after it was switched off", l.name)
		}
	}
	if b.drawing[1].stop != nil {
		t.Error("lines are worked out that nobody sees")
	}
}
