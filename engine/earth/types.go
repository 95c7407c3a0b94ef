// Package earth computes what soil and water press on the faces of a box:
// coefficients, pressure down a face through layers, slope and water,
// surcharges, compaction, load through the cover on a roof, earthquake.
//
// z is a level (up); depths run down from the surface. Pressure is positive
// towards the wall. Angles are radians. Effective stress is total stress less
// pore pressure.
package earth

// GammaW is the unit weight of water, kN/m3.
const GammaW = 9.81

// Layer is one soil in a column beside a face.
type Layer struct {
	Name        string
	Top, Bottom float64 // levels, m; Top > Bottom
	Gamma       float64 // moist unit weight, kN/m3
	GammaSat    float64 // saturated unit weight, kN/m3
	Phi         float64 // effective friction angle, rad
	Cohesion    float64 // effective cohesion, kPa
	OCR         float64 // overconsolidation ratio, at least 1
}

// Column is the soil beside a face, from the surface down.
type Column struct {
	Layers []Layer // from the top down, contiguous
	Water  float64 // level of still water, m; -Inf for none
	// Left is the share of the still-water pressure that is left where water
	// flows down to a drain, above 0 to 1; 0 counts as 1.
	Left float64
	Q    float64 // wide uniform surcharge on the surface, kPa
	Beta float64 // slope of the surface, rad, + rising away from the face

	// KFloor is the least ratio of horizontal to vertical effective stress that
	// cohesion may bring the active pressure down to; 0 is none.
	KFloor float64
	// CrackWater fills the tension crack of cohesive soil with water up to the
	// surface. It concerns the active state only.
	CrackWater bool
}

// State is how far the wall yields.
type State int

// The states of earth pressure.
const (
	AtRest State = iota // the wall is held: no movement
	Active              // the wall may move away from the soil
)

// Row is the pressure on a face at one level, kPa. At a layer boundary there
// are two rows at the same level, the upper layer's first.
type Row struct {
	Level      float64
	Depth      float64 // below the surface, m; negative above it
	SigmaV     float64 // effective vertical stress, with the wide surcharge
	U          float64 // water pressure
	K          float64 // horizontal over vertical effective stress, cohesion apart
	Soil       float64 // horizontal effective pressure of soil and wide surcharge
	Surcharge  float64 // from strips, lines and wheels
	Compaction float64 // what compaction adds above Soil
	Quake      float64
	Total      float64 // Soil + U + Surcharge + Compaction + Quake
	Layer      string
}

// Diagram is pressure down a face, rows from the top down; linear between
// neighbouring rows.
type Diagram []Row
