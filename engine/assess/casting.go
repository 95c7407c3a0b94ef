package assess

import (
	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/concrete"
	"hillset/engine/ground"
	"hillset/engine/model"
	"hillset/engine/section"
)

var (
	castSlot = slot{"casting", "corner castings"}
	padSlot  = slot{"pad-concrete", "concrete of the pads"}
)

const (
	castTitle = "Corner casting bearing on concrete"
	padTitle  = "Pad under a corner casting"
	slabTitle = "Slab under a corner casting"
)

// noConcrete lists what is not known of the concrete under the castings.
func (j *job) noConcrete(add func(id, title, part, why string)) {
	bed := &j.p.Bedding
	switch {
	case bed.Kind == model.RockBedding:
	case bed.PadFc == 0:
		const why = "the strength of the concrete under the castings is not given"
		add(castSlot.id, castTitle, castSlot.part, why)
		add(padSlot.id, padTitle, padSlot.part, why)
	case bed.Kind == model.SlabBedding:
		add("slab-between", "Slab between the corner castings", padSlot.part, "only the parts of the slab under the castings are worked out: what settlement and frost bend it between them is not")
	}
}

// castingChecks offers how the corner castings bear on the concrete under them, and
// pads of plain concrete. On a rock bed the check of bearing says it all.
func (j *job) castingChecks(sr *stageResult, b *body, turn float64, worst *worstOf) error {
	bed := &j.p.Bedding
	if bed.Kind == model.RockBedding || bed.PadFc == 0 {
		return nil // the latter is told by noConcrete
	}
	in, off, err := j.padLoads(sr, b, turn)
	if err != nil {
		return err
	}
	if off {
		worst.missing(castSlot.id, castTitle, castSlot.part, sr.st.ID, "the load lies outside the pads: the box tips, see overturning")
		return nil
	}
	r, err := in.Solve()
	if err != nil {
		return err
	}
	worst.add(candidate{slot: castSlot, stage: sr.st.ID, ratio: ratioOf(r.Bearing.ASD, r.Bearing.LRFD),
		write: func() (check.Check, error) { made, _, err := concrete.CastingCheck(in); return made, err }})
	if bed.Kind == model.SlabBedding {
		return j.slabCorner(sr, in, worst)
	}
	worst.add(candidate{slot: padSlot, stage: sr.st.ID, ratio: r.Worst(),
		write: func() (check.Check, error) { made, _, err := concrete.PadConcreteCheck(in); return made, err }})
	return nil
}

// slabCorner offers the slab under its most loaded casting, on the weaker of the rock
// bed and the ground below it.
func (j *job) slabCorner(sr *stageResult, pad concrete.Pad, worst *worstOf) error {
	bed := &j.p.Bedding
	soil, ok := j.weakestBelow(sr.view)
	if rock, given := section.SoilByID(j.p, bed.RockSoil); given && bed.RockThickness > 0 && (!ok || rock.Bearing < soil.Bearing) {
		soil, ok = rock, true
	}
	if !ok || soil.Bearing <= 0 {
		worst.missing(padSlot.id, slabTitle, padSlot.part, sr.st.ID, noBearing(soil))
		return nil
	}
	in := concrete.SlabCorner{Section: pad.Section, P: pad.P, Case: pad.Case, CaseLRFD: pad.CaseLRFD, CastL: pad.CastL, CastW: pad.CastW,
		ReachL: pad.Length, ReachW: pad.Width, Allowable: soil.Bearing, Basis: presumed(soil)}
	if bed.SlabBar > 0 {
		var err error
		if in.Bars, err = j.bars(bed.SlabBar, bed.SlabBarSpacing, bed.SlabBarCover); err != nil {
			return err
		}
	}
	r, err := in.Solve()
	if err != nil {
		worst.missing(padSlot.id, slabTitle, padSlot.part, sr.st.ID, reason(err))
		return nil
	}
	worst.add(candidate{slot: padSlot, stage: sr.st.ID, ratio: r.Worst(),
		write: func() (check.Check, error) { made, _, err := concrete.SlabCornerCheck(in); return made, err }})
	return nil
}

// padLoads is the most loaded pad in all combinations; off is true where the
// load lies outside the pads in one of them. Uplift would help and is left out.
func (j *job) padLoads(sr *stageResult, b *body, turn float64) (in concrete.Pad, off bool, err error) {
	bed := &j.p.Bedding
	in = concrete.Pad{Section: concrete.Section{Thickness: bed.PadThickness, Fc: bed.PadFc * 1000, Soil: true},
		Length: bed.PadLength, Width: bed.PadWidth, CastL: j.box.CastL, CastW: j.box.CastW}
	if bed.Kind == model.SlabBedding {
		in.Length, in.Width = j.box.L/2, j.box.W/2
	}
	castX, castY := j.castings()
	most := func(combos []box.Combo) (p float64, name string) {
		for _, c := range combos {
			load := b.dead.plus(pile{p: j.tareKN}).times(c.D).plus(b.water.plus(b.live).times(c.L)).plus(b.snow.times(c.S)).plus(pile{mx: turn}.times(c.H))
			pads, fault := ground.LoadPads(ground.PadsIn{Vertical: load.p, Ex: load.mx / load.p, Ey: load.my / load.p,
				SpanX: j.depth - castX, SpanY: j.across - castY, Length: in.Length, Width: in.Width})
			if fault != nil {
				err = fault
			}
			off = off || pads.Off
			for _, f := range pads.Force {
				if f > p {
					p, name = f, c.Name
				}
			}
		}
		return p, name
	}
	in.P.ASD, in.Case = most(box.Allowable)
	in.P.LRFD, in.CaseLRFD = most(box.Strength)
	return in, off, err
}

// times multiplies a pile.
func (a pile) times(k float64) pile { return pile{a.p * k, a.mx * k, a.my * k} }
