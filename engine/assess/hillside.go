package assess

import (
	"context"
	"math"
	"slices"

	"hillset/engine/check"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/slope"
	"hillset/engine/tables"
	"hillset/geom"
)

// Checks of the hillside and its parts.
const (
	slopeID      = "slope"
	slopeWetID   = "slope-wet"
	slopeQuakeID = "slope-quake"
	slopeTitle   = "Stability of the hillside"

	hillPart     = "hillside"
	naturalPart  = "natural hill"
	finishedPart = "finished hill"
	leftFill     = "left side of the fill"
	rightFill    = "right side of the fill"
)

// ofHillside tells the checks of the hillside from those of the box and its
// cut. They are searched for after a Run, by Hillside: no trial comes to them.
func ofHillside(id string) bool {
	return id == slopeID || id == slopeWetID || id == slopeQuakeID
}

// Slip is the circle along which a part of the hillside slides first.
type Slip struct {
	ID, Part, Stage string // of its check
	Station         float64
	Cross           bool          // it lies in the cross section at Station
	Line            geom.Polyline // in the section
	Factor, Asked   float64
}

// Hillside judges whether the hill as found, the faces of the open cut and the
// finished slopes stay put, and adds the checks and the governing slips to a
// result. Many circles are tried for each: it may take a hundred times as long as
// Run and stops with ctx. It shares nothing that it changes with an earlier copy
// of r.
func Hillside(ctx context.Context, r *Result, t *tables.Set) error {
	if model.FirstHard(r.Project.Validate()) != nil {
		return nil // Run has told
	}
	j, err := newJobIn(ctx, r.Project, t, r.Water)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		return nil // Run has told
	}
	h := &hillside{job: j, worst: newWorst()}
	h.lay(ctx)
	h.search(ctx)
	if err := ctx.Err(); err != nil {
		return err
	}
	for _, c := range h.cases {
		h.offer(c)
	}
	if len(h.worst.order) == 0 {
		h.worst.missing(slopeID, slopeTitle, hillPart, "", "no stage shows the hill as found, an open cut or the finished hill, or nothing there drives")
	}
	r.Slips = h.slips()
	checks := slices.DeleteFunc(slices.Clone(r.Checks), func(c check.Check) bool { return ofHillside(c.ID) })
	r.Checks = append(checks, h.worst.checks()...)
	sortChecks(r.Checks)
	return nil
}

// hillside is one search of a project.
type hillside struct {
	*job
	worst *worstOf
	cases []*hillCase
	slip  map[slot]*hillCase // the governing one
}

// hillCase is one section at one stage, to be searched for what slides to one
// side.
type hillCase struct {
	slot
	st         model.Stage
	view       *section.View
	mirror     bool // it slides to the right
	wet        hillWater
	asked      tables.SlopeFactor
	foot, head slope.Range // of the slip, in the section
	short      bool        // undrained strengths count as well where they are given
	fault      error       // why it cannot be searched
	out        slipFound
}

// lay lists what is to be searched.
func (h *hillside) lay(ctx context.Context) {
	plan, long, err := h.job.lay()
	if err != nil {
		h.cases = append(h.cases, &hillCase{slot: slot{slopeID, naturalPart}, fault: err})
		return
	}
	for _, st := range h.p.Stages {
		if ctx.Err() != nil {
			return
		}
		if h.seen(st) {
			continue
		}
		switch st.Kind {
		case model.StageNatural:
			h.natural(long, st)
		case model.StageCut:
			h.open(ctx, plan, long, st)
		case model.StageService:
			h.finished(plan, long, st)
		}
	}
}

// seen tells whether what moves a slope at a stage is the same as at one that was
// laid already.
func (h *hillside) seen(st model.Stage) bool {
	return slices.ContainsFunc(h.cases, func(c *hillCase) bool {
		a, b := c.st, st
		return section.ShapeOf(a) == section.ShapeOf(b) && wetOf(a) == wetOf(b) && a.Blocked == b.Blocked && h.shakes(a) == h.shakes(b) &&
			slices.Equal(a.Surcharges, b.Surcharges)
	})
}

// wetOf is the water of a stage by name.
func wetOf(st model.Stage) string {
	if st.Water == "" {
		return model.WaterNone
	}
	return st.Water
}

// shakes is the earthquake of a stage.
func (h *hillside) shakes(st model.Stage) float64 {
	if !st.Quake {
		return 0
	}
	return h.p.Site.Climate.Kh
}

// asked is the factor asked for in a situation.
func (h *hillside) asked(id string) tables.SlopeFactor {
	f, ok := h.t.SlopeFactor(id)
	if !ok {
		panic("assess: no slope factor " + id)
	}
	return f
}

// natural lays the hill as found.
func (h *hillside) natural(long *section.Cut, st model.Stage) {
	c := &hillCase{slot: slot{slopeID, naturalPart}, st: st, asked: h.asked("as-found")}
	if c.view, c.fault = long.At(st); c.fault == nil {
		c.wet, c.fault = h.foundWater(c.view)
	}
	h.cases = append(h.cases, c)
}

// leastFace is the height from which a face of the cut is judged, m.
const leastFace = 0.5

// open lays the faces of the open cut: the back and the front face in the long
// section, the side faces across at the foot of the back one.
func (h *hillside) open(ctx context.Context, plan *section.Plan, long *section.Cut, st model.Stage) {
	v, err := long.At(st)
	if err != nil {
		h.cases = append(h.cases, &hillCase{slot: slot{slopeID, "cut face"}, st: st, fault: err})
		return
	}
	h.openFaces(ctx, v, st, "cut face", "front face of the cut")
	cross, err := plan.Cross(v.Toe[0])
	var cv *section.View
	if err == nil {
		cv, err = cross.At(st)
	}
	if err != nil {
		h.cases = append(h.cases, &hillCase{slot: slot{slopeID, "right face of the cut"}, st: st, fault: err})
		return
	}
	h.openFaces(ctx, cv, st, "right face of the cut", "left face of the cut")
}

// openFaces lays the faces of one section through the cut: the one that rises to
// the right, and the one that rises to the left.
func (h *hillside) openFaces(ctx context.Context, v *section.View, st model.Stage, right, left string) {
	up, down := facesOf(v.Batters)
	for _, f := range []struct {
		part   string
		pieces []section.Batter
		mirror bool
	}{{right, up, false}, {left, down, true}} {
		if heightOf(f.pieces) < leastFace {
			continue
		}
		c := &hillCase{slot: slot{slopeID, f.part}, st: st, view: v, mirror: f.mirror, asked: h.asked("cut"), short: true}
		toe, crest := f.pieces[0].Foot[0], f.pieces[len(f.pieces)-1].Top[0]
		lo, hi := floorOf(v)
		if f.mirror {
			c.foot, c.head = slope.Range{Lo: crest, Hi: hi}, slope.Range{Lo: v.Ground[0][0], Hi: toe}
		} else {
			c.foot, c.head = slope.Range{Lo: lo, Hi: crest}, slope.Range{Lo: toe, Hi: v.Ground[len(v.Ground)-1][0]}
		}
		c.wet, c.fault = h.pitWater(ctx, v)
		h.cases = append(h.cases, c)
	}
}

// floorOf is the reach of the floor of the cut.
func floorOf(v *section.View) (lo, hi float64) {
	lo, hi = v.Box.Min[0], v.Box.Max[0]
	for _, q := range v.CutLine {
		if math.Abs(q[1]-v.Formation) < 1e-6 {
			lo, hi = math.Min(lo, q[0]), math.Max(hi, q[0])
		}
	}
	return lo, hi
}

// finished lays the finished slopes: the hill along the fall line, and both sides
// of the fill where it stands highest.
func (h *hillside) finished(plan *section.Plan, long *section.Cut, st model.Stage) {
	id, need := slopeID, h.asked("permanent")
	switch {
	case h.shakes(st) > 0:
		id, need = slopeQuakeID, h.asked("quake")
	case st.Blocked || st.Water == model.WaterHigh:
		id, need = slopeWetID, h.asked("wetting")
	}
	add := func(part string, v *section.View, mirror bool, err error) {
		c := &hillCase{slot: slot{id, part}, st: st, view: v, mirror: mirror, asked: need, short: h.shakes(st) > 0, fault: err}
		if err == nil {
			c.wet, c.fault = h.stageWater(v)
		}
		h.cases = append(h.cases, c)
	}
	v, err := long.At(st)
	add(finishedPart, v, false, err)
	cv, err := h.highest(plan, st)
	add(leftFill, cv, true, err)
	add(rightFill, cv, false, err)
}

// highest is the cross section in which the finished surface falls most, of those
// in which the water is computed.
func (h *hillside) highest(plan *section.Plan, st model.Stage) (*section.View, error) {
	xs := []float64{h.frontX, (h.frontX + h.backX) / 2, h.backX}
	if h.p.Box.Orientation == model.Broadside {
		xs = xs[1:2]
	}
	var best *section.View
	most := math.Inf(-1)
	for _, x := range xs {
		cut, err := plan.Cross(x)
		if err != nil {
			return nil, err
		}
		v, err := cut.At(st)
		if err != nil {
			return nil, err
		}
		b := v.Finish.Bounds()
		if fall := b.Max[1] - b.Min[1]; fall > most {
			best, most = v, fall
		}
	}
	return best, nil
}

// facesOf splits the straight pieces of a section into the face that rises to the
// right and the one that rises to the left, each from its foot up.
func facesOf(all []section.Batter) (up, down []section.Batter) {
	for _, b := range all {
		if b.Top[0] >= b.Foot[0] {
			up = append(up, b)
		} else {
			down = append(down, b)
		}
	}
	return up, down
}

func heightOf(face []section.Batter) float64 {
	if len(face) == 0 {
		return 0
	}
	return face[len(face)-1].Top[1] - face[0].Foot[1]
}
