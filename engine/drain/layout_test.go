package drain

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/check"
)

// Clean-outs at both upslope corners, every turn, and no further apart than 30
// m (reference section 1.2, common practice).
func TestCleanouts(t *testing.T) {
	for _, c := range []struct {
		runs []float64
		want []float64
	}{
		{[]float64{4, 8}, []float64{0, 4}},
		{[]float64{30, 30}, []float64{0, 30}},
		{[]float64{31}, []float64{0, 15.5}},
		{[]float64{10, 90.1, 5}, []float64{0, 10, 32.525, 55.05, 77.575, 100.1}},
	} {
		got := must(Cleanouts(c.runs, 30))
		if !slices.EqualFunc(got, c.want, func(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }) {
			t.Errorf("%v: clean-outs at %v, want %v", c.runs, got, c.want)
		}
	}
	_, err := Cleanouts([]float64{5, -1}, 30)
	refused(t, err, "runs[1].run")
	_, err = Cleanouts([]float64{5}, 0)
	refused(t, err, "spacing")
	if _, err := Cleanouts(nil, 30); err == nil {
		t.Error("no runs")
	}
}

// 2 in of stone under the pipe and 6 in over it (IRC R405.1, second-hand), 6 in
// beside (UFC 3-270-04, verified), 12 in beyond the footing (IRC R405.1,
// second-hand), 6 in in 10 ft away from the box (IRC R401.3, memory), a bore of
// 100 mm where an outlet may freeze (common practice).
func TestLayoutCheck(t *testing.T) {
	in := Layout{Below: 2 * .0254, Above: 6 * .0254, Beside: 6 * .0254, Runs: []float64{10, 12}, Spacing: 30, Riser: .1, Surface: .5 / 10, Beyond: 12 * .0254, Freezing: .1}
	c := must(LayoutCheck(in))
	wellFormed(t, c)
	near(t, "just within", c.Ratio, 1, .005)
	metric := in
	metric.Below, metric.Above, metric.Beside, metric.Beyond = .051, .152, .152, .305
	for _, l := range []Layout{in, metric} {
		if c := must(LayoutCheck(l)); c.Verdict() != check.Within {
			t.Errorf("what the rule says in inches or in rounded millimetres must do: %g by %s", c.Ratio, c.Demand.Sym)
		}
	}
	for name, bad := range map[string]func(*Layout){
		"below": func(l *Layout) { l.Below /= 2 }, "above": func(l *Layout) { l.Above /= 2 }, "beside": func(l *Layout) { l.Beside /= 2 },
		"spacing": func(l *Layout) { l.Spacing *= 2 }, "riser": func(l *Layout) { l.Riser /= 2 }, "surface": func(l *Layout) { l.Surface /= 2 },
		"beyond": func(l *Layout) { l.Beyond /= 2 }, "freezing": func(l *Layout) { l.Freezing /= 2 },
	} {
		l := in
		bad(&l)
		c := must(LayoutCheck(l))
		wellFormed(t, c)
		if c.Verdict() != check.Beyond {
			t.Errorf("%s passes: %g", name, c.Ratio)
		}
		near(t, name, c.Ratio, 2, .005)
	}
	in.Surface = -.02
	if c := must(LayoutCheck(in)); c.Verdict() != check.Beyond {
		t.Error("ground that falls towards the box")
	}
	// by hand: the middle behind the box, which both halves share, and a corner each
	in.Runs = []float64{1.5, 6}
	near(t, "one half", valueOf(t, must(LayoutCheck(in)), "N"), 2, 0)
	in.Twin = true
	near(t, "both halves", valueOf(t, must(LayoutCheck(in)), "N"), 3, 0)
	in.Surface, in.Freezing = .05, 0
	if c := must(LayoutCheck(in)); slices.ContainsFunc(c.Working, func(l check.Line) bool { return strings.Contains(l.Text, "freeze") }) {
		t.Error("an outlet that does not freeze is held against that rule")
	}
	in.Riser = 0
	_, err := LayoutCheck(in)
	refused(t, err, "riser")
}

// The stone under a pipe that is not drawn is left out, and said so.
func TestLayoutWithoutStoneBelow(t *testing.T) {
	in := Layout{Above: .2, Beside: .2, Runs: []float64{10}, Spacing: 10, Riser: .1, Surface: .05, Beyond: .4}
	c, err := LayoutCheck(in)
	if err != nil || !math.IsInf(c.Ratio, 1) {
		t.Errorf("no stone below: ratio %g, %v", c.Ratio, err)
	}
	in.BelowUnknown = true
	if c, err = LayoutCheck(in); err != nil || c.Ratio != 1 || len(c.Assumptions) != 3 {
		t.Errorf("stone below not drawn: ratio %g, %q, %v", c.Ratio, c.Assumptions, err)
	}
}

// Sizes alone give the ratios of the full gradings, but for evenness.
func TestSizesCheck(t *testing.T) {
	// 6 mm against 5 x 0.3 and 40 x 0.02 mm; 5 x 0.02 against 6; 14 against 25 x 0.1
	c, err := SizesCheck(.02, .1, .3, 6, 14)
	if err != nil || math.Abs(c.Ratio-6/.8) > 1e-9 {
		t.Errorf("ratio %g, want 7.5 (%v)", c.Ratio, err)
	}
	if c, err = SizesCheck(.02, 0, .3, .5, 0); err != nil || math.Abs(c.Ratio-.5/.8) > 1e-9 || len(c.Working) != 2 {
		t.Errorf("ratio %g, want 0.625 (%v)", c.Ratio, err)
	}
	if _, err = SizesCheck(.02, .1, .01, 6, 14); err == nil {
		t.Error("sizes that fall are taken")
	}
}
