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

// pit tells what water comes into the open cut in the wet season, against the
// pump of the sump where one is given: the same pump may keep the cut dry. With
// the box set no more comes in, as the cut is no deeper.
func (d *drainage) pit(ctx context.Context, stages []stageResult) {
	g := gap{id: cutInflow, title: "Water into the open cut", part: "cut"}
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
	c := check.Check{ID: g.id, Title: g.title, Part: g.part, Method: "Computed flow to the faces and the floor of the cut", Source: srcFlowIn,
		Demand: q, Ratio: math.NaN(), RatioLRFD: math.NaN(),
		Assumptions: []string{"the water of the wet season, at rest: in the first days about 1.3 times as much comes (memory)", "the corners count in both sections: an upper figure",
			"with the box set no more comes in, as the cut is no deeper"},
		Validity: "As near as the permeability of the hill is known: ten times the permeability brings ten times the water.",
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

// againstPump holds the inflow against the pump, where there is one.
func (d *drainage) againstPump(c *check.Check, q quantity.Q) {
	const firstDays = 1.3 // memory
	need := quantity.Of("Qd", d.times*firstDays*q.Val, quantity.Flow)
	text := "In the first days"
	if d.times > 1 {
		text = "In the first days, and ten times as much as the permeability of the hill is not measured"
	}
	c.Working = append(c.Working, check.Line{Text: text, Formula: fmt.Sprintf("Qd = %g·Q", d.times*firstDays), Source: "memory", Terms: []quantity.Q{q}, Result: need})
	c.Demand = need
	rate := d.p.Defence.Sump.Rate * perMinute
	if rate <= 0 {
		c.Missing = "no pump is given to hold the inflow against: see the working for how much comes"
		return
	}
	c.Capacity, c.Ratio = quantity.Of("D", rate, quantity.Flow), need.Val/rate
	c.Assumptions = append(c.Assumptions, "the pump of the sump keeps the cut dry while it is open")
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
