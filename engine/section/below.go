package section

import (
	"math"

	"hillset/engine/model"
	"hillset/geom"
)

// Bottom is a natural layer below a level.
type Bottom struct {
	Soil model.Soil
	// Thickness is that below the level, m; +Inf for the lowest where no rock
	// line ends it.
	Thickness float64
}

// Below are the natural layers below a level, from the top down to the rock
// line, at a place of the long section, y m to the right of it: to the side all
// boundaries follow the cross slope. ground is the level of the ground as found
// there; none is given where the rock reaches up to the level. ok is false where
// nothing is known of the place.
func (v *View) Below(s, y, level float64) (layers []Bottom, ground float64, ok bool) {
	l := v.lay
	if s < l.ax.lo || s > l.ax.hi {
		return nil, 0, false
	}
	shift := l.p.Site.CrossSlope * y
	end := math.Inf(-1)
	rock := geom.Polyline(l.p.Site.Rock)
	if len(rock) >= 2 && rock.Validate() == nil {
		if z, in := rock.At(s); in {
			end = z + shift
		}
	}
	for i := range l.ax.tops {
		foot := end
		if i+1 < len(l.ax.tops) {
			foot = math.Max(end, l.ax.level(i+1, s)+shift)
		}
		top := math.Min(level, l.ax.level(i, s)+shift)
		if top-foot <= thin {
			continue
		}
		so, found := SoilByID(l.p, l.ax.strata[i].Soil)
		if !found {
			return nil, 0, false
		}
		layers = append(layers, Bottom{so, top - foot})
	}
	return layers, l.ax.level(0, s) + shift, true
}
