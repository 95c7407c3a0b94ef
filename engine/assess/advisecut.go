package assess

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Bounds of what is tried for the open cut.
const (
	flattest   = 3.0  // H:V
	mostBack   = 10.0 // m from the crest
	mostLadder = 12
)

// byBatter flattens the faces of the cut to the first slope that the rule takes.
func byBatter(a *adviser, s *state, of []slot) ([]outcome, error) {
	back := slices.ContainsFunc(of, func(c slot) bool { return c.part == "cut face" || c.part == "front face of the cut" })
	sides := slices.ContainsFunc(of, func(c slot) bool { return c.part != "cut face" && c.part != "front face of the cut" })
	cut := s.p.Cut
	now := flattest
	if back {
		now = math.Min(now, cut.Batter)
	}
	if sides {
		now = math.Min(now, cut.SideBatter)
	}
	o, err := a.least(s.p, steps(now+0.05, flattest, 0.05), of, func(v float64) change {
		c := change{id: "batter", q: []quantity.Q{quantity.Of("", v, quantity.Slope)}, apply: func(p *model.Project) {
			if back {
				p.Cut.Batter, p.Cut.ByStratum = math.Max(v, cut.Batter), nil
			}
			if sides {
				p.Cut.SideBatter = math.Max(v, cut.SideBatter)
			}
		}}
		switch {
		case back && sides:
			c.text = "Flatten the back and side faces of the cut to {0}."
		case back:
			c.text = "Flatten the back face of the cut to {0}."
		default:
			c.text = "Flatten the side faces of the cut to {0}."
		}
		return c
	})
	return []outcome{o}, err
}

// bySpoil heaps the spoil further from the crest.
func bySpoil(a *adviser, s *state, of []slot) ([]outcome, error) {
	o, err := a.least(s.p, a.rule.above(s.p.Cut.Spoil.Setback, mostBack, largeStep), of, func(v float64) change {
		return change{id: "spoil", text: "Heap the spoil {0} from the crest of the cut.", q: []quantity.Q{quantity.Of("", v, quantity.Length)},
			apply: func(p *model.Project) { p.Cut.Spoil.Setback = v }}
	})
	return []outcome{o}, err
}

// byLadders stands ladders in the gap beside the box.
func byLadders(a *adviser, s *state, of []slot) ([]outcome, error) {
	o, err := a.least(s.p, steps(float64(s.p.Cut.Ladders)+1, mostLadder, 1), of, func(v float64) change {
		n := int(v)
		what := "%d ladders or ramps"
		if n == 1 {
			what = "%d ladder or ramp"
		}
		return change{id: "ladders", text: fmt.Sprintf("Stand "+what+" in the gap beside the box, evenly spaced.", n),
			apply: func(p *model.Project) { p.Cut.Ladders = n }}
	})
	return []outcome{o}, err
}
