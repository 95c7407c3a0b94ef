package assess

import (
	"context"
	"math"
	"testing"

	"hillset/engine/model"
	"hillset/engine/tables"
)

var nan, inf = math.NaN(), math.Inf(1)

// TestOrder: beyond limits before not known before within; what is not known
// neither holds nor is nearer to a limit than anything.
func TestOrder(t *testing.T) {
	rising := []float64{0, 0.5, 1, nan, 1.01, 7, inf}
	for i, a := range rising {
		for k, b := range rising {
			if worse(a, b) != (i > k) {
				t.Errorf("worse(%g, %g) is %v", a, b, worse(a, b))
			}
		}
		if held(a) != (i < 3) {
			t.Errorf("held(%g) is %v", a, held(a))
		}
	}
	for _, unknown := range []float64{nan, -inf} {
		if held(unknown) || known(unknown) || better(unknown, 5) || worse(unknown, 2) || !worse(unknown, 1) || far(unknown) < far(1e9) {
			t.Errorf("%g passes for a ratio", unknown)
		}
	}
	if !better(0.9, nan) || better(3, nan) || !better(2, inf) || better(2, 2.001) {
		t.Error("better goes wrong")
	}
}

// ratings are trials by the ratios of their checks a, b, c and so on.
func ratings(ratios ...float64) *trial {
	w := newWorst()
	for i, r := range ratios {
		w.add(candidate{slot: slot{string(rune('a' + i)), "roof"}, ratio: r})
	}
	tr := w.trial()
	return &tr
}

// TestUnknownIsNeverBetter: a trial that could not make a check is not better
// than one that could, whatever else it mends, and the walk of an answer does not
// go past it.
func TestUnknownIsNeverBetter(t *testing.T) {
	for _, c := range []struct {
		name           string
		better, than   *trial
		is, isTheOther bool
	}{
		{"fewer beyond", ratings(0.5, 2, 0.5), ratings(2, 2, 0.5), true, false},
		{"nearer", ratings(2, 0.5), ratings(3, 0.5), true, false},
		{"alike", ratings(2, nan), ratings(2, nan), false, false},
		{"an unknown for one beyond", ratings(nan, 0.5), ratings(3, 0.5), false, true},
		{"an unknown for four beyond", ratings(nan, 0.5, 0.5, 0.5), ratings(3, 3, 3, 3), false, true},
		{"no strength told", ratings(-inf, 0.5), ratings(0.9, 3), false, true},
		{"known at last, though beyond", ratings(5, 0.5), ratings(nan, 0.5), true, false},
	} {
		if got, back := c.better.better(c.than), c.than.better(c.better); got != c.is || back != c.isTheOther {
			t.Errorf("%s: better %v, the other way round %v", c.name, got, back)
		}
	}
	start := ratings(0.4, 0.5, nan)
	for _, c := range []struct {
		name   string
		tr     *trial
		within bool
		decide string
	}{
		{"as at the start", ratings(0.6, 0.5, nan), true, "a"},
		{"one lost", ratings(0.6, nan, nan), false, "b"},
		{"one new that cannot be made", ratings(0.6, 0.5, nan, nan), false, "d"},
		{"one beyond", ratings(nan, 1.5, nan), false, "b"},
		{"one made at last", ratings(0.6, 0.5, 0.7), true, "c"},
	} {
		c.tr.unlike(start)
		if c.tr.within != c.within || c.tr.decides != c.decide {
			t.Errorf("%s: within %v by %q", c.name, c.tr.within, c.tr.decides)
		}
	}
	if tr := ratings(nan, -inf); tr.within || tr.why == "" {
		t.Errorf("nothing but unknowns: %+v", tr)
	}
	if f := ratings(0.5, nan, 2).failing(func(slot) bool { return true }); len(f) != 2 {
		t.Errorf("%d fail, want the unknown and the one beyond", len(f))
	}
	if before, after := ratings(3, 3).score(), ratings(nan, 0.5).score(); after.asGood(before) {
		t.Error("one unmade more is as good")
	}
}

// TestUnknownCrossMembers: cross members that no table knows are missing in a
// trial, so that nothing built in ranks above the project as drawn for losing them.
func TestUnknownCrossMembers(t *testing.T) {
	p := demo(t, "put-right").Clone()
	fine, err := try(context.Background(), p, tables.Default())
	if err != nil || !fine.within {
		t.Fatalf("%+v, %v", fine, err)
	}
	j := jobOf(t, p)
	j.box.CrossMember = "none"
	for _, a := range j.aged {
		a.cross = j.crossMember(a.years)
	}
	w := newWorst()
	j.work(t.Context(), w)
	lost := w.trial()
	if lost.score().Missing != fine.score().Missing+1 || lost.better(&fine) || !fine.better(&lost) {
		t.Errorf("missing %d, with known ones %d", lost.score().Missing, fine.score().Missing)
	}
	if lost.unlike(&fine); lost.within || lost.decides != crossSlot.id {
		t.Errorf("within %v by %q", lost.within, lost.decides)
	}
}

// TestCurveStopsWhereUnknown: a question that meets a check which can no longer be
// made ends there; one that could not be made from the start does not end it.
func TestCurveStopsWhereUnknown(t *testing.T) {
	of := func(rated) bool { return true }
	at := func(v, a, b float64) triedAt { return triedAt{v, *ratings(a, b, 0.1)} }
	w := &walk{q: question{tol: 10, start: 0, curve: Curve{Now: 0}}, tried: []triedAt{at(0, 0.2, nan), at(1, 0.4, nan), at(2, nan, nan), at(3, 0.8, nan)}}
	w.touch()
	w.excuse()
	a, err := w.solve(of)
	if err != nil || a.Value != 1 || a.Governs != "a" || !a.Unmade {
		t.Errorf("%+v, %v", a, err)
	}
}

// TestLostBarIsNotChosen: sizing takes no bar that cannot be rated for one that
// holds.
func TestLostBarIsNotChosen(t *testing.T) {
	p := demo(t, "put-right").Clone()
	p.Strengthening.Wales = []model.Wale{{Height: 1, Section: "shs-none"}}
	tr, err := try(context.Background(), p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	if tr.why == "" && len(tr.failing(func(s slot) bool { return true })) == 0 {
		t.Error("a wale that is not in the table holds")
	}
}

// TestRankOfLostChecks: a remedy that leaves more checks unmade than before comes after
// every one that does not, however much it mends.
func TestRankOfLostChecks(t *testing.T) {
	before := Score{Beyond: 5, Excess: 10}
	ms := []Remedy{
		{ID: "loses a check", Before: before, After: Score{Missing: 1}},
		{ID: "mends one", Before: before, After: Score{Beyond: 4, Excess: 9}},
		{ID: "mends all", Before: before, After: Score{}, Adds: Takeoff{Mass: 100}},
	}
	rank(ms)
	for i, want := range []string{"mends all", "mends one", "loses a check"} {
		if ms[i].ID != want {
			t.Errorf("%d: %q, want %q", i+1, ms[i].ID, want)
		}
	}
}
