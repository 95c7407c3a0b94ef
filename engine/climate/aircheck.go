package climate

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// Vent is what lets air through: Openings or Pipes.
type Vent interface {
	// Flow is the air through it, m3/s, by the temperatures inside and outside,
	// °C: positive upwards.
	Flow(ti, to float64) (float64, error)
}

// VentIn is a vent in one season.
type VentIn struct {
	Vent            Vent
	Season          string // as in "winter"
	Inside, Outside float64
	People          People
}

// VentCheck compares the fresh air that people need with the flow that warmth
// alone drives through the vents.
func VentCheck(in VentIn) (check.Check, error) {
	flow, err := in.Vent.Flow(in.Inside, in.Outside)
	if err := limit.First(err, in.People.validate(), limit.AtLeast("people", in.People.N, 1, q.None)); err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "fresh-air", Title: "Fresh air through the vents", Part: "room", Method: "Stack flow", Source: srcStack + "; " + srcFEMA,
		Assumptions: []string{"no wind", "the vents are open, and their area or bore is that left free by screens", "the room is as warm as without heating and without people"},
		Validity: "The " + in.Season + " is shown, as the weaker of the two. Where inside and outside are equally warm, in spring and autumn and on mild days, no air moves at all: " +
			"leave the door open, or turn a fan by hand or by a battery."}
	need := q.Of("Q,need", in.People.N*ShelterAir, q.AirFlow)
	have := q.Of("Q", math.Abs(flow), q.AirFlow)
	ti, to := q.Of("Ti", in.Inside, q.Temperature), q.Of("To", in.Outside, q.Temperature)
	remedy, values := "wider vents, further apart in height, or fewer people", []q.Q(nil)
	switch v := in.Vent.(type) {
	case Openings:
		if a, err := AreaFor(need.Val, math.Max(v.Apart, 0.01), v.Cd, in.Inside, in.Outside); err == nil {
			remedy, values = "two openings of {0} net each, or further apart in height, or fewer people", []q.Q{q.Of("A", a, q.Area)}
		}
		level, err := v.Neutral()
		if err != nil {
			return check.Check{}, err
		}
		c.Working = append(c.Working,
			check.Step("Both openings as one", "Ae = A1·A2/√(A1² + A2²)", srcStack, q.Of("Ae", v.effective(), q.Area), q.Of("A1", v.Low, q.Area), q.Of("A2", v.High, q.Area)),
			check.Step("Flow by warmth, "+in.Season, "Q = Cd·Ae·√(2·g·H·ΔT/T)", srcStack, have, q.Of("Cd", v.Cd, q.None), q.Of("H", v.Apart, q.Length), ti, to),
			check.Step("Height above the low opening at which no air moves", "h/(H − h) = (A2/A1)²", srcStack, q.Of("h", level, q.Length)))
	case Pipes:
		c.Source += "; " + srcPipes
		c.Working = append(c.Working,
			check.Step("Draught, "+in.Season, "Δp = (ρo − ρi)·g·H", srcPipes, q.Of("Δp", math.Abs(v.draught(in.Inside, in.Outside)), q.VapourPressure), ti, to, q.Of("H", v.Apart, q.Length)),
			check.Step("Flow at which the pipes lose as much", "Δp = ρ·V²/2·(ΣK + f·ΣL/d), Q = V·π·d²/4", srcPipes, have, q.Of("d", v.Bore, q.Thickness), q.Of("ΣL", v.Low+v.High, q.Length), q.Of("ΣK", 2*v.Fittings, q.None)))
	}
	judge(&c, need, have, remedy, values...)
	c.Working = append(c.Working, check.Step("Air for the people", "Q,need = N·q", srcFEMA, need, q.Of("N", in.People.N, q.None), q.Of("q", ShelterAir, q.AirFlow)))
	if flow != 0 {
		steady, err := in.People.Steady(math.Abs(flow))
		if err != nil {
			return check.Check{}, err
		}
		c.Working = append(c.Working, check.Step("Carbon dioxide that it comes to", "C = C0 + N·G/Q", srcCO2, q.Of("C", steady, q.Share), q.Of("C0", in.People.Start, q.Share), q.Of("G", in.People.CO2, q.AirFlow)))
	}
	c.Working = append(c.Working, check.Step("Need against flow", "r = Q,need/Q", srcFEMA, q.Of("r", c.Ratio, q.Ratio), need, have))
	return c, nil
}

// ClosedCheck compares the hours that people are inside with everything closed
// with those until carbon dioxide reaches 1 %. o2 is the oxygen that each takes
// in, m3/s.
func ClosedCheck(p People, hours, o2 float64) (check.Check, error) {
	if err := limit.First(p.validate(), limit.AtLeast("people", p.N, 1, q.None), limit.Within("hours", hours, 0.01, 1e4, q.Hours), limit.Within("oxygen of one", o2, p.CO2, 1e-3, q.AirFlow)); err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "closed-air", Title: "Air of the closed room", Part: "room", Method: "Balance of carbon dioxide", Source: srcCO2 + "; " + srcLimit,
		Assumptions: []string{"nothing comes in and nothing goes out", "the room is empty but for the people: what is stored takes of the air", "nobody works, and nothing burns"},
		Validity:    "People at rest. Roots and apples in store breathe too: air the room before anybody goes in to stay."}
	wanted := q.Of("t,want", hours, q.Hours)
	c.Working = append(c.Working, check.Step("Carbon dioxide of one person", "G", srcCO2, q.Of("G", p.CO2, q.AirFlow)))
	var first q.Q
	for i, share := range []float64{CO2Weighted, CO2Two, CO2Ceiling} {
		s, err := p.Seconds(share, 0)
		if err != nil {
			return check.Check{}, err
		}
		t := q.Of([]string{"t1", "t2", "t3"}[i], s/3600, q.Hours)
		if i == 0 {
			first = t
		}
		c.Working = append(c.Working, check.Step([]string{"Hours to one percent", "Hours to two percent", "Hours to three percent, never more"}[i], "t = (C − C0)·V/(N·G)", srcCO2, t,
			q.Of("C", share, q.Share), q.Of("C0", p.Start, q.Share), q.Of("V", p.Volume, q.Volume), q.Of("N", p.N, q.None)))
	}
	left, err := p.OxygenAt(CO2Ceiling, o2/p.CO2)
	if err != nil {
		return check.Check{}, err
	}
	judge(&c, wanted, first, "open vents or a door within {0}, or fewer people", first)
	c.Working = append(c.Working,
		check.Step("Oxygen left at three percent", "O = 20.95 % − (C − C0)·o/G", srcCO2, q.Of("O", left, q.Share), q.Of("o", o2, q.AirFlow)),
		check.Step("Hours wanted against hours to one percent", "r = t,want/t1", srcLimit, q.Of("r", c.Ratio, q.Ratio), wanted, first))
	return c, nil
}

// DampCheck compares the air that carries off the moisture of people, held at a
// humidity, with the flow of the vents, m3/s.
func DampCheck(d Damp, outside Air, humidity, flow float64) (check.Check, error) {
	need, ok, err := d.FlowFor(outside, humidity)
	if err := limit.First(err, limit.Within("flow", flow, 0, 1e3, q.AirFlow), limit.Positive("moisture", d.Give*3600, q.None)); err != nil {
		return check.Check{}, err
	}
	wet, err := d.SecondsToWet()
	if err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "moisture", Title: "Moisture of the people carried off", Part: "room", Method: "Balance of water in the air", Source: srcMoist + "; " + srcLatent,
		Assumptions: []string{"walls and what is stored take up no water", "winter, the vents open and driven by warmth alone"},
		Validity:    "In summer air from outside may bring more water than it takes: keep the vents closed while the dew point outside is above the temperature of the walls."}
	held := Air{d.Room.T, humidity}
	c.Working = []check.Line{
		check.Step("Moisture of the people", "m = N·latent/2.43 MJ/kg", srcLatent, q.Of("m", d.Give, q.Moisture)),
		check.Step("With everything closed the air is saturated after", "t = (ws − wi)·V/m", srcMoist, q.Of("t", wet, q.Duration), q.Of("V", d.Volume, q.Volume)),
		check.Step("Water in the air outside", "wo = φ·psat/(Rv·T)", srcDensity, q.Of("wo", outside.water(), q.Humidity), q.Of("φ", outside.RH, q.Share), q.Of("To", outside.T, q.Temperature)),
		check.Step("Water in the room as it is wanted", "wi = φ·psat/(Rv·T)", srcDensity, q.Of("wi", held.water(), q.Humidity), q.Of("φ", humidity, q.Share), q.Of("Ti", d.Room.T, q.Temperature)),
	}
	if !ok {
		return check.Check{}, &limit.Error{Field: "humidity outside", Value: outside.RH, Lo: 0, Hi: held.water() / (outside.water() / outside.RH), Kind: q.None, Why: "the air outside brings more water than the room is to hold"}
	}
	have, want := q.Of("Q", flow, q.AirFlow), q.Of("Q,need", need, q.AirFlow)
	judge(&c, want, have, "wider vents, or fewer people: {0} of fresh air", want)
	c.Working = append(c.Working,
		check.Step("Air that carries it off", "Q,need = m/(wi − wo)", srcMoist, want),
		check.Step("Need against flow", "r = Q,need/Q", srcMoist, q.Of("r", c.Ratio, q.Ratio), want, have))
	return c, nil
}
