package tables

import (
	"encoding/csv"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"hillset/assets"
)

// ids gives the ids loaded from every table that has any.
func ids(s *Set) map[string][]string {
	return map[string][]string{
		"boxes.csv": s.BoxIDs(), "sheets.csv": s.SheetIDs(), "bars.csv": s.BarIDs(), "posts.csv": s.PostIDs(), "members.csv": s.MemberIDs(), "crippling.csv": s.CripplingIDs(),
		"grades.csv": s.GradeIDs(),
		"soils.csv":  s.SoilClasses(), "plant.csv": s.PlantIDs(), "vehicles.csv": s.VehicleIDs(), "dig.csv": s.DigClasses(),
		"interfaces.csv": s.InterfaceIDs(), "corrosion.csv": s.Environments(), "lossrates.csv": s.LossRateIDs(),
		"geofoam.csv": s.GeofoamIDs(), "foams.csv": s.FoamIDs(), "lumber.csv": s.LumberIDs(), "plywood.csv": s.PlywoodIDs(),
		"earthwork.csv": s.EarthworkIDs(), "aggregates.csv": s.AggregateIDs(),
		"pipes.csv": s.PipeIDs(), "pumppipes.csv": s.PumpPipeIDs(), "linings.csv": s.LiningIDs(), "runoff.csv": s.RunoffIDs(),
		"curvenumbers.csv": s.CurveNumberIDs(), "overland.csv": s.OverlandIDs(), "drainrules.csv": s.DrainRuleIDs(), "membranes.csv": s.MembraneIDs(), "textures.csv": s.TextureIDs(), "items.csv": s.ItemKeys(),
		"thermal.csv": s.ThermalClasses(), "frostcovers.csv": s.FrostCoverIDs(), "people.csv": s.PersonIDs(),
		"slopefactors.csv": s.SlopeFactorIDs(), "settlelimits.csv": s.SettleLimitIDs(), "stiffness.csv": s.StiffnessIDs(),
		"wallfactors.csv": s.WallFactorIDs(), "blocks.csv": s.BlockIDs(),
	}
}

// nameless are the tables whose rows have no name.
var nameless = []string{"wheels.csv", "powerlines.csv", "campn.csv", "storms.csv", "wetcn.csv", "segregation.csv", "cloths.csv"}

// Every file of the folder is read, row by row in its order, and every row
// says where it comes from.
func TestEveryRowHasIDAndSource(t *testing.T) {
	s, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	marks := []string{"verified", "second-hand", "derived", "memory", "common practice"}
	loaded := ids(s)
	for name, rows := range rawTables(t) {
		head := rows[0]
		src, mark := slices.Index(head, "source"), slices.Index(head, "mark")
		if src < 0 || mark < 0 {
			t.Fatalf("%s has no source or mark", name)
		}
		var first []string
		for i, row := range rows[1:] {
			first = append(first, row[0])
			if len(row[src]) < 8 || !slices.Contains(marks, row[mark]) {
				t.Errorf("%s line %d: source %q, mark %q", name, i+2, row[src], row[mark])
			}
		}
		if want, ok := loaded[name]; ok {
			if !slices.Equal(first, want) {
				t.Errorf("%s: file has %v, loaded %v", name, first, want)
			}
			if u := slices.Compact(slices.Sorted(slices.Values(first))); len(u) != len(first) {
				t.Errorf("%s: an id is there twice", name)
			}
		} else if !slices.Contains(nameless, name) {
			t.Errorf("%s is not read", name)
		}
	}
}

// rawTables reads the files past the loader.
func rawTables(t *testing.T) map[string][][]string {
	t.Helper()
	out := map[string][][]string{}
	names, err := fs.Glob(assets.Tables(), "*.csv")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		f, err := assets.Tables().Open(name)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(f).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		out[name] = rows
	}
	return out
}

func TestUnknownIDsAreNotFound(t *testing.T) {
	s := Default()
	for name, found := range map[string]func(string) bool{
		"box":       func(id string) bool { _, ok := s.Box(id); return ok },
		"sheet":     func(id string) bool { _, ok := s.Sheet(id); return ok },
		"bar":       func(id string) bool { _, ok := s.Bar(id); return ok },
		"post":      func(id string) bool { _, ok := s.Post(id); return ok },
		"member":    func(id string) bool { _, ok := s.Member(id); return ok },
		"crippling": func(id string) bool { _, ok := s.Crippling(id); return ok },
		"grade":     func(id string) bool { _, ok := s.Grade(id); return ok },
		"soil":      func(id string) bool { _, ok := s.Soil(id); return ok },
		"soilOf":    func(id string) bool { _, ok := s.SoilOf(id); return ok },
		"plant":     func(id string) bool { _, ok := s.Plant(id); return ok },
		"vehicle":   func(id string) bool { _, ok := s.Vehicle(id); return ok },
		"dig":       func(id string) bool { _, ok := s.Dig(id); return ok },
		"interface": func(id string) bool { _, ok := s.Interface(id); return ok },
		"corrosion": func(id string) bool { _, ok := s.Corrosion(id); return ok },
		"rate":      func(id string) bool { _, ok := s.LossRate(id); return ok },
		"geofoam":   func(id string) bool { _, ok := s.Geofoam(id); return ok },
		"foam":      func(id string) bool { _, ok := s.Foam(id); return ok },
		"lumber":    func(id string) bool { _, ok := s.Lumber(id); return ok },
		"plywood":   func(id string) bool { _, ok := s.Plywood(id); return ok },
		"earthwork": func(id string) bool { _, ok := s.Earthwork(id); return ok },
		"item":      func(id string) bool { _, ok := s.Item(id); return ok },
		"aggregate": func(id string) bool { _, ok := s.Aggregate(id); return ok },
		"pipe":      func(id string) bool { _, ok := s.Pipe(id); return ok },
		"pump pipe": func(id string) bool { _, ok := s.PumpPipe(id); return ok },
		"lining":    func(id string) bool { _, ok := s.Lining(id); return ok },
		"runoff":    func(id string) bool { _, ok := s.Runoff(id); return ok },
		"cn":        func(id string) bool { _, ok := s.CurveNumber(id); return ok },
		"rule":      func(id string) bool { _, ok := s.DrainRule(id); return ok },
		"membrane":  func(id string) bool { _, ok := s.Membrane(id); return ok },
		"overland":  func(id string) bool { _, ok := s.Overland(id); return ok },
		"thermal":   func(id string) bool { _, ok := s.Thermal(id); return ok },
		"cover":     func(id string) bool { _, ok := s.FrostCover(id); return ok },
		"settling":  func(id string) bool { _, ok := s.SettleLimit(id); return ok },
		"stiffness": func(id string) bool { return len(s.StiffnessOf(id)) > 0 },
		"person":    func(id string) bool { _, ok := s.Person(id); return ok },
	} {
		if found("") || found("no such row") {
			t.Errorf("%s: found a row that does not exist", name)
		}
	}
}

// One fault at a time in the real files: the error names file, line, column
// and value.
func TestFaultsAreNamed(t *testing.T) {
	for _, c := range []struct {
		name, file, old, new string
		want                 []string
	}{
		{"not a number", "sheets.csv", "72,68,70,36,1.6", "72,wide,70,36,1.6", []string{"sheets.csv line 2", "s_mm", `"wide"`, "not a number"}},
		{"NaN", "sheets.csv", "72,68,70,36,1.6", "NaN,68,70,36,1.6", []string{"a_mm", "NaN"}},
		{"infinite", "bars.csv", "shs,50,50,3,0", "shs,50,50,Inf,0", []string{"bars.csv line 2", "t_mm", "Inf"}},
		{"out of range", "boxes.csv", "13716,", "137160,", []string{"boxes.csv line 2", "L_mm", "137160", "2000 to 17000"}},
		{"empty", "grades.csv", `corten,"Weathering`, `,"Weathering`, []string{"grades.csv line 2", "id", "empty"}},
		{"mark", "plant.csv", "common practice", "hearsay", []string{"plant.csv line 2", "mark", "hearsay"}},
		{"twice", "geofoam.csv", "EPS15,EPS15", "EPS12,EPS15", []string{"geofoam.csv line 3", "EPS12", "twice"}},
		{"column missing", "foams.csv", "r_per_in", "rval", []string{"foams.csv", "r_per_in", "missing"}},
		{"column unknown", "foams.csv", "id,name,", "id,colour,name,", []string{"foams.csv"}},
		{"column twice", "foams.csv", "id,name", "id,id", []string{"foams.csv", "column id", "twice"}},
		{"no such sheet", "boxes.csv", "S1,E1", "S9,E1", []string{"boxes.csv", "45hc", "S9"}},
		{"no such bar", "boxes.csv", "c122x45x40x4,923", "c99,923", []string{"boxes.csv", "45hc", "c99"}},
		{"inside larger", "boxes.csv", "13542,2330,2655", "13800,2330,2655", []string{"45hc", "inside"}},
		{"no such vehicle", "wheels.csv", "pickup,0,-0.85", "pick-up,0,-0.85", []string{"wheels.csv", "pick-up"}},
		{"no wheels", "vehicles.csv", "pickup,", "lorry,x,common,memory\npickup,", []string{"lorry"}},
		{"rust falls", "corrosion.csv", "0.00,0.30,0.60", "0.00,0.70,0.60", []string{"corrosion.csv line 2", "y50_mm", "0.60"}},
		{"square", "bars.csv", "shs,50,50,3,0", "shs,50,40,3,0", []string{"b_mm", "40"}},
		{"thick", "bars.csv", "shs,50,50,3,0", "shs,50,50,13,0", []string{"t_mm", "13"}},
		{"channel", "bars.csv", "c,122,45,4,40", "c,122,45,4,0", []string{"lip_mm"}},
		{"flat", "bars.csv", "flat,50,12,12,0", "flat,50,14,12,0", []string{"b_mm", "14"}},
		{"lip", "bars.csv", "rhs,50,30,3,0", "rhs,50,30,3,9", []string{"lip_mm", "9"}},
		{"shallow sheet", "sheets.csv", "106,22,106,40,2.0", "106,22,106,5,2.6", []string{"d_mm", "5"}},
		{"post thickness", "posts.csv", "section,6,", "section,60,", []string{"posts.csv line 2", "t_mm", "60"}},
		{"post pair", "posts.csv", "6 6; 153 6", "6; 153 6", []string{"outline_mm", `has "6"`}},
		{"post number", "posts.csv", "6 6; 153 6", "6 -6; 153 6", []string{"outline_mm", "-6"}},
		{"post point twice", "posts.csv", "6 6; 153 6", "6 6; 6 6", []string{"outline_mm", "twice"}},
		{"post point alone", "posts.csv", "9 25; 44 25; 44 128; 9 128", "9 25", []string{"inner_mm", "two points"}},
		{"post part without thickness", "posts.csv", "46 6,10,", "46 6,0,", []string{"inner_t_mm"}},
		{"post thickness of nothing", "posts.csv", "76,0,none", "76,4,none", []string{"inner_t_mm", "4"}},
		{"range upside down", "members.csv", "mm,1.6,1.6,2.0", "mm,1.6,1.2,2.0", []string{"members.csv line 2", "typical", "1.2"}},
		{"tilt", "settlelimits.csv", ",0.004,", ",0.4,", []string{"settlelimits.csv line 3", "limit", "0.4"}},
		{"stiffness upside down", "stiffness.csv", "sand,50,80", "sand,80,50", []string{"stiffness.csv line 5", "high_MPa", "50"}},
		{"unit", "members.csv", "mm,1.6,1.6,2.0", "inch,1.6,1.6,2.0", []string{"members.csv line 2", "unit", "inch"}},
		{"place of bearing", "crippling.csv", "bears\",end,yes", "bears\",middle,yes", []string{"crippling.csv line 2", "place", "middle"}},
		{"coefficient", "crippling.csv", "yes,4,0.04", "yes,4,0.94", []string{"crippling.csv line 2", "c_r", "0.94"}},
		{"yield", "grades.csv", "345,480", "345,340", []string{"fu_MPa", "340"}},
		{"saturated", "soils.csv", ",21.2,21.5,38", ",21.6,21.5,38", []string{"soils.csv line 2", "gamma_sat", "21.5"}},
		{"delta steel", "soils.csv", ",38,35,0,22,22", ",38,21,0,22,20", []string{"delta_steel"}},
		{"delta concrete", "soils.csv", ",38,35,0,22,22", ",38,21,0,20,22", []string{"delta_concrete"}},
		{"code loads", "soils.csv", "3000,30,60,0.001", "3000,70,60,0.001", []string{"code_at_rest"}},
		{"grading", "soils.csv", "6.2,14,21.7", "6.2,4,21.7", []string{"d50_mm", "4"}},
		{"short slope", "dig.csv", "0.5,12,24", "0.8,12,24", []string{"short_n", "0.8"}},
		{"friction range", "interfaces.csv", "29,31", "29,28", []string{"delta_max", "28"}},
		{"foam strains", "geofoam.csv", "15,35,40", "15,45,40", []string{"s5_kPa", "45"}},
		{"item unit", "items.csv", "timber m3,m3", "timber m3,bushel", []string{"items.csv line 3", "unit", "bushel"}},
		{"item key", "items.csv", "timber m3,m3", "Timber m3,m3", []string{"items.csv line 3", "key", "Timber"}},
		{"lumber id", "lumber.csv", "HF 2x4,HF", "HF 2x6,HF", []string{"HF 2x6"}},
		{"voltages", "powerlines.csv", "350,20", "150,20", []string{"up_to_kV", "150"}},
		{"ragged", "plywood.csv", "320,86000,", "320,", []string{"plywood.csv"}},
		{"pipe n", "pipes.csv", "0.010,0.011,0.013", "0.012,0.011,0.013", []string{"pipes.csv line 2", "column n", "0.011"}},
		{"opening", "pipes.csv", "none,0", "none,3", []string{"opening_mm", "3"}},
		{"aged", "pumppipes.csv", "150,140", "150,155", []string{"c_aged", "155"}},
		{"lining soil", "linings.csv", "8,6", "8,9", []string{"erode_to5", "9"}},
		{"lining grade", "linings.csv", "8,6,7,5", "8,6,9,5", []string{"resist_to10", "9"}},
		{"runoff", "runoff.csv", "0.05,0.10,0.10", "0.05,0.20,0.10", []string{"runoff.csv line 2", "0.20"}},
		{"curve number", "curvenumbers.csv", "39,61", "69,61", []string{"column b", "61"}},
		{"curve", "campn.csv", "0.2,1.29", "0.1,1.29", []string{"depth_ratio", "out of order"}},
		{"drain rule", "drainrules.csv", "0.05,share", "5,share", []string{"drainrules.csv line 12", "value", "5"}},
		{"texture", "textures.csv", "0.045,0.43", "0.245,0.23", []string{"textures.csv line 2", "theta_r", "0.245"}},
		{"membrane", "membranes.csv", "1.016,yes", "1.016,maybe", []string{"membranes.csv line 2", "holds_head", "maybe"}},
		{"cloth", "cloths.csv", "50,0.2,0.25", "50,0.2,0.45", []string{"cloths.csv line 3", "out of order"}},
		{"frozen soil", "thermal.csv", "ML,silt,1.48,1.8", "ML,silt,1.98,1.8", []string{"thermal.csv", "k_frozen_W_mK"}},
		{"oxygen", "people.csv", "20,23", "20,13", []string{"people.csv line 2", "o2_L_h", "13"}},
		{"latent heat", "people.csv", "124,45", "124,450", []string{"people.csv line 2", "latent_W", "450"}},
		{"cover of the ground", "frostcovers.csv", "snow,Under snow,1.0", "snow,Under snow,1.4", []string{"frostcovers.csv line 2", "column n", "1.4"}},
		{"no rows", "aggregates.csv", "*", "id,name\n", []string{"aggregates.csv", "no rows"}},
		{"no file", "aggregates.csv", "*", "", []string{"aggregates.csv"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := load(spoiled(t, c.file, c.old, c.new))
			if err == nil {
				t.Fatal("no error")
			}
			for _, w := range append(c.want, "tables: ") {
				if !strings.Contains(err.Error(), w) {
					t.Errorf("error %q does not say %q", err, w)
				}
			}
		})
	}
}

// spoiled is the folder of tables with one text replaced once in one file; old
// "*" replaces the whole file, or takes it away where new is empty.
func spoiled(t *testing.T, file, old, new string) fs.FS {
	t.Helper()
	files := fstest.MapFS{}
	for name := range maps.Keys(rawTables(t)) {
		b, err := fs.ReadFile(assets.Tables(), name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: b}
	}
	if old == "*" {
		files[file] = &fstest.MapFile{Data: []byte(new)}
		if new == "" {
			delete(files, file)
		}
		return files
	}
	text := string(files[file].Data)
	if !strings.Contains(text, old) {
		t.Fatalf("%s has no %q to spoil", file, old)
	}
	files[file].Data = []byte(strings.Replace(text, old, new, 1))
	return files
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(); err != nil {
			b.Fatal(err)
		}
	}
}
