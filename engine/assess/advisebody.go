package assess

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Bounds of what is tried for the box as a body.
const (
	mostBallast = 20000.0 // kg: a concrete floor of some 0.55 m in a 20 ft box
	mostToe     = 2.5     // m deep, by hand or by a small excavator
	mostBed     = 1.0     // m, by which it is thickened in the place of soft soil
)

// Sizes that are round in the units of the project.
var (
	ballastStep = measure{100, 250 * pound} // kg
	middleToe   = measure{1.5, 60 * inch}   // m, to find out where a beam is of use
	thickerBed  = measure{0.15, 6 * inch}   // m, by which the rock bed is thickened
)

// byBallast holds the box down: the least ballast that does what the most does.
func byBallast(a *adviser, s *state, of []slot) ([]outcome, error) {
	now := s.p.Box.Ballast
	o, err := a.least(s.p, a.rule.above(now, mostBallast, ballastStep), of, func(v float64) change {
		return change{id: "ballast", text: "Keep {0} of ballast inside for good, such as a concrete floor.",
			q:     []quantity.Q{quantity.Of("", v/1000, quantity.Mass)},
			apply: func(p *model.Project) { p.Box.Ballast = v }}
	})
	return []outcome{o}, err
}

// byProof proves the compaction by tests, so that the friction of the fill on
// the sides may be counted and it loads the roof less.
func byProof(a *adviser, s *state, _ []slot) ([]outcome, error) {
	f := s.p.Fill
	if f.Proven && f.SideFriction >= 0.5 {
		return nil, nil
	}
	o, err := a.on(s.p, change{id: "proven", text: "Have the compaction of the fill tested, and count half of its friction on the sides.",
		apply: func(p *model.Project) { p.Fill.Proven, p.Fill.SideFriction = true, 0.5 }})
	return []outcome{o}, err
}

// beds are the thicknesses of the rock bed that are tried with wider pads: as it
// is, and thicker.
func (a *adviser) beds(now float64) []float64 {
	more := a.rule.of(thickerBed)
	return []float64{now, a.rule.nearest(now+more, smallStep), a.rule.nearest(now+2*more, smallStep)}
}

// byPads spreads the weight: larger square pads, on as thick a bed as drawn or
// a thicker one.
func byPads(a *adviser, s *state, of []slot) ([]outcome, error) {
	b := s.p.Bedding
	if b.Kind != model.PadBedding {
		return nil, nil
	}
	now, most := math.Max(b.PadLength, b.PadWidth), a.rule.floor(a.box.W/2, largeStep) // beyond that they meet
	var out []outcome
	for _, thick := range a.beds(b.RockThickness) {
		o, err := a.least(s.p, a.rule.above(now, most, largeStep), of, func(v float64) change {
			c := change{id: "pads", text: "Make the pads under the corner castings {0} square.", q: []quantity.Q{quantity.Of("", v, quantity.Length)},
				apply: func(p *model.Project) { p.Bedding.PadLength, p.Bedding.PadWidth = v, v }}
			if thick > b.RockThickness {
				c.id, c.text = "pads-bed", "Make the pads under the corner castings {0} square, on a rock bed {1} thick."
				c.q = append(c.q, quantity.Of("", thick, quantity.Length))
				small := c.apply
				c.apply = func(p *model.Project) { small(p); p.Bedding.RockThickness = thick }
			}
			return c
		})
		if err != nil {
			return out, err
		}
		out = append(out, o)
		if o.p != nil && len(o.tr.heldOf(of)) == len(of) {
			break // no thicker bed is needed
		}
	}
	return out, nil
}

// byBed puts bed rock in the place of soil under the bed as drawn: the box stays
// where it is and the cut goes deeper.
func byBed(a *adviser, s *state, of []slot) ([]outcome, error) {
	now := s.p.Bedding.RockThickness
	if now == 0 {
		return nil, nil
	}
	o, err := a.least(s.p, a.rule.above(now, now+mostBed, largeStep), of, func(v float64) change {
		return change{id: "bed", text: "Dig deeper under the box, and lay the rock bed {0} thick.", q: []quantity.Q{quantity.Of("", v, quantity.Length)},
			apply: func(p *model.Project) { p.Bedding.RockThickness = v }}
	})
	return []outcome{o}, err
}

// byBallastAndPads keeps more ballast than the pads carry as drawn, and widens
// them for it.
func byBallastAndPads(a *adviser, s *state, of []slot) ([]outcome, error) {
	heavy, err := byBallast(a, s, of)
	if err != nil || len(heavy) == 0 || heavy[0].p == nil {
		return nil, err
	}
	over := slices.DeleteFunc(wrong(&heavy[0].tr), func(c slot) bool { return c.id != padBearing && !ofSettling(c) })
	if len(over) == 0 {
		return nil, nil // it needs no wider pads
	}
	wide, err := byPads(a, &heavy[0].state, over)
	for i := range wide {
		if wide[i].p != nil {
			wide[i].change = both(heavy[0].change, wide[i].change)
		}
	}
	return wide, err
}

// byPlace moves the box uphill and up, as little as does most.
func byPlace(a *adviser, s *state, of []slot) ([]outcome, error) {
	tried, err := abreast(len(moves), func(i int) (outcome, error) { return a.on(s.p, moves[i].of(s.p, a.rule)) })
	if err != nil {
		return nil, err
	}
	return best(tried), nil
}

// byPlaceAndToe moves the box to where the ground in front of it is level as far
// as the wedge of a toe beam reaches, and casts the beam.
func byPlaceAndToe(a *adviser, s *state, of []slot) ([]outcome, error) {
	tried, err := abreast(len(moves), func(i int) (outcome, error) {
		return a.on(s.p, both(moves[i].of(s.p, a.rule), a.toe(s.p, a.rule.of(middleToe))))
	})
	if err != nil {
		return nil, err
	}
	found := best(tried)
	if len(found) == 0 {
		return nil, nil
	}
	alone, err := abreast(len(moves), func(i int) (outcome, error) { return a.on(s.p, moves[i].of(s.p, a.rule)) })
	if err != nil {
		return nil, err
	}
	where := slices.IndexFunc(tried, func(o outcome) bool { return o.id == found[0].id })
	if !found[0].tr.better(&alone[where].tr) {
		return nil, nil // the beam is of no use there
	}
	move := moves[where].of(s.p, a.rule)
	moved := s.p.Clone()
	move.apply(moved)
	o, err := a.least(s.p, a.rule.above(s.p.Bedding.Toe.Depth, mostToe, largeStep), of, func(v float64) change { return both(move, a.toe(moved, v)) })
	return []outcome{o}, err
}

// move is a step of the box uphill and up, m.
type move struct{ in, up measure }

// moves are those that are tried, the smallest first.
var moves = func() []move {
	still, low, foot, more, high := measure{}, measure{0.15, 6 * inch}, measure{0.3, 12 * inch}, measure{0.45, 18 * inch}, measure{0.6, 24 * inch}
	near, mid, far := measure{0.4, 15 * inch}, measure{0.8, 30 * inch}, measure{1.6, 60 * inch}
	return []move{{still, low}, {still, foot}, {still, more}, {still, high}, {near, still}, {near, foot},
		{mid, still}, {mid, foot}, {mid, high}, {far, still}, {far, foot}, {far, high}}
}()

// of is the change that moves the box of a project.
func (m move) of(p *model.Project, r ruler) change {
	far, high := r.of(m.in), r.of(m.up)
	front, level := p.Box.Front+far, p.Box.Level+high
	c := change{id: fmt.Sprintf("place-%g-%g", m.in.metric, m.up.metric), apply: func(p *model.Project) { p.Box.Front, p.Box.Level = front, level }}
	in, up := quantity.Of("", far, quantity.Length), quantity.Of("", high, quantity.Length)
	switch {
	case high == 0:
		c.text, c.q = "Set the box {0} further into the hill.", []quantity.Q{in}
	case far == 0:
		c.text, c.q = "Set the box {0} higher.", []quantity.Q{up}
	default:
		c.text, c.q = "Set the box {0} further into the hill and {1} higher.", []quantity.Q{in, up}
	}
	return c
}

// byToe casts a beam under the front sill.
func byToe(a *adviser, s *state, of []slot) ([]outcome, error) {
	o, err := a.least(s.p, a.rule.above(s.p.Bedding.Toe.Depth, mostToe, largeStep), of, func(v float64) change { return a.toe(s.p, v) })
	return []outcome{o}, err
}

// toe is a beam under the front sill, as wide as the cut lets it.
func (a *adviser) toe(p *model.Project, deep float64) change {
	wide := a.box.W
	if p.Box.Orientation == model.Broadside {
		wide = a.box.L
	}
	wide = math.Max(a.rule.floor(wide+2*p.Cut.WorkSide, largeStep), p.Bedding.Toe.Width)
	return change{id: "toe", text: "Cast a toe beam under the front sill, {0} deep below the formation and {1} wide across the box.",
		q:     []quantity.Q{quantity.Of("", deep, quantity.Length), quantity.Of("", wide, quantity.Length)},
		apply: func(p *model.Project) { p.Bedding.Toe = model.ToeBeam{Depth: deep, Width: wide} }}
}
