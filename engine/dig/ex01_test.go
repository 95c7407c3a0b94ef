package dig

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hillset/engine/check"
)

// faceOf is a face of one class: vertical to v feet, then n:1 to depth feet.
func faceOf(class string, depth, n, v float64) []Piece {
	if v == 0 {
		return []Piece{{Stratum: "ground", Class: class, Top: depth * foot, N: n}}
	}
	return []Piece{
		{Stratum: "ground", Class: class, Top: v * foot},
		{Stratum: "ground", Class: class, Foot: v * foot, Top: depth * foot, N: n},
	}
}

// Reference case EX-01: rows of the slope table second-hand (29 CFR 1926
// Subpart P App. B), vertical lower part from memory; exact logic.
func TestEX01SlopeTable(t *testing.T) {
	const engineer = -1
	for _, c := range []struct {
		class                 string
		depth, n, hours, v, s float64 // ft, H:V, h, ft, shield ft above the toe
		want                  check.Verdict
		need                  float64 // H:V asked of the top piece; engineer
	}{
		{A, 18, 0.75, 0, 0, 0, check.Within, 0.75},
		{A, 12, 0.50, 24, 0, 0, check.Within, 0.50},
		{A, 12.1, 0.50, 20, 0, 0, check.Beyond, 0.75},
		{B, 18, 0.75, 12, 0, 0, check.Beyond, 1},
		{B, 20, 1, 0, 0, 0, check.Within, 1},
		{B, 20.5, 2, 0, 0, 0, check.NotChecked, engineer},
		{C, 6, 1.4, 0, 0, 0, check.Beyond, 1.5},
		{A, 8, 0.75, 0, 3.5, 0, check.Within, 0.75},
		{B, 7, 1, 0, 2, 0, check.Beyond, 1},
		{B, 15, 1, 0, 6, 7.5, check.Within, 1},
		// The same rules at their edges (R1, R2, R4, R5, R6).
		{C, 5, 0, 0, 0, 0, check.Beyond, 1.5},
		{C, 4.99, 0, 0, 0, 0, check.Within, 0},
		{None, 6, 1.5, 0, 0, 0, check.Within, 1.5},
		{None, 6, 1.49, 0, 0, 0, check.Beyond, 1.5},
		{Rock, 19, 0, 0, 0, 0, check.Within, 0},
		{A, 12, 0.5, 24.5, 0, 0, check.Beyond, 0.75},
		{A, 12, 0.5, 0, 0, 0, check.Beyond, 0.75},
		{A, 8, 0.75, 0, 3.6, 0, check.Beyond, 0.75},
		{A, 8.1, 0.75, 0, 3.5, 0, check.Beyond, 1},
		{A, 12, 1, 0, 3.5, 0, check.Within, 1},
		{A, 12.5, 2, 0, 3.5, 0, check.Beyond, 0.75},
		{B, 15, 1, 0, 6, 7.4, check.Beyond, 1},
		{B, 15, 0.9, 0, 6, 7.5, check.Beyond, 1},
		{C, 21, 3, 0, 0, 0, check.NotChecked, engineer},
	} {
		name := fmt.Sprintf("EX-01 %s %g ft %g:1 %gh v%g s%g", c.class, c.depth, c.n, c.hours, c.v, c.s)
		t.Run(name, func(t *testing.T) {
			in := BatterInput{Pieces: faceOf(c.class, c.depth, c.n, c.v), HoursOpen: c.hours, ShieldTop: c.s * foot}
			got := BatterCheck(in)
			if got.Verdict() != c.want {
				t.Errorf("verdict %v (ratio %g, %s), want %v", got.Verdict(), got.Ratio, got.Missing, c.want)
			}
			req, err := Required(in)
			if err != nil {
				t.Fatal(err)
			}
			if c.need == engineer {
				if !req.Engineer || !strings.Contains(got.Missing, "engineer") {
					t.Errorf("engineer %v, missing %q", req.Engineer, got.Missing)
				}
				return
			}
			if top := req.N[len(req.N)-1]; req.Engineer || top != c.need {
				t.Errorf("asks %g:1 (engineer %v), want %g:1", top, req.Engineer, c.need)
			}
		})
	}
}

func TestBatterCheckTellsItsNumbers(t *testing.T) {
	got := BatterCheck(BatterInput{Part: "back face", Pieces: faceOf(C, 6, 1.2, 0)})
	if got.Demand.Val != 1.5 || got.Capacity.Val != 1.2 || math.Abs(got.Ratio-1.25) > 1e-12 {
		t.Errorf("demand %v capacity %v ratio %v, want 1.5, 1.2, 1.25", got.Demand.Val, got.Capacity.Val, got.Ratio)
	}
	if len(got.RemedyQ) != 1 || got.RemedyQ[0].Val != 1.5 || !strings.Contains(got.Remedy, "{0}") {
		t.Errorf("remedy %q %v", got.Remedy, got.RemedyQ)
	}
	if got.Part != "back face" || !math.IsNaN(got.RatioLRFD) || len(got.Working) != 2 {
		t.Errorf("part %q, LRFD %v, %d lines", got.Part, got.RatioLRFD, len(got.Working))
	}
	if !strings.Contains(got.Assumptions[0], "check the rule in force") || !strings.Contains(got.Assumptions[0], "competent person decides") {
		t.Errorf("caution is missing: %q", got.Assumptions[0])
	}
	if !strings.Contains(got.Source, "second-hand") {
		t.Errorf("source without its mark: %q", got.Source)
	}
	run, need := got.Working[1].Terms[4], got.Working[1].Terms[5]
	if math.Abs(run.Val-1.2*6*foot) > 1e-12 || math.Abs(need.Val-1.5*6*foot) > 1e-12 {
		t.Errorf("runs %v, %v", run, need)
	}
	if v := BatterCheck(BatterInput{Pieces: faceOf(B, 7, 1, 2)}); !math.IsInf(v.Ratio, 1) {
		t.Errorf("vertical piece in class B has ratio %v, want infinite", v.Ratio)
	}
}

// Demotion by what the face shows, and the extra of R10.
func TestFaceSigns(t *testing.T) {
	for _, c := range []struct {
		name string
		in   BatterInput
		need float64
	}{
		{"A fissured counts as B", BatterInput{Pieces: faceOf(A, 10, 1, 0), Fissured: true}, 1},
		{"A seeping counts as C", BatterInput{Pieces: faceOf(A, 10, 1, 0), Seepage: true}, 1.5},
		{"B seeping counts as C", BatterInput{Pieces: faceOf(B, 10, 1, 0), Seepage: true}, 1.5},
		{"rock seeping stays rock", BatterInput{Pieces: faceOf(Rock, 10, 1, 0), Seepage: true}, 0},
		{"rock fissured is unstable", BatterInput{Pieces: faceOf(Rock, 10, 1, 0), Fissured: true}, 1},
		{"rock fissured and wet", BatterInput{Pieces: faceOf(Rock, 10, 1, 0), Fissured: true, Seepage: true}, 1.5},
		{"fissured A is not short-term", BatterInput{Pieces: faceOf(A, 10, 1, 0), Fissured: true, HoursOpen: 5}, 1},
		{"distress in B", BatterInput{Pieces: faceOf(B, 10, 1, 0), Distress: true}, 1.5},
		{"distress ends the short term", BatterInput{Pieces: faceOf(A, 10, 1, 0), Distress: true, HoursOpen: 5}, 1.25},
		{"distress in a shallow cut", BatterInput{Pieces: faceOf(C, 4, 1, 0), Distress: true}, 2},
		{"seepage in a shallow cut", BatterInput{Pieces: faceOf(B, 4, 1, 0), Seepage: true}, 1.5},
		{"higher elsewhere", BatterInput{Pieces: faceOf(A, 4, 1, 0), Height: 10 * foot}, 0.75},
	} {
		t.Run(c.name, func(t *testing.T) {
			req, err := Required(c.in)
			if err != nil || req.N[0] != c.need {
				t.Errorf("asks %v (%v), want %g", req.N, err, c.need)
			}
			if len(req.Reasons) == 0 && c.name != "rock seeping stays rock" && c.name != "higher elsewhere" {
				t.Error("no reason given")
			}
		})
	}
}

// Rule R7 (bench heights second-hand, rest memory).
func TestBenches(t *testing.T) {
	bench := func(class string, cohesive bool, rise, step float64, k int) BatterInput {
		var in BatterInput
		for i := range k {
			p := Piece{Stratum: "ground", Class: class, Foot: float64(i) * rise * foot, Top: float64(i+1) * rise * foot, Step: step * foot, Cohesive: cohesive}
			in.Pieces = append(in.Pieces, p)
		}
		return in
	}
	for _, c := range []struct {
		name string
		in   BatterInput
		want check.Verdict
	}{
		// Two rises of 4 ft, one step: the crest lies at run/h = step/8.
		{"A, 6 ft step: crest at 0.75", bench(A, true, 4, 6, 2), check.Within},
		{"A, 5.9 ft step: crest too near", bench(A, true, 4, 5.9, 2), check.Beyond},
		{"A, first rise of 5 ft", bench(A, true, 5, 10, 2), check.Beyond},
		{"B clay, 8 ft step", bench(B, true, 4, 8, 2), check.Within},
		{"B clay, 7.9 ft step", bench(B, true, 4, 7.9, 2), check.Beyond},
		{"B silt may not be benched", bench(B, false, 4, 20, 2), check.Beyond},
		{"C may not be benched", bench(C, true, 4, 20, 2), check.Beyond},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := BatterCheck(c.in); got.Verdict() != c.want {
				t.Errorf("%v (ratio %g), want %v", got.Verdict(), got.Ratio, c.want)
			}
		})
	}
	mixed := bench(A, true, 4, 6, 3)
	mixed.Pieces[2].Top = 13 * foot // last rise 5 ft: allowed in A above the first
	mixed.Pieces[1].Step = 6 * foot
	if got := BatterCheck(mixed); got.Verdict() != check.Within {
		t.Errorf("other rises of 5 ft in class A: ratio %g", got.Ratio)
	}
	sloped := bench(C, false, 4, 3, 3)
	for i := range sloped.Pieces {
		sloped.Pieces[i].N = 1.5
	}
	if got := BatterCheck(sloped); got.Verdict() != check.Within {
		t.Errorf("rises at the slope of class C with steps: ratio %g", got.Ratio)
	}
}
