// Package tables holds the embedded tables of values: soils, boxes, sheets,
// bars, plant, vehicles, legal slopes. Each row names its source and says how
// far that source was seen (read, second-hand, derived, memory, common
// practice). Values are converted to SI when a table is read.
package tables

// Mark says how far the source of a row was seen.
type Mark string

// The marks used in the source columns.
const (
	Verified   Mark = "verified"        // the source itself was read
	SecondHand Mark = "second-hand"     // a copy or a quotation was read
	Derived    Mark = "derived"         // computed from the named formula
	Memory     Mark = "memory"          // known, not read; confirm before relying on it
	Practice   Mark = "common practice" // a rule of the trade without a source
)

// Source is where a row comes from. Mark is that of the weakest value of the
// row; Text says which values are better founded.
type Source struct {
	Text string
	Mark Mark
}

// Soil is the default set of values of one soil class.
type Soil struct {
	Class    string // USCS group symbol, or a name such as "drain-stone"
	Name     string
	Gamma    float64 // moist, kN/m3
	GammaSat float64 // kN/m3
	Phi      float64 // degrees
	Cohesion float64 // kPa, design value (0 for fill)
	DeltaSt  float64 // degrees
	DeltaCo  float64 // degrees
	E        float64 // kPa
	Nu       float64
	DigClass string  // A, B, C, rock
	Bearing  float64 // presumptive, kPa; 0 none given
	// CodeActive and CodeAtRest are the equivalent fluid weights of the
	// building code, kN/m3; 0 where the code does not allow the soil as fill.
	CodeActive, CodeAtRest float64

	// Dry unit weight (kN/m3), water content (share of the dry weight) and
	// specific gravity of the grains: what Gamma and GammaSat are derived from.
	Dry, Moisture, Gs float64
	PhiTable          float64 // published average that Phi was lowered from, degrees; 0 none
	Kx, Kz            float64 // permeability, m/s, an order of magnitude only
	D15, D50, D85     float64 // grading, mm; 0 not known
	Src               Source
}

// Box is one container type.
type Box struct {
	ID, Name             string
	L, W, H              float64 // outside, m
	InL, InW, InH        float64 // inside, m
	Rating, Tare         float64 // kg
	SideSheet, EndSheet  string  // rows of Sheets
	RoofSheet, DoorSheet string
	TopRail, BottomRail  string // rows of Bars
	EndHeader, EndSill   string
	CrossMember          string
	PostStrength         float64 // kN, lower bound of one corner post
	CastL, CastW, CastH  float64 // corner casting, m
	UnderClearance       float64 // cross members above the casting faces, m
	Src                  Source
}

// Sheet is one corrugated sheet: outer flat A, slope of plan length S, inner
// flat B, overall depth D, thickness T (all m), trapezoids of pitch A+B+2S.
type Sheet struct {
	ID, Name      string
	A, S, B, D, T float64
	Src           Source
}

// Bar is one steel bar: hollow section, channel or angle. Values that are
// zero are computed by package steel from the shape.
type Bar struct {
	ID, Name string
	Shape    string  // shs, rhs, c, flat
	H, B, T  float64 // depth, width, thickness, m
	Lip      float64 // second flange of an unequal channel, m
	Src      Source
}

// Grade is a steel grade.
type Grade struct {
	ID, Name string
	Fy, Fu   float64 // kPa
	E        float64 // kPa
	Src      Source
}

// Plant is one compaction machine; P is (static weight + centrifugal force)
// per metre of drum or plate width, kN/m.
type Plant struct {
	ID, Name string
	P        float64
	Width    float64 // drum or plate length L, m
	Src      Source
}

// Wheel is one wheel or track footprint of a vehicle: position relative to
// the reference axle (u forward, v to the right), load and footprint.
type Wheel struct {
	U, V float64 // m
	P    float64 // kN
	A, B float64 // footprint along u and v, m
}

// Vehicle is one machine with its wheels or tracks.
type Vehicle struct {
	ID, Name string
	Wheels   []Wheel
	Src      Source
}

// DigRule is the steepest allowed slope of one excavation class.
type DigRule struct {
	Class    string  // rock, A, B, C
	N        float64 // horizontal run per unit rise
	MaxDepth float64 // m
	ShortN   float64 // slope allowed when open no longer than ShortHours; 0 none
	ShortMax float64 // m
	ShortHrs float64
	Src      Source
}

// Interface is the friction of one pair of materials; Min and Max are the
// ends of the published range.
type Interface struct {
	ID, Against, Soil string
	Min, Max          float64 // degrees
	Src               Source
}

// PowerLine is the least clearance of plant from lines of up to KV.
type PowerLine struct {
	KV        float64 // upper bound of the row, included
	Clearance float64 // m
	Src       Source
}
