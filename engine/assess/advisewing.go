package assess

import (
	"fmt"
	"math"

	"hillset/engine/model"
	"hillset/engine/quantity"
)

// Bounds of what is tried for the wing walls.
const (
	mostCourses   = 12
	widestBlock   = 2.4 // m from face to back: as long as the blocks that are sold
	mostBaseRock  = 1.0 // m, by a small excavator
	mostWingCount = 4   // courses that may be added at once
)

// wingsOf are the checks of the wing walls among some.
func wingsOf(of []slot, ids ...string) []slot {
	var out []slot
	for _, c := range of {
		for _, id := range ids {
			if c.id == id {
				out = append(out, c)
			}
		}
	}
	return out
}

// byCourses brings the wing walls up to their fill.
func byCourses(a *adviser, s *state, of []slot) ([]outcome, error) {
	now := s.p.Wings.Courses
	o, err := a.least(s.p, steps(float64(now+1), math.Min(float64(now+mostWingCount), mostCourses), 1), of, func(v float64) change {
		n := int(v)
		return change{id: "wing-courses", text: fmt.Sprintf("Build the wing walls of %d courses at the box.", n),
			apply: func(p *model.Project) { p.Wings.Courses = n }}
	})
	return []outcome{o}, err
}

// byBlocks takes wider blocks for the wing walls, or lays them across.
func byBlocks(a *adviser, s *state, of []slot) ([]outcome, error) {
	o, err := a.least(s.p, a.rule.above(s.p.Wings.BlockWidth, widestBlock, smallStep), of, func(v float64) change {
		return change{id: "wing-blocks", text: "Build the wing walls of blocks {0} from face to back, or lay them across.", q: []quantity.Q{quantity.Of("", v, quantity.Length)},
			apply: func(p *model.Project) { p.Wings.BlockWidth = v }}
	})
	return []outcome{o}, err
}

// byBaseRock lays rock below the wing walls: it spreads what presses on the
// ground, and blocks hold better on it than on fine soil.
func byBaseRock(a *adviser, s *state, of []slot) ([]outcome, error) {
	o, err := a.least(s.p, a.rule.above(math.Max(a.rule.of(smallStep), s.p.Wings.BaseRock), mostBaseRock, smallStep), of, func(v float64) change {
		return change{id: "wing-rock", text: "Lay the wing walls on {0} of the rock of the bed.", q: []quantity.Q{quantity.Of("", v, quantity.Length)},
			apply: func(p *model.Project) { p.Wings.BaseRock = v }}
	})
	return []outcome{o}, err
}

// byBlocksOnRock is both.
func byBlocksOnRock(a *adviser, s *state, of []slot) ([]outcome, error) {
	if s.p.Wings.BaseRock > 0 {
		return nil, nil
	}
	rock, err := byBaseRock(a, s, wingsOf(of, wingBearID, wingSlideID))
	if err != nil || len(rock) == 0 || rock[0].p == nil {
		return nil, err
	}
	wide, err := byBlocks(a, &rock[0].state, of)
	for i := range wide {
		if wide[i].p != nil {
			wide[i].change = both(rock[0].change, wide[i].change)
		}
	}
	return wide, err
}
