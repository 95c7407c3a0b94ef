package assess

// The search of the cases of the hillside, and what comes of each.

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
	"hillset/engine/slope"
	"hillset/geom"
)

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
