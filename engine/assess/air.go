package assess

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/climate"
	"hillset/engine/model"
)

// vents gives what lets air through, or what is not given of it.
func (j *job) vents() (climate.Vent, []need) {
	v := &j.p.Room.Vents
	needs := []need{{"the vents", v.Kind != ""}}
	switch v.Kind {
	case model.OpeningVents:
		needs = append(needs, need{"the height between the vents", v.Apart > 0}, need{"the area of the low vent", v.Low > 0}, need{"the area of the high vent", v.High > 0})
		return climate.Openings{Low: v.Low, High: v.High, Apart: v.Apart, Cd: climate.Sharp}, needs
	case model.PipeVents:
		needs = append(needs, need{"the height between the vents", v.Apart > 0}, need{"the bore of the vent pipes", v.Bore > 0}, need{"the length of the low pipe", v.LowLen > 0},
			need{"the length of the high pipe", v.HighLen > 0}, need{"what bends and screens of the pipes lose", v.Fittings > 0})
		return climate.Pipes{Bore: v.Bore, Low: v.LowLen, High: v.HighLen, Apart: v.Apart, Fittings: v.Fittings}, needs
	}
	return nil, needs
}

// air checks what people breathe: by the vents, closed, and what they give off.
func (w *weather) air() {
	g, room, out := climateGaps, &w.p.Room, w.out
	person, ok := w.t.Person(room.Activity)
	out.Person = person
	who := []need{{"how many people may be inside", room.People > 0}, {"what they do", ok}}
	if room.People > 0 && ok {
		out.People = climate.People{Volume: w.box.InL * w.box.InW * w.box.InH, N: float64(room.People), CO2: person.CO2, Start: climate.CO2Outside}
	}
	vents, lets := w.vents()
	if notGiven(lets) == "" {
		out.Vents = vents
	}
	season := need{"the mean of the air over the year and half its range", out.Seasons}
	if !w.lacks(g.air, append(append(who, lets...), season)...) {
		w.fresh()
	}
	if !w.lacks(g.closed, append(who, need{"the hours that they may be inside with everything closed", room.Hours > 0})...) {
		c, err := climate.ClosedCheck(out.People, room.Hours, person.O2)
		w.offer(g.closed, c, err)
	}
	if !w.lacks(g.damp, append(append(who, lets...), season, need{"temperature and humidity wanted inside", out.Room != nil}, need{"the humidity of the air outside", w.p.Site.Climate.AirHumid > 0})...) {
		c, err := w.damp()
		w.offer(g.damp, c, err)
	}
}

// fresh checks the flow through the vents in winter and in summer: the worse
// counts.
func (w *weather) fresh() {
	out := w.out
	for _, s := range []struct {
		name string
		of   *Season
	}{{"winter", &out.Winter}, {"summer", &out.Summer}} {
		flow, err := out.Vents.Flow(s.of.Room, s.of.Outside)
		if err == nil {
			s.of.Flow = flow
		}
		c, err := climate.VentCheck(climate.VentIn{Vent: out.Vents, Season: s.name, Inside: s.of.Room, Outside: s.of.Outside, People: out.People})
		w.offer(climateGaps.air, c, err)
	}
}

// damp checks what carries off the moisture of the people in winter.
func (w *weather) damp() (check.Check, error) {
	out := w.out
	give, err := climate.Sweat(out.People.N, out.Person.Latent)
	if err != nil {
		return check.Check{}, err
	}
	room := *out.Room // as it is wanted
	outside := climate.Air{T: out.Winter.Outside, RH: w.p.Site.Climate.AirHumid}
	return climate.DampCheck(climate.Damp{Volume: out.People.Volume, Room: room, Give: give}, outside, room.RH, math.Abs(out.Winter.Flow))
}
