package tables

import "io/fs"

// Thermal is how heat and frost go through one soil class.
type Thermal struct {
	Class       string  // row of the table of soils
	Family      string  // gravel, sand, silt, clay, peat, rock
	KUnfrozen   float64 // conductivity, W/mK
	KFrozen     float64 // conductivity, W/mK
	Lambda      float64 // conductivity for the loss of heat by ISO 13370, W/mK
	Diffusivity float64 // m2 a day
	Fines       float64 // the most that may be finer than 0.075 mm in the class, share
	Src         Source
}

// FrostCover is what lies on the ground in winter.
type FrostCover struct {
	ID, Name string
	N        float64 // freezing index of the surface over that of the air
	Src      Source
}

// Person is what one person breathes and gives off.
type Person struct {
	ID, Name string
	CO2, O2  float64 // breathed out and in, m3/s
	Heat     float64 // in all, W
	Latent   float64 // of it as moisture, W
	Src      Source
}

// litresHour turns litres an hour into m3/s.
const litresHour = 1e-3 / 3600

func parseThermal(r *row) Thermal {
	t := Thermal{
		Class: r.text("class"), Family: r.oneOf("family", "gravel", "sand", "silt", "clay", "peat", "rock"),
		KUnfrozen: r.num("k_unfrozen_W_mK", 1, 0.1, 5), KFrozen: r.num("k_frozen_W_mK", 1, 0.1, 5), Lambda: r.num("lambda_W_mK", 1, 0.2, 5),
		Diffusivity: r.num("diffusivity_m2_day", 1, 0.005, 0.2), Fines: r.num("fines_pct", pct, 0, 100), Src: r.source(),
	}
	if r.err == nil && t.KFrozen < t.KUnfrozen && t.Family != "gravel" && t.Family != "sand" {
		r.fail("k_frozen_W_mK", r.raw("k_frozen_W_mK"), "is below that of the soil unfrozen")
	}
	return t
}

func parseFrostCover(r *row) FrostCover {
	return FrostCover{ID: r.text("id"), Name: r.text("name"), N: r.num("n", 1, 0.1, 1), Src: r.source()}
}

func parsePerson(r *row) Person {
	p := Person{
		ID: r.text("id"), Name: r.text("name"), CO2: r.num("co2_L_h", litresHour, 5, 200), O2: r.num("o2_L_h", litresHour, 5, 200),
		Heat: r.num("heat_W", 1, 50, 1000), Latent: r.num("latent_W", 1, 10, 1000), Src: r.source(),
	}
	switch {
	case r.err != nil:
	case p.O2 < p.CO2:
		r.fail("o2_L_h", r.raw("o2_L_h"), "is less than the carbon dioxide breathed out")
	case p.Latent > p.Heat:
		r.fail("latent_W", r.raw("latent_W"), "is more than all the heat")
	}
	return p
}

// climate is all tables of frost and air.
type climate struct {
	thermal     list[Thermal]
	frostCovers list[FrostCover]
	people      list[Person]
}

// load gives the steps that read the tables of frost and air.
func (c *climate) load(files fs.FS) []func() error {
	return []func() error{
		into(&c.thermal, files, "thermal.csv", "class", parseThermal),
		into(&c.frostCovers, files, "frostcovers.csv", "id", parseFrostCover),
		into(&c.people, files, "people.csv", "id", parsePerson),
	}
}

// Thermal gives how heat goes through one soil class; false where there is none.
func (s *Set) Thermal(class string) (Thermal, bool) { return s.climate.thermal.get(class) }

// ThermalClasses gives the soil classes of the thermal table.
func (s *Set) ThermalClasses() []string { return s.climate.thermal.ids }

// FrostCover gives one cover of the ground in winter; false where there is none.
func (s *Set) FrostCover(id string) (FrostCover, bool) { return s.climate.frostCovers.get(id) }

// FrostCoverIDs gives the ids of the covers of the ground in winter.
func (s *Set) FrostCoverIDs() []string { return s.climate.frostCovers.ids }

// Person gives what one person breathes at one activity; false where there is none.
func (s *Set) Person(id string) (Person, bool) { return s.climate.people.get(id) }

// PersonIDs gives the ids of the activities.
func (s *Set) PersonIDs() []string { return s.climate.people.ids }
