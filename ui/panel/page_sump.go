package panel

import (
	"hillset/engine/drain"
	"hillset/engine/model"
	"hillset/engine/quantity"
	"hillset/ui/units"
)

func hasSump(p *model.Project) bool  { return drainOf(p).Outlet == outletSump }
func hasSwale(p *model.Project) bool { return drainOf(p).Swale }

// litreMinute is a litre a minute in m3/s, as a plate of a pump has it.
const litreMinute = 1e-3 / 60

// What a sump gets until something else is typed. All common practice: a basin
// that a man can clean, a small pump of little worth, a day until somebody
// comes, and three days without sun in the wettest month.
const (
	sumpBore       = 0.6  // m
	sumpLive       = 0.3  // m
	sumpRate       = 40.0 // litres a minute
	sumpEfficiency = 0.2
	sumpReaction   = 24.0 // h
	sumpSun        = 2.0  // h
	sumpDays       = 3.0
	sumpFittings   = 5.0 // foot valve, check valve and bends together
	sumpRiser      = "pvc-1.5"
)

// startSump fills in what a sump needs. Its lift and the length of its pipe are
// asked for.
func (w *Window) startSump(p *model.Project) {
	s := &p.Defence.Sump
	fillIn(&drainOf(p).SumpBore, sumpBore)
	fillIn(&s.Live, sumpLive)
	fillIn(&s.Rate, sumpRate)
	fillIn(&s.Efficiency, sumpEfficiency)
	fillIn(&s.Reaction, sumpReaction)
	fillIn(&s.SunHours, sumpSun)
	fillIn(&s.Days, sumpDays)
	fillIn(&s.Fittings, sumpFittings)
	if _, ok := w.tables.PumpPipe(sumpRiser); ok {
		fillIn(&s.Riser, sumpRiser)
	}
}

// sumpRows are the basin, its pump and what drives it.
func (w *Window) sumpRows() []row {
	s := func(p *model.Project) *model.Sump { return &p.Defence.Sump }
	return when(hasSump,
		head("Sump and pump"),
		w.num("Bore of the sump", "", quantity.Length, func(p *model.Project) *float64 { return &drainOf(p).SumpBore }).or("not given"),
		w.num("Live depth", "between the levels at which the pump starts and stops", quantity.Length, func(p *model.Project) *float64 { return &s(p).Live }).or("not given"),
		w.num("Pump, rate at its head", "", quantity.Flow, func(p *model.Project) *float64 { return &s(p).Rate }).in(litreMinute).or("not given"),
		w.num("Pump, efficiency", "of pump and motor together, 0 to 1", quantity.None, func(p *model.Project) *float64 { return &s(p).Efficiency }).or("not given"),
		w.num("Lift", "from the low level to the outlet", quantity.Length, func(p *model.Project) *float64 { return &s(p).Lift }).or("not given"),
		w.riserPick(),
		w.num("Pipe of the pump, length", "", quantity.Length, func(p *model.Project) *float64 { return &s(p).RiserLen }).or("not given"),
		w.num("Pipe of the pump, fittings", "sum of their loss coefficients", quantity.None, func(p *model.Project) *float64 { return &s(p).Fittings }),
		w.num("Somebody mends it within", "from the stop of the pump", quantity.Hours, func(p *model.Project) *float64 { return &s(p).Reaction }),
		w.num("Battery", "", quantity.Energy, func(p *model.Project) *float64 { return &s(p).Battery }).or("none"),
		w.num("Solar panels", "at full sun", quantity.Power, func(p *model.Project) *float64 { return &s(p).Panels }).or("none"),
		w.num("Full hours of sun a day", "in the wettest month", quantity.Hours, func(p *model.Project) *float64 { return &s(p).SunHours }).or("not given"),
		w.num("Days without sun", "that the battery is to bear", quantity.None, func(p *model.Project) *float64 { return &s(p).Days }))
}

// riserPick chooses the pipe from the pump.
func (w *Window) riserPick() row {
	pipes := func(*model.Project) (ids, names []string) {
		ids, names = []string{""}, []string{"not chosen"}
		for _, id := range w.tables.PumpPipeIDs() {
			t, _ := w.tables.PumpPipe(id)
			ids, names = append(ids, id), append(names, t.Name)
		}
		return ids, names
	}
	return w.pick("Pipe of the pump", "", pipes, func(p *model.Project) *string { return &p.Defence.Sump.Riser })
}

// What a swale gets until something else is typed (common practice: a shallow
// ditch that can be mown).
const (
	swaleBottom = 0.5  // m
	swaleSide   = 3.0  // H:V
	swaleFall   = 0.02 // m per m
	swaleRoom   = 0.3  // m
	swaleYears  = 10.0 // the storm of the table of runoff coefficients
	swaleLining = "mixture"
)

func startSwale(p *model.Project) {
	r := &p.Defence.Runoff
	fillIn(&r.Bottom, swaleBottom)
	fillIn(&r.SwaleSide, swaleSide)
	fillIn(&r.SwaleFall, swaleFall)
	fillIn(&r.SwaleRoom, swaleRoom)
	fillIn(&r.Years, swaleYears)
	fillIn(&r.Lining, swaleLining)
}

// swaleRows are the ditch above the box and the ground that drains to it.
func (w *Window) swaleRows() []row {
	r := func(p *model.Project) *model.Runoff { return &p.Defence.Runoff }
	rows := []row{head("Rain on the surface"), w.tickBy("Swale above the box", hasSwale, func(p *model.Project, on bool) {
		drainOf(p).Swale = on
		if on {
			startSwale(p)
		}
	})}
	return append(rows, when(hasSwale,
		w.remark(stormToLookUp),
		w.num("Ground that drains to it", "", quantity.Area, func(p *model.Project) *float64 { return &r(p).Area }).or("not given"),
		w.pick("Its cover", "runoff coefficient", listed(w.tables.RunoffIDs(), func(id string) string { t, _ := w.tables.Runoff(id); return t.Name }), func(p *model.Project) *string { return &r(p).Cover }),
		w.pick("Its cover, for the curve number", "", listed(w.tables.CurveNumberIDs(), func(id string) string { t, _ := w.tables.CurveNumber(id); return t.Name }), func(p *model.Project) *string { return &r(p).Curve }),
		w.pick("Soil group", "how fast it takes water", fixed("", "not chosen", "A", "A: sand, gravel", "B", "B: sandy loam", "C", "C: clay loam", "D", "D: clay"), func(p *model.Project) *string { return &r(p).Group }),
		w.num("Longest way of the water", "", quantity.Length, func(p *model.Project) *float64 { return &r(p).Length }).or("not given"),
		w.num("Slope of that way", "", quantity.Gradient, func(p *model.Project) *float64 { return &r(p).Slope }).or("not given"),
		w.num("Storm, once in", "", quantity.Years, func(p *model.Project) *float64 { return &r(p).Years }).or("not given"),
		w.num("Rain of a day in that storm", "", quantity.Thickness, func(p *model.Project) *float64 { return &r(p).Rain24 }).in(mm).or("not given"),
		w.num("Swale, bottom", "", quantity.Length, func(p *model.Project) *float64 { return &r(p).Bottom }),
		w.num("Swale, sides", "", quantity.Slope, func(p *model.Project) *float64 { return &r(p).SwaleSide }),
		w.num("Swale, fall", "", quantity.Gradient, func(p *model.Project) *float64 { return &r(p).SwaleFall }).or("not given"),
		w.num("Swale, depth", "", quantity.Length, func(p *model.Project) *float64 { return &r(p).SwaleRoom }).or("not given"),
		w.pick("Swale, grown with", "", listed(w.tables.LiningIDs(), func(id string) string { t, _ := w.tables.Lining(id); return t.Name }), func(p *model.Project) *string { return &r(p).Lining }),
		w.tick("Its soil washes out easily", func(p *model.Project) *bool { return &r(p).Erodes }))...)
}

// stormToLookUp says how long the storm lasts whose intensity page 1 asks for: as
// long as the water needs to the swale. An hour of rain is far less hard than ten
// minutes of it.
func stormToLookUp(p *model.Project, sys units.System) string {
	r := &p.Defence.Runoff
	if tc, err := drain.Kirpich(r.Length, r.Slope); err == nil {
		if long, _, err := drain.StormDuration(tc, false); err == nil {
			return "The design rain on page 1 is that of a storm of " + units.Format(long, quantity.Duration, sys) + ", which is how long the water needs to the swale, ten minutes at least. The mean of a longer storm is too little."
		}
	}
	return "The design rain on page 1 is that of a storm that lasts as long as the water needs to the swale, ten minutes at least. Length and slope of its way, below, tell how long that is."
}

// listed offers rows of a table after the words for none.
func listed(ids []string, name func(id string) string) options {
	pairs := []string{"", "not chosen"}
	for _, id := range ids {
		pairs = append(pairs, id, name(id))
	}
	return fixed(pairs...)
}
