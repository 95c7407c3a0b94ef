package model

// Format is the version of the project file that this program writes.
const Format = 1

// Display systems of units. Nothing but the display depends on them.
const (
	Metric = "metric" // metres, kPa
	US     = "us"     // feet and inches, psf
)

// Project is a whole project file.
type Project struct {
	Format  int     `json:"format"`
	Title   string  `json:"title"`
	Sheet   Sheet   `json:"sheet"`
	Display Display `json:"display"`
	// Invented marks demonstration data; every sheet then says so.
	Invented bool `json:"invented,omitempty"`

	Site          Site               `json:"site"`
	Box           Box                `json:"box"`
	Bedding       Bedding            `json:"bedding"`
	Cut           Cut                `json:"cut"`
	Fill          Fill               `json:"fill"`
	Strengthening Strengthening      `json:"strengthening"`
	Defence       Defence            `json:"water_defence"`
	Wings         WingWalls          `json:"wing_walls"`
	Room          Room               `json:"room,omitempty"`
	Prices        map[string]float64 `json:"prices,omitempty"` // by item; an absent item is not priced
	Stages        []Stage            `json:"stages"`
}

// Sheet is what stands in the title block.
type Sheet struct {
	Owner    string `json:"owner,omitempty"`
	Place    string `json:"place,omitempty"`
	DrawnBy  string `json:"drawn_by,omitempty"`
	Number   string `json:"number,omitempty"`
	Revision string `json:"revision,omitempty"`
	Date     string `json:"date,omitempty"` // drawing date, YYYY-MM-DD
	Size     string `json:"size,omitempty"` // A4, A3, letter, tabloid
	Notes    string `json:"notes,omitempty"`
}

// Display holds what concerns only the display.
type Display struct {
	Units string `json:"units"` // Metric or US
}

// Site is the hill as it is found.
type Site struct {
	Ground     []Vec       `json:"ground"`      // existing ground line, strictly increasing x
	CrossSlope float64     `json:"cross_slope"` // level change per metre of y, + rising to the right looking into the hill
	Benchmark  Benchmark   `json:"benchmark"`
	Soils      []Soil      `json:"soils"`
	Strata     []Stratum   `json:"strata"` // from the ground down; the first one starts at the ground line
	Rock       []Vec       `json:"rock,omitempty"`
	Water      Water       `json:"water"`
	Climate    Climate     `json:"climate"`
	Surcharges []Surcharge `json:"surcharges,omitempty"`
}

// Benchmark is the fixed point that levels are measured from.
type Benchmark struct {
	Pos         Vec    `json:"pos"`
	Description string `json:"description,omitempty"`
}

// Soil is one soil, natural or fill. Values come from the table row of its
// class unless listed in Set.
type Soil struct {
	ID       string  `json:"id"`
	Name     string  `json:"name"`
	USCS     string  `json:"uscs"`           // ASTM D2487 group symbol
	Gamma    float64 `json:"gamma"`          // moist unit weight, kN/m3
	GammaSat float64 `json:"gamma_sat"`      // saturated unit weight, kN/m3
	Phi      float64 `json:"phi"`            // effective friction angle, degrees
	Cohesion float64 `json:"cohesion"`       // effective cohesion c', kPa
	OCR      float64 `json:"ocr,omitempty"`  // overconsolidation ratio; 0 is read as 1
	Cu       float64 `json:"cu,omitempty"`   // undrained strength, kPa; 0 not known
	DeltaSt  float64 `json:"delta_steel"`    // friction angle against steel sheet, degrees
	DeltaCo  float64 `json:"delta_concrete"` // friction angle against cast concrete, degrees
	E        float64 `json:"e,omitempty"`    // Young's modulus, kPa; 0 not known
	Nu       float64 `json:"nu,omitempty"`   // Poisson's ratio; 0 not known
	Kx       float64 `json:"kx,omitempty"`   // permeability, m/s; 0 not known
	Kz       float64 `json:"kz,omitempty"`   // permeability, m/s; 0 not known
	D15      float64 `json:"d15,omitempty"`  // grading, mm; 0 not known
	D50      float64 `json:"d50,omitempty"`  // grading, mm; 0 not known
	D85      float64 `json:"d85,omitempty"`  // grading, mm; 0 not known
	// Texture is a row of the table of classes by grains, for what the ground
	// holds above the water; empty where it is not known.
	Texture string `json:"texture,omitempty"`
	// Sieves is the grading, from fine to coarse; empty where none was made.
	Sieves []Sieve `json:"sieves,omitempty"`
	// Dispersive and Laminated soil needs its own filter: clay that goes into
	// suspension in still water, thin layers of fine and coarse.
	Dispersive bool    `json:"dispersive,omitempty"`
	Laminated  bool    `json:"laminated,omitempty"`
	DigClass   string  `json:"dig_class"`         // excavation class: rock, A, B or C
	Bearing    float64 `json:"bearing,omitempty"` // presumptive bearing, kPa; 0 not known
	// Set lists the json names of the values that the user gave himself.
	Set []string `json:"set_by_user,omitempty"`
}

// Sieve is one point of a grading.
type Sieve struct {
	Size   float64 `json:"size"`   // mm
	Passes float64 `json:"passes"` // share of the mass that is finer, 0 to 1
}

// Stratum is one layer of the natural ground.
type Stratum struct {
	ID   string `json:"id"`
	Soil string `json:"soil"`          // id of a soil
	Top  []Vec  `json:"top,omitempty"` // upper boundary; empty for the first stratum, which starts at the ground
}

// Water is what is known of the groundwater.
type Water struct {
	Observed []WaterPoint `json:"observed,omitempty"`
	// DesignHigh is the level that water is taken to stand at against the box
	// when it is high; nil while the user has not given one.
	DesignHigh *float64 `json:"design_high,omitempty"`
	// Seasonal is the ordinary wet-season level; nil when not known.
	Seasonal *float64 `json:"seasonal,omitempty"`
	// Computed takes the two levels as those of the hill as found, at the back
	// of the box, and computes what the works make of them. Without it they are
	// still water that the works do not change.
	Computed bool `json:"computed,omitempty"`
	// Recharge is the rain that reaches the water table, mm a year.
	Recharge float64 `json:"recharge,omitempty"`
}

// WaterPoint is one observed water level.
type WaterPoint struct {
	Pos    Vec    `json:"pos"`
	Season string `json:"season,omitempty"`
	Note   string `json:"note,omitempty"`
}

// Climate is what the sky and the earth add.
type Climate struct {
	GroundSnow float64 `json:"ground_snow"`           // kPa
	FrostDepth float64 `json:"frost_depth"`           // m, as the building office gives it; not used where FrostIndex is given
	Kh         float64 `json:"kh,omitempty"`          // horizontal seismic coefficient
	DesignRain float64 `json:"design_rain,omitempty"` // mm/h, of a storm as long as the time of concentration
	// AirMean is the mean temperature of the air over the year, degrees C; nil
	// while it is not given.
	AirMean  *float64 `json:"air_mean,omitempty"`
	AirSwing float64  `json:"air_swing,omitempty"` // degrees C, half the yearly range of the monthly means; 0 not given
	// ColdestDay is the day of the year when the surface is coldest, 1 to 365; 0
	// not given.
	ColdestDay float64 `json:"coldest_day,omitempty"`
	// FrostIndex is the design freezing index of the air over a winter, degrees C
	// times days; with it FrostDepth is computed. 0 not given.
	FrostIndex float64 `json:"frost_index,omitempty"`
	FrostDays  float64 `json:"frost_days,omitempty"`  // length of the frost season, days; 0 not given
	FrostCover string  `json:"frost_cover,omitempty"` // on the ground in winter: a row of the table of frost covers
	AirHumid   float64 `json:"air_humid,omitempty"`   // relative humidity of the air outside, share; 0 not given
}

// Kinds of surcharge.
const (
	AreaLoad = "area"    // uniform pressure on a rectangle in plan
	Vehicle  = "vehicle" // wheels or tracks of a machine from the table
)

// Surcharge is a load on the finished ground.
type Surcharge struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	Kind string `json:"kind"` // AreaLoad or Vehicle
	// Rectangle in plan for an area load; a nil Y means wide across the slope.
	X1 float64  `json:"x1"`
	X2 float64  `json:"x2"`
	Y1 *float64 `json:"y1,omitempty"`
	Y2 *float64 `json:"y2,omitempty"`
	Q  float64  `json:"q,omitempty"` // kPa, for an area load
	// Vehicle is a row of the vehicle table; its reference axle stands at X1,
	// its centre line at Y1 (0 when nil) and it points along Heading.
	Vehicle string `json:"vehicle,omitempty"`
	Heading string `json:"heading,omitempty"` // "along" the contour or "up" the slope
}
