package water

import (
	"math"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/seepage"
	"hillset/geom"
)

// How deep the lowest soil is taken to reach below the formation: half of the
// way from the front of the box to the uphill end of the section, but no more than a number
// of times the height of the water over the formation. Half of the way is where
// more depth brings a tenth more water or less; a foot that is too high would
// hide water (derived by the sections themselves: TestDeeperFoot).
const (
	depthOfWay   = 0.5
	depthOfWater = 6.0
	leastDepth   = 1.5 // m, also below the lowest soil line drawn
)

// Foot is the level below which no water is followed, m: one for all sections
// of a project. Tight ground above it is a soil layer of its own.
func Foot(p *model.Project) float64 {
	high := math.Inf(-1)
	for _, z := range []*float64{p.Site.Water.Seasonal, p.Site.Water.DesignHigh} {
		if z != nil {
			high = math.Max(high, *z)
		}
	}
	for _, o := range p.Site.Water.Observed {
		high = math.Max(high, o.Pos[1])
	}
	form := section.Formation(p)
	way := p.Site.Ground[len(p.Site.Ground)-1][0] - p.Box.Front
	foot := form - math.Max(leastDepth, math.Min(depthOfWay*way, depthOfWater*(high-form)))
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
	more := *under
	more.Region = geom.Rect{Min: geom.Vec{v.Ground[0][0], foot}, Max: geom.Vec{v.Ground[len(v.Ground)-1][0], low}}.ToRegion()
	return add(d, p, &more)
}
