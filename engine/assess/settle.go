package assess

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hillset/engine/check"
	"hillset/engine/ground"
	"hillset/engine/model"
	"hillset/engine/section"
)

// The checks of a box that goes down, and what they are listed as where the
// ground does not allow any of them.
var (
	settleSlot = slot{"settlement", "pads"}
	tiltSlot   = slot{"tilt", "box"}
	twistSlot  = slot{"twist", "box"}
	settleGap  = gap{"settlement", "Settlement, tilt and twist", "pads", "no stage stands on its pads"}
)

// ofSettling tells the checks of how the box goes down.
func ofSettling(s slot) bool { return s == settleSlot || s == tiltSlot || s == twistSlot }

// footing is the ground below the pads, the same in every stage.
type footing struct {
	ready  *ground.Settling
	notes  []string
	limits [3]footLimit // of settleSlot, tiltSlot, twistSlot
	adrift []string     // stages in which the box does not stand on its pads
	why    string       // why nothing can be said of it
}

// footLimit is a limit with where it comes from.
type footLimit struct {
	value float64
	basis string
}

// settle offers how far the pads go down, tilt and twist under loads.
func (j *job) settle(sr *stageResult, loads []pile, worst *worstOf) error {
	if j.foot == nil {
		f := j.footing(sr.view)
		j.foot = &f
	}
	f := j.foot
	if f.why != "" {
		return nil // told by notChecked
	}
	for _, load := range loads {
		if load.p <= 0 {
			f.leave(sr.st)
			continue
		}
		c := ground.SettleCase{Ready: f.ready, Load: j.padsIn(load, 0), Wider: j.p.Bedding.Kind == model.PadBedding, Bedded: j.p.Bedding.RockThickness > 0}
		pads, s, err := c.Solve()
		if err != nil {
			return err
		}
		if pads.Off {
			f.leave(sr.st)
			continue
		}
		for i, m := range [...]struct {
			slot
			value float64
			write func(ground.SettleCase) (check.Check, error)
		}{{settleSlot, s.Most, ground.SettlementCheck}, {tiltSlot, s.Tilt(), ground.TiltCheck}, {twistSlot, s.Twist, ground.TwistCheck}} {
			if kept := worst.add(candidate{slot: m.slot, stage: sr.st.ID, ratio: m.value / f.limits[i].value}); kept != nil {
				c := c
				c.Limit, c.Basis = f.limits[i].value, f.limits[i].basis
				kept.write = func() (check.Check, error) {
					c.Notes = f.words()
					return m.write(c)
				}
			}
		}
	}
	return nil
}

// leave takes a stage out in which the box floats or tips: nothing settles
// there, and flotation, overturning and bearing say what becomes of it.
func (f *footing) leave(st model.Stage) {
	if name := "“" + st.Name + "”"; !slices.Contains(f.adrift, name) {
		f.adrift = append(f.adrift, name)
	}
}

// words are what was taken for granted, once all stages were looked at.
func (f *footing) words() []string {
	if len(f.adrift) == 0 {
		return f.notes
	}
	return append(slices.Clone(f.notes), "Left out, as the box floats or tips off its pads there, which is told by flotation, overturning and bearing: "+strings.Join(f.adrift, ", ")+".")
}

// settleGaps are the three checks by their names.
var settleGaps = []gap{
	{id: settleSlot.id, title: "Settlement of the pads", part: settleSlot.part},
	{id: tiltSlot.id, title: "Tilt of the box as it settles", part: tiltSlot.part},
	{id: twistSlot.id, title: "Twist of the box as it settles", part: twistSlot.part},
}

// footing looks at the ground below every pad.
func (j *job) footing(v *section.View) footing {
	var f footing
	b := &j.p.Bedding
	for i, l := range [...]struct {
		id  string
		own float64
	}{{"settlement", b.MaxSettle / 1000}, {"tilt", b.MaxTilt}, {"twist", b.MaxTwist / 1000}} {
		f.limits[i] = footLimit{l.own, "yours"}
		if l.own == 0 {
			row, ok := j.t.SettleLimit(l.id)
			if !ok {
				f.why = "the table of limits of settlement has no row " + l.id
				return f
			}
			f.limits[i] = footLimit{row.Limit, row.Src.Text + " (" + string(row.Src.Mark) + ")"}
		}
	}
	geo := j.padsIn(pile{p: 1}, 0)
	in := ground.SettleIn{SpanX: geo.SpanX, SpanY: geo.SpanY, Length: geo.Length, Width: geo.Width, MostLength: j.depth / 2, MostWidth: j.across / 2}
	if b.RockThickness > 0 {
		so, ok := section.SoilByID(j.p, b.RockSoil)
		if !ok {
			f.why = "no bed rock is chosen"
			return f
		}
		if in.Bed, f.why = f.layer(so, b.RockThickness); f.why != "" {
			return f
		}
	}
	form, mid := section.Formation(j.p), (j.frontX+j.backX)/2
	endless := false
	for i, name := range ground.PadNames {
		x, y := mid-in.SpanX/2, in.SpanY/2
		if i >= 2 {
			x = mid + in.SpanX/2
		}
		if i%2 == 1 {
			y = -y
		}
		below, level, ok := v.Below(x, y, form)
		if !ok {
			f.why = "the ground under the pad " + name + " is not drawn"
			return f
		}
		if form-level > gapAllowed {
			f.why = "the pad " + name + " would stand on fill: the ground as found is lower there than the formation, and no modulus tells how far fill goes down"
			return f
		}
		for _, l := range below {
			layer, why := f.layer(l.Soil, l.Thickness)
			if why != "" {
				f.why = why
				return f
			}
			in.Below[i] = append(in.Below[i], layer)
			endless = endless || math.IsInf(l.Thickness, 1)
		}
	}
	switch b.Kind {
	case model.SlabBedding:
		f.note("The slab counts as four pads, each a quarter of it: that it is one plate, and bridges soft ground, is not counted on.")
	case model.RockBedding:
		f.note("The box stands on its four bare castings alone: rails and cross members do not touch the bed.")
	}
	f.note("The stiffness of bed rock and ground is the one you gave.")
	if endless {
		f.note("No rock line ends the lowest soil: it counts as endless.")
	}
	var err error
	if f.ready, err = ground.ReadySettle(in); err != nil {
		f.why = reason(err)
	}
	return f
}

// note takes a sentence in, once.
func (f *footing) note(s string) {
	if !slices.Contains(f.notes, s) {
		f.notes = append(f.notes, s)
	}
}

// firm is the undrained strength from which clay is no longer soft, kPa: below
// it its strength is low or very low (EN ISO 14688-2, memory).
const firm = 40.0

// Classes of soil that a modulus tells nothing of, and those of clay of which it
// must be known that they are not soft.
var (
	organic  = []string{"OL", "OH", "PT", "topsoil"}
	plastic  = []string{"CL", "CH", "MH"}
	fineSoil = []string{"CL", "CH", "MH", "ML", "CL-ML"}
)

// layer is a soil as it is squeezed; why says what keeps anything from being
// said of it.
func (f *footing) layer(so model.Soil, thickness float64) (l ground.Layer, why string) {
	name := "“" + so.Name + "”"
	switch {
	case slices.Contains(organic, so.USCS):
		return l, name + " below the pads is organic: it goes on settling for years, and no modulus tells how far; dig it out"
	case so.E == 0 || !slices.Contains(so.Set, "e"):
		return l, "the stiffness E of " + name + " is asked for, on page 2: a table knows its class, not how dense it lies"
	case slices.Contains(fineSoil, so.USCS) && so.Cu > 0 && so.Cu < firm:
		return l, name + " below the pads is soft by its undrained strength: it settles for years as water is pressed out of it, and no method for that is built in; dig it out"
	case slices.Contains(plastic, so.USCS) && so.Cu == 0:
		return l, "the undrained strength cu of " + name + " is asked for, on page 2: of soft clay a modulus does not tell how far it settles"
	case slices.Contains(fineSoil, so.USCS) && so.Cu == 0:
		f.note(name + " counts as firm: its undrained strength is not given.")
	}
	if so.Nu > ground.MostNu {
		return l, fmt.Sprintf("Poisson's ratio of %s is %g, which is that of ground whose water does not leave it: 0 to %g counts", name, so.Nu, ground.MostNu)
	}
	l = ground.Layer{Name: so.Name, Thickness: thickness, E: so.E, Nu: so.Nu}
	if l.Nu == 0 {
		nu, err := ground.DrainedNu(so.Phi * math.Pi / 180)
		if err != nil {
			return l, reason(err)
		}
		l.Nu = nu
		f.note("Poisson's ratio of " + name + " is not given: (1 − sin φ)/(2 − sin φ) counts (UFC 3-220-20 5-38, second-hand).")
	}
	return l, ""
}

// noSettlement lists why the pads were not let down.
func (j *job) noSettlement(found *worstOf, add func(id, title, part, why string)) {
	why := settleGap.why
	switch {
	case j.foot != nil && j.foot.why != "":
		why = j.foot.why
	case found.has(settleSlot.id):
		return
	case j.foot != nil && len(j.foot.adrift) > 0:
		why = "the box floats or tips off its pads in every stage, see flotation and overturning"
	}
	add(settleGap.id, settleGap.title, settleGap.part, why)
}
