package box

import (
	"math"
	"testing"

	"hillset/engine/check"
)

// TestPourReference: fluid head of 24 kN/m3 on the bare S1 sheet over 2.4 m
// (structure reference, section 5, derived): lifts of 0.6, 1.0 and 1.2 m bring
// 0.69, 2.75 and 4.40 kNm/m against 3.32, by which lifts of 0.6 to 1.0 m are
// within limits.
func TestPourReference(t *testing.T) {
	for _, c := range []struct{ lift, m float64 }{{0.6, 0.69}, {1.0, 2.75}, {1.2, 4.40}} {
		made, r, err := Pour{Strip: strip(2.40, nil), Lift: c.lift}.Check()
		if err != nil {
			t.Fatal(err)
		}
		sane(t, made)
		near(t, "M", r.Strip.Field.ASD, c.m, tol05)
		near(t, "allowed", made.Capacity.Val, 3.32, tol05)
		near(t, "ratio", made.Ratio, c.m/3.324, tol05)
		near(t, "LRFD, a fluid of known height", made.RatioLRFD, 1.4*c.m/(0.9*5.550), tol05)
		if want := c.lift <= 1.0; (made.Verdict() == check.Within) != want {
			t.Errorf("a lift of %g m is %s", c.lift, made.Verdict())
		}
		if r.Most < 1.0 || r.Most > 1.2 || r.Base != 0 {
			t.Errorf("largest lift %.3f m from %.2f, want 1.0 to 1.2 from the bottom", r.Most, r.Base)
		}
	}
}

// TestPourMost: the largest lift is a limit: a little less is within, a little
// more is beyond. A wale in the middle raises it; a lift above the wall's height
// is one of the whole wall.
func TestPourMost(t *testing.T) {
	last := 0.0
	for _, wales := range [][]float64{nil, {1.2}, {0.8, 1.6}} {
		in := Pour{Strip: strip(2.40, nil, wales...), Lift: 0.6}
		r, err := in.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if r.Most < last {
			t.Errorf("wales %v: %.3f m, with fewer %.3f", wales, r.Most, last)
		}
		last = r.Most
		if r.Most == 2.4 {
			continue
		}
		for _, d := range []float64{-0.01, 0.01} {
			in.Lift = r.Most + d
			if r, err = in.Solve(); err != nil || (r.Ratio.largest() <= 1) != (d < 0) {
				t.Errorf("wales %v, lift %.3f: ratio %.3f, %v", wales, in.Lift, r.Ratio.largest(), err)
			}
		}
	}
	a, err := Pour{Strip: strip(2.40, nil), Lift: 2.4}.Solve()
	b, err2 := Pour{Strip: strip(2.40, nil), Lift: 3}.Solve()
	if err != nil || err2 != nil || math.Abs(a.Ratio.ASD-b.Ratio.ASD) > 1e-12 {
		t.Errorf("whole wall %.4f, beyond %.4f: %v %v", a.Ratio.ASD, b.Ratio.ASD, err, err2)
	}
	if _, err := (Pour{Strip: strip(2.40, nil)}).Solve(); err == nil {
		t.Error("a lift of nothing is taken")
	}
}

// TestPourFirstLiftIsWorst: without wales the first of equal lifts bends the
// sheet most, as its span is the longest, by the closed formula of the reference
// (section 4, derived) on every lift.
func TestPourFirstLiftIsWorst(t *testing.T) {
	const h = 0.5
	r, err := Pour{Strip: strip(2.40, nil), Lift: h}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	last := math.Inf(1)
	for base := 0.0; base < 2.4-h; base += h {
		l := 2.4 - base
		rt := Fresh * h * h * h / (6 * l)
		m := rt*(l-h) + 2.0/3*rt*h*math.Sqrt(h/(3*l))
		if base == 0 {
			near(t, "M of the first lift", r.Strip.Field.ASD, m, 1e-9)
		}
		if m > last {
			t.Errorf("lift from %.1f m: %.4f, the one below %.4f", base, m, last)
		}
		last = m
	}
}
