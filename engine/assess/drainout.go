package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/drain"
	"hillset/engine/model"
)

// away checks how the water leaves: by gravity down the hillside, or by a pump.
func (d *drainage) away() {
	if d.p.Defence.Drain.Outlet == "sump" {
		d.sump()
		return
	}
	g := gap{id: "drain-outlet", title: "Outlet of the drain by gravity", part: drainPart}
	if d.lacks(g, need{"the fall of the drain", d.p.Defence.Drain.Fall > 0}) {
		return
	}
	frost := FrostOf(d.p, d.t)
	if frost.Why != "" {
		d.offer(g, check.Check{}, model.Problem{Text: "the depth of frost: " + frost.Why})
		return
	}
	pl := planOfDrain(d.p, d.across, d.depth)
	pl.Frost = frost.Depth
	in, err := pl.outletIn(d.p, d.sr.view, d.frontX)
	if err != nil {
		d.offer(g, check.Check{}, err)
		return
	}
	c, _, err := drain.OutletCheck(in)
	if err == nil {
		c.Assumptions = append(c.Assumptions, "the drain falls in two runs from the middle behind the box to its front corners; the outlet goes on from there at the same fall")
	}
	d.offer(g, c, err)
}

// perMinute turns litres a minute into m3/s.
const perMinute = 1.0 / 60000

// sump checks basin and pump, the lift, battery and panels, and what happens
// when the pump stops.
func (d *drainage) sump() {
	s, dr := &d.p.Defence.Sump, &d.p.Defence.Drain
	rate := need{"the rate of the pump", s.Rate > 0}
	if g := (gap{id: "sump", title: "Sump and pump", part: sumpPart}); !d.unknown(g) && !d.lacks(g, rate, need{"the diameter of the basin", dr.SumpBore > 0}, need{"the depth between the levels of the pump", s.Live > 0}) {
		c, err := d.withFlow(drain.SumpCheck(drain.SumpIn{Rate: s.Rate * perMinute, Inflow: d.design(), Diameter: dr.SumpBore, Live: s.Live}))
		d.offer(g, c, err)
	}
	if head, ok := d.lift(rate); ok {
		d.supply(head)
	}
	d.stops()
}

// lift works out the head that the pump must give its rate at: it is read off
// the curve of the pump, which the project does not hold.
func (d *drainage) lift(rate need) (head float64, ok bool) {
	s := &d.p.Defence.Sump
	g := gap{id: "pump-head", title: "Head of the pump", part: sumpPart}
	row, has := d.t.PumpPipe(s.Riser)
	if d.lacks(g, rate, need{"the lift", s.Lift > 0}, need{"the pipe from the pump, a row of its table", has}, need{"its length", s.RiserLen > 0}) {
		return 0, false
	}
	in := drain.Riser{Flow: s.Rate * perMinute, Bore: row.Bore, Length: s.RiserLen, C: row.CAged, Roughness: row.Roughness, Minor: s.Fittings, Static: s.Lift}
	h, err := drain.Lift(in)
	if err != nil {
		d.offer(g, check.Check{}, err)
		return 0, false
	}
	c, err := drain.LiftCheck(in, h.Total)
	if err == nil {
		c.Missing = "read off the curve of your pump whether it gives its rate at this head"
		c.Ratio, c.Remedy = math.NaN(), ""
		c.Capacity.Val = math.NaN()
	}
	d.offer(g, c, err)
	return h.Total, err == nil
}

// What is taken of a battery and panels where the project does not say (memory).
const (
	batteryDepth = 0.5  // share that may be used
	lineLoss     = 0.85 // efficiency of charger, inverter and line
	panelDerate  = 0.75 // heat, dirt, tilt
)

// supply checks battery and panels.
func (d *drainage) supply(head float64) {
	s := &d.p.Defence.Sump
	g := gap{id: "pump-supply", title: "Battery and panels of the pump", part: sumpPart}
	if d.unknown(g) || d.lacks(g, need{"the efficiency of the pump", s.Efficiency > 0}, need{"the days without sun", s.Days > 0}, need{"the hours of sun", s.SunHours > 0},
		need{"the battery", s.Battery > 0}, need{"the panels", s.Panels > 0}) {
		return
	}
	c, err := d.withFlow(drain.SupplyCheck(drain.SupplyIn{Head: head, Rate: s.Rate * perMinute, Inflow: d.design(), Efficiency: s.Efficiency, Days: s.Days,
		Depth: batteryDepth, Line: lineLoss, SunHours: s.SunHours, Derate: panelDerate, Battery: s.Battery, Panels: s.Panels}))
	if err == nil {
		c.Assumptions = append(c.Assumptions, "half of the battery may be used, 85 % comes through charger and line, panels give 75 % of their rating (memory)")
	}
	d.offer(g, c, err)
}

// stops is what happens when the pump stops: the hours until the water reaches
// the underside of the box, and until the box may float.
func (d *drainage) stops() {
	g := gap{id: "pump-stops", title: "When the pump stops", part: sumpPart}
	s := &d.p.Defence.Sump
	if d.unknown(g) || d.lacks(g, need{"the hours until somebody has mended it", s.Reaction > 0}, need{"water: in no stage does any come to the drain", d.design() >= leastDrain}) {
		return
	}
	layers, invert := d.store()
	in := drain.StopIn{RiseIn: drain.RiseIn{Inflow: d.design(), Layers: layers}, Floor: d.p.Box.Level - invert, Reaction: s.Reaction}
	if b, err := d.body(d.sr); err == nil {
		if z, err := drain.FloatLevel(b.flotIn.Tare+b.flotIn.Permanent, d.depth*d.across, b.cover, b.flotIn.Gamma, d.box.H+b.build, b.flotIn.Required); err == nil {
			if top := in.Floor + z; top <= in.Top() {
				in.Float, in.HasFloat = top, true
			}
		}
	}
	c, err := d.withFlow(drain.StopCheck(in))
	if err == nil {
		c.Assumptions = append(c.Assumptions, "26 % of stone and bed fill with water, the low end; the inflow stays what it is, which is quicker than it falls off")
		if !in.HasFloat {
			c.Assumptions = append(c.Assumptions, "the water that would float the box stands above what the stone holds: see flotation with the drains blocked")
		}
	}
	d.offer(g, c, err)
}
