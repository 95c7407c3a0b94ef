package sheet

import (
	"fmt"
	"math"

	"hillset/engine/section"
	"hillset/geom"
)

// around is how much ground is shown beyond the works, as a share of the
// depth of the cut or the height of the box, whichever is larger.
const around = 0.6

// works is the extent of what is built: box, bedding, fill and cut.
func works(v *section.View) geom.Rect {
	r := geom.Rect{}
	if v.HasBox {
		r = v.Box
	}
	if len(v.CutLine) > 1 {
		r = r.Union(v.CutLine.Bounds())
	}
	for _, list := range [][]section.Zone{v.Bedding, v.Fill} {
		for _, z := range list {
			r = r.Union(z.Region.Bounds())
		}
	}
	return r
}

// crop leaves out the ground far from the works, so that the section can be
// drawn at a scale that shows them. A view without works is left whole.
func crop(v *section.View) (*section.View, error) {
	w := works(v)
	if w.Empty() {
		return v, nil
	}
	d := around * math.Max(w.H(), v.Box.H())
	x0, x1 := w.Min[0]-d, w.Max[0]+d
	win := geom.Rect{Min: geom.Vec{x0, w.Min[1] - 2*d}, Max: geom.Vec{x1, math.Inf(1)}}
	out := *v
	out.Ground, out.Finish = v.Ground.ClipX(x0, x1), v.Finish.ClipX(x0, x1)
	win.Max[1] = 1 + math.Max(w.Max[1], math.Max(out.Ground.Bounds().Max[1], out.Finish.Bounds().Max[1]))
	out.Strata = nil
	for _, z := range v.Strata {
		cut, err := geom.Intersect(z.Region, win.ToRegion())
		if err != nil {
			return nil, fmt.Errorf("sheet: cropping %q: %w", z.Name, err)
		}
		if z.Region = cut; len(cut) > 0 {
			out.Strata = append(out.Strata, z)
		}
	}
	return &out, nil
}
