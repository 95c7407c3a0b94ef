package assess

import (
	"math"

	"hillset/engine/earth"
)

// shaken adds what an earthquake presses on a wall that does not yield: Wood's
// increment of the heaviest column beside it, saturated where water stands, and
// the swing of that water as in fill that drains freely, whatever the fill is.
// The diagram must not hold surcharges yet.
func (j *job) shaken(d earth.Diagram, p *press) (earth.Diagram, error) {
	foot, kh := j.p.Box.Level, j.p.Site.Climate.Kh
	h := p.surface - foot
	weight, water := 0.0, math.Inf(-1)
	for i := range p.cols {
		weight = math.Max(weight, weightOf(&p.cols[i], foot))
		water = math.Max(water, p.cols[i].Water)
	}
	dp, _, err := earth.WoodNonYielding(kh, weight/h, h)
	if err != nil {
		return nil, err
	}
	if d, err = d.AddQuake(dp, p.surface, foot); err != nil || water <= foot {
		return d, err
	}
	return swing(d, kh, math.Min(water, p.surface), foot)
}

// weightOf is the weight of a column above a level, kPa: saturated below water.
func weightOf(c *earth.Column, foot float64) float64 {
	sum := 0.0
	for _, l := range c.Layers {
		top, bottom := math.Max(l.Top, foot), math.Max(l.Bottom, foot)
		wet := math.Min(math.Max(c.Water, bottom), top)
		sum += l.Gamma*(top-wet) + l.GammaSat*(wet-bottom)
	}
	return sum
}

// swing adds the pressure of water shaken in the fill to the earthquake part of
// a diagram without surcharges.
func swing(d earth.Diagram, kh, water, foot float64) (earth.Diagram, error) {
	var fault error
	out, err := d.AddSurcharge(water, func(z float64) float64 {
		if z <= 0 {
			return 0
		}
		p, err := earth.WaterDynamic(kh, water-foot, math.Min(z, water-foot))
		if err != nil {
			fault = err
		}
		return p
	})
	if err == nil {
		err = fault
	}
	for i := range out {
		out[i].Quake += out[i].Surcharge
		out[i].Surcharge = 0
	}
	return out, err
}
