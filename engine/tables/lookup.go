package tables

// The lists of ids are in the order of a menu. The caller must not change the
// slices.

// Box gives one container type; false where there is none.
func (s *Set) Box(id string) (Box, bool) { return s.boxes.get(id) }

// BoxIDs gives the ids of the container types.
func (s *Set) BoxIDs() []string { return s.boxes.ids }

// Sheet gives one corrugated sheet; false where there is none.
func (s *Set) Sheet(id string) (Sheet, bool) { return s.sheets.get(id) }

// SheetIDs gives the ids of the sheets.
func (s *Set) SheetIDs() []string { return s.sheets.ids }

// Bar gives one steel bar; false where there is none.
func (s *Set) Bar(id string) (Bar, bool) { return s.bars.get(id) }

// BarIDs gives the ids of the bars.
func (s *Set) BarIDs() []string { return s.bars.ids }

// Grade gives one steel grade; false where there is none.
func (s *Set) Grade(id string) (Grade, bool) { return s.grades.get(id) }

// GradeIDs gives the ids of the steel grades.
func (s *Set) GradeIDs() []string { return s.grades.ids }

// Soil gives the default values of one soil class; false where there is none.
func (s *Set) Soil(class string) (Soil, bool) { return s.soils.get(class) }

// SoilClasses gives the ids of the soil classes.
func (s *Set) SoilClasses() []string { return s.soils.ids }

// Plant gives one compaction machine; false where there is none.
func (s *Set) Plant(id string) (Plant, bool) { return s.plant.get(id) }

// PlantIDs gives the ids of the compaction machines.
func (s *Set) PlantIDs() []string { return s.plant.ids }

// Vehicle gives one machine with its wheels, which the caller must not change; false where there is none.
func (s *Set) Vehicle(id string) (Vehicle, bool) { return s.vehicles.get(id) }

// VehicleIDs gives the ids of the vehicles.
func (s *Set) VehicleIDs() []string { return s.vehicles.ids }

// Dig gives the legal slope of one excavation class; false where there is none.
func (s *Set) Dig(class string) (DigRule, bool) { return s.dig.get(class) }

// DigClasses gives the ids of the excavation classes.
func (s *Set) DigClasses() []string { return s.dig.ids }

// Interface gives the friction of one pair of materials; false where there is none.
func (s *Set) Interface(id string) (Interface, bool) { return s.interfaces.get(id) }

// InterfaceIDs gives the ids of the pairs of materials.
func (s *Set) InterfaceIDs() []string { return s.interfaces.ids }

// Geofoam gives one type of block foam; false where there is none.
func (s *Set) Geofoam(id string) (Geofoam, bool) { return s.geofoam.get(id) }

// GeofoamIDs gives the ids of the types of block foam.
func (s *Set) GeofoamIDs() []string { return s.geofoam.ids }

// Foam gives one insulating foam; false where there is none.
func (s *Set) Foam(id string) (Foam, bool) { return s.foams.get(id) }

// FoamIDs gives the ids of the insulating foams.
func (s *Set) FoamIDs() []string { return s.foams.ids }

// Lumber gives one species and size, e.g. "DF-L 2x6"; false where there is none.
func (s *Set) Lumber(id string) (Lumber, bool) { return s.lumber.get(id) }

// LumberIDs gives the ids of the lumber.
func (s *Set) LumberIDs() []string { return s.lumber.ids }

// Plywood gives one span rating; false where there is none.
func (s *Set) Plywood(id string) (Plywood, bool) { return s.plywood.get(id) }

// PlywoodIDs gives the ids of the span ratings.
func (s *Set) PlywoodIDs() []string { return s.plywood.ids }

// Earthwork gives how one soil swells and shrinks; false where there is none.
func (s *Set) Earthwork(id string) (Earthwork, bool) { return s.earthwork.get(id) }

// EarthworkIDs gives the ids of the soils of the earthwork table.
func (s *Set) EarthworkIDs() []string { return s.earthwork.ids }

// Aggregate gives one bought stone; false where there is none.
func (s *Set) Aggregate(id string) (Aggregate, bool) { return s.aggregates.get(id) }

// AggregateIDs gives the ids of the bought stones.
func (s *Set) AggregateIDs() []string { return s.aggregates.ids }

// Item gives one item of a take-off, by its key in lower case; false where
// there is none.
func (s *Set) Item(key string) (Item, bool) { return s.items.get(key) }

// ItemKeys gives the keys of all items of a take-off, which are those of a
// price list.
func (s *Set) ItemKeys() []string { return s.items.ids }

// PowerLines gives the clearances from overhead lines, in rising order of
// voltage.
func (s *Set) PowerLines() []PowerLine { return s.powerLines }
