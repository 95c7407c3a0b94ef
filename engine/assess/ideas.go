package assess

import "strings"

// ideas are all kinds of change that are tried, in a fixed order.
var ideas = []idea{
	{helps: idsOf(batterID), make: byBatter},
	{helps: idsOf("spoil"), make: bySpoil},
	{helps: idsOf("trench-egress"), make: byLadders},
	{helps: idsOf("flotation", "sliding", "overturning", "resultant"), make: byBallast},
	{helps: idsOf("sliding", "overturning", "resultant"), make: byProof},
	{helps: idsOf("sliding", "overturning", "resultant", "flotation"), make: byPlace},
	{helps: idsOf("sliding"), make: byToe},
	{helps: idsOf("sliding"), make: byPlaceAndToe},
	{helps: idsOf(padBearing), make: byPads},
	{helps: ofFrame, make: byFrame},
	{helps: ofEnd, make: byBack},
	{helps: underCover, make: byCover},
	{helps: underCover, make: byLightFill},
	{helps: besideFill, make: byBackfill},
	{helps: besideFill, make: byPlant},
	{helps: besideFill, make: byLead},
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
// and they themselves.
func ofFrame(_ *adviser, s *state, c slot) bool {
	return longWall(s.p, c.part) || underRoof(c)
}

// underRoof are the roof, what carries it, and the ribs.
func underRoof(c slot) bool {
	return strings.HasPrefix(c.part, "roof") || strings.HasPrefix(c.part, "rib")
}

// underCover is for what the cover on the roof presses on.
func underCover(_ *adviser, _ *state, c slot) bool {
	return underRoof(c) || c.id == padBearing || strings.Contains(c.part, ", top rail") || strings.Contains(c.part, ", header") || strings.HasPrefix(c.part, "corner posts")
}

// besideFill is for what the fill presses on from the sides.
func besideFill(_ *adviser, s *state, c slot) bool {
	return longWall(s.p, c.part) || endWall(s.p, c.part) || underRoof(c) || strings.HasPrefix(c.part, "corner posts") || ofBody(c) && c.id != padBearing && c.id != "flotation"
}
