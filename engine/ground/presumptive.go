package ground

import "fmt"

// Presumptive is a row of the values that a building code lets be taken
// without tests.
type Presumptive struct {
	Name     string
	Bearing  float64 // vertical, kPa
	Lateral  float64 // per m of depth, kPa/m
	Friction float64 // of the dead load; 0 where cohesion counts instead
	Cohesion float64 // kPa
}

// Conversions of the printed table.
const (
	psf     = 4.4482216152605e-3 / (0.3048 * 0.3048) // kPa
	psfFoot = psf / 0.3048                           // kPa/m
)

// presumptive is IBC table 1806.2 (as printed in an ICC proposal, verified).
var presumptive = []struct {
	classes []string
	row     Presumptive
}{
	{[]string{"GW", "GP"}, Presumptive{"sandy gravel, gravel", 3000 * psf, 200 * psfFoot, 0.35, 0}},
	{[]string{"SW", "SP", "SM", "SC", "GM", "GC", "SM-SC"},
		Presumptive{"sand, silty or clayey sand, silty or clayey gravel", 2000 * psf, 150 * psfFoot, 0.25, 0}},
	{[]string{"CL", "ML", "MH", "CH", "ML-CL"}, Presumptive{"clay, silt", 1500 * psf, 100 * psfFoot, 0, 130 * psf}},
	{[]string{"rock"}, Presumptive{"sedimentary or foliated rock", 4000 * psf, 400 * psfFoot, 0.35, 0}},
	{[]string{"crystalline"}, Presumptive{"crystalline bedrock", 12000 * psf, 1200 * psfFoot, 0.70, 0}},
}

// PresumptiveFor is the row for a USCS class, "rock" (the weaker of the two
// rows) or "crystalline". Organic soils, peat and unknown classes have none,
// which is an error; nor has fill that was not prepared.
func PresumptiveFor(class string) (Presumptive, error) {
	for _, p := range presumptive {
		for _, c := range p.classes {
			if c == class {
				return p.row, nil
			}
		}
	}
	return Presumptive{}, fmt.Errorf("ground: soil class %q: no presumptive bearing, it must be tested", class)
}
