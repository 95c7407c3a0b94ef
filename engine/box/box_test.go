package box

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/frame"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// Tolerances of the reference cases.
const (
	tol05 = 5e-3
	tol02 = 2e-3
	tol1  = 1e-2
	tol01 = 1e-3
	exact = 1e-9
)

// Rows of the structure reference, section 3.
var (
	rowS1   = tables.Sheet{ID: "S1", A: 72e-3, S: 68e-3, B: 70e-3, D: 36e-3, T: 1.6e-3}
	rowRoof = tables.Sheet{ID: "roof", A: 91e-3, S: 13.5e-3, B: 91e-3, D: 20e-3, T: 2.0e-3}
	corten  = Of(tables.Grade{ID: "corten", Fy: 345e3, Fu: 480e3, E: 200e6})
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s = %.6g, want %.6g within %g", what, got, want, tol)
	}
}

func profile(row tables.Sheet) steel.Profile {
	p, err := steel.FromSheet(row, row.T)
	if err != nil {
		panic(err)
	}
	return p
}

func tube(h, t float64) steel.Bar {
	b, err := steel.BarProps(tables.Bar{ID: "shs", Shape: steel.SHS, H: h * 1e-3, B: h * 1e-3, T: t * 1e-3})
	if err != nil {
		panic(err)
	}
	return b
}

// strip is a bare S1 wall with a load on it.
func strip(l float64, earth frame.Load, wales ...float64) Strip {
	return Strip{Profile: profile(rowS1), Steel: corten, Height: l, Wales: wales, Load: Pressures{Earth: earth}}
}

// sane checks what every check must have: a ratio that is demand over
// capacity, a working without NaN, sources, and a remedy whose numbers are
// there when it is beyond limits.
func sane(t *testing.T, c check.Check) {
	t.Helper()
	if c.ID == "" || c.Title == "" || c.Source == "" || c.Method == "" || len(c.Working) == 0 || len(c.Assumptions) == 0 {
		t.Errorf("%s: incomplete: %+v", c.ID, c)
	}
	if math.IsNaN(c.Ratio) || c.Ratio < 0 || c.RatioLRFD < 0 {
		t.Errorf("%s: ratios %g, %g", c.ID, c.Ratio, c.RatioLRFD)
	}
	if !math.IsInf(c.Ratio, 0) {
		near(t, c.ID+" demand over capacity", c.Demand.Val/c.Capacity.Val, c.Ratio, exact)
	}
	for _, l := range c.Working {
		if l.Text == "" || l.Formula == "" || l.Source == "" || math.IsNaN(l.Result.Val) {
			t.Errorf("%s: line %+v", c.ID, l)
		}
		for _, q := range l.Terms {
			if math.IsNaN(q.Val) || q.Sym == "" {
				t.Errorf("%s: term %+v of %q", c.ID, q, l.Text)
			}
		}
	}
	// Every check names a combination that there is, and ST-20 holds for all.
	known := func(name string, combos []Combo) bool {
		return slices.ContainsFunc(combos, func(c Combo) bool { return c.Name == name })
	}
	if !known(c.Case, Allowable) || !math.IsNaN(c.RatioLRFD) && !known(c.CaseLRFD, Strength) {
		t.Errorf("%s: combinations %q, %q", c.ID, c.Case, c.CaseLRFD)
	}
	if c.Worst() > 1 && c.Remedy == "" {
		t.Errorf("%s: no remedy at %g", c.ID, c.Worst())
	}
	for k := 0; strings.Contains(c.Remedy, fmt.Sprintf("{%d}", k)); k++ {
		if k >= len(c.RemedyQ) || math.IsNaN(c.RemedyQ[k].Val) {
			t.Errorf("%s: remedy %q with %v", c.ID, c.Remedy, c.RemedyQ)
			break
		}
	}
	for _, bad := range []string{"safe ", "unsafe", "Safe "} {
		if strings.Contains(c.Remedy+" "+strings.Join(c.Assumptions, " "), bad) {
			t.Errorf("%s: the word %q", c.ID, bad)
		}
	}
}

func TestCombos(t *testing.T) {
	t.Run("ST-20", func(t *testing.T) { // factors verified; exact
		e := Effects{D: 6, L: 2, H: 9, F: 3, S: 1.5}
		for k, want := range []float64{12.6, 29.15, 28.6, 19.8} {
			near(t, Strength[k].Name, Strength[k].Of(e), want, 1e-12)
		}
		for k, want := range []float64{9.0, 20.0, 19.5, 20.625, 12.6} {
			near(t, Allowable[k].Name, Allowable[k].Of(e), want, 1e-12)
		}
		v, name := Largest(Strength, e)
		if near(t, "largest", v, 29.15, 1e-12); name != Strength[1].Name {
			t.Errorf("largest from %q", name)
		}
	})
}

func TestPressures(t *testing.T) {
	p := Pressures{Earth: frame.Linear(10, 0, 2), Water: frame.Linear(5, 0, 1), Live: frame.Uniform(2, 2)}
	s, _ := p.Service().Total()
	f, _ := p.Factored().Total()
	near(t, "service", s, 10+2.5+4, exact)
	near(t, "factored", f, 1.6*16.5, exact)
	if s, _ := (Pressures{}).Service().Total(); s != 0 {
		t.Errorf("no pressure sums to %g", s)
	}
	near(t, "pairs", Pair{1, 2}.Plus(Pair{3, 4}).Times(2).LRFD, 12, exact)
}
