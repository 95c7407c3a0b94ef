package climate

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"hillset/engine/check"
	q "hillset/engine/quantity"
)

// digits finds numbers with a decimal point, which in a text would carry a unit
// past the reader's choice.
var digits = regexp.MustCompile(`\d+\.\d+`)

// wellFormed asserts what every check must have.
func wellFormed(t *testing.T, c check.Check) check.Check {
	t.Helper()
	if c.ID == "" || c.Title == "" || c.Part == "" || c.Method == "" || c.Source == "" || c.Validity == "" || len(c.Assumptions) == 0 || len(c.Working) == 0 {
		t.Errorf("incomplete check: %+v", c)
	}
	if c.Demand.Kind != c.Capacity.Kind || c.Demand.Kind == q.None {
		t.Errorf("%s: demand and capacity differ in kind", c.ID)
	}
	if math.IsNaN(c.Ratio) || (c.Worst() > 1) != (c.Remedy != "") || strings.Count(c.Remedy, "{") != len(c.RemedyQ) {
		t.Errorf("%s: ratio %v with remedy %q and %d values", c.ID, c.Worst(), c.Remedy, len(c.RemedyQ))
	}
	for _, s := range append([]string{c.Remedy, c.Validity}, c.Assumptions...) {
		if digits.MatchString(s) || strings.Contains(strings.ToLower(s), "safe") {
			t.Errorf("%s: text %q", c.ID, s)
		}
	}
	for _, l := range c.Working {
		if l.Text == "" || l.Formula == "" || l.Source == "" || math.IsNaN(l.Result.Val) {
			t.Errorf("%s: line %+v", c.ID, l)
		}
	}
	return c
}

func TestBedCheck(t *testing.T) {
	f := must(FindFrost(wt18))
	in := BedIn{Reach: f.Depth, Lines: f.Lines(wt18), Frost: &f, Foot: 1.2, Fines: 0.5, Soil: wt18.Soil}
	c := wellFormed(t, must(BedCheck(in)))
	near(t, "frost against founding", c.Ratio, 1.774/1.2, 0.01)
	// both remedies put back in
	in.Foot = c.RemedyQ[0].Val
	near(t, "as deep as said", wellFormed(t, must(BedCheck(in))).Ratio, 1, 1e-9)
	near(t, "insulated as said", must(Insulated(f, c.RemedyQ[1].Val)), 1.2, 1e-9)
	in.Fines = MostFines / 2
	near(t, "soil that does not heave", wellFormed(t, must(BedCheck(in))).Ratio, 0.5, 1e-9)
	in.Fines, in.Foot, in.Beam = 0.5, -0.2, true
	if c := wellFormed(t, must(BedCheck(in))); !math.IsInf(c.Ratio, 1) || len(c.RemedyQ) != 1 {
		t.Errorf("bare founding: ratio %v, remedy %q", c.Ratio, c.Remedy)
	}
	in.Frost, in.Lines = nil, nil
	wellFormed(t, must(BedCheck(in)))
	_, err := BedCheck(BedIn{Reach: math.NaN()})
	refused(t, err, "reach")
	_, err = BedCheck(BedIn{Fines: 2})
	refused(t, err, "fines")
	near(t, "fill", wellFormed(t, must(FillCheck(0.12))).Ratio, 2, 1e-9)
	near(t, "fill within", wellFormed(t, must(FillCheck(0.03))).Ratio, 0.5, 1e-9)
	_, err = FillCheck(-1)
	refused(t, err, "fines")
}

// WT-21: the bare steel is wet, and the resistances asked for are just enough.
func TestFaceChecks(t *testing.T) {
	room, f := Air{15, 0.75}, Face{"walls", 4, 0, RsiWall}
	dew := wellFormed(t, must(DewCheck(f, room)))
	mould := wellFormed(t, must(MouldCheck(f, room)))
	near(t, "dew", dew.Ratio, 1276.0/813, 0.01)
	near(t, "mould", mould.Ratio, 1276.0/813/0.8, 0.01)
	near(t, "R for dew", dew.RemedyQ[0].Val, 0.195, 0.01)
	near(t, "R for mould", mould.RemedyQ[0].Val, 1.30, 0.01)
	f.R = dew.RemedyQ[0].Val
	near(t, "just dry", must(DewCheck(f, room)).Ratio, 1, 1e-9)
	f.R = mould.RemedyQ[0].Val
	near(t, "just below mould", must(MouldCheck(f, room)).Ratio, 1, 1e-9)
	f.R++
	wellFormed(t, must(MouldCheck(f, room)))
	// air above 80 % cannot be kept from mould by insulation
	if c := wellFormed(t, must(MouldCheck(f, Air{15, 0.9}))); c.Ratio <= 1 || len(c.RemedyQ) != 0 {
		t.Errorf("humid room: %+v", c.Remedy)
	}
	foam := Lining{R: 0.05 / 0.026, Air: 3, Rsi: RsiWall}
	c := wellFormed(t, must(LiningCheck(f, foam, room)))
	near(t, "behind the foam", c.Ratio, 1276.0/813, 0.01)
	if c := wellFormed(t, must(LiningCheck(f, foam, Air{15, 0.4}))); c.Ratio > 1 {
		t.Errorf("dry room: %v", c.Ratio)
	}
	_, err := DewCheck(Face{"walls", math.NaN(), 0, RsiWall}, room)
	refused(t, err, "outside")
	_, err = MouldCheck(f, Air{15, 3})
	refused(t, err, "humidity")
	_, err = LiningCheck(f, Lining{}, room)
	refused(t, err, "r")
}

func TestAirChecks(t *testing.T) {
	p := People{Volume: 33.1, N: 4, CO2: 20 * litre / 3600, Start: CO2Outside}
	for _, v := range []Vent{Openings{0.005, 0.005, 2.4, Sharp}, Pipes{0.05, 3, 1.5, 2.5, 3}} {
		c := wellFormed(t, must(VentCheck(VentIn{v, "winter", 10, 0, p})))
		near(t, "need", c.Demand.Val, 4*2.36*litre, 0.01)
		near(t, "have", c.Capacity.Val, must(v.Flow(10, 0)), 1e-12)
		if c.Ratio <= 1 {
			t.Errorf("%T is said to do: %v", v, c.Ratio)
		}
		if still := wellFormed(t, must(VentCheck(VentIn{v, "winter", 10, 10, p}))); !math.IsInf(still.Ratio, 1) {
			t.Errorf("%T moves air without a difference of temperature: %v", v, still.Ratio)
		}
	}
	narrow := must(VentCheck(VentIn{Openings{0.005, 0.005, 2.4, Sharp}, "winter", 10, 0, p}))
	a := narrow.RemedyQ[0].Val
	near(t, "with the area asked for", must(VentCheck(VentIn{Openings{a, a, 2.4, Sharp}, "winter", 10, 0, p})).Ratio, 1, 1e-9)
	wide := wellFormed(t, must(VentCheck(VentIn{Openings{0.05, 0.05, 2.4, Sharp}, "summer", 10, 25, p})))
	if wide.Ratio > 1 {
		t.Errorf("wide openings in summer: %v", wide.Ratio)
	}
	closed := wellFormed(t, must(ClosedCheck(p, 6, 23*litre/3600)))
	near(t, "hours to 1 %", closed.Capacity.Val, 3.97, 0.01) // WT-23 b
	near(t, "oxygen at 3 %", closed.Working[4].Result.Val, 0.175, 0.01)
	wellFormed(t, must(ClosedCheck(p, 2, 23*litre/3600)))
	d := Damp{Volume: 33.1, Room: Air{12, 0.70}, Give: must(Sweat(4, 45))}
	damp := wellFormed(t, must(DampCheck(d, Air{0, 0.80}, 0.70, 10*litre)))
	near(t, "WT-24", damp.Ratio, 2.08, 0.01)
	wellFormed(t, must(DampCheck(d, Air{0, 0.80}, 0.85, 15*litre)))
	_, err := DampCheck(d, Air{20, 0.9}, 0.7, 10*litre)
	refused(t, err, "humidity outside")
	_, err = VentCheck(VentIn{Openings{}, "winter", 10, 0, p})
	refused(t, err, "low")
	p.N = 0
	_, err = VentCheck(VentIn{Openings{0.05, 0.05, 2.4, Sharp}, "winter", 10, 0, p})
	refused(t, err, "people")
	_, err = ClosedCheck(p, 2, 1e-5)
	refused(t, err, "people")
}

// Two ways balance where their losses say; a source of heat warms by its watts
// over the loss.
func TestUnheated(t *testing.T) {
	ways := []Way{{20, 8}, {10, -4}}
	within(t, "between", must(Unheated(ways, 0)), 4, 1e-12)
	within(t, "with people", must(Unheated(ways, 90)), 7, 1e-12)
	_, err := Unheated(nil, 0)
	refused(t, err, "losses")
	_, err = Unheated([]Way{{-1, 0}}, 0)
	refused(t, err, "ways[0].h")
	_, err = Unheated(ways, math.NaN())
	refused(t, err, "heat")
}
