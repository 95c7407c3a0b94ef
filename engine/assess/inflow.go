package assess

import (
	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/section"
	"hillset/engine/tables"
	"hillset/engine/water"
)

// trenchWide is the width of the stone round a drain pipe below the formation,
// m: as the computed water has it.
const trenchWide = 0.3

// drainFlow is what the drains take at a stage.
type drainFlow struct {
	back, side  float64 // m2/s, of a metre of the run behind the box, and of a metre of both side runs together
	lb, ls      float64 // m, lengths of the back run and of one side run
	round       float64 // m3/s, of the drain round the box
	per         float64 // m2/s, of a metre of the interceptor
	li          float64 // m, its length
	interceptor float64 // m3/s
}

// total is what all drains take, m3/s.
func (f *drainFlow) total() float64 { return f.round + f.interceptor }

// runs are the lengths of the drain behind the box and along one side, m: it
// lies in the middle of the drain rock.
func (j *job) runs() (lb, ls float64) {
	pl := planOfDrain(j.p, j.across, j.depth)
	return pl.Back, pl.Side
}

// drainFlowOf sums up what the drains take: the back run by the long section,
// the side runs by the mean of the cross sections. Where both see the same water
// it counts twice; what runs together towards the corners in plan is in neither.
func (j *job) drainFlowOf(w *water.Wet) drainFlow {
	var f drainFlow
	f.lb, f.ls = j.runs()
	if w.Long == nil {
		return f
	}
	for i, n := range w.Long.Names {
		switch q := w.Long.Sums.Drains[i]; n {
		case "drain":
			f.back += q
		case "interceptor":
			f.per += q
		}
	}
	for i := range sideNames(w) {
		f.side += meanAlong(w.Cross, i)
	}
	f.round = f.back*f.lb + f.side*f.ls
	f.li = interceptorLength(j.p, j.across, j.backX, w)
	f.interceptor = f.per * f.li
	return f
}

// sideNames are the drains of the sections across, in their order.
func sideNames(w *water.Wet) []string {
	if len(w.Cross) == 0 {
		return nil
	}
	return w.Cross[0].Names
}

// meanAlong is what drain i of the sections across takes of a metre, m2/s: the
// mean over evenly spaced sections, the ends counting half.
func meanAlong(cross []*water.State, i int) float64 {
	sum, weights := 0.0, 0.0
	for k, c := range cross {
		weight := 1.0
		if len(cross) > 1 && (k == 0 || k == len(cross)-1) {
			weight = 0.5
		}
		weights += weight
		if i < len(c.Sums.Drains) {
			sum += weight * c.Sums.Drains[i]
		}
	}
	return sum / weights
}

// DrainRun is one run of a drain at a stage with what it takes.
type DrainRun struct {
	Name   string  // as package section calls it
	Per    float64 // of a metre, m2/s
	Length float64 // m
}

// Flow is what the whole run takes, m3/s.
func (r *DrainRun) Flow() float64 { return r.Per * r.Length }

// DrainRuns are the runs of the drains of a project in one water: together they
// take what the checks and the scenarios count. It fails where the box is not
// known.
func DrainRuns(p *model.Project, t *tables.Set, w *water.Wet) ([]DrainRun, error) {
	b, err := section.BoxOf(p, t)
	if err != nil || w.Long == nil {
		return nil, err
	}
	across, depth := section.Across(p, b), section.Depth(p, b)
	pl := planOfDrain(p, across, depth)
	var out []DrainRun
	for i, n := range w.Long.Names {
		long := pl.Back
		if n == "interceptor" {
			long = interceptorLength(p, across, p.Box.Front+depth, w)
		}
		out = append(out, DrainRun{n, w.Long.Sums.Drains[i], long})
	}
	for i, n := range sideNames(w) {
		out = append(out, DrainRun{n, meanAlong(w.Cross, i), pl.Side})
	}
	return out, nil
}

// interceptorLength is how long the drain uphill is taken: across the whole
// cut, from crest to crest behind the box.
func interceptorLength(p *model.Project, across, back float64, w *water.Wet) float64 {
	if !p.Defence.Drain.Uphill {
		return 0
	}
	long := across
	if c := w.CrossAt(back); c != nil {
		lo, hi := c.View.Box.Min[0], c.View.Box.Max[0]
		for _, q := range c.View.Excavated {
			b := q.Bounds()
			lo, hi = min(lo, b.Min[0]), max(hi, b.Max[0])
		}
		long = max(long, hi-lo)
	}
	return long
}

// drainable is the share of stone that fills with water and drains again: the
// low end of what is known, since less fills sooner.
const drainable = 0.26

// store is the room that water fills from the invert of the drain up to the
// top of the drain rock, and the level of the invert, m: stone round the pipe,
// bed, open space under the box, drain rock beside it.
func (j *job) store() (layers []drain.Store, invert float64) {
	form := section.Formation(j.p)
	invert = form - j.p.Defence.Drain.Depth
	lb, ls := j.runs()
	along := lb + 2*ls
	plan, ring := j.depth*j.across, along*j.p.Fill.RockWidth
	under := j.p.Box.Level
	bed := min(under, form+j.p.Bedding.RockThickness)
	add := func(top, area, full float64) {
		last := 0.0
		if n := len(layers); n > 0 {
			last = layers[n-1].Top
		}
		if top-invert > last+1e-6 && area > 0 {
			layers = append(layers, drain.Store{Top: top - invert, Area: area, Drainable: full / area})
		}
	}
	add(form, along*trenchWide, along*trenchWide*drainable)
	add(bed, plan+ring, (plan+ring)*drainable)
	if j.p.Bedding.Kind == model.PadBedding {
		open := plan - 4*j.p.Bedding.PadLength*j.p.Bedding.PadWidth
		add(under, plan+ring, open+ring*drainable)
	}
	add(j.roofLevel()-j.p.Fill.RockTop, ring, ring*drainable)
	return layers, invert
}
