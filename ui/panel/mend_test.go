package panel

import (
	"testing"

	"hillset/engine/check"
	"hillset/engine/model"
)

// Every check that can be beyond its limits names the pages where something
// can be done about it, and the buttons below it lead there.
func TestEveryCheckThatFailsCanBeMended(t *testing.T) {
	tried := 0
	for _, change := range []func(p *model.Project){
		func(*model.Project) {},
		func(p *model.Project) { p.Box.Orientation = model.Broadside },
		func(p *model.Project) { p.Fill.FrontTop, p.Fill.BackTop = 3, 3 },
		func(p *model.Project) { p.Box.NoFloor, p.Cut.Ladders = true, 1 },
		func(p *model.Project) { // drains that are checked, of a pipe too small
			p.Site.Water.Computed = true
			for i := range p.Site.Soils {
				s := &p.Site.Soils[i]
				s.Kx, s.Kz, s.Set = 100*max(s.Kx, 1e-6), 100*max(s.Kz, 1e-6), append(s.Set, "kx", "kz")
			}
			p.Defence.Drain.Pipe, p.Defence.Drain.Fall = "corrugated-100", 0.002
			p.Defence.Drain.Outlet, p.Defence.Sump = "sump", model.Sump{Live: 0.1, Rate: 1, Efficiency: 0.2, Reaction: 24}
			p.Defence.Drain.SumpBore = 0.3
		},
	} {
		for _, file := range []string{drawn, right} {
			b := newBench(t, file)
			b.edit("change", func(p *model.Project) error { change(p); return nil })
			b.assessed()
			b.openPage("checks")
			checks := b.desk.Result().Checks
			for i := range checks {
				c := &checks[i]
				if c.Verdict() != check.Beyond {
					if b.mendRow(c) != nil {
						t.Errorf("%s of the %s is not beyond its limits and is to be mended", c.ID, c.Part)
					}
					continue
				}
				tried++
				if len(mendPages[c.ID]) == 0 {
					t.Errorf("no page to mend %s of the %s", c.ID, c.Part)
				}
				for _, key := range mendPages[c.ID] {
					if !b.openPage(key) {
						t.Errorf("%s: no page %s", c.ID, key)
					}
				}
			}
		}
	}
	if tried < 20 {
		t.Errorf("only %d checks were beyond their limits", tried)
	}
}
