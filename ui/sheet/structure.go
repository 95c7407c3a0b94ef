package sheet

import (
	"context"
	"math"

	"hillset/engine/assess"
	"hillset/engine/check"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/ui/units"
)

// Structure is what the sheets of the structure show beside the result.
type Structure struct {
	// View is the cross section of the governing stage, and Portrait what the
	// steel does there; Why says why there is none.
	View     *section.View
	Portrait *assess.Portrait
	Why      string
	Curves   []assess.Curve // the solved answers
	Water    *Water         // nil where the water is not computed
	// Climate is what is said of frost, warmth and air; nil where nothing of it
	// is given.
	Climate []WaterPart
}

// StructureOf works out what the sheets of the structure show: the section
// where the worst check that has a place is worst, and the solved answers. It
// stops with ctx. Words are written in the units sys.
func StructureOf(ctx context.Context, r *assess.Result, t *tables.Set, sys units.System) (*Structure, error) {
	out := &Structure{}
	var err error
	if out.Curves, err = assess.Curves(ctx, r, t); err != nil {
		return nil, err
	}
	if out.Water, err = WaterOf(ctx, r, t, sys); err != nil {
		return nil, err
	}
	if ClimateGiven(r.Project) {
		out.Climate = ClimateWords(r, t, sys)
	}
	stage, station := worstPlace(r)
	if out.Portrait, err = assess.Shape(r.Project, t, stage, station, false); err != nil {
		out.Why = assess.Words(err)
		return out, nil
	}
	_, out.View, err = Views(r.Project, t, stage, station)
	return out, err
}

// worstPlace is the stage and station of the worst check that has a place; else
// the finished stage and the middle of the box.
func worstPlace(r *assess.Result) (stage string, station float64) {
	for i := range r.Checks {
		if c := &r.Checks[i]; c.HasStation && c.Stage != "" && c.Verdict() != check.NotChecked {
			return c.Stage, c.Station
		}
	}
	if st, err := stageOf(r.Project, ""); err == nil {
		stage = st.ID
	}
	for _, v := range r.Views {
		if v != nil && v.HasBox {
			return stage, (v.Box.Min[0] + v.Box.Max[0]) / 2
		}
	}
	return stage, math.NaN()
}
