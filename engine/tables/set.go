package tables

import (
	"io/fs"
	"sync"

	"hillset/assets"
)

// Set is all tables, read and checked. It is not changed after it was read
// and may be used from several goroutines.
type Set struct {
	boxes      list[Box]
	sheets     list[Sheet]
	bars       list[Bar]
	posts      list[Post]
	members    list[Member]
	crippling  list[Crippling]
	grades     list[Grade]
	soils      list[Soil]
	plant      list[Plant]
	vehicles   list[Vehicle]
	dig        list[DigRule]
	interfaces list[Interface]
	corrosion  list[Corrosion]
	lossRates  list[LossRate]
	geofoam    list[Geofoam]
	foams      list[Foam]
	lumber     list[Lumber]
	plywood    list[Plywood]
	earthwork  list[Earthwork]
	aggregates list[Aggregate]
	items      list[Item]
	slopes     list[SlopeFactor]
	settle     list[SettleLimit]
	stiffness  list[Stiffness]
	walls      list[WallFactor]
	blocks     list[Block]
	powerLines []PowerLine
	water      water
	climate    climate
}

// Load reads and checks the embedded tables. An error names file, line,
// column and value.
func Load() (*Set, error) { return load(assets.Tables()) }

// Default gives the embedded tables, read once. It panics where they do not
// load: the program was then built from broken files.
func Default() *Set { return defaultSet() }

var defaultSet = sync.OnceValue(func() *Set {
	s, err := Load()
	if err != nil {
		panic(err.Error())
	}
	return s
})

func load(files fs.FS) (*Set, error) {
	s := &Set{}
	steps := []func() error{
		into(&s.boxes, files, "boxes.csv", "id", parseBox),
		into(&s.sheets, files, "sheets.csv", "id", parseSheet),
		into(&s.bars, files, "bars.csv", "id", parseBar),
		into(&s.posts, files, "posts.csv", "id", parsePost),
		into(&s.members, files, "members.csv", "id", parseMember),
		into(&s.crippling, files, "crippling.csv", "id", parseCrippling),
		into(&s.grades, files, "grades.csv", "id", parseGrade),
		into(&s.soils, files, "soils.csv", "class", parseSoil),
		into(&s.plant, files, "plant.csv", "id", parsePlant),
		into(&s.dig, files, "dig.csv", "class", parseDig),
		into(&s.interfaces, files, "interfaces.csv", "id", parseInterface),
		into(&s.corrosion, files, "corrosion.csv", "id", parseCorrosion),
		into(&s.lossRates, files, "lossrates.csv", "id", parseLossRate),
		into(&s.geofoam, files, "geofoam.csv", "id", parseGeofoam),
		into(&s.foams, files, "foams.csv", "id", parseFoam),
		into(&s.lumber, files, "lumber.csv", "id", parseLumber),
		into(&s.plywood, files, "plywood.csv", "id", parsePlywood),
		into(&s.earthwork, files, "earthwork.csv", "id", parseEarthwork),
		into(&s.aggregates, files, "aggregates.csv", "id", parseAggregate),
		into(&s.slopes, files, "slopefactors.csv", "id", parseSlopeFactor),
		into(&s.settle, files, "settlelimits.csv", "id", parseSettleLimit),
		into(&s.stiffness, files, "stiffness.csv", "id", parseStiffness),
		into(&s.walls, files, "wallfactors.csv", "id", parseWallFactor),
		into(&s.blocks, files, "blocks.csv", "id", parseBlock),
		into(&s.items, files, "items.csv", "key", parseItem),
		func() (err error) { s.vehicles, err = readVehicles(files); return },
		func() (err error) { s.powerLines, err = readPowerLines(files); return },
		s.crossCheck,
	}
	steps = append(steps, s.water.load(files)...)
	steps = append(steps, s.climate.load(files)...)
	for _, step := range steps {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return s, nil
}

func into[T any](dst *list[T], files fs.FS, file, key string, parse func(*row) T) func() error {
	return func() (err error) {
		*dst, err = readList(files, file, key, parse)
		return err
	}
}
