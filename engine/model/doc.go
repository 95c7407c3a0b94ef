// Package model is what a project holds: one site, one box, one design, one
// list of stages. Everything else is computed from it.
//
// All values are SI (m, kN, kPa, kN/m3, m/s); angles are in degrees, as they
// are typed and stored; the engine turns them into radians. Positions in the
// long section are (x, z): x is the horizontal distance INTO the hill (rising
// ground to the right), z is the level on the local datum. In the cross
// section y runs to the right as seen looking into the hill, zero on the
// centre line of the box.
//
// A Project is treated as immutable once it is handed on: change a Clone.
package model

import "github.com/go-gl/mathgl/mgl64"

// Vec is a point (x, z) of the long section, or (y, z) of the cross section.
type Vec = mgl64.Vec2
