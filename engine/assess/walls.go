package assess

import (
	"math"
	"sync"

	"hillset/engine/box"
	"hillset/engine/earth"
	"hillset/engine/frame"
	"hillset/engine/model"
	"hillset/engine/section"
)

// wallLoad is the pressure on a face at one stage and station, and what
// becomes of it in the sheet. Stages that press alike share it.
type wallLoad struct {
	face    section.Face
	station float64
	press   *press
	years   float64

	diagram       earth.Diagram
	thrust, level float64       // resultant of diagram, kN/m at a level
	load          box.Pressures // all of it, over the height of the sheet
	sheet         *agedWall
	strip         box.Strip // with what a skin outside leaves to the sheet
	result        box.StripRating
	top, bottom   box.Pair // on the bars along the edges, kN/m
	sag           float64  // bow over what is allowed
	bow           float64  // of the sheet between its supports, m
	loaded        bool
	skin          *skinLoad // outside the wall; nil for none

	active      float64 // kN/m, soil and loads once the box gives way; back wall only
	activeFault error
}

// diagramOf is the pressure on a face from the top of the box to its
// underside, level by level the worst of the columns that may press, with what
// compaction locks in, surcharges and earthquake. At rest is the state that
// counts, since the box is held.
func (j *job) diagramOf(state earth.State, p *press, room *earth.Room) (earth.Diagram, error) {
	lock := j.lock
	if !p.locked {
		lock = nil
	}
	worst, err := earth.Worst(state, p.cols, math.Max(j.roofLevel(), p.surface), j.p.Box.Level, lock, room)
	if err != nil {
		return nil, err
	}
	if j.lockFault != nil {
		return nil, j.lockFault
	}
	if p.fault != nil {
		return nil, p.fault
	}
	if p.quake {
		if worst, err = j.shaken(worst, p); err != nil {
			return nil, err
		}
	}
	for _, load := range p.loads {
		if worst, err = worst.AddSurcharge(p.surface, load); err != nil {
			return nil, err
		}
	}
	return worst.Slice(j.roofLevel(), j.p.Box.Level), nil
}

// compacted tells whether the plant has left its stress in the fill at a stage:
// in a lift while it works there, and in service for good, since compaction
// locks in stress.
func compacted(st model.Stage) bool {
	return st.Kind == model.StageService || st.Compacting
}

// compaction works out what the plant leaves in the fill, nil for no plant.
func (j *job) compaction() (*earth.Envelope, error) {
	if j.p.Fill.Plant == "" {
		return nil, nil
	}
	plant, ok := j.t.Plant(j.p.Fill.Plant)
	so, found := section.SoilByID(j.p, j.p.Fill.Backfill)
	if !ok || !found {
		return nil, model.Problem{Field: "fill.plant", Value: j.p.Fill.Plant, Allowed: "a row of the plant table, and a backfill soil", Text: "no such compaction plant"}
	}
	l := section.LayerOf(so, 1, 0)
	k, err := earth.K0(l.Phi, l.OCR)
	if err != nil {
		return nil, err
	}
	e, err := earth.CompactionEnvelope(plant.P, so.Gamma, k, j.p.Fill.PlantSetback, plant.Width)
	if err != nil {
		return nil, err
	}
	return &e, nil
}

// pressures turns a diagram into the load on a sheet between two levels,
// measured up from the lower.
func pressures(d earth.Diagram, zb, zt float64) box.Pressures {
	room, ok := cuts.Get().(*earth.Diagram)
	if !ok {
		room = &earth.Diagram{}
	}
	defer cuts.Put(room)
	*room = d.SliceIn((*room)[:0], zt, zb)
	var parts [3]frame.Load // what there is of earth, water and what comes and goes
	there, n := somewhere(*room), len(*room)
	some := 0
	for _, is := range there {
		if is {
			some += n
		}
	}
	all := make(frame.Load, some)
	for k, is := range there {
		if is {
			parts[k], all = all[:n:n], all[n:]
		}
	}
	for i := range *room {
		row := &(*room)[n-1-i]
		s := min(max(row.Level-zb, 0), zt-zb)
		for k, p := range by(row) {
			if parts[k] != nil {
				parts[k][i] = frame.LoadPoint{S: s, P: p}
			}
		}
	}
	return box.Pressures{Earth: parts[0], Water: parts[1], Live: parts[2]}
}

// by is the pressure at a level by origin: earth, water, and what comes and goes.
func by(r *earth.Row) [3]float64 {
	return [3]float64{r.Soil + r.Compaction + r.Quake, r.U, r.Surcharge}
}

// somewhere tells which origins press anywhere in a diagram.
func somewhere(d earth.Diagram) (there [3]bool) {
	for i := range d {
		for k, p := range by(&d[i]) {
			there[k] = there[k] || p != 0
		}
	}
	return there
}

// cuts is memory for one cut of a diagram after the other.
var cuts sync.Pool

// wall presses one face and solves the strip of sheet there. It is not loaded
// where no soil lies against it.
func (pl *place) wall(v *section.View, f section.Face) (*wallLoad, error) {
	w := &wallLoad{face: f, station: pl.x, years: v.Stage.Years}
	var err error
	if w.press, err = pl.press(v, f); err != nil || len(w.press.cols) == 0 {
		return w, err
	}
	if old, err := pl.known(w.press, w.years); old != nil || err != nil {
		return old, err
	}
	j := pl.j
	if w.diagram, err = j.diagramOf(earth.AtRest, w.press, &pl.room); err != nil || len(w.diagram) == 0 {
		return w, err
	}
	w.sheet = j.agedAt(w.years).wall(j.wallOf(f).long)
	w.loaded = true
	if err := j.solve(w); err != nil {
		return w, err
	}
	pl.walls = append(pl.walls, w)
	return w, nil
}

// solve brings the pressure on a wall to its sheet and the bars along it.
func (j *job) solve(w *wallLoad) error {
	w.thrust, w.level = w.diagram.Resultant()
	sheet := w.sheet
	if sheet.ready == nil {
		return sheet.why
	}
	pn := j.wallOf(w.face)
	w.strip = sheet.strip
	w.load = pressures(w.diagram, pn.zBottom, pn.zTop)
	w.strip.Load = w.load
	var err error
	if w.result, err = sheet.ready.Rate(w.strip.Load); err != nil {
		return err
	}
	w.top = direct(w.diagram, j.roofLevel(), pn.zTop).Plus(w.result.Top)
	w.bottom = direct(w.diagram, pn.zBottom, j.p.Box.Level).Plus(w.result.Bottom)
	if err := j.pressSkin(w, sheet.ready); err != nil {
		return err
	}
	w.bow, w.sag = w.result.Sag, w.result.SagOverSpan*j.sagLimit
	if sheet.why != nil {
		w.sag = sheet.ratio()
		w.result.FieldRatio = box.Pair{ASD: w.sag, LRFD: w.sag}
	}
	return nil
}

// backWall is wall for the back, with the push that is left once the box gives
// way.
func (pl *place) backWall(v *section.View) (*wallLoad, error) {
	w, err := pl.wall(v, section.Back)
	if err != nil || !w.loaded || w.active != 0 || w.activeFault != nil {
		return w, err
	}
	d, err := pl.j.diagramOf(earth.Active, w.press, &pl.room)
	w.activeFault = err
	w.active, _ = d.ResultantOf(pushing)
	return w, nil
}

// pushing is what pushes the box: what compaction locked in is gone with the
// first movement.
func pushing(r *earth.Row) float64 { return r.Soil + r.Surcharge + r.Quake }

// stripOf is a metre of wall without load. Wales at its very edges double the
// rails and do not divide it; along the box wales count only where ribs hold
// them.
func (j *job) stripOf(pn panel, t float64) (box.Strip, error) {
	prof, err := profileOf(pn.sheet, t)
	if err != nil {
		return box.Strip{}, err
	}
	if _, err := prof.Dented(pn.dent); err != nil {
		return box.Strip{}, pn.tooDented(prof)
	}
	s := box.Strip{Profile: prof, Steel: j.metal, Height: pn.height(), Dent: pn.dent}
	if pn.long && !j.hasRibs() {
		return s, nil // nothing would hold the wales
	}
	for _, w := range pn.between() {
		s.Wales = append(s.Wales, w.Height)
	}
	return s, nil
}
