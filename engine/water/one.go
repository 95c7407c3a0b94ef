package water

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"sync"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/engine/tables"
	"hillset/geom"
)

// OneStage works out the water of one stage in the long section alone: what a
// drawing needs first while something is being moved. Its Wet has no cross
// sections. An error is returned only when ctx is done.
func OneStage(ctx context.Context, p *model.Project, t *tables.Set, st model.Stage) (*Field, error) {
	f := &Field{Far: map[string]*Far{}, states: map[key]*Wet{}, faults: map[key]error{}}
	j := &job{p: p, t: t, f: f, ctx: ctx, c: Free}
	j.plan, j.fault = section.NewPlan(p, t)
	j.fit()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	// The conditions of one shape are solved one from the other, so that what is
	// shown first is what the whole computation will say.
	for _, keys := range j.shapes() {
		if !slices.Contains(keys, keyOf(st)) {
			continue
		}
		j.tasks(keys)[0]() // the long section; the others lie across
		for _, k := range keys {
			f.states[k].Cross = nil
		}
	}
	for k, w := range f.states {
		if w.Long == nil {
			delete(f.states, k)
		}
	}
	return f, ctx.Err()
}

// The far level depends on the hill as found and on what is known of its water,
// not on the works: it is kept while those are moved.
var fars struct {
	sync.Mutex
	keys []string
	all  []*Far
}

// fitFelt is all that the fit of a far level feels.
type fitFelt struct {
	Zones    []zoneFelt
	Ground   []model.Vec
	Left     float64
	Recharge float64
	Targets  []Target
	Grain    seepage.Grain
}

type zoneFelt struct {
	Region geom.Region
	Kx, Kz float64 // 0 lets nothing through
}

// farOf is Fit, or what Fit gave for the same hill and targets.
func farOf(ctx context.Context, p *model.Project, v *section.View, targets []Target, g seepage.Grain) (*Far, error) {
	felt := fitFelt{Ground: v.Ground, Left: leftLevel(p, v), Recharge: p.Site.Water.Recharge, Targets: targets, Grain: g}
	for i := range v.Strata {
		z := zoneFelt{Region: v.Strata[i].Region}
		if id := v.Strata[i].Soil; id != "" {
			var err error
			if z.Kx, z.Kz, err = permeability(p, id); err != nil {
				return nil, err
			}
		}
		felt.Zones = append(felt.Zones, z)
	}
	b, err := json.Marshal(felt)
	if err != nil {
		return nil, fmt.Errorf("water: the hill as found cannot be told apart: %w", err)
	}
	k := string(b)
	fars.Lock()
	for i := len(fars.keys) - 1; i >= 0; i-- {
		if fars.keys[i] == k {
			defer fars.Unlock()
			return fars.all[i], nil
		}
	}
	fars.Unlock()
	far, err := Fit(ctx, p, v, targets, g)
	if err != nil {
		return nil, err
	}
	fars.Lock()
	defer fars.Unlock()
	fars.keys, fars.all = append(fars.keys, k), append(fars.all, far)
	if n := len(fars.keys) - kept; n > 0 {
		fars.keys, fars.all = fars.keys[n:], fars.all[n:]
	}
	return far, nil
}
