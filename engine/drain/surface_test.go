package drain

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/tables"
)

const (
	hectare = 1e4
	mmPerH  = 1e-3 / 3600
)

// WT-10 (derived): composite C and peak flow.
func TestRational(t *testing.T) {
	t.Run("WT-10", func(t *testing.T) {
		c, area, err := Composite([]Surface{{.12 * hectare, .35}, {.05 * hectare, .60}, {.08 * hectare, .20}})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "C", c, .352, .005)
		q := must(Rational(c, 75*mmPerH, area))
		near(t, "Q, L/s", q/litre, 18.3, .005)
		near(t, "Q, cfs", q/math.Pow(.3048, 3), .647, .005)
		// the two textbook constants: Q = C i A/360 with mm/h and ha, 1.008 C i A with in/h and acres
		near(t, "metric constant", q, c*75*.25/360, 1e-9)
		near(t, "US constant", q/math.Pow(.3048, 3), 1.008*c*(75/25.4)*(.25/.40468564), .001)
	})
	if c := must(RareRunoff(.9, 100)); c != 1 {
		t.Errorf("C = %g above 1", c)
	}
	near(t, "C in 50 years", must(RareRunoff(.5, 50)), .6, 1e-12)
	_, err := RareRunoff(.5, 30)
	refused(t, err, "return period")
	_, err = Rational(.5, 1e-5, 81*hectare)
	refused(t, err, "area")
	_, err = Rational(1.1, 1e-5, 1)
	refused(t, err, "c")
	_, _, err = Composite([]Surface{{1, .5}, {-1, .5}})
	refused(t, err, "surfaces[1].area")
	if _, _, err = Composite(nil); err == nil {
		t.Error("no surfaces")
	}
}

// WT-11: TR-55 example 2-1 (inputs verified, result derived, printed 2.81 in
// memory).
func TestCurveNumber(t *testing.T) {
	t.Run("WT-11", func(t *testing.T) {
		p, _ := tables.Default().CurveNumber("pasture-good")
		cn, _, err := Composite([]Surface{{.3, p.CN[1] / 100}, {.7, p.CN[2] / 100}})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "CN", cn*100, 70.1, 1e-9)
		near(t, "S, in", Retained(70)/inches, 4.286, .0005)
		near(t, "Q, in", must(CurveRunoff(6*inches, 70))/inches, 2.81, .005)
		near(t, "Q, mm", must(CurveRunoff(6*inches, 70))*1000, 71.3, .005)
		if q := must(CurveRunoff(.5*inches, 70)); q != 0 {
			t.Errorf("rain below 0.2 S runs off %g", q)
		}
	})
	for cn, wet := range map[float64]float64{60: 78, 70: 85, 80: 91, 90: 96, 65: 81.5, 100: 100} {
		near(t, "wet", must(WetCurve(cn)), wet, 1e-9)
	}
	_, err := WetCurve(59)
	refused(t, err, "curve number")
	_, err = CurveRunoff(.1, 39)
	refused(t, err, "curve number")
	// more rain and a higher number give more runoff, never more than the rain
	for cn := 40.0; cn <= 100; cn += 5 {
		last := -1.0
		for p := 0.0; p < .5; p += .01 {
			q := must(CurveRunoff(p, cn))
			if q < last || q > p+1e-12 || cn > 40 && q < must(CurveRunoff(p, cn-5)) {
				t.Fatalf("CN %g, rain %g: %g", cn, p, q)
			}
			last = q
		}
	}
	if q := must(CurveRunoff(.1, 100)); math.Abs(q-.1) > 1e-15 {
		t.Errorf("all runs off an impervious surface, not %g", q)
	}
}

// WT-12: Kirpich's time of the TxDOT manual (verified), "about 32 min".
func TestConcentration(t *testing.T) {
	t.Run("WT-12", func(t *testing.T) {
		got := must(Kirpich(4780*.3048, .0095)) / 60
		near(t, "tc", got, 31.9, .005)
		near(t, "SI constant", .0195*math.Pow(1456.9, .77)*math.Pow(.0095, -.385), got, .005)
	})
	near(t, "Kerby's SI constant", must(Kerby(100, .4, .05))/60, 1.44*math.Pow(100*.4, .467)*math.Pow(.05, -.235), .005)
	if d, floored, err := StormDuration(200, false); d != 600 || !floored || err != nil {
		t.Error(d, floored, err)
	}
	if d, floored, _ := StormDuration(400, true); d != 400 || floored {
		t.Error(d, floored)
	}
	_, err := Kirpich(3000, .01)
	refused(t, err, "length")
	_, err = Kerby(400, .4, .01)
	refused(t, err, "length")
	_, err = Kerby(100, .4, 0)
	refused(t, err, "slope")
	_, _, err = StormDuration(math.NaN(), false)
	refused(t, err, "time")
}

// WT-13 (derived; permissible velocity verified).
func TestSwale(t *testing.T) {
	t.Run("WT-13", func(t *testing.T) {
		s := Swale{Left: 3, Right: 3, N: .04, Grade: .02}
		f := must(s.Depth(19.7 * litre))
		near(t, "y", f.Depth, .114, .01)
		near(t, "V", f.Velocity, .506, .01)
		near(t, "V, ft/s", f.Velocity/.3048, 1.66, .01)
		near(t, "Froude", f.Froude, .68, .01)
		mix, _ := tables.Default().Lining("mixture")
		v, ok := Permissible(mix, .02, true)
		near(t, "limit, ft/s", v/.3048, 4, 1e-9)
		c := must(SwaleCheck(SwaleIn{Swale: s, Long: .04, Flow: 19.7 * litre, Room: .3, Lining: mix, Erodes: true}))
		wellFormed(t, c)
		if !ok || c.Verdict() != check.Within {
			t.Errorf("ratio %g", c.Ratio)
		}
	})
	mix, _ := tables.Default().Lining("mixture")
	in := SwaleIn{Swale: Swale{Bottom: .3, Left: 2, Right: 3, N: .035, Grade: .12}, Long: .1, Flow: .05, Room: .3, Lining: mix}
	if c := must(SwaleCheck(in)); c.Verdict() != check.NotChecked {
		t.Error("the mixture is not used above 10 %")
	}
	in.Lining, _ = tables.Default().Lining("bermuda")
	in.Flow = 2
	in.Room = 1
	c := must(SwaleCheck(in))
	wellFormed(t, c)
	near(t, "depth in long grass", valueOf(t, c, "yl"), must(Swale{Bottom: .3, Left: 2, Right: 3, N: .1, Grade: .12}.Depth(2)).Depth, 1e-12)
	near(t, "velocity in mown grass", valueOf(t, c, "V"), must(in.Swale.Depth(2)).Velocity, 1e-12)
	for _, w := range []string{"lined", "upkeep", "shoots"} {
		if !strings.Contains(c.Validity, w) {
			t.Errorf("validity does not say %q: %s", w, c.Validity)
		}
	}
	in.Flow, in.Room, in.Grade = .05, .05, .01
	c = must(SwaleCheck(in))
	wellFormed(t, c)
	// 0.10 m of freeboard (common practice, no source) over the deeper water
	near(t, "depth", c.Demand.Val, must(Swale{Bottom: .3, Left: 2, Right: 3, N: .1, Grade: .01}.Depth(.05)).Depth+.1, 1e-9)
	if strings.Contains(c.Validity, "shallower") {
		t.Errorf("depth of %g m: %s", c.Demand.Val, c.Validity)
	}
	in.Flow = .005
	if c := must(SwaleCheck(in)); !strings.Contains(c.Validity, "shallower") { // n is tabulated from 0.2 m on
		t.Errorf("depth of %g m: %s", c.Demand.Val, c.Validity)
	}
	in.Flow = .05
	in.Room = c.RemedyQ[0].Val
	near(t, "with the remedy", must(SwaleCheck(in)).Ratio, 1, 1e-9)
	in.Room, in.Grade = 1, .002
	c = must(SwaleCheck(in))
	wellFormed(t, c)
	near(t, "grade", c.Ratio, 2.5, 1e-9)
}

// The permissible velocities of the reference in m/s (verified), to the
// decimal printed.
func TestPermissible(t *testing.T) {
	for id, want := range map[string][6]float64{
		"bermuda": {2.4, 1.8, 2.1, 1.5, 1.8, 1.2}, "bluegrass": {2.1, 1.5, 1.8, 1.2, 1.5, .9}, "mixture": {1.5, 1.2, 1.2, .9, 0, 0}, "redtop": {1.1, .8, 0, 0, 0, 0},
	} {
		l, found := tables.Default().Lining(id)
		if !found {
			t.Fatal(id)
		}
		for i, grade := range []float64{.05, .1, .11} {
			for j, erodes := range []bool{false, true} {
				v, ok := Permissible(l, grade, erodes)
				if math.Abs(v-want[2*i+j]) > .051 || ok != (v > 0) {
					t.Errorf("%s at %g: %g, want %g", id, grade, v, want[2*i+j])
				}
			}
		}
	}
}

// Normal depth turns the flow back, and the area is that of the polygon.
func TestSwaleDepthTurnsBack(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range 300 {
		s := Swale{Bottom: r.Float64(), Left: .5 + 4*r.Float64(), Right: .5 + 4*r.Float64(), N: .02 + .08*r.Float64(), Grade: .002 + .1*r.Float64()}
		y := .01 + r.Float64()
		f := s.at(y)
		near(t, "depth", must(s.Depth(f.Flow)).Depth, y, 1e-9)
		near(t, "area", f.Area, (s.Bottom+f.Top)/2*y, 1e-12)
		if s.at(y*1.01).Flow <= f.Flow {
			t.Fatal("flow must grow with depth")
		}
	}
	_, err := Swale{N: .04, Grade: .01}.Depth(.01)
	refused(t, err, "bottom")
	_, err = Swale{Bottom: 1, N: .04, Grade: .01}.Depth(-1)
	refused(t, err, "flow")
	_, err = SwaleCheck(SwaleIn{Swale: Swale{Bottom: 1, N: .04, Grade: .01}, Long: .03, Flow: .01, Room: 1})
	refused(t, err, "long")
	_, err = SwaleCheck(SwaleIn{Swale: Swale{Bottom: 1, N: .04, Grade: .01}, Long: .1, Flow: .01, Room: math.NaN()})
	refused(t, err, "room")
}
