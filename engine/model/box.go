package model

// Orientations of the box.
const (
	EndOn     = "end-on"    // long axis into the hill, doors downhill
	Broadside = "broadside" // long axis along the contour
)

// Box is the container and where it stands.
type Box struct {
	Type        string  `json:"type"` // row of the box table
	Orientation string  `json:"orientation"`
	Front       float64 `json:"front"`                  // x of the downhill face, m
	Level       float64 `json:"level"`                  // level of the underside of the bottom corner castings, m
	Tare        float64 `json:"tare,omitempty"`         // kg; 0 takes the table value
	Ballast     float64 `json:"ballast,omitempty"`      // kg that stay inside for good: a concrete floor, fixed ballast
	PlateRating float64 `json:"plate_rating,omitempty"` // kg, read from the plate; 0 not read
	SteelKnown  bool    `json:"steel_known"`            // true when the maker's grade is known
	Fy          float64 `json:"fy,omitempty"`           // MPa, yield strength when known; 0 takes the table value of the grade
	// Measured thicknesses, mm; 0 takes the table value for a new box.
	SideT float64 `json:"side_t,omitempty"`
	EndT  float64 `json:"end_t,omitempty"`
	RoofT float64 `json:"roof_t,omitempty"`
	// RoofDent is the deepest lasting sag of the roof sheet, mm.
	RoofDent  float64   `json:"roof_dent,omitempty"`
	Patched   bool      `json:"patched,omitempty"`    // sheets welded over or straightened
	NoFloor   bool      `json:"no_floor,omitempty"`   // the plywood floor is taken out or rotten
	DrainFall float64   `json:"drain_fall,omitempty"` // fall of the floor towards the doors, m per m
	Openings  []Opening `json:"openings,omitempty"`
}

// Opening is a hole cut in a wall.
type Opening struct {
	ID     string  `json:"id"`
	Wall   string  `json:"wall"` // left, right, back, roof
	From   float64 `json:"from"` // distance from the front (or left) end, m
	Width  float64 `json:"width"`
	Sill   float64 `json:"sill"` // height above the floor line, m
	Height float64 `json:"height"`
	Framed bool    `json:"framed"`
}

// Kinds of bedding.
const (
	PadBedding  = "pads" // pads under the four corner castings on a rock bed
	RockBedding = "rock" // full rock bed
	SlabBedding = "slab" // concrete slab
)

// Bedding is what the box stands on.
type Bedding struct {
	Kind          string  `json:"kind"`
	PadLength     float64 `json:"pad_length"`    // along the box, m
	PadWidth      float64 `json:"pad_width"`     // across the box, m
	PadThickness  float64 `json:"pad_thickness"` // m
	RockThickness float64 `json:"rock_thickness"`
	RockSoil      string  `json:"rock_soil"` // id of a soil
	// Graded is true where the bed rock is graded, false where it is of one size.
	Graded bool `json:"graded"`
	// Restraint against sliding beyond friction.
	Toe ToeBeam `json:"toe_beam"`
}

// ToeBeam is a concrete beam under the front sill, cast into the ground.
type ToeBeam struct {
	Depth float64 `json:"depth"` // below the formation, m; 0 is none
	Width float64 `json:"width"` // across the box, m
}

// Cut is the excavation.
type Cut struct {
	WorkBack   float64 `json:"work_back"`   // clear space behind the box at formation, m
	WorkSide   float64 `json:"work_side"`   // clear space on each side, m
	Apron      float64 `json:"apron"`       // level ground in front of the box, m
	Batter     float64 `json:"batter"`      // horizontal run per unit of rise (H:V) of the back face
	SideBatter float64 `json:"side_batter"` // the same for the side faces
	// ByStratum overrides Batter for single strata, by stratum id.
	ByStratum map[string]float64 `json:"by_stratum,omitempty"`
	Benches   []Bench            `json:"benches,omitempty"`
	HoursOpen float64            `json:"hours_open"`        // how long the cut stands open
	Ladders   int                `json:"ladders,omitempty"` // ways out of the gap beside the box; 0 is not stated
	Seepage   bool               `json:"seepage"`           // water seeps from the face
	DryDig    bool               `json:"dry_dig,omitempty"` // the ground is made or found dry below the formation when it is dug
	Fissured  bool               `json:"fissured"`          // cracks or fissures seen, or ground disturbed before
	Spoil     Spoil              `json:"spoil"`
}

// Bench is a level step in the back face.
type Bench struct {
	Height float64 `json:"height"` // above formation, m
	Width  float64 `json:"width"`  // m
}

// Spoil is the heap of dug soil.
type Spoil struct {
	Setback float64 `json:"setback"` // from the crest of the cut, m
	Height  float64 `json:"height"`  // m
}

// Fill is everything that is put back round the box.
type Fill struct {
	// FrontTop and BackTop give the finished surface at the front and the back
	// edge of the roof, measured from the roof, m: positive is cover on the
	// roof, negative leaves the top of the wall clear.
	FrontTop float64 `json:"front_top"`
	BackTop  float64 `json:"back_top"`
	// BackSlope is the rise per metre of the finished surface uphill of the box
	// until it meets the ground.
	BackSlope float64 `json:"back_slope"`
	Shoulder  float64 `json:"shoulder"`       // level width beside the roof in the cross section, m
	SideSlope float64 `json:"side_slope"`     // H:V of the mound beyond the shoulder
	Line      []Vec   `json:"line,omitempty"` // finished surface drawn by the user; overrides the above

	Backfill     string  `json:"backfill"` // soil id of the general backfill
	LiftHeight   float64 `json:"lift_height"`
	Plant        string  `json:"plant"`             // row of the compaction plant table; empty compacts nothing
	PlantSetback float64 `json:"plant_setback"`     // clear distance of the plant from the wall, m
	Proven       bool    `json:"proven_compaction"` // compaction is tested
	MaxAhead     float64 `json:"max_ahead"`         // greatest lead of one side over the other, m
	// SideFriction is the share of wall friction on the sides that is counted
	// as holding the box, 0 to 0.5; it counts only with Proven.
	SideFriction float64 `json:"side_friction"`

	RockWidth float64 `json:"rock_width"` // drainage rock beside the wall, m
	RockTop   float64 `json:"rock_top"`   // its top below the roof, m (negative: above)
	RockSoil  string  `json:"rock_soil"`

	CapThickness     float64 `json:"cap_thickness"` // clay cap
	CapSoil          string  `json:"cap_soil"`
	TopsoilThickness float64 `json:"topsoil_thickness"`
	TopsoilSoil      string  `json:"topsoil_soil"`

	Roof []RoofLayer `json:"roof,omitempty"` // build-up on the roof, from the steel up
}

// RoofLayer is one layer laid on the roof under the soil.
type RoofLayer struct {
	Kind      string  `json:"kind"` // membrane, foam, board, rock, lightfill
	Name      string  `json:"name"`
	Thickness float64 `json:"thickness"`   // m
	Gamma     float64 `json:"unit_weight"` // kN/m3
}

// Strengthening is what is added so that the box holds. Issue of this
// version: ribs, wales and roof beams are checked; the rest is held as data
// and listed as not checked.
type Strengthening struct {
	Ribs        Ribs     `json:"ribs"`
	Wales       []Wale   `json:"wales,omitempty"`
	BackWales   []Wale   `json:"back_wales,omitempty"` // inside the back wall, corner post to corner post
	Stud        StudSkin `json:"stud_skin"`
	Cavity      Cavity   `json:"cavity"`
	RoofSlab    RoofSlab `json:"roof_slab"`
	EitherAlone bool     `json:"either_alone"`
}

// Ribs are complete frames inside the box: two posts, a roof beam, a floor
// tie; purlins run along the box under the roof sheet, from rib to rib.
type Ribs struct {
	Spacing  float64 `json:"spacing"` // m; 0 is none
	Post     string  `json:"post"`    // row of the bar table
	RoofBeam string  `json:"roof_beam"`
	FloorTie string  `json:"floor_tie"`
	Purlins  int     `json:"purlins,omitempty"` // number, evenly spaced across the roof
	Purlin   string  `json:"purlin,omitempty"`  // row of the bar table
}

// Wale is a horizontal bar against the inside of a wall.
type Wale struct {
	Height  float64 `json:"height"` // above the bottom rail, m
	Section string  `json:"section"`
}

// StudSkin is a timber skin outside the walls.
type StudSkin struct {
	Species  string  `json:"species,omitempty"`
	Size     string  `json:"size,omitempty"`
	Spacing  float64 `json:"spacing,omitempty"` // m; 0 is none
	Plywood  string  `json:"plywood,omitempty"`
	Incised  bool    `json:"incised,omitempty"`
	WetInUse bool    `json:"wet_in_use,omitempty"`
}

// Cavity is a filled space outside the walls.
type Cavity struct {
	Width float64 `json:"width,omitempty"` // m; 0 is none
	Fill  string  `json:"fill,omitempty"`  // gravel or concrete
}

// RoofSlab is a slab over the roof on posts of its own.
type RoofSlab struct {
	Thickness float64 `json:"thickness,omitempty"` // m; 0 is none
}

// Defence keeps the water away.
type Defence struct {
	Layers []DefenceLayer `json:"layers,omitempty"`
	Drain  Drain          `json:"drain"`
}

// DefenceLayer is a coating, membrane or foam on the steel.
type DefenceLayer struct {
	Kind      string  `json:"kind"` // coating, membrane, foam, board
	Name      string  `json:"name"`
	Thickness float64 `json:"thickness"` // m
}

// Drain is the perimeter drain.
type Drain struct {
	Present  bool    `json:"present"`
	Diameter float64 `json:"diameter,omitempty"`  // pipe bore, m
	Depth    float64 `json:"depth,omitempty"`     // invert below formation, m
	Fall     float64 `json:"fall,omitempty"`      // m per m
	Outlet   string  `json:"outlet,omitempty"`    // gravity or sump
	SumpBore float64 `json:"sump_bore,omitempty"` // diameter of the basin, m
	Uphill   bool    `json:"uphill_interceptor,omitempty"`
	Swale    bool    `json:"swale,omitempty"`
}

// WingWalls are dry-stacked block walls each side of the entrance.
type WingWalls struct {
	Courses     int     `json:"courses,omitempty"` // 0 is none
	BlockLength float64 `json:"block_length,omitempty"`
	BlockWidth  float64 `json:"block_width,omitempty"`
	BlockHeight float64 `json:"block_height,omitempty"`
	Splay       float64 `json:"splay,omitempty"` // degrees in plan from the line of the front
	Length      float64 `json:"length,omitempty"`
	Batter      float64 `json:"batter,omitempty"` // degrees back from vertical
}
