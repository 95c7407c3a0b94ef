package assess

import (
	"errors"
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/section"
	"hillset/engine/steel"
)

// crest is a bar that bears on the crests of a sheet, without its load.
type crest struct {
	in    box.Crests
	unit  box.Pair // ratios under 1 kN/m
	fault error    // why it cannot be rated
}

const (
	crippleID    = "crippling"
	crippleTitle = "Crests of the sheet under a bar"
)

// crestOf rates a bar that bears on a sheet edge m from its end; it is not
// fastened to the crests.
func (j *job) crestOf(p steel.Profile, bar steel.Bar, edge float64, on string) (c crest) {
	radius, ok := j.t.Member("bend-radius")
	if !ok {
		c.fault = errors.New("the table has no bend radius")
		return c
	}
	flat := bar.B
	if bar.Shape == steel.SHS || bar.Shape == steel.RHS {
		flat -= 4 * bar.T // outer corners of radius 2t
	}
	c.in = box.Crests{Profile: p, Steel: j.metal, On: on, Load: box.Pair{ASD: 1, LRFD: 1},
		Bearing: steel.Bearing{Length: flat, Edge: edge - flat/2, Radius: radius.High}}
	if c.in.Row, c.fault = steel.CripplingRow(j.t, p, c.in.Bearing, false); c.fault != nil {
		return c
	}
	r, err := c.in.Solve()
	c.unit, c.fault = r.Ratio, err
	return c
}

// wallCrests are the wales between the edges of a wall as they bear on its
// sheet after some years, from the bottom up. There are none on a long wall of a
// sheet that is too flat for the method even as new: that is told once, by
// flatCrests. One that only its dents make too flat cannot be rated. Of a sheet that
// is gone they are those of what stands in for it.
func (j *job) wallCrests(a *aged, f section.Face) []crest {
	pn := j.wallOf(f)
	sheet := a.wall(pn.long)
	if sheet.ready == nil || pn.long && !j.hasRibs() {
		return nil
	}
	p, err := sheet.strip.Profile.Dented(sheet.strip.Dent)
	if err != nil {
		return nil // then it is not ready
	}
	var out []crest
	for _, w := range pn.between() {
		bar, err := j.bar(w.Section)
		if err != nil {
			return nil // the check of the wale says so
		}
		c := j.crestOf(p, bar, math.Min(w.Height, pn.height()-w.Height), "a wale")
		if pn.long && errors.Is(c.fault, steel.ErrFlatSlope) && j.flatSide() != nil {
			return nil
		}
		out = append(out, c)
	}
	return out
}

// roofCrest is a purlin as it bears on the roof sheet after some years.
func (j *job) roofCrest(a *aged) *crest {
	places := j.purlinPlaces()
	if a.roof.ready == nil || len(places) == 0 || j.purlins[0].fault != nil {
		return nil
	}
	c := j.crestOf(a.roof.strip.Profile, j.purlins[0].rail.Bar, places[0], "a purlin")
	return &c
}

// offer offers the crests of a sheet under the load of a bar, at a place that
// the candidate names.
func (c *crest) offer(at candidate, load box.Pair, cases box.Cases, worst *worstOf) {
	at.id = crippleID
	if c.fault != nil {
		worst.fault(at.slot, crippleTitle, at.stage, "the crests under "+c.in.On+" cannot be rated: ", c.fault)
		return
	}
	at.ratio = math.Max(c.unit.ASD*math.Max(0, load.ASD), c.unit.LRFD*math.Max(0, load.LRFD))
	if won := worst.add(at); won != nil {
		won.write = func() (check.Check, error) {
			in := c.in
			in.Load, in.Case = load, cases
			made, _, err := box.CrestsUnderBar(in)
			return made, err
		}
	}
}

// wallCrestChecks offers the crests under the wales of all loaded walls.
func (j *job) wallCrestChecks(sr *stageResult, worst *worstOf) {
	all := j.agedAt(sr.st.Years).crests
	for w := range sr.loadedWalls() {
		crests := all[w.face]
		if len(crests) > 0 && w.sheet.why != nil {
			w.sheet.offer(w.candidate(sr, crippleID, partOf(w.face), 0), crippleTitle, worst)
			continue
		}
		for k := range crests {
			crests[k].offer(w.candidate(sr, crippleID, partOf(w.face), 0), w.result.Wales[k], box.Cases{}, worst)
		}
	}
}

// flatSide is the error for a side sheet that is too flat for the method even as it
// was measured, without dents and rust; nil where it is not.
func (j *job) flatSide() error {
	p, err := profileOf(j.side.sheet, j.side.t)
	if err != nil {
		return nil // told by the check of the sheet
	}
	if err = p.Steep(); errors.Is(err, steel.ErrFlatSlope) {
		return err
	}
	return nil
}

// flatCrests says why bars inside the long walls press on crests that are not
// checked; empty where none do, or where they are.
func (j *job) flatCrests() string {
	if !j.hasRibs() {
		return ""
	}
	const detail = ": put a pad over two corrugations under each of them and pack the troughs there"
	if err := j.flatSide(); err != nil {
		return fmt.Sprintf("the side sheet has %s, and the formula for web crippling is made for 45 to 90 degrees; there is no other that is known to hold, as the crests also bend over the bar: what ribs and wales press on the crests is not checked%s",
			err, detail)
	}
	if len(j.side.between()) == 0 {
		return "ribs without wales touch single crests, and those are not checked" + detail
	}
	return ""
}
