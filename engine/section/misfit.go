package section

import (
	"math"

	"hillset/geom"
)

// Gap is how far the formation stands above the ground as found under the box,
// m; 0 where the ground is at it or higher. There the bed would stand on loose
// fill, or in the air.
func (v *View) Gap() float64 {
	gap := 0.0
	for _, s := range []float64{v.Box.Min[0], v.Box.Center()[0], v.Box.Max[0]} {
		if z, ok := v.Ground.At(s); ok {
			gap = math.Max(gap, v.Formation-z)
		}
	}
	return gap
}

// BelowRock is how far the cut reaches below the rock line of the site, m, and
// where; 0 where it does not, where no rock is given, or before the cut.
func (v *View) BelowRock() (depth, at float64) {
	rock := geom.Polyline(v.lay.p.Site.Rock)
	if !v.Long || len(rock) < 2 || len(v.CutLine) < 2 || rock.Validate() != nil {
		return 0, 0
	}
	for _, l := range []geom.Polyline{rock, v.CutLine} {
		for _, q := range l {
			r, ok := rock.At(q[0])
			z, ok2 := v.CutLine.At(q[0])
			if ok && ok2 && r-z > depth {
				depth, at = r-z, q[0]
			}
		}
	}
	return depth, at
}
