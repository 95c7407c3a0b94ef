package sheet

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"strings"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
)

// WriteFile is Write into a file. At every moment the path holds either all of
// the old file or all of the new one.
func WriteFile(path string, p *model.Project, r *assess.Result, long, cross *section.View, o Options) error {
	var buf bytes.Buffer
	if err := Write(&buf, p, r, long, cross, o); err != nil {
		return err
	}
	if err := model.ReplaceFile(path, buf.Bytes()); err != nil {
		return fmt.Errorf("%s cannot be written; it may be open in another program: %w", filepath.Base(path), err)
	}
	return nil
}

// Views builds the two sections of a hand-out. An empty stage takes the
// finished stage with the highest water; a station that is NaN takes the
// middle of the box.
func Views(p *model.Project, t *tables.Set, stage string, station float64) (long, cross *section.View, err error) {
	st, err := stageOf(p, stage)
	if err != nil {
		return nil, nil, err
	}
	if long, err = section.NewLong(p, t, st); err != nil {
		return nil, nil, err
	}
	if math.IsNaN(station) {
		box, err := section.BoxOf(p, t)
		if err != nil {
			return nil, nil, err
		}
		station = p.Box.Front + section.Depth(p, box)/2
	}
	if cross, err = section.NewCross(p, t, st, station); err != nil {
		return nil, nil, err
	}
	return long, cross, nil
}

// stageOf finds a stage by its id, or chooses the one to hand out.
func stageOf(p *model.Project, id string) (model.Stage, error) {
	var ids []string
	best, rank := -1, -1
	for i, s := range p.Stages {
		if id != "" && s.ID == id {
			return s, nil
		}
		ids = append(ids, s.ID)
		if r := finished(s); r > rank {
			best, rank = i, r
		}
	}
	if id != "" || best < 0 {
		return model.Stage{}, model.Problem{Field: "stage", Value: fmt.Sprintf("%q", id), Allowed: strings.Join(ids, ", "), Text: "no such stage"}
	}
	return p.Stages[best], nil
}

// finished ranks stages for the hand-out: finished before unfinished, high
// water before low.
func finished(s model.Stage) int {
	if s.Kind != model.StageService {
		return 0
	}
	switch s.Water {
	case model.WaterHigh:
		return 3
	case model.WaterSeasonal:
		return 2
	}
	return 1
}
