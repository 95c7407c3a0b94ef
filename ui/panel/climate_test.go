package panel

import (
	"strings"
	"testing"

	"hillset/engine/model"
	"hillset/ui/units"
)

// The page says what comes out, follows what is typed into it and speaks the
// reader's units.
func TestClimatePage(t *testing.T) {
	b := newBench(t, right)
	b.still()
	b.assessed()
	b.openPage("climate")
	says := b.onPage()
	for _, want := range []string{"It freezes to 0.98 m", "Coldest inside: doors", "Hours of air, closed, 2 people: 7.7 h", "Carbon monoxide", "Checks of frost and air"} {
		if !strings.Contains(says, want) {
			t.Errorf("does not say %q: %q", want, says)
		}
	}
	b.units(units.US)
	if us := b.onPage(); !strings.Contains(us, "°F") || strings.Contains(us, "°C") {
		t.Errorf("in feet: %q", us)
	}
	b.units(units.Metric)
	b.pick("People inside together", "4")
	typed(b.number("climate", "Mean air over the year").entry, "9 °C")
	typed(b.number("climate", "Humidity wanted").entry, "60")
	if p := b.project(); *p.Site.Climate.AirMean != 9 || !near(p.Room.Humid, 0.6) || p.Room.People != 4 {
		t.Errorf("typed: %+v, %+v", p.Site.Climate, p.Room)
	}
	b.assessed()
	b.q.drain()
	if says := b.onPage(); !strings.Contains(says, "Hours of air, closed, 4 people: 3.9 h") || !strings.Contains(says, "60.0 % humidity") {
		t.Errorf("after a change: %q", says)
	}
	b.pick("Vents", model.PipeVents)
	if b.visible("Low opening, net area") || !b.visible("Bore of the pipes") {
		t.Error("the rows do not follow the kind of vents")
	}
	typed(b.number("climate", "Mean air over the year").entry, "")
	if b.project().Site.Climate.AirMean != nil {
		t.Error("an empty field does not mean not given")
	}
}
