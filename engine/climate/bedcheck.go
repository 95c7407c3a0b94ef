package climate

import (
	"hillset/engine/check"
	"hillset/engine/earth/limit"
	q "hillset/engine/quantity"
)

// BedIn is a founding in front of which the ground freezes.
type BedIn struct {
	Reach float64      // depth of frost below the ground in front, m
	Lines []check.Line // how it came about
	Frost *Frost       // what it came from; nil where the depth was given
	Foot  float64      // depth below that ground down to which nothing heaves, m
	Fines float64      // of the soil below, share finer than 0.075 mm
	Soil  Soil         // below
	Beam  bool         // a beam across the front reaches down to Foot
}

// BedCheck compares the depth of frost with that of the founding, where the
// soil below heaves, and the fines of that soil with the limit where it does not.
func BedCheck(in BedIn) (check.Check, error) {
	heaves, err := Susceptible(in.Fines)
	err = limit.First(err, limit.Within("reach", in.Reach, 0, 20, q.Length), limit.Within("foot", in.Foot, -20, 50, q.Length))
	if err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "frost-bed", Title: "Frost below the front of the box", Part: "pads", Method: "Depth of frost against depth of the founding", Source: srcFrost + "; " + srcFines,
		Assumptions: []string{"frost comes from the ground in front, kept as bare in winter as was said", "the rock of the bed is drained", "the room itself does not freeze: frost from inside is not counted"},
		Validity:    "One dimension: what reaches in sideways below the front is not counted. How far soil with ice lenses lifts is found by a test only."}
	if in.Beam {
		c.Assumptions = append(c.Assumptions, "the beam across the front keeps the frost from the soil behind it")
	}
	fines := q.Of("fines", in.Fines, q.Share)
	c.Working = append(append(c.Working, in.Lines...), check.Step("Fines of the soil below the founding", "fines", srcFines, fines))
	if !heaves {
		judge(&c, fines, q.Of("limit", MostFines, q.Share), "")
		c.Working = append(c.Working, check.Step("It does not heave", "r = fines/limit", srcFines, q.Of("r", c.Ratio, q.Ratio), fines, c.Capacity))
		return c, nil
	}
	reach, foot := q.Of("X", in.Reach, q.Length), q.Of("d", in.Foot, q.Length)
	heave, err := Heave(in.Soil, in.Reach)
	if err != nil {
		return check.Check{}, err
	}
	remedy, values := "found at {0} below the ground in front on rock that does not heave, or a beam across the front as deep", []q.Q{reach}
	if in.Frost != nil && in.Foot > 0 {
		r, err := InsulationFor(*in.Frost, in.Foot)
		if err != nil {
			return check.Check{}, err
		}
		if r > 0 {
			remedy, values = remedy+", or insulation of {1} on the ground in front as wide as the frost is deep", append(values, q.Of("R", r, q.Insulation))
		}
	}
	judge(&c, reach, foot, remedy, values...)
	c.Working = append(c.Working,
		check.Step("Depth down to which nothing heaves", "d = ground in front − foot", srcFrost, foot),
		check.Step("Lift by its own water, without ice lenses", "Δ = 0.09·n·Sr·X", "swelling of water that freezes; lenses as Konrad and Morgenstern (memory)", q.Of("Δ", heave, q.Thickness)),
		check.Step("Frost against founding", "r = X/d", srcFrost, q.Of("r", c.Ratio, q.Ratio), reach, foot))
	return c, nil
}

// FillCheck compares the fines of what lies against the walls, as deep as frost
// goes, with the limit above which soil heaves.
func FillCheck(fines float64) (check.Check, error) {
	if _, err := Susceptible(fines); err != nil {
		return check.Check{}, err
	}
	c := check.Check{ID: "frost-fill", Title: "Fill in the frost zone", Part: "fill", Method: "Field proxy for soil that heaves", Source: srcFines,
		Assumptions: []string{"topsoil and cap on top heave upwards, free of the box"},
		Validity:    "Heave needs soil that heaves, frost and water: one of them taken away is enough. A wet fill that does not heave by itself still wants a drain."}
	f, most := q.Of("fines", fines, q.Share), q.Of("limit", MostFines, q.Share)
	judge(&c, f, most, "rock or sand with no more than {0} passing No. 200 against walls and roof as deep as frost goes, drained", most)
	c.Working = append(c.Working, check.Step("Share finer than No. 200", "r = fines/limit", srcFines, q.Of("r", c.Ratio, q.Ratio), f, most))
	return c, nil
}
