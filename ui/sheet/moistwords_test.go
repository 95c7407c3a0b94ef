package sheet

import (
	"strings"
	"testing"

	"hillset/engine/tables"
	"hillset/ui/units"
)

// How high the ground stays wet is said of each ground at the box, in either
// system of units, with where the figures come from; or why it is not known.
func TestMoistWords(t *testing.T) {
	p := stillDemo(t, demos[1]).p
	p.Site.Water.Recharge = 0
	for sys, want := range map[units.System]string{units.Metric: "0.80 m over the water", units.US: "2'-7½\" over the water"} {
		all := strings.Join(MoistWords(p, tables.Default(), sys), "\n")
		for _, s := range []string{want, "not known", "(memory)", "0.9 or more"} {
			if !strings.Contains(all, s) {
				t.Errorf("%q is not said in %q", s, all)
			}
		}
	}
	for i := range p.Site.Soils {
		p.Site.Soils[i].Texture = ""
	}
	all := strings.Join(MoistWords(p, tables.Default(), units.Metric), "\n")
	if strings.Contains(all, "nearly saturated up to") || !strings.Contains(all, "page 2") {
		t.Errorf("without a texture: %q", all)
	}
}
