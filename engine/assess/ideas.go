package assess

import "strings"

// ideas are all kinds of change that are tried, in a fixed order.
var ideas = []idea{
	{helps: idsOf(batterID), make: byBatter},
	{helps: idsOf("spoil"), make: bySpoil},
	{helps: idsOf("trench-egress"), make: byLadders},
	{helps: bodyOf("flotation", "sliding", "overturning", "resultant"), make: byBallast},
	{helps: bodyOf("sliding", "overturning", "resultant"), make: byProof},
	{helps: bodyOf("sliding", "overturning", "resultant", "flotation"), make: byPlace},
	{helps: bodyOf("sliding"), make: byToe},
	{helps: bodyOf("sliding"), make: byPlaceAndToe},
	{helps: idsOf(padBearing), make: byPads},
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

// bodyOf is for checks of some ids of the box as a body.
func bodyOf(ids ...string) func(*adviser, *state, slot) bool { return idsOf(ids...) }

// partsOf is for checks of parts whose names begin alike.
func partsOf(prefixes ...string) func(*adviser, *state, slot) bool {
	return func(_ *adviser, _ *state, c slot) bool {
		for _, p := range prefixes {
			if strings.HasPrefix(c.part, p) {
				return true
			}
		}
		return false
	}
}
