package water

import (
	"context"
	"encoding/json"
	"slices"
	"sync"

	"hillset/engine/model"
	"hillset/engine/tables"
)

// Most changes of a project leave its water as it is: bars, loads, names. What
// was computed last is kept, so that only those that move water cost a
// computation.

// kept is the number of fields held: the one in hand, those of a step of undo,
// and of a few remedies that were tried.
const kept = 12

var cache struct {
	sync.Mutex
	keys   []string
	fields []*Field
}

// feels is all that the water feels of a project but for its stages.
type feels struct {
	Ground  []model.Vec
	Cross   float64
	Soils   []soilFeels
	Strata  []model.Stratum
	Water   model.Water
	Box     [2]string
	At      [2]float64
	Bedding model.Bedding
	Cut     model.Cut
	Fill    model.Fill
	Drain   model.Drain
	Case    Case
}

type soilFeels struct {
	ID, USCS string
	Kx, Kz   float64
	Asked    bool
}

// keyText writes it; "" where a value cannot be written.
func keyText(p *model.Project, c Case) string {
	f := feels{Ground: p.Site.Ground, Cross: p.Site.CrossSlope, Strata: p.Site.Strata, Water: p.Site.Water,
		Box: [2]string{p.Box.Type, p.Box.Orientation}, At: [2]float64{p.Box.Front, p.Box.Level},
		Bedding: p.Bedding, Cut: p.Cut, Fill: p.Fill, Drain: p.Defence.Drain, Case: c}
	// what is built and dug alike however it is done
	f.Fill.LiftHeight, f.Fill.Plant, f.Fill.PlantSetback, f.Fill.Proven, f.Fill.SideFriction = 0, "", 0, false, 0
	f.Cut.Spoil, f.Cut.HoursOpen, f.Cut.Seepage, f.Cut.DryDig, f.Cut.Fissured, f.Cut.Ladders, f.Cut.Pump = model.Spoil{}, 0, false, false, false, 0, 0
	f.Drain = model.Drain{Present: f.Drain.Present, Diameter: f.Drain.Diameter, Depth: f.Drain.Depth,
		Uphill: f.Drain.Uphill, UphillAway: f.Drain.UphillAway, UphillDepth: f.Drain.UphillDepth}
	f.Fill.Roof = slices.Clone(f.Fill.Roof)
	for i := range f.Fill.Roof {
		r := &f.Fill.Roof[i]
		r.Name, r.Gamma, r.Grade = "", 0, ""
	}
	for i := range p.Site.Soils {
		s := &p.Site.Soils[i]
		f.Soils = append(f.Soils, soilFeels{s.ID, s.USCS, s.Kx, s.Kz, slices.Contains(s.Set, "kx")})
	}
	b, err := json.Marshal(f)
	if err != nil {
		return ""
	}
	return string(b)
}

// Of is Compute, or what Compute gave for a project whose water is the same.
// Stages that were not asked for before are worked out and added.
func Of(ctx context.Context, p *model.Project, t *tables.Set) (*Field, error) {
	return OfCase(ctx, p, t, Free)
}

// OfCase is Of with the drains in some state.
func OfCase(ctx context.Context, p *model.Project, t *tables.Set, c Case) (*Field, error) {
	k := keyText(p, c)
	old := known(k)
	if old != nil && old.has(p) {
		return old, nil
	}
	f, err := compute(ctx, p, t, c, old)
	if err != nil {
		return nil, err
	}
	if k == "" {
		return f, nil
	}
	cache.Lock()
	defer cache.Unlock()
	if i := slices.Index(cache.keys, k); i >= 0 {
		cache.keys, cache.fields = slices.Delete(cache.keys, i, i+1), slices.Delete(cache.fields, i, i+1)
	}
	cache.keys, cache.fields = append(cache.keys, k), append(cache.fields, f)
	if n := len(cache.keys) - kept; n > 0 {
		cache.keys, cache.fields = slices.Delete(cache.keys, 0, n), slices.Delete(cache.fields, 0, n)
	}
	return f, nil
}

// has tells whether the waters of all stages were worked out.
func (f *Field) has(p *model.Project) bool {
	for _, k := range keysOf(p) {
		if f.states[k] == nil && f.faults[k] == nil {
			return false
		}
	}
	return true
}

func known(k string) *Field {
	if k == "" {
		return nil
	}
	cache.Lock()
	defer cache.Unlock()
	for i := len(cache.keys) - 1; i >= 0; i-- {
		if cache.keys[i] == k {
			return cache.fields[i]
		}
	}
	return nil
}
