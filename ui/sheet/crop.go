package sheet

import (
	"fmt"

	"hillset/engine/section"
	"hillset/geom"
)

// Ground shown beyond the works, as shares of their height: beside them, and
// below.
const (
	beside = 0.15
	below  = 0.15
)

// works is the extent of what is built: box, bedding, fill and what is dug.
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
	return r
}

// crop leaves out the ground far from the works, so that the section can be
// drawn at a scale that shows them. A view without works is left whole.
func crop(v *section.View) (*section.View, error) {
	w := works(v)
	if w.Empty() {
		return v, nil
	}
	x0, x1 := w.Min[0]-beside*w.H(), w.Max[0]+beside*w.H()
	out := *v
	out.Ground, out.Finish, out.CutLine = v.Ground.ClipX(x0, x1), v.Finish.ClipX(x0, x1), v.CutLine.ClipX(x0, x1)
	top := w.Union(out.Ground.Bounds()).Union(out.Finish.Bounds()).Max[1]
	win := geom.Rect{Min: geom.Vec{x0, w.Min[1] - below*w.H()}, Max: geom.Vec{x1, top + 1}}.ToRegion()
	out.Strata = nil
	for _, z := range v.Strata {
		cut, err := geom.Intersect(z.Region, win)
		if err != nil {
			return nil, fmt.Errorf("sheet: cropping %q: %w", z.Name, err)
		}
		if z.Region = cut; len(cut) > 0 {
			out.Strata = append(out.Strata, z)
		}
	}
	return &out, nil
}
