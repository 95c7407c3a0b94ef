package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/ground"
)

// lateral is a push along the contour: forces in kN and their moments about
// the underside of the box in kNm.
type lateral struct{ earth, earthTurn, water, waterTurn float64 }

// lateralOf sums a part of the pressures of one side over the stations.
func (j *job) lateralOf(walls []*wallLoad, side int, part func(*earth.Row) float64) (force, turn float64) {
	lengths := []float64{j.depth} // broadside the ends are pressed alike over their width
	if n := len(walls) / 2; n > 1 {
		lengths = tributary(stationsOfWalls(walls))
	}
	for i, length := range lengths {
		f, z := walls[2*i+side].diagram.ResultantOf(part)
		force += f * length
		turn += f * length * (z - j.p.Box.Level)
	}
	return force, turn
}

// holding is what the soil of the side that gives way holds against a push:
// its pressure at rest alone.
func holding(r *earth.Row) float64 { return r.Soil }

func porePressure(r *earth.Row) float64 { return r.U }

// lateralPush is what the wall of one side, 0 left or 1 right, presses more
// than the other holds.
func (j *job) lateralPush(walls []*wallLoad, side int) lateral {
	var l lateral
	var e, m float64
	l.earth, l.earthTurn = j.lateralOf(walls, side, pushing)
	e, m = j.lateralOf(walls, 1-side, holding)
	l.earth, l.earthTurn = l.earth-e, l.earthTurn-m
	l.water, l.waterTurn = j.lateralOf(walls, side, porePressure)
	e, m = j.lateralOf(walls, 1-side, porePressure)
	l.water, l.waterTurn = l.water-e, l.waterTurn-m
	return l
}

// alongContour offers the box as a body pushed along the contour, from either side.
func (j *job) alongContour(sr *stageResult, b *body, worst *worstOf) error {
	if len(sr.walls) < 2 {
		return nil
	}
	for side := range 2 {
		push := j.lateralPush(sr.walls, side)
		if push.earth+push.water < negligible*j.depth || push.earth < 0 {
			continue
		}
		if err := j.pushedAcross(sr, b, push, side, worst); err != nil {
			return err
		}
	}
	return nil
}

// pushedAcross offers sliding and tipping from one side.
func (j *job) pushedAcross(sr *stageResult, b *body, push lateral, side int, worst *worstOf) error {
	// of the weight and the uplift, to the right: towards the edge that it turns
	// about where the left side is pushed
	lean, aside := b.sure.my/b.weight, b.lift.Aside
	if side == 1 {
		lean, aside = -lean, -aside
	}
	in := ground.SlideIn{Length: j.across, Width: j.depth, Weight: b.weight, WeightArm: j.across/2 - lean, Uplift: b.uplift, UpliftBehind: -aside,
		Earth: push.earth, Water: math.Max(0, push.water), TanBase: j.tanBase(b.v), Required: fsSliding}
	if in.Earth > 0 {
		in.EarthLevel = push.earthTurn / push.earth
	}
	if in.Water > 0 {
		in.WaterLevel = push.waterTurn / push.water
	}
	s, err := ground.SlideBox(in)
	if err != nil {
		return err
	}
	if s.Normal <= 0 {
		worst.missing("sliding-across", "Sliding along the contour", "box", sr.st.ID, "the box floats: nothing presses on its base")
		worst.missing("tipping-across", "Tipping along the contour", "box", sr.st.ID, "the box floats: nothing presses on its base")
		return nil
	}
	worst.add(candidate{slot: slot{"sliding-across", "box"}, stage: sr.st.ID, ratio: in.Required / s.FSBase,
		write: func() (check.Check, error) { return ground.SlidingAcrossCheck(in) }})
	over := in
	over.Required = fsOverturning
	worst.add(candidate{slot: slot{"tipping-across", "box"}, stage: sr.st.ID, ratio: over.Required / s.FSOver,
		write: func() (check.Check, error) { return ground.TippingAcrossCheck(over) }})
	return nil
}
