package assess

import (
	"slices"
	"strings"

	"hillset/engine/check"
	"hillset/engine/model"
)

// roughWords say how far a check may be trusted whose water is less exact. The
// figures are those of sections at random solved in both ways.
const roughWords = "The water of this stage hangs on thin films over tight ground and is less exact: the flow may be off by up to a quarter, as a rule too high, and the water may stand some decimetres off."

// roughAt tells whether the computed water of a stage is less exact.
func (j *job) roughAt(st model.Stage) bool { return j.field != nil && j.field.Rough(st) }

// tellRough says in the checks that take their water from a flow that is less
// exact that they do.
func (j *job) tellRough(cs []check.Check) {
	rough := map[string]bool{}
	for _, st := range j.p.Stages {
		rough[st.ID] = j.roughAt(st)
	}
	for i := range cs {
		if c := &cs[i]; rough[c.Stage] && c.Verdict() != check.NotChecked && feelsWater(slot{c.ID, c.Part}) && !strings.Contains(c.Validity, roughWords) {
			c.Validity = strings.TrimSpace(c.Validity + " " + roughWords)
		}
	}
}

// dryIDs are the checks that no ground water comes to: rules of how a drain is
// laid, gradings, concrete as it is poured, and sheet that carries the roof. All
// others count as taking it, so that nothing is hidden.
var dryIDs = []string{"drain-fall", "drain-openings", "drain-layout", "filter-classic", "filter-band", "filter-cloth", "swale", "cross-member", "roof-sheet", "roof-deflection", pourGap.id}

func feelsWater(s slot) bool {
	return !slices.Contains(dryIDs, s.id) && s.part != slabPart && s.part != padsPart
}
