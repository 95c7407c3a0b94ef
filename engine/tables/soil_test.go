package tables

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hillset/engine/earth"
)

var uscs = strings.Fields("GW GP GM GC SW SP SM SC ML CL OL MH CH OH PT")

func TestEveryUSCSClassIsThere(t *testing.T) {
	for _, class := range append(slices.Clone(uscs), "SC-SM", "CL-ML", "drain-stone", "pea-gravel", "crushed-base", "topsoil", "rock") {
		if _, ok := Default().Soil(class); !ok {
			t.Errorf("no soil %s", class)
		}
	}
}

// Unit weights follow from dry weight, water content and grain density, and
// Poisson's ratio from phi (nu = (1 − sin φ)/(2 − sin φ), second-hand), to the
// rounding of the table.
func TestDerivedSoilValues(t *testing.T) {
	for _, class := range Default().SoilClasses() {
		s, _ := Default().Soil(class)
		near(t, class+" gamma", s.Gamma, s.Dry*(1+s.Moisture), 0.051)
		n := 1 - s.Dry/(s.Gs*earth.GammaW) // porosity
		near(t, class+" gamma,sat", s.GammaSat, s.Dry+n*earth.GammaW, 0.051)
		if w := s.Moisture * s.Dry / earth.GammaW; w > n+1e-9 {
			t.Errorf("%s: more water (%g) than pores (%g)", class, w, n)
		}
		sin := math.Sin(s.Phi * math.Pi / 180)
		near(t, class+" nu", s.Nu, (1-sin)/(2-sin), 0.0051)
	}
}

// Averages of compacted soils (USBR 1977 as printed by Huang, verified): dry
// weight lb/ft3 and kN/m3, water %, phi degrees. The design phi is 3 degrees
// less and c' is left out.
func TestSoilsAgainstPublishedAverages(t *testing.T) {
	for class, c := range map[string][4]float64{
		"GW": {119, 18.7, 13.3, 38}, "GP": {110, 17.3, 12.4, 37}, "GM": {114, 17.9, 14.5, 34}, "GC": {115, 18.1, 14.7, 31},
		"SW": {119, 18.7, 13.3, 38}, "SP": {110, 17.3, 12.4, 37}, "SM": {114, 17.9, 14.5, 34}, "SC-SM": {119, 18.7, 12.8, 33},
		"SC": {115, 18.1, 14.7, 31}, "ML": {103, 16.2, 19.2, 32}, "CL-ML": {109, 17.1, 16.8, 32}, "CL": {108, 17.0, 17.3, 28},
		"MH": {82, 12.9, 36.3, 25}, "CH": {94, 14.8, 25.5, 19},
	} {
		s, _ := Default().Soil(class)
		near(t, class+" dry", s.Dry, c[1], 1e-9)
		near(t, class+" dry against lb/ft3", s.Dry, c[0]*pcf, 0.06)
		near(t, class+" water", s.Moisture, c[2]/100, 1e-12)
		near(t, class+" published phi", s.PhiTable, c[3], 0)
		near(t, class+" design phi", s.Phi, c[3]-3, 0)
	}
}

// Sane ranges that hold for any soil: no cohesion counted on, friction on
// steel never above that on formed concrete, soft soils softer than stone.
func TestSoilsAreSane(t *testing.T) {
	for _, class := range Default().SoilClasses() {
		s, _ := Default().Soil(class)
		switch {
		case s.Cohesion != 0:
			t.Errorf("%s: cohesion %g counted on", class, s.Cohesion)
		case s.Phi < 15 || s.Phi > 40 || s.PhiTable > 0 && s.Phi > s.PhiTable:
			t.Errorf("%s: phi %g", class, s.Phi)
		case s.DeltaSt > s.DeltaCo || s.DeltaSt < 11 || s.DeltaCo > 26:
			t.Errorf("%s: delta %g steel, %g concrete", class, s.DeltaSt, s.DeltaCo)
		case s.Gamma < 10 || s.Gamma > 23 || s.GammaSat-earth.GammaW <= 0:
			t.Errorf("%s: weights %g, %g", class, s.Gamma, s.GammaSat)
		case s.Kz > s.Kx || s.E < 500 || s.E > 1e6:
			t.Errorf("%s: k %g/%g, E %g", class, s.Kx, s.Kz, s.E)
		}
	}
}

// Friction of the soils is that of a row of the interface table, lower end
// (DM-7.02).
func TestSoilFrictionComesFromTheInterfaceTable(t *testing.T) {
	low := map[string]map[float64]bool{"steel": {}, "formed concrete": {}}
	for _, id := range Default().InterfaceIDs() {
		f, _ := Default().Interface(id)
		if m, ok := low[f.Against]; ok {
			m[f.Min] = true
		}
	}
	for _, class := range Default().SoilClasses() {
		s, _ := Default().Soil(class)
		if !low["steel"][s.DeltaSt] || !low["formed concrete"][s.DeltaCo] {
			t.Errorf("%s: delta %g, %g stand in no row", class, s.DeltaSt, s.DeltaCo)
		}
	}
	for id, tan := range map[string]float64{"steel-gravel": 0.40, "steel-sand": 0.30, "steel-silty": 0.25, "steel-silt": 0.20, "formed-silt": 0.25, "mass-rock": 0.70, "steel-steel": 0.30} {
		f, ok := Default().Interface(id)
		near(t, id+" tan delta", math.Tan(f.Min*math.Pi/180), tan, 0.009) // printed to whole degrees
		if !ok {
			t.Errorf("no pair %s", id)
		}
	}
}

// Reference case EP-23 and the rows of IBC tables 1610.1 (memory) and 1806.2
// (verified): psf per foot active and at rest, psf bearing. 0 is not allowed.
func TestEP23CodeLoads(t *testing.T) {
	for class, c := range map[string][3]float64{
		"GW": {30, 60, 3000}, "GP": {30, 60, 3000}, "GM": {40, 60, 2000}, "GC": {45, 60, 2000},
		"SW": {30, 60, 2000}, "SP": {30, 60, 2000}, "SM": {45, 60, 2000}, "SC-SM": {45, 100, 2000}, "SC": {60, 100, 2000},
		"ML": {45, 100, 1500}, "CL-ML": {60, 100, 1500}, "CL": {60, 100, 1500},
		"MH": {0, 0, 1500}, "CH": {0, 0, 1500}, "OL": {0, 0, 0}, "OH": {0, 0, 0}, "PT": {0, 0, 0}, "topsoil": {0, 0, 0},
	} {
		s, _ := Default().Soil(class)
		near(t, class+" active", s.CodeActive, c[0]*0.1570875, 1e-5)
		near(t, class+" at rest", s.CodeAtRest, c[1]*0.1570875, 1e-5)
		near(t, class+" bearing", s.Bearing, c[2]*0.0478803, 1e-3)
	}
	// Cover 2 ft, box 8.5 ft, GW at rest: 3187.5 lb/ft = 46.5 kN/m.
	s, _ := Default().Soil("GW")
	top, bottom := 2*0.3048*s.CodeAtRest, 10.5*0.3048*s.CodeAtRest
	near(t, "EP-23 thrust, kN/m", (top+bottom)/2*8.5*0.3048, 3187.5*0.0145939, 0.001)
}

// The active load of the code is of the size of Rankine's for the same soil.
func TestCodeActiveAgainstRankine(t *testing.T) {
	for _, class := range Default().SoilClasses() {
		s, _ := Default().Soil(class)
		if s.CodeActive == 0 {
			continue
		}
		k := math.Tan(math.Pi/4 - s.Phi*math.Pi/360)
		if r := s.CodeActive / (k * k * s.Gamma); r < 0.75 || r > 1.6 {
			t.Errorf("%s: code %g kN/m3 is %.2f of Rankine", class, s.CodeActive, r)
		}
	}
}

// The default class is C for every soil: nobody has classified the ground yet,
// and 29 CFR 1926.652(b)(1) (verified) then asks for 1.5:1, the slope of C.
func TestDefaultDigClasses(t *testing.T) {
	for _, class := range Default().SoilClasses() {
		s, _ := Default().Soil(class)
		want := "C"
		if class == "rock" {
			want = "rock"
		}
		if s.DigClass != want {
			t.Errorf("%s: class %s, want %s", class, s.DigClass, want)
		}
	}
}

// Drain stone: n 0.40 and Gs 2.65 give 15.6, 19.5 and 9.7 kN/m3 (derived); the
// grading is the middle of the No. 57 band (passing 95-100 % at 25.4 mm, 25-60
// at 12.7, 0-10 at 4.75), log-linear in between.
func TestDrainStone(t *testing.T) {
	s, _ := Default().Soil("drain-stone")
	near(t, "dry", s.Dry, 0.6*2.65*9.81, 0.01)
	near(t, "saturated", s.GammaSat, 19.5, 0.05)
	near(t, "buoyant", s.GammaSat-9.81, 9.7, 0.05)
	size := func(p float64) float64 {
		d, q := []float64{4.75, 12.7, 25.4}, []float64{5, 42.5, 97.5}
		i := 0
		if p > q[1] {
			i = 1
		}
		return d[i] * math.Pow(d[i+1]/d[i], (p-q[i])/(q[i+1]-q[i]))
	}
	near(t, "D15", s.D15, size(15), 0.05)
	near(t, "D50", s.D50, size(50), 0.05)
	near(t, "D85", s.D85, size(85), 0.05)
}

func TestSoilOfGivesTheRow(t *testing.T) {
	for _, class := range Default().SoilClasses() {
		s, _ := Default().Soil(class)
		m, ok := Default().SoilOf(class)
		if !ok || m.ID != class || m.USCS != class || m.Name != s.Name || m.OCR != 1 || len(m.Set) != 0 {
			t.Errorf("%s: %+v", class, m)
		}
		got := []float64{m.Gamma, m.GammaSat, m.Phi, m.Cohesion, m.DeltaSt, m.DeltaCo, m.E, m.Nu, m.Kx, m.Kz, m.D15, m.D50, m.D85, m.Bearing}
		want := []float64{s.Gamma, s.GammaSat, s.Phi, s.Cohesion, s.DeltaSt, s.DeltaCo, s.E, s.Nu, s.Kx, s.Kz, s.D15, s.D50, s.D85, s.Bearing}
		if !slices.Equal(got, want) || m.DigClass != s.DigClass {
			t.Errorf("%s: %v, want %v", class, got, want)
		}
	}
}
