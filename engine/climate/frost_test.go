package climate

import (
	"fmt"
	"math"
	"testing"
)

// Units of the American sources.
const (
	foot     = 0.3048
	pcf      = 16.018463 // kg/m3
	degF     = 1 / 1.8   // K
	btuConst = 1.730735  // W/mK of 1 Btu/h·ft·°F
)

// wt18 is the winter of WT-18: the inputs of the homogeneous soil of TM 5-852-6
// (memory).
var wt18 = FrostIn{
	Soil:  Soil{Dry: 100 * pcf, Water: 0.15, KUnfrozen: 0.76 * btuConst, KFrozen: 0.76 * btuConst},
	Index: 2500 * degF, N: 1, Mean: (37.2 - 32) * degF, Days: 160, HasMean: true,
}

// WT-18: 1 % of the exact lambda (derived), 3 % of the chart (memory).
func TestWT18Frost(t *testing.T) {
	f := must(FindFrost(wt18))
	near(t, "L", f.Fusion, 2160*37258.9, 0.01) // 1 Btu/ft3 = 37258.9 J/m3
	near(t, "C", wt18.Soil.capacity(), 28.25*37258.9*1.8, 0.01)
	near(t, "vs", f.Surface/wt18.Days, 15.6*degF, 0.01)
	near(t, "alpha", f.Alpha, 0.333, 0.01)
	near(t, "mu", f.Mu, 0.204, 0.01)
	near(t, "lambda", f.Lambda, 0.8956, 0.01)
	near(t, "Stefan", f.Stefan, 6.50*foot, 0.01)
	near(t, "X", f.Depth, 1.774, 0.01)
	near(t, "X of the chart", f.Depth, 5.8*foot, 0.03)
	near(t, "lambda of the chart", f.Lambda, 0.89, 0.03)
}

// WT-18, second route: the depth of frost by finite differences of the heat
// content, without Neumann's solution (1.774 m, derived).
func TestWT18ByEnthalpy(t *testing.T) {
	f := must(FindFrost(wt18))
	x := enthalpyFront(wt18, f.Surface/wt18.Days, 0.02, 8)
	near(t, "front", x, 1.774, 0.01)
	near(t, "front against lambda", x, f.Depth, 0.01)
}

// enthalpyFront freezes a column from a surface at -cold and gives the depth of
// the front at the end of the season, m: explicit steps of the heat of cells dx
// thick down to a depth.
func enthalpyFront(in FrostIn, cold, dx, depth float64) float64 {
	k, c, l := in.Soil.k(), in.Soil.capacity(), in.Soil.fusion()
	n := int(depth / dx)
	h, temp := make([]float64, n), make([]float64, n) // heat above ice at 0 °C
	for i := range h {
		h[i], temp[i] = l+c*in.Mean, in.Mean
	}
	dt := 0.4 * dx * dx * c / k
	for s := 0.0; s < in.Days*day; s += dt {
		above := 2 * k * (-cold - temp[0]) / dx // half a cell to the surface
		for i := range h {
			below := 0.0
			if i+1 < n {
				below = k * (temp[i] - temp[i+1]) / dx
			}
			h[i] += dt / dx * (above - below)
			above = below
		}
		for i := range h {
			temp[i] = math.Min(h[i], 0)/c + math.Max(h[i]-l, 0)/c
		}
	}
	frozen := 0.0
	for i := range h {
		frozen += dx * math.Min(1, math.Max(0, 1-h[i]/l))
	}
	return frozen
}

// WT-18, the table of lambda in section 6 (derived), to 0.005.
func TestWT18Lambda(t *testing.T) {
	alphas := []float64{0, 0.25, 0.5, 1, 1.5, 2, 3}
	for _, row := range [][]float64{
		{0.05, 0.992, 0.966, 0.942, 0.895, 0.851, 0.810, 0.737},
		{0.10, 0.984, 0.946, 0.911, 0.846, 0.787, 0.735, 0.645},
		{0.20, 0.969, 0.914, 0.864, 0.776, 0.702, 0.639, 0.538},
		{0.30, 0.955, 0.887, 0.826, 0.725, 0.643, 0.576, 0.473},
		{0.50, 0.930, 0.841, 0.767, 0.649, 0.561, 0.492, 0.393},
	} {
		for i, a := range alphas {
			within(t, fmt.Sprintf("lambda(%g, %g)", a, row[0]), must(Lambda(a, row[0])), row[i+1], 0.005)
		}
	}
	// Stefan is the end where nothing but ice takes heat
	within(t, "lambda(0, small)", must(Lambda(0, 1e-4)), 1, 1e-3)
	_, err := Lambda(-1, 0.1)
	refused(t, err, "alpha")
	_, err = Lambda(1, 0)
	refused(t, err, "mu")
}

// Lambda solves the equation it is named for.
func TestLambdaSolves(t *testing.T) {
	for _, a := range []float64{0, 0.1, 0.7, 2, 8} {
		for _, mu := range []float64{0.01, 0.1, 0.5, 2} {
			x := must(Lambda(a, mu)) * math.Sqrt(mu/2)
			left := math.Exp(-x*x)/math.Erf(x) - a*math.Exp(-x*x)/math.Erfc(x)
			near(t, fmt.Sprintf("sides at %g, %g", a, mu), left, math.SqrtPi*x/mu, 1e-9)
		}
	}
}

// The two-layer Stefan against its differential equation in small steps, and
// the resistance that it asks for put back in.
func TestInsulationOverSoil(t *testing.T) {
	f := must(FindFrost(wt18))
	for _, r := range []float64{0, 0.5, 1.76, 4} {
		x := 0.0
		const n = 200000
		for range n { // L·dX = v·dt/(R + X/k), at mid-step
			step := f.Surface * day / n / f.Fusion
			mid := x + step/(r+math.Max(x, 1e-6)/f.K)/2
			x += step / (r + math.Max(mid, 1e-6)/f.K)
		}
		got := must(Insulated(f, r))
		near(t, fmt.Sprintf("X under R %g", r), got, x, 0.002)
		near(t, "R for that depth", must(InsulationFor(f, got))+1, r+1, 1e-9)
	}
	near(t, "without insulation it is Stefan", must(Insulated(f, 0)), f.Stefan, 1e-12)
	within(t, "none needed", must(InsulationFor(f, 5)), 0, 0)
	_, err := Insulated(f, -1)
	refused(t, err, "r")
	_, err = InsulationFor(f, 0)
	refused(t, err, "depth")
	_, err = Insulated(Frost{}, 1)
	refused(t, err, "fusion")
}

func TestFrostIsRefused(t *testing.T) {
	for field, spoil := range map[string]func(*FrostIn){
		"soil.dry":        func(in *FrostIn) { in.Soil.Dry = 0 },
		"soil.water":      func(in *FrostIn) { in.Soil.Water = 0 },
		"soil.k_frozen":   func(in *FrostIn) { in.Soil.KFrozen = math.NaN() },
		"soil.k_unfrozen": func(in *FrostIn) { in.Soil.KUnfrozen = -1 },
		"index":           func(in *FrostIn) { in.Index = -1 },
		"n":               func(in *FrostIn) { in.N = 0 },
		"mean":            func(in *FrostIn) { in.Mean = -3 },
		"days":            func(in *FrostIn) { in.Days = 0 },
		"alpha":           func(in *FrostIn) { in.Mean, in.Index = 40, 10 },
	} {
		in := wt18
		spoil(&in)
		_, err := FindFrost(in)
		refused(t, err, field)
	}
	in := wt18
	in.Index = 0
	within(t, "no frost", must(FindFrost(in)).Depth, 0, 0)
	in = wt18
	in.HasMean = false
	if f := must(FindFrost(in)); f.Depth != f.Stefan || f.Lambda != 1 {
		t.Errorf("without a season: %+v", f)
	}
}

// The field proxy (derived) and the groups of TM 5-818-2 (memory).
func TestSusceptible(t *testing.T) {
	for fines, want := range map[float64]bool{0: false, 0.03: false, 0.06: false, 0.061: true, 1: true} {
		if got := must(Susceptible(fines)); got != want {
			t.Errorf("%g finer: %v", fines, got)
		}
	}
	for _, c := range []struct {
		family string
		fines  float64
		want   string
	}{
		{Gravel, 0.02, "NFS"}, {Sand, 0.029, "NFS"}, {Gravel, 0.05, "S"}, {Gravel, 0.08, "F1"}, {Gravel, 0.15, "F2"}, {Gravel, 0.25, "F3"},
		{Sand, 0.10, "F2"}, {Sand, 0.20, "F3"}, {Clay, 0.6, "F3"}, {Silt, 0.6, "F4"}, {"peat", 0.5, ""},
	} {
		if got := must(Group(c.family, c.fines)); got != c.want {
			t.Errorf("%s, %g: %s, want %s", c.family, c.fines, got, c.want)
		}
	}
	_, err := Susceptible(1.2)
	refused(t, err, "fines")
	_, err = Group(Sand, math.NaN())
	refused(t, err, "finer")
	// 0.09·n·Sr·z with n·Sr the water by volume
	near(t, "heave", must(Heave(Soil{Dry: 1600, Water: 0.2, KFrozen: 1, KUnfrozen: 1}, 1)), 0.09*0.32, 1e-9)
	_, err = Heave(Soil{}, 1)
	refused(t, err, "dry")
}
