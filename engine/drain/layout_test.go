package drain

import (
	"slices"
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
// beside (UFC 3-270-04, verified), 6 in in 10 ft away from the box (IRC R401.3,
// memory).
func TestLayoutCheck(t *testing.T) {
	in := Layout{Below: 2 * .0254, Above: 6 * .0254, Beside: 6 * .0254, Runs: []float64{10, 12}, Spacing: 30, Riser: .1, Surface: .5 / 10}
	c := must(LayoutCheck(in))
	wellFormed(t, c)
	near(t, "just within", c.Ratio, 1, .005)
	metric := in
	metric.Below, metric.Above, metric.Beside = .051, .152, .152
	for _, l := range []Layout{in, metric} {
		if c := must(LayoutCheck(l)); c.Verdict() != check.Within {
			t.Errorf("what the rule says in inches or in rounded millimetres must do: %g by %s", c.Ratio, c.Demand.Sym)
		}
	}
	for name, bad := range map[string]func(*Layout){
		"below": func(l *Layout) { l.Below /= 2 }, "above": func(l *Layout) { l.Above /= 2 }, "beside": func(l *Layout) { l.Beside /= 2 },
		"spacing": func(l *Layout) { l.Spacing *= 2 }, "riser": func(l *Layout) { l.Riser /= 2 }, "surface": func(l *Layout) { l.Surface /= 2 },
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
	in.Surface, in.Riser = .05, 0
	_, err := LayoutCheck(in)
	refused(t, err, "riser")
}
