package assess

import (
	"context"
	"fmt"
	"math"

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
	stage, view := "", (*section.View)(nil)
	for i := range stages {
		if stages[i].st.Kind == model.StageCut && stages[i].view != nil {
			stage, view = stages[i].st.ID, stages[i].view
			break
		}
	}
	if view == nil {
		return
	}
	if d.field == nil {
		d.offerAt(stage, g, check.Check{}, model.Problem{Text: notComputed})
		return
	}
	pit, err := water.PitOf(ctx, d.p, d.t, d.field)
	if err != nil {
		d.offerAt(stage, g, check.Check{}, err)
		return
	}
	q := quantity.Of("Q", pit.Inflow(), quantity.Flow)
	c := check.Check{ID: g.id, Title: g.title, Part: g.part, Method: "Computed flow to the faces and the floor of the cut", Source: srcFlowIn + "; " + drain.SrcFirstDays,
		Demand: q, Ratio: math.NaN(), RatioLRFD: math.NaN(),
		Assumptions: []string{"the flow computed is that of the wet season once the hill has drained to the cut: in the first days more comes, and what rain falls into the cut and runs to it is extra", "the corners count in both sections: an upper figure",
			"with the box set no more comes in, as the cut is no deeper"},
		Validity: "As near as the permeability of the hill is known, seldom better than ten times: the working has the range.",
		Working: []check.Line{
			{Text: "By the long section, over the width of the cut", Formula: "Q1 = q1·B", Source: srcFlowIn, Result: quantity.Of("Q1", pit.Back, quantity.Flow),
				Terms: []quantity.Q{quantity.Of("q1", pit.Long.Sums.Within, quantity.LineFlow), quantity.Of("B", pit.Width, quantity.Length)}},
			{Text: "By the cross section in the middle, over the length of the cut", Formula: "Q2 = q2·L", Source: srcFlowIn, Result: quantity.Of("Q2", pit.Sides, quantity.Flow),
				Terms: []quantity.Q{quantity.Of("q2", pit.Cross.Sums.Within, quantity.LineFlow), quantity.Of("L", pit.Length, quantity.Length)}},
			{Text: "Together", Formula: "Q = Q1 + Q2", Source: "derived", Result: q},
		}}
	if pit.Rough() {
		c.Validity += " " + roughWords
	}
	d.dupuit(&c, view, pit)
	d.againstPump(&c, q)
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

// dupuit adds the inflow by hand as a second figure: to the back face of the
// cut, over a tight floor where the computed section ends.
func (d *drainage) dupuit(c *check.Check, v *section.View, pit *water.Pit) {
	far := d.field.Far[model.WaterSeasonal]
	if far == nil {
		return
	}
	level, ok := far.Table.At(v.Crest[0])
	so, okSoil := v.SoilBelow(v.Toe[0])
	foot := footOf(pit.Long)
	if !ok || !okSoil || so.Kx <= 0 {
		return
	}
	in := drain.CutIn{H: level - foot, Low: v.Formation - foot, K: so.Kx, Length: pit.Width, Reach: drain.TrenchReach}
	f, err := drain.CutInflow(in)
	if err != nil {
		c.Assumptions = append(c.Assumptions, "Dupuit's formula, for comparison, does not hold here: "+err.Error())
		return
	}
	c.Working = append(c.Working, check.Line{Text: "For comparison: to the back face alone, over the foot of the section as a tight floor", Formula: "Qh = K·(H² − h²)/(2·L)·B, L = 2000·(H − h)·√K",
		Source: "Dupuit with Sichardt's reach (memory)", Result: quantity.Of("Qh", f.Steady, quantity.Flow),
		Terms: []quantity.Q{quantity.Of("K", in.K, quantity.Permeability), quantity.Of("H", in.H, quantity.Length), quantity.Of("h", in.Low, quantity.Length),
			quantity.Of("B", in.Length, quantity.Length)}})
}

// footOf is the level of the foot of a computed section below the middle of its
// cut, m.
func footOf(s *water.State) float64 {
	m := s.Flow.Mesh
	x, best, foot := s.View.Toe[0], math.Inf(1), 0.0
	for _, l := range m.Lines {
		if off := math.Abs(l.X - x); off < best {
			best, foot = off, m.Nodes[l.First][1]
		}
	}
	return foot
}
