package assess

import (
	"math"

	"hillset/engine/box"
	"hillset/engine/earth"
	"hillset/engine/frame"
	"hillset/engine/model"
	"hillset/engine/section"
)

// wallLoad is the pressure on a face at one stage and station, and what
// becomes of it in the sheet.
type wallLoad struct {
	face    section.Face
	station float64
	diagram earth.Diagram
	strip   box.Strip
	result  box.StripResult
	loaded  bool
}

// diagram is the pressure on a face from the top of the box to its underside:
// at rest, since the box is held, level by level the worst of the columns that
// may press, with what compaction locks in, surcharges and earthquake.
func (j *job) diagram(v *section.View, f section.Face, station float64) (earth.Diagram, error) {
	return j.diagramIn(earth.AtRest, v, f, station)
}

func (j *job) diagramIn(state earth.State, v *section.View, f section.Face, station float64) (earth.Diagram, error) {
	cols, err := v.Columns(f)
	if err != nil || len(cols) == 0 {
		return nil, err
	}
	surface, _ := v.Surface(f)
	wide := j.wideSurcharge(v.Stage, f, station)
	top := math.Max(j.roofLevel(), surface)
	var worst earth.Diagram
	for _, c := range cols {
		c.Q = wide
		d, err := c.Lateral(state, top, j.p.Box.Level)
		if err != nil {
			return nil, err
		}
		if worst == nil {
			worst = d
		} else {
			worst = earth.Merge(worst, d)
		}
	}
	if worst, err = j.locked(worst); err != nil {
		return nil, err
	}
	if worst, err = j.surcharged(worst, v, f, station, surface); err != nil {
		return nil, err
	}
	if v.Stage.Quake && j.p.Site.Climate.Kh > 0 {
		if worst, err = j.shaken(worst, cols[0], surface); err != nil {
			return nil, err
		}
	}
	return worst.Slice(j.roofLevel(), j.p.Box.Level), nil
}

// locked adds what the compaction plant leaves in the fill. It stays in
// service: compaction locks in stress.
func (j *job) locked(d earth.Diagram) (earth.Diagram, error) {
	if j.p.Fill.Plant == "" {
		return d, nil
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
	return earth.Compaction(d, plant.P, so.Gamma, k, j.p.Fill.PlantSetback, plant.Width)
}

// shaken adds Wood's increment for a wall that does not yield, by the mean
// weight of the fill.
func (j *job) shaken(d earth.Diagram, c earth.Column, surface float64) (earth.Diagram, error) {
	h := surface - j.p.Box.Level
	var weight float64
	for _, l := range c.Layers {
		weight += l.Gamma * (math.Max(l.Top, j.p.Box.Level) - math.Max(l.Bottom, j.p.Box.Level))
	}
	dp, _, err := earth.WoodNonYielding(j.p.Site.Climate.Kh, weight/h, h)
	if err != nil {
		return nil, err
	}
	return d.AddQuake(dp, surface, j.p.Box.Level)
}

// pressures turns a diagram into the load on a sheet between two levels,
// measured up from the lower.
func pressures(d earth.Diagram, zb, zt float64) box.Pressures {
	part := func(get func(*earth.Row) float64) frame.Load {
		var out frame.Load
		some := false
		cut := d.Slice(zt, zb)
		for i := len(cut) - 1; i >= 0; i-- {
			v := get(&cut[i])
			some = some || v != 0
			out = append(out, frame.LoadPoint{S: math.Min(math.Max(cut[i].Level-zb, 0), zt-zb), P: v})
		}
		if !some {
			return nil
		}
		return out
	}
	return box.Pressures{
		Earth: part(func(r *earth.Row) float64 { return r.Soil + r.Compaction + r.Quake }),
		Water: part(func(r *earth.Row) float64 { return r.U }),
		Live:  part(func(r *earth.Row) float64 { return r.Surcharge }),
	}
}

// wall presses one face at one station and solves the strip of sheet there.
func (j *job) wall(v *section.View, f section.Face, station float64) (wallLoad, error) {
	w := wallLoad{face: f, station: station}
	var err error
	if w.diagram, err = j.diagram(v, f, station); err != nil || len(w.diagram) == 0 {
		return w, err
	}
	pn := j.wallOf(f)
	t, err := j.rusted(pn.t, v.Stage.Years)
	if err != nil {
		return w, err
	}
	w.loaded = true
	if w.strip, err = j.stripOf(pn, t); err != nil {
		return w, err
	}
	w.strip.Load = pressures(w.diagram, pn.zBottom, pn.zTop)
	w.result, err = w.strip.Solve()
	return w, err
}

// stripOf is a metre of wall without load. Wales at its very edges double the
// rails and do not divide it; along the box wales count only where ribs hold
// them.
func (j *job) stripOf(pn panel, t float64) (box.Strip, error) {
	prof, err := profileOf(pn.sheet, t)
	if err != nil {
		return box.Strip{}, err
	}
	s := box.Strip{Profile: prof, Steel: j.metal, Height: pn.height()}
	if pn.long && !j.hasRibs() {
		return s, nil // nothing would hold the wales
	}
	for _, w := range pn.between() {
		s.Wales = append(s.Wales, w.Height)
	}
	return s, nil
}
