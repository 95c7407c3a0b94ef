package tables

import (
	"math"
	"testing"
)

// Pipes, mean n by kind (memory; 0.020 of a perforated smooth wall verified).
func TestPipes(t *testing.T) {
	for id, want := range map[string][3]float64{
		"smooth-100": {.100, .011, 0}, "smooth-150": {.150, .011, 0}, "corrugated-100": {.100, .016, 1.5}, "corrugated-150": {.150, .016, 1.5},
		"smooth-holes-100": {.100, .020, 13}, "smooth-holes-150": {.150, .020, 13},
	} {
		p, ok := Default().Pipe(id)
		if !ok {
			t.Errorf("no pipe %s", id)
			continue
		}
		near(t, id+" bore", p.Bore, want[0], 1e-12)
		near(t, id+" n", p.N, want[1], 0)
		near(t, id+" opening", p.OpeningWidth, want[2], 0)
		if p.Kind == "corrugated" && (p.NLow != .015 || p.NHigh != .018) {
			t.Errorf("%s: n from %g to %g", id, p.NLow, p.NHigh)
		}
	}
	// PVC schedule 40, 1 1/2 in: 1.610 in inside (memory)
	p, _ := Default().PumpPipe("pvc-1.5")
	near(t, "1.610 in", p.Bore, 1.610*.0254, 1e-4)
}

// Camp's curve: 1.29 between 0.2 and 0.3 and 1.29 - 0.2(y/D - 0.3) up to 0.5
// (verified), 1 at both ends.
func TestCampsCurve(t *testing.T) {
	at := map[float64]float64{}
	for _, n := range Default().Camp() {
		at[n.X] = n.Y
	}
	for x, y := range map[float64]float64{0: 1, .2: 1.29, .3: 1.29, .5: 1.29 - .2*.2, 1: 1} {
		near(t, "Camp", at[x], y, 1e-12)
	}
}

// TR-55 table 2-2 (verified), in the order A, B, C, D.
func TestCurveNumbers(t *testing.T) {
	for id, want := range map[string][4]float64{
		"pasture-good": {39, 61, 74, 80}, "pasture-fair": {49, 69, 79, 84}, "pasture-poor": {68, 79, 86, 89}, "meadow": {30, 58, 71, 78},
		"woods-good": {30, 55, 70, 77}, "gravel-road": {76, 85, 89, 91}, "dirt-road": {72, 82, 87, 89}, "bare": {77, 86, 91, 94},
		"half-acre": {54, 70, 80, 85}, "impervious": {98, 98, 98, 98},
	} {
		if c, ok := Default().CurveNumber(id); !ok || c.CN != want {
			t.Errorf("%s: %v, want %v", id, c.CN, want)
		}
	}
}

// Runoff coefficients of the lecture table (verified), the design value being
// the upper end; multipliers of rarer storms (memory); Kerby's n (memory).
func TestRunoffTables(t *testing.T) {
	for id, want := range map[string][2]float64{"lawn-sandy-flat": {.05, .10}, "lawn-heavy-steep": {.25, .35}, "bare": {.3, .6}, "hard": {.75, .95}} {
		c, ok := Default().Runoff(id)
		if !ok || c.CLow != want[0] || c.CHigh != want[1] || c.C != want[1] {
			t.Errorf("%s: %+v", id, c)
		}
	}
	want := [][2]float64{{10, 1}, {25, 1.1}, {50, 1.2}, {100, 1.25}}
	for i, n := range Default().Storms() {
		if n.X != want[i][0] || n.Y != want[i][1] {
			t.Errorf("storm %d: %+v", i, n)
		}
	}
	last := 0.0
	for _, id := range Default().OverlandIDs() {
		o, _ := Default().Overland(id)
		if o.N <= last {
			t.Errorf("retardance of %s: %g after %g", id, o.N, last)
		}
		last = o.N
	}
	near(t, "roughest", last, .8, 0)
}

// Default cloths (M 288, verified) and the steps of segregation (memory).
func TestFilterTables(t *testing.T) {
	want := []ClothRow{{FinesTo: .15, Permittivity: .5, AOS: .43}, {FinesTo: .5, Permittivity: .2, AOS: .25}, {FinesTo: 1, Permittivity: .1, AOS: .22}}
	got := Default().Cloths()
	if len(got) != len(want) {
		t.Fatalf("%d cloths", len(got))
	}
	for i, c := range got {
		near(t, "fines", c.FinesTo, want[i].FinesTo, 1e-12)
		near(t, "permittivity", c.Permittivity, want[i].Permittivity, 0)
		near(t, "AOS", c.AOS, want[i].AOS, 0)
	}
	steps := [][2]float64{{.5, 20}, {1, 25}, {2, 30}, {5, 40}, {10, 50}, {50, 60}}
	for i, n := range Default().Segregation() {
		if n.X != steps[i][0] || n.Y != steps[i][1] {
			t.Errorf("step %d: %+v", i, n)
		}
	}
}

// Every cover stands less on a steeper ditch and on softer soil (SCS-TP-61,
// verified; ft/s).
func TestLinings(t *testing.T) {
	for id, fps := range map[string][6]float64{"bermuda": {8, 6, 7, 5, 6, 4}, "bluegrass": {7, 5, 6, 4, 5, 3}, "mixture": {5, 4, 4, 3, 0, 0}, "redtop": {3.5, 2.5, 0, 0, 0, 0}} {
		l, ok := Default().Lining(id)
		if !ok {
			t.Fatalf("no lining %s", id)
		}
		for i := range 3 {
			if math.Abs(l.Resist[i]-fps[2*i]*.3048) > 1e-12 || math.Abs(l.Erode[i]-fps[2*i+1]*.3048) > 1e-12 {
				t.Errorf("%s: %v %v", id, l.Resist, l.Erode)
			}
		}
	}
}

// Class means of retention curves (Carsel and Parrish 1988, memory), and their
// permeability in m/s (derived).
func TestTextures(t *testing.T) {
	want := map[string][6]float64{ // residual, saturated, alpha in 1/cm, n, Ks in cm a day and in m/s
		"sand": {.045, .43, .145, 2.68, 712.8, 8.25e-5}, "loamy-sand": {.057, .41, .124, 2.28, 350.2, 4.05e-5}, "sandy-loam": {.065, .41, .075, 1.89, 106.1, 1.23e-5},
		"loam": {.078, .43, .036, 1.56, 24.96, 2.89e-6}, "silt": {.034, .46, .016, 1.37, 6, 6.94e-7}, "silt-loam": {.067, .45, .020, 1.41, 10.8, 1.25e-6},
		"sandy-clay-loam": {.1, .39, .059, 1.48, 31.44, 3.64e-6}, "clay-loam": {.095, .41, .019, 1.31, 6.24, 7.22e-7}, "silty-clay-loam": {.089, .43, .010, 1.23, 1.68, 1.94e-7},
		"sandy-clay": {.1, .38, .027, 1.23, 2.88, 3.33e-7}, "silty-clay": {.07, .36, .005, 1.09, .48, 5.56e-8}, "clay": {.068, .38, .008, 1.09, 4.8, 5.56e-7},
	}
	if n := len(Default().TextureIDs()); n != len(want) {
		t.Errorf("%d classes, want %d", n, len(want))
	}
	for id, w := range want {
		c, ok := Default().Texture(id)
		if !ok {
			t.Errorf("no class %s", id)
			continue
		}
		for i, got := range []float64{c.ThetaR, c.ThetaS, c.Alpha / 100, c.N, c.Ks * 86400 * 100} {
			near(t, id, got, w[i], 1e-9*w[i])
		}
		near(t, id+" Ks", c.Ks, w[5], 0.005*w[5])
	}
}
