package assess

import (
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/steel"
)

// crossMember is a cross member of the floor, which props the bottom rails
// apart, without its load.
type crossMember struct {
	in    box.CrossMember
	unit  box.Pair // ratios under 1 kN/m, service and factored
	fault error    // why it has no strength that can be told
}

// crossMember looks the cross members up and finds their strength.
func (j *job) crossMember() crossMember {
	c := crossMember{in: box.CrossMember{Steel: j.metal, Length: j.box.W - 2*j.side.bottom.B, Spacing: crossMembers, Floor: !j.p.Box.NoFloor}}
	row, ok := j.t.Bar(j.box.CrossMember)
	if !ok {
		c.fault = fmt.Errorf("the table has no bar %q", j.box.CrossMember)
		return c
	}
	if c.in.Bar, c.fault = steel.BarProps(row); c.fault != nil {
		return c
	}
	one := c.in
	one.Load = box.Pair{ASD: 1, LRFD: 1}
	made, _, err := box.FloorCrossMember(one)
	c.unit, c.fault = box.Pair{ASD: made.Ratio, LRFD: made.RatioLRFD}, err
	return c
}

// offer offers the cross members under what a long wall presses on its bottom
// rail. The wall opposite holds against it, or the bed does: either way all of
// it goes into the cross members. One whose strength cannot be told is offered
// as not checked.
func (c *crossMember) offer(sr *stageResult, w *wallLoad, worst *worstOf) {
	in := c.in
	in.Load = w.bottom
	if c.fault != nil {
		worst.add(candidate{slot: crossSlot, stage: sr.st.ID, ratio: math.Inf(-1), write: func() (check.Check, error) {
			return check.Unchecked(crossSlot.id, "Floor cross member as a strut", crossSlot.part, "the strength of the cross members is not known: "+c.fault.Error()), nil
		}})
		return
	}
	load := box.Pair{ASD: math.Abs(in.Load.ASD), LRFD: math.Abs(in.Load.LRFD)}
	worst.add(candidate{slot: crossSlot, stage: sr.st.ID, station: w.station, hasStation: true,
		ratio: math.Max(c.unit.ASD*load.ASD, c.unit.LRFD*load.LRFD),
		write: func() (check.Check, error) { made, _, err := box.FloorCrossMember(in); return made, err }})
}

var crossSlot = slot{"cross-member", "cross members"}
