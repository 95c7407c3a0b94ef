package assess

import (
	"math"
	"slices"
	"testing"

	"hillset/engine/check"
	"hillset/engine/tables"
)

// The plan of the drain of the store put right by hand: 2.438 m and 0.45 m of
// rock behind a box 6.058 m long, 0.15 m below formation, at 1.2 %; its outlet
// is the one that is checked.
func TestDrainPlan(t *testing.T) {
	p := computedDemo(t, "put-right")
	r := run(t, p)
	pl, err := DrainPlanOf(r, tables.Default())
	if err != nil || pl.Fault != nil {
		t.Fatal(err, pl.Fault)
	}
	w, fall := p.Fill.RockWidth, p.Defence.Drain.Fall
	closeTo(t, "back", pl.Back, 2.438+w, 1e-9)
	closeTo(t, "side", pl.Side, 6.058+w/2, 1e-9)
	closeTo(t, "fall", pl.Top-pl.End, fall*((2.438+w)/2+6.058+w/2), 1e-9)
	i := slices.IndexFunc(r.Checks, func(c check.Check) bool { return c.ID == "drain-outlet" })
	if i < 0 || !pl.Outlet.Daylight {
		t.Fatalf("no outlet: %+v", pl.Outlet)
	}
	for _, l := range r.Checks[i].Working {
		if l.Text == "Run to daylight" && math.Abs(l.Result.Val-pl.Outlet.Run) > 1e-9 {
			t.Errorf("run %g m, checked %g m", pl.Outlet.Run, l.Result.Val)
		}
	}
	p.Defence.Drain.Outlet = "sump"
	if pl, err = DrainPlanOf(r, tables.Default()); err != nil || pl.Fault == nil {
		t.Errorf("a sump has an outlet: %+v, %v", pl, err)
	}
}
