package assess

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Of drains that are offered (common practice, no source): a pipe of 100 mm,
// deep enough to lie in stone below the rock bed, at the least fall that a
// builder sets out by level.
var (
	newBore  = measure{0.1, 4 * inch}  // m
	newDepth = measure{0.15, 6 * inch} // m below the formation
	newAway  = measure{1, 36 * inch}   // of an interceptor from the crest of the cut, m
	// newTrenches are the depths of an interceptor, m.
	newTrenches = []measure{{1, 42 * inch}, {1.5, 60 * inch}, {2, 78 * inch}, {2.5, 96 * inch}}
)

const newFall = 0.01

// underWater is for what computed water presses on or lifts.
func underWater(a *adviser, s *state, c slot) bool {
	return s.p.Site.Water.Computed && (besideFill(a, s, c) || c.id == "flotation")
}

// byDrain lays a drain round the foot of the box.
func byDrain(a *adviser, s *state, _ []slot) ([]outcome, error) {
	d := s.p.Defence.Drain
	if d.Present {
		return nil, nil
	}
	d.Present = true
	for _, v := range []struct {
		of   *float64
		free float64
	}{{&d.Diameter, a.rule.of(newBore)}, {&d.Depth, a.rule.of(newDepth)}, {&d.Fall, newFall}} {
		if *v.of <= 0 {
			*v.of = v.free
		}
	}
	if d.Outlet == "" {
		d.Outlet = "gravity"
	}
	o, err := a.on(s.p, change{id: "drain",
		text:  "Lay a perforated pipe of {0} bore round the foot of the box, its invert {1} below the formation, in washed stone wrapped in cloth, and lead it away. When it blocks the water comes back: add a stage with blocked drains.",
		q:     []quantity.Q{quantity.Of("", d.Diameter, quantity.Thickness), quantity.Of("", d.Depth, quantity.Length)},
		apply: func(p *model.Project) { p.Defence.Drain = d }})
	return []outcome{o}, err
}

// byUphill cuts a trench drain into the hill above the cut, no deeper than what
// the deepest would do.
func byUphill(a *adviser, s *state, of []slot) ([]outcome, error) {
	d := s.p.Defence.Drain
	if d.Uphill && d.UphillDepth > 0 {
		return nil, nil
	}
	away := math.Max(d.UphillAway, a.rule.of(newAway))
	o, err := a.least(s.p, a.rule.all(newTrenches), of, func(v float64) change {
		return change{id: "uphill-drain",
			text: "Cut a trench drain across the hill {0} above the crest of the cut, {1} deep, with a pipe in stone, and lead it round the box to daylight.",
			q:    []quantity.Q{quantity.Of("", away, quantity.Length), quantity.Of("", v, quantity.Length)},
			apply: func(p *model.Project) {
				d := &p.Defence.Drain
				d.Uphill, d.UphillAway, d.UphillDepth = true, away, v
				if d.Diameter <= 0 {
					d.Diameter = a.rule.of(newBore)
				}
			}}
	})
	return []outcome{o}, err
}
