package sheet

import (
	"context"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/ui/scene"
	"hillset/ui/units"
)

// Water is what the sheets of the water show beside the result.
type Water struct {
	// View is the long section of the finished stage in which the water stands
	// highest behind the box; nil where no finished stage has water.
	View      *section.View
	Scenarios []assess.Scenario
	Why       string // why there are no scenarios
	Gradings  scene.Gradings
	Words     []WaterPart
	Drain     [][2]string // see DrainSchedule
}

// WaterOf works out what the sheets of the water show: nil where the water is
// not computed. It stops with ctx.
func WaterOf(ctx context.Context, r *assess.Result, t *tables.Set, sys units.System) (*Water, error) {
	if r.Water == nil {
		return nil, nil
	}
	out := &Water{View: wettest(r), Words: WaterWords(r, t, sys), Drain: DrainSchedule(r, t, sys)}
	out.Gradings = scene.GradingsOf(r.Project, out.View, t)
	var err error
	if out.Scenarios, err = assess.Scenarios(ctx, r.Project, t); err != nil {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		out.Why = units.Say(assess.Words(err), sys)
	}
	return out, nil
}

// wettest is the long section of the finished stage with the highest water at
// the back wall.
func wettest(r *assess.Result) *section.View {
	var best *section.View
	top := 0.0
	for _, v := range r.Views {
		if v == nil || !v.HasBox || v.Stage.Kind != model.StageService {
			continue
		}
		wet, err := r.Water.At(v.Stage)
		if err != nil || wet.Long == nil {
			continue
		}
		z, ok := wet.Long.Table.At(v.Box.Max[0] + 0.01) // just behind the steel, m
		if ok && (best == nil || z > top) {
			best, top = v, z
		}
	}
	return best
}
