package assess

import (
	"context"
	"errors"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

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

// slipFound is what a search comes to.
type slipFound struct {
	slope.Found
	ground    *slope.Ground
	mass      *slope.Mass
	spencer   slope.Forces
	unsettled error // why there is no second method
	undrained bool
	crack     float64 // m, of the crack at its head; 0 for none
	cracked   bool    // a crack was tried
	skin      *skinFound
	err       error
}

// factor is the lower one of the two methods.
func (f *slipFound) factor() float64 {
	if f.unsettled == nil {
		return math.Min(f.Bishop, f.spencer.F)
	}
	return f.Bishop
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

// search works the cases on as many processors as there are. A dry case that a
// wet one of the same kind and load stands for is left out.
func (h *hillside) search(ctx context.Context) {
	all := slices.Clone(h.cases)
	h.cases = slices.DeleteFunc(h.cases, func(c *hillCase) bool {
		return slices.ContainsFunc(all, func(o *hillCase) bool { return o != c && o.worseThan(c) })
	})
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(h.cases)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := next.Add(1) - 1; i < int64(len(h.cases)) && ctx.Err() == nil; i = next.Add(1) - 1 {
				h.cases[i].out = h.find(ctx, h.cases[i])
			}
		}()
	}
	wg.Wait()
}

// worseThan tells whether a case has all that drives another one, and more water:
// a slope under the same load has no higher factor for it.
func (c *hillCase) worseThan(o *hillCase) bool {
	if c.slot != o.slot || c.fault != nil || o.fault != nil || c.st.Kind != o.st.Kind || c.st.Quake != o.st.Quake {
		return false
	}
	for _, id := range o.st.Surcharges {
		if !slices.Contains(c.st.Surcharges, id) {
			return false
		}
	}
	drier := wetOf(o.st) == model.WaterNone && wetOf(c.st) != model.WaterNone
	unblocked := wetOf(o.st) == wetOf(c.st) && c.st.Blocked && !o.st.Blocked
	return drier || unblocked
}

// minDepth is how deep a slip reaches at least, m: what is shallower is the skin.
const minDepth = 0.5

// errWeak says that a soil has no strength.
var errWeak = errors.New("no strength is given")

// find searches one case, drained and, where that counts, undrained as well; the
// lower of the two stands.
func (h *hillside) find(ctx context.Context, c *hillCase) slipFound {
	if c.fault != nil {
		return slipFound{err: c.fault}
	}
	best := h.findIn(ctx, c, false, 0)
	lower := func(o slipFound) {
		if o.err == nil && o.factor() < best.factor() {
			best = o
		}
	}
	if best.err == nil && c.short && h.undrained(c.view) {
		lower(h.findIn(ctx, c, true, 0))
	}
	if best.err == nil && c.asked.ID == "cut" {
		if crack := h.crack(c, &best); crack > 0 {
			lower(h.findIn(ctx, c, best.undrained, crack))
			best.cracked = true
		}
	}
	if best.err == nil {
		best.skin = h.skin(c)
	}
	return best
}

// leastCrack is the depth from which a crack counts, m.
const leastCrack = 0.2

// crack is how deep a dry crack opens behind the crest of a cut face, by the
// strength that the slip found calls on there, m; no deeper than half the face.
// It is 0 in soil without cohesion.
func (h *hillside) crack(c *hillCase, f *slipFound) float64 {
	last := &f.mass.Slices[len(f.mass.Slices)-1]
	s := f.ground.Soil(last.Zone)
	factor := f.factor()
	z, err := slope.CrackDepth(s.C/factor, math.Atan(math.Tan(s.Phi)/factor), s.Gamma)
	if err != nil || z < leastCrack {
		return 0
	}
	return math.Min(z, c.view.CutHeight/2)
}

func (h *hillside) findIn(ctx context.Context, c *hillCase, undrained bool, crack float64) (f slipFound) {
	f.undrained, f.crack = undrained, crack
	in, err := h.ground(c, undrained)
	if err != nil {
		return slipFound{err: err}
	}
	exact, err := slope.New(in)
	if err != nil {
		return slipFound{err: err}
	}
	g := exact.WithPore(c.wet.sampled)
	o := slope.Options{MinDepth: minDepth, Foot: c.foot, Head: c.head, Crack: crack}
	if c.mirror {
		exact, g = exact.Mirror(), g.Mirror()
		o.Foot, o.Head = slope.Range{Lo: -c.foot.Hi, Hi: -c.foot.Lo}, slope.Range{Lo: -c.head.Hi, Hi: -c.head.Lo}
	}
	if f.Found, f.err = g.Search(ctx, o); f.err != nil {
		return f
	}
	f.ground = exact
	if f.mass, f.err = exact.Mass(f.Slip, reportSlices); f.err != nil {
		return f
	}
	if f.Bishop, f.err = f.mass.Bishop(); f.err != nil {
		return f
	}
	f.spencer, f.unsettled = f.mass.Spencer()
	return f
}

// reportSlices is the number of slices behind what is reported.
const reportSlices = 60

// offer offers the check of a case.
func (h *hillside) offer(c *hillCase) {
	title := titleOfSlope(c.id)
	if c.out.err != nil {
		if !errors.Is(c.out.err, slope.ErrNone) {
			h.worst.missing(c.id, title, c.part, c.st.ID, asProblem(c.out.err).Text)
		}
		return
	}
	if h.slip == nil {
		h.slip = map[slot]*hillCase{}
	}
	ratio := c.asked.Factor / c.out.factor()
	if old := h.slip[c.slot]; old == nil || ratio > old.asked.Factor/old.out.factor() {
		h.slip[c.slot] = c
	}
	cand := candidate{slot: c.slot, stage: c.st.ID, ratio: ratio, write: func() (check.Check, error) { return h.write(c), nil }}
	if !c.view.Long {
		cand.station, cand.hasStation = c.view.Station, true
	}
	h.worst.add(cand)
}

// slips are the governing slips as they are drawn.
func (h *hillside) slips() (out []Slip) {
	for _, s := range h.worst.order {
		c := h.slip[s]
		if c == nil {
			continue
		}
		line := c.out.Slip.Points(drawnPieces)
		if c.out.crack > 0 {
			end := line[len(line)-1]
			line = append(line, geom.Vec{end[0], end[1] + c.out.crack})
		}
		if c.mirror {
			line = (slope.Slip{Line: line}).Mirror().Line
		}
		out = append(out, Slip{ID: s.id, Part: s.part, Stage: c.st.ID, Station: c.view.Station, Cross: !c.view.Long,
			Line: line, Factor: c.out.factor(), Asked: c.asked.Factor})
	}
	return out
}

// drawnPieces is how many straight pieces a slip is drawn with.
const drawnPieces = 48

func titleOfSlope(id string) string {
	switch id {
	case slopeWetID:
		return slopeTitle + ", high water or blocked drains"
	case slopeQuakeID:
		return slopeTitle + ", earthquake"
	}
	return slopeTitle
}
