package assess

import (
	"errors"
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/steel"
)

// crossMember is a cross member of the floor, which props the bottom rails
// apart, without its load.
type crossMember struct {
	in   box.CrossMember
	unit box.Pair // ratios under 1 kN/m, service and factored
	gone          // worn, and why it has no strength
}

// crossMember looks the cross members up and finds their strength after some
// years of rust. Their flats may be too thin to carry over their whole width.
func (j *job) crossMember(years float64) crossMember {
	c := crossMember{in: box.CrossMember{Steel: j.metal, Length: j.box.W - 2*j.side.bottom.B, Spacing: crossMembers, Floor: !j.p.Box.NoFloor}}
	row, ok := j.t.Bar(j.box.CrossMember)
	if !ok {
		c.why = fmt.Errorf("the table has no bar %q", j.box.CrossMember)
		return c
	}
	if c.worn, c.why = j.crawl.wear(row.T, years, steel.MinBar); c.why != nil {
		return c
	}
	row.T = c.worn.left
	if c.in.Bar, c.why = steel.BarProps(row); c.why != nil {
		return c
	}
	one := c.in
	one.Load = box.Pair{ASD: 1, LRFD: 1}
	made, _, err := box.FloorCrossMember(one)
	c.unit, c.why = box.Pair{ASD: made.Ratio, LRFD: made.RatioLRFD}, err
	return c
}

// offer offers the cross members under what a long wall presses on its bottom
// rail. The wall opposite holds against it, or the bed does: either way all of
// it goes into the cross members. One whose strength cannot be told is offered
// as not checked.
func (c *crossMember) offer(sr *stageResult, w *wallLoad, worst *worstOf) {
	at := candidate{slot: crossSlot, stage: sr.st.ID, station: w.station, hasStation: true}
	switch {
	case errors.Is(c.why, steel.ErrRustedThrough):
		c.gone.offer(at, crossTitle, worst)
		return
	case c.why != nil:
		worst.fault(crossSlot, crossTitle, sr.st.ID, "the strength of the cross members is not known: ", c.why)
		return
	}
	at.ratio = math.Max(c.unit.ASD*math.Abs(w.bottom.ASD), c.unit.LRFD*math.Abs(w.bottom.LRFD))
	if won := worst.add(at); won != nil {
		won.write = func() (check.Check, error) {
			in := c.in
			in.Load = w.bottom
			return c.check(in)
		}
	}
}

// check writes the check of a cross member with how its thickness came about.
func (c *crossMember) check(in box.CrossMember) (check.Check, error) {
	made, _, err := box.FloorCrossMember(in)
	made.Working = append(c.worn.lines(), made.Working...)
	return made, err
}

const crossTitle = "Floor cross member as a strut"

var crossSlot = slot{"cross-member", "cross members"}
