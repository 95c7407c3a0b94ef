package steel

import (
	"fmt"
	"math"

	"hillset/engine/quantity"
	"hillset/engine/tables"
)

// Post is a corner post with its properties about its centroid. x runs across
// the box from its side inwards, y along the box from its end inwards: bending
// across the box (sway of the end frame) uses Iy and Sy, bending along the box
// Ix and Sx.
type Post struct {
	ID     string
	Area   float64 // m2
	Cx, Cy float64 // m, centroid from the outer faces of the corner casting
	Ix, Iy float64 // m4
	Ixy    float64 // m4, product of inertia
	Sx, Sy float64 // m3, elastic, the smaller of the two faces
	RMin   float64 // m, least radius of gyration, about a slanting axis
	Mass   float64 // t per m
}

// strip is one straight piece of a part on its midline.
type strip struct{ x0, y0, x1, y1, t float64 }

// PostProps computes a row of the post table from the midlines of its parts,
// with straight lines and mitred corners (derived; the outlines are from
// memory). The parts are taken as welded together. Sx and Sy are for bending
// about the axes of the box, which are not quite those of the section: it must
// be held against giving way sideways, as the two walls at a corner do. Errors
// name the value out of range.
func PostProps(row tables.Post) (Post, error) {
	p := Post{ID: row.ID}
	strips, err := postStrips(row)
	if err != nil {
		return p, fmt.Errorf("post %s: %w", row.ID, err)
	}
	for _, s := range strips {
		a := s.length() * s.t
		p.Area += a
		p.Cx += a * (s.x0 + s.x1) / 2
		p.Cy += a * (s.y0 + s.y1) / 2
	}
	p.Cx, p.Cy = p.Cx/p.Area, p.Cy/p.Area
	right, left, top, bottom := 0.0, 0.0, 0.0, 0.0
	for _, s := range strips {
		l := s.length()
		dx, dy, a := s.x1-s.x0, s.y1-s.y0, l*s.t
		mx, my := (s.x0+s.x1)/2-p.Cx, (s.y0+s.y1)/2-p.Cy
		// A strip about its own middle: along itself l3t/12, across lt3/12.
		c, n := dx/l, dy/l
		long, across := a*l*l/12, a*s.t*s.t/12
		p.Ix += a*my*my + long*n*n + across*c*c
		p.Iy += a*mx*mx + long*c*c + across*n*n
		p.Ixy += a*mx*my + (long-across)*c*n
		ex, ey := s.t/2*math.Abs(n), s.t/2*math.Abs(c)
		right = math.Max(right, math.Max(s.x0, s.x1)-p.Cx+ex)
		left = math.Max(left, p.Cx-math.Min(s.x0, s.x1)+ex)
		top = math.Max(top, math.Max(s.y0, s.y1)-p.Cy+ey)
		bottom = math.Max(bottom, p.Cy-math.Min(s.y0, s.y1)+ey)
	}
	p.Sx, p.Sy = p.Ix/math.Max(top, bottom), p.Iy/math.Max(right, left)
	least := (p.Ix+p.Iy)/2 - math.Hypot((p.Ix-p.Iy)/2, p.Ixy)
	p.RMin = math.Sqrt(least / p.Area)
	p.Mass = p.Area * Density
	return p, nil
}

func (s strip) length() float64 { return math.Hypot(s.x1-s.x0, s.y1-s.y0) }

// postStrips cuts the parts of a post into straight pieces.
func postStrips(row tables.Post) ([]strip, error) {
	if len(row.Parts) == 0 {
		return nil, fmt.Errorf("%w: no outline is given", quantity.ErrRange)
	}
	var out []strip
	for _, part := range row.Parts {
		if err := quantity.Within("thickness", part.T, MinBar, maxT, quantity.Thickness); err != nil {
			return nil, err
		}
		if len(part.Line) < 2 {
			return nil, fmt.Errorf("%w: points of an outline = %d, allowed 2 or more", quantity.ErrRange, len(part.Line))
		}
		for k := 1; k < len(part.Line); k++ {
			a, b := part.Line[k-1], part.Line[k]
			s := strip{a[0], a[1], b[0], b[1], part.T}
			// A piece no longer than its own thickness is no plate.
			if err := quantity.Within("length of one side of an outline", s.length(), part.T, 1, quantity.Thickness); err != nil {
				return nil, err
			}
			out = append(out, s)
		}
	}
	return out, nil
}
