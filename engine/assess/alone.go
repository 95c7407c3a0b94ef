package assess

import (
	"context"
	"math"
	"slices"
	"strings"

	"hillset/engine/check"
	"hillset/engine/model"
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
var outsideIDs = map[string]bool{"stud": true, "stud-deflection": true, plyID: true, plySagID: true, concreteGap.id: true, concreteSagID: true, skinFootID: true}

// insideParts are how the names of the parts of the steel box, and of what
// stands inside it, begin.
var insideParts = []string{"left side wall", "right side wall", "back wall", "long wall", "roof", "rib", "cross ", "corner post", "corner casting", "floor", "rails",
	"wale", "door", "blind end", "front", "end frame", "opening", "sheet", "header", "sill"}

// neitherParts are how those begin that the pressure on the walls does not
// reach, or not as one of the two systems.
var neitherParts = []string{slabPart, padsPart, lightPart, "box", "pads", "fill", "room", "concrete of the pads", "rock bed", "hillside", naturalPart, finishedPart, leftFill, rightFill, "water", "wing wall", leftWing, rightWing}

// systemOf is the system that a check belongs to: all that is checked of the
// steel box and what stands inside it is the one, the skin outside the other. A
// check of a part that is not known counts with the steel, so that nothing is
// hidden; known is false then.
func systemOf(s slot) (part string, known bool) {
	begins := func(with string) bool { return strings.HasPrefix(s.part, with) }
	switch {
	case outsideIDs[s.id]:
		return outsidePart, true
	case s.id == pourGap.id || s.id == aloneID || ofCut(s.id) || ofDrainage(s) || ofHillside(s.id) || slices.ContainsFunc(neitherParts, begins):
		return "", true
	}
	return insidePart, slices.ContainsFunc(insideParts, begins)
}

// alone offers the worst member of either system where each is to carry alone.
// The other one is taken away for it and the whole box worked once more: a skin
// leans on rails, header and roof, which ribs, wales and purlins no longer help.
// The skin itself was checked under the full pressure already.
func (j *job) alone(ctx context.Context, worst *worstOf) {
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
		of, ok, err := j.without(ctx, part)
		if err != nil {
			worst.fault(slot{aloneID, part}, aloneTitle, "", "without the other system it could not be worked out: ", err)
			continue
		}
		if part == outsidePart {
			if skin, found := worst.member(outsidePart); found && (!ok || skin.worse(&of)) {
				of, ok = skin, true
			}
		}
		if !ok {
			worst.missing(aloneID, aloneTitle, part, "", "no stage has fill against the box")
			continue
		}
		c := of
		c.slot = slot{aloneID, part}
		c.write = func() (check.Check, error) { return aloneCheck(of) }
		worst.add(c)
	}
}

// without works the box with nothing but one of the two systems and gives the
// worst member of its steel; false where nothing presses.
func (j *job) without(ctx context.Context, part string) (candidate, bool, error) {
	p := j.p.Clone()
	s := &p.Strengthening
	s.EitherAlone = false
	if part == insidePart {
		s.Stud, s.Cavity = model.StudSkin{}, model.Cavity{}
	} else {
		s.Ribs, s.Wales, s.BackWales = model.Ribs{}, nil, nil
	}
	k, err := newJobIn(ctx, p, j.t, j.field) // what is built in does not move the water
	if err != nil {
		return candidate{}, false, err
	}
	k.drawn, k.heavier = j.drawn, j.heavier
	worst := newWorst()
	k.work(ctx, worst)
	c, ok := worst.member(insidePart)
	return c, ok, ctx.Err()
}

// member is the worst check of a system: beyond limits before not checked
// before within.
func (w *worstOf) member(part string) (out candidate, found bool) {
	for _, s := range w.order {
		c := w.best[s]
		if of, _ := systemOf(s); of != part {
			continue
		}
		if !found || c.worse(&out) {
			out, found = *c, true
		}
	}
	return out, found
}

// worse orders candidates as worstOf keeps them.
func (c *candidate) worse(than *candidate) bool {
	return worse(c.ratio, than.ratio)
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
	c.Assumptions = append([]string{"The other system is taken away: it carries nothing, and nothing is shared between the two."}, c.Assumptions...)
	if math.IsNaN(c.Worst()) {
		return check.Unchecked(aloneID, aloneTitle, "", of.part+", "+title+" has no ratio"), nil
	}
	return c, nil
}
