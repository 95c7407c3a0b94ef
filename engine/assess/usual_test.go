package assess

import (
	"slices"
	"strings"
	"testing"

	"hillset/engine/model"
)

// TestUnusual: a thickness or a yield strength outside the ordinary range of the
// table of members adds a sentence to the checks that it goes into and to no
// other; within the range, at its ends, and where nothing was measured, nothing
// is said.
func TestUnusual(t *testing.T) {
	all := []string{"side-sheet", "end-sheet", "roof-sheet", "sheet-deflection", "roof-deflection", "top-rail", "wale", "sliding"}
	for _, c := range []struct {
		name string
		set  func(b *model.Box)
		says string
		in   []string
	}{
		{"nothing measured", func(*model.Box) {}, "", nil},
		{"as is usual", func(b *model.Box) { b.SideT, b.EndT, b.RoofT, b.Fy = 1.6, 2, 2, 343 }, "", nil},
		{"thin side", func(b *model.Box) { b.SideT = 1.1 }, "measured 1.1 mm; usual is 1.6 to 2 mm (memory): check the gauge", []string{"side-sheet", "sheet-deflection"}},
		{"thick end", func(b *model.Box) { b.EndT = 2.6 }, "measured 2.6 mm; usual is 1.6 to 2 mm", []string{"end-sheet", "sheet-deflection"}},
		{"thin roof", func(b *model.Box) { b.RoofT = 1.2 }, "Roof sheet: measured 1.2 mm", []string{"roof-sheet", "roof-deflection"}},
		{"strong steel", func(b *model.Box) { b.Fy = 420 }, "measured 420 MPa; usual is 343 to 355 MPa (second-hand): check the test report", []string{"side-sheet", "end-sheet", "roof-sheet", "top-rail"}},
	} {
		p := demo(t, "put-right").Clone()
		p.Box.SideT, p.Box.EndT, p.Box.RoofT, p.Box.Fy = 0, 0, 0, 0
		p.Box.SteelKnown = true
		c.set(&p.Box)
		r := run(t, p)
		told := map[string]bool{}
		for i := range r.Checks {
			k := &r.Checks[i]
			text := strings.Join(k.Assumptions, "\n")
			if c.says != "" && strings.Contains(text, c.says) {
				told[k.ID] = true
			}
			if c.says == "" && strings.Contains(text, "usual is") {
				t.Errorf("%s: %s says %s", c.name, k.ID, text)
			}
		}
		for _, id := range all {
			if want := slices.Contains(c.in, id); told[id] != want {
				t.Errorf("%s: %s told %v, want %v", c.name, id, told[id], want)
			}
		}
	}
}
