package assess

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"hillset/engine/check"
	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
)

// Parts of the water works that are checked, beside those of package drain.
const (
	drainPart  = "drain"
	filterPart = "filter"
	sumpPart   = "sump"
	swalePart  = "swale"
	curtain    = "curtain drain"
	skinPart   = "membrane"
	cutInflow  = "cut-inflow"
)

// ofDrainage tells the checks of the water works from those of the box and its
// cut. They hang on the water as it is computed for the drawing and are made
// for a result only: no trial comes to them.
func ofDrainage(s slot) bool {
	return s.id == cutInflow || slices.Contains([]string{drainPart, filterPart, sumpPart, swalePart, curtain, skinPart}, s.part)
}

// drainage offers the checks of what takes the water away, each once.
type drainage struct {
	*job
	worst *worstOf
	// sr is the stage at which the drains take most; where their flow is not known
	// the last finished one. Nil where no stage has drains.
	sr   *stageResult
	flow drainFlow // there
	dry  string    // why the flow to the drains is not known; empty where it is
	// usual is the most that comes to the drain round the box in the wet season,
	// m3/s, and usualAt the stage.
	usual   float64
	usualAt string
	// times is 10 where the permeability of the hill was not measured, which may
	// be off that far, else 1.
	times float64
}

// unmeasured is how far a permeability out of a table may be off.
const unmeasured = 10

// drainage makes the checks of the water works. Where the water is not computed
// those that hang on how much comes are told as not made.
func (j *job) drainage(ctx context.Context, stages []stageResult, worst *worstOf) {
	if !j.drawn {
		return
	}
	d := &drainage{job: j, worst: worst, times: 1}
	if !j.measured() {
		d.times = unmeasured
	}
	d.look(stages)
	d.pit(ctx, stages)
	if d.sr != nil {
		if j.p.Defence.Drain.Present {
			d.pipe()
			d.filters()
			d.away()
		}
		if j.p.Defence.Drain.Uphill {
			d.interceptor()
		}
	}
	if d.sr == nil && j.drained() {
		worst.missing("drain-pipe", "Drain pipe, flow", drainPart, "", "no stage has the drains in: backfill or service")
	}
	if j.p.Defence.Drain.Swale {
		d.swale()
	}
	d.membranes(stages)
}

const (
	notComputed = "the ground water is not computed: how much comes is not known"
	neverWet    = "no stage has water once the drains are in: what they take is not known"
)

// look finds the stage that the drains are checked at, and what they take.
func (d *drainage) look(stages []stageResult) {
	d.dry = neverWet
	if d.field == nil {
		d.dry = notComputed
	}
	for i := range stages {
		sr := &stages[i]
		if sr.view == nil || len(sr.view.Pipes(d.p))+len(sr.view.Interceptor(d.p)) == 0 {
			continue
		}
		w := d.wet(sr.st)
		if w == nil {
			if d.dry != "" {
				d.sr = sr
			}
			continue
		}
		f := d.drainFlowOf(w)
		if d.dry != "" || f.total() > d.flow.total() {
			d.sr, d.flow, d.dry = sr, f, ""
		}
		if sr.st.Water == model.WaterSeasonal && f.round > d.usual {
			d.usual, d.usualAt = f.round, sr.st.Name
		}
	}
}

// unknown says that a check hangs on a flow that is not known; false where it is.
func (d *drainage) unknown(g gap) bool {
	if d.dry != "" {
		d.offer(g, check.Check{}, model.Problem{Text: d.dry})
	}
	return d.dry != ""
}

// measured tells whether the permeabilities of the hill are the user's own.
func (j *job) measured() bool {
	for _, s := range j.p.Site.Strata {
		if so, ok := section.SoilByID(j.p, s.Soil); ok && !slices.Contains(so.Set, "kx") {
			return false
		}
	}
	return true
}

// offer offers a check, or says why it could not be made.
func (d *drainage) offer(g gap, c check.Check, err error) {
	stage := ""
	if d.sr != nil {
		stage = d.sr.st.ID
	}
	d.offerAt(stage, g, c, err)
}

func (d *drainage) offerAt(stage string, g gap, c check.Check, err error) {
	if err != nil {
		d.worst.fault(slot{g.id, g.part}, g.title, stage, "", err)
		return
	}
	d.worst.add(candidate{slot: slot{g.id, g.part}, stage: stage, ratio: ratioOf(c.Ratio, c.RatioLRFD),
		write: func() (check.Check, error) { return c, nil }})
}

// lacks says what a check needs that is not given; false where nothing is
// lacking.
func (d *drainage) lacks(g gap, needs ...need) bool {
	why := notGiven(needs)
	if why != "" {
		d.offer(g, check.Check{}, model.Problem{Text: why})
	}
	return why != ""
}

// notGiven lists what is needed and not given; empty where all is there.
func notGiven(needs []need) string {
	var out []string
	for _, n := range needs {
		if !n.given {
			out = append(out, n.what)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "not given: " + strings.Join(out, ", ")
}

// need is something that a check must be given.
type need struct {
	what  string
	given bool
}

const srcFlowIn = "computed water, steady flow in sections (derived)"

// design is the flow that the drain round the box is to carry, m3/s.
func (d *drainage) design() float64 { return d.times * d.flow.round }

// flowLines write how the flow came about.
func (d *drainage) flowLines() []check.Line {
	f := &d.flow
	q := quantity.Of("Qd", f.round, quantity.Flow)
	out := []check.Line{{
		Text: "Water to the drain by the long and the cross sections", Formula: "Qd = qb·Lb + qs·Ls", Source: srcFlowIn, Result: q,
		Terms: []quantity.Q{quantity.Of("qb", f.back, quantity.LineFlow), quantity.Of("Lb", f.lb, quantity.Length),
			quantity.Of("qs", f.side, quantity.LineFlow), quantity.Of("Ls", f.ls, quantity.Length)},
	}}
	if d.times > 1 {
		out = append(out, check.Line{Text: "The permeability of the hill is not measured: ten times as much counts", Formula: "Q = 10·Qd", Source: "common practice",
			Terms: []quantity.Q{q}, Result: quantity.Of("Q", d.design(), quantity.Flow)})
	}
	return out
}

// withFlow puts the way to the flow in front of a working.
func (d *drainage) withFlow(c check.Check, err error) (check.Check, error) {
	if err != nil {
		return c, err
	}
	c.Working = append(d.flowLines(), c.Working...)
	c.Assumptions = append(c.Assumptions, "the flow is that of the wettest stage; where long and cross section see the same water it counts twice, and what runs together towards the corners is in neither")
	return c, nil
}

// pipe checks the pipe: what it carries, whether it keeps itself clean, its
// fall, its openings, the rock without it, and how it is laid.
func (d *drainage) pipe() {
	dr := &d.p.Defence.Drain
	row, ok := d.t.Pipe(dr.Pipe)
	have := []need{{"the pipe, a row of the table of pipes", ok}, {"its bore", dr.Diameter > 0}, {"its fall", dr.Fall > 0}}
	in := drain.PipeIn{Pipe: drain.Pipe{Bore: dr.Diameter, N: row.N, Fall: dr.Fall, Camp: dr.Camp}, Flow: d.design(), Fines: dr.Cloth.AOS == 0, Laser: dr.Laser}
	flows := append(have, need{"water: in no stage does any come to the drain", in.Flow >= leastDrain})
	if g := (gap{id: "drain-pipe", title: "Drain pipe, flow", part: drainPart}); !d.unknown(g) && !d.lacks(g, flows...) {
		c, err := d.withFlow(drain.PipeCheck(in))
		d.offer(g, c, err)
	}
	d.velocity(in, flows)
	if g := (gap{id: "drain-fall", title: "Drain pipe, fall", part: drainPart}); !d.lacks(g, have...) {
		in := in
		in.Flow = max(in.Flow, leastDrain) // the least fall does not hang on it
		c, err := drain.FallCheck(in)
		d.offer(g, c, err)
	}
	d.openings()
	d.rock()
	d.layout()
}

// velocity asks whether the pipe keeps itself clean. What may come at most, ten
// times where the permeability is not measured, is on the careful side for the
// bore and on the other for this: here what comes in the wet season counts, to the
// end of one of the two runs.
func (d *drainage) velocity(in drain.PipeIn, needs []need) {
	g := gap{id: "drain-velocity", title: "Drain pipe, keeping itself clean", part: drainPart}
	if d.unknown(g) {
		return
	}
	usual, stage := d.usual, d.usualAt
	if stage == "" {
		usual, stage = d.flow.round, d.sr.st.Name
	}
	if d.lacks(g, append(needs, need{"water: none comes to the drain in the wet season", usual/2 >= leastDrain})...) {
		return
	}
	in.Flow = max(in.Flow, usual/2) // the stage that takes most by both drains may take less by this one
	c, err := d.withFlow(drain.VelocityCheck(in, usual/2))
	if err == nil {
		all := quantity.Of("Qw", usual, quantity.Flow)
		c.Working = append([]check.Line{{Text: "Ordinary flow, at the end of one of two runs, stage “" + stage + "”", Formula: "Qo = Qw/2", Source: srcFlowIn,
			Terms: []quantity.Q{all}, Result: quantity.Of("Qo", usual/2, quantity.Flow)}}, c.Working...)
		c.Assumptions = append(c.Assumptions, "the ordinary flow is by the permeability as given, and both runs take alike; further up a run it is less")
	}
	d.offer(g, c, err)
}

// leastDrain is a flow below which there is nothing to carry, m3/s: a litre in
// some twelve days.
const leastDrain = 1e-9

// openings hold the stone against the holes of the pipe.
func (d *drainage) openings() {
	g := gap{id: "drain-openings", title: "Openings of the pipe against the rock", part: drainPart}
	row, ok := d.t.Pipe(d.p.Defence.Drain.Pipe)
	so, okSoil := section.SoilByID(d.p, d.p.Fill.RockSoil)
	d85, known := sizeOf(so, 0.85)
	if d.lacks(g, need{"the pipe, a row of the table of pipes", ok}, need{"the drain rock", okSoil}, need{"D85 of the drain rock", known}) {
		return
	}
	if row.Opening == "none" {
		d.offer(g, check.Check{}, model.Problem{Text: "the pipe has no openings: it takes no water in along the box"})
		return
	}
	c, err := drain.OpeningCheck(drain.OpeningIn{D85: d85, Size: row.OpeningWidth, Slot: row.Opening == "slot"})
	d.offer(g, c, err)
}

// What washed rock of one size is taken to be: voids at the low end, edges at
// the high end (memory).
const (
	stoneVoids = 0.35
	stoneEdges = 1.5
)

// rock is what the drain rock carries where no pipe is chosen. A pipe is the
// path by design; what happens when it stops is the case of blocked drains.
func (d *drainage) rock() {
	g := gap{id: "drain-rock", title: "Rock of the drain without its pipe", part: drainPart}
	if d.p.Defence.Drain.Pipe != "" || d.unknown(g) {
		return
	}
	dr := &d.p.Defence.Drain
	so, ok := section.SoilByID(d.p, d.p.Fill.RockSoil)
	d15, known := sizeOf(so, 0.15)
	if d.lacks(g, need{"the drain rock", ok}, need{"its D15", known}, need{"the fall", dr.Fall > 0}) {
		return
	}
	in := drain.TrenchIn{Flow: d.design(), Width: trenchWide, Height: dr.Depth + d.p.Bedding.RockThickness, Gradient: dr.Fall, Grain: d15 / 1000, Washed: dr.Washed}
	if w := d.p.Fill.RockWidth; w > 0 {
		in.Width = w
	}
	if slices.Contains(so.Set, "kx") {
		in.K = so.Kx
	}
	if d50, ok := sizeOf(so, 0.5); dr.Washed && ok {
		in.Stones = drain.Stones{Size: d50 / 1000, Porosity: stoneVoids, Angular: stoneEdges}
	}
	c, err := d.withFlow(drain.TrenchCheck(in))
	if c.Method == "Wilkins" {
		c.Assumptions = append(c.Assumptions, fmt.Sprintf("%g %% voids, and %g times the surface of balls (memory)", stoneVoids*100, stoneEdges))
	}
	d.offer(g, c, err)
}

// layout holds the measures of the drain against the rules. Clean-outs are taken
// at the upper end and at every corner, of the bore of the pipe. The footing is
// the box: its pads stand on stone.
func (d *drainage) layout() {
	g := gap{id: "drain-layout", title: "Drain, how it is laid", part: drainPart}
	dr := &d.p.Defence.Drain
	if d.lacks(g, need{"the bore of the pipe", dr.Diameter > 0}, need{"the drain rock beside the walls", d.p.Fill.RockWidth > 0},
		need{"the slope of the mound beside the box", d.p.Fill.SideSlope > 0}) {
		return
	}
	lb, ls := d.runs()
	top := d.roofLevel() - d.p.Fill.RockTop
	invert := section.Formation(d.p) - dr.Depth
	in := drain.Layout{Above: top - invert - dr.Diameter, Beside: (d.p.Fill.RockWidth - dr.Diameter) / 2, Beyond: d.p.Fill.RockWidth,
		BelowUnknown: true, Runs: []float64{lb / 2, ls}, Twin: true, Spacing: max(lb/2, ls), Riser: dr.Diameter, Surface: 1 / d.p.Fill.SideSlope}
	if f := FrostOf(d.p, d.t); dr.Outlet != "sump" && (f.Depth > 0 || f.Why != "") {
		in.Freezing = dr.Diameter
	}
	c, err := drain.LayoutCheck(in)
	c.Assumptions = append(c.Assumptions,
		"clean-outs at the middle behind the box, where the two runs begin, and at every corner, of the bore of the pipe: two more than asked for",
		"the edge of the footing is that of the box",
		"the surface falls away beside the box as its mound is drawn; what comes from uphill is turned away by cap and swale")
	d.offer(g, c, err)
}

// sizeOf is the size that a share of a soil is finer than, mm: by its sieves, or
// by the sizes given. ok is false where neither tells.
func sizeOf(so model.Soil, share float64) (size float64, ok bool) {
	if len(so.Sieves) > 0 {
		if v, err := gradingOf(so).D(share); err == nil {
			return v, true
		}
	}
	switch share {
	case 0.15:
		size = so.D15
	case 0.5:
		size = so.D50
	case 0.85:
		size = so.D85
	}
	return size, size > 0
}

// gradingOf is the grading of a soil by its sieves.
func gradingOf(so model.Soil) drain.Grading {
	g := make(drain.Grading, len(so.Sieves))
	for i, s := range so.Sieves {
		g[i] = drain.Sieve{Size: s.Size, Passes: s.Passes}
	}
	return g
}
