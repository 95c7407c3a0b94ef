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
	RoofDent float64 `json:"roof_dent,omitempty"`
	// SideDent and EndDent are the depths of the deepest dent of the long walls
	// and of the blind end, mm.
	SideDent float64 `json:"side_dent,omitempty"`
	EndDent  float64 `json:"end_dent,omitempty"`
	Patched  bool    `json:"patched,omitempty"` // sheets welded over or straightened
	// RustIn is what eats the steel from outside: a row of the corrosion table;
	// empty takes fill, by how its compaction is proven.
	RustIn string `json:"rust_in,omitempty"`
	// RustBoth is true when the room side rusts as fast as the soil side.
	RustBoth bool `json:"rust_both,omitempty"`
	// DoorFill is how high earth lies against the doors above the underside of
	// the box, m; 0 keeps them free.
	DoorFill  float64   `json:"door_fill,omitempty"`
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
	// Bar is the row of the bar table that frames it all round.
	Bar string `json:"bar,omitempty"`
}

// Kinds of bedding.
const (
	PadBedding  = "pads" // pads under the four corner castings on a rock bed
	RockBedding = "rock" // full rock bed
	SlabBedding = "slab" // concrete slab
)

// Bedding is what the box stands on.
type Bedding struct {
	Kind         string  `json:"kind"`
	PadLength    float64 `json:"pad_length"`    // along the box, m
	PadWidth     float64 `json:"pad_width"`     // across the box, m
	PadThickness float64 `json:"pad_thickness"` // m
	// PadFc is the cylinder strength of the concrete of pads or slab, MPa; 0 is
	// not given.
	PadFc float64 `json:"pad_fc,omitempty"`
	// SlabBar is the diameter of the bars both ways near the underside of a slab,
	// mm; 0 is plain.
	SlabBar        float64 `json:"slab_bar,omitempty"`
	SlabBarSpacing float64 `json:"slab_bar_spacing,omitempty"` // m
	SlabBarCover   float64 `json:"slab_bar_cover,omitempty"`   // clear cover on the ground side, m

	RockThickness float64 `json:"rock_thickness"`
	RockSoil      string  `json:"rock_soil"` // id of a soil
	// Graded is true where the bed rock is graded, false where it is of one size.
	Graded bool `json:"graded"`
	// MaxSettle, MaxTilt and MaxTwist are how far the box may go down, mm, tilt, m
	// per m, and one corner leave the plane of the others, mm; 0 takes the table.
	MaxSettle float64 `json:"max_settle,omitempty"`
	MaxTilt   float64 `json:"max_tilt,omitempty"`
	MaxTwist  float64 `json:"max_twist,omitempty"`
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
	Pump      float64            `json:"pump,omitempty"`    // what the pumps lift together while it is open, litres a minute; 0 not given
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
	// Grade is the row of the geofoam table of a light fill.
	Grade string `json:"grade,omitempty"`
}

// Strengthening is what is added so that the box holds.
type Strengthening struct {
	Ribs        Ribs     `json:"ribs"`
	Wales       []Wale   `json:"wales,omitempty"`
	BackWales   []Wale   `json:"back_wales,omitempty"` // inside the back wall, corner post to corner post
	Stud        StudSkin `json:"stud_skin"`
	Cavity      Cavity   `json:"cavity"`
	RoofSlab    RoofSlab `json:"roof_slab"`
	EitherAlone bool     `json:"either_alone"`
}

// How the bars of a rib are joined.
const (
	RigidJoints  = "rigid"  // welded to the full strength of the bars: a portal
	PinnedJoints = "pinned" // each bar spans by itself
)

// Ribs are sets of bars inside the box at one spacing: two posts, a roof beam
// and a floor tie, either of which may be left out; cross struts from post to
// post; purlins run along the box under the roof sheet, from rib to rib.
type Ribs struct {
	Spacing  float64 `json:"spacing"` // m; 0 is none
	Post     string  `json:"post"`    // row of the bar table
	RoofBeam string  `json:"roof_beam"`
	FloorTie string  `json:"floor_tie"`
	Purlins  int     `json:"purlins,omitempty"` // number, evenly spaced across the roof
	Purlin   string  `json:"purlin,omitempty"`  // row of the bar table
	// Joints is RigidJoints or PinnedJoints; empty is rigid where both roof
	// beam and floor tie are given, else pinned.
	Joints string  `json:"joints,omitempty"`
	Struts []Strut `json:"struts,omitempty"` // at every rib, from the bottom up
}

// Rigid tells whether the ribs are portals.
func (r *Ribs) Rigid() bool {
	return r.RoofBeam != "" && r.FloorTie != "" && r.Joints != PinnedJoints
}

// Strut is a bar across the room from wall to wall.
type Strut struct {
	Height  float64 `json:"height"` // above the bottom rail, m
	Section string  `json:"section"`
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

// Fillings of a cavity.
const (
	GravelFill   = "gravel"
	ConcreteFill = "concrete"
)

// Cavity is a filled space outside the two long walls and the blind end. Pea
// gravel drains and has no strength; concrete is a skin, plain or with bars.
type Cavity struct {
	Width      float64 `json:"width,omitempty"`       // m; 0 is none
	Fill       string  `json:"fill,omitempty"`        // GravelFill or ConcreteFill
	Fc         float64 `json:"fc,omitempty"`          // cylinder strength of the concrete, MPa
	Lift       float64 `json:"lift,omitempty"`        // height of one pour, m
	Propped    bool    `json:"propped,omitempty"`     // the walls are propped inside while it is poured
	Bar        float64 `json:"bar,omitempty"`         // diameter of upright bars near the room side, mm; 0 is plain
	BarSpacing float64 `json:"bar_spacing,omitempty"` // m
	BarCover   float64 `json:"bar_cover,omitempty"`   // clear cover on the room side, m
}

// RoofSlab is what carries the cover past the box on posts of its own: a
// concrete slab, or beams across with a deck.
type RoofSlab struct {
	Thickness  float64 `json:"thickness,omitempty"`   // of the slab, m; 0 is none
	Fc         float64 `json:"fc,omitempty"`          // MPa
	Bar        float64 `json:"bar,omitempty"`         // diameter of the bottom bars across, mm
	BarSpacing float64 `json:"bar_spacing,omitempty"` // m
	BarCover   float64 `json:"bar_cover,omitempty"`   // m
	// CrossBeam is a row of the bar table: beams across instead of the slab, at
	// CrossSpacing, with a deck of plywood between them (row Deck).
	CrossBeam    string  `json:"cross_beam,omitempty"`
	CrossSpacing float64 `json:"cross_spacing,omitempty"` // m
	Deck         string  `json:"deck,omitempty"`
	// EdgeBeam runs along both long sides over the posts.
	EdgeBeam string  `json:"edge_beam,omitempty"`
	Post     string  `json:"post,omitempty"`    // row of the bar table
	Spacing  float64 `json:"spacing,omitempty"` // of the posts along the box, m
	Gap      float64 `json:"gap,omitempty"`     // clear distance of the posts from the walls, m
	Footing  float64 `json:"footing,omitempty"` // side of the square pad under a post, m
}

// Given tells whether there is such a roof.
func (s *RoofSlab) Given() bool { return s.Thickness > 0 || s.CrossBeam != "" }

// Defence keeps the water away.
type Defence struct {
	Layers []DefenceLayer `json:"layers,omitempty"`
	Drain  Drain          `json:"drain"`
	Sump   Sump           `json:"sump"`
	Runoff Runoff         `json:"runoff"`
}

// DefenceLayer is a coating, membrane or foam on the steel.
type DefenceLayer struct {
	Kind      string  `json:"kind"` // coating, membrane, foam, board
	Name      string  `json:"name"`
	Thickness float64 `json:"thickness"` // m
	// Life is how many years it keeps the ground off the steel; 0 counts none.
	Life float64 `json:"life,omitempty"`
	// Row is the row of the table of membranes; empty for other layers.
	Row string `json:"row,omitempty"`
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
	// UphillAway and UphillDepth place the interceptor: from the crest of the
	// cut into the hill, and below the ground as found, m.
	UphillAway  float64 `json:"uphill_away,omitempty"`
	UphillDepth float64 `json:"uphill_depth,omitempty"`
	Swale       bool    `json:"swale,omitempty"`
	// Pipe is the row of the table of pipes; the bore above is that of the pipe
	// bought.
	Pipe  string `json:"pipe,omitempty"`
	Camp  bool   `json:"camp,omitempty"`  // roughness grows in a pipe that is not full
	Laser bool   `json:"laser,omitempty"` // its bed is set by laser
	// Edge is how far downhill of the front of the box the outlet pipe may run, m;
	// 0 is to the end of the ground line.
	Edge  float64 `json:"edge,omitempty"`
	Cloth Cloth   `json:"cloth"`
	// Washed is true where the drain stone is washed and of one size.
	Washed bool `json:"washed,omitempty"`
}

// Cloth is the filter cloth between soil and drain stone.
type Cloth struct {
	AOS          float64 `json:"aos,omitempty"`          // apparent opening size, mm; 0 not known
	Permittivity float64 `json:"permittivity,omitempty"` // 1/s; 0 not known
	K            float64 `json:"k,omitempty"`            // permeability, m/s; 0 not known
	Woven        bool    `json:"woven,omitempty"`
	Signed       bool    `json:"signed,omitempty"` // a designer answers for it
}

// Sump is the basin that a pump empties, and what drives the pump.
type Sump struct {
	Live       float64 `json:"live,omitempty"`       // depth between the levels at which the pump starts and stops, m
	Rate       float64 `json:"rate,omitempty"`       // of the pump at its head, litres a minute
	Lift       float64 `json:"lift,omitempty"`       // from the low level to the outlet, m
	Riser      string  `json:"riser,omitempty"`      // row of the table of pump pipes
	RiserLen   float64 `json:"riser_len,omitempty"`  // m
	Fittings   float64 `json:"fittings,omitempty"`   // sum of the loss coefficients
	Efficiency float64 `json:"efficiency,omitempty"` // of pump and motor together
	Battery    float64 `json:"battery,omitempty"`    // Wh
	Panels     float64 `json:"panels,omitempty"`     // W at full sun
	SunHours   float64 `json:"sun_hours,omitempty"`  // full hours of sun a day in the wettest month
	Days       float64 `json:"days,omitempty"`       // without sun
	Reaction   float64 `json:"reaction,omitempty"`   // hours from a stop until somebody has mended it
}

// Runoff is the surface water that comes down to the box.
type Runoff struct {
	Area      float64 `json:"area,omitempty"`       // that drains to the swale, m2
	Cover     string  `json:"cover,omitempty"`      // row of the table of runoff coefficients
	Curve     string  `json:"curve,omitempty"`      // row of the table of curve numbers
	Group     string  `json:"group,omitempty"`      // hydrologic soil group: A, B, C, D
	Length    float64 `json:"length,omitempty"`     // longest way of the water, m
	Slope     float64 `json:"slope,omitempty"`      // of that way
	Years     float64 `json:"years,omitempty"`      // return period of the storm
	Rain24    float64 `json:"rain_24,omitempty"`    // depth of a day, mm
	Bottom    float64 `json:"bottom,omitempty"`     // width of the bottom of the swale, m
	SwaleSide float64 `json:"swale_side,omitempty"` // H:V of its sides
	SwaleFall float64 `json:"swale_fall,omitempty"`
	SwaleRoom float64 `json:"swale_room,omitempty"` // its depth, m
	Lining    string  `json:"lining,omitempty"`     // row of the table of linings
	Erodes    bool    `json:"erodes,omitempty"`     // its soil erodes easily
}

// WingWalls are dry-stacked block walls each side of the entrance, one block
// thick, tall at the box and stepped down outwards with the fill behind them.
type WingWalls struct {
	Courses     int     `json:"courses,omitempty"`      // at the box; 0 is none
	BlockLength float64 `json:"block_length,omitempty"` // along the wall, m
	BlockWidth  float64 `json:"block_width,omitempty"`  // from face to back, m
	BlockHeight float64 `json:"block_height,omitempty"` // m
	Splay       float64 `json:"splay,omitempty"`        // degrees in plan from the line of the front
	Length      float64 `json:"length,omitempty"`       // of each wall, m
	Batter      float64 `json:"batter,omitempty"`       // degrees back from vertical
	// Embed is how far the underside of the lowest course lies below the
	// formation, m.
	Embed    float64 `json:"embed,omitempty"`
	BaseRock float64 `json:"base_rock,omitempty"` // rock of the bed under the lowest course, m
}

// Given tells whether there are wing walls.
func (w *WingWalls) Given() bool { return w.Courses > 0 }
