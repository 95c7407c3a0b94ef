package assess

import (
	"fmt"
	"math"

	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/slope"
	"hillset/geom"
)

// hillDeep is how far below the drawn section the lowest stratum is taken to go
// on, m, so that a slip is not cut short by the edge of the drawing.
const hillDeep = 8.0

// concreteWeight is the unit weight of pads, slabs and beams, kN/m3.
const concreteWeight = 24.0

// ground is the section of a case as a slope: strata, bedding and fill as soils,
// rock, concrete and the box as bodies that no slip goes through.
func (h *hillside) ground(c *hillCase, undrained bool) (slope.In, error) {
	v := c.view
	in := slope.In{Water: c.wet.table, Pore: c.wet.pore, Kh: h.shakes(c.st)}
	if len(v.Strata) == 0 {
		return in, model.Problem{Field: "site.strata", Value: "none", Allowed: "1 or more", Text: "no soil is given for the ground"}
	}
	lo, hi := v.Ground[0][0], v.Ground[len(v.Ground)-1][0]
	floor := floorLevel(v)
	deep := v.Strata[len(v.Strata)-1]
	deep.Region = geom.Rect{Min: geom.Vec{lo, floor - hillDeep}, Max: geom.Vec{hi, floor}}.ToRegion()
	for _, zs := range [][]section.Zone{{deep}, v.Strata, v.Fill, v.Bedding} {
		for i := range zs {
			z, err := h.hillZone(&zs[i], undrained)
			if err != nil {
				return in, err
			}
			in.Zones = append(in.Zones, z)
		}
	}
	in.Zones = append(in.Zones, h.rockBelow(v, lo, hi, floor-hillDeep)...)
	if v.HasBox {
		in.Zones = append(in.Zones, h.boxBody(v))
	}
	var err error
	in.Loads, err = h.hillLoads(c)
	return in, err
}

// floorLevel is the level of the foot of the drawn strata.
func floorLevel(v *section.View) float64 {
	floor := math.Inf(1)
	for _, z := range v.Strata {
		floor = math.Min(floor, z.Region.Bounds().Min[1])
	}
	return floor
}

// hillZone is a zone of a section as a zone of a slope.
func (h *hillside) hillZone(z *section.Zone, undrained bool) (slope.Zone, error) {
	if z.Soil == "" {
		gamma := concreteWeight
		if z.Kind == section.RoofLay {
			gamma = h.layerWeight(z.Name)
		}
		return slope.Zone{Soil: slope.Soil{Name: z.Name, Gamma: gamma, GammaSat: gamma, Firm: true}, Region: z.Region}, nil
	}
	so, ok := section.SoilByID(h.p, z.Soil)
	if !ok {
		return slope.Zone{}, model.Problem{Field: "site.soils", Value: fmt.Sprintf("%q", z.Soil), Allowed: "a soil of the project", Text: "no such soil"}
	}
	s := slope.Soil{Name: so.Name, Gamma: so.Gamma, GammaSat: math.Max(so.Gamma, so.GammaSat), C: so.Cohesion, Phi: so.Phi * math.Pi / 180}
	if undrained && so.Cu > 0 {
		s.C, s.Phi = so.Cu, 0
	}
	if s.C <= 0 && s.Phi <= 0 {
		return slope.Zone{}, model.Problem{Field: "site.soils", Value: so.Name, Allowed: "an angle of friction or a cohesion",
			Text: fmt.Sprintf("%s: %v", so.Name, errWeak)}
	}
	return slope.Zone{Soil: s, Region: z.Region}, nil
}

// layerWeight is the unit weight of a layer on the roof, kN/m3.
func (h *hillside) layerWeight(name string) float64 {
	for _, l := range h.p.Fill.Roof {
		if l.Name == name {
			return l.Gamma
		}
	}
	return 0
}

// undrained tells whether a soil of a section has an undrained strength.
func (h *hillside) undrained(v *section.View) bool {
	for _, zs := range [][]section.Zone{v.Strata, v.Fill, v.Bedding} {
		for _, z := range zs {
			if so, ok := section.SoilByID(h.p, z.Soil); ok && so.Cu > 0 {
				return true
			}
		}
	}
	return false
}

// rockBelow is the rock of the site, which no slip enters. It is known along the
// fall line only.
func (h *hillside) rockBelow(v *section.View, lo, hi, floor float64) []slope.Zone {
	line := geom.Polyline(h.p.Site.Rock)
	if !v.Long || len(line) < 2 || line.Validate() != nil {
		return nil
	}
	surface := v.Ground
	if v.CutLine != nil {
		surface = geom.Lower(surface, v.CutLine)
	}
	r := geom.Between(geom.Lower(line, surface), geom.Polyline{{lo, floor}, {hi, floor}}, lo, hi)
	if len(r) == 0 {
		return nil
	}
	return []slope.Zone{{Soil: slope.Soil{Name: "rock", Gamma: rockWeight, GammaSat: rockWeight, Firm: true}, Region: r}}
}

// rockWeight is the unit weight of rock, kN/m3. It does not count: nothing slides
// in it.
const rockWeight = 25.0

// boxBody is the box with the space under it: its whole weight, evenly.
func (h *hillside) boxBody(v *section.View) slope.Zone {
	r := v.Box
	for _, z := range v.Bedding {
		if z.Kind == section.Bed {
			r.Min[1] = math.Min(r.Min[1], z.Region.Bounds().Max[1])
		}
	}
	if r.Min[1] == v.Box.Min[1] && h.p.Bedding.RockThickness == 0 {
		r.Min[1] = v.Formation
	}
	gamma := h.tareKN / (h.depth * h.across * r.H())
	return slope.Zone{Soil: slope.Soil{Name: "box", Gamma: gamma, GammaSat: gamma, Firm: true}, Region: r.ToRegion()}
}
