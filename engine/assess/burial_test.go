package assess

import (
	"math"
	"slices"
	"testing"

	"hillset/engine/box"
	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/steel"
	"hillset/engine/tables"
)

// demo is a demonstration project with its water given, which is quick: what
// most checks ask does not hang on how the water is known. Those that do ask
// computedDemo. The drains of the store put right hold the water as low as its
// levels say here.
func demo(t testing.TB, name string) *model.Project {
	t.Helper()
	p := computedDemo(t, name)
	give(p, name)
	return p
}

// give sets the water of a demonstration project.
func give(p *model.Project, name string) {
	still(p)
	switch name {
	case "put-right":
		p.Site.Water.DesignHigh, p.Site.Water.Seasonal = level(100.4), level(100.2)
	case "as-drawn": // high enough to float a bare box
		p.Site.Water.DesignHigh, p.Site.Water.Seasonal = level(101.3), level(100.7)
	}
}

// still gives the water of a project in place of computing it.
func still(p *model.Project) {
	p.Site.Water.Computed = false
	p.Stages = slices.DeleteFunc(p.Stages, func(st model.Stage) bool { return st.Blocked })
}

func level(z float64) *float64 { return &z }

// computedDemo is a demonstration project as it is in its file, water computed.
func computedDemo(t testing.TB, name string) *model.Project {
	t.Helper()
	d, problems, err := model.ReadFile("../../testdata/potato-store-" + name + ".hillset")
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	return d.Project
}

// TestFillHeight: structure reference ST-10 (derived there by statics): the
// greatest drained backfill for a bare new S1 wall, L 2.40 m pinned. The
// soil is given by its equivalent fluid weight, so phi is chosen for K0 0.5
// and gamma = 2 times the fluid weight. The case lists allowable stress and
// load factor; the lower of the two decides here.
func TestFillHeight(t *testing.T) {
	set := tables.Default()
	row, _ := set.Sheet("S1")
	prof, err := steel.FromSheet(row, 0.0016)
	if err != nil {
		t.Fatal(err)
	}
	strip := box.Strip{Profile: prof, Steel: box.Material{Fy: 345e3, E: 200e6}, Height: 2.40}
	for _, c := range []struct {
		name    string
		fluid   float64 // kN/m3
		flooded bool
		want    float64
	}{
		{"30 pcf", 4.712, false, 2.08},
		{"45 pcf", 7.069, false, 1.73},
		{"60 pcf", 9.425, false, 1.53},
		{"K0 0.5 x 18", 9.0, false, 1.56},
		{"undrained to the top of the fill", 9.81 + 0.5*10, true, 1.27},
	} {
		t.Run("ST-10 "+c.name, func(t *testing.T) {
			l := earth.Layer{Gamma: 2 * c.fluid, GammaSat: 2*c.fluid + 1, Phi: math.Pi / 6, OCR: 1}
			if c.flooded {
				l.Gamma, l.GammaSat = 18, 10+earth.GammaW
			}
			h, whole, err := fillHeight(strip, l, c.flooded)
			if err != nil || whole || math.Abs(h-c.want) > 0.01*c.want {
				t.Errorf("%.3f m (whole %v, %v), want %.2f within 1 %%", h, whole, err, c.want)
			}
		})
	}
}

// TestBurialSaying: a bare box does not bear the saying "4 to 6 ft is fine" in
// every soil: 4 ft (1.22 m) of clean drained gravel is within, and not even
// that of flooded clay; 6 ft (1.83 m) is beyond in any of them for steel of
// unknown make; and the roof bears no foot of soil (common practice, no
// source: the saying; the limits are computed).
func TestBurialSaying(t *testing.T) {
	p := demo(t, "as-drawn")
	rows, err := BurialTable(p, tables.Default())
	if err != nil || len(rows) < 8 {
		t.Fatal(rows, err)
	}
	by := map[string]Burial{}
	for _, r := range rows {
		by[r.Class] = r
		if r.Flooded > r.Drained+1e-9 {
			t.Errorf("%s: flooded %.2f holds more than drained %.2f", r.Class, r.Flooded, r.Drained)
		}
		if r.RoofCover > 0.3048 {
			t.Errorf("%s: bare roof bears %.2f m", r.Class, r.RoofCover)
		}
	}
	const ft = 0.3048
	if s := by["drain-stone"]; s.Drained < 4*ft {
		t.Errorf("4 ft of drained stone does not hold: %.2f m", s.Drained)
	}
	if c := by["CL"]; c.Flooded >= 4*ft || c.Drained >= 6*ft {
		t.Errorf("clay: drained %.2f, flooded %.2f", c.Drained, c.Flooded)
	}
	if !math.IsNaN(by["CH"].Drained) {
		t.Error("CH is not allowed as backfill and must have no height")
	}
}

// TestBurialIsBare: the table is of the bare box, so that bracing cannot make
// it promise what ribs, rails or the box as a body do not hold.
func TestBurialIsBare(t *testing.T) {
	p := demo(t, "put-right")
	braced, err := BurialTable(p, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	q := p.Clone()
	q.Strengthening = model.Strengthening{}
	bare, err := BurialTable(q, tables.Default())
	if err != nil {
		t.Fatal(err)
	}
	for i := range bare {
		a, b := braced[i], bare[i]
		if a.Class != b.Class || !sameBits(a.Drained, b.Drained) || !sameBits(a.RoofCover, b.RoofCover) {
			t.Errorf("%s: braced %+v, bare %+v", b.Class, a, b)
		}
		if a.RoofCover > 0.3048 {
			t.Errorf("%s: the bare roof is said to bear %.2f m", a.Class, a.RoofCover)
		}
	}
	if len(p.Strengthening.Wales) == 0 {
		t.Error("the table took the wales out of the project")
	}
}
