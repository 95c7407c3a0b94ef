package tables

import (
	"math"
	"slices"
	"testing"
)

// Every soil has thermal values, and no other row is there.
func TestThermalOfEverySoil(t *testing.T) {
	if s := Default(); !slices.Equal(s.ThermalClasses(), s.SoilClasses()) {
		t.Errorf("thermal.csv has %v, soils.csv %v", s.ThermalClasses(), s.SoilClasses())
	}
}

// kersten is the conductivity of Kersten's equations (1949, memory), W/mK, of a
// dry weight in pcf and a water content in percent.
func kersten(coarse bool, pcf, w float64) (unfrozen, frozen float64) {
	const in = 1.730735 / 12 // Btu·in/h·ft²·°F
	if coarse {
		return in * (0.7*math.Log10(w) + 0.4) * math.Pow(10, 0.01*pcf),
			in * (0.076*math.Pow(10, 0.013*pcf) + 0.032*math.Pow(10, 0.0146*pcf)*w)
	}
	return in * (0.9*math.Log10(w) - 0.2) * math.Pow(10, 0.01*pcf),
		in * (0.01*math.Pow(10, 0.022*pcf) + 0.085*math.Pow(10, 0.008*pcf)*w)
}

// The conductivities are those of the equations that they name, and the
// equations meet the values that Pavement Interactive prints (verified).
func TestThermalByItsEquations(t *testing.T) {
	_, silt := kersten(false, 100, 15)
	near(t, "frozen silt, 100 pcf, 15 %", silt, 0.80*1.7307, 0.01)
	granular, ice := kersten(true, 135, 5)
	near(t, "granular, 135 pcf, 5 %", granular, 1.65*1.7307, 0.03)
	near(t, "the same frozen, chart against equation", ice, 1.80*1.7307, 0.35) // 11 % of 3.12
	s := Default()
	for _, class := range s.SoilClasses() {
		soil, _ := s.Soil(class)
		th, _ := s.Thermal(class)
		u, f := kersten(th.Family == "gravel" || th.Family == "sand" || th.Family == "rock", soil.Dry/0.157087, 100*soil.Moisture)
		near(t, class+" unfrozen", th.KUnfrozen, u, 0.006)
		if soil.Moisture > 0.03 && class != "PT" { // see the words of those rows
			near(t, class+" frozen", th.KFrozen, f, 0.006)
		}
	}
}
