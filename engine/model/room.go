package model

// Room is what is wanted inside the box, and what keeps it so.
type Room struct {
	// Temperature is the one wanted inside, degrees C; nil while it is not given.
	Temperature *float64   `json:"temperature,omitempty"`
	Humid       float64    `json:"humid,omitempty"` // relative humidity wanted inside, share; 0 not given
	Insulation  Insulation `json:"insulation,omitempty"`
	Vents       Vents      `json:"vents,omitempty"`
	People      int        `json:"people,omitempty"`   // that may be inside together; 0 not given
	Activity    string     `json:"activity,omitempty"` // row of the table of people
	Hours       float64    `json:"hours,omitempty"`    // that they may be inside with everything closed, h; 0 not given
}

// Sides of the steel that insulation lies on.
const (
	InsideSteel  = "inside"
	OutsideSteel = "outside"
)

// Insulation lies on walls and roof, on the doors only where it says so.
type Insulation struct {
	Side      string  `json:"side,omitempty"`      // InsideSteel or OutsideSteel; empty is none
	Thickness float64 `json:"thickness,omitempty"` // m
	K         float64 `json:"k,omitempty"`         // conductivity, W/mK
	Mu        float64 `json:"mu,omitempty"`        // resistance to vapour over that of air; 0 not known
	// Retarder is a sheet on the room side, as the layer of air that lets as
	// little vapour through, m; 0 is none.
	Retarder float64 `json:"retarder,omitempty"`
	Doors    bool    `json:"doors,omitempty"` // the doors are insulated alike
}

// Kinds of vents.
const (
	OpeningVents = "openings"
	PipeVents    = "pipes"
)

// Vents are two ways for the air, one low and one high.
type Vents struct {
	Kind  string  `json:"kind,omitempty"`  // OpeningVents or PipeVents; empty is not given
	Apart float64 `json:"apart,omitempty"` // height between them, m
	Low   float64 `json:"low,omitempty"`   // net free area of the low opening, m2
	High  float64 `json:"high,omitempty"`  // net free area of the high opening, m2
	// Pipes have one bore, each a length and the sum of its loss coefficients.
	Bore     float64 `json:"bore,omitempty"`        // m
	LowLen   float64 `json:"low_length,omitempty"`  // m
	HighLen  float64 `json:"high_length,omitempty"` // m
	Fittings float64 `json:"fittings,omitempty"`
}
