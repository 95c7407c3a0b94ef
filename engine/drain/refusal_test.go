package drain

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"hillset/engine/check"
	"hillset/engine/tables"
	"hillset/geom"
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
	bermuda, _ := tables.Default().Lining("bermuda")
	pipe := PipeIn{Pipe: Pipe{Bore: .1, N: .016, Fall: .01}, Flow: litre, Fines: true}
	trench := TrenchIn{Flow: .1 * litre, Width: .6, Height: .6, Gradient: .01, K: 2, Grain: .025, Washed: true, Stones: Stones{.025, .4, 1.3}}
	out := OutletIn{Ground: geom.Polyline{{-60, -9}, {-20, -2}, {0, 0}, {20, 3}}, Start: geom.Vec{2, -2}, Fall: .01, Frost: .5, Edge: -40, HasEdge: true}
	curtain := CurtainIn{2e-5, 1.2, .2, 15}
	stop := StopIn{RiseIn: RiseIn{Inflow: 8 * lpm, Head: 2, Layers: []Store{{.30, 26.4, .38}, {1.5, 10, .3}}}, Floor: .3, Float: 1.047, HasFloat: true, Reaction: 24}
	soil := Grading{{.02, .05}, {.05, .10}, {.075, .24}, {.35, .60}, {.90, .85}, {4, 1}}
	supply := SupplyIn{Head: 3.74, Rate: 40 * lpm, Inflow: 8 * lpm, Efficiency: .3, Days: 3, Depth: .5, Line: .85, SunHours: 2.5, Derate: .75, Volts: 12, Battery: 1200, Panels: 400}
	type body = struct {
		in  any
		run func(any) (any, error)
	}
	return map[string]body{
		"PipeCheck":     {pipe, run(PipeCheck)},
		"VelocityCheck": {pipe, run(func(in PipeIn) (check.Check, error) { return VelocityCheck(in, litre/10) })},
		"FallCheck":     {pipe, run(FallCheck)},
		"TrenchCheck":   {trench, run(TrenchCheck)},
		"LayerCheck":    {LayerIn{10, .05, 1e-6, .01, .3}, run(LayerCheck)},
		"Layout":        {Layout{Below: .06, Above: .2, Beside: .2, Runs: []float64{10, 12}, Spacing: 25, Riser: .1, Surface: .06, Beyond: .4, Freezing: .1}, run(LayoutCheck)},
		"Opening":       {OpeningIn{D85: 20, Size: 8}, run(OpeningCheck)},
		"Cloth":         {ClothIn{Soil: soil, SoilK: 1e-5, AOS: .2, Permittivity: 1, K: 1e-3}, run(ClothCheck)},
		"Outlet": {out, run(func(in OutletIn) (check.Check, error) {
			c, _, err := OutletCheck(in)
			return c, err
		})},
		"FindOutlet": {out, run(FindOutlet)},
		"Curtain": {curtain, run(func(in CurtainIn) (check.Check, error) {
			return CurtainCheck(in, false, Pipe{Bore: .1, N: .016, Fall: .01})
		})},
		"Swale":  {SwaleIn{Swale: Swale{Bottom: .3, Left: 3, Right: 3, N: .04, Grade: .02}, Long: .1, Flow: .02, Room: .3, Lining: bermuda}, run(SwaleCheck)},
		"Sump":   {SumpIn{Rate: 40 * lpm, Inflow: 8 * lpm, Diameter: .45, Live: .3}, run(SumpCheck)},
		"Lift":   {riser15, run(func(r Riser) (check.Check, error) { return LiftCheck(r, 5) })},
		"Supply": {supply, run(SupplyCheck)},
		"Find":   {supply, run(FindSupply)},
		"Stop":   {stop, run(StopCheck)},
		"Cut":    {CutIn{3, .5, 1e-5, 12, SichardtReach}, run(func(in CutIn) (check.Check, error) { return CutCheck(in, false, litre) })},
		"Pit":    {CutIn{3, .5, 1e-5, 12, SichardtReach}, run(func(in CutIn) (Inflow, error) { return PitInflow(in, 7, 4) })},
	}
}

// floats calls f with every number of a struct, by its name, also those of
// structs, arrays and slices within, but not of tables.
func floats(v reflect.Value, name string, f func(string, reflect.Value)) {
	switch v.Kind() {
	case reflect.Float64:
		f(name, v)
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[tables.Lining]() {
			return
		}
		for i := range v.NumField() {
			floats(v.Field(i), name+"."+v.Type().Field(i).Name, f)
		}
	case reflect.Array, reflect.Slice:
		for i := range v.Len() {
			floats(v.Index(i), name, f)
		}
	}
}

// fresh is a copy of an input that can be changed; slices are copied too.
func fresh(in any) reflect.Value {
	v := reflect.New(reflect.TypeOf(in)).Elem()
	v.Set(reflect.ValueOf(in))
	var deep func(reflect.Value)
	deep = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Slice:
			s := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
			reflect.Copy(s, v)
			v.Set(s)
		case reflect.Struct:
			for i := range v.NumField() {
				deep(v.Field(i))
			}
		}
	}
	deep(v)
	return v
}

// A NaN or an infinity in any field of any input is refused.
func TestRefuseWhatIsNoNumber(t *testing.T) {
	for name, b := range bodies() {
		if _, err := b.run(b.in); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		n := 0
		floats(fresh(b.in), name, func(string, reflect.Value) { n++ })
		for k := range n {
			for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
				in, i, field := fresh(b.in), 0, ""
				floats(in, name, func(f string, v reflect.Value) {
					if i == k {
						v.SetFloat(bad)
						field = f
					}
					i++
				})
				if r, err := b.run(in.Interface()); err == nil {
					t.Errorf("%s = %v gave %+v", field, bad, r)
				}
			}
		}
	}
}

// noNaN looks for NaN in a result; RatioLRFD is NaN where there is no such form.
func noNaN(t *testing.T, where string, v reflect.Value) {
	t.Helper()
	floats(v, where, func(name string, v reflect.Value) {
		if math.IsNaN(v.Float()) && v.CanInterface() {
			t.Errorf("%s is NaN", name)
		}
	})
}

// Extreme numbers give an error, a check that was not made with its reason, or
// a result without NaN.
func TestOddNumbers(t *testing.T) {
	r := rand.New(rand.NewPCG(98, 1))
	odd := []float64{0, 1e-300, 1e-13, 1e-9, 1e-6, 1e-3, .01, .3, 1, -1, 3, 45, 1e4, 1e9, 1e12, -1e12, 1e200, math.Pi / 3}
	for name, b := range bodies() {
		took := 0
		for range 3000 {
			in := fresh(b.in)
			floats(in, name, func(_ string, v reflect.Value) {
				switch r.IntN(6) {
				case 0:
					v.SetFloat(odd[r.IntN(len(odd))])
				case 1:
					v.SetFloat(v.Float() * math.Pow(10, 4*r.Float64()-2))
				}
			})
			out, err := b.run(in.Interface())
			if err != nil {
				continue
			}
			took++
			if c, ok := out.(check.Check); ok {
				if c.Missing == "" {
					c.RatioLRFD = 0
					wellFormed(t, c)
				} else {
					continue
				}
				out = c
			}
			noNaN(t, name, reflect.ValueOf(out))
			if t.Failed() {
				t.Fatalf("%s of %+v", name, in.Interface())
			}
		}
		if took < 20 {
			t.Errorf("%s took %d of the inputs only", name, took)
		}
	}
}
