package steel

import (
	"fmt"

	"hillset/engine/quantity"
)

// maxDentShare is the share of the depth of a corrugation that a dent may take
// (our own limit, no source): with less than a third left the slopes lie so
// flat that the flats are no longer held along their bends, and what is left is
// a buckled plate, no corrugated sheet.
const maxDentShare = 2.0 / 3

// MaxDent is the deepest dent, m, that leaves a corrugated sheet.
func (p Profile) MaxDent() float64 { return maxDentShare * p.H }

// Dented is the profile of a strip whose crests are pushed in by a dent, m: the
// depth of the midline less the dent, flats and pitch as they were (derived;
// our own model, on the careful side, since only the crests that were hit are
// flattened). A dent that leaves no corrugated sheet is refused.
func (p Profile) Dented(dent float64) (Profile, error) {
	if err := p.check(); err != nil {
		return p, err
	}
	if err := quantity.Within("dent of the sheet", dent, 0, p.MaxDent(), quantity.Thickness); err != nil {
		return p, fmt.Errorf("%w: it takes more than two thirds of the depth of the corrugations, and no corrugated sheet is left", err)
	}
	p.H -= dent
	return p, p.check()
}
