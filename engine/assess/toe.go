package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/ground"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
)

// toe is what a toe beam under the front sill holds: the passive pressure in
// front of it less the active pressure of the ground and the box behind it.
type toe struct {
	given           bool
	passive, active float64 // kN, horizontal
	net             float64 // kN, 0 where it is not counted
	why             string  // why it is not counted
}

// passiveMargin lengthens the Rankine passive wedge, depth times tan(45 +
// phi/2), to the level ground asked for in front of a toe beam.
const passiveMargin = 1.1

// toe works out the toe beam in the weaker of the soils it stands in; q is the
// pressure of the front edge of the box behind it, kPa.
func (j *job) toe(v *section.View, q float64) (toe, error) {
	t := j.p.Bedding.Toe
	if t.Depth <= 0 || t.Width <= 0 {
		return toe{}, nil
	}
	out := toe{given: true}
	so, ok := j.toeSoil(v)
	if !ok {
		out.why = "the ground below the front is not known"
		return out, nil
	}
	phi := so.Phi * math.Pi / 180
	reach := passiveMargin * t.Depth * math.Tan(math.Pi/4+phi/2)
	for _, x := range []float64{j.frontX - reach, j.frontX - reach/2, j.frontX} {
		if z, ok := v.Finish.At(x); !ok || z < v.Formation-1e-6 {
			out.why = "the ground in front of it is not level as far as its wedge reaches"
			return out, nil
		}
	}
	gamma := so.Gamma
	if j.atToe(v) > v.Formation-t.Depth {
		gamma = so.GammaSat - earth.GammaW
	}
	var err error
	if out.passive, err = ground.ToePassive(gamma, phi, phi/2, t.Depth, t.Width, 0); err != nil {
		return out, err
	}
	ka, err := earth.RankineKa(phi)
	if err != nil {
		return out, err
	}
	out.active = ka * (gamma*t.Depth/2 + q) * t.Depth * t.Width
	if out.net = out.passive - out.active; out.net <= 0 {
		out.net, out.why = 0, "what presses on its back is more than the ground in front holds"
	}
	return out, nil
}

// toeSoil is the weaker of the soils at the formation and at the foot of the
// beam.
func (j *job) toeSoil(v *section.View) (model.Soil, bool) {
	top, ok := v.SoilBelow(j.frontX)
	foot, okFoot := v.SoilAt(j.frontX, v.Formation-j.p.Bedding.Toe.Depth)
	if ok && okFoot && foot.Phi < top.Phi {
		return foot, true
	}
	return top, ok
}

// explain adds the beam to the working of the sliding check, or why it is left
// out.
func (t toe) explain(c check.Check, err error) (check.Check, error) {
	if err != nil || !t.given {
		return c, err
	}
	if t.net <= 0 {
		c.Assumptions = append(c.Assumptions, "the toe beam is not counted: "+t.why)
		return c, nil
	}
	c.Assumptions = append(c.Assumptions, "the toe beam itself and its tie to the box hold: their strength is not checked")
	c.Working = append(c.Working, check.Line{
		Text: "Toe beam: passive pressure in front less active pressure behind", Formula: "Pp = Kp·cos δ·γ·d²·b/2 − Ka·(γ·d/2 + q)·d·b",
		Terms: []quantity.Q{
			quantity.Of("passive", t.passive, quantity.Force), quantity.Of("active", t.active, quantity.Force),
		},
		Result: quantity.Of("Pp", t.net, quantity.Force),
		Source: "UFC 3-220-20 Eq 4-12, log spiral, δ = φ/2 (second-hand); Rankine active (second-hand)",
	})
	return c, nil
}
