package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/ground"
	"hillset/engine/model"
	"hillset/engine/section"
)

// concrete is the unit weight of pads and slab, kN/m3 (common practice).
const concrete = 24.0

// offer hands a candidate of the whole box over.
type offer func(id, part string, ratio float64, write func() (check.Check, error))

// bearing offers the pressure of the pads on the rock bed, and on the ground
// below it after it has spread 2:1 through the bed (memory).
func (j *job) bearing(v *section.View, s *ground.Slide, add offer) error {
	if s.Normal <= 0 {
		return nil // afloat: flotation says so
	}
	for _, under := range []struct {
		part, soil string
		spread     float64
	}{
		{"rock bed", j.p.Bedding.RockSoil, 0},
		{"pads", "", j.p.Bedding.RockThickness},
	} {
		so, ok := section.SoilByID(j.p, under.soil)
		if under.soil == "" {
			so, ok = v.SoilBelow((j.frontX + j.backX) / 2)
		}
		if !ok || so.Bearing <= 0 {
			continue // listed among what is not checked
		}
		in := j.padsIn(s, under.spread)
		in.Allowable, in.Basis = so.Bearing, "presumptive value of "+so.Name+" (IBC 1806.2 classes, verified; or yours)"
		p, err := ground.LoadPads(in)
		if err != nil {
			return err
		}
		if p.Off {
			continue // it tips: overturning and the resultant say so
		}
		add("pad-bearing", under.part, p.Max/in.Allowable, func() (check.Check, error) { return ground.PadCheck(in) })
	}
	return nil
}

// padsIn places four pads under the corners: the pads themselves, the bare
// castings on a rock bed, or the quarters of a slab.
func (j *job) padsIn(s *ground.Slide, spread float64) ground.PadsIn {
	in := ground.PadsIn{Vertical: s.Normal, Ex: s.E,
		SpanX: j.depth - j.box.CastL, SpanY: j.across - j.box.CastW,
		Length: j.p.Bedding.PadLength, Width: j.p.Bedding.PadWidth}
	if j.p.Box.Orientation == model.Broadside {
		in.Length, in.Width = in.Width, in.Length
	}
	switch j.p.Bedding.Kind {
	case model.RockBedding:
		in.Length, in.Width = j.box.CastL, j.box.CastW
	case model.SlabBedding:
		in.SpanX, in.SpanY, in.Length, in.Width = j.depth/2, j.across/2, j.depth/2, j.across/2
	}
	if j.p.Bedding.Kind != model.RockBedding {
		in.Own = concrete * in.Length * in.Width * j.p.Bedding.PadThickness
	}
	in.Length = math.Min(in.Length+spread, j.depth/2)
	in.Width = math.Min(in.Width+spread, j.across/2)
	return in
}
