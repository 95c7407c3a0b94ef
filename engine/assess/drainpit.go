package assess

import (
	"context"
	"fmt"
	"math"
	"slices"

	"hillset/engine/check"
	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/section"
	"hillset/engine/water"
)

// pit holds the pump for the dig against the water that comes into the open cut
// in the wet season. With the box set no more comes in, as the cut is no deeper.
func (d *drainage) pit(ctx context.Context, stages []stageResult) {
	g := gap{id: cutInflow, title: "Pump for the dig: inflow against pump", part: "cut"}
	i := slices.IndexFunc(stages, func(sr stageResult) bool { return sr.st.Kind == model.StageCut && sr.view != nil })
	if i < 0 {
		return
	}
	stage := stages[i].st.ID
	if d.field == nil {
		d.offerAt(stage, g, check.Check{}, model.Problem{Text: notComputed})
		return
	}
	pit, err := water.PitOf(ctx, d.p, d.t, d.field)
	if err != nil {
		d.offerAt(stage, g, check.Check{}, err)
		return
	}
	q, sections := quantity.Of("Q", pit.Inflow(), quantity.Flow), quantity.Of("Qs", pit.Sections(), quantity.Flow)
	c := check.Check{ID: g.id, Title: g.title, Part: g.part, Method: "Computed flow to the faces and the floor of the cut, or to a well of its area", Source: srcFlowIn + "; " + drain.SrcFirstDays,
		Demand: q, Ratio: math.NaN(), RatioLRFD: math.NaN(),
		Assumptions: []string{"the flow computed is that of the wet season once the hill has drained to the cut: in the first days more comes",
			"with the box set no more comes in, as the cut is no deeper"},
		Validity: "As near as the permeability of the hill is known, seldom better than ten times: the working has the range.",
		Working: []check.Line{
			{Text: "By the long section, over the width of the cut", Formula: "Q1 = q1·B", Source: srcFlowIn, Result: quantity.Of("Q1", pit.Back, quantity.Flow),
				Terms: []quantity.Q{quantity.Of("q1", pit.Long.Sums.Within, quantity.LineFlow), quantity.Of("B", pit.Width, quantity.Length)}},
			{Text: "By the cross section in the middle, over the length of the cut", Formula: "Q2 = q2·L", Source: srcFlowIn, Result: quantity.Of("Q2", pit.Sides, quantity.Flow),
				Terms: []quantity.Q{quantity.Of("q2", pit.Cross.Sums.Within, quantity.LineFlow), quantity.Of("L", pit.Length, quantity.Length)}},
			{Text: "Together", Formula: "Qs = Q1 + Q2", Source: "derived", Result: sections},
		}}
	if pit.Rough() {
		c.Validity += " " + roughWords
	}
	d.well(&c, pit, sections, q)
	d.againstPump(&c, q)
	d.rain(&c, pit)
	d.offerAt(stage, g, c, nil)
}

// againstPump holds the inflow of the first days against the pump, where there is
// one: that for the dig, or else that of the sump.
func (d *drainage) againstPump(c *check.Check, q quantity.Q) {
	first := quantity.Of("Qf", drain.FirstDays*q.Val, quantity.Flow)
	need := first
	line := func(text, formula string, of, out quantity.Q) {
		c.Working = append(c.Working, check.Line{Text: text, Formula: formula, Source: "derived", Terms: []quantity.Q{of}, Result: out})
	}
	c.Working = append(c.Working, check.Line{Text: "In the first days, before the hill has drained to the cut", Formula: fmt.Sprintf("Qf = %g·Q", drain.FirstDays), Source: drain.SrcFirstDays,
		Terms: []quantity.Q{q}, Result: first})
	line("With a tenth of the permeability", "Qlow = Qf/10", first, quantity.Of("Qlow", first.Val/unmeasured, quantity.Flow))
	line("With ten times the permeability", "Qhigh = 10·Qf", first, quantity.Of("Qhigh", first.Val*unmeasured, quantity.Flow))
	if d.times > 1 {
		need = quantity.Of("Qhigh", d.times*first.Val, quantity.Flow)
		c.Assumptions = append(c.Assumptions, "the permeability of the hill is not measured: the upper end of the range counts")
	} else {
		c.Assumptions = append(c.Assumptions, "the permeability of the hill was given: the flow by it counts, not the upper end of the range")
	}
	c.Demand = need
	rate := d.p.Cut.Pump * perMinute
	if rate <= 0 {
		if rate = d.p.Defence.Sump.Rate * perMinute; rate > 0 {
			c.Assumptions = append(c.Assumptions, "no pump is given for the dig: that of the sump keeps the cut dry while it is open")
		}
	}
	if rate <= 0 {
		c.Missing = "no pump is given for the dig: see the working for how much comes"
		return
	}
	c.Capacity, c.Ratio = quantity.Of("D", rate, quantity.Flow), need.Val/rate
	c.Working = append(c.Working, check.Line{Text: "Against the pump", Formula: "r = " + need.Sym + "/D", Source: "derived",
		Terms: []quantity.Q{need, c.Capacity}, Result: quantity.Of("r", c.Ratio, quantity.None)})
	if c.Ratio > 1 {
		c.Remedy, c.RemedyQ = "pumps of {0} together while the cut is open, or a dig in the dry season", []quantity.Q{need}
	}
}

// well adds what a well of the same area takes in: the corners, towards which
// water runs together in plan, are in neither section. The larger of the two
// counts.
func (d *drainage) well(c *check.Check, pit *water.Pit, sections, q quantity.Q) {
	if pit.NoWell != nil {
		c.Assumptions = append(c.Assumptions, "what runs together towards the corners of the cut is in neither section: a lower figure, some 1.4 times as much may come (derived); the formula of a well does not hold here: "+pit.NoWell.Error())
		return
	}
	in := &pit.Hand
	c.Source += "; " + srcWell
	c.Assumptions = append(c.Assumptions, "what runs together towards the corners of the cut is in neither section, and is in the well: the larger of the two counts")
	well := quantity.Of("Qw", pit.Well, quantity.Flow)
	c.Working = append(c.Working, check.Line{Text: "By a well of the area of the floor, over the foot of the section as a tight floor, in the water of the hill round it", Source: srcWell,
		Formula: "Qw = π·K·(H² − h²)/ln(1 + R/re), R = 3000·(H − h)·√K, re = √(B·L/π)", Result: well,
		Terms: []quantity.Q{quantity.Of("K", in.K, quantity.Permeability), quantity.Of("H", in.H, quantity.Length), quantity.Of("h", in.Low, quantity.Length),
			quantity.Of("B", pit.Width, quantity.Length), quantity.Of("L", pit.Length, quantity.Length)}},
		check.Line{Text: "The larger counts", Formula: "Q = max(Qs, Qw)", Source: "derived", Terms: []quantity.Q{sections, well}, Result: q})
}

const srcWell = "well of equal area with Sichardt's reach (memory), the squares of the heads round it in the mean (derived)"

// rain adds what falls into the open cut in the design storm: a figure by itself,
// not held against the pump.
func (d *drainage) rain(c *check.Check, pit *water.Pit) {
	i := d.p.Site.Climate.DesignRain / 1000 / 3600
	if i <= 0 {
		c.Assumptions = append(c.Assumptions, "rain that falls into the cut is not counted: no design rain is given")
		return
	}
	extent := func(v *section.View) float64 {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, q := range v.Excavated {
			b := q.Bounds()
			lo, hi = min(lo, b.Min[0]), max(hi, b.Max[0])
		}
		return max(0, hi-lo)
	}
	area := quantity.Of("A", extent(pit.Long.View)*extent(pit.Cross.View), quantity.Area)
	c.Working = append(c.Working, check.Line{Text: "Beside it, rain of the design storm on the cut from crest to crest, all of which runs off", Formula: "Qr = i·A", Source: drain.SourceRational,
		Terms: []quantity.Q{quantity.Of("i", i, quantity.Rate), area}, Result: quantity.Of("Qr", i*area.Val, quantity.Flow)})
	c.Assumptions = append(c.Assumptions, "rain that falls into the cut is a figure by itself and not held against the pump; what runs down the hill is turned away above the crest")
}
