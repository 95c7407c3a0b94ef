package panel

import (
	"errors"
	"math"
	"strings"
	"testing"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/ui/units"
)

// The table of the page is that of the engine for the project on the desk, in
// the reader's units, and follows every change.
func TestBurialTableFollowsTheProject(t *testing.T) {
	b := newBench(t, drawn)
	b.openPage("fill")
	here := func() bool { return b.bury.of == b.project() }
	b.until("the table", here)
	for _, sys := range []units.System{units.Metric, units.US} {
		b.units(sys)
		b.until("the table", here)
		want, err := assess.BurialTable(b.project(), b.tables)
		if err != nil {
			t.Fatal(err)
		}
		said := b.written()
		for _, s := range want {
			for _, text := range []string{buried(s.Drained, s.WholeDrained, sys), buried(s.Flooded, s.WholeFlooded, sys)} {
				for _, line := range strings.Split(text, "\n") {
					if !strings.Contains(said, line) {
						t.Errorf("%s: nothing of %q", s.Name, line)
					}
				}
			}
		}
	}
	for _, r := range b.rows() {
		if r, ok := r.(*burialRow); ok && r.table.Size().Height < float32(len(r.lines))*20 {
			t.Errorf("%d soils stand in a height of %v", len(r.lines), r.table.Size().Height)
		}
	}
	thin := b.bury.rows[0].Drained
	b.edit("thick walls", func(p *model.Project) error { p.Box.SideT = 3; return nil })
	b.until("the table of the thick walls", here)
	if thick := b.bury.rows[0].Drained; !(thick > thin) {
		t.Errorf("with 3 mm sheets %v stands, with those of the demo %v", thick, thin)
	}
}

func TestBurialMarks(t *testing.T) {
	for _, c := range []struct {
		h     float64
		whole bool
		want  string
	}{
		{1.2191, false, "1.22 m\nnot 4 ft"}, {1.2192, false, "1.22 m\nholds 4 ft"}, {1.8287, false, "1.83 m\nholds 4 ft"},
		{1.8288, false, "1.83 m\nholds 6 ft"}, {2.36, true, "whole wall, 2.36 m\nholds 6 ft"}, {math.NaN(), false, "not allowed"},
	} {
		if got := buried(c.h, c.whole, units.Metric); got != c.want {
			t.Errorf("%v: %q, want %q", c.h, got, c.want)
		}
	}
}

func TestFaultOfTheTableIsAnError(t *testing.T) {
	if _, err := buriedIn(func() ([]assess.Burial, error) { panic("odd") }); err == nil || !strings.Contains(err.Error(), "odd") {
		t.Errorf("a panic became %v", err)
	}
	want := errors.New("x")
	if _, err := buriedIn(func() ([]assess.Burial, error) { return nil, want }); !errors.Is(err, want) {
		t.Errorf("an error became %v", err)
	}
}
