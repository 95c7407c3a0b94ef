package desk

import (
	"fmt"
	"math"
	"slices"

	"hillset/engine/model"
)

// view is what is being looked at. It belongs to no file and no undo step.
type view struct {
	stage      string
	station    float64
	hasStation bool
	gesture    string // merge text of the edit that is still going on
}

func hasStage(p *model.Project, id string) bool {
	return slices.ContainsFunc(p.Stages, func(s model.Stage) bool { return s.ID == id })
}

// StageID is the stage being looked at: the one chosen last while the project
// has it, else the first stage with the finished cover, else the last stage;
// empty when the project has none.
func (d *Desk) StageID() string {
	st := d.now.project.Stages
	if hasStage(d.now.project, d.view.stage) {
		return d.view.stage
	}
	if i := slices.IndexFunc(st, func(s model.Stage) bool { return s.Kind == model.StageService && s.Cover }); i >= 0 {
		return st[i].ID
	}
	if len(st) == 0 {
		return ""
	}
	return st[len(st)-1].ID
}

// SetStage chooses the stage to look at; a stage the project does not have is
// an error and changes nothing.
func (d *Desk) SetStage(id string) error {
	if !hasStage(d.now.project, id) {
		return fmt.Errorf("stage %q: the project has no such stage", id)
	}
	if d.view.stage != id {
		d.view.stage = id
		d.tell(Event{Kind: ViewChanged})
	}
	return nil
}

// Station is the x of the cross section in m. Until one is chosen it is the
// middle of the box as the last result has it, or the front of the box while
// there is no result.
func (d *Desk) Station() float64 {
	if d.view.hasStation {
		return d.view.station
	}
	if r := d.engine.result; r != nil {
		for _, v := range r.Views {
			if v != nil && v.Long && v.HasBox {
				return (v.Box.Min[0] + v.Box.Max[0]) / 2
			}
		}
	}
	return d.now.project.Box.Front
}

// SetStation chooses the cross section at x, m. NaN and Inf are errors.
func (d *Desk) SetStation(x float64) error {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Errorf("station = %g: is not a number", x)
	}
	if !d.view.hasStation || d.view.station != x {
		d.view.station, d.view.hasStation = x, true
		d.tell(Event{Kind: ViewChanged})
	}
	return nil
}
