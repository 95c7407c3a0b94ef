package assess

import (
	"math"

	"hillset/engine/model"
)

// standing lets walls and roof rust as steel under water where the seasonal
// water of a stage in service stands against them. All walls, rails and posts
// count as wet where any wall is.
func (j *job) standing() error {
	j.walls = j.rust
	level := math.Inf(-1)
	for _, st := range j.p.Stages {
		if st.Kind != model.StageService || st.Water != model.WaterSeasonal {
			continue
		}
		if w := j.wet(st); w != nil {
			level = math.Max(level, highestBeside(w))
		} else if z := j.p.Site.Water.Seasonal; j.field == nil && z != nil {
			level = math.Max(level, *z)
		}
	}
	if level <= j.p.Box.Level {
		return nil
	}
	var err error
	if j.walls, err = j.rust.soaked(); err != nil {
		return err
	}
	if level > j.roofLevel() {
		j.rust = j.walls
	}
	return nil
}
