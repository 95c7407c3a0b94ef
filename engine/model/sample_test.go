package model

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
)

func ptr(v float64) *float64 { return &v }

// sample is a project without a problem in which every list has an entry.
func sample() *Project {
	p := New()
	p.Title = "Seed store in the pasture bank"
	p.Invented = true
	p.Sheet.Notes = "first line\nsecond line"
	p.Site = Site{
		Ground:     []Vec{{0, 100}, {5, 101}, {12, 103.5}, {30, 109}},
		CrossSlope: 0.05,
		Benchmark:  Benchmark{Vec{-3, 99.5}, "nail in the gatepost"},
		Soils: []Soil{
			{ID: "till", Name: "Till", USCS: "SC", Gamma: 19, GammaSat: 20, Phi: 30, Cohesion: 5, DeltaSt: 15, DeltaCo: 20, D15: 0.01, D50: 0.1, D85: 2, Sieves: []Sieve{{0.01, 0.15}, {2, 0.85}}, DigClass: "B", Set: []string{"phi"}},
			{ID: "stone", Name: "Drain stone", USCS: "GP", Gamma: 16, GammaSat: 19, Phi: 38, DeltaSt: 20, DeltaCo: 25},
		},
		Strata: []Stratum{{ID: "upper", Soil: "till"}, {ID: "lower", Soil: "stone", Top: []Vec{{0, 98}, {30, 104}}}},
		Rock:   []Vec{{0, 90}, {30, 95}},
		Water:  Water{Observed: []WaterPoint{{Vec{10, 99}, "April", "pit"}}, DesignHigh: ptr(99.5), Seasonal: ptr(98.5)},
		Surcharges: []Surcharge{
			{ID: "shed", Name: "Shed", Kind: AreaLoad, X1: 20, X2: 24, Y1: ptr(-2), Y2: ptr(2), Q: 5},
			{ID: "tractor", Name: "Tractor", Kind: Vehicle, X1: 8, Vehicle: "tractor", Heading: "along"},
		},
	}
	p.Site.Climate.AirMean = ptr(8.5)
	p.Room = Room{Temperature: ptr(6), Humid: 0.75, Insulation: Insulation{OutsideSteel, 0.05, 0.026, 60, 10, true},
		Vents: Vents{Kind: PipeVents, Apart: 2, Bore: 0.1, LowLen: 3, HighLen: 2, Fittings: 3}, People: 2, Activity: "rest", Hours: 4}
	p.Box.Front, p.Box.Level = 4, 100
	p.Box.Openings = []Opening{{ID: "vent", Wall: "back", From: 1, Width: 0.3, Sill: 2, Height: 0.3, Framed: true, Bar: "shs60x4"}}
	p.Bedding.RockSoil = "stone"
	p.Cut.ByStratum = map[string]float64{"lower": 1}
	p.Cut.Benches = []Bench{{1.2, 0.6}, {2.4, 0.6}}
	p.Fill.Backfill, p.Fill.RockSoil, p.Fill.CapSoil, p.Fill.TopsoilSoil = "stone", "stone", "till", "till"
	p.Fill.Plant = "plate"
	p.Fill.Line = []Vec{{0, 100}, {30, 109}}
	p.Fill.Roof = []RoofLayer{{"foam", "Foam board", 0.05, 0.3, ""}}
	p.Strengthening.Ribs = Ribs{1.2, "shs80x5", "shs80x5", "shs80x5", 2, "shs60x3", "", []Strut{{1.1, "shs60x4"}}}
	p.Strengthening.Wales = []Wale{{1.2, "shs80x5"}}
	p.Strengthening.BackWales = []Wale{{1.3, "shs80x5"}}
	p.Defence.Layers = []DefenceLayer{{"membrane", "Sheet", 0.0015, 20, "asphalt"}}
	p.Prices = map[string]float64{"dig hour": 150, "rock tonne": 32}
	p.Stages = DefaultStages("tractor")
	return p
}

// leaf is one number of a project with the path that a problem names.
type leaf struct {
	path    string // as in the file
	pattern string // as in the table of ranges
	v       reflect.Value
	set     func(float64)
}

// leaves lists all numbers of a project.
func leaves(v reflect.Value, path, pattern string) (out []leaf) {
	if v.Type() == vecType {
		return []leaf{
			{path, pattern, v, func(f float64) { v.Index(0).SetFloat(f) }},
			{path, pattern + ".z", v, func(f float64) { v.Index(1).SetFloat(f) }},
		}
	}
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			return nil
		}
		return leaves(v.Elem(), path, pattern)
	case reflect.Struct:
		for _, f := range fieldsOf(v.Type()) {
			out = append(out, leaves(v.Field(f.index), join(path, f.name), join(pattern, f.name))...)
		}
	case reflect.Slice:
		for i := range v.Len() {
			out = append(out, leaves(v.Index(i), fmt.Sprintf("%s[%d]", path, i), pattern+"[]")...)
		}
	case reflect.Map:
		keys := v.MapKeys()
		slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
		for _, k := range keys {
			out = append(out, leaf{join(path, k.String()), pattern + ".*", v, func(f float64) { v.SetMapIndex(k, reflect.ValueOf(f)) }})
		}
	case reflect.Float64:
		out = append(out, leaf{path, pattern, v, v.SetFloat})
	case reflect.Int:
		out = append(out, leaf{path, pattern, v, func(f float64) { v.SetInt(int64(f)) }})
	}
	return out
}
