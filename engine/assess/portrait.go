package assess

import (
	"hillset/geom"
)

// Portrait is what the steel in a section does at one stage and station: the
// axes of its members with their movement, moments and thrusts.
type Portrait struct {
	Stage   string
	Station float64 // x of a cross section; NaN for the long section
	Members []Drawn
	// Out says which parts have no lines here, and why.
	Out []string
}

// Drawn is one member of a portrait. All slices are as long as Axis.
type Drawn struct {
	Part string
	// Axis are places along the member in the axes of the section, m, and Inside
	// is the direction of the room, a unit vector.
	Axis   []geom.Vec
	Inside geom.Vec
	Move   []geom.Vec // m, service loads
	M      []float64  // kNm, or kNm per m where PerMetre; tension on the room side is positive
	N      []float64  // kN, or kN per m; compression is positive
	// PerMetre is true for sheets, which are drawn a metre wide.
	PerMetre bool
	Beyond   bool // its check is beyond limits: the movement drawn is linear and too small
}
