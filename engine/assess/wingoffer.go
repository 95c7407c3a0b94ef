package assess

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/ground"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// wingCase is one check of a wing at one stage and place.
type wingCase struct {
	j     *job
	s     *wingSide
	st    *wingState
	pt    *wingPoint
	joint int // the joint under that course; 0 is the base
	rock  bool
}

// asked is the factor asked for in a respect: less in an earthquake.
func (j *job) asked(id string, st *wingState) tables.WallFactor {
	if st.key.kh > 0 {
		id = "quake"
	}
	f, ok := j.t.WallFactor(id)
	if !ok {
		panic("assess: no wall factor " + id)
	}
	return f
}

// slideID is the respect of a joint: the base slides on the ground, the rest
// block on block.
func slideID(joint int) string {
	if joint == 0 {
		return "sliding"
	}
	return "joint"
}

// over is what is asked over what was found.
func overFound(asked, found float64) float64 {
	if found <= 0 {
		return math.Inf(1)
	}
	return asked / found
}

// kern is the share of the blocks to both sides of their middle in which the
// resultant has to stay: the middle third, in an earthquake the middle half.
func (st *wingState) kern() float64 {
	if st.key.kh > 0 {
		return 0.25
	}
	return 1. / 6
}

// offerWing offers all checks of a wing at a stage, at every column and joint.
func (j *job) offerWing(s *wingSide, st *wingState, stage string, worst *worstOf) {
	add := func(id string, ratio float64, c wingCase, write func(*wingCase) (check.Check, error)) {
		cand := candidate{slot: slot{id, s.part}, stage: stage, ratio: ratio}
		if id != wingAloneID {
			cand.station, _ = s.wall.At(c.pt.along, 0)
			cand.hasStation = true
		}
		if kept := worst.add(cand); kept != nil {
			it := c // made only for what governs
			kept.write = func() (check.Check, error) { return write(&it) }
		}
	}
	slide, joint, over := j.asked("sliding", st).Factor, j.asked("joint", st).Factor, j.asked("overturning", st).Factor
	for i := range len(st.points) - 1 {
		pt := &st.points[i]
		c := wingCase{j: j, s: s, st: st, pt: pt}
		add(wingHeightID, (pt.surface-s.wall.Base)/(float64(pt.col.Courses)*s.wall.Height), c, (*wingCase).height)
		for k := range pt.joints {
			c.joint = k
			jt := &pt.joints[k]
			if k == 0 {
				add(wingSlideID, overFound(slide, jt.Wall.FSSlide), c, (*wingCase).slide)
			} else {
				add(wingJointID, overFound(joint, jt.Wall.FSSlide), c, (*wingCase).slide)
			}
			add(wingOverID, overFound(over, jt.Wall.FSOver), c, (*wingCase).over)
			e := jt.Wall.Base.E
			if -e >= s.wall.Deep/2 { // it lies on its fill
				worst.missing(wingMidID, titleOfWing(wingMidID), s.part, stage, leansTooFar)
				continue
			}
			add(wingMidID, math.Max(0, e)/(s.wall.Deep*st.kern()), c, (*wingCase).middle)
		}
		j.offerBearing(c, stage, worst, add)
	}
	add(wingAloneID, overFound(slide, st.total.fs), wingCase{j: j, s: s, st: st, pt: &st.points[0]}, (*wingCase).alone)
}

// leansTooFar is why nothing is said of a wall that lies on its fill.
const leansTooFar = "the wall leans back so far that it lies on its fill: the plane wedge says nothing of that; give it less lean or wider blocks"

// offerBearing offers the pressure below the lowest course, on the base rock and
// spread 2:1 through it on the ground.
func (j *job) offerBearing(c wingCase, stage string, worst *worstOf, add func(string, float64, wingCase, func(*wingCase) (check.Check, error))) {
	b := &c.pt.joints[0].Wall.Base
	c.joint = 0
	for _, rock := range [...]bool{true, false} {
		if rock && c.s.rock <= 0 {
			continue
		}
		c.rock = rock
		allowed, name, ok := c.allowed()
		switch {
		case !ok || allowed <= 0:
			worst.missing(wingBearID, titleOfWing(wingBearID), c.s.part, stage, fmt.Sprintf("no bearing value is given for %q", name))
		case b.E <= -c.s.wall.Deep/2:
			worst.missing(wingBearID, titleOfWing(wingBearID), c.s.part, stage, leansTooFar)
		case b.Off:
			add(wingBearID, math.Inf(1), c, (*wingCase).bearing)
		default:
			add(wingBearID, b.V/c.spread(b.Width)/allowed, c, (*wingCase).bearing)
		}
	}
}

// allowed is what the base rock, or the ground below it, bears, kPa.
func (c *wingCase) allowed() (kpa float64, name string, ok bool) {
	if c.rock {
		so, ok := section.SoilByID(c.j.p, c.j.p.Bedding.RockSoil)
		if !ok {
			return 0, "the base rock", false
		}
		return so.Bearing, so.Name, true
	}
	so, ok := c.s.wall.Under(c.pt.along, c.s.wall.Base-c.s.rock)
	if !ok {
		return 0, "the ground below the wing wall", false
	}
	return so.Bearing, so.Name, true
}

// spread is the width that a pressure of a width has where it is judged.
func (c *wingCase) spread(width float64) float64 {
	if c.rock {
		return width
	}
	return width + c.s.rock
}

// with is the joint of the case in a wall of blocks so wide.
func (c *wingCase) with(wide float64) (*ground.Joint, error) {
	in := c.pt.in
	in.B = wide
	js, err := ground.StackPushed(in)
	if err != nil {
		return nil, err
	}
	return &js[c.joint], nil
}

// widest is the widest block that a remedy may ask for, m: as the file takes.
const widest = 5.0

// wider is the width of blocks, from face to back, at which a ratio comes down to
// 1; false where none does.
func (c *wingCase) wider(ratio func(*ground.Joint, float64) float64) (quantity.Q, bool) {
	holds := func(b float64) bool {
		jt, err := c.with(b)
		return err == nil && ratio(jt, b) <= 1
	}
	if !holds(widest) {
		return quantity.Q{}, false
	}
	lo, hi := c.s.wall.Deep, widest
	for range 22 {
		if mid := (lo + hi) / 2; holds(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return quantity.Of("b", hi, quantity.Length), true
}
