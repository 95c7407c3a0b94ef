package box

import (
	"math"
	"testing"

	"hillset/engine/steel"
	"hillset/engine/tables"
)

// crests is the blind end of steel of unknown make under a wale of 75 x 75 x 4.
func crests(t *testing.T, load Pair) Crests {
	t.Helper()
	set := tables.Default()
	sheet, _ := set.Sheet("E1")
	grade, _ := set.Grade("unknown")
	p, err := steel.FromSheet(sheet, sheet.T)
	if err != nil {
		t.Fatal(err)
	}
	row, _ := set.Crippling("inner-loose")
	return Crests{Profile: p, Steel: Of(grade), Row: row, On: "a wale", Load: load, Bearing: steel.Bearing{Length: 59e-3, Edge: 1, Radius: 8e-3}}
}

// TestCrests: by hand (coefficients from memory) one web holds 11.157 kN and a
// metre of wale 89.25 kN: 25 kN/m are 0.490 by allowable stress, 40 kN/m are
// 0.527 by load factors.
func TestCrests(t *testing.T) {
	c, r, err := CrestsUnderBar(crests(t, Pair{25, 40}))
	if err != nil {
		t.Fatal(err)
	}
	sane(t, c)
	near(t, "web", r.Strength.PerWeb, 11.157, 1e-3)
	near(t, "ASD", c.Ratio, 25*1.75/89.25, 1e-3)
	near(t, "LRFD", c.RatioLRFD, 40/(0.85*89.25), 1e-3)
	if c.Case != wallCase || c.CaseLRFD != wallCaseLRFD {
		t.Errorf("combinations %q, %q", c.Case, c.CaseLRFD)
	}
}

// TestCrestsRemedy: the bearing length that the remedy names brings the ratio to
// 1; beyond what any bearing does, the load that it names does.
func TestCrestsRemedy(t *testing.T) {
	for _, load := range []Pair{{52, 83.2}, {300, 480}} {
		in := crests(t, load)
		c, _, err := CrestsUnderBar(in)
		if err != nil {
			t.Fatal(err)
		}
		sane(t, c)
		if c.Worst() <= 1 || len(c.RemedyQ) != 1 {
			t.Fatalf("%+v", c)
		}
		if v := c.RemedyQ[0].Val; c.RemedyQ[0].Sym == "" && v < 1 {
			in.Bearing.Length = v
		} else {
			in.Load = load.Times(v / load.ASD)
		}
		if after, err := in.Solve(); err != nil || math.Abs(after.Ratio.largest()-1) > 1e-9 {
			t.Errorf("%v: ratio %g after %q", load, after.Ratio.largest(), c.Remedy)
		}
	}
}

// TestCrestsPulled: a bar that is pulled off the sheet asks nothing of it; what
// is no number is refused.
func TestCrestsPulled(t *testing.T) {
	c, r, err := CrestsUnderBar(crests(t, Pair{-20, -32}))
	if err != nil || c.Worst() != 0 || r.Ratio != (Pair{}) {
		t.Errorf("%+v, %v", r.Ratio, err)
	}
	for _, v := range []float64{math.NaN(), math.Inf(1)} {
		if _, _, err := CrestsUnderBar(crests(t, Pair{v, v})); err == nil {
			t.Errorf("load %g accepted", v)
		}
	}
}
