package assess

import (
	"math"

	"hillset/engine/section"
	"hillset/engine/slope"
)

// skinDepth is how deep the skin of a slope is soaked by rain, m (4 ft; common
// practice).
const skinDepth = 1.2192

// skinFound is the skin of the steepest finished slope.
type skinFound struct {
	in          slope.SkinIn
	dry, soaked float64
}

// skin is the factor of the skin of the steepest piece of a surface that is
// longer than a few times its depth, in the soil that lies there.
func (h *hillside) skin(c *hillCase) *skinFound {
	steep := 0.0
	var at float64
	v := c.view
	for i := 0; i+1 < len(v.Finish); i++ {
		a, b := v.Finish[i], v.Finish[i+1]
		s := math.Atan2(b[1]-a[1], b[0]-a[0])
		if c.mirror {
			s = -s
		}
		long := b.Sub(a).Len() > skinLeast && (b[0] <= v.Box.Min[0] || a[0] >= v.Box.Max[0] || !v.HasBox)
		if long && s > steep && s < 80*math.Pi/180 {
			steep, at = s, (a[0]+b[0])/2
		}
	}
	if steep < math.Pi/180 {
		return nil
	}
	soil, ok := h.soilNear(v, at)
	if !ok {
		return nil
	}
	f := &skinFound{in: slope.SkinIn{Beta: steep, Depth: skinDepth, Gamma: soil.Gamma, C: soil.C, Phi: soil.Phi}}
	var err error
	if f.dry, err = slope.Skin(f.in); err != nil {
		return nil
	}
	f.in.Gamma, f.in.Seepage = soil.GammaSat, slope.Seepage{Share: 1, Dip: steep}
	if f.soaked, err = slope.Skin(f.in); err != nil {
		return nil
	}
	return f
}

// skinLeast is the least length of a piece of surface that counts as a slope
// without end, m: three times the depth of its skin.
const skinLeast = 3 * skinDepth

// soilNear is the soil in which the skin slides: what lies at its depth.
func (h *hillside) soilNear(v *section.View, x float64) (slope.Soil, bool) {
	z, _ := v.Finish.At(x)
	for _, zs := range [][]section.Zone{v.Fill, v.Strata} {
		for i := range zs {
			for _, p := range zs[i].Region {
				if p.Contains([2]float64{x, z - skinDepth}) {
					s, err := h.hillZone(&zs[i], false)
					return s.Soil, err == nil && !s.Soil.Firm
				}
			}
		}
	}
	return slope.Soil{}, false
}
