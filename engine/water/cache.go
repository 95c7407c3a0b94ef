package water

import (
	"context"
	"encoding/json"
	"sync"

	"hillset/engine/model"
	"hillset/engine/section"
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

// feels is all that the water feels of a project.
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
	Stages  []shapeFelt
}

type soilFeels struct {
	ID, USCS string
	Kx, Kz   float64
	Asked    []string
}

// shapeFelt is key with names that can be written.
type shapeFelt struct {
	Shape   section.Shape
	Wet     string
	Blocked bool
}

// keyText writes it; "" where a value cannot be written.
func keyText(p *model.Project) string {
	f := feels{Ground: p.Site.Ground, Cross: p.Site.CrossSlope, Strata: p.Site.Strata, Water: p.Site.Water,
		Box: [2]string{p.Box.Type, p.Box.Orientation}, At: [2]float64{p.Box.Front, p.Box.Level},
		Bedding: p.Bedding, Cut: p.Cut, Fill: p.Fill, Drain: p.Defence.Drain}
	for i := range p.Site.Soils {
		s := &p.Site.Soils[i]
		f.Soils = append(f.Soils, soilFeels{s.ID, s.USCS, s.Kx, s.Kz, s.Set})
	}
	for _, st := range p.Stages {
		k := keyOf(st)
		f.Stages = append(f.Stages, shapeFelt{k.shape, k.wet, k.blocked})
	}
	b, err := json.Marshal(f)
	if err != nil {
		return ""
	}
	return string(b)
}

// Of is Compute, or what Compute gave for a project whose water is the same.
func Of(ctx context.Context, p *model.Project, t *tables.Set) (*Field, error) {
	k := keyText(p)
	if f := known(k); f != nil && k != "" {
		return f, nil
	}
	f, err := Compute(ctx, p, t)
	if err != nil {
		return nil, err
	}
	if k == "" {
		return f, nil
	}
	cache.Lock()
	defer cache.Unlock()
	cache.keys, cache.fields = append(cache.keys, k), append(cache.fields, f)
	if n := len(cache.keys) - kept; n > 0 {
		cache.keys, cache.fields = cache.keys[n:], cache.fields[n:]
	}
	return f, nil
}

func known(k string) *Field {
	cache.Lock()
	defer cache.Unlock()
	for i := len(cache.keys) - 1; i >= 0; i-- {
		if cache.keys[i] == k {
			return cache.fields[i]
		}
	}
	return nil
}
