package assess

import (
	"slices"
	"strings"
)

// idea is a kind of change, with the checks that it is for.
type idea struct {
	helps func(a *adviser, s *state, c slot) bool
	make  func(a *adviser, s *state, of []slot) ([]outcome, error)
	aside bool // a chain tries it only where none of the others brings the check within limits
	heavy bool // one that weighs much, and is sized anew at the end of a chain
}

// tryIdea tries an idea on a state for all checks that ask for it; nothing
// where none does.
func (a *adviser) tryIdea(i int, s *state) ([]outcome, error) {
	var of []slot
	for _, c := range wrong(&s.tr) {
		if ideas[i].helps(a, s, c) {
			of = append(of, c)
		}
	}
	if len(of) == 0 {
		return nil, nil
	}
	out, err := ideas[i].make(a, s, of)
	for k := range out {
		out[k].idea = i
	}
	return slices.DeleteFunc(out, func(o outcome) bool { return o.p == nil || !o.tr.helps(&s.tr, of) }), err
}

// helps tells whether a trial brings one of some checks within limits or nearer
// than it was before.
func (tr *trial) helps(before *trial, of []slot) bool {
	return tr.why == "" && slices.ContainsFunc(of, func(c slot) bool {
		return better(tr.ratioAt(c), before.ratioAt(c))
	})
}

// ideas are all kinds of change that are tried, in a fixed order.
var ideas = []idea{
	{helps: idsOf(batterID), make: byBatter},
	{helps: idsOf("spoil"), make: bySpoil},
	{helps: idsOf("trench-egress"), make: byLadders},
	{helps: idsOf("flotation", "sliding", "overturning", "resultant", "sliding-across", "tipping-across"), make: byBallast, heavy: true},
	{helps: idsOf("sliding", "overturning", "resultant"), make: byProof},
	{helps: idsOf("sliding", "overturning", "resultant", "flotation"), make: byPlace},
	{helps: idsOf("sliding"), make: byToe, heavy: true},
	{helps: idsOf("sliding"), make: byPlaceAndToe},
	{helps: idsOf("sliding", "flotation", "overturning"), make: byBallastAndPads},
	{helps: func(_ *adviser, _ *state, c slot) bool { return c.id == padBearing || ofSettling(c) }, make: byPads, heavy: true},
	{helps: func(_ *adviser, _ *state, c slot) bool { return ofSettling(c) }, make: byBed, heavy: true},
	{helps: idsOf(wingHeightID), make: byCourses},
	{helps: idsOf(wingSlideID, wingJointID, wingOverID, wingMidID, wingBearID, wingAloneID), make: byBlocks},
	{helps: idsOf(wingSlideID, wingBearID, wingAloneID), make: byBaseRock},
	{helps: idsOf(wingSlideID, wingBearID, wingAloneID), make: byBlocksOnRock},
	{helps: ofFrame, make: byFrame},
	{helps: ofEnd, make: byBack},
	{helps: underCover, make: byCover},
	{helps: underCover, make: byLightFill},
	{helps: besideFill, make: byBackfill},
	{helps: besideFill, make: byPlant},
	{helps: besideFill, make: byLead},
	{helps: ofSteel, make: byMembrane},
	{helps: idsOf(crossSlot.id), make: byCoating},
	{helps: underWater, make: byDrain},
	{helps: underWater, make: byUphill},
	{helps: ofFrame, make: byPinned, aside: true},
	{helps: ofWalls, make: byStuds, aside: true},
	{helps: ofWalls, make: byConcrete, aside: true},
	{helps: ofCover, make: byOwnRoof, aside: true},
}

// idsOf is for checks of some ids.
func idsOf(ids ...string) func(*adviser, *state, slot) bool {
	return func(_ *adviser, _ *state, c slot) bool {
		for _, id := range ids {
			if c.id == id {
				return true
			}
		}
		return false
	}
}

// ofFrame is for what ribs, wales and purlins hold: the long walls, the roof,
// the sway of the ends, and they themselves.
func ofFrame(_ *adviser, s *state, c slot) bool {
	return longWall(s.p, c.part) && !strings.HasSuffix(c.part, " skin") || underRoof(c) || c.part == strutPart || c.part == insidePart || c.id == "end-frame"
}

// underRoof are the roof, what carries it, and the ribs.
func underRoof(c slot) bool {
	return c.part != slabPart && strings.HasPrefix(c.part, "roof") || strings.HasPrefix(c.part, "rib")
}

// underCover is for what the cover on the roof presses on.
func underCover(_ *adviser, _ *state, c slot) bool {
	return underRoof(c) || c.id == padBearing || c.id == settleSlot.id || c.id == "girder" || strings.Contains(c.part, ", top rail") || strings.Contains(c.part, ", header") || strings.HasPrefix(c.part, "corner posts")
}

// besideFill is for what the fill presses on from the sides.
func besideFill(_ *adviser, s *state, c slot) bool {
	return longWall(s.p, c.part) || endWall(s.p, c.part) || underRoof(c) || c.part == outsidePart || c.id == "end-frame" || strings.HasPrefix(c.part, "corner posts") || ofBody(c) && c.id != padBearing && c.id != settleSlot.id && c.id != twistSlot.id && c.id != "flotation"
}

// ofSteel is for the parts of the box that rust.
func ofSteel(_ *adviser, _ *state, c slot) bool { return (rated{slot: c}).ofPart() }
