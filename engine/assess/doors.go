package assess

import (
	"fmt"
	"math"

	"hillset/engine/box"
	"hillset/engine/check"
	"hillset/engine/earth"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/steel"
)

var doorSlot = slot{"doors", "doors"}

const doorTitle = "Earth or water against the doors"

// waterInFront lists water that stands above the sill of the doors and can run
// off in front: it does so only while the ground there lets it.
func (j *job) waterInFront(views []*section.View, add func(id, title, part, why string)) {
	sill := j.end.zBottom
	for _, v := range views {
		if v.HasBox && j.atToe(v) > sill && j.runsOff(v, sill) && j.p.Box.DoorFill == 0 {
			add(doorSlot.id, doorTitle, doorSlot.part, fmt.Sprintf("the water of stage %q stands above the sill of the doors: it is taken to run off in front. "+
				"Where it cannot, nothing holds it: gaskets keep out weather, not ground water", v.Stage.Name))
			return
		}
	}
}

// doors refuses earth and water against the doors.
func (j *job) doors(sr *stageResult, worst *worstOf) error {
	sill := j.end.zBottom
	earthAt := math.Inf(-1)
	if j.p.Box.DoorFill > 0 && sr.st.Kind == model.StageService {
		earthAt = j.p.Box.Level + j.p.Box.DoorFill
	}
	water := math.Inf(-1)
	if z := j.atToe(sr.view); !math.IsNaN(z) {
		water = z
	}
	if earthAt <= sill && water <= sill {
		return nil
	}
	if earthAt <= sill && j.runsOff(sr.view, sill) {
		return nil // told by waterInFront
	}
	in, err := j.doorsIn(sr.st, earthAt, water, sill)
	if err != nil {
		return err
	}
	worst.add(candidate{slot: doorSlot, stage: sr.st.ID, ratio: math.Inf(1),
		write: func() (check.Check, error) { made, _, err := box.DoorsCheck(in); return made, err }})
	return nil
}

// runsOff tells whether the ground anywhere in front of the box lies below a
// level, so that water does not stand there.
func (j *job) runsOff(v *section.View, level float64) bool {
	if j.p.Cut.Apron > 0 && v.Formation < level {
		return true // the apron is dug that deep, and drained as its formation is
	}
	for _, pt := range v.Ground {
		if pt[0] < j.frontX && pt[1] < level {
			return true
		}
	}
	return false
}

// doorsIn is a strip of a door leaf under earth and water that stand to two
// levels.
func (j *job) doorsIn(st model.Stage, earthAt, water, sill float64) (box.Doors, error) {
	lvl, top := j.p.Box.Level, j.end.zTop
	in := box.Doors{Earth: math.Max(0, earthAt-lvl), Water: math.Max(0, water-lvl), Sill: sill - lvl}
	row, ok := j.t.Sheet(j.box.DoorSheet)
	if !ok {
		return in, fmt.Errorf("assess: sheet %q of box %q is not in the table", j.box.DoorSheet, j.box.ID)
	}
	leaf, err := j.walls.wear(row.T, st.Years, steel.MinSheet)
	if err != nil {
		return in, err
	}
	in.Leaf = box.Strip{Steel: j.metal, Height: top - sill}
	if in.Leaf.Profile, err = profileOf(row, leaf.left); err != nil {
		return in, err
	}
	if earthAt > sill {
		so, ok := section.SoilByID(j.p, j.p.Fill.Backfill)
		if !ok {
			return in, model.Problem{Field: "fill.backfill", Value: j.p.Fill.Backfill, Allowed: "a soil of the project", Text: "no such soil"}
		}
		col := earth.Column{Layers: []earth.Layer{section.LayerOf(so, earthAt, lvl-1)}, Water: water}
		d, err := col.Lateral(earth.AtRest, earthAt, lvl)
		if err != nil {
			return in, err
		}
		in.Leaf.Load = pressures(d, sill, top)
	}
	if dry := math.Max(earthAt, sill); water > dry { // water over the earth, or alone
		high := math.Min(water, top)
		in.Leaf.Load.Water = box.WallLoad([2]float64{0, earth.GammaW * (water - sill)}, [2]float64{high - sill, earth.GammaW * (water - high)})
	}
	return in, nil
}
