package assess

import "hillset/engine/section"

// Bay is a patch of a panel of the box, seen flat from the room, with the
// worst check of one part there.
type Bay struct {
	Panel section.Face // a face of the box, or one of the panels below
	// From and To bound the patch along the panel, m: from the front end for
	// the long sides, roof and floor, from the left looking into the hill for
	// the ends. Low and High bound it across: above the underside of the box for
	// walls, from the left looking at the blind end for roof and floor.
	From, To, Low, High float64
	Bar                 bool   // a bar, not a sheet
	Part                string // as in the checks
	ID                  string // of the check that is worst there
	Title               string
	Stage               string
	Ratio               float64 // NaN where it could not be checked
}

// Panels of what stands outside the box.
const (
	LeftSkin  section.Face = "left skin" // measured as the face behind it
	RightSkin section.Face = "right skin"
	BackSkin  section.Face = "back skin"
	OverRoof  section.Face = "over the roof" // measured as the roof
	// The wing walls as seen from the yard: along them from the left, so that the
	// box stands at the right of the left one; above the underside of the lowest
	// course.
	LeftWing  section.Face = leftWing
	RightWing section.Face = rightWing
)

// Panel is a face of the box laid flat, in m: its length along the panel and
// its height, or its width for roof and floor, as Bay measures them.
type Panel struct {
	Face           section.Face
	Length, Height float64
}
