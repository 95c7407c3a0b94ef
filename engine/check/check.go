// Package check holds the result of one check: what was asked of a part, what
// it can give, how that was worked out and what the working does not cover.
//
// A ratio of 1 is always the limit. The verdict words are fixed; nothing in
// the program says that a structure is safe.
package check

import (
	"math"

	"hillset/engine/quantity"
)

// Verdict is the outcome of a check.
type Verdict int

// The three verdicts.
const (
	NotChecked Verdict = iota
	Within
	Beyond
)

// String gives the fixed wording of the verdict.
func (v Verdict) String() string {
	switch v {
	case Within:
		return "within limits"
	case Beyond:
		return "beyond limits"
	}
	return "not checked"
}

// Line is one step of a working: a formula in symbols, the values that go
// into it and what comes out.
type Line struct {
	Text    string       // what is worked out, in words
	Formula string       // in symbols, e.g. "M = w·L²/10"
	Terms   []quantity.Q // values of the symbols on the right-hand side
	Result  quantity.Q   // value of the left-hand side
	Source  string       // where the formula comes from
}

// Step is a step of a working.
func Step(text, formula, source string, result quantity.Q, terms ...quantity.Q) Line {
	return Line{Text: text, Formula: formula, Terms: terms, Result: result, Source: source}
}

// Over is a demand over a capacity: zero where nothing is asked, +Inf where
// nothing is there.
func Over(demand, capacity float64) float64 {
	switch {
	case demand <= 0:
		return 0
	case capacity <= 0:
		return math.Inf(1)
	}
	return demand / capacity
}

// Check is one check of one part, at the stage and the station where it is
// worst unless All is listed elsewhere.
type Check struct {
	ID    string // stable name of the check, e.g. "side-sheet"
	Title string // in words, e.g. "Side sheet in bending"
	Part  string // the part checked, e.g. "left side wall"
	// Rule marks a measure held against a rule of law, code or trade: it is met
	// or not met. How closely it is met says nothing of how strong anything is.
	Rule    bool
	Stage   string // stage id at which Ratio was reached
	Station float64
	// HasStation is false where the check concerns the box as a whole.
	HasStation bool

	Demand   quantity.Q // what is asked: a moment, or a required factor of safety
	Capacity quantity.Q // what there is: a resistance, or the factor of safety found
	// Ratio is demand over capacity, allowable stress (or required FS over FS).
	// It is +Inf where there is demand and no capacity, NaN where not checked.
	Ratio float64
	// RatioLRFD is the same by load and resistance factors; NaN where the
	// method has no such form.
	RatioLRFD float64
	// Case and CaseLRFD name the load combinations that gave the two ratios,
	// e.g. "D + H + F + S"; empty where a method has none.
	Case, CaseLRFD string

	Method      string   // name of the method
	Source      string   // where method and values come from, with provenance
	Assumptions []string // what was taken for granted
	Validity    string   // where the method holds; empty when always
	Remedy      string   // what would bring it within limits, computed where possible
	// RemedyQ are the values that Remedy names as {0}, {1} and so on, so that
	// they can be written in the reader's units.
	RemedyQ []quantity.Q
	Missing string // why it was not checked; empty when it was
	// MissingQ are the values that Missing names as {0}, {1} and so on.
	MissingQ []quantity.Q
	Working  []Line // the working with numbers
}

// Worst is the larger of the two ratios: the one that decides.
func (c *Check) Worst() float64 {
	if math.IsNaN(c.RatioLRFD) {
		return c.Ratio
	}
	if math.IsNaN(c.Ratio) {
		return c.RatioLRFD
	}
	return math.Max(c.Ratio, c.RatioLRFD)
}

// Verdict says on which side of the limit the check lies. A check without a
// ratio is not checked, whatever else is filled in.
func (c *Check) Verdict() Verdict {
	r := c.Worst()
	switch {
	case c.Missing != "" || math.IsNaN(r):
		return NotChecked
	case r <= 1:
		return Within
	}
	return Beyond
}

// Met tells a rule that is met. It has no margin that could govern.
func (c *Check) Met() bool { return c.Rule && c.Verdict() == Within }

// Unchecked makes a check that was not made, with the reason.
func Unchecked(id, title, part, why string) Check {
	return Check{ID: id, Title: title, Part: part, Missing: why, Ratio: math.NaN(), RatioLRFD: math.NaN()}
}
