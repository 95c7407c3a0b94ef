package assess

import (
	"fmt"
	"math"

	"hillset/engine/check"
	"hillset/engine/concrete"
	"hillset/engine/ground"
	"hillset/engine/model"
	"hillset/engine/section"
)

// onPads is what presses on the pads, with and without what comes and goes.
// Everything that may lie on the roof counts, as it is unfavourable here; turn is
// what the hill turns about the middle of the base, kNm.
func (j *job) onPads(b *body, turn float64) []pile {
	lasting := b.dead.plus(b.water).plus(pile{p: j.tareKN - b.uplift, mx: turn + b.uplift*b.lift.Along, my: -b.uplift * b.lift.Aside})
	return []pile{lasting, lasting.plus(b.snow).plus(b.live)}
}

// bearing offers the pressure of the pads on the rock bed, and on the ground
// below it after it has spread 2:1 through the bed (memory), under loads.
func (j *job) bearing(sr *stageResult, loads []pile, worst *worstOf) error {
	bed, okBed := section.SoilByID(j.p, j.p.Bedding.RockSoil)
	ground, okGround := j.weakestBelow(sr.view)
	for _, under := range []struct {
		part   string
		soil   model.Soil
		ok     bool
		spread float64
		basis  string
	}{
		{"rock bed", bed, okBed, 0, ""},
		{"pads", ground, okGround, j.p.Bedding.RockThickness, "; spread 2:1 through the rock bed (memory)"},
	} {
		if !under.ok || under.soil.Bearing <= 0 {
			worst.missing(padBearing, "Bearing below the pads", under.part, sr.st.ID, noBearing(under.soil))
			continue
		}
		for _, load := range loads {
			if load.p <= 0 {
				worst.missing(padBearing, "Bearing below the pads", under.part, sr.st.ID, "the box floats: nothing presses on the pads")
				continue
			}
			in := j.padsIn(load, under.spread)
			in.Allowable = under.soil.Bearing
			in.Basis = presumed(under.soil) + under.basis
			if err := j.offerPads(sr, under.part, in, worst); err != nil {
				return err
			}
		}
	}
	return nil
}

// presumed says where the bearing value of a soil comes from.
func presumed(so model.Soil) string {
	return "presumptive value of " + so.Name + " (IBC 1806.2 classes, verified; or yours)"
}

// noBearing says that there is none.
func noBearing(so model.Soil) string { return fmt.Sprintf("no bearing value is given for %q", so.Name) }

// padBearing is the id of the check of package ground.
const padBearing = "pad-bearing"

// offerPads offers one bearing surface. Where the load lies outside the pads
// the box tips: overturning says by how much, and here it is listed why nothing
// can be said.
func (j *job) offerPads(sr *stageResult, part string, in ground.PadsIn, worst *worstOf) error {
	p, err := ground.LoadPads(in)
	if err != nil {
		return err
	}
	if p.Off {
		worst.missing(padBearing, "Bearing below the pads", part, sr.st.ID, "the load lies outside the pads: the box tips, see overturning")
		return nil
	}
	worst.add(candidate{slot: slot{padBearing, part}, stage: sr.st.ID, ratio: p.Max / in.Allowable,
		write: func() (check.Check, error) { return ground.PadCheck(in) }})
	return nil
}

// weakestBelow is the soil with the least bearing under front, middle and back
// of the box.
func (j *job) weakestBelow(v *section.View) (model.Soil, bool) {
	var out model.Soil
	found := false
	for _, x := range []float64{j.frontX, (j.frontX + j.backX) / 2, j.backX} {
		if so, ok := v.SoilBelow(x); ok && (!found || so.Bearing < out.Bearing) {
			out, found = so, true
		}
	}
	return out, found
}

// padsIn places four pads under the corners: the pads themselves, the bare
// castings on a rock bed, or the quarters of a slab.
func (j *job) padsIn(load pile, spread float64) ground.PadsIn {
	castX, castY := j.castings()
	in := ground.PadsIn{Vertical: load.p, Ex: load.mx / load.p, Ey: load.my / load.p, Length: j.p.Bedding.PadLength, Width: j.p.Bedding.PadWidth}
	if j.p.Box.Orientation == model.Broadside {
		in.Length, in.Width = in.Width, in.Length
	}
	in.SpanX, in.SpanY = j.depth-castX, j.across-castY
	switch j.p.Bedding.Kind {
	case model.RockBedding:
		in.Length, in.Width = castX, castY
	case model.SlabBedding:
		in.SpanX, in.SpanY, in.Length, in.Width = j.depth/2, j.across/2, j.depth/2, j.across/2
	}
	if j.p.Bedding.Kind != model.RockBedding {
		in.Own = concrete.Gamma * in.Length * in.Width * j.p.Bedding.PadThickness
	}
	in.Length = math.Min(in.Length+spread, j.depth/2)
	in.Width = math.Min(in.Width+spread, j.across/2)
	return in
}
