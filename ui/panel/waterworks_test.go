package panel

import (
	"slices"
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/engine/water"
	"hillset/ui/units"
)

// computed makes the water of the project one that can be computed.
func (b *bench) computed() {
	b.edit("compute the water", func(p *model.Project) error {
		p.Site.Water.Computed = true
		for i := range p.Site.Soils {
			if s := &p.Site.Soils[i]; water.Asks(s) {
				s.Kx, s.Kz, s.Set = 0.01, 0.01, append(slices.Clone(s.Set), "kx", "kz")
			}
		}
		return nil
	})
}

// The page says what was computed, in the reader's units, and nothing of a
// project whose levels are only given.
func TestFlowsPageSaysWhatWasComputed(t *testing.T) {
	b := newBench(t, right)
	b.still()
	b.worked("flows")
	if says := b.onPage(); !strings.Contains(says, "not computed") || strings.Contains(says, "fitted") {
		t.Errorf("of still water: %q", says)
	}
	b.computed()
	b.assessed()
	b.worked("flows")
	says := b.onPage()
	for _, want := range []string{"Water level fitted:", "At the back wall:", "Drain behind the box:", "litres an hour"} {
		if !strings.Contains(says, want) {
			t.Errorf("does not say %q: %q", want, says)
		}
	}
	b.units(units.US)
	if us := b.onPage(); !strings.Contains(us, "gallons an hour") || strings.Contains(us, "litres") {
		t.Errorf("in feet: %q", us)
	}
}

// One card for each case, one after the other; a change of the project takes
// them away.
func TestScenariosPage(t *testing.T) {
	b := newBench(t, right)
	b.computed()
	b.assessed()
	pg := b.worked("scenarios")
	says := b.onPage()
	for _, want := range []string{"drains working", "half capacity", "drains blocked", "high water", "Water at the box:", "Worst ratio:", "Time to act:"} {
		if !strings.Contains(says, want) {
			t.Errorf("does not say %q: %q", want, says)
		}
	}
	if strings.Contains(strings.ToLower(says), "safe") {
		t.Errorf("something is called safe: %q", says)
	}
	b.edit("more cover", func(p *model.Project) error { p.Fill.FrontTop += 0.1; return nil })
	b.q.drain()
	if pg.done || strings.Contains(b.onPage(), "Time to act:") {
		t.Error("the cases of the old project are still shown")
	}
}

// Without computed water the page asks for it.
func TestScenariosAskForComputedWater(t *testing.T) {
	b := newBench(t, right)
	b.still()
	b.openPage("scenarios")
	pg := b.page.(*workedPage)
	b.until("the refusal", func() bool { return pg.err != nil })
	if says := b.onPage(); !strings.Contains(says, "only computed water") {
		t.Errorf("%q", says)
	}
}

// still gives the water of the project in place of computing it.
func (b *bench) still() {
	b.edit("still", func(p *model.Project) error { p.Site.Water.Computed = false; return nil })
	b.q.drain()
	b.assessed()
}
