package sketch

import (
	"hillset/engine/model"
	"hillset/geom"
	"hillset/ui/scene"
)

// bareScene shows what is there of a project whose section cannot be built
// yet: the lines of the site and the observed water, without soils or works.
// The cross section has nothing of its own to show then.
func bareScene(p *model.Project, kind Kind, mmPerM float64) *scene.Scene {
	s := &scene.Scene{MMPerM: mmPerM}
	if kind != LongSection {
		return s
	}
	line := func(tag string, role scene.Role, width float64, dash []float64, pts []model.Vec) {
		if len(pts) >= 2 {
			s.Items = append(s.Items, scene.Item{Path: &scene.Path{Layer: scene.Ground, Tag: tag, Parts: []geom.Polyline{pts},
				Stroke: role, Width: width, Dash: dash}})
		}
	}
	line("ground", scene.Earth, 0.5, nil, p.Site.Ground)
	for i := range p.Site.Strata {
		line("stratum:"+p.Site.Strata[i].ID, scene.Earth, 0.25, []float64{6, 2}, p.Site.Strata[i].Top)
	}
	line("rock", scene.Ink, 0.35, nil, p.Site.Rock)
	h := 1.5 / mmPerM // half side of the sign of a water level
	for _, w := range p.Site.Water.Observed {
		at := w.Pos
		s.Items = append(s.Items, scene.Item{Path: &scene.Path{Layer: scene.Water, Tag: "observed",
			Parts: []geom.Polyline{{at, at.Add(geom.Vec{-h, 2 * h}), at.Add(geom.Vec{h, 2 * h})}}, Closed: true, Stroke: scene.WaterLine, Width: 0.25}})
	}
	return s
}

// siteBounds is the box round everything bareScene shows; false where there is
// nothing.
func siteBounds(p *model.Project) (geom.Rect, bool) {
	var all []geom.Vec
	all = append(all, p.Site.Ground...)
	all = append(all, p.Site.Rock...)
	for i := range p.Site.Strata {
		all = append(all, p.Site.Strata[i].Top...)
	}
	for _, w := range p.Site.Water.Observed {
		all = append(all, w.Pos)
	}
	return boundsOf(all)
}
