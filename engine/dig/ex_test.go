package dig

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/check"
	"hillset/engine/quantity"
)

// Reference case EX-02 (derived, tolerance 0.001 m) and the table of the
// greatest depth over the toe (derived, printed to 0.001 m).
func TestEX02Crest(t *testing.T) {
	for _, c := range []struct {
		id            string
		d0, run, n, h float64
	}{
		{"EX-02a", 3, 3, 1, 4.5}, {"EX-02b", 3.2, 3, 1.5, 6.4}, {"EX-02c", 2.6, 2, 1, 5.2},
	} {
		h, x, err := Crest(c.d0, 1/c.run, c.n)
		if err != nil || math.Abs(h-c.h) > 0.001 || math.Abs(x-c.n*c.h) > 0.001 {
			t.Errorf("%s: h %g x %g (%v), want %g, %g", c.id, h, x, err, c.h, c.n*c.h)
		}
	}
	h, _, _ := Crest(3.2, 1.0/3, 1.5)
	if math.Abs(h/foot-20.997) > 0.001 {
		t.Errorf("EX-02b: %g ft, want 20.997", h/foot)
	}
	req, err := Required(BatterInput{Pieces: []Piece{{Class: C, Top: h, N: 1.5}}})
	if err != nil || !req.Engineer {
		t.Errorf("EX-02b: engineer %v (%v), want true", req.Engineer, err)
	}
	if _, _, err := Crest(2.6, 1/1.5, 1.5); !errors.Is(err, ErrNoDaylight) {
		t.Errorf("EX-02d: %v, want no daylight", err)
	}
	for _, c := range []struct{ run, n75, n1, n15 float64 }{
		{2, 3.810, 3.048, 1.524}, {2.5, 4.267, 3.658, 2.438}, {3, 4.572, 4.064, 3.048}, {4, 4.953, 4.572, 3.810}, {5, 5.182, 4.877, 4.267},
	} {
		for n, want := range map[float64]float64{0.75: c.n75, 1: c.n1, 1.5: c.n15} {
			d0, err := DeepestToe(1/c.run, n)
			if err != nil || math.Abs(d0-want) > 0.0006 {
				t.Errorf("1V:%gH, %g:1: %g (%v), want %g", c.run, n, d0, err, want)
			}
		}
	}
}

// A second route for the crest: halving the ray up the face until its gap to
// the ground closes.
func TestCrestByBisection(t *testing.T) {
	for _, rise := range []float64{-0.4, 0, 0.1, 0.3, 0.6} {
		for _, n := range []float64{0, 0.5, 1, 1.5} {
			h, x, err := Crest(2, rise, n)
			if err != nil {
				t.Fatal(err)
			}
			lo, hi := 0.0, 100.0
			for range 200 {
				mid := (lo + hi) / 2
				if 2+rise*n*mid > mid {
					lo = mid
				} else {
					hi = mid
				}
			}
			if math.Abs(h-lo) > 1e-9 || math.Abs(x-n*lo) > 1e-9 {
				t.Errorf("rise %g, n %g: h %g, by halving %g", rise, n, h, lo)
			}
		}
	}
}

// Reference case EX-03 (derived on a rule from memory, exact).
func TestEX03Layers(t *testing.T) {
	for _, c := range []struct {
		id     string
		layers []Layer
		run    float64
	}{
		{"EX-03a", []Layer{{C, 2}, {B, 2.5}}, 5.5},
		{"EX-03b", []Layer{{B, 2}, {C, 2.5}}, 6.75},
		{"B over A", []Layer{{B, 2}, {A, 2}}, 3.5},
		{"A over B", []Layer{{A, 2}, {B, 2}}, 4},
		{"C over A over B", []Layer{{C, 1}, {A, 1}, {B, 1}}, 3.5},
		{"B over rock", []Layer{{B, 2}, {Rock, 2}}, 2},
		{"rock over C", []Layer{{Rock, 2}, {C, 2}}, 6},
	} {
		run, n, engineer, err := LayeredRun(c.layers)
		if err != nil || math.Abs(run-c.run) > 1e-12 || engineer {
			t.Errorf("%s: run %g %v (%v), want %g", c.id, run, n, err, c.run)
		}
	}
	if _, _, engineer, err := LayeredRun([]Layer{{B, 4}, {B, 2.2}}); err != nil || !engineer {
		t.Errorf("6.2 m in all: engineer %v (%v)", engineer, err)
	}
	if _, _, _, err := LayeredRun([]Layer{{"D", 4}}); !errors.Is(err, quantity.ErrRange) {
		t.Errorf("class D: %v", err)
	}
	if _, _, _, err := LayeredRun(nil); err == nil {
		t.Error("no layers: no error")
	}
}

// Reference case EX-04 (App. A, memory, exact).
func TestEX04Class(t *testing.T) {
	clay := func(tons float64) Field { return Field{Kind: Cohesive, Qu: tons * tsf} }
	with := func(f Field, set func(*Field)) Field { set(&f); return f }
	for _, c := range []struct {
		id   string
		f    Field
		want string
	}{
		{"EX-04 intact clay", clay(1.8), A},
		{"EX-04 fissured", with(clay(1.8), func(f *Field) { f.Fissured = true }), B},
		{"EX-04 seeping", with(clay(1.8), func(f *Field) { f.Seeping = true }), C},
		{"EX-04 bedding 3.5:1", with(clay(1), func(f *Field) { f.Dip = 3.5 }), C},
		{"EX-04 bedding 5:1", with(clay(1), func(f *Field) { f.Dip = 5 }), B},
		{"bedding 4:1", with(clay(1), func(f *Field) { f.Dip = 4 }), C},
		{"A at its bound", clay(1.5), A},
		{"just below A", clay(1.49), B},
		{"C at its bound", clay(0.5), C},
		{"vibrated", with(clay(2), func(f *Field) { f.Vibrated = true }), B},
		{"dug before", with(clay(2), func(f *Field) { f.Disturbed = true }), B},
		{"soft and dug before", with(clay(0.3), func(f *Field) { f.Disturbed = true }), C},
		{"hardpan", Field{Kind: Cemented, Qu: 300}, A},
		{"silt", Field{Kind: Silt}, B},
		{"silt with water", Field{Kind: Silt, Seeping: true}, C},
		{"angular gravel", Field{Kind: AngularGravel}, B},
		{"sand", Field{Kind: Granular}, C},
		{"stable rock", Field{Kind: StableRock}, Rock},
		{"stable rock with water", Field{Kind: StableRock, Seeping: true}, Rock},
		{"stable rock, fissured, with water", Field{Kind: StableRock, Fissured: true, Seeping: true}, C},
		{"stable rock dipping out of the hill", Field{Kind: StableRock, Dip: 2}, C},
		{"unstable rock", Field{Kind: UnstableRock}, B},
		{"unstable rock under water", Field{Kind: UnstableRock, Seeping: true}, C},
	} {
		got, why, err := Classify(c.f)
		if err != nil || got != c.want || len(why) == 0 {
			t.Errorf("%s: %q %v (%v), want %q", c.id, got, why, err, c.want)
		}
	}
	if math.Abs(strongFrom-144) > 0.5 || math.Abs(weakTo-48) > 0.2 {
		t.Errorf("bounds %g and %g kPa, printed 144 and 48", strongFrom, weakTo)
	}
	for _, f := range []Field{{Kind: "mud"}, {Kind: Cohesive, Qu: -1}, {Kind: Cohesive, Qu: math.NaN()}, {Kind: Silt, Dip: math.Inf(1)}, {Kind: Silt, Dip: -1}} {
		if _, _, err := Classify(f); !errors.Is(err, quantity.ErrRange) {
			t.Errorf("%+v: error %v", f, err)
		}
	}
}

// Reference case EX-05 (trench from memory, ladders second-hand, exact).
func TestEX05Gap(t *testing.T) {
	for _, c := range []struct {
		id                   string
		depth, width, length float64
		trench, egress       bool
		ladders              int
	}{
		{"EX-05", 9, 3, 40, true, true, 1},
		{"EX-05 long", 9, 3, 110, true, true, 3},
		{"exactly two", 9, 3, 100, true, true, 2},
		{"wide", 9, 15.1, 40, false, false, 0},
		{"15 ft wide", 9, 15, 40, true, true, 1},
		{"shallow", 3.9, 3, 40, true, false, 0},
		{"4 ft deep", 4, 3, 40, true, true, 1},
		{"no cut", 0, 3, 40, false, false, 0},
	} {
		g, err := JudgeGap(GapInput{Depth: c.depth * foot, Width: c.width * foot, Length: c.length * foot})
		if err != nil || g.Trench != c.trench || g.Egress != c.egress || g.Ladders != c.ladders || len(g.At) != c.ladders {
			t.Errorf("%s: %+v (%v)", c.id, g, err)
		}
	}
	g, _ := JudgeGap(GapInput{Depth: 9 * foot, Width: 3 * foot, Length: 40 * foot})
	if math.Abs(g.At[0]-20*foot) > 1e-12 {
		t.Errorf("EX-05: ladder at %g ft, want 20", g.At[0]/foot)
	}
}

// The ladders as placed leave nobody farther off than 25 ft, and one fewer
// would, wherever they stood.
func TestLaddersReach(t *testing.T) {
	for l := 1.0; l < 400; l += 3.7 {
		g, err := JudgeGap(GapInput{Depth: 3, Width: 1, Length: l})
		if err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for s := 0.0; s <= l; s += 0.05 {
			near := math.Inf(1)
			for _, at := range g.At {
				near = math.Min(near, math.Abs(s-at))
			}
			worst = math.Max(worst, near)
		}
		if worst > egressTravel+1e-6 {
			t.Errorf("%g m: %d ladders leave %g m", l, g.Ladders, worst)
		}
		if k := float64(g.Ladders - 1); k > 0 && l/(2*k) <= egressTravel {
			t.Errorf("%g m: %d ladders, %g would do", l, g.Ladders, k)
		}
	}
}

func TestTrenchCheck(t *testing.T) {
	in := GapInput{Depth: 9 * foot, Width: 3 * foot, Length: 110 * foot}
	if c := TrenchCheck(in); c.Verdict() != check.NotChecked || !strings.Contains(c.Missing, "needs 3") {
		t.Errorf("ladders not stated: %v %q", c.Verdict(), c.Missing)
	}
	for k, want := range []check.Verdict{check.Beyond, check.Beyond, check.Beyond, check.Within} {
		in.Ladders, in.LaddersStated = k, true
		if c := TrenchCheck(in); c.Verdict() != want || len(c.Working) != 2 {
			t.Errorf("%d ladders: %v", k, c.Verdict())
		}
	}
	in.Width = 10
	if c := TrenchCheck(in); c.Verdict() != check.Within || c.Ratio != 0 {
		t.Errorf("wide space: %v %v", c.Verdict(), c.Ratio)
	}
	for _, bad := range []GapInput{{Depth: math.NaN()}, {Width: -1}, {Length: math.Inf(1)}, {Ladders: -1}} {
		if c := TrenchCheck(bad); c.Verdict() != check.NotChecked || c.Missing == "" {
			t.Errorf("%+v: %v", bad, c.Verdict())
		}
	}
}

// Reference case EX-06 (table verified, distance derived, tolerance 0.001 ft).
func TestEX06PowerLine(t *testing.T) {
	for _, c := range []struct {
		id         string
		side, tip  float64 // ft
		dist       float64
		want       check.Verdict
		actionWord bool
	}{
		{"EX-06 near", 8, 30, 9.434, check.Beyond, true},
		{"EX-06 farther", 9, 29, 10.817, check.Within, true},
		{"out of reach", 30, 29, 30.594, check.Within, false},
		{"above the wires", 8, 40, 8, check.Beyond, true},
	} {
		for _, crane := range []bool{true, false} {
			got := PowerLineCheck(LineInput{KV: 12.47, LineLevel: 35 * foot, TipLevel: c.tip * foot, Side: c.side * foot, Crane: crane})
			if got.Verdict() != c.want || math.Abs(got.Capacity.Val/foot-c.dist) > 0.001 || math.Abs(got.Demand.Val-10*foot) > 1e-9 {
				t.Errorf("%s: %v at %g ft", c.id, got.Verdict(), got.Capacity.Val/foot)
			}
			if strings.Contains(got.Working[1].Text, length(actWithin)) != c.actionWord {
				t.Errorf("%s: action distance: %q", c.id, got.Working[1].Text)
			}
		}
	}
	// Upper bounds are included (R21, verified); R22 from memory.
	for kv, ft := range map[float64]float64{0: 10, 50: 10, 50.1: 15, 200: 15, 350: 20, 500: 25, 750: 35, 1000: 45} {
		if r, err := Clearance(kv, true); err != nil || math.Abs(r-ft*foot) > 1e-9 {
			t.Errorf("%g kV: %g ft (%v), want %g", kv, r/foot, err, ft)
		}
	}
	if r, _ := Clearance(110, false); math.Abs(r-(10*foot+60*0.4*0.0254)) > 1e-12 {
		t.Errorf("110 kV, excavator: %g m", r)
	}
	for _, in := range []LineInput{{KV: 1001}, {KV: math.NaN()}, {KV: -1}, {Side: -1}, {TipLevel: math.Inf(1)}, {LineLevel: math.NaN()}} {
		if c := PowerLineCheck(in); c.Verdict() != check.NotChecked || c.Missing == "" {
			t.Errorf("%+v: %v", in, c.Verdict())
		}
	}
}

// Rule R12, second-hand; the farther setback is advice (verified).
func TestSpoil(t *testing.T) {
	for _, c := range []struct {
		in   SpoilInput
		want check.Verdict
		far  float64
	}{
		{SpoilInput{Setback: 2 * foot, Height: 1, CutHeight: 4, N: 1}, check.Within, 5 * foot},
		{SpoilInput{Setback: 0.6, Height: 1, CutHeight: 4, N: 0.75}, check.Beyond, 2},
		{SpoilInput{Setback: 0, Height: 1}, check.Beyond, 0},
		{SpoilInput{Setback: 0, Height: 1, Restrained: true}, check.Within, 0},
		{SpoilInput{Setback: 0, Height: 0}, check.Within, 0},
		{SpoilInput{Setback: math.NaN()}, check.NotChecked, 0},
		{SpoilInput{Height: -1}, check.NotChecked, 0},
	} {
		got := SpoilCheck(c.in)
		if got.Verdict() != c.want {
			t.Errorf("%+v: %v", c.in, got.Verdict())
		}
		if c.want != check.NotChecked && got.Working[1].Result.Val != c.far {
			t.Errorf("%+v: advised %g, want %g", c.in, got.Working[1].Result.Val, c.far)
		}
		if c.want == check.Beyond && !slices.Equal(got.RemedyQ, []quantity.Q{got.Demand}) {
			t.Errorf("%+v: remedy %v", c.in, got.RemedyQ)
		}
	}
}
