package panel

import (
	"testing"

	"hillset/ui/sketch"
)

func TestOneSectionAlone(t *testing.T) {
	b := newBench(t, drawn)
	wide := b.win.Canvas().Size().Width - sideMost // room of the drawing at least
	for _, c := range []struct {
		of          showing
		long, cross bool
	}{{longOnly, true, false}, {crossOnly, false, true}, {bothSections, true, true}} {
		b.showSections(c.of)
		b.q.drain()
		shows := map[*sketch.Board]bool{}
		for _, o := range b.sections.box.Objects {
			shows[b.long] = shows[b.long] || o == b.sections.long || o == b.sections.split
			shows[b.cross] = shows[b.cross] || o == b.sections.cross || o == b.sections.split
		}
		if shows[b.long] != c.long || shows[b.cross] != c.cross {
			t.Errorf("%q shows long %v, cross %v", c.of, shows[b.long], shows[b.cross])
		}
		if !shows[b.active] {
			t.Errorf("%q: the keys go to a section that is not shown", c.of)
		}
		if c.long != c.cross && b.active.Size().Width < wide {
			t.Errorf("%q: the section is %v wide, there is room for %v", c.of, b.active.Size().Width, wide)
		}
		if got := readSettings(b.places.config).Sections; got != c.of {
			t.Errorf("%q is kept as %q", c.of, got)
		}
		for _, s := range shownWays {
			if on := b.tools.shown[s.of].on; on != (s.of == c.of) {
				t.Errorf("%q: the button %s is pressed %v", c.of, s.name, on)
			}
		}
	}
	b.showSections(crossOnly)
	b.takeTool(sketch.DrawGround)
	if b.set.Sections != bothSections || b.active != b.long {
		t.Error("a tool of the long section was taken while it cannot be seen")
	}
}
