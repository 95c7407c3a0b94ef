package earth

import (
	"math"
	"math/rand"
	"testing"
)

// formula is one function with arguments that it takes.
type formula struct {
	name string
	args []float64
	run  func(a []float64) ([]float64, error)
}

// one, two and three gather results for comparison.
func one(v float64, err error) ([]float64, error)    { return []float64{v}, err }
func two(v, w float64, err error) ([]float64, error) { return []float64{v, w}, err }
func load(p WallLoad, err error) ([]float64, error) {
	if err != nil {
		return nil, err
	}
	return []float64{p(0), p(.3), p(2), p(-1)}, nil
}

func pressure(d Diagram, err error) ([]float64, error) {
	var v []float64
	for _, r := range d {
		v = append(v, r.Level, r.Depth, r.Soil, r.Total, r.Quake, r.Compaction)
	}
	return v, err
}

var wall = line(0, 0, -3, 27)

var formulas = []formula{
	{"K0", []float64{.6, 1.5}, func(a []float64) ([]float64, error) { return one(K0(a[0], a[1])) }},
	{"K0Slope", []float64{.6, 1.5, .2}, func(a []float64) ([]float64, error) { return one(K0Slope(a[0], a[1], a[2])) }},
	{"RankineKa", []float64{.6}, func(a []float64) ([]float64, error) { return one(RankineKa(a[0])) }},
	{"RankineKp", []float64{.6}, func(a []float64) ([]float64, error) { return one(RankineKp(a[0])) }},
	{"RankineKaSlope", []float64{.6, .2}, func(a []float64) ([]float64, error) { return one(RankineKaSlope(a[0], a[1])) }},
	{"CrackDepth", []float64{10, 18, .4, 2}, func(a []float64) ([]float64, error) { return one(CrackDepth(a[0], a[1], a[2], a[3])) }},
	{"CoulombKa", []float64{.6, .3, .1, -.1}, func(a []float64) ([]float64, error) { return one(CoulombKa(a[0], a[1], a[2], a[3])) }},
	{"CoulombKp", []float64{.6, .1, .1, -.1}, func(a []float64) ([]float64, error) { return one(CoulombKp(a[0], a[1], a[2], a[3])) }},
	{"LogSpiralKp", []float64{.6, .3}, func(a []float64) ([]float64, error) { return one(LogSpiralKp(a[0], a[1])) }},
	{"FanKp", []float64{.6, .3, .1, 0}, func(a []float64) ([]float64, error) { return one(FanKp(a[0], a[1], a[2], a[3])) }},
	{"MononobeOkabe", []float64{.6, .3, .1, 0, .1, .05}, func(a []float64) ([]float64, error) {
		return two(MononobeOkabe(a[0], a[1], a[2], a[3], a[4], a[5]))
	}},
	{"SeedWhitman", []float64{.1, 18, 3}, func(a []float64) ([]float64, error) { return two(SeedWhitman(a[0], a[1], a[2])) }},
	{"WoodNonYielding", []float64{.1, 18, 3}, func(a []float64) ([]float64, error) { return two(WoodNonYielding(a[0], a[1], a[2])) }},
	{"WaterDynamic", []float64{.1, 3, 2}, func(a []float64) ([]float64, error) { return one(WaterDynamic(a[0], a[1], a[2])) }},
	{"UniformLoad", []float64{.5, 10}, func(a []float64) ([]float64, error) { return load(UniformLoad(a[0], a[1])) }},
	{"StripLoad", []float64{10, 1, 3, 3}, func(a []float64) ([]float64, error) { return load(StripLoad(a[0], a[1], a[2], a[3])) }},
	{"StripThrust", []float64{10, 1, 3, 3}, func(a []float64) ([]float64, error) { return two(StripThrust(a[0], a[1], a[2], a[3])) }},
	{"LineLoad", []float64{10, 1, 3}, func(a []float64) ([]float64, error) { return load(LineLoad(a[0], a[1], a[2])) }},
	{"LineThrust", []float64{10, 1, 3}, func(a []float64) ([]float64, error) { return two(LineThrust(a[0], a[1], a[2])) }},
	{"PointLoad", []float64{10, 1, 3, .2}, func(a []float64) ([]float64, error) { return load(PointLoad(a[0], a[1], a[2], a[3])) }},
	{"PointThrust", []float64{10, 1, 3}, func(a []float64) ([]float64, error) { return two(PointThrust(a[0], a[1], a[2])) }},
	{"WheelLoads", []float64{10, 1, .2, .1, 3}, func(a []float64) ([]float64, error) {
		return load(WheelLoads([]PlanLoad{{a[0], a[1], a[2]}, {5, 2, 1}}, a[3], a[4]))
	}},
	{"AreaLoad", []float64{10, 1, 3, -1, 1, .5, 3}, func(a []float64) ([]float64, error) {
		return load(AreaLoad(a[0], a[1], a[2], a[3], a[4], a[5], a[6]))
	}},
	{"PointStress", []float64{10, 1, 2}, func(a []float64) ([]float64, error) { return one(PointStress(a[0], a[1], a[2])) }},
	{"LineStress", []float64{10, 1, 2}, func(a []float64) ([]float64, error) { return one(LineStress(a[0], a[1], a[2])) }},
	{"CornerInfluence", []float64{1, 2, 2}, func(a []float64) ([]float64, error) { return one(CornerInfluence(a[0], a[1], a[2])) }},
	{"SpreadTwoToOne", []float64{10, 1, 2, 2}, func(a []float64) ([]float64, error) { return one(SpreadTwoToOne(a[0], a[1], a[2], a[3])) }},
	{"PatchStress", []float64{10, 0, 1, 1, 2, .1, .2, 1}, func(a []float64) ([]float64, error) {
		return one(PatchStress([]Patch{{a[0], a[1], a[2], a[3], a[4]}}, a[5], a[6], a[7]))
	}},
	{"DynamicAllowance", []float64{1}, func(a []float64) ([]float64, error) { return one(DynamicAllowance(a[0])) }},
	{"SpreadPressure", []float64{10, .5, .25, 1, 1.15}, func(a []float64) ([]float64, error) {
		return one(SpreadPressure(a[0], a[1], a[2], a[3], a[4]))
	}},
	{"WheelsThroughCover", []float64{10, 0, 0, .5, .25, 1, 1.15}, func(a []float64) ([]float64, error) {
		r, err := WheelsThroughCover([]Patch{{a[0], a[1], a[2], a[3], a[4]}}, a[5], a[6], true)
		return []float64{r.Mean, r.Peak, r.Pressure, r.Impact}, err
	}},
	{"Prism", []float64{18, 1, 2.4}, func(a []float64) ([]float64, error) { return one(Prism(a[0], a[1], a[2])) }},
	{"EmbankmentFactor", []float64{1, 2.4}, func(a []float64) ([]float64, error) { return one(EmbankmentFactor(a[0], a[1], true)) }},
	{"RoofEarth", []float64{18, 1, 2.4}, func(a []float64) ([]float64, error) { return two(RoofEarth(a[0], a[1], a[2], true)) }},
	{"TrenchLoad", []float64{18, 1, 2.4, .15}, func(a []float64) ([]float64, error) { return two(TrenchLoad(a[0], a[1], a[2], a[3])) }},
	{"ProjectingLoad", []float64{18, 1, 2.4, .19, .5}, func(a []float64) ([]float64, error) {
		p, err := ProjectingLoad(a[0], a[1], a[2], a[3], a[4])
		return []float64{p.Cc, p.Load, p.He, p.Prism}, err
	}},
	{"CompactionEnvelope", []float64{20, 18, .44, .5, 1}, func(a []float64) ([]float64, error) {
		e, err := CompactionEnvelope(a[0], a[1], a[2], a[3], a[4])
		return []float64{e.Max, e.Zc, e.Hc, e.At(1)}, err
	}},
	{"Compaction", []float64{20, 18, .44, .5, 1}, func(a []float64) ([]float64, error) {
		return pressure(Compaction(wall, a[0], a[1], a[2], a[3], a[4]))
	}},
	{"AddQuake", []float64{20, 0, -3}, func(a []float64) ([]float64, error) { return pressure(wall.AddQuake(a[0], a[1], a[2])) }},
	{"EquivalentFluid", []float64{9, 1, 0, -1, -3}, func(a []float64) ([]float64, error) {
		return pressure(EquivalentFluid(a[0], a[1], a[2], a[3], a[4]))
	}},
	{"SubmergedFluid", []float64{.5, 20}, func(a []float64) ([]float64, error) { return one(SubmergedFluid(a[0], a[1])) }},
	{"CodeFluid", []float64{5, 9}, func(a []float64) ([]float64, error) { return one(CodeFluid("GW", a[0], a[1], true)) }},
	{"NarrowFill", []float64{18, .5, .3, .6, 2}, func(a []float64) ([]float64, error) {
		return one(NarrowFill(a[0], a[1], a[2], a[3], a[4]))
	}},
}

// TestFormulasRefuseWhatIsNoNumber puts NaN and the infinities in the place of
// each argument of each formula: an error every time.
func TestFormulasRefuseWhatIsNoNumber(t *testing.T) {
	for _, f := range formulas {
		if _, err := f.run(f.args); err != nil {
			t.Errorf("%s: %v", f.name, err)
		}
		for i := range f.args {
			for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
				a := append([]float64(nil), f.args...)
				a[i] = bad
				if v, err := f.run(a); err == nil {
					t.Errorf("%s: argument %d = %v gave %v", f.name, i, bad, v)
				}
			}
		}
	}
}

// TestFormulasStayFinite feeds the formulas extreme numbers: an error or
// finite values, never NaN.
func TestFormulasStayFinite(t *testing.T) {
	rnd := rand.New(rand.NewSource(99))
	odd := []float64{0, 1e-300, 1e-13, 1e-9, 1e-3, 1, -1, 3, 45, 90, -90, 1e4, 1e9, 1e12, -1e12, 1e200, math.Pi / 2, math.Pi / 3}
	for _, f := range formulas {
		for range 3000 {
			a := append([]float64(nil), f.args...)
			for range 1 + rnd.Intn(2) {
				a[rnd.Intn(len(a))] = odd[rnd.Intn(len(odd))]
			}
			v, err := f.run(a)
			if err != nil {
				continue
			}
			for _, x := range v {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("%s(%v) = %v", f.name, a, v)
				}
			}
		}
	}
}
