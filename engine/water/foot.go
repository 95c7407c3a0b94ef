package water

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/geom"
)

// How deep the lowest soil is taken to reach below the formation: three quarters
// of the way from the front of the box to the uphill end of the section. More
// brings a twentieth more water or less; a foot that is too high would hide water
// (derived by the sections themselves: TestDeeperFoot).
const (
	depthOfWay = 0.75
	leastDepth = 1.5 // m, also below the lowest soil line drawn
)

// Foot is the level below which no water is followed, m: one for all sections
// of a project. Tight ground above it is a soil layer of its own.
func Foot(p *model.Project) float64 {
	form := section.Formation(p)
	way := p.Site.Ground[len(p.Site.Ground)-1][0] - p.Box.Front
	foot := form - math.Max(leastDepth, depthOfWay*way)
	for _, s := range p.Site.Strata {
		for _, q := range s.Top {
			foot = math.Min(foot, q[1]-leastDepth)
		}
	}
	return foot
}

// deepen lets the lowest soil of a section reach down to the foot.
func deepen(d *seepage.Domain, p *model.Project, v *section.View, foot float64) error {
	low := math.Inf(1)
	var under *section.Zone
	for i := range v.Strata {
		if z := v.Strata[i].Region.Bounds().Min[1]; z <= low {
			low, under = z, &v.Strata[i]
		}
	}
	if under == nil || low <= foot {
		return nil
	}
	d.Deep = low - foot
	more := *under
	more.Region = geom.Rect{Min: geom.Vec{v.Ground[0][0], foot}, Max: geom.Vec{v.Ground[len(v.Ground)-1][0], low}}.ToRegion()
	return add(d, p, &more)
}
