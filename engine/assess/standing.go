package assess

import (
	"context"
	"math"
	"slices"

	"hillset/engine/model"
	"hillset/engine/water"
)

// standing lets walls and roof rust as steel under water where the seasonal
// water stands against them in service. All walls, rails and posts count as wet
// where any wall is, in every stage: what the years take does not hang on the
// stage that is looked at.
func (j *job) standing(ctx context.Context) error {
	defer func() { j.crawl = j.walls.below(j.p) }()
	j.walls = j.rust
	if !slices.ContainsFunc(j.p.Stages, func(st model.Stage) bool { return st.Years > 0 }) {
		return nil // nothing rusts
	}
	level, err := j.ordinary(ctx)
	if err != nil || level <= j.p.Box.Level {
		return err
	}
	if j.walls, err = j.rust.soaked(); err != nil {
		return err
	}
	if level > j.roofLevel() {
		j.rust = j.walls
	}
	return nil
}

// ordinary is the highest water against the walls in the wet season, m: the
// level given, or that computed for the finished works with the drains working;
// -Inf where there is none, +Inf where it cannot be computed.
func (j *job) ordinary(ctx context.Context) (float64, error) {
	w := j.p.Site.Water
	if !w.Computed {
		if w.Seasonal == nil {
			return math.Inf(-1), nil
		}
		return *w.Seasonal, nil
	}
	if w.Seasonal == nil && len(w.Observed) == 0 {
		return math.Inf(-1), nil
	}
	st := model.Stage{ID: "rust", Kind: model.StageService, FillTo: 1, Cover: true, Water: model.WaterSeasonal}
	if j.field != nil && j.field.Case == water.Free { // drains that fail in a scenario did not fail for years
		if wet, err := j.field.At(st); err == nil {
			return highestBeside(wet), nil
		}
	}
	q := j.p.Clone()
	q.Stages = []model.Stage{st}
	f, err := water.Of(ctx, q, j.t)
	if err != nil {
		return 0, err
	}
	wet, err := f.At(st)
	if err != nil {
		return math.Inf(1), nil // not known: all counts as under water
	}
	return highestBeside(wet), nil
}
