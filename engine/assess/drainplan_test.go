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

// The runs that are told one by one take together what the checks count, the
// interceptor among them.
func TestDrainRuns(t *testing.T) {
	p := computedDemo(t, "put-right")
	d := &p.Defence.Drain
	d.Uphill, d.UphillAway, d.UphillDepth = true, 0.5, 3
	r := run(t, p)
	j, err := newJob(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	for _, st := range p.Stages {
		w, err := r.Water.At(st)
		if err != nil || w.Long == nil || !w.Long.View.HasBox {
			continue
		}
		runs, err := DrainRuns(p, tables.Default(), w)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, q := range runs {
			sum += q.Flow()
		}
		f := j.drainFlowOf(w)
		closeTo(t, "flow of all runs at "+st.ID, sum, f.total(), 1e-12)
		if sum > 0 && len(runs) == 4 {
			told++
		}
	}
	if told == 0 {
		t.Error("no stage has water in all four runs")
	}
	if !slices.Contains(r.Assumed, InterceptorHeld) || slices.Contains(run(t, computedDemo(t, "put-right")).Assumed, InterceptorHeld) {
		t.Error("what the interceptor is not credited with is not told, or told without one")
	}
}
