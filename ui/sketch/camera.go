package sketch

import (
	"math"

	"fyne.io/fyne/v2"

	"hillset/geom"
)

// Limits of the scale of a board, in units of the toolkit per metre: a site of
// 500 m on a small screen, and a millimetre seen as two units.
const (
	minScale = 0.5
	maxScale = 2000
)

// camera says which part of the section a board shows. A point (x, z) stands
// at the position (x*scale - left, top - z*scale), in units of the toolkit.
type camera struct {
	scale, left, top float64
}

// position is where a point of the section is on the board.
func (c camera) position(p geom.Vec) fyne.Position {
	return fyne.NewPos(float32(p[0]*c.scale-c.left), float32(c.top-p[1]*c.scale))
}

// point is the point of the section at a place of the board.
func (c camera) point(p fyne.Position) geom.Vec {
	return geom.Vec{(float64(p.X) + c.left) / c.scale, (c.top - float64(p.Y)) / c.scale}
}

// window is the part of the section seen on a board of the given size.
func (c camera) window(s fyne.Size) geom.Rect {
	a, b := c.point(fyne.NewPos(0, s.Height)), c.point(fyne.NewPos(s.Width, 0))
	return geom.Rect{Min: a, Max: b}
}

// zoomed is the camera after scaling by f about the place at, which stays
// where it is. The scale stops at its limits.
func (c camera) zoomed(at fyne.Position, f float64) camera {
	p := c.point(at)
	c.scale = math.Min(maxScale, math.Max(minScale, c.scale*f))
	c.left = p[0]*c.scale - float64(at.X)
	c.top = p[1]*c.scale + float64(at.Y)
	return c
}

// panned is the camera after the paper was moved by d.
func (c camera) panned(dx, dy float64) camera {
	c.left -= dx
	c.top += dy
	return c
}

// fitted shows r in the middle of a board of the given size; pad is kept free
// in all, along and up, in units. It is false where there is nothing to show
// or no room to show it in.
func fitted(r geom.Rect, s fyne.Size, padX, padY float64) (camera, bool) {
	w, h := float64(s.Width)-padX, float64(s.Height)-padY
	if !(w > 1) || !(h > 1) || !geom.Finite(r.Min[0], r.Min[1], r.Max[0], r.Max[1]) {
		return camera{}, false
	}
	rw, rh := r.Max[0]-r.Min[0], r.Max[1]-r.Min[1]
	if rw <= 0 && rh <= 0 {
		return camera{}, false
	}
	k := math.Min(w/math.Max(rw, 1e-9), h/math.Max(rh, 1e-9))
	c := camera{scale: math.Min(maxScale, math.Max(minScale, k))}
	mid := r.Min.Add(r.Max).Mul(0.5)
	c.left = mid[0]*c.scale - float64(s.Width)/2
	c.top = mid[1]*c.scale + float64(s.Height)/2
	return c, true
}
