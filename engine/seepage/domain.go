// Package seepage computes the steady flow of ground water in a section: the
// free surface, the heads, what enters each drain and leaves each face. It
// works on a mesh of triangles made from the zones of the section itself.
//
// Units are m, m/s and m3/s per metre of section. Heads are levels: pressure
// over unit weight plus elevation. Flows out of the ground are positive.
//
// Method: linear triangles on a fixed mesh; an element carries flow by the
// share of it that lies below the free surface (residual flow; the rest keeps
// a small share, see dryShare), and what does not settle so is solved by Newton's
// method, see newton.go. Where water leaves at the air (cut faces, the
// hill below a spring line) and at drains is found by iteration: a node there
// is held at its own level while water leaves it, and let go when it would
// draw water in.
//
// Limits: steady flow in two dimensions, the base of the section tight, no
// recharge beyond what the tightest ground above lets through. Water held up on
// a layer above the water table is not followed, and the meshes take the ground
// above it as dry: what it holds by suction is worked column by column, see
// retention.go.
package seepage

import (
	"fmt"

	"hillset/engine/quantity"
	"hillset/geom"
)

// Zone is ground that water flows through.
type Zone struct {
	Name   string
	Region geom.Region
	Kx, Kz float64 // m/s
}

// Drain is a pipe seen end-on: water leaves there at atmospheric pressure while
// it comes, and nothing enters from it.
type Drain struct {
	Name   string
	At     geom.Vec
	Bore   float64 // outside diameter, m: the mesh is made as fine as the pipe asks
	Closed bool    // blocked, or its pump dead: no water leaves
	// Backed is how high water stands in the pipe above At, m: none leaves until
	// the ground has more.
	Backed float64
}

// Side is an end of the section.
type Side struct {
	// Head is the level of the water there, m; water stands up to it and none
	// passes above. NaN closes the side.
	Head float64
	// Face lets water leave above Head at the air, where the side is a face and
	// not a cut through the ground.
	Face bool
}

// Domain is a section with everything that acts on its water.
type Domain struct {
	Zones  []Zone
	Solids []geom.Region // that no water passes: box, pads, slab
	Drains []Drain
	Left   Side
	Right  Side
	// Recharge is rain that reaches the water table, m/s on the level.
	Recharge float64
	// Pond is a level up to which water stands on the surface outside; NaN for
	// none.
	Pond float64
	// Deep is how far up from its foot nothing is built or drawn in the ground, m:
	// the mesh grows coarse there, with the depth.
	Deep float64
	// Held are places at which the head is known: a trench kept full, a well.
	Held []Held
	// Full takes all ground as saturated, whatever its pressure: flow in a
	// confined layer. There is no water table then and no outlet at the air.
	Full bool
	// Sealed is where no water leaves at the surface, by x from and to: a floor
	// cast against the ground, say.
	Sealed [][2]float64
}

// Held is a place of known head.
type Held struct {
	In   geom.Rect
	Head float64 // m, at the left of the place
	// Slope is how the head rises to the right, m per m: a water table known
	// along a hillside, say. Zero is still water.
	Slope float64
}

// Grain is how fine the mesh is.
type Grain struct {
	Near float64 // m, size of triangles at solids
	Far  float64 // m, largest size
	Grow float64 // growth of size per m of distance
}

// check refuses what makes no section.
func (d *Domain) check() error {
	if len(d.Zones) == 0 {
		return fmt.Errorf("%w: zones = none, allowed 1 or more", quantity.ErrRange)
	}
	for _, z := range d.Zones {
		for _, k := range [...]struct {
			name string
			v    float64
		}{{"kx", z.Kx}, {"kz", z.Kz}} {
			if err := quantity.Within("permeability "+k.name+" of "+z.Name, k.v, leastK, mostK, quantity.Permeability); err != nil {
				return err
			}
		}
	}
	for _, r := range d.Drains {
		if err := quantity.Within("bore of drain "+r.Name, r.Bore, 0.01, 3, quantity.Length); err != nil {
			return err
		}
		if err := quantity.Within("water in drain "+r.Name, r.Backed, 0, 100, quantity.Length); err != nil {
			return err
		}
	}
	for i, h := range d.Held {
		if h.In.Empty() {
			return fmt.Errorf("%w: place %d of known head is %v, allowed one with width or height", quantity.ErrRange, i+1, h.In)
		}
	}
	return quantity.Within("recharge", d.Recharge, 0, 1e-3, quantity.Rate)
}

// Bounds of permeability, m/s: tight clay to open rock fill.
const (
	leastK = 1e-13
	mostK  = 10
)

// check refuses a grain that makes no mesh.
func (g Grain) check() error {
	for _, err := range []error{
		quantity.Within("mesh size near", g.Near, 0.005, 10, quantity.Length),
		quantity.Within("mesh size far", g.Far, g.Near, 50, quantity.Length),
		quantity.Range("mesh growth", g.Grow, 0, 5),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}
