package drain

import (
	"math"

	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

const (
	srcEnergy  = "E = ρ·g·V·H/η (derived)"
	srcBattery = "battery and panels from the energy of a day (memory)"
)

// SupplyIn is a pump that runs from a battery and solar panels.
type SupplyIn struct {
	Head       float64 // m
	Rate       float64 // of the pump, m3/s
	Inflow     float64 // mean of the wettest week, m3/s
	Efficiency float64 // pump and motor together, 0.15 to 0.35 for small ones
	Days       float64 // without sun
	Depth      float64 // share of the battery that may be used
	Line       float64 // efficiency of charger, inverter and line
	SunHours   float64 // full hours of sun a day in the wettest month
	Derate     float64 // of the panels: heat, dirt, tilt
	Volts      float64 // of the battery; 0 leaves AmpHours at 0
	Battery    float64 // there is, Wh
	Panels     float64 // there are, W at full sun
}

// Supply is the power and energy that the pump asks for.
type Supply struct {
	Power    float64 // drawn while it runs, W
	HoursDay float64 // h that it runs in a day
	PerCubic float64 // Wh per m3
	Day      float64 // Wh a day
	Battery  float64 // Wh
	AmpHours float64
	Panels   float64 // W at full sun
	Autonomy float64 // days that Battery of the input lasts; +Inf without inflow
}

func (in *SupplyIn) validate() error {
	err := limit.First(
		limit.Within("head", in.Head, 0.01, 200, q.Length),
		limit.Within("rate", in.Rate, leastPump, mostPump, q.Flow),
		limit.Within("efficiency", in.Efficiency, 0.02, 0.9, q.None),
		limit.Within("days", in.Days, 0, 60, q.None),
		limit.Within("depth", in.Depth, 0.1, 1, q.None),
		limit.Within("line", in.Line, 0.3, 1, q.None),
		limit.Within("sun_hours", in.SunHours, 0.1, 12, q.Hours),
		limit.Within("derate", in.Derate, 0.1, 1, q.None),
		limit.Within("volts", in.Volts, 0, 1000, q.None),
		limit.Within("battery", in.Battery, 0, 1e7, q.Energy),
		limit.Within("panels", in.Panels, 0, 1e6, q.Power))
	if err != nil {
		return err
	}
	if err := limit.Within("inflow", in.Inflow, 0, in.Rate, q.Flow); err != nil {
		err.(*limit.Error).Why = "the pump cannot keep up"
		return err
	}
	return nil
}

// FindSupply works out energy, battery and panels for a pump.
func FindSupply(in SupplyIn) (Supply, error) {
	if err := in.validate(); err != nil {
		return Supply{}, err
	}
	s := Supply{
		Power:    density * gravity * in.Rate * in.Head / in.Efficiency,
		HoursDay: 24 * in.Inflow / in.Rate,
		PerCubic: density * gravity * in.Head / in.Efficiency / 3600,
	}
	s.Day = s.Power * s.HoursDay
	s.Battery = s.Day * in.Days / (in.Depth * in.Line)
	if in.Volts > 0 {
		s.AmpHours = s.Battery / in.Volts
	}
	s.Panels = s.Day / (in.Line * in.SunHours * in.Derate)
	s.Autonomy = math.Inf(1)
	if s.Day > 0 {
		s.Autonomy = in.Battery * in.Depth * in.Line / s.Day
	}
	return s, nil
}

// SupplyCheck compares battery and panels with what the pump asks for.
func SupplyCheck(in SupplyIn) (check.Check, error) {
	s, err := FindSupply(in)
	if err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "pump-supply", Title: "Battery and panels of the pump", Part: "sump", Method: "Energy of a day", Source: srcEnergy + "; " + srcBattery,
		Assumptions: []string{"overall efficiency as given: take it from the curve of the pump", "nothing else runs from the battery", "the battery is not frozen and not aged"},
		Validity:    "Design for the wettest week; the case of a dead pump is looked at all the same."}
	power, day := q.Of("P", s.Power, q.Power), q.Of("E", s.Day, q.Energy)
	battery, panels := q.Of("Breq", s.Battery, q.Energy), q.Of("Preq", s.Panels, q.Power)
	lineEff := q.Of("ηl", in.Line, q.Ratio)
	c.Working = append(c.Working,
		check.Step("Power drawn", "P = ρ·g·D·H/η", srcEnergy, power, q.Of("D", in.Rate, q.Flow), q.Of("H", in.Head, q.Length), q.Of("η", in.Efficiency, q.Ratio)),
		check.Step("Hours a day", "t = 24·Q/D", srcEnergy, q.Of("t", s.HoursDay, q.Hours), q.Of("Q", in.Inflow, q.Flow), q.Of("D", in.Rate, q.Flow)),
		check.Step("Energy a day", "E = P·t", srcEnergy, day, power, q.Of("t", s.HoursDay, q.Hours)),
		check.Step("Battery", "Breq = E·n/(DoD·ηl)", srcBattery, battery, day, q.Of("n", in.Days, q.None), q.Of("DoD", in.Depth, q.Ratio), lineEff),
		check.Step("Panels", "Preq = E/(ηl·s·k)", srcBattery, panels, day, lineEff, q.Of("s", in.SunHours, q.Hours), q.Of("k", in.Derate, q.Ratio)))
	govern(&c, []condition{
		{text: "Battery", formula: "r = Breq/B", src: srcBattery, demand: battery, capacity: q.Of("B", in.Battery, q.Energy), remedy: "a battery of {0}", remedyQ: battery},
		{text: "Panels", formula: "r = Preq/Pv", src: srcBattery, demand: panels, capacity: q.Of("Pv", in.Panels, q.Power), remedy: "panels of {0}", remedyQ: panels},
	})
	return c, nil
}
