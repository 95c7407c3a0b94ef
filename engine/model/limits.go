package model

// Extents of a site. A hill of 10 km is a mistake of units, not a building
// site; levels cover every dry land with room for a local datum.
const (
	MaxX         = 1000.0 // m, either way from the zero of x
	MaxLevel     = 9000.0 // m
	MinGroundLen = 1.0    // m
	MaxGroundLen = 500.0  // m
	maxItems     = 5000   // entries of one list
	maxText      = 200    // characters of a name
	maxNotes     = 20000  // characters of the notes
)

func distance() *Range { return metres(-MaxX, MaxX) }
func level() *Range    { return metres(-MaxLevel, MaxLevel) }

// ranges holds the allowed range of every number of the file by its path. They
// are bounds of sense, wider than the validity of any formula: a formula
// refuses by itself what it cannot do.
var ranges = map[string]*Range{
	"site.ground[]":               distance(),
	"site.ground[].z":             level(),
	"site.cross_slope":            rise(-1, 1),
	"site.benchmark.pos":          distance(),
	"site.benchmark.pos.z":        level(),
	"site.strata[].top[]":         distance(),
	"site.strata[].top[].z":       level(),
	"site.rock[]":                 distance(),
	"site.rock[].z":               level(),
	"site.water.observed[].pos":   distance(),
	"site.water.observed[].pos.z": level(),
	"site.water.design_high":      level(),
	"site.water.seasonal":         level(),
	"site.water.recharge":         in("mm a year", 0, 5000),

	"site.soils[].gamma":          kNm3(10, 27),
	"site.soils[].gamma_sat":      kNm3(10, 27),
	"site.soils[].phi":            degrees(0, 50),
	"site.soils[].cohesion":       kiloPa(0, 500),
	"site.soils[].ocr":            plain(1, 50).or0(),
	"site.soils[].cu":             kiloPa(0, 1000),
	"site.soils[].delta_steel":    degrees(0, 50),
	"site.soils[].delta_concrete": degrees(0, 50),
	"site.soils[].e":              kiloPa(100, 1e8).or0(),
	"site.soils[].nu":             plain(0, 0.5),
	"site.soils[].kx":             in("m/s", 1e-14, 1).or0(),
	"site.soils[].kz":             in("m/s", 1e-14, 1).or0(),
	"site.soils[].d15":            millimetres(1e-4, 2000).or0(),
	"site.soils[].d50":            millimetres(1e-4, 2000).or0(),
	"site.soils[].d85":            millimetres(1e-4, 2000).or0(),
	"site.soils[].bearing":        kiloPa(0, 10000),

	"site.climate.ground_snow": kiloPa(0, 20),
	"site.climate.frost_depth": metres(0, 4),
	"site.climate.kh":          plain(0, 0.5),
	"site.climate.design_rain": in("mm/h", 0, 500),
	"site.climate.air_mean":    in("degrees C", -30, 40),
	"site.climate.air_swing":   in("degrees C", 0, 40),

	"site.surcharges[].x1": distance(),
	"site.surcharges[].x2": distance(),
	"site.surcharges[].y1": distance(),
	"site.surcharges[].y2": distance(),
	"site.surcharges[].q":  kiloPa(0, 1000),

	"box.front":             distance(),
	"box.level":             level(),
	"box.tare":              kilograms(500, 10000).or0(),
	"box.ballast":           kilograms(0, 100000),
	"box.plate_rating":      kilograms(5000, 40000).or0(),
	"box.fy":                megaPa(100, 1000).or0(),
	"box.side_t":            millimetres(0.3, 10).or0(),
	"box.end_t":             millimetres(0.3, 10).or0(),
	"box.roof_t":            millimetres(0.3, 10).or0(),
	"box.roof_dent":         millimetres(0, 300),
	"box.side_dent":         millimetres(0, 150),
	"box.end_dent":          millimetres(0, 150),
	"box.door_fill":         metres(0, 5),
	"box.drain_fall":        rise(0, 0.05),
	"box.openings[].from":   metres(0, 14),
	"box.openings[].width":  metres(0.01, 14),
	"box.openings[].sill":   metres(0, 3),
	"box.openings[].height": metres(0.01, 14),

	"bedding.pad_length":     metres(0.05, 5).or0(),
	"bedding.pad_width":      metres(0.05, 5).or0(),
	"bedding.pad_thickness":  metres(0.01, 2).or0(),
	"bedding.pad_fc":         megaPa(10, 80).or0(),
	"bedding.rock_thickness": metres(0, 3),
	"bedding.toe_beam.depth": metres(0, 3),
	"bedding.toe_beam.width": metres(0, 20),

	"cut.work_back":        metres(0, 30),
	"cut.work_side":        metres(0, 30),
	"cut.apron":            metres(0, 100),
	"cut.batter":           run(0, 10),
	"cut.side_batter":      run(0, 10),
	"cut.by_stratum.*":     run(0, 10),
	"cut.benches[].height": metres(0.01, 50),
	"cut.benches[].width":  metres(0.01, 50),
	"cut.hours_open":       hours(0, 100000),
	"cut.ladders":          plain(0, 50),
	"cut.spoil.setback":    metres(0, 200),
	"cut.spoil.height":     metres(0, 20),

	"fill.front_top":          metres(-3, 20),
	"fill.back_top":           metres(-3, 20),
	"fill.back_slope":         rise(-2, 2),
	"fill.shoulder":           metres(0, 50),
	"fill.side_slope":         run(0, 20),
	"fill.line[]":             distance(),
	"fill.line[].z":           level(),
	"fill.lift_height":        metres(0.05, 1),
	"fill.plant_setback":      metres(0, 20),
	"fill.max_ahead":          metres(0, 3),
	"fill.side_friction":      plain(0, 0.5),
	"fill.rock_width":         metres(0, 5),
	"fill.rock_top":           metres(-3, 3),
	"fill.cap_thickness":      metres(0, 3),
	"fill.topsoil_thickness":  metres(0, 3),
	"fill.roof[].thickness":   metres(0, 3),
	"fill.roof[].unit_weight": kNm3(0.1, 30),

	"strengthening.ribs.spacing":            metres(0.1, 14).or0(),
	"strengthening.ribs.purlins":            plain(0, 50),
	"strengthening.wales[].height":          metres(0, 3),
	"strengthening.back_wales[].height":     metres(0, 3),
	"strengthening.stud_skin.spacing":       metres(0.05, 3).or0(),
	"strengthening.ribs.struts[].height":    metres(0, 3),
	"strengthening.cavity.width":            metres(0, 3),
	"strengthening.cavity.fc":               megaPa(10, 80).or0(),
	"strengthening.cavity.lift":             metres(0.1, 3).or0(),
	"strengthening.cavity.bar":              millimetres(5, 40).or0(),
	"strengthening.cavity.bar_spacing":      metres(0.05, 1).or0(),
	"strengthening.cavity.bar_cover":        metres(0.01, 1).or0(),
	"strengthening.roof_slab.thickness":     metres(0, 2),
	"strengthening.roof_slab.fc":            megaPa(10, 80).or0(),
	"strengthening.roof_slab.bar":           millimetres(5, 40).or0(),
	"strengthening.roof_slab.bar_spacing":   metres(0.05, 1).or0(),
	"strengthening.roof_slab.bar_cover":     metres(0.01, 0.5).or0(),
	"strengthening.roof_slab.cross_spacing": metres(0.1, 3).or0(),
	"strengthening.roof_slab.spacing":       metres(0.3, 14).or0(),
	"strengthening.roof_slab.gap":           metres(0, 3),
	"strengthening.roof_slab.footing":       metres(0.1, 5).or0(),

	"water_defence.layers[].thickness": metres(0, 1),
	"water_defence.layers[].life":      years(0, 100),
	"water_defence.drain.diameter":     metres(0, 2),
	"water_defence.drain.depth":        metres(0, 10),
	"water_defence.drain.fall":         rise(0, 0.5),
	"water_defence.drain.uphill_away":  metres(0, 50),
	"water_defence.drain.uphill_depth": metres(0, 10),
	"water_defence.drain.sump_bore":    metres(0, 5),

	"wing_walls.courses":      plain(0, 50),
	"wing_walls.block_length": metres(0.1, 5).or0(),
	"wing_walls.block_width":  metres(0.1, 5).or0(),
	"wing_walls.block_height": metres(0.1, 5).or0(),
	"wing_walls.splay":        degrees(0, 90),
	"wing_walls.length":       metres(0, 100),
	"wing_walls.batter":       degrees(0, 45),

	"prices.*":         plain(0, 1e9),
	"stages[].fill_to": plain(0, 1),
	"stages[].years":   years(0, 500),
	"format":           plain(0, 1e6),
}

// words holds the texts that a field chooses from, by its path. An empty text
// is allowed where the list names one.
var words = map[string][]string{
	"display.units":               {Metric, US},
	"sheet.size":                  {"", "A4", "A3", "letter", "tabloid"},
	"site.soils[].dig_class":      {"", "rock", "A", "B", "C"},
	"site.surcharges[].kind":      {AreaLoad, Vehicle},
	"site.surcharges[].heading":   {"", "along", "up"},
	"box.orientation":             {EndOn, Broadside},
	"box.openings[].wall":         {"left", "right", "back", "roof"},
	"bedding.kind":                {PadBedding, RockBedding, SlabBedding},
	"fill.roof[].kind":            {"membrane", "foam", "board", "rock", "lightfill"},
	"water_defence.layers[].kind": {"coating", "membrane", "foam", "board"},
	"water_defence.drain.outlet":  {"", "gravity", "sump"},
	"strengthening.ribs.joints":   {"", RigidJoints, PinnedJoints},
	"strengthening.cavity.fill":   {"", GravelFill, ConcreteFill},
	"stages[].kind":               {StageNatural, StageCut, StageSet, StageBackfill, StageService},
	"stages[].water":              {"", WaterNone, WaterSeasonal, WaterHigh},
}
