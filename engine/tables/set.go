package tables

import (
	"io/fs"
	"sync"

	"hillset/assets"
)

// Set is all tables, read and checked. It is not changed after it was read
// and may be used from several goroutines.
type Set struct {
	boxes  list[Box]
	sheets list[Sheet]
	bars   list[Bar]
	grades list[Grade]
	soils  list[Soil]
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
		func() (err error) { s.boxes, err = readList(files, "boxes.csv", "id", parseBox); return },
		func() (err error) { s.sheets, err = readList(files, "sheets.csv", "id", parseSheet); return },
		func() (err error) { s.bars, err = readList(files, "bars.csv", "id", parseBar); return },
		func() (err error) { s.grades, err = readList(files, "grades.csv", "id", parseGrade); return },
		func() (err error) { s.soils, err = readList(files, "soils.csv", "class", parseSoil); return },
		s.crossCheck,
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// Box gives one container type.
func (s *Set) Box(id string) (Box, bool) { return s.boxes.get(id) }

// BoxIDs gives the ids of the container types in the order of a menu. The
// caller must not change the slice; this holds for all lists of ids.
func (s *Set) BoxIDs() []string { return s.boxes.ids }

// Sheet gives one corrugated sheet.
func (s *Set) Sheet(id string) (Sheet, bool) { return s.sheets.get(id) }

// SheetIDs gives the ids of the sheets.
func (s *Set) SheetIDs() []string { return s.sheets.ids }

// Bar gives one steel bar.
func (s *Set) Bar(id string) (Bar, bool) { return s.bars.get(id) }

// BarIDs gives the ids of the bars.
func (s *Set) BarIDs() []string { return s.bars.ids }

// Grade gives one steel grade.
func (s *Set) Grade(id string) (Grade, bool) { return s.grades.get(id) }

// GradeIDs gives the ids of the steel grades.
func (s *Set) GradeIDs() []string { return s.grades.ids }

// Soil gives the default values of one soil class.
func (s *Set) Soil(class string) (Soil, bool) { return s.soils.get(class) }

// SoilClasses gives the soil classes in the order of a menu.
func (s *Set) SoilClasses() []string { return s.soils.ids }
