package box

import (
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/tables"
)

// TestLightFill: EPS19 resists 40 kPa at 1 % (ASTM D6817, verified): 30 kPa for
// good are 0.75 of it, with a wheel of 20 kPa 1.25; the unit weight of 0.15
// kN/m3 is below the least of the type, 18.4 kg/m3 or 0.1805 kN/m3.
func TestLightFill(t *testing.T) {
	foam, ok := tables.Default().Geofoam("EPS19")
	if !ok {
		t.Fatal("no EPS19")
	}
	for _, c := range []struct {
		lasting, live, snow, gamma float64
		ratio                      float64
		light                      bool
	}{
		{30, 0, 0, 0.2, 0.75, false}, {30, 20, 0, 0.2, 1.25, false}, {30, 0, 2, 0.18, 0.8, false},
		{30, 4, 4, 0.15, (30 + 0.75*8) / 40, true}, {0, 0, 0, 0.2, 0, false},
	} {
		made, r, err := LightFill{Foam: foam, Gamma: c.gamma, Lasting: c.lasting, Live: c.live, Snow: c.snow}.Check()
		if err != nil {
			t.Fatal(err)
		}
		sane(t, made)
		near(t, "ratio", made.Ratio, c.ratio, 1e-9)
		near(t, "lasting", r.Lasting, c.lasting/40, 1e-9)
		near(t, "least weight", r.Least, 18.4*9.81e-3, 1e-9)
		if said := strings.Contains(strings.Join(made.Assumptions, " "), "below the least"); r.Light != c.light || said != c.light {
			t.Errorf("unit weight %g: light %v, said %v", c.gamma, r.Light, said)
		}
		if (made.Verdict() == check.Beyond) != (c.ratio > 1) {
			t.Errorf("%+v is %s", c, made.Verdict())
		}
	}
	if _, _, err := (LightFill{Foam: foam, Lasting: -1}).Check(); err == nil {
		t.Error("a pull on the foam is taken")
	}
}

// TestAcross: strips under even load have the closed moments; an even load
// given as wheels bends alike.
func TestAcross(t *testing.T) {
	a := Across{Span: 3, Even: Effects{D: 10, L: 6, S: 2}}
	r, err := a.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "M", r.M.ASD, 16*9/8.0, 1e-9)
	near(t, "Mu", r.M.LRFD, (12+9.6+1)*9/8.0, 1e-9)
	near(t, "V", r.V.ASD, 24, 1e-9)
	if r.MCase.ASD != "D + H + F + L" || r.VCase.LRFD != Strength[1].Name {
		t.Errorf("%+v", r)
	}
	b := Across{Span: 3, Even: Effects{D: 10, S: 2}, Wheels: WallLoad([2]float64{0, 6}, [2]float64{3, 6})}
	w, err := b.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "M of wheels", w.M.ASD, r.M.ASD, 1e-9)
	near(t, "Vu of wheels", w.V.LRFD, r.V.LRFD, 1e-9)
	near(t, "as a line", w.AsLine(3).LRFD, 22.6, 1e-9)
	if _, err := (Across{Span: 3, Even: Effects{D: -1}}).Solve(); err == nil {
		t.Error("a load that lifts is taken")
	}
}
