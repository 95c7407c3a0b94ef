package drain

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
	"hillset/engine/tables"
)

// Layout is how a drain is laid.
type Layout struct {
	Below, Above, Beside float64   // washed stone under, over and beside the pipe, m
	Runs                 []float64 // straight lengths from the upper end, m
	Twin                 bool      // a second drain like this one begins at the same upper end
	Spacing              float64   // of the clean-outs along a run, m
	Riser                float64   // bore of the clean-outs, m
	Surface              float64   // fall of the finished ground away from the box
	Beyond               float64   // washed stone beyond the edge of the footing, m
	Freezing             float64   // bore of an outlet that may freeze, m; 0 where none may
	// BelowUnknown leaves the stone under the pipe out: it is not drawn.
	BelowUnknown bool
}

// Cleanouts gives the places of the clean-outs, as distances along the drain
// from its upper end, m: there, at every change of direction, and between them
// no further apart than the spacing. runs are the straight lengths, m.
func Cleanouts(runs []float64, spacing float64) ([]float64, error) {
	if len(runs) == 0 {
		return nil, fmt.Errorf("runs: none given, at least one is needed")
	}
	if err := limit.Within("spacing", spacing, 1, 300, q.Length); err != nil {
		return nil, err
	}
	var at []float64
	from := 0.0
	for i, run := range runs {
		if err := limit.Within("run", run, 0.1, 1000, q.Length); err != nil {
			return nil, limit.In(fmt.Sprintf("runs[%d]", i), err)
		}
		// rounding must not add a clean-out where a run is a whole number of spacings
		n := math.Max(1, math.Ceil(run/spacing-1e-9))
		for k := range int(n) {
			at = append(at, from+run*float64(k)/n)
		}
		from += run
	}
	return at, nil
}

// LayoutCheck holds the measures of a drain against the rules of code and
// trade. Each rule has its own source.
func LayoutCheck(in Layout) (check.Check, error) {
	places, err := Cleanouts(in.Runs, in.Spacing)
	if err := limit.First(err,
		limit.Within("below", in.Below, 0, 5, q.Length),
		limit.Within("above", in.Above, 0, 5, q.Length),
		limit.Within("beside", in.Beside, 0, 5, q.Length),
		limit.Within("riser", in.Riser, 0.02, 1, q.Thickness),
		limit.Within("surface", in.Surface, -1, 1, q.Gradient),
		limit.Within("beyond", in.Beyond, 0, 20, q.Length)); err != nil {
		return check.Check{}, err
	}
	if in.Freezing != 0 {
		if err := limit.Within("freezing", in.Freezing, 0.02, 1, q.Thickness); err != nil {
			return check.Check{}, err
		}
	}
	c := check.Check{ID: "drain-layout", Title: "Drain, how it is laid", Part: "drain", Method: "Rules of code and trade",
		Source:      "table of drain rules: IRC R405.1 (second-hand), UFC 3-270-04 (verified), IRC R401.3 (memory), common practice",
		Assumptions: []string{"the stone is washed and coarser than the openings of the pipe", "the upper end of the pipe is capped"},
		Validity:    "Rules, not mechanics: a lesser measure is not proven to fail."}
	least := func(id string, have float64, kind q.Kind) condition {
		r, src := rule(id)
		m := q.Of("least", r.Value, kind)
		return condition{text: r.Name, formula: "r = least/given", src: src, demand: m, capacity: q.Of("given", have, kind),
			remedy: "at least {0}: " + r.Name, remedyQ: m}
	}
	apart, src := rule("cleanout-apart")
	far := q.Of("most", apart.Value, q.Length)
	n, text := len(places), "Clean-outs asked for"
	if in.Twin { // they share the one at the upper end
		n, text = 2*n-1, "Clean-outs asked for along both halves"
	}
	c.Working = append(c.Working, check.Step(text, "at the upper end, every change of direction and between", src, q.Of("N", float64(n), q.None)))
	var conds []condition
	if in.BelowUnknown {
		r, _ := rule("stone-below")
		c.Assumptions = append(c.Assumptions, "the stone under the pipe is not drawn and not held against its rule: "+q.Brief.Text(r.Value, q.Thickness))
	} else {
		conds = append(conds, least("stone-below", in.Below, q.Length))
	}
	if in.Freezing != 0 {
		conds = append(conds, least("outlet-bore", in.Freezing, q.Thickness))
	}
	govern(&c, append(conds,
		least("stone-above", in.Above, q.Length),
		least("stone-beside", in.Beside, q.Length),
		least("footing-beyond", in.Beyond, q.Length),
		condition{text: apart.Name, formula: "r = given/most", src: src, demand: q.Of("given", in.Spacing, q.Length), capacity: far,
			remedy: "at most {0}: " + apart.Name, remedyQ: far},
		least("cleanout-bore", in.Riser, q.Thickness),
		least("surface-fall", in.Surface, q.Gradient)))
	return c, nil
}

// rule gives a row of the table of drain rules and its source with mark.
func rule(id string) (tables.DrainRule, string) {
	r, ok := tables.Default().DrainRule(id)
	if !ok {
		panic("drain: no rule " + id)
	}
	return r, r.Src.Text + " (" + string(r.Src.Mark) + ")"
}
