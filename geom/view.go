package geom

import (
	"fmt"
	"math"

	"github.com/go-gl/mathgl/mgl64"
)

// View maps the world (metres, z up) to a target such as a screen or a sheet by
// one scale in both directions and an offset; no section is ever stretched. The
// target's second axis may run down. The zero View is not usable.
type View struct {
	scale float64
	at    Vec // target coordinates of the world's origin
	down  bool
}

// NewView shows scale target units per metre, with the world point at drawn on
// the target point on. down says that the target's second axis runs down. The
// scale must be positive and all numbers finite.
func NewView(scale float64, at, on Vec, down bool) (View, error) {
	if !(scale > 0) || !Finite(scale, at[0], at[1], on[0], on[1]) {
		return View{}, fmt.Errorf("view: scale %g must be positive and its points %v, %v finite", scale, at, on)
	}
	v := View{scale: scale, down: down}
	v.at = on.Sub(v.Dir(at))
	return v, nil
}

// FitView shows all of world inside target, centred, as large as it goes. It
// fails when either has no extent; a level or upright line is fitted by the
// extent it has.
func FitView(world, target Rect, down bool) (View, error) {
	if world.Empty() || !(target.W() > 0 && target.H() > 0) {
		return View{}, fmt.Errorf("view: nothing to fit: world %v, target %v", world, target)
	}
	scale := math.Min(target.W()/world.W(), target.H()/world.H())
	return NewView(scale, world.Center(), target.Center(), down)
}

// Scale is in target units per metre.
func (v View) Scale() float64 { return v.scale }

// Down reports whether the target's second axis runs down.
func (v View) Down() bool { return v.down }

// Forward maps a world point to the target.
func (v View) Forward(w Vec) Vec { return v.at.Add(v.Dir(w)) }

// Dir maps a world direction (difference of points) to the target.
func (v View) Dir(d Vec) Vec {
	if v.down {
		return Vec{d[0] * v.scale, -d[1] * v.scale}
	}
	return d.Mul(v.scale)
}

// Inverse maps a target point to the world.
func (v View) Inverse(t Vec) Vec { return v.InverseDir(t.Sub(v.at)) }

// InverseDir maps a target direction to the world.
func (v View) InverseDir(d Vec) Vec {
	w := d.Mul(1 / v.scale)
	if v.down {
		w[1] = -w[1]
	}
	return w
}

// InverseRect is the part of the world that a target rectangle shows.
func (v View) InverseRect(r Rect) Rect {
	return boundsOf([]Vec{v.Inverse(r.Min), v.Inverse(r.Max)})
}

// Pan moves the drawing by d target units.
func (v View) Pan(d Vec) View {
	v.at = v.at.Add(d)
	return v
}

// Zoom multiplies the scale by factor and keeps the target point still. It
// fails for a factor that is not positive and finite, or that takes the scale
// out of range.
func (v View) Zoom(still Vec, factor float64) (View, error) {
	if !(factor > 0) {
		return View{}, fmt.Errorf("view: zoom factor %g must be positive", factor)
	}
	return NewView(v.scale*factor, v.Inverse(still), still, v.down)
}

// Mat3 is the map as a matrix for column vectors (x, z, 1).
func (v View) Mat3() mgl64.Mat3 {
	z := v.scale
	if v.down {
		z = -z
	}
	return mgl64.Translate2D(v.at[0], v.at[1]).Mul3(mgl64.Scale2D(v.scale, z))
}
