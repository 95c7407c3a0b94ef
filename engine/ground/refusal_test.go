package ground

import (
	"math"
	"math/rand"
	"reflect"
	"testing"
)

// run makes a function of an input struct one of any.
func run[I, R any](f func(I) (R, error)) func(any) (any, error) {
	return func(in any) (any, error) { return f(in.(I)) }
}

// bodies are the functions that take a struct, each with one that it takes.
func bodies() map[string]struct {
	in  any
	run func(any) (any, error)
} {
	float := box20()
	float.Water, float.K, float.Delta, float.Perimeter, float.Share, float.Required = 1, .5, .3, 14, .5, 1.3
	slide := slide20()
	slide.WeightArm, slide.Water, slide.WaterLevel, slide.Uplift, slide.Passive = 3, 5, .3, 20, 10
	pads := pads20()
	pads.Ex, pads.Ey = .3, .1
	return map[string]struct {
		in  any
		run func(any) (any, error)
	}{
		"Float":            {float, run(Float)},
		"FlotationCheck":   {float, run(FlotationCheck)},
		"SlideBox":         {slide, run(SlideBox)},
		"SlidingCheck":     {slide, run(SlidingCheck)},
		"OverturningCheck": {slide, run(OverturningCheck)},
		"ResultantCheck":   {slide, run(ResultantCheck)},
		"PadCheck":         {pads, run(PadCheck)},
		"LoadPads":         {pads, run(LoadPads)},
		"StandWall":        {WallIn{B: 1, H: 2, HArm: 1, V: 1, VArm: 1, TanBase: .5, Adhesion: 1, Passive: 1, Weights: []Weight{{20, .5}}}, run(StandWall)},
		"Stack": {StackIn{Courses: 3, Height: .6, B: .6, Setback: .05, Gamma: 22, Soil: 18, Phi: .6, Delta: .3, Beta: .1, Q: 5, TanBase: .5, TanJoint: .5},
			run(Stack)},
		"SplayWing":    {WingIn{Splay: .7, Beta: .3, Phi: .6, Gamma: 18, H1: 2, H2: .6, Length: 3}, run(SplayWing)},
		"Footing":      {FootingIn{Method: EC7, B: 1, L: 2, Depth: .5, Q: 9, Gamma: 18, C: 2, Phi: .6, V: 100, H: 10}, run(Footing)},
		"SideFriction": {SideFrictionIn{K: .5, Delta: .3, Length: 12}, run(SideFriction)},
	}
}

// unused are the fields that a function does not read.
var unused = map[string]bool{"Float.Required": true, "SlideBox.Required": true, "SlideBox.RequiredPassive": true,
	"OverturningCheck.RequiredPassive": true, "ResultantCheck.Required": true, "ResultantCheck.RequiredPassive": true,
	"PadCheck.Required": true, "LoadPads.Allowable": true, "LoadPads.Ultimate": true, "LoadPads.Required": true}

// TestBodiesRefuseWhatIsNoNumber puts NaN and the infinities into each field.
func TestBodiesRefuseWhatIsNoNumber(t *testing.T) {
	for name, b := range bodies() {
		if _, err := b.run(b.in); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		typ := reflect.TypeOf(b.in)
		for i := range typ.NumField() {
			field := typ.Field(i).Name
			if typ.Field(i).Type.Kind() != reflect.Float64 || unused[name+"."+field] {
				continue
			}
			for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
				if name == "Footing" && field == "L" && bad > 0 {
					continue // a strip
				}
				in := reflect.New(typ).Elem()
				in.Set(reflect.ValueOf(b.in))
				in.Field(i).SetFloat(bad)
				if v, err := b.run(in.Interface()); err == nil {
					t.Errorf("%s: %s = %v gave %+v", name, field, bad, v)
				}
			}
		}
	}
}

// noNaN looks for NaN in a result, field by field; FSActive is NaN where the
// relaxed thrust was not given, RatioLRFD where there is no such form.
func noNaN(t *testing.T, where string, v reflect.Value) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) {
			t.Errorf("%s is NaN", where)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if n := v.Type().Field(i).Name; n != "FSActive" && n != "RatioLRFD" && n != "Station" {
				noNaN(t, where+"."+n, v.Field(i))
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			noNaN(t, where, v.Index(i))
		}
	}
}

// TestBodiesWithOddNumbers feeds the functions extreme numbers: an error, or a
// result without NaN.
func TestBodiesWithOddNumbers(t *testing.T) {
	rnd := rand.New(rand.NewSource(98))
	odd := []float64{0, 1e-300, 1e-9, 1e-3, 1, -1, 3, 45, 1e4, 1e9, 1e12, -1e12, 1e200, math.Pi / 3}
	for name, b := range bodies() {
		typ := reflect.TypeOf(b.in)
		for range 2000 {
			in := reflect.New(typ).Elem()
			in.Set(reflect.ValueOf(b.in))
			for range 1 + rnd.Intn(2) {
				if f := in.Field(rnd.Intn(typ.NumField())); f.Kind() == reflect.Float64 {
					f.SetFloat(odd[rnd.Intn(len(odd))])
				}
			}
			if v, err := b.run(in.Interface()); err == nil {
				noNaN(t, name, reflect.ValueOf(v))
			}
			if t.Failed() {
				t.Fatalf("%s(%+v)", name, in.Interface())
			}
		}
	}
}

// TestPlainFunctionsRefuse goes through the functions of plain numbers.
func TestPlainFunctionsRefuse(t *testing.T) {
	three := func(a, b, c float64, err error) (float64, error) { return a + b + c, err }
	calls := []struct {
		name string
		args []float64
		run  func(a []float64) (any, error)
	}{
		{"PressBase", []float64{10, 5, 1}, func(a []float64) (any, error) { return PressBase(a[0], a[1], a[2]) }},
		{"InKern", []float64{.1, .1, 2, 1}, func(a []float64) (any, error) { return InKern(a[0], a[1], a[2], a[3]) }},
		{"ToePassive", []float64{18, .6, .3, .5, 2, 0}, func(a []float64) (any, error) {
			return ToePassive(a[0], a[1], a[2], a[3], a[4], a[5])
		}},
		{"Undrained", []float64{40, 8, 1, 2, 10}, func(a []float64) (any, error) { return three(Undrained(a[0], a[1], a[2], a[3], a[4])) }},
		{"Settle", []float64{95, 1, 2, 2e4, .3}, func(a []float64) (any, error) { return Settle(a[0], a[1], a[2], a[3], a[4]) }},
		{"SettleBed", []float64{95, 1, 2, .3, 2e4, .3}, func(a []float64) (any, error) {
			return SettleBed(a[0], a[1], a[2], a[3], a[4], a[5])
		}},
		{"Constrained", []float64{2e4, .3}, func(a []float64) (any, error) { return Constrained(a[0], a[1]) }},
		{"DrainedNu", []float64{.6}, func(a []float64) (any, error) { return DrainedNu(a[0]) }},
		{"BearingFactors", []float64{.6}, func(a []float64) (any, error) { return BearingFactors(Vesic, a[0]) }},
		{"WaterFor", []float64{1.2}, func(a []float64) (any, error) { return box20().WaterFor(a[0]) }},
		{"CoverFor", []float64{1.2, 5}, func(a []float64) (any, error) { return box20().CoverFor(a[0], a[1], true) }},
		{"Overburden", []float64{18, 20, 1}, func(a []float64) (any, error) { return Overburden(a[0], a[1], a[2], 1) }},
		{"GammaBelow", []float64{18, 20, 1, 2}, func(a []float64) (any, error) { return GammaBelow(a[0], a[1], a[2], 1, a[3]) }},
	}
	for _, c := range calls {
		if _, err := c.run(c.args); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		for i := range c.args {
			for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
				a := append([]float64(nil), c.args...)
				a[i] = bad
				if v, err := c.run(a); err == nil {
					t.Errorf("%s: argument %d = %v gave %v", c.name, i, bad, v)
				}
			}
		}
	}
}
