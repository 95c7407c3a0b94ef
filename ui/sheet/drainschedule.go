package sheet

import (
	"fmt"
	"math"

	"hillset/engine/assess"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/engine/tables"
	"hillset/ui/units"
)

// DrainSchedule lists what is built to take the water away, line by line: what
// and how much. None where there is no drain.
func DrainSchedule(r *assess.Result, t *tables.Set, sys units.System) [][2]string {
	p := r.Project
	d := &p.Defence.Drain
	pl, err := assess.DrainPlanOf(r, t)
	if err != nil || !d.Present && !d.Uphill {
		return nil
	}
	s := &schedule{p: p, sys: sys}
	s.pipe(t)
	if d.Present {
		s.round(t, &pl)
		if d.Outlet != "sump" {
			s.outlet(&pl)
		}
	}
	if d.Outlet == "sump" {
		s.sump()
	} else {
		s.onSite(t)
	}
	switch {
	case d.Uphill && d.UphillDepth <= 0:
		s.add("Interceptor uphill", "planned, but its depth is not given: not counted")
	case d.Uphill:
		s.add("Interceptor uphill", fmt.Sprintf("%s uphill of the crest of the cut, invert %s below the ground as found", s.len(d.UphillAway), s.len(d.UphillDepth)))
	}
	return s.rows
}

// schedule is a drain schedule being written.
type schedule struct {
	p    *model.Project
	sys  units.System
	rows [][2]string
}

func (s *schedule) add(what, how string)   { s.rows = append(s.rows, [2]string{what, how}) }
func (s *schedule) len(v float64) string   { return units.Format(v, quantity.Length, s.sys) }
func (s *schedule) level(v float64) string { return units.FormatLevel(v, s.sys) }

// thick writes a bore or a layer in whole millimetres or tenths of an inch.
func (s *schedule) thick(v float64) string {
	if s.sys == units.US {
		return units.Number(v/0.0254, 1) + " in"
	}
	return units.Number(v*1000, 0) + " mm"
}
func (s *schedule) gradient(v float64) string { return units.Format(v, quantity.Gradient, s.sys) }

// pipe is the pipe of all drains.
func (s *schedule) pipe(t *tables.Set) {
	d := &s.p.Defence.Drain
	name := "not chosen"
	if row, ok := t.Pipe(d.Pipe); ok {
		name = row.Name
	}
	s.add("Pipe", name)
	s.add("Bore and fall", s.thick(d.Diameter)+", "+s.gradient(d.Fall))
}

// round is the drain round the box.
func (s *schedule) round(t *tables.Set, pl *assess.DrainPlan) {
	s.add("Lengths", fmt.Sprintf("%s behind the box, %s along each side", s.len(pl.Back), s.len(pl.Side)))
	s.add("Invert, middle behind the box", s.level(pl.Top))
	s.add("Invert, back corners", s.level(pl.Corner))
	s.add("Invert, front corners", s.level(pl.End))
	under, _ := t.DrainRule("stone-below")
	s.add("Stone round the pipe", fmt.Sprintf("%s wide, at least %s under the pipe", s.len(s.p.Fill.RockWidth), s.thick(under.Value)))
	s.add("Clean-outs", "5: at the middle behind the box and at every corner, of the bore of the pipe")
}

// onSite lists what an outlet by gravity must have that is not in the project.
func (s *schedule) onSite(t *tables.Set) {
	for _, id := range []string{"outlet-solid", "outlet-drop"} {
		r, ok := t.DrainRule(id)
		if !ok {
			panic("sheet: no rule " + id)
		}
		s.add("To be kept on site", fmt.Sprintf("%s: %s at least; not checked (%s)", lowerFirst(r.Name), s.len(r.Value), r.Src.Mark))
	}
}

// outlet is the pipe from the front corners to daylight.
func (s *schedule) outlet(pl *assess.DrainPlan) {
	o := &pl.Outlet
	switch {
	case pl.Bare:
		s.add("Outlet", "the drain lies above the ground in front of the box already")
	case pl.Fault != nil:
		s.add("Outlet", "not found: "+units.Say(assess.Words(pl.Fault), s.sys))
	case !o.Daylight:
		s.add("Outlet", fmt.Sprintf("no daylight within %s at this fall; the drain would have to start at %s or higher in front of the box, or a sump is needed", s.len(o.Run), s.level(o.LowestStart)))
	default:
		s.add("Outlet", fmt.Sprintf("daylight %s in front of the box, at level %s, after %s of pipe", s.len(o.Run), s.level(o.At[1]), s.len(o.Length)))
		s.add("Trench of the outlet", fmt.Sprintf("%s deep at most, %s in the mean", s.len(o.Deepest), s.len(o.Mean)))
		if o.Shallow > 0 && pl.Frost > 0 {
			s.add("Above frost depth", fmt.Sprintf("%s of the outlet have less cover than %s", s.len(o.Shallow), s.len(pl.Frost)))
		}
	}
}

// sump is the basin and its pump.
func (s *schedule) sump() {
	u := &s.p.Defence.Sump
	s.add("Sump", fmt.Sprintf("bore %s, depth between the levels of the pump %s", s.given(s.p.Defence.Drain.SumpBore), s.given(u.Live)))
	rate := "rate not given"
	if u.Rate > 0 {
		rate = units.Format(u.Rate/60000, quantity.Flow, s.sys)
	}
	s.add("Pump", rate+", lift "+s.given(u.Lift))
}

func (s *schedule) given(v float64) string {
	if v == 0 || math.IsNaN(v) {
		return "not given"
	}
	return s.len(v)
}
