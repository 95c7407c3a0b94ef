package sheet

import (
	"hillset/engine/section"
	"hillset/geom"
)

// look is one way of drawing the sections for the same scale.
type look struct {
	beyond   float64 // ground shown beside the works, as a share of their height
	below    float64 // the same below them
	room     Room
	tight    bool // captions in one line, figures close together
	verdicts bool
	cost     float64 // of having less of the ground and room, in tables
}

// Ground shown beyond the works, as shares of their height: as much as says
// where they stand, less, and the least.
const (
	amply  = 0.15
	fairly = 0.09
	barely = 0.04
	hardly = 0.01
	// Below the works stand the names of what lies there.
	fairlyBelow = 0.12
	barelyBelow = 0.08
)

// works is the extent of what is built: box, bedding, fill, wing walls and what is dug.
func works(v *section.View) geom.Rect {
	r := v.Excavated.Bounds()
	if v.HasBox {
		r = r.Union(v.Box)
	}
	for _, list := range [][]section.Zone{v.Bedding, v.Fill} {
		for _, z := range list {
			r = r.Union(z.Region.Bounds())
		}
	}
	for i := range v.Wings {
		r = r.Union(v.Wings[i].Bounds())
	}
	return r
}

// land is the ground that is drawn: the works with a little round them and all
// that lies over them, so that the section can be drawn at a scale that shows
// them. A view without works is drawn whole: the empty rectangle.
func (l look) land(v *section.View) geom.Rect {
	w := works(v)
	if w.Empty() {
		return geom.Rect{}
	}
	side := geom.Vec{l.beyond * w.H(), 0}
	out := geom.Rect{Min: w.Min.Sub(side), Max: w.Max.Add(side)}
	out.Min[1] -= l.below * w.H()
	for _, line := range []geom.Polyline{v.Ground, v.Finish} {
		if c := line.ClipX(out.Min[0], out.Max[0]); len(c) > 0 {
			out.Max[1] = max(out.Max[1], c.Bounds().Max[1])
		}
	}
	return out
}
