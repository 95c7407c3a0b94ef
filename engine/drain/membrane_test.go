package drain

import (
	"math"
	"testing"

	"hillset/engine/check"
	"hillset/engine/tables"
)

// Reference section 9: 9.81 kPa per m, 20.5 psf per 0.1 m; 40 and 60 mil (IRC
// R406.2, code digest, verified); damp-proofing is not for a head (memory).
func TestMembrane(t *testing.T) {
	near(t, "1 m, kPa", must(WaterPressure(1)), 9.81, 1e-9)
	near(t, "0.1 m, psf", must(WaterPressure(.1))/0.0478803, 20.5, .001)
	for id, mil := range map[string]float64{"asphalt": 40, "cement": 60, "rubber": 60, "sheet": 60} {
		m, ok := tables.Default().Membrane(id)
		if !ok || !m.Head {
			t.Fatal(id)
		}
		c := must(MembraneCheck(MembraneIn{Kind: m, Thickness: mil * 25.4e-6, Head: 1}))
		wellFormed(t, c)
		near(t, id, c.Ratio, 1, 1e-9)
		c = must(MembraneCheck(MembraneIn{Kind: m, Thickness: mil / 2 * 25.4e-6, Head: 1}))
		wellFormed(t, c)
		near(t, id+", half as thick", c.Ratio, 2, 1e-9)
	}
	damp, _ := tables.Default().Membrane("damp-proofing")
	c := must(MembraneCheck(MembraneIn{Kind: damp, Thickness: .001, Head: .05}))
	wellFormed(t, c)
	if c.Verdict() != check.Beyond || !math.IsInf(c.Ratio, 1) {
		t.Errorf("damp-proofing under water: %g", c.Ratio)
	}
	c = must(MembraneCheck(MembraneIn{Kind: damp, Thickness: .001}))
	wellFormed(t, c)
	if c.Verdict() != check.Within {
		t.Error("without a head a coat will do")
	}
	_, err := MembraneCheck(MembraneIn{Kind: damp, Head: -1})
	refused(t, err, "head")
	_, err = MembraneCheck(MembraneIn{Kind: damp, Thickness: math.NaN()})
	refused(t, err, "thickness")
}
