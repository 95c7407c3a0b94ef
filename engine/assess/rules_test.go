package assess

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	"hillset/engine/quantity"
)

// A rule that is met to the millimetre governs nothing; one that is not met
// counts as any check. By hand: 0.95 of a strength before a rule at 1.00.
func TestRulesMetDoNotGovern(t *testing.T) {
	nan := math.NaN()
	c := func(id string, ratio float64, rule bool) check.Check {
		return check.Check{ID: id, Ratio: ratio, RatioLRFD: nan, Rule: rule}
	}
	for _, k := range []struct {
		in   []check.Check
		want []string
	}{
		{[]check.Check{c("met", 1, true), check.Unchecked("open", "", "", "why"), c("wall", 0.95, false), c("roof", 0.1, false), c("closer", 0.5, true)}, []string{"wall", "roof", "met", "closer", "open"}},
		{[]check.Check{c("wall", 1.1, false), c("unmet", 1.2, true)}, []string{"unmet", "wall"}},
		{[]check.Check{c("met", 0.8, true)}, []string{"met"}},
	} {
		sortChecks(k.in)
		var got []string
		for _, c := range k.in {
			got = append(got, c.ID)
		}
		if !slices.Equal(got, k.want) {
			t.Errorf("order %v, want %v", got, k.want)
		}
	}
	for _, order := range [][]string{{"drain-layout", "roof-sheet"}, {"roof-sheet", "drain-layout"}} {
		s := Score{}
		ratios := map[string]float64{"drain-layout": 1, "roof-sheet": 0.4}
		for _, id := range order {
			s.count(id, "", ratios[id])
		}
		if s.Governs != "roof-sheet" || s.Worst != 0.4 || s.Beyond != 0 {
			t.Errorf("%v: score %+v", order, s)
		}
		ratios["drain-layout"] = 1.5
		for _, id := range order {
			s.count(id, "", ratios[id])
		}
		if s.Governs != "drain-layout" || s.Worst != 1.5 || s.Beyond != 1 {
			t.Errorf("%v, rule not met: score %+v", order, s)
		}
	}
}

// Every rule is a check that the store put right comes to, is marked as one and
// keeps its verdict and its numbers.
func TestRulesAreListed(t *testing.T) {
	r := run(t, computedDemo(t, "put-right"))
	for id := range ruleIDs {
		i := slices.IndexFunc(r.Checks, func(c check.Check) bool { return c.ID == id })
		if i < 0 || !r.Checks[i].Rule || !r.Checks[i].Met() || math.IsNaN(r.Checks[i].Demand.Val) {
			t.Errorf("%s: no rule that is met among the checks", id)
		}
	}
	if g := r.Governing(); g.Rule {
		t.Errorf("the rule %s governs", g.ID)
	}
}

// A value that a formula refuses is told without its path, with its values in
// the reader's hands: 0.5 rad against 0.4 rad.
func TestFaultWords(t *testing.T) {
	beta := limit.In("layers[0]", &limit.Error{Field: "beta", Value: 0.5, Lo: -0.4, Hi: 0.4, Kind: quantity.Angle, Why: "the surface is steeper than the friction angle"})
	share := limit.In("soil", &limit.Error{Field: "share finer", Value: 0.1, Lo: 0.15, Hi: 1, Why: "the grading ends above it"})
	for _, c := range []struct {
		err  error
		want string
		q    []float64
	}{
		{fmt.Errorf("wall: %w", beta), "the surface is steeper than the friction angle: {0} (allowed: {1} to {2})", []float64{0.5, -0.4, 0.4}},
		{share, "the grading ends above it", nil},
		{limit.Positive("kx", 0, quantity.Permeability), "the kx must be above zero: {0} (allowed: from {1} up)", []float64{0, 0, math.Inf(1)}},
		{limit.AtLeast("a.depth", 1, 2, quantity.Length), "the depth is outside what the formula holds for: {0} (allowed: from {1} up)", []float64{1, 2, math.Inf(1)}},
		{errors.New("plain words"), "plain words", nil},
	} {
		got, q := faultWords("", c.err)
		var vals []float64
		for _, v := range q {
			vals = append(vals, v.Val)
		}
		if got != c.want || !slices.Equal(vals, c.q) {
			t.Errorf("%v: %q %v, want %q %v", c.err, got, vals, c.want, c.q)
		}
	}
}
