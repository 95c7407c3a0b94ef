package assess

import (
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
)

// aloneID is the check of either system by itself; the parts are the systems.
const (
	aloneID     = "either-alone"
	aloneTitle  = "Either system alone"
	insidePart  = "inside steel"
	outsidePart = "outside skin"
)

// outsideIDs are the checks of the skin outside, the system that is to carry
// without the steel inside.
var outsideIDs = map[string]bool{"stud": true, "stud-deflection": true, plyID: true, concreteGap.id: true}

// neitherIDs are checks that belong to neither system: the cut, the pour, the
// box as a body, the roof on posts and light fill.
var neitherIDs = map[string]bool{pourGap.id: true, lightID: true, "roof-slab": true, "roof-slab-depth": true, "roof-deck": true,
	"roof-post": true, footingID: true, aloneID: true, box.KindCross.ID(): true, box.KindEdge.ID(): true}

// systemOf is the system that a check belongs to: all that is checked of the
// steel box and what stands inside it is the one, the skin outside the other.
func systemOf(s slot) string {
	switch {
	case outsideIDs[s.id]:
		return outsidePart
	case neitherIDs[s.id] || ofCut(s.id) || ofBody(s):
		return ""
	}
	return insidePart
}

// alone offers the worst member of either system where each is to carry alone.
// Nothing is shared then, so every check was made under the full pressure.
func (j *job) alone(worst *worstOf) {
	if !j.p.Strengthening.EitherAlone {
		return
	}
	why := map[string]string{}
	if !j.hasRibs() {
		why[insidePart] = "there is no system inside: give the ribs a spacing"
	}
	if !j.hasSkin() {
		why[outsidePart] = "there is no skin outside: give a stud skin or a concrete one"
	}
	for _, part := range [...]string{insidePart, outsidePart} {
		if why[part] != "" {
			worst.missing(aloneID, aloneTitle, part, "", why[part])
			continue
		}
		c, ok := worst.member(part)
		if !ok {
			worst.missing(aloneID, aloneTitle, part, "", "no stage has fill against the box")
			continue
		}
		of := c
		c.slot = slot{aloneID, part}
		c.write = func() (check.Check, error) { return aloneCheck(of) }
		worst.add(c)
	}
}

// member is the worst check of a system: beyond limits before not checked
// before within.
func (w *worstOf) member(part string) (out candidate, found bool) {
	for _, s := range w.order {
		c := w.best[s]
		if systemOf(s) != part {
			continue
		}
		if !found || c.rank() > out.rank() || c.rank() == out.rank() && c.ratio > out.ratio {
			out, found = c, true
		}
	}
	return out, found
}

// aloneCheck writes the worst member of a system as the check of the system.
func aloneCheck(of candidate) (check.Check, error) {
	c, err := of.write()
	if err != nil {
		return c, err
	}
	title := c.Title
	if c.Missing != "" {
		return check.Unchecked(aloneID, aloneTitle, "", of.part+", "+title+": "+c.Missing), nil
	}
	c.ID, c.Title = aloneID, aloneTitle+": "+of.part+", "+title
	c.Method = "Worst member of the system under the full pressure: " + c.Method
	c.Assumptions = append([]string{"The other system carries nothing; nothing is shared between the two."}, c.Assumptions...)
	if math.IsNaN(c.Worst()) {
		return check.Unchecked(aloneID, aloneTitle, "", of.part+", "+title+" has no ratio"), nil
	}
	return c, nil
}
