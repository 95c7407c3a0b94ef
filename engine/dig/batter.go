package dig

import (
	"fmt"
	"math"
	"strings"

	"hillset/engine/check"
	"hillset/engine/quantity"
	"hillset/engine/tables"
)

const (
	batterID    = "batter"
	batterTitle = "Legal batter of the cut"
)

var tooDeep = "deeper than " + length(tabulatedTo) + ": slope must be designed by a registered professional engineer (rule R9)"

// demand is one thing the rule asks of a face and what the face gives.
type demand struct {
	text, formula string
	need, have    quantity.Q
	terms         []quantity.Q
	ratio         float64
	fix           string // remedy; {0} stands for need
}

// BatterCheck checks the slope of one face of the cut. Demand is the run per
// rise asked of the worst piece, Capacity the one it has; Ratio is the
// required run over the run provided, +Inf for a vertical piece that has to be
// sloped. A cut deeper than 20 ft is not checked: an engineer designs it. A
// value out of range gives a check that was not made, naming it.
func BatterCheck(in BatterInput) check.Check {
	part := in.Part
	if part == "" {
		part = "face of the cut"
	}
	req, err := Required(in)
	if err != nil {
		return check.Unchecked(batterID, batterTitle, part, err.Error())
	}
	if req.Engineer {
		c := check.Unchecked(batterID, batterTitle, part, tooDeep)
		in.describe(&c, req, nil)
		return c
	}
	all := in.demands(&req)
	worst := all[0]
	for _, d := range all[1:] {
		if d.ratio > worst.ratio {
			worst = d
		}
	}
	c := check.Check{
		ID: batterID, Title: batterTitle, Part: part,
		Demand: worst.need, Capacity: worst.have, Ratio: worst.ratio, RatioLRFD: math.NaN(),
	}
	if worst.ratio > 1 {
		c.Remedy, c.RemedyQ = worst.fix, []quantity.Q{worst.need}
	}
	in.describe(&c, req, all)
	return c
}

// demands lists what is asked of the slopes, the shield and the benches.
func (in BatterInput) demands(req *Requirement) []demand {
	if in.benched() && in.ShieldTop == 0 && in.steep(*req) {
		if all, ok := in.benchDemands(req); ok {
			return all
		}
	}
	var all []demand
	for i, p := range in.Pieces {
		all = append(all, slopeDemand(p, req.Classes[i], req.N[i]))
	}
	if req.ShieldTo > 0 {
		all = append(all, shieldDemand(req.ShieldTo, in.ShieldTop))
	}
	return all
}

// steep says that some piece is steeper than asked.
func (in BatterInput) steep(req Requirement) bool {
	for i, p := range in.Pieces {
		if p.N < req.N[i]-slopeTol {
			return true
		}
	}
	return false
}

func slopeDemand(p Piece, class string, need float64) demand {
	name := class
	if class == None {
		name = "not classified"
	}
	return demand{
		text:    fmt.Sprintf("%s, class %s", p.Stratum, name),
		formula: "n ≥ n,req",
		need:    quantity.Of("n,req", need, quantity.Slope),
		have:    quantity.Of("n", p.N, quantity.Slope),
		terms: []quantity.Q{
			quantity.Of("foot", p.Foot, quantity.Length), quantity.Of("top", p.Top, quantity.Length),
			quantity.Of("run", p.N*(p.Top-p.Foot), quantity.Length),
			quantity.Of("run,req", need*(p.Top-p.Foot), quantity.Length),
		},
		ratio: over(need, p.N, slopeTol),
		fix:   fmt.Sprintf("Lay the face in %s back to {0} or flatter", p.Stratum),
	}
}

// shieldDemand asks that the support stands up above the vertical part (R6).
func shieldDemand(need, have float64) demand {
	return demand{
		text:    "support above the top of the vertical lower part (R6)",
		formula: "h,shield ≥ h,vertical + " + length(shieldAbove),
		need:    quantity.Of("h,req", need, quantity.Length),
		have:    quantity.Of("h,shield", have, quantity.Length),
		terms:   []quantity.Q{quantity.Of("h,vertical", need-shieldAbove, quantity.Length)},
		ratio:   over(need, have, lengthTol),
		fix:     "Carry the shield or shoring up to {0} above the toe",
	}
}

// over is need/have with the rounding of both taken off at the limit: 0 where
// nothing is asked, +Inf where something is asked and there is nothing.
func over(need, have, tol float64) float64 {
	switch {
	case need <= 0:
		return 0
	case have <= 0:
		return math.Inf(1)
	case math.Abs(need-have) <= tol:
		return 1
	}
	return need / have
}

// describe fills what every batter check says besides its numbers.
func (in BatterInput) describe(c *check.Check, req Requirement, all []demand) {
	c.Method = method
	c.Source = sourceOf(req.Classes)
	c.Validity = "cuts up to " + length(tabulatedTo) + " deep in ground classified on site"
	c.Assumptions = append([]string{caution}, in.assumed(req)...)
	c.Working = []check.Line{{
		Text:    strings.Join(append([]string{"Height of the cut at its crest"}, req.Reasons...), "; "),
		Formula: "h = crest − toe",
		Result:  quantity.Of("h", req.Height, quantity.Length),
		Source:  method,
	}}
	for _, d := range all {
		c.Working = append(c.Working, check.Line{
			Text: d.text, Formula: d.formula, Terms: append([]quantity.Q{d.need, d.have}, d.terms...),
			Result: quantity.Of("ratio", d.ratio, quantity.Ratio), Source: c.Source,
		})
	}
}

// assumed lists what the face was taken to be.
func (in BatterInput) assumed(req Requirement) []string {
	out := []string{"each class was found by at least one visual and one manual test on the open face; ground not classified needs 1½H:1V everywhere (R2)"}
	if in.HoursOpen == 0 {
		out = append(out, "the cut stands open for more than a day")
	}
	if in.Surcharge {
		out = append(out, "load on the crest: the rule gives no number (R11); a competent person flattens the slope")
	}
	if !in.Seepage && !in.Fissured {
		out = append(out, "no seepage and no fissures; either lowers the class")
	}
	if !in.Distress {
		out = append(out, "no cracks, slumps or bulges; otherwise stop work and lay back by ½H:1V more (R10)")
	}
	return out
}

// sourceOf names the rows of the table that were used, each once.
func sourceOf(classes []string) string {
	var out []string
	seen := map[tables.Source]bool{}
	for _, class := range classes {
		src := tables.Source{Text: "29 CFR 1926.652(b)(1) (R2)", Mark: tables.Verified}
		if class != None {
			src = tabulated(class).Src
		}
		if !seen[src] {
			seen[src] = true
			out = append(out, fmt.Sprintf("%s [%s]", src.Text, src.Mark))
		}
	}
	return strings.Join(out, "; ")
}
