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
	c := check.Check{ID: g.id, Title: g.title, Part: g.part, Method: "Computed flow to the faces and the floor of the cut", Source: srcFlowIn + "; " + drain.SrcFirstDays,
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
	c.Working = append(c.Working, check.Line{Text: "With what runs together towards the corners", Formula: fmt.Sprintf("Q = %g·Qs", water.Corners), Source: "flow worked in plan (derived)",
		Terms: []quantity.Q{sections}, Result: q})
	c.Assumptions = append(c.Assumptions, fmt.Sprintf("what runs together towards the corners of the cut is in neither section: %g times their sum counts, by flow worked in plan on one hill (derived)", water.Corners))
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
